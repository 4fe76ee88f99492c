/** What holds of every finding of every rule. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { judge, type Judgement } from '../../src/checks/judge';
import { RULES } from '../../src/checks/rules';
import { checkBleedBlocks } from '../../src/documents/bleed/kept';
import { loadBoat } from '../../src/language/load';
import { FACTS } from '../../src/language/vocabulary';
import type { Boat } from '../../src/model/boat';
import { SLOOP, TWIN, after, edit, load, strange, toldBy, without, type Texts } from './boats';

const EXAMPLES = new URL('../../examples/', import.meta.url);
const boats: [string, Texts][] = [...readdirSync(EXAMPLES).map((boat): [string, Texts] => [boat, Object.fromEntries(
    readdirSync(new URL(`${boat}/`, EXAMPLES)).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(new URL(`${boat}/${file}`, EXAMPLES), 'utf8')]),
)]), ['sloop', SLOOP], ['twin', TWIN], ['sloop without valves', without(SLOOP, 'shutoff V1 normally open')]];

test('sixty-eight rules, each with its own code', () => { expect(RULES.length).toBe(68); expect(new Set(RULES.map(({ code }) => code)).size).toBe(68); });

// No `tend`, so that a test may take any part away; and TWIN is about its selectors.
test.each([[SLOOP, ['TASK-SET']], [TWIN, ['FILTER-TWO', 'TASK-SET']]])('the boats that the tests start from have no other finding', async (text, codes) => {
    expect(judge((await load(text)).boat, '2026-09-01').findings.map(({ rule }) => rule.code)).toEqual(codes);
});

test.each(boats.filter(([name]) => name.endsWith('-mended')))('%s has no finding, its kept sequences included', async (_name, texts) => {
    const { boat } = await load(texts);
    expect([...judge(boat, '2026-09-01').findings, ...checkBleedBlocks(boat)].map(({ rule, about }) => `${rule.code} ${about}`)).toEqual([]);
});
/** What each boat was left with on purpose; every one of these is true of her text. */
test.each([
    ['ottilwake', ['HOSE-FIRE S1b', 'DRAIN-PLUGGED F1', 'RETURN-SHUT-IF-LOW T1.R1', 'VENT-HEEL VH1', 'PICKUP-HEEL T1.P1', 'ISOLATE-FILTER-OUT F1', 'NO-HUMP S2', 'PRIMER-REACH PR1', 'RESERVE Islands', 'SUCTION-BUDGET E1', 'VENT-ABOVE-FILL VH1', 'TASK-SET PR1', 'TASK-SET LP1', 'TASK-SET S1']],
    ['brackenwake', ['SHUT-AT-TANK S1', 'RETURN-NO-BLOCK SV2', 'HOSE-FIRE S1', 'SHUTOFF-BEFORE-FILTER F1', 'SHUTOFF-BEFORE-FILTER F2', 'RETURN-SHUT-IF-LOW T1.R1', 'RETURN-SHUT-IF-LOW T2.R1', 'SUCTION-BUDGET E1', 'BLEED-DRIVE BS1', 'VENT-AREA T2.vent', 'PICKUP-HEEL T1.P1', 'PICKUP-HEEL T2.P1', 'ISOLATE-FILTER-OUT F1', 'DRAINBACK F1', 'PRIMER-STROKES BS2', 'TASK-SET LP1', 'TASK-SET W1']],
])('%s', async (name, expected) => {
    const [, texts] = boats.find(([other]) => other === name)!;
    expect(judge((await load(texts)).boat, '2026-09-01').findings.map(({ rule, about }) => `${rule.code} ${about}`)).toEqual(expected);
});

/** Every fact that a rule says it rests on is a word of the language. */
const WORDS = new Set(Object.values(FACTS).flat().map(({ words }) => words));

/** The boat without a single number: no height, size, bore, length, level or angle. */
function numberless(value: unknown): unknown {
    if (Array.isArray(value)) return value.filter((item) => typeof item !== 'object' || item === null || !('value' in item && 'at' in item)).map(numberless);
    if (value instanceof Map || value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).filter(([key, inner]) => key !== 'box' && !(inner !== null && typeof inner === 'object' && 'si' in inner)).map(([key, inner]) => [key, numberless(inner)]));
}
/** Rules that speak of how things are joined; what they say does not hang on a number, only how heavily they say it. */
const TOPOLOGY = new Set(['BYPASS-CHECK', 'DUPLEX-ISOLATE', 'PUMP-OFF-PATH', 'SINGLE-POINT', 'SUPPLY-RETURN-MATCH', 'FILTER-TWO', 'HOSE-FIRE', 'PREFILL-POLICY', 'TASK-SET', 'NO-ORPHAN', 'BLEED-NOT-SUCTION', 'SHUT-AT-TANK', 'SHUTOFF-BEFORE-FILTER', 'RETURN-NO-BLOCK', 'PATH-ONE', 'CHECK-DIR', 'NO-UNFILTERED', 'PORT-ONCE', 'VENT-EXISTS', 'LINEUP-NAMED', 'TAG-UNIQUE']);
const outcomes = (judgement: Judgement): string[] => judgement.verdicts.filter(({ check }) => TOPOLOGY.has(check.code)).map(({ check, verdict }) => `${check.code} ${verdict.about} ${verdict.outcome}`);

