/** A job that names several parts: in a list, by their kind, by their pattern. What it means is what it would mean written out. */
import { describe, expect, test } from 'vitest';
import { duePlan } from '../../src/analysis/upkeep/due';
import { usualJobs } from '../../src/analysis/upkeep/practice';
import { judge } from '../../src/checks/judge';
import { loadBoat, type Loaded } from '../../src/language/load';

const BOAT = `vessel Merrowake
pattern Bowl is filter primary { passes 10 um   seals lid ring }
pattern BigBowl is filter primary { rated 90 L/h   like Bowl }
pattern Wing is supply course {
  shutoff V1   normally open
  split { leg main { check CV1 }   leg bypass { electric primer EP1 } }
  hose S1
  filter F1 like Bowl
  primer PR1
  lift pump LP1
}
tank T1 { pickup P1   drop R1   vent   fill }
tank T2 like T1
engine E1 { injection in-line mechanical   exhaust dry }
engine E2 like E1
selector SV1 { ports in, out, two
  position ONE joins in, out
}
supply course Port like Wing from T1.P1 to E1   tags -P
supply course Stbd like Wing from T2.P1 to E2   tags -S { filter F1   passes 20 um }
supply course Spare from T2.P1 to SV1.in {
  shutoff V3
  filter F3 like BigBowl
  filter F4 like F3
  filter F5 final
  electric pump EP5
}
return course Back1 from E1 to T1.R1 { hose S8 }
return course Back2 from E2 to T2.R1 { hose S9 }
`;
const load = (upkeep: string): Promise<Loaded> => loadBoat({ 'boat.orlop': BOAT, 'upkeep.orlop': upkeep });
/** What a table asks for, one line an interval. */
async function asked(lines: string): Promise<string[]> {
    const { boat, problems } = await load(`tend {\n${lines}\n}\n`);
    expect(problems.map(({ message }) => message)).toEqual([]);
    return boat.intervals.map(({ job, hours, months, seals }) => [job.verb, job.part ?? '-', job.piece, hours === undefined ? '' : `${hours / 3600} h`, months === undefined ? '' : `${months} months`, seals.join('+')].filter((word) => word !== '').join(' ')).sort();
}

describe('a line of tend is for', () => {
    test.each<[string, string, readonly string[]]>([
        ['every name of a list', 'renew F1-P, F3 element every 250 h with lid ring', ['renew F1-P element 250 h lid ring', 'renew F3 element 250 h lid ring']],
        ['a list that ends with `and`', 'work V1-P, V1-S and V3 every 6 months', ['work V1-P 6 months', 'work V1-S 6 months', 'work V3 6 months']],
        ['every part of a kind', 'work each shutoff every 6 months', ['work V1-P 6 months', 'work V1-S 6 months', 'work V3 6 months']],
        ['every tank', 'look each tank fill cap every 12 months', ['look T1 fill cap 12 months', 'look T2 fill cap 12 months']],
        ['every engine', 'look each engine belt every 250 h', ['look E1 belt 250 h', 'look E2 belt 250 h']],
        ['a kind of two words', 'look each lift pump every 500 h', ['look LP1-P 500 h', 'look LP1-S 500 h']],
        // As in the language, a primer alone is one that is worked by hand.
        ['hand primers, not electric ones', 'test each primer every 12 months', ['test PR1-P 12 months', 'test PR1-S 12 months']],
        ['electric primers, not pumps', 'test each electric primer every 12 months', ['test EP1-P 12 months', 'test EP1-S 12 months']],
        // A split parts and rejoins the line at tees that nobody wrote.
        ['check valves within a split', 'look each check every 12 months', ['look CV1-P 12 months', 'look CV1-S 12 months']],
        ['all that is like a pattern: directly, by another pattern, by another part, in a course that is like one', 'renew each Bowl element every 250 h', ['renew F1-P element 250 h', 'renew F1-S element 250 h', 'renew F3 element 250 h', 'renew F4 element 250 h']],
        ['what is like the nearer pattern alone', 'renew each BigBowl element every 250 h', ['renew F3 element 250 h', 'renew F4 element 250 h']],
        ['kinds, patterns and names together', 'look each BigBowl, F5, each selector every 250 h', ['look F3 250 h', 'look F4 250 h', 'look F5 250 h', 'look SV1 250 h']],
        ['two pieces, each behind its part', 'renew F3 element, F5 bowl every 250 h', ['renew F3 element 250 h', 'renew F5 bowl 250 h']],
    ])('%s', async (_, line, wanted) => expect(await asked(line)).toEqual(wanted));
});

