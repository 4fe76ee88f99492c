/** Which of several layers counts: found over drawn, the later survey over the earlier, a refit over surveys, what is said over what is taken over. */
import { describe, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { loadBoat, type Loaded } from '../../src/language/load';
import type { Part, View } from '../../src/model/boat';
import { planBleed } from '../../src/procedures/bleed';
import { sheetText } from '../../src/documents/bleed/sheet';
import { SLOOP, edit } from '../checks/boats';

const read = (text: string, view?: View): Promise<Loaded> => loadBoat({ 'boat.orlop': text }, view === undefined ? {} : { view });
const slips = async (text: string): Promise<string[]> => (await read(text)).problems.map(({ message }) => message);
const partOf = ({ boat }: Loaded, id: string): Part => boat.parts.find((part) => part.id === id)!;
const up = (loaded: Loaded, id: string): number => partOf(loaded, id).at!.up!.si;
const BARE = 'vessel M\ntank T1 { pickup P1   drop R1 }\nengine E1\n';

describe('surveys and refits', () => {
    const text = `${SLOOP}
refit Haul26 { set S1 bore 10 mm }
survey New on 2026-03-02 { found S1 bore 6 mm
  answer CHAFE at S2 pass }
survey Old on 2020-03-02 { found S1 bore 7 mm
  answer CHAFE at S2 fail }`;
    test('the later survey counts, wherever it is written; a refit builds on both', async () => {
        expect(partOf(await read(text), 'S1').bore!.si).toBe(0.006);
        expect(partOf(await read(text, { after: 'Haul26' }), 'S1').bore!.si).toBe(0.01);
        expect(judge((await read(text)).boat).findings.filter(({ rule }) => rule.code === 'CHAFE')).toEqual([]);
    });

    test('a part put in may be a neighbour itself', async () => {
        const loaded = await read(`${SLOOP}survey S on 2026-01-01 { found tee J9 between V1 and S1 }\nrefit H {\n insert shutoff V8 between J9 and S1\n insert shutoff V9 between V8 and S1 }`, { after: 'H' });
        expect(loaded.problems).toEqual([]);
        expect(loaded.boat.courses.find(({ id }) => id === 'Feed')!.parts.slice(0, 5)).toEqual(['V1', 'J9', 'V8', 'V9', 'S1']);
    });

    test.each<[string, string, RegExp]>([
        ['its neighbour is taken out', 'refit H {\n remove LP1\n insert electric pump EP1 gives 40 L/h between S2 and LP1 }', /^S2 and LP1 are not joined to one another, in this order, in this state/],
        ['a survey that puts in', 'survey S { insert shutoff V9 between S2 and LP1 }', /^A survey puts nothing in/],
        ['a refit that finds', 'refit H { found shutoff V9 between S2 and LP1 }', /^A refit finds nothing/],
        ['a day that the calendar has not', 'survey S on 2026-02-30 { missing S2 }', /^After `on` comes the day of the survey/],
        ['a word of the head misspelt', 'survey S onn 2026-03-02 { missing S2 }', /^`onn` is not understood here/],
        ['a bleed point missing', 'survey S { missing BS1 }', /^BS1 cannot be taken out by such a line/],
        ['an engine removed', 'refit H { remove E1 }', /^E1 cannot be taken out by such a line/],
        ['a hose with another end', 'survey S { found S1 to T1 }', /^S1 is not a course of this boat/],
        ['a second name', 'survey S { missing S2, F2 }', /^`F2` is not understood here: each thing has a line of its own/],
        ['a fact behind what was drawn', 'survey S { found S2 bore 6 mm, drawn 8 mm, length 3 m }', /^`length` is not understood here: a fact stands before `, drawn`/],
        ['a fact behind the neighbours', 'refit H { insert shutoff V9 between S2 and LP1 normally open }', /^`normally` is not understood here: what is said of it stands before `between`/],
    ])('what cannot be done is never passed over: %s', async (_what, lines, message) => expect(await slips(SLOOP + lines)).toEqual([expect.stringMatching(message)]));

    test('two moves on a line, with a comma or without', async () => {
        const high = edit(SLOOP, 'passes 10 um', 'passes 10 um\n    ports at 500 mm up, 1000 mm fwd');
        for (const move of ['move F1 up 200 mm aft 50 mm', 'move F1 up 200 mm, aft 50 mm']) {
            const { at } = partOf(await read(`${high}refit H { ${move} }`, { after: 'H' }), 'F1');
            expect([at!.up!.si, at!.fwd!.si]).toEqual([expect.closeTo(0.7), expect.closeTo(0.95)]);
        }
    });

    test('`normally open` is a fact, `open` alone is not settled', async () => {
        expect(await slips(`${SLOOP}survey S { found V1 normally open accept found }`)).toEqual([]);
        expect((await read(`${SLOOP}survey S { found S1 bore 6 mm measured open }`)).boat.parts.find(({ id }) => id === 'S1')!.bore!.si).toBe(0.008);
    });

    test('a valve that is missing stops nothing: its place in a line-up is void', async () => {
        const text = `${edit(SLOOP, 'run is normal', 'run is normal { V1 open }')}survey S { missing V1 touched drawing error }`;
        const loaded = await read(text);
        expect(loaded.problems).toEqual([]);
        expect(judge(loaded.boat).findings.map(({ rule }) => rule.code)).toContain('SHUT-AT-TANK');
    });

    test('a sheet made for a refit says so', async () => {
        const { boat } = await read(`${edit(SLOOP, '  bleed BS3', '  bleed BS3\n  injection in-line mechanical   exhaust dry')}refit Haul26 { set S1 bore 10 mm }`, { after: 'Haul26' });
        const plan = planBleed(boat, { engine: 'E1', opened: ['F1'] });
        if ('refused' in plan) throw new Error(plan.refused);
        expect(sheetText(boat, plan).split('\n')[0]).toMatch(/, after Haul26$/);
    });

    test('what nobody could look at is unreached', async () => {
        expect((await read(`${SLOOP}survey S { unreached S2 "behind the lining" }`)).boat.evidence.get('S2')).toMatchObject({ grade: 'unreached' });
    });
});

describe('heights', () => {
    // 660 mm - 100 mm.
    test('are measured from the neighbour of the same course, though another thing has its name and it stands further on', async () => {
        const loaded = await read(`${BARE}pattern Wing is supply course {\n  shutoff V1 at 100 mm under F1 ports\n  filter F1 primary ports at 660 mm\n}
supply course A like Wing from T1.P1 to E1 tags -P
return course B from E1 to T1.R1 { filter F1 final ports at 1500 mm }`);
        expect(up(loaded, 'V1-P')).toBeCloseTo(0.56);
    });
    test('are measured from what stands further on', async () => {
        expect(up(await read(`${BARE}supply course A from T1.P1 to E1 { shutoff V1 at 100 mm under F1 ports   filter F1 primary ports at 660 mm }`), 'V1')).toBeCloseTo(0.56);
    });
    const chain = `${BARE}supply course A from T1.P1 to E1 {\n  filter F0 primary ports at 700 mm\n  filter F1 final ports at 100 mm over F0 ports\n}\n`;
    test('a part moves by its own move, and not with the one that it was measured from', async () => {
        expect(up(await read(`${chain}refit H { move F1 up 200 mm }`, { after: 'H' }), 'F1')).toBeCloseTo(1.0);
        const other = await read(`${chain}refit H { move F0 up 200 mm }`, { after: 'H' });
        expect([up(other, 'F0'), up(other, 'F1')]).toEqual([expect.closeTo(0.9), expect.closeTo(0.8)]);
    });
    test('a tank moves with all its fittings', async () => {
        const text = 'vessel M\ntank T1 {\n  box 800 x 600 x 420 mm   low aft inner corner at 200 mm up\n  pickup P1   mouth at 25 mm off bottom   top at 650 mm\n  vent at 620 mm\n}\nrefit H { move T1 up 300 mm }';
        const { boat } = await read(text, { after: 'H' });
        const [tank] = boat.tanks;
        // 200 + 300; 225 + 300; 650 + 300; 620 + 300.
        expect([tank!.box!.corner.up!.si, tank!.fittings[0]!.mouth!.up!.si, tank!.fittings[0]!.top!.up!.si, tank!.fittings[1]!.top!.up!.si]).toEqual([0.5, 0.525, 0.95, 0.92].map((height) => expect.closeTo(height)));
    });
    test('`at` found overrules the `ports` that were drawn, and the other way round', async () => {
        const drawn = `${BARE}supply course A from T1.P1 to E1 { filter F1 primary ports at 660 mm }\n`;
        expect(up(await read(`${drawn}survey S { found F1 at 700 mm measured accept found }`), 'F1')).toBeCloseTo(0.7);
        expect(up(await read(`${drawn.replace('ports at', 'at')}survey S { found F1 ports at 700 mm measured accept found }`), 'F1')).toBeCloseTo(0.7);
    });
});

describe('likeness', () => {
    test('two lines of a course on one part both count', async () => {
        const loaded = await read(`${BARE}pattern Wing is supply course { hose S1 bore 8 mm length 2 m }\nsupply course A like Wing from T1.P1 to E1 tags -P {\n  hose S1 length 1.2 m\n  hose S1 bore 5 mm\n}`);
        expect([partOf(loaded, 'S1-P').length!.si, partOf(loaded, 'S1-P').bore!.si]).toEqual([1.2, 0.005]);
    });
    test('mirrored twice is not mirrored', async () => {
        const tank = 'tank T1 { box 800 x 600 x 420 mm   low aft inner corner at 200 mm up, 2 m fwd, 500 mm stbd }\ntank T2 like T1 mirrored\ntank T3 like T2 mirrored\n';
        expect((await read(`vessel M\n${tank}`)).boat.tanks.map(({ box }) => box!.corner.stbd!.si)).toEqual([0.5, -0.5, 0.5]);
    });
    test('what differs is said fact by fact, never by another likeness', async () => {
        expect(await slips(`${BARE}pattern Wing is supply course { filter F1 final }\nsupply course A like Wing from T1.P1 to E1 tags -P { filter F1 like GenericFinal }`)).toEqual([expect.stringMatching(/^What F1 is like is said in Wing/)]);
    });
    test('what was measured on the one is inferred for the other; what it says itself is as well known as it says', async () => {
        const { boat } = await read(`${BARE}pattern Bowl is filter primary {\n  measured\n  passes 10 um\n}\nsupply course A from T1.P1 to E1 { filter F1 like Bowl   rated 20 L/h }`);
        expect([boat.evidence.get('F1 passes'), boat.evidence.get('F1 rated'), boat.evidence.get('F1')]).toEqual([{ grade: 'inferred' }, undefined, undefined]);
        const vents = await read(`${BARE}pattern Bowl is filter primary {\n  bleed BS at 45 mm over ports measured\n}\nsupply course A from T1.P1 to E1 {\n  filter F1 like Bowl\n  filter F2 final { bleed BS2 at 700 mm measured }\n}`);
        expect([vents.boat.evidence.get('BS-F1 at'), vents.boat.evidence.get('BS2 at')]).toEqual([{ grade: 'inferred' }, { grade: 'measured' }]);
        const found = await read(`${edit(SLOOP, 'hose S1      bore 8 mm', 'hose S1 bore 8 mm dated 2010')}survey S { found S1 label "X" seen }`);
        expect([found.boat.evidence.get('S1 label'), found.boat.evidence.get('S1 dated')]).toEqual([{ grade: 'seen' }, undefined]);
    });
    test('a shared pattern may name a space that only the boat has', async () => {
        const boat = `vessel M { space EngineBay machinery }\n${BARE.replace('vessel M\n', '')}supply course A from T1.P1 to E1 { filter F1 like Bowl }`;
        const loaded = await loadBoat({ 'a.orlop': boat }, { shared: { 'p.orlop': 'pattern Bowl is filter primary in EngineBay { passes 10 um }' } });
        expect([loaded.problems, partOf(loaded, 'F1').space]).toEqual([[], 'EngineBay']);
    });
});

describe('waivers', () => {
    const hoses = edit(SLOOP, 'vessel Sanderlwake {', 'vessel Sanderlwake {\n  space EngineBay machinery').replace(/ {2}hose (S\d)/g, '  hose $1 in EngineBay').replace('engine E1 {', 'engine E1 in EngineBay {');
    const judged = async (waiver: string): Promise<{ left: string[]; waived: string[]; idle: number }> => {
        const { findings, waived, idle } = judge((await read(hoses + waiver)).boat, '2026-06-01');
        const fire = findings.filter(({ rule }) => rule.code === 'HOSE-FIRE');
        return { left: fire.map(({ reason }) => reason), waived: waived.map(({ finding }) => finding.rule.code), idle: idle.length };
    };
    const by = 'until 2027-04-01 by "owner" because "sleeved"';
    test('one of several that are told together does not hide the others', async () => {
        const { left, waived } = await judged(`waive HOSE-FIRE at S1 ${by}`);
        expect(waived).toEqual([]);
        expect(left).toEqual([expect.stringMatching(/Of these S1 is waived by owner until 2027-04-01 \(sleeved\)/)]);
    });
    test('all of them do; in one line or in several', async () => {
        const members = judge((await read(hoses)).boat).findings.find(({ rule }) => rule.code === 'HOSE-FIRE')!.members!;
        expect(members.length).toBeGreaterThan(1);
        const named = members.filter((id) => !id.includes('/'));
        expect(named).toEqual(members);
        expect(await judged(`waive HOSE-FIRE at ${members.join(', ')} ${by}`)).toMatchObject({ left: [], waived: ['HOSE-FIRE'] });
        expect(await judged(members.map((id) => `waive HOSE-FIRE at ${id} ${by}\n`).join(''))).toMatchObject({ left: [], waived: ['HOSE-FIRE'] });
    });
    test('one that fits nothing is told', async () => expect(await judged(`waive VENT-AREA at T1 ${by}`)).toMatchObject({ idle: 1 }));
    test('the shutoff that a fix puts into a pattern has a name that is free there', async () => {
        const { boat } = await read(`${BARE}pattern Wing is supply course {\n  hose S1\n  filter F1 primary\n  shutoff V1\n}\nsupply course A like Wing from T1.P1 to E1 tags -P`);
        const fixes = judge(boat).findings.flatMap(({ fix }) => fix?.line ?? []).filter((line) => line.startsWith('shutoff'));
        expect(fixes.length).toBeGreaterThan(0);
        for (const line of fixes) expect(line).not.toMatch(/shutoff V1\b/);
    });
});
