/** Say it once: patterns of parts and of courses, likeness, tags with suffixes, overrides; and what goes wrong with them. */
import { describe, expect, test } from 'vitest';
import { loadBoat, type Loaded, type Loading } from '../../src/language/load';
import type { Part } from '../../src/model/boat';

const PATTERNS = `
pattern Bowl is filter primary {
  separates water   passes 10 um   holds 450 mL
  lid at 40 mm over ports
  bleed BS at 45 mm over ports   spanner 10 mm
}
pattern Wing is supply course {
  shutoff V1   at 660 mm   normally open
  hose S1      bore 8 mm   length 2.6 m
  filter F1 like Bowl   ports at 660 mm up, 200 mm stbd
  hose S2      bore 8 mm   length 1.4 m   crest at 100 mm over F1 ports
  filter F2 final { bleed BS2 }
}
`;
const BOAT = `
vessel Merrowake
tank T1 { pickup P1   drop R1   vent   fill }
tank T2 like T1
engine E1 {
  injection in-line mechanical   exhaust dry
  bleed BS3
}
engine E2 like E1
supply course Stbd like Wing from T2.P1 to E2   tags -S
supply course Port like Wing from T1.P1 to E1   tags -P   mirrored {
  hose S2   length 1.9 m
}
return course Back1 from E1 to T1.R1 { hose }
return course Back2 from E2 to T2.R1 { hose }
line-up RUN run is normal { V1-P open }
`;

const load = (text: string, loading?: Loading): Promise<Loaded> => loadBoat({ 'boat.orlop': text }, loading);
const slips = async (text: string, loading?: Loading): Promise<string[]> => (await load(text, loading)).problems.map(({ message }) => message);
const partOf = ({ boat }: Loaded, id: string): Part => boat.parts.find((part) => part.id === id)!;

describe('two courses that are like one pattern', () => {
    test('have the parts of the pattern under tags of their own, joined in its order', async () => {
        const loaded = await load(PATTERNS + BOAT);
        expect(loaded.problems).toEqual([]);
        expect(loaded.boat.courses.find(({ id }) => id === 'Stbd')!.parts).toEqual(['V1-S', 'S1-S', 'F1-S', 'S2-S', 'F2-S']);
        expect(loaded.boat.courses.find(({ id }) => id === 'Port')!.parts).toEqual(['V1-P', 'S1-P', 'F1-P', 'S2-P', 'F2-P']);
        // Nothing of the pattern itself is on the boat.
        expect(loaded.boat.parts.map(({ id }) => id)).not.toContain('V1');
        const joints = loaded.boat.joints.filter(({ course }) => course === 'Stbd').map(({ from, to }) => `${from} ${to}`);
        expect(joints).toEqual(['T2.P1 V1-S:in', 'V1-S:out S1-S:in', 'S1-S:out F1-S:in', 'F1-S:out S2-S:in', 'S2-S:out F2-S:in', 'F2-S:out E2:in']);
    });

    test('say what differs, fact by fact', async () => {
        const loaded = await load(PATTERNS + BOAT);
        const [port, stbd] = [partOf(loaded, 'S2-P'), partOf(loaded, 'S2-S')];
        expect([port.length!.si, stbd.length!.si]).toEqual([1.9, 1.4]);
        expect([port.bore!.si, stbd.bore!.si]).toEqual([0.008, 0.008]);
    });

    test('mirrored swaps port and starboard of what is taken over', async () => {
        const loaded = await load(PATTERNS + BOAT);
        expect(partOf(loaded, 'F1-S').at!.stbd!.si).toBeCloseTo(0.2);
        expect(partOf(loaded, 'F1-P').at!.stbd!.si).toBeCloseTo(-0.2);
        // What the course says itself is meant as it is said.
        const own = await load((PATTERNS + BOAT).replace('hose S2   length 1.9 m\n}', 'filter F1   ports at 700 mm up, 300 mm stbd\n}'));
        expect(partOf(own, 'F1-P').at!.stbd!.si).toBeCloseTo(0.3);
    });

    test('a height measured from a neighbour means the neighbour of the same course', async () => {
        // F1-P at 800 mm: its crest stands at 900; F1-S stays at 660: 760.
        const loaded = await load((PATTERNS + BOAT).replace('hose S2   length 1.9 m\n}', 'filter F1   ports at 800 mm\n}'));
        expect(loaded.problems).toEqual([]);
        expect(partOf(loaded, 'S2-P').crest!.up!.si).toBeCloseTo(0.9);
        expect(partOf(loaded, 'S2-S').crest!.up!.si).toBeCloseTo(0.76);
        // Relative heights of the part's own pattern: lid 40 over ports, bleed point 45.
        expect(partOf(loaded, 'F1-P').lid!.up!.si).toBeCloseTo(0.84);
        expect(partOf(loaded, 'F1-P').vents[0]!.at!.up!.si).toBeCloseTo(0.845);
    });

    test('bleed points: the pattern\'s own get the suffix of the course; those of what a part is like are named after the part', async () => {
        const { boat } = await load(PATTERNS + BOAT);
        expect(boat.parts.flatMap(({ vents }) => vents.map(({ tag }) => tag))).toEqual(['BS-F1-S', 'BS2-S', 'BS-F1-P', 'BS2-P']);
        expect(boat.consumers.map(({ id, vents }) => [id, ...vents.map(({ tag }) => tag)])).toEqual([['E1', 'BS3'], ['E2', 'BS3-E2']]);
    });

    test('a part that names its bleed points itself takes over their facts', async () => {
        const loaded = await load(`${PATTERNS}
vessel Merrowake
tank T1 { pickup P1 }
engine E1
supply course Feed from T1.P1 to E1 {
  filter F1 like Bowl   ports at 500 mm { bleed BS1 }
}`);
        expect(loaded.problems).toEqual([]);
        const [vent] = partOf(loaded, 'F1').vents;
        expect([vent!.tag, vent!.at!.up!.si, vent!.spanner!.si]).toEqual(['BS1', expect.closeTo(0.545), 0.01]);
    });
});

