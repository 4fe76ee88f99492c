/** Procedures made from the model: every cell of the examples and of drawn boats, and the worked one of trade practice. */
import { readFileSync, readdirSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import type { Boat, Job } from '../../src/model/boat';
import { fromSI } from '../../src/model/units';
import { execute } from '../../src/procedures/service/execute';
import { COLUMNS, UNPROVEN, procedureFor, procedureTable, programOf, type Cell } from '../../src/procedures/service/generate';
import { isBlank, jobWords, type Blank, type ProcedurePlan } from '../../src/procedures/service/plan';
import { isSound } from '../../src/procedures/service/program';
import { drawBoat, textOf } from '../analysis/boats-with-heights';
import { randomCase, toText } from '../oracle/random-boats';

const EXAMPLES = readdirSync(new URL('../../examples', import.meta.url));

async function example(name: string): Promise<Boat> {
    const folder = new URL(`../../examples/${name}/`, import.meta.url);
    return (await loadBoat(Object.fromEntries(readdirSync(folder).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(new URL(file, folder), 'utf8')])))).boat;
}

const job = (words: string): Job => { const [verb = '', part = '', ...piece] = words.split(' '); return { verb, part, piece: piece.join(' ') }; };

function plan(boat: Boat, ...jobs: readonly string[]): ProcedurePlan {
    const made = procedureFor(boat, { jobs: jobs.map(job) });
    if (isBlank(made)) throw new Error(`no procedure: ${made.blank}`);
    return made;
}

function blank(boat: Boat, words: string): Blank {
    const made = procedureFor(boat, { jobs: [job(words)] });
    if (!isBlank(made)) throw new Error(`a procedure for ${words}`);
    return made;
}

type Does = ProcedurePlan['steps'][number]['step']['do'];
const steps = <D extends Does>(made: ProcedurePlan, does: D): Extract<ProcedurePlan['steps'][number]['step'], { do: D }>[] =>
    made.steps.map(({ step }) => step).filter((step): step is Extract<typeof step, { do: D }> => step.do === does);
const remark = (made: ProcedurePlan, say: string): Record<string, unknown> | undefined => {
    const found = made.steps.flatMap(({ remarks }) => remarks).find((one) => one.say === say);
    return found && ('with' in found ? { ...found.with } : {});
};
const degrees = (rad: number | 'never' | undefined): number => (typeof rad === 'number' ? fromSI(rad, 'deg') : NaN);

/** What is wrong with a table: a plan that breaks a law when it is run again, or one that was found and could not be proven. */
const faults = (boat: Boat, table: readonly Cell[]): string[] => table.flatMap(({ job: asked, made }) => {
    if (isBlank(made)) return made.blank.startsWith(UNPROVEN) || made.blank.trim() === '' ? [`${jobWords(asked)}: ${made.blank}`] : [];
    return isSound(execute(made.on ?? boat, programOf(made))) ? [] : [`${jobWords(asked)} breaks a law`];
});

describe.each(EXAMPLES)('%s', (name) => {
    let boat: Boat;
    let table: readonly Cell[];
    beforeAll(async () => { boat = await example(name); table = procedureTable(boat); }, 60_000);

    test('has a procedure that breaks no law, or a reason, in every cell', () => expect(faults(boat, table)).toEqual([]));
    test('has a cell for every tagged part, tank and consumer, and for every job in its plan of upkeep', () => {
        const rows = new Set(table.map(({ row }) => row));
        expect([...boat.tanks, ...boat.parts.filter(({ tag }) => tag), ...boat.consumers].map(({ id }) => id).filter((id) => !rows.has(id))).toEqual([]);
        const cells = new Set(table.map((cell) => jobWords(cell.job)));
        expect(boat.intervals.map((interval) => jobWords(interval.job)).filter((words) => !cells.has(words))).toEqual([]);
    });
    test('gives the same again', async () => expect(JSON.stringify(procedureTable(await example(name)))).toBe(JSON.stringify(table)));
});

