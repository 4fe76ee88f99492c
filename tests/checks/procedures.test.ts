/** What is found wrong with procedures that somebody wrote: at which line, by which rule, in every file and view of the boat. */
import { readFileSync, readdirSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { brokenSentence } from '../../src/documents/procedures/broken';
import { checkProcedures, moved, stateAfter } from '../../src/documents/procedures/check';
import { loadBoat, type Loaded, type Texts } from '../../src/language/load';
import { reportOf } from '../../src/language/report';
import type { View } from '../../src/model/boat';
import type { BrokenLaw } from '../../src/procedures/service/laws';

const FOLDER = new URL('../../examples/ottilwake-mended/', import.meta.url);
const BOAT: Texts = Object.fromEntries(readdirSync(FOLDER).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(new URL(file, FOLDER), 'utf8')]));

/** After the gold procedure of the trade (5.6): stop, isolate, prove, catch, open, renew, close, restore, bleed, run, look, write down. */
const RENEW = `procedure renew F1 element "Change the primary element"   starts RUN   ends RUN   45 min   one person {
  stop E1   key out
  set battery switch off
  set bilge pump off
  place can 2 L under F1
  place 4 pads under F1
  caution fire, flood F1, skin, spill
  shut V1
  shut V2
  prove V1 by draining F1 until the stream dies within 10 s
  open F1 lid
  remove F1 element, lid ring, T-ring, drain washer
  look F1 bowl "dark, slime, grit, water"
  clean F1 bowl
  fit F1 element, lid ring, T-ring, drain washer
  shut F1 drain
  prefill F1
  shut F1 lid
  open V2
  open V1
  caution starter, jet, exhaust
  do bleed E1 after opening F1 prefilled F1
  look all joints "dry card"
  set battery switch on
  set bilge pump auto
  run E1 at 1300 rpm for 5 min
  look all joints "dry card"
  caution waste
  log renew F1 element
  stop E1
}
`;

/** Findings as `rule at line`, the words of the line as they stand. */
async function found(texts: Texts, view?: View): Promise<{ at: string[]; slips: string[]; loaded: Loaded }> {
    const loaded = await loadBoat({ ...BOAT, ...texts }, view === undefined ? {} : { view });
    const at = checkProcedures(loaded.boat).map(({ rule, about }) => {
        const { uri, mark } = loaded.sources.find(about)!;
        const file = uri.slice(uri.lastIndexOf('/') + 1);
        return `${rule.code} ${({ ...BOAT, ...texts })[file]!.split('\n')[mark.start.line]!.trim().replace(/\s+/g, ' ')}`;
    });
    return { at, slips: loaded.problems.map(({ message }) => message), loaded };
}
const onOwn = (text: string) => found({ 'zz.orlop': text });
const without = (...lines: readonly string[]): string => {
    for (const line of lines) if (!RENEW.includes(`  ${line}\n`)) throw new Error(`no line ${line}`);
    return RENEW.split('\n').filter((line) => !lines.includes(line.trim())).join('\n');
};

test('a sound procedure has no finding', async () => {
    const { at, slips } = await onOwn(RENEW);
    expect(slips).toEqual([]);
    expect(at).toEqual([]);
});