describe('what a thing is like', () => {
    test('gives what is not said, all the way through; what is said overrules it', async () => {
        const loaded = await load(`vessel M
pattern Small is filter primary { passes 30 um   holds 300 mL }
pattern Fine is filter like Small { passes 10 um }
tank T1 { pickup P1 }
engine E1
supply course Feed from T1.P1 to E1 { filter F1 like Fine   filter F2 like F1 final holds 200 mL }`);
        expect(loaded.problems).toEqual([]);
        const figures = (id: string): unknown => { const part = partOf(loaded, id); return [part.role, part.passes!.si, part.holds!.si]; };
        expect(figures('F1')).toEqual(['primary', expect.closeTo(10e-6), expect.closeTo(300e-6)]);
        // Final takes the place of primary.
        expect(figures('F2')).toEqual(['final', expect.closeTo(10e-6), expect.closeTo(200e-6)]);
    });

    test('a tank takes over its fittings and mirrors its corner; a selector its ports and positions', async () => {
        const loaded = await load(`vessel M
tank T1 { box 800 x 600 x 420 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 500 mm stbd
  pickup P1 bore 8 mm
  vent }
tank T2 like T1 mirrored { pickup P1 bore 10 mm }
engine E1
selector SV1 {
  ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
}
selector SV2 like SV1 ganged with SV1
supply course A from T1.P1 to SV1.port { hose }
supply course B from T2.P1 to SV1.stbd { hose }
supply course C from SV1.out to E1 { hose }
return course D from E1 to SV2.out { hose }
return course E from SV2.port to T1 { hose }
return course F from SV2.stbd to T2 { hose }`);
        expect(loaded.problems).toEqual([]);
        const [one, two] = loaded.boat.tanks;
        expect([one!.box!.corner.stbd!.si, two!.box!.corner.stbd!.si]).toEqual([0.5, -0.5]);
        expect([one!.box!.outboard, two!.box!.outboard]).toEqual([1, -1]);
        expect(two!.fittings.filter(({ port }) => port !== 'drop').map(({ id, bore }) => [id, bore?.si])).toEqual([['T2.P1', 0.01], ['T2.vent', undefined]]);
        expect(partOf(loaded, 'SV2').positions.map(({ name }) => name)).toEqual(['PORT', 'STBD']);
    });
});

