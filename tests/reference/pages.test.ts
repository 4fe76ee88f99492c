/** What holds of every page, whatever it tells. */
import { describe, expect, test } from 'vitest';
import { PAGE_NAMES, referencePages } from '../../src/language/reference/pages';
import { PAGES, codes, fences, tableLines, withoutFences } from './pages';

test('four pages, in the order in which they are read', () => {
    expect(Object.keys(PAGES)).toEqual(['guide.md', 'language.md', 'units.md', 'rules.md']);
});

test('the same pages every time, all at once or one alone', async () => {
    const again = await referencePages();
    expect(Object.fromEntries(again.map(({ path, text }) => [path, text]))).toEqual(PAGES);
    for (const name of PAGE_NAMES) expect(await referencePages(name)).toEqual(again.filter(({ path }) => path === `${name}.md`));
    expect(await referencePages('index')).toEqual([]);
});

const anchor = (heading: string): string => heading.replace(/^#+ /, '').toLowerCase().replace(/[^\w\- ]/g, '').replace(/ /g, '-');
const anchors = (text: string): string[] => withoutFences(text).split('\n').filter((line) => /^#+ /.test(line)).map(anchor);

describe.each(Object.entries(PAGES))('%s', (name, text) => {
    test('rows of a table have as many cells as its head', () => {
        expect(tableLines(text).length).toBeGreaterThan(name === 'guide.md' ? 0 : 3);
        expect(tableLines(text).flatMap((lines) => lines.filter((cells) => cells.length !== lines[0]!.length))).toEqual([]);
        for (const [, dashes] of tableLines(text)) expect(new Set(dashes)).toEqual(new Set(['---']));
        expect(tableLines(text).flat().filter((cells) => cells.some((cell) => cell === ''))).toEqual([]);
    });

    test('fences are closed and not empty, and no word is missing', () => {
        expect(text.split('\n').filter((line) => line.startsWith('```')).length % 2).toBe(0);
        for (const language of ['orlop', 'text']) for (const body of fences(text, language)) expect(body.trim()).not.toBe('');
        expect(withoutFences(text)).not.toMatch(/undefined|NaN|null|\[object|``| {2,}\|/);
        expect(withoutFences(text).split('`').length % 2).toBe(1);
        expect(text).toMatch(/[^\n]\n$/);
    });

    test('one title, no heading twice, and every link leads to a heading that is there', () => {
        expect(withoutFences(text).split('\n').filter((line) => line.startsWith('# ')).length).toBe(1);
        expect(anchors(text)).toEqual([...new Set(anchors(text))]);
        for (const [, target] of text.matchAll(/\]\(([^)]+)\)/g)) {
            const [file, place] = target!.split('#') as [string, string?];
            const other = file === '' ? text : PAGES[file];
            expect(other, target).toBeDefined();
            if (place !== undefined) expect(anchors(other!)).toContain(place);
        }
    });

    test('no path of a machine, and nothing that claims to comply', () => {
        expect(text).not.toMatch(/\/(home|tmp|usr|work)\b/);
        expect(withoutFences(text).match(/[^.]*\b(compl(y|ies|iant)|certified)\b[^.]*/gi)?.filter((said) => !/nothing is ever said to|no compliance|claim/i.test(said)) ?? []).toEqual([]);
    });

    test('codes have no blanks at their ends', () => expect(codes(text).filter((code) => code !== code.trim())).toEqual([]));
});
