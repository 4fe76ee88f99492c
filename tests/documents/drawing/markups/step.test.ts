/** A procedure walked through on the drawing: the words are those of the page, and the state is what its steps make of it. */
import { describe, expect, test } from 'vitest';
import { markupFor, stepsOf } from '../../../../src/documents/drawing/markups/markup';
import type { Markup } from '../../../../src/documents/drawing/markup';
import { pageFor } from '../../../../src/documents/procedures/pages';
import { readShow } from '../../../../src/language/ask/show';
import { loadBoat } from '../../../../src/language/load';
import type { Boat } from '../../../../src/model/boat';
import { procedureFor } from '../../../../src/procedures/service/generate';
import { boatFrom, boatOf, idsOf, refused, shown } from './shown';

const walked = (boat: Boat, name: string): Markup[] => Array.from({ length: stepsOf(readShow(`step 1 of ${name}`, boat), { boat })! }, (_, i) => shown(`step ${i + 1} of ${name}`, { boat }));

describe.each([
    ['ottilwake', 'renew F1 element', { verb: 'renew', part: 'F1', piece: 'element' }], ['brackenwake', 'renew F2 element', { verb: 'renew', part: 'F2', piece: 'element' }],
    ['ottilwake-mended', 'drain F1 water', { verb: 'drain', part: 'F1', piece: 'water' }],
] as const)('%s: %s', async (name, words, job) => {
    const boat = await boatOf(name);
    const steps = walked(boat, words);
    const page = pageFor(boat, { jobs: [job], made: procedureFor(boat, { jobs: [job] }) });
    if ('blank' in page) throw new Error(page.blank);
    const printed = page.sections.flatMap((section) => section.steps.map((step) => ({ section: section.heading, step })));

    test('as many steps as the page has, each in its words and with its cautions', () => {
        expect(steps).toHaveLength(printed.length);
        steps.forEach(({ notes, title }, i) => {
            const { section, step } = printed[i]!;
            expect(title).toBe(`Step ${i + 1} of ${page.title}`);
            expect(notes).toContain(`${section}. Step ${i + 1} of ${printed.length}.`);
            expect(notes).toEqual(expect.arrayContaining([step.action, ...(step.does ?? []), ...step.signs, ...step.notes]));
            for (const { signal, hazard } of step.cautions) expect(notes.some((note) => note.startsWith(`${signal}: `) && note.includes(hazard))).toBe(true);
        });
    });

    // By the printed words alone: what was shut stays shut until it is opened, and a lid that was opened stands open until it is closed.
    test('valves and openings follow what the page says', () => {
        const valves = new Map(steps[0]!.positions);
        const open = new Set<string>();
        let turns = 0;
        let opens = 0;
        steps.forEach((found, i) => {
            const { action } = printed[i]!.step;
            const turn = /^(Shut|Open|Turn) (S?V\d+)\b(?:.* to (\S+))?\.?$/.exec(action.replace(/ \(.*?\)/, '').replace(/\.$/, ''));
            if (turn) { turns++; valves.set(turn[2]!, turn[3] ?? (turn[1] === 'Shut' ? 'shut' : 'open')); expect(idsOf(found, 'about')).toEqual([turn[2]]); }
            for (const [valve, position] of valves) expect([action, valve, found.positions?.get(valve)]).toEqual([action, valve, position]);
            const body = /^(Take|Put) the body of (\w+)(?: \(.*?\))? (?:off|back on) its ports/.exec(action);
            const opening = body ? ['', body[1] === 'Take' ? 'Open' : 'Close', 'ports', body[2]] : /^(Open|Close) the (lid|drain) of (\w+)/.exec(action);
            const stream = /^Prove that .* holds?\.$/.test(action) ? /^Open the (drain) of (\w+)|^Lower the body of (\w+) at its (ports)/.exec(printed[i]!.step.does?.[0] ?? '') : undefined;
            if (stream) open.add(`${stream[2] ?? stream[3]} ${stream[1] ?? stream[4]}`);
            if (opening?.[1] === 'Open') { opens++; open.add(`${opening[3]} ${opening[2]}`); }
            const marks = found.marks.filter(({ as }) => as === 'open').flatMap(({ about, words: said }) => (said ?? '').split(', ').filter((one) => one.endsWith(' open')).map((one) => `${about} ${one.replace(/ open$/, '')}`));
            expect([action, ...marks.sort()]).toEqual([action, ...[...open].sort()]);
            if (opening?.[1] === 'Close') open.delete(`${opening[3]} ${opening[2]}`);
        });
        expect(turns).toBeGreaterThan(1);
        expect(opens).toBeGreaterThan(0);
        expect([...open]).toEqual([]);
    });

    test('a bleed point stands open in its own step alone', () => {
        steps.forEach(({ marks }, i) => {
            const own = /^Bleed \w+(?: \(.*?\))? at (\w+)\.$/.exec(printed[i]!.step.action)?.[1];
            const proves = /^Open (\w+) a little/.exec(printed[i]!.step.does?.[0] ?? '')?.[1];
            expect(marks.filter(({ as, words: said }) => as === 'open' && said === 'open').map(({ about }) => about)).toEqual([own ?? proves].filter((id) => id !== undefined));
        });
    });
});

