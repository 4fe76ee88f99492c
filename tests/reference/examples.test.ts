/** Whoever copies an example from a page writes no slip. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { LIBRARY_TEXT } from '../../src/language/library';
import { loadBoat, type Texts } from '../../src/language/load';
import { BOAT, COURSE, ENDS, texts, type Example } from '../../src/language/reference/examples';
import { FILE, LINES, SMALLEST, STEPS, checked } from '../../src/language/reference/guide';
import { EXAMPLES, keptBlock } from '../../src/language/reference/language';
import { ANSWER } from '../../src/language/reference/rules';
import { WRITTEN } from '../../src/language/reference/units';
import { exampleOf } from '../../src/language/reference/words';
import { FACTS } from '../../src/language/vocabulary';
import { checkBleedBlocks } from '../../src/documents/bleed/kept';
import { checkProcedures } from '../../src/documents/procedures/check';
import { PAGES, fences, section, tables } from './pages';

const slips = async (boat: Texts): Promise<string[]> => (await loadBoat(boat)).problems.map(({ message }) => message);
const named = (examples: readonly Example[]): [string, Example][] => examples.map((example) => [example.shown.split('\n')[0]!, example]);

describe('the boats of the guide', () => {
    const blanks = (text: string): string => text.replace(/[ \t]+/g, ' ').trim();

    test.each([['the smallest boat', SMALLEST], ...STEPS.map(({ title, boat }) => [title, boat]), ...STEPS.flatMap(({ title, onward }) => (onward === undefined ? [] : [[`${title}, and on from there`, onward]]))] as [string, string][])('%s', async (_, boat) => {
        expect(await slips({ [FILE]: boat })).toEqual([]);
    });

    test('the smallest boat is that of the README, blanks aside', () => {
        const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
        expect(blanks(fences(section(readme, '## The smallest boat'), 'orlop')[0]!)).toBe(blanks(SMALLEST));
    });

    test('every line is explained, and every line that a step shows stands on its boat', () => {
        const guide = PAGES['guide.md']!;
        expect(tables(section(guide, '## The smallest boat'))[0]!.rows.map(([line]) => line)).toEqual(LINES.map(([line]) => `\`${line.trim()}\``));
        for (const { title, boat } of STEPS) {
            const lines = boat.split('\n').map(blanks);
            const shown = fences(section(guide, `## ${title}`), 'orlop').flatMap((text) => text.trimEnd().split('\n')).map(blanks);
            expect(shown.length).toBeGreaterThan(0);
            expect(shown.filter((line) => !lines.includes(line))).toEqual([]);
        }
    });

    test('each step changes the boat, and its sentences are borne out by the checker', async () => {
        const boats = [SMALLEST, ...STEPS.map(({ boat }) => boat)];
        expect(new Set(boats).size).toBe(boats.length);
        const findings = async (boat: string): Promise<string[]> => (await checked(boat)).report.findings.map(({ rule, message }) => `${rule.code}: ${message}`);
        const vent = STEPS.find(({ title }) => title === 'A height')!;
        // 200 mm + 420 mm - 560 mm = 60 mm.
        const low = 'VENT-EXISTS: The vent of T1 leaves it 60 mm below its highest point.';
        expect(await findings(vent.boat)).toContain(low);
        expect(await findings(vent.onward!)).not.toContain(low);
        const survey = STEPS.find(({ title }) => title === 'A survey line')!;
        expect(await findings(survey.boat)).toContainEqual(expect.stringMatching(/^RETURN-NO-BLOCK: .*V2/));
        expect(await findings(survey.boat.split('survey ')[0]!)).not.toContainEqual(expect.stringMatching(/^RETURN-NO-BLOCK/));
        // The pattern gives F1 what the guide says that it gives.
        const { boat } = await loadBoat({ [FILE]: STEPS.find(({ title }) => title === 'A pattern')!.boat });
        const f1 = boat.parts.find(({ id }) => id === 'F1')!;
        expect([f1.separatesWater, f1.passes?.si, f1.holds?.si, f1.vents.map(({ tag }) => tag)]).toEqual([true, expect.closeTo(10e-6, 12), expect.closeTo(0.45e-3, 9), ['BS-F1']]);
    });

    test('what the guide says that the checker says, it says', async () => {
        expect(fences(PAGES['guide.md']!, 'text')).toContain((await checked(SMALLEST)).text);
    });
});

describe('the examples of the other pages', () => {
    test.each(named([...EXAMPLES, WRITTEN, ANSWER]))('%s', async (_, example) => expect(await slips(texts(example))).toEqual([]));
    test('a procedure that they show breaks no law', async () => {
        const shown = EXAMPLES.filter((example) => example.shown.startsWith('procedure '));
        expect(shown.length).toBeGreaterThan(0);
        for (const example of shown) expect(checkProcedures((await loadBoat(texts(example))).boat)).toEqual([]);
    });

    test('the boat that they stand on, and the sequence that Orlop writes for it', async () => {
        expect(await slips({ 'boat.orlop': BOAT })).toEqual([]);
        const kept = (await keptBlock())!;
        const { boat, problems } = await loadBoat({ 'boat.orlop': BOAT, 'kept.orlop': kept });
        expect([problems, checkBleedBlocks(boat)]).toEqual([[], []]);
        expect(PAGES['language.md']).toContain(kept);
    });

    test('no other text is shown', async () => {
        const known = [...[...EXAMPLES, WRITTEN, ANSWER].map(({ shown }) => shown), LIBRARY_TEXT.trimEnd(), await keptBlock()];
        for (const page of ['language.md', 'units.md', 'rules.md']) expect(fences(PAGES[page]!, 'orlop').map((text) => text.trimEnd()).filter((text) => !known.includes(text))).toEqual([]);
    });
});

/** A boat on which a line of a table can stand: the heading of the table's section, its column, and what is put around. */
const rowsOf = (heading: string, table: number): string[] => tables(section(PAGES['language.md']!, heading))[table]!.rows.map(([line]) => line!.slice(1, -1));
const MORE = `${BOAT}tank T2 { drop R1 }
selector SV1 { ports port, stbd, out
  position PORT joins port, out
}
`;
describe('lines in the tables of the language page', () => {
    test.each(rowsOf('## Heights and places', 0))('a tee %s', async (place) => {
        expect(await slips({ 'boat.orlop': BOAT, 'more.orlop': `supply course Extra from T1.P1 to E1 {\n  tee J7 ${place}\n}\n` })).toEqual([]);
    });
    test.each(rowsOf('## What was found: surveys', 0))('a survey: %s', async (line) => expect(await slips({ 'boat.orlop': MORE, 'survey.orlop': `survey Spring26 {\n  ${line}\n}\n` })).toEqual([]));
    test.each(rowsOf('## What was found: surveys', 1))('a survey that ends in %s', async (words) => expect(await slips({ 'boat.orlop': MORE, 'survey.orlop': `survey Spring26 {\n  missing G1 touched ${words}\n}\n` })).toEqual([]));
    test.each(rowsOf('## Bleed sequences', 0))('bleed E1 %s', async (head) => expect(await slips({ 'boat.orlop': MORE, 'bleed.orlop': `bleed E1 ${head} {\n}\n` })).toEqual([]));
    test.each(tables(section(PAGES['language.md']!, '## Bleed sequences'))[1]!.rows.map(([, step]) => step!.slice(1, -1)))('a step: %s', async (step) => {
        expect(await slips({ 'boat.orlop': MORE, 'bleed.orlop': `bleed E1 after opening F1 {\n  ${step}\n}\n` })).toEqual([]);
    });
    test.each(rowsOf('## Line-ups', 0))('a line-up for %s', async (use) => expect(await slips({ 'boat.orlop': MORE, 'line-up.orlop': `line-up EXTRA ${use} from RUN { V1 shut }\n` })).toEqual([]));
    test.each(tables(section(PAGES['language.md']!, '## Intervals: tend'))[0]!.rows.map(([verb, past]) => [verb!.slice(1, -1), past!.slice(1, -1)] as const))('to %s and %s', async (verb, past) => {
        expect(await slips({ 'boat.orlop': MORE, 'upkeep.orlop': `tend {\n  ${verb} F1 element every 250 h\n}\nlog 2026 {\n  2026-01-31   E1 100 h   ${past} F1 element\n}\n` })).toEqual([]);
    });
});

