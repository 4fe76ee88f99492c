/** Nothing that the code knows is left out of the pages: compared with its tables and with the grammar. */
import { AstUtils, EmptyFileSystem, GrammarAST } from 'langium';
import { describe, expect, test } from 'vitest';
import { INSPECTED } from '../../src/checks/inspected';
import { RULES } from '../../src/checks/rules';
import { STANDING } from '../../src/documents/findings/report';
import { LIBRARY_TEXT } from '../../src/language/library';
import { ANCHORS, DIRECTIONS } from '../../src/language/vocabulary';
import { JOB_VERBS } from '../../src/language/lowering/jobs';
import { OPENING_WORDS, SWITCHES, TOPICS } from '../../src/language/lowering/hand-steps';
import { PROCEDURE_STEPS, STEP_VERBS } from '../../src/language/lowering/steps';
import { USES } from '../../src/language/lowering/lines';
import { DISPOSITIONS, KEPT, VERBS, WAYS } from '../../src/language/lowering/overlays';
import { ENTRIES, PARTS } from '../../src/language/reference/kinds';
import { createOrlopServices } from '../../src/language/services';
import { FACTS, MARKS } from '../../src/language/vocabulary';
import { SEVERITIES } from '../../src/model/finding';
import { UNITS } from '../../src/model/units';
import { PAGES, codes, fences, section, tables } from './pages';

const LANGUAGE = PAGES['language.md']!;
const { rules } = createOrlopServices(EmptyFileSystem).Orlop.Grammar;
const keywordsIn = (rule: GrammarAST.AbstractRule): string[] => AstUtils.streamAllContents(rule).filter(GrammarAST.isKeyword).map(({ value }) => value).filter((word) => /^[a-z]/.test(word)).toArray();
const KEYWORDS = [...new Set(rules.filter(GrammarAST.isParserRule).flatMap(keywordsIn))].sort();

/** Words of the language on the page: between backticks in its sentences, not only in an example. */
const said = new Set(codes(LANGUAGE).flatMap((code) => code.match(/(?<![A-Za-z])[a-z][a-z-]*/g) ?? []));

describe('the language page', () => {
    test('the grammar has keywords to compare with', () => expect(KEYWORDS.length).toBeGreaterThan(50));
    test.each(KEYWORDS)('keyword %s', (keyword) => expect([...said]).toContain(keyword));

    test('every block that is kept as it stands', () => {
        const later = [...keywordsIn(rules.find(({ name }) => name === 'Later')!)];
        expect(tables(section(LANGUAGE, '## Kept as it stands'))[0]!.rows.map(([word]) => word).toSorted()).toEqual(later.map((word) => `\`${word}\``).toSorted());
    });

    test.each(Object.keys(MARKS))('mark %s', (mark) => {
        expect(tables(section(LANGUAGE, '## How well a fact is known'))[0]!.rows).toContainEqual([`\`${mark}\``, MARKS[mark]]);
    });

    const kinds = [...ENTRIES, ...PARTS];
    test('every kind has its section', () => {
        const told = [...kinds.flatMap(({ tables: of }) => of.map(([table]) => table)), 'course', 'pattern'];
        const missing = Object.keys(FACTS).filter((kind) => FACTS[kind]!.length > 0 && !told.includes(kind));
        // Told under the heading of a kind whose words are the very same.
        expect(missing.filter((kind) => !kinds.some(({ title, tables: of }) => title.split(' ').includes(kind) && of.some(([table]) => FACTS[table] === FACTS[kind])))).toEqual([]);
    });

    const sections: [string, string][] = [
        ...kinds.flatMap(({ title, tables: of }) => of.map(([kind]): [string, string] => [kind, section(LANGUAGE, `### ${title}`)])),
        ['course', section(LANGUAGE, '## Courses').split('\n### ')[0]!], ['pattern', section(LANGUAGE, '## Said once: patterns and likeness')],
    ];
    test.each(sections)('every fact word of a %s', (kind, text) => {
        const shared = tables(section(LANGUAGE, '## Words that many kinds share'))[0]!.rows;
        for (const { words, doc, form } of FACTS[kind]!) {
            const row = [...tables(text), { rows: shared }].flatMap(({ rows }) => rows).find(([word]) => word === `\`${words}\``);
            expect(codes(text), words).toContain(words);
            expect(row, words).toHaveLength(4);
            expect(row![2]!.startsWith(`\`${words}`), words).toBe(true);
            expect(row![3]!.startsWith(doc), words).toBe(true);
            if (form.is === 'choice') for (const choice of form.of) expect(row![1], words).toContain(`\`${choice}\``);
        }
    });

    test.each<[string, string, readonly string[]]>([
        ['directions and grounds of heights', '## Heights and places', [...Object.keys(DIRECTIONS), ...ANCHORS]],
        ['what became of what was found', '## What was found: surveys', [...DISPOSITIONS, ...KEPT]],
        ['lines of a refit', '## What is proposed: refits', [...VERBS.refit.filter((verb) => !KEPT.has(verb)), ...Object.keys(WAYS)]],
        ['uses of line-ups', '## Line-ups', USES],
        ['verbs of jobs', '## Intervals: tend', Object.entries(JOB_VERBS).flat()],
        ['steps', '## Bleed sequences', [...Object.keys(STEP_VERBS), ...Object.values(STEP_VERBS)]],
        ['steps of procedures', '## Procedures', [...Object.keys(PROCEDURE_STEPS), ...Object.values(PROCEDURE_STEPS), ...OPENING_WORDS, ...TOPICS, ...Object.values(SWITCHES).flat()]],
    ])('%s', (_what, heading, words) => expect(codes(section(LANGUAGE, heading))).toEqual(expect.arrayContaining([...words])));

    test('lines of a survey', () => {
        const lines = tables(section(LANGUAGE, '## What was found: surveys'))[0]!.rows.map(([line]) => line!.slice(1).split(' ')[0]);
        expect([...new Set(lines)].toSorted()).toEqual(VERBS.survey.filter((verb) => !KEPT.has(verb)).toSorted());
    });

    test('the patterns that come with Orlop, as they are', () => expect(fences(LANGUAGE, 'orlop')).toContain(LIBRARY_TEXT));
});