describe('a line left out is found where it is missed', () => {
    test.each<[left: string | readonly string[], expected: readonly string[]]>([
        // The tank's top stands at 620 mm, the drain of F1 at 480 mm: with both valves open it runs.
        [['shut V1', 'shut V2', 'open V2', 'open V1'], ['PROC-ISOLATED prove V1 by draining F1 until the stream dies within 10 s', 'PROC-PARTS prove V1 by draining F1 until the stream dies within 10 s']],
        ['place 4 pads under F1', ['PROC-CATCH prove V1 by draining F1 until the stream dies within 10 s']],
        ['place can 2 L under F1', ['PROC-CATCH prove V1 by draining F1 until the stream dies within 10 s']],
        ['set bilge pump off', ['PROC-CATCH prove V1 by draining F1 until the stream dies within 10 s']],
        ['stop E1   key out', ['PROC-HANDS prove V1 by draining F1 until the stream dies within 10 s']],
        ['open F1 lid', ['PROC-PARTS remove F1 element, lid ring, T-ring, drain washer']],
        ['shut F1 drain', ['PROC-OPEN-CLOSE prefill F1']],
        ['do bleed E1 after opening F1 prefilled F1', ['PROC-AIR run E1 at 1300 rpm for 5 min']],
        ['set bilge pump auto', ['PROC-RESTORES procedure renew F1 element "Change the primary element" starts RUN ends RUN 45 min one person {']],
        ['stop E1', ['PROC-RESTORES procedure renew F1 element "Change the primary element" starts RUN ends RUN 45 min one person {']],
        ['fit F1 element, lid ring, T-ring, drain washer', ['PROC-OPEN-CLOSE shut F1 drain']],
    ])('%s', async (left, expected) => {
        const { at } = await onOwn(without(...[left].flat()));
        for (const one of expected) expect(at, at.join('\n')).toContain(one);
        expect((await onOwn(RENEW)).at).toEqual([]);
    });

    test('a caution that nobody wrote is the printed page\'s to put in; one that comes after its step comes too late', async () => {
        expect((await onOwn(without('caution fire, flood F1, skin, spill'))).at).toEqual([]);
        const late = without('caution fire, flood F1, skin, spill').replace('  open F1 lid\n', '  caution fire, flood F1, skin, spill\n  open F1 lid\n');
        expect((await onOwn(late)).at).toEqual(['PROC-WARN prove V1 by draining F1 until the stream dies within 10 s']);
    });

    test('an old seal that goes in again', async () => {
        const { at } = await onOwn(RENEW.replace('fit F1 element, lid ring, T-ring, drain washer', 'refit F1 lid ring, T-ring, drain washer, element'));
        expect(at).toEqual(expect.arrayContaining(['PROC-SEALS shut F1 drain', 'PROC-SEALS shut F1 lid']));
        expect(at.some((line) => line.startsWith('PROC-DONE procedure'))).toBe(true);
    });
    test('an element that is only looked at leaves the job of the head undone', async () => {
        const { at } = await onOwn(RENEW.replace('procedure renew F1 element', 'procedure renew F2 element'));
        expect(at).toEqual(['PROC-DONE procedure renew F2 element "Change the primary element" starts RUN ends RUN 45 min one person {']);
    });
});