test('boats drawn by lot, with and without gaps, have nothing that was found and is not sound', async () => {
    const texts = [
        ...Array.from({ length: 12 }, (_, i) => textOf(drawBoat(i + 1))), ...Array.from({ length: 8 }, (_, i) => textOf(drawBoat(i + 1, 0.2))),
        ...Array.from({ length: 20 }, (_, i) => toText(randomCase(i + 1).boat)),
    ];
    let plans = 0;
    for (const text of texts) {
        const { boat } = await loadBoat({ 'boat.orlop': text });
        const table = procedureTable(boat);
        plans += table.filter(({ made }) => !isBlank(made) && made.steps.some(({ step }) => step.do === 'open' || step.do === 'hold')).length;
        // Operations of the whole boat have tests of their own.
        expect(faults(boat, table.filter(({ verb }) => (COLUMNS as readonly string[]).includes(verb))), text).toEqual([]);
    }
    expect(plans).toBeGreaterThan(50);
}, 300_000);

/** The primary changed and the engine filter inspected on the worked vessel; figures of trade practice as reckoned there by hand and by separate scripts. */
describe('the primary renewed and the engine filter inspected in one visit', () => {
    let made: ProcedurePlan;
    beforeAll(async () => { made = plan(await example('ottilwake'), 'renew F1 element', 'look F2 element'); });

    test('isolates once, by V1, before anything is opened, and opens it again before the bleed', () => {
        expect(steps(made, 'set')).toEqual([{ do: 'set', part: 'V1', position: 'shut' }, { do: 'set', part: 'V1', position: 'open' }]);
        const order = made.steps.map(({ step }) => step.do);
        expect(order.indexOf('set')).toBeLessThan(order.indexOf('hold'));
        expect(order.lastIndexOf('set')).toBeLessThan(order.indexOf('bleed'));
        expect(order.lastIndexOf('set')).toBeGreaterThan(order.lastIndexOf('close'));
    });
    test('proves V1 by draining F1, and says from which level on that proves it', () => {
        expect(steps(made, 'hold')).toEqual([{ do: 'hold', valves: ['V1'], part: 'F1', opening: 'drain', within: 10 }]);
        // More than 134 L without what the checks of PR1 hold back: 2 x 0.1 kPa / (836 kg/m3 x 9.81 m/s2) = 24 mm, and 0.48 L/mm: 134.4 + 11.7 = 146 L.
        expect(fromSI(remark(made, 'proves above')!['volume'] as number, 'L')).toBeCloseTo(146, 0);
    });
    test('says where the drain and the lid flood: 134 L; 3.5 and 14.2 degrees to port half full; 5.0 at 95 %', () => {
        const [drain, lid] = made.drainsWhere;
        expect(fromSI(drain!.thresholds[0]!.volume as number, 'L')).toBeCloseTo(134.4, 0);
        expect(degrees(drain!.atHalf![0]!.port)).toBeCloseTo(3.5, 0);
        expect(degrees(lid!.atHalf![0]!.port)).toBeCloseTo(14.2, 0);
        expect(degrees(lid!.thresholds[0]!.port)).toBeCloseTo(5.0, 0);
        expect(lid!.thresholds[0]!.volume).toBe('never');
    });
    test('warns of what comes back by the return: F2 beyond 15 degrees to port at 95 %', () => {
        // Not a rule of the envelope of 25 degrees alone: it is told with its lean.
        expect(fromSI(remark(made, 'by the return')!['port'] as number, 'deg')).toBeCloseTo(15, 0);
    });
    test('renews the seals by their places, and puts the element of F2 back', () => {
        expect(steps(made, 'fit').map(({ part, pieces, again }) => [part, [...pieces].sort().join(', '), again === true])).toEqual([['F1', 'drain washer', false], ['F1', 'T-ring, element, lid ring', false], ['F2', 'element', true]]);
        expect(made.needs.parts.map(({ part, piece, ready }) => `${part} ${piece}${ready ? '?' : ''}`)).toEqual(['F1 element', 'F1 lid ring', 'F1 T-ring', 'F1 drain washer', 'F2 element?']);
    });
    test('bleeds once: F1 filled by hand, F2 by PR1 before the lever proves itself, the gallery last', () => {
        expect(steps(made, 'prefill').map(({ part }) => part)).toEqual(['F1']);
        expect(steps(made, 'bleed').map(({ vent, driver }) => `${vent} by ${driver.part}`).slice(-2)).toEqual(['BS2 by PR1', 'BS3 by LP1']);
        expect(steps(made, 'bleed').at(-1)!.expect).toMatchObject({ likely: 37, think: 74 });
    });
    test('needs 1.1 L of fuel, 2 L of can under F1, four pads or more, and spanners of 8 and 10 mm', () => {
        // (0.45 + 0.22) x 1.25 x 1.3 = 1.09 L
        expect(fromSI(made.needs.fuel!, 'L')).toBeCloseTo(1.1, 6);
        expect(steps(made, 'place').filter(({ thing, part }) => thing === 'can' && part === 'F1').map(({ holds }) => fromSI(holds!, 'L'))).toEqual([2]);
        expect(made.needs.pads).toBeGreaterThanOrEqual(4);
        expect(made.needs.spanners.map(({ size }) => fromSI(size, 'mm'))).toEqual([expect.closeTo(8, 6), expect.closeTo(10, 6)]);
    });
    test('starts within 43 s of cranking and reads G1 at 2400 rpm: 0.9 inHg with half an inch either way', () => {
        expect(steps(made, 'start')).toMatchObject([{ engine: 'E1', tries: 2, seconds: 10, seacock: 'open', budget: 43 }]);
        const [read] = steps(made, 'read');
        expect(fromSI(read!.speed!, 'rpm')).toBeCloseTo(2400, 3);
        expect(fromSI(read!.expect!.low, 'inHg')).toBeLessThan(-1.3);
        expect(fromSI(read!.expect!.high, 'inHg')).toBeCloseTo(-0.4, 0);
    });
    test('ends as it began, with the bilge pump on auto only after all joints were looked at', () => {
        const order = made.steps.map(({ step }) => step);
        expect(order.findLastIndex((step) => step.do === 'look')).toBeLessThan(order.findIndex((step) => step.do === 'switch' && step.thing === 'bilge pump' && step.to === 'auto'));
        expect(made.steps.at(-1)!.step).toEqual({ do: 'log', jobs: [job('renew F1 element'), job('look F2 element')] });
    });
});

