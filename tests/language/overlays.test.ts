/** Surveys and refits laid over the boat: as drawn, as found, as is, after a refit; answers, waivers, grades of evidence. */
import { describe, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { loadBoat, type Loaded } from '../../src/language/load';
import type { Part, View } from '../../src/model/boat';
import { planBleed } from '../../src/procedures/bleed';
import { SLOOP, edit, without } from '../checks/boats';

const SURVEY = `
survey Spring26 "before purchase" on 2026-03-02 by "surveyor" afloat {
  drawn is "owner's sketch rev B" frozen 2026-02-20
  limits "heads lining not lifted"
  found S1 bore 6 mm, drawn 8 mm   measured photo "p14.jpg"   accept found
  found tee J9 between S1 and PR1, not drawn   touched   defect B
  missing B1   touched   drawing error
  found Back from E1, drawn E1   seen   open
  found S2 label "DIESEL FWD"   seen
  found V1 shut, drawn open   touched
  answer CHAFE at S2   fail "no grommet at frame 6"   seen photo "p22.jpg"
  test hold on Feed 34 kPa for 5 min
}
`;
const REFIT = `
refit Haul26 "second shutoff" reason "the feed is long" {
  insert shutoff V2 at 620 mm between S2 and LP1
  set S2 bore 10 mm
  move F1 up 200 mm
  remove PR1
}
`;
const read = (text: string, view?: View): Promise<Loaded> => loadBoat({ 'boat.orlop': text }, view === undefined ? {} : { view });
const slips = async (text: string): Promise<string[]> => (await read(text)).problems.map(({ message }) => message);
const partOf = ({ boat }: Loaded, id: string): Part | undefined => boat.parts.find((part) => part.id === id);
const feed = ({ boat }: Loaded): readonly string[] => boat.courses.find(({ id }) => id === 'Feed')!.parts;
const joints = ({ boat }: Loaded): string[] => boat.joints.map(({ from, to }) => `${from} ${to}`);
const DRAWN = ['V1', 'S1', 'PR1', 'F1', 'S2', 'LP1', 'F2', 'S3'];
// F1 needs a height to be moved; 500 mm, its lid 40 over.
const HIGH = edit(SLOOP, 'passes 10 um', 'passes 10 um\n    ports at 500 mm   lid at 40 mm over ports');

describe('a survey', () => {
    test('as drawn it changes nothing', async () => {
        const loaded = await read(HIGH + SURVEY, 'drawn');
        expect(loaded.problems).toEqual([]);
        expect([feed(loaded), partOf(loaded, 'S1')!.bore!.si, partOf(loaded, 'B1') !== undefined, loaded.boat.answers]).toEqual([DRAWN, 0.008, true, []]);
        expect(loaded.boat.tags.has('J9')).toBe(false);
    });

    test.each(['found', 'as is'] as const)('%s: facts, a part that was not drawn, one that is not there, a position', async (view) => {
        const loaded = await read(HIGH + SURVEY, view);
        expect(feed(loaded)).toEqual(['V1', 'S1', 'J9', 'PR1', 'F1', 'S2', 'LP1', 'F2', 'S3']);
        expect(joints(loaded)).toEqual(expect.arrayContaining(['S1:out J9', 'J9 PR1:in', 'E1:out T1.R1']));
        expect(joints(loaded)).not.toContain('S1:out PR1:in');
        expect([partOf(loaded, 'S1')!.bore!.si, partOf(loaded, 'S2')!.label, partOf(loaded, 'B1'), partOf(loaded, 'V1')!.normally]).toEqual([0.006, 'DIESEL FWD', undefined, 'shut']);
        // The evidence of the finding is that of the fact.
        expect(loaded.boat.evidence.get('S1 bore')).toEqual({ grade: 'measured', photo: 'p14.jpg' });
        expect(loaded.boat.evidence.get('J9')?.grade).toBe('touched');
    });

    test('what it left open counts as found, not as is', async () => {
        const text = edit(HIGH, 'drop R1     bore 8 mm', 'drop R1     bore 8 mm\n  drop R2') + SURVEY.replace('found Back from E1, drawn E1   seen   open', 'found Back to T1.R2, drawn T1.R1   inferred   open');
        expect((await read(text, 'as is')).boat.courses.find(({ id }) => id === 'Back')!.to).toEqual({ part: 'T1', port: 'R1' });
        expect((await read(text, 'found')).boat.courses.find(({ id }) => id === 'Back')!.to).toEqual({ part: 'T1', port: 'R2' });
    });

    test('is kept as data, with what is to be done about each line', async () => {
        const [overlay] = (await read(HIGH + SURVEY)).boat.overlays;
        expect(overlay).toMatchObject({ id: 'Spring26', kind: 'survey', title: 'before purchase', on: '2026-03-02', by: 'surveyor' });
        expect(overlay!.changes.map((change) => [change.do, change.about, change.disposition])).toEqual([
            ['set', 'S1', 'accept found'], ['insert', 'J9', 'defect B'], ['remove', 'B1', 'drawing error'], ['end', 'Back', 'open'], ['set', 'S2', undefined], ['position', 'V1', undefined],
        ]);
    });
});

describe('a refit', () => {
    test('is not on the boat until it is asked for', async () => {
        const loaded = await read(HIGH + REFIT);
        expect(loaded.problems).toEqual([]);
        expect([feed(loaded), loaded.boat.tags.has('V2')]).toEqual([DRAWN, false]);
    });

    test('inserts, sets, moves and removes; whatever is measured from a moved part moves along', async () => {
        const loaded = await read(HIGH + REFIT, { after: 'Haul26' });
        expect(feed(loaded)).toEqual(['V1', 'S1', 'F1', 'S2', 'V2', 'LP1', 'F2', 'S3']);
        expect(joints(loaded)).toEqual(expect.arrayContaining(['S1:out F1:in', 'S2:out V2:in', 'V2:out LP1:in']));
        expect(partOf(loaded, 'S2')!.bore!.si).toBe(0.01);
        expect(partOf(loaded, 'V2')!.at!.up!.si).toBeCloseTo(0.62);
        // 500 + 200 = 700 mm, its lid at 740.
        expect([partOf(loaded, 'F1')!.at!.up!.si, partOf(loaded, 'F1')!.lid!.up!.si]).toEqual([expect.closeTo(0.7), expect.closeTo(0.74)]);
    });

    test('stands on the boat as it is, so on what surveys found', async () => {
        const loaded = await read(HIGH + SURVEY + REFIT.replace('  remove PR1\n', ''), { after: 'Haul26' });
        expect(feed(loaded)).toEqual(['V1', 'S1', 'J9', 'PR1', 'F1', 'S2', 'V2', 'LP1', 'F2', 'S3']);
    });

    test('any analysis runs on it: a shutoff that is missing as is, is there after it', async () => {
        const bare = without(SLOOP, 'shutoff V1 normally open');
        const text = `${bare}\nrefit Haul26 { insert shutoff V9 normally open between T1.P1 and S1 }`;
        const codes = async (view: View): Promise<string[]> => judge((await read(text, view)).boat).findings.map(({ rule }) => rule.code);
        expect(await codes('as is')).toContain('SHUT-AT-TANK');
        expect(await codes({ after: 'Haul26' })).toEqual([]);
    });

    test('a part put in on the lines of an engine is bled like any other', async () => {
        const text = `${edit(SLOOP, '  bleed BS3', '  bleed BS3\n  injection in-line mechanical   exhaust dry')}\nrefit Haul26 { insert filter F9 primary between S2 and LP1 {\n bleed BS9\n } }`;
        const loaded = await read(text, { after: 'Haul26' });
        expect(loaded.problems).toEqual([]);
        const plan = planBleed(loaded.boat, { engine: 'E1', opened: ['F9'] });
        expect('refused' in plan ? plan.refused : plan.steps.flatMap(({ step }) => (step.do === 'bleed' ? [step.vent] : []))).toContain('BS9');
    });
});

describe('what goes wrong is said in one sentence', () => {
    test.each<[string, string, RegExp]>([
        ['neighbours that are not joined', 'refit R { insert shutoff V9 between S1 and LP1 }', /^S1 and LP1 are not joined to one another/],
        ['neighbours the wrong way round', 'refit R { insert shutoff V9 between S2 and F1 }', /^S2 and F1 are not joined to one another, in this order/],
        ['no neighbours', 'refit R { insert shutoff V9 }', /^Between what\? Say it like `V9 between S2 and LP1`/],
        ['a part that is not there', 'refit R { move F9 up 200 mm }', /^`F9` is not in this boat/],
        ['a move to nowhere', 'refit R { move F1 higher }', /^Moved which way, and how far/],
        ['another verb', 'refit R { delete F1 }', /^A line of a refit begins with/],
        ['a verb of the other block', 'survey S { move F1 up 200 mm }', /^A line of a survey begins with/],
        ['a fact with a slip', 'refit R { set S1 bore 8 mn }', /^`mn` is not a unit. Did you mean `8 mm`/],
        ['an answer to a computed rule', 'survey S { answer SHUT-AT-TANK at V1 pass }', /^SHUT-AT-TANK is computed from the boat; nobody answers it/],
        ['an answer to no rule', 'survey S { answer CHAVE at S1 pass }', /^`CHAVE` is not a rule that a person answers. Did you mean `CHAFE`/],
        ['an answer that is none', 'survey S { answer CHAFE at S1 perhaps }', /^An answer reads like/],
        ['a waiver without an end', 'waive SHUT-AT-TANK at V1 by "owner" because "x"', /^A waiver says its last day, like `until 2027-04-01`/],
        ['a waiver without a reason or an owner', 'waive SHUT-AT-TANK at V1 until 2027-04-01', /^A waiver says who waives it.*, and why/],
        ['a waiver of no rule', 'waive SHUT-AT-TNAK at V1 until 2027-04-01 by "o" because "x"', /^There is no rule SHUT-AT-TNAK. Did you mean `SHUT-AT-TANK`/],
        ['a waiver until a day that the calendar has not', 'waive SHUT-AT-TANK at V1 until 2027-02-30 by "o" because "x"', /^A waiver says its last day/],
    ])('%s', async (_what, text, message) => {
        const found = await slips(`${SLOOP}\n${text}\n`);
        expect(found).toEqual([expect.stringMatching(message)]);
    });
});

describe('answers of a person', () => {
    test('are verdicts of their rule, with their grade; unanswered rules say nothing', async () => {
        const { findings, verdicts } = judge((await read(HIGH + SURVEY)).boat);
        expect(findings.filter(({ rule }) => rule.code === 'CHAFE').map(({ about, grade, severity }) => [about, grade, severity])).toEqual([['S2', 'seen', 'minor']]);
        expect(verdicts.filter(({ check }) => check.code === 'CLAMP')).toEqual([]);
        const passed = judge((await read(HIGH + SURVEY.replace('fail "no grommet at frame 6"', 'pass'))).boat);
        expect(passed.verdicts.filter(({ check }) => check.code === 'CHAFE').map(({ verdict }) => verdict.outcome)).toEqual(['pass']);
    });
});

describe('a waiver', () => {
    const bare = without(SLOOP, 'shutoff V1 normally open');
    const waived = `${bare}\nwaive SHUT-AT-TANK at S1 until 2027-04-01 by "owner" because "hauled in spring"`;
    const codes = async (text: string, today?: string): Promise<[string[], string[]]> => {
        const judgement = judge((await read(text)).boat, today);
        return [judgement.findings.map(({ rule }) => rule.code), judgement.waived.map(({ finding }) => finding.rule.code)];
    };
    test('takes one rule at one thing from the findings, until its last day', async () => {
        const [before] = await codes(bare);
        expect(before).toContain('SHUT-AT-TANK');
        for (const today of [undefined, '2026-01-01', '2027-04-01']) expect(await codes(waived, today)).toEqual([before.filter((code) => code !== 'SHUT-AT-TANK'), ['SHUT-AT-TANK']]);
        const [after, none] = await codes(waived, '2027-04-02');
        expect([after, none]).toEqual([before, []]);
        const { findings } = judge((await read(waived)).boat, '2027-04-02');
        expect(findings.find(({ rule }) => rule.code === 'SHUT-AT-TANK')!.reason).toMatch(/waived by owner until 2027-04-01 \(hauled in spring\), and that day has passed/);
    });
    test('at another thing, or of another rule, changes nothing', async () => {
        const [before] = await codes(bare);
        expect((await codes(waived.replace('at S1', 'at S2')))[0]).toEqual(before);
        expect((await codes(waived.replace('SHUT-AT-TANK', 'VENT-AREA')))[0]).toEqual(before);
    });
});

describe('how well a thing is known', () => {
    const evidence = async (text: string): Promise<ReadonlyMap<string, unknown>> => (await read(text)).boat.evidence;
    test('a mark behind a fact is of that fact; with no fact before it, of the whole; a course speaks for what stands in it', async () => {
        const text = edit(edit(SLOOP, 'hose S1      bore 8 mm', 'hose S1 seen 2025-05-01   bore 8 mm measured   length 2 m'), 'supply course Feed from T1.P1 to E1 {', 'supply course Feed from T1.P1 to E1 told by "sketch" {');
        const known = await evidence(text);
        expect(known.get('S1')).toEqual({ grade: 'seen', on: '2025-05-01' });
        expect(known.get('S1 bore')).toEqual({ grade: 'measured' });
        expect(known.get('S1 length')).toEqual({ grade: 'seen', on: '2025-05-01' });
        expect(known.get('V1')).toEqual({ grade: 'told', by: 'sketch' });
        expect(known.get('F1 passes')).toEqual({ grade: 'told', by: 'sketch' });
        expect(known.get('B1')).toBeUndefined();
    });

    test('`about` says nothing of how a fact is known', async () => {
        expect((await evidence(edit(SLOOP, 'hose S1      bore 8 mm', 'hose S1 seen   bore 8 mm about'))).get('S1 bore')).toEqual({ grade: 'seen' });
    });

    test('a verdict knows the weakest of what it rests on', async () => {
        const bare = without(SLOOP, 'shutoff V1 normally open');
        const grade = async (text: string): Promise<string | undefined> => judge((await read(text)).boat).findings.find(({ rule }) => rule.code === 'SHUT-AT-TANK')!.grade;
        expect(await grade(bare)).toBe('told');
        expect(await grade(edit(bare, 'hose S1      bore 8 mm', 'hose S1 inferred bore 8 mm'))).toBe('inferred');
        expect(await grade(edit(bare, 'hose S1      bore 8 mm', 'hose S1 measured bore 8 mm'))).toBe('measured');
    });

    test('what is written as unknown or unreached goes to the facts to measure', async () => {
        const { open } = judge((await read(edit(SLOOP, 'hose S1      bore 8 mm', 'hose S1 bore unknown   crest at unreached'))).boat);
        expect(open.filter(({ code }) => code === undefined).map(({ fact }) => fact.fact).sort()).toEqual(['the bore of S1', 'the crest of S1']);
    });
});