describe('the boat changes', () => {
    /** The lid of F1 stands at 2040 mm, more than 1 m above the top of T1: nothing comes from the tank at 10 degrees either, and nobody shuts a valve. */
    const ABOVE = `vessel Ternwake {
  heights from "keel"
  envelope heel 10 deg   trim 3 deg   level 10 to 95 %
}
tank T1 carries diesel {
  box 800 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 0 mm stbd
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 650 mm up, 2100 mm fwd, 100 mm stbd
  drop R1     bore 8 mm   mouth at 25 mm off bottom   top at 650 mm up, 2600 mm fwd, 100 mm stbd
  vent
  fill
}
engine E1 {
  injection rotary mechanical   holds 60 mL   inlet at 1900 mm up, 3500 mm fwd, 0 mm stbd
  exhaust dry
  bleed BS3   at 1900 mm
}
supply course Feed from T1.P1 to E1 {
  shutoff V1    at 660 mm up, 2200 mm fwd, 100 mm stbd   normally open
  hose S1       bore 8 mm   length 2 m   low at 650 mm   crest at 2000 mm
  primer PR1    at 1800 mm up, 3000 mm fwd, 0 mm stbd   stroke 15 mL   lifts 2500 mm   holds 20 mL
  filter F1 primary {
    ports at 2000 mm up, 3200 mm fwd, 0 mm stbd   lid at 40 mm over ports   holds 450 mL
    bleed BS1   at 45 mm over ports
    seals lid ring
  }
  hose S2       bore 8 mm   length 1 m   low at 1900 mm   crest at 2000 mm
}
return course Back from E1 to T1.R1 { hose S3   bore 6 mm   length 3 m   low at 650 mm   crest at 1950 mm }
line-up RUN run is normal
`;
    const onAbove = async (texts: Texts, view?: View) => {
        const loaded = await loadBoat({ 'boat.orlop': ABOVE, ...texts }, view === undefined ? {} : { view });
        const at = checkProcedures(loaded.boat).map(({ rule, about, message }) => { const { uri, mark } = loaded.sources.find(about)!; return `${uri.slice(uri.lastIndexOf('/') + 1)}:${mark.start.line + 1} ${rule.code} ${message}`; });
        return { at, slips: loaded.problems.map(({ message }) => message) };
    };
    const LOOK = `procedure look F1 element   starts RUN   ends RUN {
  stop E1 key out
  set bilge pump off
  caution fire, flood F1, skin, spill
  place can 2 L under F1
  place 4 pads under F1, E1
  open F1 lid
  look F1 element "dark, slime"
  remove F1 lid ring
  fit F1 lid ring
  shut F1 lid
  caution starter, jet
  do bleed E1 after opening F1
  look all joints "dry card"
  set bilge pump auto
  stop E1
}
`;
    const OPENS = LOOK.split('\n').indexOf('  open F1 lid') + 1;
    const BLEEDS = LOOK.split('\n').indexOf('  do bleed E1 after opening F1') + 1;
    const both: Texts = { 'y.orlop': LOOK, 'z.orlop': LOOK.replaceAll('look F1 element', 'look F1 bowl') };
    const floods = (file: string): string => `${file}:${OPENS} PROC-ISOLATED Fuel of T1 could come out of the lid of F1 as the valves stand here.`;
    const starves = (file: string): string => `${file}:${BLEEDS} PROC-SUCTION E1 is fed by no tank here: a valve before it is shut.`;

    test('as it is, nothing is wrong with either', async () => expect(await onAbove(both)).toEqual({ at: [], slips: [] }));

    test('a refit that moves a filter below the level of its tank: the step that opens it, in every file', async () => {
        const texts = { ...both, 'x.orlop': 'refit Low { move F1 down 1600 mm }\n' };
        expect((await onAbove(texts)).at).toEqual([]);
        expect((await onAbove(texts, { after: 'Low' })).at).toEqual([floods('y.orlop'), floods('z.orlop')]);
    });
    test('and so when its heights are written so', async () => {
        const low = ABOVE.replace('ports at 2000 mm up', 'ports at 400 mm up');
        expect((await onAbove({ ...both, 'boat.orlop': low })).at).toEqual([floods('y.orlop'), floods('z.orlop')]);
    });

    test('a refit that puts a valve in that is shut: the step that needs fuel behind it', async () => {
        const texts = { ...both, 'x.orlop': 'refit More { insert shutoff V3 at 1900 mm normally shut between F1 and S2 }\n' };
        expect((await onAbove(texts)).at).toEqual([]);
        expect((await onAbove(texts, { after: 'More' })).at).toEqual([starves('y.orlop'), starves('z.orlop')]);
    });
    test('and so when it is written', async () => {
        const shut = ABOVE.replace('  hose S2 ', '  shutoff V3    at 1900 mm   normally shut\n  hose S2 ');
        expect((await onAbove({ ...both, 'boat.orlop': shut })).at).toEqual([starves('y.orlop'), starves('z.orlop')]);
    });
    test('a valve put in that is open makes nothing false', async () => {
        const open = ABOVE.replace('  hose S2 ', '  shutoff V3    at 1900 mm   normally open\n  hose S2 ');
        expect((await onAbove({ ...both, 'boat.orlop': open })).at).toEqual([]);
    });

    test('a refit that takes a valve out: the steps that turn it', async () => {
        const texts = { 'x.orlop': 'refit Less { remove V2 }\n', 'y.orlop': RENEW };
        expect((await found(texts)).at).toEqual([]);
        expect((await found(texts, { after: 'Less' })).at).toEqual(['PROC-PARTS shut V2', 'PROC-PARTS open V2']);
    });
    test('and when its line is taken out, the name is told and nothing twice', async () => {
        const lines = BOAT['lines.orlop']!.split('\n').filter((line) => !line.includes('shutoff V2')).join('\n');
        const { at, slips } = await found({ 'lines.orlop': lines, 'y.orlop': RENEW });
        expect(at).toEqual([]);
        expect(slips.filter((message) => message.startsWith('`V2` is not in this boat')).length).toBeGreaterThanOrEqual(2);
    });
});

describe('what is not judged', () => {
    test('what follows a line that was not understood, and the end', async () => {
        const { at, slips } = await onOwn(without('shut V1', 'shut V2', 'set bilge pump auto').replace('  open F1 lid', '  frobnicate F1\n  open F1 lid').replace('  prove V1 by draining F1 until the stream dies within 10 s\n', ''));
        expect(slips).toHaveLength(1);
        expect(at).toEqual([]);
    });
});

describe('a finding', () => {
    let loaded: Loaded;
    beforeAll(async () => { ({ loaded } = await onOwn(without('place 4 pads under F1', 'set bilge pump auto'))); });

    test('says what is wrong, what may come of it and what to do, and offers the line', () => {
        const pads = checkProcedures(loaded.boat).find(({ message }) => message.includes('pads'))!;
        expect(pads).toMatchObject({ severity: 'major', fix: { line: 'place 4 pads under F1' } });
        expect(pads.advice).toContain('`place 4 pads under F1`');
    });
    test('is told by `orlop check`, with its place', () => {
        const report = reportOf(loaded, (uri) => (uri.endsWith('zz.orlop') ? without('place 4 pads under F1', 'set bilge pump auto') : ''), (uri) => uri.slice(uri.lastIndexOf('/') + 1), judge(loaded.boat));
        const codes = report.findings.filter(({ rule }) => rule.code.startsWith('PROC-')).map(({ rule, place }) => `${rule.code} ${place?.file}:${place?.line}`);
        expect(codes).toEqual(['PROC-RESTORES zz.orlop:1', 'PROC-CATCH zz.orlop:9']);
    });
    test('stays with its line while lines are put in above it', async () => {
        const text = without('place 4 pads under F1', 'set bilge pump auto');
        const more = await onOwn(`procedure look F2 bowl {\n  note "soon"\n}\n${text.replace('  stop E1   key out\n', '  note "calm day"\n  stop E1   key out\n')}`);
        const now = moved(checkProcedures(loaded.boat), loaded.boat, more.loaded.boat);
        expect(now.map(({ rule, about }) => `${rule.code} ${more.loaded.sources.find(about)!.mark.start.line + 1}`).toSorted()).toEqual(['PROC-CATCH 13', 'PROC-RESTORES 4']);
    });
});