describe('several jobs in one visit', () => {
    test.each([
        ['ottilwake', ['renew F1 element', 'drain F1'], ['F1']], ['ottilwake', ['renew F1 element', 'clean F1 bowl', 'renew F2 element'], ['F1', 'F2']],
        ['marrenwake', ['renew FA-P element', 'renew FA-S element'], ['FA-P', 'FA-S']], ['marrenwake', ['renew FA-P element', 'renew FB-P element'], ['FA-P', 'FB-P']],
    ])('on %s: %j open each part once', async (name, jobs, parts) => {
        const made = plan(await example(name), ...jobs);
        expect(made.steps.flatMap(({ step }) => (step.do === 'remove' && step.pieces.includes('element') ? [step.part] : []))).toEqual(parts);
        expect(steps(made, 'log')[0]!.jobs.map(jobWords)).toEqual(jobs);
    });
    test('what is filled by hand is closed after all that would empty it', async () => {
        const made = plan(await example('ottilwake'), 'renew F1 element', 'renew S2');
        const order = made.steps.map(({ step }) => (step.do === 'close' || step.do === 'prefill' ? `${step.do} ${step.part}` : ''));
        expect(order.indexOf('prefill F1')).toBeGreaterThan(order.indexOf('close S2'));
    });
});

describe('the text follows the topology', () => {
    test('without a primer upstream the primary must be filled by hand', async () => {
        const made = plan(await example('brackenwake'), 'renew F1 element');
        expect(remark(made, 'must be filled')).toEqual({ part: 'F1' });
        expect(steps(made, 'bleed').every(({ driver }) => driver.by === 'lever')).toBe(true);
    });
    test('and where only a pipe behind it was opened, its lid is opened first and closed last', async () => {
        const made = plan(await example('brackenwake'), 'renew S4');
        const order = made.steps.map(({ step }) => (step.do === 'open' || step.do === 'hold' || step.do === 'close' || step.do === 'prefill' ? `${step.do} ${step.part}` : ''));
        expect(order.filter((words) => words !== '')).toEqual(['hold F1', 'open S4', 'close S4', 'prefill F1', 'close F1']);
    });
    // Step 17 of the worked service: what weeps under the hand pump is seen before anything is hot.
    test.each([['ottilwake', 'drain F1'], ['brackenwake', 'renew S4'], ['marrenwake', 'drain FA-P']])('%s, %s: what was opened and bled is looked over before an engine is started', async (name, words) => {
        const order = plan(await example(name), words).steps.map(({ step }) => step.do);
        const start = order.indexOf('start');
        expect(start).toBeGreaterThan(0);
        expect(order.slice(order.lastIndexOf('bleed') + 1, start)).toContain('look');
    });
    test('an electric primer has the battery on before it runs', async () => {
        const order = plan(await example('marrenwake'), 'drain FA-P').steps.map(({ step }) => step);
        const [on, runs] = [order.findIndex((step) => step.do === 'switch' && step.thing === 'battery switch' && step.to === 'on'), order.findIndex((step) => step.do === 'bleed' && step.driver.by === 'electric')];
        expect(runs).toBeGreaterThan(0);
        expect(on).toBeGreaterThan(0);
        expect(on).toBeLessThan(runs);
    });
    test('what stands off line is bled in the line-up that draws through it, and the selector goes back', async () => {
        const made = plan(await example('marrenwake'), 'renew FB-P element');
        expect(steps(made, 'set').filter(({ part }) => part === 'CH1-P').map(({ position }) => position)).toEqual(['B', 'A']);
        expect(made.after).toContainEqual({ say: 'off line', with: { part: 'FB-P', lineUp: 'RUN', bled: 'RUN-B' } });
    });
    test('each job has its own blank in plain words', async () => {
        const boat = await example('ottilwake-mended');
        expect(blank(boat, 'clean CV1').blank).toBe('A check valve has nothing to clean.');
        expect(blank(boat, 'drain F2').blank).toContain('F2 has no drain');
        // Before the first valve at the tank nothing can be shut: it floods when she leans to port with a full tank.
        expect(blank(boat, 'renew V1').blank).toMatch(/No valve that hands can shut stands between T1 and V1 .*emptied/);
        expect(blank(boat, 'renew Z9').blank).toBe('There is no Z9 on this boat.');
    });
    test('a missing safety fact leaves it blank, with how to find it', async () => {
        const { boat } = await loadBoat({ 'boat.orlop': textOf(drawBoat(1)).replace(/^ *(injection|exhaust).*$/gm, '') });
        const facts = procedureTable(boat).flatMap(({ made }) => (isBlank(made) ? made.missing : []));
        expect(facts.length).toBeGreaterThan(0);
        expect(facts.filter(({ fact, how }) => fact === '' || how === '')).toEqual([]);
    });
    test('today\'s level and lean are told where they are known', async () => {
        const boat = await example('ottilwake');
        const today = { volumes: new Map([['T1', 0.15]]), attitude: { heel: 0, trim: 0 } };
        const made = procedureFor(boat, { jobs: [job('renew F1 element')], today });
        // 150 L stand above the 134 L from which the drain floods; the lid at 700 mm is never below the surface upright.
        expect(isBlank(made) ? [] : made.drainsWhere.map(({ opening, today: found }) => [opening, found])).toEqual([['drain', 'floods'], ['lid', expect.not.stringMatching('floods')]]);
    });
});