describe.each(boats)('%s', (_name, texts) => {
    test('every missing fact is a noun with a way to find it out, and no words hold what is not there', async () => {
        const { findings, open } = judge((await load(texts)).boat);
        const facts = open.map(({ fact }) => fact);
        expect(findings.flatMap(strange)).toEqual([]);
        for (const { fact, how } of facts) expect(`${fact}: ${how}`).toMatch(/^(the|what|where|which|how) .*\w: \w.*\w/);
        expect(facts.map(({ fact, how }) => `${fact} ${how}`).filter((words) => /undefined|NaN|null|\[object/.test(words))).toEqual([]);
    });

    test('what a verdict rests on is there, and its facts are words of the language', async () => {
        const { boat } = await load(texts);
        const ids = new Set(['vessel', ...[...boat.tanks, ...boat.tanks.flatMap(({ fittings }) => fittings), ...boat.parts, ...boat.consumers, ...[...boat.parts, ...boat.consumers].flatMap(({ vents }) => vents), ...boat.lineUps].map(({ id }) => id)]);
        const grounds = judge(boat, '2026-09-01').verdicts.flatMap(({ verdict }) => ('rests' in verdict ? verdict.rests ?? [] : []));
        expect(grounds.length).toBeGreaterThan(0);
        expect(grounds.filter(({ about, fact }) => !ids.has(about) || (fact !== undefined && !WORDS.has(fact)))).toEqual([]);
    });

    test('without a number', async () => {
        const { boat } = await load(texts);
        const bare = judge(numberless(boat) as Boat);
        expect(outcomes(bare)).toEqual(outcomes(judge(boat)));
        expect(bare.findings.flatMap(strange)).toEqual([]);
        // Nothing can be found wrong with a number that nobody stated.
        expect(bare.findings.filter(({ rule }) => ['VENT-AREA', 'FILTER-ORDER', 'FILTER-FLOW', 'UNIT-OK', 'Z-KNOWN', 'ISOLATE-FILTER-IN', 'ISOLATE-FILTER-OUT', 'PICKUP-HEEL', 'VENT-HEEL', 'VENT-ABOVE-FILL', 'VENT-SELF-DRAIN', 'RETURN-SUBMERGED', 'HEAD-ON-OPEN', 'DRAIN-HEAD', 'SIPHON-BREAK', 'RETURN-SHUT-IF-LOW', 'LOOP-NOT-BREAK', 'DRAINBACK', 'FOOT-CHECK', 'BLEED-AT-HIGH', 'NO-HUMP', 'PRIMER-REACH', 'PRIMER-STROKES', 'DEADLEG', 'LIFT-STATIC', 'SUCTION-BUDGET', 'BORE-VELOCITY', 'RETURN-BACKPRESSURE', 'POS-HEAD-LIMIT', 'FITTING-BORE', 'SHARED-AREA', 'CHECK-CRACK', 'PUMP-SERIES', 'PRIMER-PRESSURE', 'FILTER-OVERSIZE', 'EXPANSION', 'RESERVE', 'XFER-ULLAGE', 'POLISH-TURNOVER', 'RETURN-OVERFLOW', 'OVERFLOW-CAP', 'DAYTANK-HEAT'].includes(rule.code))).toEqual([]);
        expect(bare.open.map(({ fact: { fact, how } }) => `${fact} ${how}`).filter((words) => /undefined|NaN|null|\[object/.test(words))).toEqual([]);
    });
});

/** Ids that stand nowhere in a text: of a part without a tag, of the second use of a tag, of the two tees of a split. */
const UNWRITTEN = /\w\/\d|~\d|\.(parts|rejoins)\b/;

describe('a reader sees names, never the ids behind them', () => {
    test.each<[string, string]>([
        ['a shutoff without a tag in the return', after(SLOOP, 'hose B1 bore 6 mm', 'shutoff normally open')],
        ['a shutoff without a tag in the supply, shut', edit(SLOOP, 'shutoff V1   normally open', 'shutoff normally shut')],
        ['a split at the tank', edit(SLOOP, 'shutoff V1   normally open', 'split {\n leg A { hose }\n leg B { hose }\n}')],
        ['hoses and filters without tags', without(SLOOP, 'shutoff V1 normally open').replace(/(hose|filter|tube|primer|pump) [A-Z]+\d/g, '$1')],
        ['two engines of one name', `${SLOOP}engine E1`],
        ['two tanks of one name', `${SLOOP}tank T1`],
        ['two filters of one name, no valve', edit(without(SLOOP, 'shutoff V1 normally open'), 'filter F2', 'filter F1')],
        ['two shutoffs of one name', after(SLOOP, 'hose B1 bore 6 mm', 'shutoff V1')],
    ])('%s', async (_what, text) => {
        const { findings, open } = judge((await loadBoat({ 'boat.orlop': text })).boat);
        const facts = open.map(({ fact }) => fact);
        expect(findings.length).toBeGreaterThan(0);
        expect([...findings.flatMap(toldBy), ...facts.map(({ fact, how }) => `${fact} ${how}`)].filter((words) => UNWRITTEN.test(words))).toEqual([]);
    });
});