test('Ottilwake, renew F1 element: what V1 cuts off while it is shut, and that only the valves in LP1 hold the rest', async () => {
    const steps = walked(await boatOf('ottilwake'), 'renew F1 element');
    for (const found of steps) {
        const isShut = found.positions?.get('V1') === 'shut';
        const about = new Set(idsOf(found, 'about'));
        // V1 to LP1, by hand: S1, PR1, S1b, F1, G1, S2.
        expect(idsOf(found, 'dead')).toEqual(isShut ? ['S1', 'PR1', 'S1b', 'F1', 'G1', 'S2'].filter((id) => !about.has(id)) : []);
        expect(found.notes.some((note) => note.startsWith('Cut off only as long as checks'))).toBe(isShut);
    }
    expect(steps.filter(({ marks }) => marks.some(({ about, words }) => about === 'F1' && (words ?? '').includes('element out')))).not.toHaveLength(0);
});

test('a can that hangs in her for the job alone is no mark, and is told where it is meant', async () => {
    const boat = await boatOf('ottilwake');
    const known = new Set([...boat.parts, ...boat.tanks, ...boat.consumers].flatMap(({ id, ...other }) => [id, ...('vents' in other ? other.vents.map((vent) => vent.id) : [])]));
    const steps = walked(boat, 'bleed E1 from a can');
    for (const { positions, marks } of steps) {
        for (const [valve] of positions ?? []) expect(known.has(valve)).toBe(true);
        for (const { about } of marks) expect(known.has(about)).toBe(true);
    }
    // Fuel runs from the can by its height: the step that bleeds so is about the can too.
    const told = steps.filter(({ notes }) => notes.some((note) => note.startsWith('Not on the drawing') && note.includes('CAN')));
    expect(told.length).toBeGreaterThan(0);
    expect(told.every(({ notes }) => notes.some((note) => /\bcan\b|CAN/.test(note) && !note.startsWith('Not on')))).toBe(true);
});

const BY_HAND = `vessel Handwake
tank T1 { pickup P1 drop R1 vent }
engine E1
supply course Feed from T1.P1 to E1 { shutoff V1   normally open   hose S1   filter F1 }
return course Back from E1 to T1.R1 { hose R1 }
line-up RUN run is normal
procedure "The owner's own" {
  shut V1
  open F1 ports
}
procedure work V1 "First" { shut V1 }
`;

test('a procedure with a title alone, by its title; what is wrong with it stands before its words', async () => {
    // Without a job it is a slip of the text, and can be walked all the same.
    const { boat } = await loadBoat({ 'boat.orlop': BY_HAND });
    const [first, second] = walked(boat, '"The owner\'s own"');
    expect(first?.positions?.get('V1')).toBe('shut');
    expect(second?.marks).toContainEqual({ about: 'F1', as: 'open', words: 'ports open' });
    // Her engine was never stopped, and F1 is left open.
    expect(first?.notes[0]).toMatch(/^It must not be followed before this is mended: /);
    expect(readShow('step 2 of The owner\'s own', boat)).toEqual(readShow('step 2 of "The owner\'s own"', boat));
});

test('refused: a step that is not there, and a job that has no procedure', async () => {
    const boat = await boatOf('ottilwake');
    expect(refused('step 34 of renew F1 element', { boat })).toBe('Renew F1 element has 33 steps; there is no step 34.');
    // No valve stands between T1 and F2 on the return: F2 cannot be opened below the level.
    const blank = await boatFrom('vessel Barewake\ntank T1 { pickup P1 vent }\nengine E1\nsupply course Feed from T1.P1 to E1 { hose S1   filter F1 }\nline-up RUN run is normal\n');
    expect(markupFor(readShow('step 1 of renew F1 element', blank), { boat: blank })).toHaveProperty('refused');
    expect(stepsOf(readShow('step 1 of renew F1 element', blank), { boat: blank })).toBeUndefined();
    expect(stepsOf({ show: 'line-up' }, { boat })).toBeUndefined();
});