test('how things stand after a step', async () => {
    const { loaded: { boat } } = await onOwn(RENEW);
    const block = boat.procedures.find(({ title }) => title === 'Change the primary element');
    const after = (text: string): string | undefined => stateAfter(boat, block!, block!.lines.find((line) => line.text === text)!);
    expect(after('remove F1 element, lid ring, T-ring, drain washer')).toBe('Shut: V1 and V2. Open: the drain of F1 and the lid of F1. Out: the element of F1, the lid ring of F1, the T-ring of F1 and the drain washer of F1. Key out: E1.');
    expect(after('stop E1')).toBe('No valve is shut.');
});

describe('every law has its sentence', () => {
    /** Each with parts as the executor gives them. */
    const LAWS: Readonly<Record<BrokenLaw['law'], readonly string[]>> = {
        'could-flood': ['F1', 'lid', 'T1'], 'cannot-tell': ['F1', 'lid'], 'not-isolated': ['F1'], 'rail-union': ['E1'], 'not-reached': ['BS1', 'PR1'], 'on-suction': ['BS1', 'LP1'], 'not-fed': ['E1'], 'no-head': ['BS1', 'T1'],
        'air-drawn': ['LP1', 'S2'], 'out-of-order': ['BS2', 'BS1'], 'not-a-driver': ['F1'], 'air-upstream': ['BS2', 'S2'], 'return-shut': ['E1'], 'open-while-pumped': ['E1', 'F1 lid'], 'left-open': ['F1 lid', 'F1 BS1'],
        'left-out': ['F1 element', 'S1'], 'piece-out': ['F1', 'element', 'lid ring'], 'old-seal': ['F1', 'lid ring'], 'may-not-prefill': ['F2'], 'not-empty': ['F1'], 'over-budget': ['E1'], 'seacock-shut': ['E1'],
        'no-can': ['F1'], 'no-pads': ['F1'], 'small-can': ['F1'], 'bilge-pump-on': ['F1'], 'not-warned': ['fire', 'spill'], 'no-such-part': ['V9'], 'no-such-position': ['V1', 'AJAR'], 'no-such-opening': ['F2', 'drain'],
        'no-such-piece': ['F1', 'sieve'], 'not-open': ['F1', 'lid'], 'already-open': ['F1', 'lid'], 'not-out': ['F1', 'element'], 'still-in': ['F1', 'element'], 'not-running': ['G1'], 'engine-runs': ['E1'], 'key-in': ['E1'],
        'left-set': ['bilge pump', 'E1 seacock', 'E1'], 'wrong-line-up': ['V1'], 'air-left': ['E1', 'S2'], 'not-done': ['renew F1 element'], 'logged-undone': ['renew F1 element'], 'no-way-back': [], overfills: ['LP1', 'T1'], 'draws-air': ['LP1', 'T1'],
    };
    test.each(Object.entries(LAWS) as [BrokenLaw['law'], readonly string[]][])('%s', async (law, parts) => {
        const { boat } = await loadBoat(BOAT);
        const said = brokenSentence(boat, { law, parts, ...(law === 'cannot-tell' && { missing: [{ about: 'F1', fact: 'the height of the lid of F1', how: 'measure it' }] }) });
        // It names what it is about, says what to do, and is short.
        if (!['no-way-back', 'left-set'].includes(law)) expect(said).toContain(parts[0]!.split(' ')[0]!);
        expect(said).toMatch(/^[A-Z].*\.$/);
        expect(said).not.toMatch(/undefined|NaN|\bnull\b| {2}|\.\.$/);
        expect(said.split(/\. (?=[A-Z])/)).toHaveLength(2);
    });
    test('an opening that is not there is answered with those that are', async () => {
        const { boat } = await loadBoat(BOAT);
        const said = brokenSentence(boat, { law: 'no-such-opening', parts: ['F2', 'drain'] });
        expect(said).toContain('`BS2`');
        expect(said).toContain('F2 has no drain');
    });
});