test('every unit has its row, under its dimension', () => {
    const rows = tables(section(PAGES['units.md']!, '## The list')).flatMap((table) => table.rows);
    const spelt = rows.flatMap(([written]) => written!.split(', ').map((symbol) => symbol.slice(1, -1)));
    expect(spelt.toSorted()).toEqual(Object.keys(UNITS).toSorted());
});

describe('the rules page', () => {
    const page = PAGES['rules.md']!;
    const list = tables(section(page, '## All rules'))[0]!.rows;

    test('every rule once in the list, with its sort', () => {
        expect(list.map(([code, severity, sort]) => `${code} ${severity} ${sort}`).toSorted()).toEqual([
            ...RULES.map(({ code, severity }) => `\`${code}\` ${severity} computed`), ...INSPECTED.map(({ code, severity }) => `\`${code}\` ${severity} inspected`),
        ].toSorted());
    });

    // Strokes and the like are set off with a backslash, so that the words are compared without.
    const words = (text: string): string => text.replace(/\\(?=[\\*_#<>[\]|&])/g, '').replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&');
    test.each(RULES)('$code, computed', (rule) => {
        const text = words(section(page, `### ${rule.code}`));
        for (const fact of [rule.statement, rule.prevents, rule.facts, rule.source]) expect(text).toContain(fact);
        expect(text.toLowerCase()).toContain(`${rule.severity}, computed`);
    });
    test.each(INSPECTED)('$code, inspected', ({ code, severity, statement, prevents, mend }) => {
        expect(tables(section(page, '## Inspected rules'))[0]!.rows.map((row) => row.slice(0, 5).map(words))).toContainEqual([`\`${code}\``, severity, statement, prevents, mend]);
    });

    test('severities, outcomes, and the standing words', () => {
        expect(tables(section(page, '## Severities'))[0]!.rows.map(([severity]) => severity)).toEqual(SEVERITIES);
        expect(tables(section(page, '## The four outcomes'))[0]!.rows.map(([outcome]) => outcome)).toEqual(['pass', 'fail', 'cannot tell', 'not applicable']);
        expect(words(page)).toContain(STANDING);
    });
});
