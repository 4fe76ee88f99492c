/** The sheet in every form: figures that agree, markup that holds whatever the owner wrote, the same bytes whatever the order of the text. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, test } from 'vitest';
import { sheetCsv } from '../../../src/documents/sheet/csv';
import { sheetData } from '../../../src/documents/sheet/data';
import { sheetHtml } from '../../../src/documents/sheet/html';
import { sheetPage } from '../../../src/documents/sheet/markdown';
import { printed, type Printed } from '../../../src/documents/sheet/printed';
import { CALCULATIONS_SCHEMA } from '../../../src/documents/sheet/schema';
import { sheetText } from '../../../src/documents/sheet/text';
import { exactly } from '../../../src/analysis/estimate';
import { loadBoat } from '../../../src/language/load';
import { formsOf, SHEETS, type Data } from './boats';

/** RFC 4180, to the letter: records end in CRLF, quotes are doubled within quotes and stand nowhere else. */
function readCsv(text: string): string[][] {
    const records: string[][] = [];
    let at = 0;
    while (at < text.length) {
        const record: string[] = [];
        for (;;) {
            const [field] = text[at] === '"' ? /^"(?:[^"]|"")*"/.exec(text.slice(at)) ?? [] : /^[^",\r\n]*/.exec(text.slice(at)) ?? [];
            if (field === undefined) throw new Error(`no field at ${text.slice(at, at + 40)}`);
            at += field.length;
            record.push(field.startsWith('"') ? field.slice(1, -1).replaceAll('""', '"') : field);
            if (text[at] === ',') { at++; continue; }
            if (text.slice(at, at + 2) !== '\r\n') throw new Error(`no end of a record at ${text.slice(at, at + 40)}`);
            at += 2;
            break;
        }
        records.push(record);
    }
    return records;
}

