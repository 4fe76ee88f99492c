/** What a page says: every step and every remark has its sentence, in the words of plain procedures. */
import { expect, test } from 'vitest';
import { pageOf } from '../../../src/documents/procedures/page';
import { REMARK_WORDS, remarkWords } from '../../../src/documents/procedures/remark-words';
import { MOST_WORDS, stepWords, wordsIn } from '../../../src/documents/procedures/step-words';
import { leanLimit } from '../../../src/model/words';
import { canWords } from '../../../src/documents/procedures/naming';
import { TOLD_WORDS, toldWords } from '../../../src/documents/procedures/told-words';
import type { ServiceStep } from '../../../src/model/step';
import type { ProcedurePlan } from '../../../src/procedures/service/plan';
import { pageText } from '../../../src/documents/procedures/text';
import type { Remark } from '../../../src/procedures/service/remarks';
import type { Told } from '../../../src/procedures/service/told';
import { GOLD, PLAN, boatOf } from './sample';

const boat = await boatOf('ottilwake');

/** One of every kind, by its name: the compiler asks for those that are missing. */
const EVERY: { readonly [Kind in ServiceStep['do']]: ServiceStep & { readonly do: Kind } } = {
    set: { do: 'set', part: 'V1', position: 'shut' }, prefill: { do: 'prefill', part: 'F1' }, bleed: { do: 'bleed', vent: 'BS2', driver: { by: 'hand', part: 'PR1' } },
    prove: { do: 'prove', part: 'LP1', vent: 'BS2', strokes: 10 }, start: { do: 'start', engine: 'E1', tries: 1, seconds: 5 }, open: { do: 'open', part: 'F2', opening: 'ports' },
    close: { do: 'close', part: 'S1', opening: 'joint' }, hold: { do: 'hold', valves: ['V1'], part: 'F1', opening: 'lid', within: 90 }, remove: { do: 'remove', part: 'S1', pieces: [] },
    fit: { do: 'fit', part: 'F2', pieces: ['element'], again: true }, look: { do: 'look', part: 'F1', piece: 'bowl' }, switch: { do: 'switch', thing: 'seacock', of: 'E1', to: 'shut' },
    place: { do: 'place', thing: 'can', part: 'F1' }, run: { do: 'run', part: 'E1', until: { tank: 'T1', holds: 0.1 } }, caution: { do: 'caution', topic: 'rail' },
    sequence: { do: 'sequence', engine: 'E1', opened: ['F1'], prefilled: ['F1'] }, stop: { do: 'stop', part: 'E1' }, clean: { do: 'clean', part: 'F1', piece: 'bowl' },
    read: { do: 'read', gauge: 'G1' }, wait: { do: 'wait', seconds: 90 }, log: { do: 'log', jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }] },
};

/** Anything that a remark may name, all at once. */
const NAMED = {
    consumers: ['E1'], engine: 'E1', engines: ['E1'], consumer: 'E1', valve: 'V1', valves: ['V1'], part: 'F1', parts: ['F1', 'F2'], tank: 'T1', tanks: ['T1'], opening: 'drain', by: 'lid', volume: 0.05, more: ['S1'], port: 0.2, stbd: 0.3,
    seals: ['lid ring'], passes: 1e-5, piece: 'element', under: 900000, every: 3600000, why: 'forbidden', vent: 'BS1', vents: ['BS1'], filled: 6, dry: 49, in: 'strokes', bore: 0.008, length: 1.4, fireResistant: 'yes', lineUp: 'RUN', pump: 'PR1', stop: ['V1'],
    budget: 43, gauge: 'G1', renewed: ['F1'], old: ['F2'], stopped: ['E1'], less: ['E1'], own: 0.02, lines: 0.03, count: 2, signs: ['water', 'slime'], tries: 2, seconds: 10, low: -4741, high: -1355, speed: 40, words: 'renew F1 element', pieces: ['element'], from: 'T1', to: 'T1', least: 0.02, most: 0.1, likely: 600, planned: 0.09,
    fromEmpty: 'no', mark: 0.15, keeps: 0.03, turn: 3600, turns: 3, better: 5, longer: 18000, leaves: 0.05, leavesLess: 0.007, filter: 'F1', filters: ['F1'], gauges: ['G1'], dirty: 12000, side: 'supply', up: 0.9, over: 0.1, opened: ['F1'], position: 'shut',
    opens: ['F1'], runs: ['F2'], full: 0.19, was: 'open', openings: ['drain', 'lid'], plugged: ['S1'], tap: 'V1', can: 'T1',
};
const remarks = Object.keys(REMARK_WORDS).map((say) => ({ say, with: NAMED }) as unknown as Remark);