describe('the nearer statement holds', () => {
    test('by name before by pattern, the nearer pattern first, and that before by kind', async () => {
        expect(await asked(`renew each filter element every 500 h
renew F4 element every 100 h
renew each Bowl element every 250 h
renew each BigBowl element every 200 h`)).toEqual(['renew F1-P element 250 h', 'renew F1-S element 250 h', 'renew F3 element 200 h', 'renew F4 element 100 h', 'renew F5 element 500 h']);
    });
    test('of the same job alone: another verb or another piece stands beside it', async () => {
        expect(await asked('look each tank vent every 12 months\nlook T1 vent every 6 months\nlook T1 fill cap every 1 month\ndrain T1 vent every 1 month'))
            .toEqual(['drain T1 vent 1 months', 'look T1 fill cap 1 months', 'look T1 vent 6 months', 'look T2 vent 12 months']);
    });
    test('and two lines as near hold both, as they do written out', async () => {
        expect(await asked('look T1 vent every 12 months\nlook T1 vent every 250 h')).toEqual(['look T1 vent 12 months', 'look T1 vent 250 h']);
        expect(await asked('look each tank vent every 12 months\nlook each tank vent every 250 h')).toHaveLength(4);
    });
    test('in whichever table it stands', async () => {
        const { boat } = await load('tend { work each shutoff every 6 months }\ntend { work V3 every 1 month }\n');
        expect(boat.intervals.map(({ job, months }) => `${job.part} ${months}`)).toEqual(['V1-P 6', 'V1-S 6', 'V3 1']);
    });
});

describe('the log', () => {
    test('tells of several parts at once; readings between them stay readings', async () => {
        const { boat, problems } = await load('log 2026 {\n  2026-03-02   renewed F1-P, F3 and F4 element, E1 812 h and E2 809 h, T1 dipped 210 mm   worked V1-P, V1-S by "owner"\n}\n');
        expect(problems).toEqual([]);
        expect(boat.log[0]!.jobs.map(({ verb, part, piece }) => `${verb} ${part} ${piece}`.trim())).toEqual(['renew F1-P element', 'renew F3 element', 'renew F4 element', 'work V1-P', 'work V1-S']);
        expect(boat.log[0]!.hours.map(({ engine, reading }) => `${engine} ${reading / 3600}`)).toEqual(['E1 812', 'E2 809']);
    });
    test('a job for something that is only named stays one', async () => {
        const { boat } = await load('log 2026 { 2026-03-02 renewed impeller and belt and looked F3 }\n');
        expect(boat.log[0]!.jobs).toEqual([{ verb: 'renew', piece: 'impeller' }, { verb: 'renew', piece: 'belt' }, { verb: 'look', piece: '', part: 'F3' }]);
    });
    test('what it tells of each of a list sets back the date of that one', async () => {
        const { boat } = await load('tend { renew each Bowl element every 12 months }\nlog 2026 { 2026-03-02 renewed F1-P, F3 element }\n');
        // Twelve months after 2 March 2026.
        expect(duePlan(boat, '2026-04-01').map(({ job, due, state }) => `${job.part} ${due ?? state}`).sort()).toEqual(['F1-P 2027-03-02', 'F1-S unknown', 'F3 2027-03-02', 'F4 unknown']);
    });
});

test('a part that is taken out in a view has no job in it, one that is put in has', async () => {
    const texts = { 'boat.orlop': BOAT, 'upkeep.orlop': 'tend { work each shutoff every 6 months }\nrefit Haul26 {\n  remove V3\n  insert shutoff V9 between F3 and F4\n}\n' };
    const parts = async (view: 'as is' | { after: string }): Promise<unknown> => (await loadBoat(texts, { view })).boat.intervals.map(({ job }) => job.part);
    expect(await parts('as is')).toEqual(['V1-P', 'V1-S', 'V3']);
    expect(await parts({ after: 'Haul26' })).toEqual(['V1-P', 'V1-S', 'V9']);
});

test('what has an interval by `each` is not asked for one, and is not offered the usual ones', async () => {
    const lines = 'renew each filter element every 250 h or 12 months\ntest each primer, each electric primer, each electric pump every 12 months\nlook each lift pump every 500 h\nlook each hose every 12 months';
    const { boat } = await load(`tend {\n${lines}\n}\n`);
    expect(judge(boat).findings.filter(({ rule }) => rule.code === 'TASK-SET')).toEqual([]);
    expect(new Set(usualJobs(boat).map(({ verb, part, piece }) => `${verb} ${part ?? piece}`))).toEqual(new Set(['look T1', 'drain T1', 'look T2', 'drain T2', 'work V1-P', 'work V1-S', 'work V3', 'work SV1']));
});

test('what `each` of a line became leads back to that line', async () => {
    const { boat, sources } = await load('tend {\n  look each tank vent every 12 months\n  work each shutoff every 6 months\n}\n');
    expect(boat.intervals.map(({ id }) => sources.find(id)!.range.start.line)).toEqual([1, 1, 2, 2, 2]);
    expect(new Set(boat.intervals.map(({ id }) => id)).size).toBe(5);
});