const VOID = /\/>$/;
const ENTITIES = /&(?!(?:amp|lt|gt|quot|#39);)/;

/** Well-formed: every element closed in order, attributes quoted and once each, no bare sign, ids once, links that lead somewhere. */
function faultsOfHtml(html: string): string[] {
    const faults: string[] = [];
    const body = html.replace(/^<!DOCTYPE html>\n/, '');
    if (body === html) faults.push('no doctype');
    const open: string[] = [];
    const ids: string[] = [];
    const links: string[] = [];
    let last = 0;
    const text = (part: string): void => { if (/[<>]/.test(part) && open.at(-1) !== 'style') faults.push(`bare sign in: ${part.slice(0, 60)}`); if (open.at(-1) !== 'style' && ENTITIES.test(part)) faults.push(`bare & in: ${part.slice(0, 60)}`); };
    for (const match of body.matchAll(/<(\/?)([a-z][a-z0-9]*)((?:\s+[a-z-]+="[^"<]*")*)\s*\/?>/g)) {
        text(body.slice(last, match.index));
        last = match.index + match[0].length;
        const [whole, slash, name, attributes] = match as unknown as [string, string, string, string];
        const given = [...attributes.matchAll(/([a-z-]+)="([^"]*)"/g)].map(([, key, value]) => [key!, value!] as const);
        if (new Set(given.map(([key]) => key)).size < given.length) faults.push(`twice: ${whole}`);
        for (const [key, value] of given) { if (ENTITIES.test(value)) faults.push(`bare & in ${whole}`); if (key === 'id') ids.push(value); if (key === 'href') links.push(value); if (/^on|^src$/.test(key)) faults.push(`${key} in ${whole}`); }
        if (name === 'script' || name === 'link' || name === 'img' || name === 'iframe') faults.push(whole);
        if (slash) { if (open.pop() !== name) faults.push(`${whole} closes nothing`); } else if (!VOID.test(whole)) open.push(name);
    }
    text(body.slice(last));
    if (open.length > 0) faults.push(`open: ${open.join(' ')}`);
    if (new Set(ids).size < ids.length) faults.push('an id twice');
    for (const link of links) if (!link.startsWith('#') || !ids.includes(link.slice(1))) faults.push(`link ${link}`);
    if (/@import|url\(|https?:\/\/(?!www\.w3\.org\/1999\/xhtml")/.test(body)) faults.push('something is fetched');
    return faults;
}

const valid = new Ajv2020({ strict: true, allErrors: true }).compile(CALCULATIONS_SCHEMA as object);
const faultsOf = (data: unknown): unknown[] => (valid(data) ? [] : valid.errors!.map(({ instancePath, message }) => `${instancePath} ${message}`));

test('the checks see faults', () => {
    for (const bad of ['<!DOCTYPE html>\n<p><b></p></b>', '<!DOCTYPE html>\n<p>a < b</p>', '<!DOCTYPE html>\n<p>a & b</p>', '<!DOCTYPE html>\n<p id="a"></p><p id="a"></p>', '<!DOCTYPE html>\n<script></script>', '<!DOCTYPE html>\n<p>', '<!DOCTYPE html>\n<a href="#no">x</a>']) expect([bad, faultsOfHtml(bad).length > 0]).toEqual([bad, true]);
    expect(faultsOfHtml('<!DOCTYPE html>\n<p id="a">a &lt; b<br/></p>')).toEqual([]);
    for (const bad of ['a,b\n', 'a"b\r\n', '"a\r\n', 'a']) expect(() => readCsv(bad)).toThrow();
    expect(faultsOf({ boat: 'x' })).not.toEqual([]);
});

describe.each(SHEETS)('%s', (_, texts) => {
    let forms: Awaited<ReturnType<typeof formsOf>>;
    let data: Data;
    beforeAll(async () => { forms = await formsOf(texts); data = forms.data; });
    const page = (ending: string): string => forms.pages.find(({ path }) => path.endsWith(ending))!.text;

    test('JSON by the schema', () => expect(faultsOf(JSON.parse(JSON.stringify(data)))).toEqual([]));
    test('HTML well-formed, and nothing fetched', () => expect(faultsOfHtml(page('.html'))).toEqual([]));
    test('CSV read back: as wide throughout, and the figures of the JSON', () => {
        const [head, ...rows] = readCsv(forms.csv);
        expect(new Set(rows.map((row) => row.length))).toEqual(new Set([head!.length]));
        const column = (row: readonly string[], title: string): string => row[head!.indexOf(title)]!;
        const results = rows.filter((row) => column(row, 'line') === 'result').map((row) => [column(row, 'computation'), column(row, 'value') === '' ? undefined : Number(column(row, 'value')), column(row, 'verdict')]);
        expect(results).toEqual(data.computations.map(({ id, result, verdict }) => [id, result?.value, verdict]));
        expect(rows.filter((row) => column(row, 'line') === 'input')).toHaveLength(data.computations.flatMap(({ inputs }) => inputs).length);
        for (const row of rows) for (const title of ['value', 'least', 'most']) expect(column(row, title)).toMatch(/^(-?\d+(\.\d+)?(e[+-]\d+)?)?$/);
    });
    test('Markdown: each row of a table as wide as its head', () => {
        for (const block of page('.md').split('\n\n').filter((part) => part.startsWith('|'))) expect(new Set(block.trim().split('\n').map((line) => line.match(/(?<!\\)\|/g)!.length)).size).toBe(1);
        for (const { id } of data.computations) expect(page('.md')).toContain(id.replace(/[_*#[\]]/g, '\\$&'));
    });
    test('80 columns in the terminal', () => expect(forms.text.split('\n').filter((line) => line.length > 80)).toEqual([]));
    test('no figure that is none', () => expect([forms.text, forms.csv, ...forms.pages.map(({ text }) => text)].filter((text) => /NaN|Infinity|undefined|\[object/.test(text))).toEqual([]));
    test('the order in which it is written changes nothing, nor does asking twice', async () => {
        const whole = Object.values(texts).join('\n');
        const turned = await formsOf({ 'boat.orlop': declarations(whole).reverse().join('\n') });
        expect(turned.text).toBe(forms.text);
        expect([turned.csv, turned.pages, JSON.stringify(turned.data)]).toEqual([forms.csv, forms.pages, JSON.stringify(data)]);
        expect((await formsOf(texts)).pages).toEqual(forms.pages);
    });
});

/** The declarations of a text that stand in no other. */
function declarations(text: string): string[] {
    const found: string[] = [''];
    let depth = 0;
    for (const line of text.split('\n')) {
        found[found.length - 1] += `${line}\n`;
        const code = line.replace(/"[^"]*"/g, '').replace(/--.*$/, '');
        depth += (code.match(/\{/g)?.length ?? 0) - (code.match(/\}/g)?.length ?? 0);
        if (depth === 0) found.push('');
    }
    return found.filter((declaration) => declaration.trim() !== '');
}

describe('names and words that mean mischief', () => {
    const EVIL = '<b>x</b> =cmd() | `rm` & [a](b) *c* \\';
    const hostile = async (): Promise<Printed> => {
        const { boat } = await loadBoat({ 'a.orlop': 'vessel V\n' });
        const from = { about: EVIL, fact: 'bore' } as const;
        const working = {
            id: `=1+1|${EVIL}`, about: `@${EVIL}`, what: `=SUM(A1)${EVIL}`, formula: `-2|${EVIL}`, source: `+${EVIL}`, inputs: [{ symbol: '=a', what: `\t=x ${EVIL}`, value: exactly(-0.008), unit: 'mm', from }, { symbol: 'b', what: 'two\r\nlines "quoted"', value: exactly(1), unit: 'm', from: { taken: EVIL } }],
            steps: [{ symbol: EVIL, what: EVIL, formula: EVIL, value: 1, unit: 'm' }], result: { symbol: EVIL, value: { si: -1, least: -2, most: 1 }, unit: 'm' }, limit: { value: exactly(0), unit: 'm', sense: 'at most' as const, from }, where: EVIL, rule: 'CODE', notes: [EVIL, '\u0000\uD800'],
            missing: [{ about: EVIL, fact: EVIL, how: EVIL }],
        };
        return printed({ boat, title: EVIL, basis: [[EVIL, EVIL]], groups: [{ heading: EVIL, workings: [working, { ...working, id: `${EVIL}2`, result: undefined } as never] }], taken: [EVIL], missing: [{ about: EVIL, fact: EVIL, how: EVIL, settles: [EVIL] }] }, () => EVIL);
    };

    test('HTML stays well-formed and shows them as they are', async () => {
        const html = sheetHtml(await hostile());
        expect(faultsOfHtml(html)).toEqual([]);
        expect(html).not.toContain('<b>');
        expect(html).toContain('&lt;b&gt;x&lt;/b&gt; =cmd() | `rm` &amp; [a](b)');
        expect(html).not.toMatch(/[\u0000\uD800]/);
    });
    test('CSV: no cell begins as a formula, and figures stay figures', async () => {
        const rows = readCsv(sheetCsv(await hostile()));
        const numbers = ['value', 'least', 'most'].map((title) => rows[0]!.indexOf(title));
        for (const row of rows) for (const [i, cell] of row.entries()) if (numbers.includes(i)) expect(cell).not.toMatch(/^'/); else expect(cell).not.toMatch(/^[\s]*[=+\-@]/);
        expect(rows.find((row) => row.includes("'=a"))).toContain('-8');
        expect(rows.flat()).toContain('two\r\nlines "quoted"');
    });
    test('Markdown: no markup of theirs, and tables keep their columns', async () => {
        const page = sheetPage(await hostile());
        expect(page).not.toMatch(/<b>|(?<!\\)\[a\]|(?<!\\)\*c/);
        for (const block of page.split('\n\n').filter((part) => part.startsWith('|'))) expect(new Set(block.trim().split('\n').map((line) => line.match(/(?<!\\)(?:\\\\)*\|/g)!.length)).size).toBe(1);
        expect(page.split('\n').filter((line) => /(?<!\\)`/.test(line)).every((line) => line.startsWith('| &lt;b'))).toBe(true);
    });
    test('JSON by the schema; the terminal prints it', async () => {
        const all = await hostile();
        expect(faultsOf(JSON.parse(JSON.stringify(sheetData(all))))).toEqual([]);
        expect(sheetText(all)).toContain('=cmd()');
    });
    test('a boat of that name, read from a text', async () => {
        const { pages, data } = await formsOf({ 'a.orlop': 'vessel Evil "<b>x</b> =cmd() | `rm` & [a](b)" { heights from "=1+1|<script>x</script>" }\ntank T1 { box 1000 x 500 x 400 mm }\n' });
        expect(faultsOfHtml(pages[1]!.text)).toEqual([]);
        expect(faultsOf(JSON.parse(JSON.stringify(data)))).toEqual([]);
        expect(pages[0]!.text).not.toMatch(/<b>|<script>/);
    });
});