const CONTRACTION = /\b\w+n't\b|\b(it|that|there|you|they|we|what|who|let)'(s|re|ve|ll|d)\b/i;
const sentences = (text: string): string[] => text.split(/(?<=[.?!])\s+(?=\p{Lu})/u);

test.each(Object.entries(EVERY))('a step of the kind %s is told in sentences of at most 20 words', (_, step) => {
    const { action, does = [], signs = [] } = stepWords(boat, { step }, 'fuel');
    for (const text of [action, ...does]) {
        expect(text).toMatch(/^\p{Lu}|^caution/u);
        if (step.do !== 'caution') expect(text).toMatch(/\.$/);
        for (const sentence of sentences(text)) expect([sentence, wordsIn(sentence) <= MOST_WORDS]).toEqual([sentence, true]);
    }
    for (const text of [action, ...does, ...signs]) expect(text).not.toMatch(/undefined|NaN|\[object/);
});

test('one action a step: none is joined to another by a word for what comes next', () => {
    for (const { step } of GOLD) for (const text of [stepWords(boat, { step }, 'fuel')].flatMap(({ action, does = [] }) => [action, ...does])) expect(text).not.toMatch(/\bthen\b|;|\band (open|shut|close|pump|start|pour|fit|take) /i);
});

test.each(remarks)('the remark $say has a sentence that names what it is given', (remark) => {
    const text = remarkWords(boat, remark);
    expect(text).toMatch(/^[\p{Lu}\p{N}]/u);
    expect(text).not.toMatch(/undefined|NaN|\[object|  |\.\./);
    expect(text).not.toMatch(CONTRACTION);
    // The log's are labels of fields, not sentences.
    if (!remark.say.startsWith('log')) expect(text).toMatch(/\.$/);
});

/** As NAMED, of what stands in place of a step's own words. */
const told = Object.keys(TOLD_WORDS).map((tell) => ({ tell, with: { ...NAMED, holds: 0.002, seconds: 120, says: 'open filter: do not turn', about: 'F1', things: ['tools', 'pads'] } }) as unknown as Told);

test.each(told)('what is told in place of a step, $tell, is an action in sentences of at most 20 words', (each) => {
    const { action, does = [], signs = [] } = toldWords(boat, each);
    for (const text of [action, ...does, ...signs]) {
        expect(text).toMatch(/^\p{Lu}.*[.]$/su);
        expect(text).not.toMatch(/undefined|NaN|\[object|  |\.\./);
        expect(text).not.toMatch(CONTRACTION);
    }
    for (const sentence of [action, ...does].flatMap(sentences)) expect([sentence, wordsIn(sentence) <= MOST_WORDS]).toEqual([sentence, true]);
});

test('a remark keeps its sense where what it may name is not known', () => {
    const bare = { ...NAMED, volume: undefined, own: undefined, lines: undefined, vent: undefined, port: undefined, under: undefined, every: undefined, bore: undefined, length: undefined, budget: undefined, speed: undefined, most: undefined, dirty: undefined, least: undefined, seconds: undefined, passes: undefined, full: undefined, more: [], vents: [], gauges: [] };
    const optional: readonly Remark['say'][] = ['empties first', 'comes', 'by the return', 'renew instead', 'how to fill', 'like for like', 'if it does not start', 'gauge between', 'log reading', 'sound first', 'watch element', 'covers pickup', 'a litre lasts', 'turn slowly', 'engine would die', 'comes off full'];
    for (const say of optional) expect([say, remarkWords(boat, { say, with: { ...bare, ...(say === 'sound first' && { least: 0.02 }), ...(say === 'watch element' && { every: 900 }) } } as unknown as Remark)]).toEqual([say, expect.not.stringMatching(/undefined|NaN|  |\.\.| [.,:;]/)]);
});

test('no word of a page is a contraction, and every step of it stands under the caution that was written before it', () => {
    const page = pageOf(boat, PLAN);
    expect(JSON.stringify(page)).not.toMatch(CONTRACTION);
    const steps = page.sections.flatMap((section) => section.steps);
    const warned = new Map(steps.map(({ action, cautions }) => [action, cautions.map(({ signal, hazard }) => `${signal} ${hazard}`)]));
    // In the plan: fire and starter before the engine is stopped, flooding and skin before the valve is proved, the jet before joints are looked at.
    expect(warned.get('Stop E1 (main engine, engine bay) and keep it from starting.')).toHaveLength(2);
    expect(warned.get('Prove that V1 holds.')).toHaveLength(2);
    expect(warned.get('Look at all joints.')).toHaveLength(1);
    expect(warned.get('Set the bilge pump to OFF.')).toEqual([]);
    expect(steps.map(({ number }) => number)).toEqual(steps.map((_, i) => i + 1));
    // 29 steps and 6 cautions stand in the plan.
    expect([steps.length, GOLD.length - steps.length]).toEqual([29, 6]);
});

test('what a reader may hold another tool for is told in both systems', () => {
    const texts = JSON.stringify(pageOf(boat, PLAN));
    // 2 L are 2 / 3.785411784 = 0.528 US gallons; 1355 and 4741 Pa are 1355 / 3386.389 = 0.40 and 4741 / 3386.389 = 1.40 inches of mercury.
    expect(texts).toContain('2 L (0.53 US gal)');
    expect(texts).toContain('1.4 to 4.7 kPa (0.4 to 1.4 inHg) of vacuum');
});

test('where a thing is stands on the page once, in full; a union is told by the neighbour that it leads to', () => {
    const { places } = pageOf(boat, PLAN);
    // Of the text: the valve in the quarter berth at 660 mm up, 2350 mm fwd, 700 mm stbd, labelled FUEL.
    expect(places?.filter(({ label }) => label === 'V1')).toEqual([{ label: 'V1', value: 'quarter berth, label FUEL; 660 mm up, 2350 mm forward, 700 mm to starboard' }]);
    expect(places?.at(-1)?.value).toContain(boat.vessel.datum);
    // LP1 stands between S2 and S3.
    expect(stepWords(boat, { step: { do: 'open', part: 'LP1', opening: 'joint' } }, 'fuel').action).toMatch(/^Undo the unions of LP1, towards S2 and S3/);
    expect(stepWords(boat, { step: { do: 'look', part: 'V1', piece: '' } }, 'fuel').action).toMatch(/^Look at V1/);
});

test('a point is closed after its strokes without a bubble, and the limit is one of air and foam', () => {
    const { does = [], signs = [] } = stepWords(boat, { step: { do: 'bleed', vent: 'BS3', driver: { by: 'lever', part: 'LP1' }, expect: { in: 'strokes', likely: 6, most: 6, think: 12 } } }, 'fuel', { caught: new Set(['E1']) });
    const at = (words: RegExp): number => does.findIndex((one) => words.test(one));
    expect(at(/^Close BS3/)).toBe(does.length - 1);
    expect(at(/ten more strokes bring no bubble/)).toBe(does.length - 2);
    expect(at(/low pressure ends/)).toBe(0);
    expect(at(/tube on BS3/)).toBeLessThan(at(/^Open BS3/));
    expect(signs[1]).toMatch(/^If only air and foam have come by 12 strokes/);
});

test('a valve that is leant on has its row, and the bleeding its column where a valve then stands otherwise', () => {
    const opened: ProcedurePlan = { ...PLAN, leant: ['V1'], steps: [{ step: { do: 'set', part: 'V1', position: 'shut' }, section: 'isolate', remarks: [] }, { step: { do: 'open', part: 'F1', opening: 'lid' }, section: 'open', remarks: [] }, { step: { do: 'set', part: 'V1', position: 'open' }, section: 'restore', remarks: [] }, { step: { do: 'bleed', vent: 'BS1', driver: { by: 'hand', part: 'PR1' } }, section: 'bleed', remarks: [] }] };
    expect(pageOf(boat, { ...opened, ends: 'SERVICE' }).valves).toEqual([{ valve: 'V1', place: 'quarter berth, label FUEL', start: 'open', work: 'shut', bleed: 'open', end: 'shut' }]);
    expect(pageText(pageOf(boat, { ...opened, ends: 'SERVICE' }))).toMatch(/Start +Work +Bleeding +End\n.* open +shut +open +shut\n/);
    expect(pageText(pageOf(boat, opened))).not.toContain('Bleeding');
});

test('what floods is rounded down and what is needed is rounded up, in both systems', () => {
    // 134.4 L / 3.785411784 = 35.5 US gal; 701 mL / 3785.411784 x 128 = 23.7 US fl oz; 14.68 degrees.
    expect([canWords(0.1344, 'down'), canWords(0.1344, 'up')]).toEqual(['134 L (35 US gal)', '135 L (36 US gal)']);
    expect([canWords(701e-6, 'up'), canWords(2e-3, 'up')]).toEqual(['701 mL (24 US fl oz)', '2 L (0.53 US gal)']);
    expect(leanLimit(14.68 * Math.PI / 180)).toBe('14.6°');
    expect(leanLimit(3.5 * Math.PI / 180)).toBe('3.5°');
});

test('the valve table: what is shut for the work is shut there, and at the end it stands as at the start', () => {
    expect(pageOf(boat, PLAN).valves).toEqual([{ valve: 'V1', place: 'quarter berth, label FUEL', start: 'open', work: 'shut', end: 'open' }]);
});