/** Where a fact of each kind stands. What an example names is there: the space EngineBay, the pattern or the like Primary60, SV2. */
const SELECTOR = '{\n  ports port, stbd, out\n  position PORT joins port, out\n  position STBD joins stbd, out\n  position OFF joins nothing\n';
const inCourse = (part: string): string => `${ENDS}${COURSE} {\n${part}\n}\n`;
const STANDS: Readonly<Record<string, (fact: string) => string>> = {
    vessel: (fact) => `vessel Ottilwake {\n  ${fact}\n}`,
    space: (fact) => `vessel Ottilwake {\n  space EngineBay ${fact}\n}`,
    tank: (fact) => `${ENDS}tank Primary60\ntank T1 {\n  ${fact}\n}`,
    fitting: (fact) => `${ENDS}tank T1 {\n  fill ${fact}\n}`,
    section: (fact) => {
        const [at, corners] = ['at 3000 mm fwd', exampleOf(FACTS.section!.find(({ words }) => words === 'corners')!)];
        const own = fact.startsWith('at ') ? `${fact}   ${corners}` : fact.startsWith('corners ') ? `at 2200 mm fwd   ${fact}` : `at 2200 mm fwd   ${corners}   ${fact}`;
        return `${ENDS}tank T1 {\n  section ${own}\n  section ${at}   ${corners}\n}`;
    },
    consumer: (fact) => `${ENDS}engine Primary60\nengine E1 {\n  ${fact}\n}`,
    bleed: (fact) => `${ENDS}engine E1 {\n  bleed BS3 ${fact}\n}`,
    selector: (fact) => `${ENDS}selector SV2 ${SELECTOR}}\nselector Primary60 ${SELECTOR}}\nselector SV1 ${SELECTOR}  ${fact}\n}`,
    course: (fact) => `${ENDS}pattern Wing is supply course { hose S1 }\nsupply course Line like Wing from T9.P1 to E9 ${fact}`,
    pattern: (fact) => `pattern Wing is supply course ${fact} { hose S1 }`,
    split: (fact) => inCourse(`split ${fact} {\n  leg A { hose }\n  leg B { hose }\n}`),
    leg: (fact) => inCourse(`split {\n  leg A ${fact} { hose }\n  leg B { hose }\n}`),
    changeover: (fact) => inCourse(`changeover CH1 {\n  leg PORT { hose }\n  leg STBD { hose }\n  position PORT through PORT\n  position STBD through STBD\n  position OFF through nothing\n  ${fact}\n}`),
};
/** A part in a course. */
const part = (kind: string) => (fact: string): string => `pattern Primary60 is ${kind}\n${inCourse(`${kind} X1 {\n  ${fact}\n}`)}`;

describe.each(Object.keys(FACTS))('the example of every fact of a %s', (kind) => {
    const stands = STANDS[kind] ?? part(kind === 'hand primer' ? 'primer' : kind);
    test('is a fact without a slip', async () => {
        const told: string[] = [];
        for (const word of FACTS[kind]!) for (const slip of await slips({ 'boat.orlop': stands(exampleOf(word)) })) told.push(`${exampleOf(word)}: ${slip}`);
        expect(told).toEqual([]);
    });
    test('where a slip would be told', async () => expect(await slips({ 'boat.orlop': stands('xyzzy 3') })).not.toEqual([]));
});