describe('where patterns come from', () => {
    const one = 'vessel M\ntank T1 { pickup P1 }\nengine E1\nsupply course Feed from T1.P1 to E1 { filter F1 like Shared }';
    const shared = { 'patterns.orlop': 'pattern Shared is filter final { passes 5 um }' };

    test('another file of the folder, the shared folder, the library', async () => {
        const both = await loadBoat({ 'a.orlop': one, 'b.orlop': shared['patterns.orlop'] });
        expect(partOf(both, 'F1').passes!.si).toBeCloseTo(5e-6);
        const beside = await load(one, { shared });
        expect([beside.problems, partOf(beside, 'F1').passes!.si]).toEqual([[], expect.closeTo(5e-6)]);
        const library = await load(one.replace('Shared', 'GenericFinal'));
        expect([library.problems, partOf(library, 'F1').role]).toEqual([[], 'final']);
        // Its figures are marked as told, by no maker.
        expect(library.boat.evidence.get('F1 passes')).toEqual({ grade: 'told', by: 'generic, no maker' });
    });

    test('the folder\'s own pattern goes before the shared one of the same name; nothing but patterns is shared', async () => {
        const own = await load(`${one}\npattern Shared is filter final { passes 2 um }`, { shared });
        expect(partOf(own, 'F1').passes!.si).toBeCloseTo(2e-6);
        expect(await slips(one.replace('Shared', 'F9'), { shared: { 'x.orlop': 'supply course X from T1 to E1 { filter F9 }' } })).toContain('`F9` is not in this boat.');
    });

    test('a slip in a shared pattern is told, once, at its place', async () => {
        const { problems } = await load(one, { shared: { 'patterns.orlop': 'pattern Shared is filter final { passes 5 mn }' } });
        expect(problems.map(({ uri, message }) => [uri.split('/').at(-2), message])).toEqual([['shared', '`mn` is not a unit. Did you mean `5 mm`?']]);
    });

    test('a finding shows in the pattern of the folder, and for a shared one where the boat uses it', async () => {
        const { sources } = await load(PATTERNS + BOAT);
        const lines = (PATTERNS + BOAT).split('\n');
        expect(lines[sources.find('V1-S')!.mark.start.line]).toMatch(/^ {2}shutoff V1/);
        expect(lines[sources.find('S2-P', 'length')!.mark.start.line]).toBe('  hose S2   length 1.9 m');
        const away = await load(BOAT, { shared: { 'patterns.orlop': PATTERNS } });
        expect(away.problems).toEqual([]);
        expect(BOAT.split('\n')[away.sources.find('V1-S')!.mark.start.line]).toMatch(/^supply course Stbd/);
    });
});

describe('what goes wrong is said in one sentence', () => {
    test.each<[string, string, RegExp]>([
        ['a pattern that is like itself', 'pattern A is filter like A', /^A leads back to this one/],
        ['two patterns that are like one another', 'pattern A is filter like B\npattern B is filter like A', /leads back to this one/],
        ['a thing of another kind', 'tank T1 { pickup P1 }\nengine E1\npattern A is hose { bore 8 mm }\nsupply course F from T1.P1 to E1 { filter F1 like A }', /^A is a hose, and this is a filter: it can only be like its own kind/],
        ['a pattern that is not there', 'tank T1 { pickup P1 }\nengine E1\nsupply course F from T1.P1 to E1 { filter F1 like Bowel }\npattern Bowl is filter', /^`Bowel` is not in this boat. Did you mean `Bowl`/],
        ['a course that is like a part', `${BOAT}${PATTERNS.replace(/pattern Wing[^]*$/, '')}`.replaceAll('like Wing', 'like Bowl').replace('{ V1-P open }', '').replace(/ {3}mirrored \{[^}]*\}/, ''), /^Bowl is not a pattern of a whole course/],
        ['a course of another service', `${PATTERNS}${BOAT.replace('return course Back2 from E2 to T2.R1 { hose }', 'return course Back2 like Wing from E2 to T2.R1 tags -R')}`, /^Wing is a pattern of a supply course, and this is a return course/],
        ['a change of a part that is not there', `${PATTERNS}${BOAT.replace('hose S2   length', 'hose S7   length')}`, /^Wing has no S7 that could differ here. (Did you mean|It has V1, S1, F1, S2, F2)/],
        ['a change without a name', `${PATTERNS}${BOAT.replace('hose S2   length', 'hose   length')}`, /^What stands in Port comes from Wing; a line here says what differs, and must name the part/],
        ['a change into another kind', `${PATTERNS}${BOAT.replace('hose S2   length 1.9 m', 'tube S2   length 1.9 m')}`, /^S2 is a hose in Wing/],
    ])('%s', async (_what, text, message) => {
        const found = await slips(text.startsWith('vessel') || text.includes('vessel') ? text : `vessel M\n${text}`);
        expect(found.filter((said) => message.test(said)).length).toBeGreaterThan(0);
        expect(new Set(found).size).toBeLessThanOrEqual(2);
    });

    test('two courses with one suffix: their tags clash, and that is a finding', async () => {
        const loaded = await load((PATTERNS + BOAT).replace('tags -P', 'tags -S').replace('{ V1-P open }', ''));
        expect(loaded.boat.tags.get('V1-S')).toEqual(['V1-S', 'V1-S~2']);
    });

    test('a tag that stands twice in a pattern still gives each part an id of its own', async () => {
        const loaded = await load((PATTERNS + BOAT).replace('hose S2      bore', 'hose S1      bore').replace('hose S2   length 1.9 m', ''));
        const ids = loaded.boat.parts.map(({ id }) => id);
        expect(new Set(ids).size).toBe(ids.length);
    });
});
