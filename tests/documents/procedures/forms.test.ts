/** Every form of a page, whatever its owner wrote into names and quotes: well-formed, of the same build, and with nothing that acts. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import { pageDita } from '../../../src/documents/procedures/dita';
import { pageHtml } from '../../../src/documents/procedures/html';
import { pageMarkdown } from '../../../src/documents/procedures/markdown';
import { pageOf } from '../../../src/documents/procedures/page';
import { distinctNames, plain, safeName, xmlId } from '../../../src/documents/procedures/safe';
import { pageText } from '../../../src/documents/procedures/text';
import type { Page } from '../../../src/documents/procedures/tree';
import { PLAN, boatOf } from './sample';

/** A page with the same words wherever an owner's words may stand. */
const pageWith = (name: string): Page => ({
    id: safeName(`renew ${name}`), title: name, boat: name, byHand: true, faults: [name], effectivity: { revision: 'abc', facts: 'def', view: name, issued: '2026-03-01' }, deferral: name, purpose: name,
    summary: [{ label: name, value: name }], drains: [name], tools: [name], parts: [{ count: '1', what: name, where: name }], valves: [{ valve: name, place: name, start: name, work: name, end: name }],
    sections: [{ heading: name, steps: [{ number: 1, cautions: [{ signal: 'WARNING', hazard: name, consequence: name, avoid: name }], tag: name, place: name, action: name, does: [name, name], signs: [name], notes: [name] }] }],
    acceptance: [{ label: name, value: name }, { label: '', value: name }], log: [name], after: [name], taken: [name],
});

const NASTY = [
    '<script>seized=1</script>', '</style><script>seized=1</script>', '"><img src=x onerror=seized=1>', '\' onclick=\'seized=1', '&lt;b&gt; &amp; &#60;', ']]>', '<!-- -->', '-->', '<?xml version="1.0"?>', '&undefined;', '%entity;',
    '`code`', '```', '| a | b |', 'line\nbreak', '\r\n\r\n# heading', '- item', '1. item', '+ item', '> quote', '    code', '***', '---', '===', '![x](javascript:seized)', '[x](https://hostile.invalid)', '<https://hostile.invalid>', 'https://hostile.invalid/x',
    'www.hostile.invalid', '*b* _i_ ~~s~~ $x$', '=1+1', '@cell', '\u202Ereversed', '\u2066a\u2069 \u200Fb\u061C', 'a\u0000b\u0007c\u001Bd\u0085e\uFFFEf\uFFFFg', '\uD800', 'x\uDC00y', '\u{1FFFE}', '\\', '\\*', 'אבג 12 mm', 'name: value', 'f'.repeat(300), '  ', '\u2028', '😀', 'CON',
];
const hostile = fc.oneof(fc.constantFrom(...NASTY), fc.string({ unit: 'binary', maxLength: 40 }), fc.tuple(fc.constantFrom(...NASTY), fc.constantFrom(...NASTY)).map(([a, b]) => `${a} ${b}`));

/** Elements in order and the text of a well-formed text of XML; throws where it is not well-formed. Written for this test: no parser of XML is among the packages. */
function parsed(xml: string): { readonly elements: string[]; readonly text: string; readonly attributes: string[] } {
    if (/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/.test(xml)) throw new Error('a sign that XML does not know');
    const [elements, attributes, open]: string[][] = [[], [], []];
    let text = '';
    const decode = (raw: string): string => raw.replace(/&([^;]*);?/g, (all, name: string) => { const signs: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': '\'' }; if (!all.endsWith(';') || !(name in signs)) throw new Error(`${all} is no entity`); return signs[name]!; });
    let rest = xml.replace(/^<\?xml[^>]*\?>\n/, '').replace(/^<!DOCTYPE [^>]*>/, '');
    while (rest !== '') {
        const tag = /^<(\/?)([A-Za-z][A-Za-z0-9]*)((?:\s+[a-zA-Z:-]+="[^"<]*")*)\s*(\/?)>/.exec(rest);
        if (rest.startsWith('<') && !tag) throw new Error(`no tag: ${rest.slice(0, 60)}`);
        if (!tag) { const to = rest.indexOf('<'); text += decode(to < 0 ? rest : rest.slice(0, to)); rest = to < 0 ? '' : rest.slice(to); continue; }
        rest = rest.slice(tag[0].length);
        const [, end, name = '', attribute = '', empty] = tag;
        if (end) { if (open!.pop() !== name) throw new Error(`</${name}> closes nothing`); continue; }
        elements!.push(name);
        attributes!.push(...[...attribute.matchAll(/([a-zA-Z:-]+)="([^"]*)"/g)].map(([, key, value]) => `${key}=${decode(value!)}`));
        if (!empty) open!.push(name);
        // What stands in these is no markup in HTML.
        if (name === 'script' || name === 'style') { const to = rest.indexOf(`</${name}`); rest = rest.slice(to); }
    }
    if (open!.length > 0) throw new Error(`${open!.join(', ')} left open`);
    return { elements: elements!, text, attributes: attributes! };
}

const markdown = new MarkdownIt({ html: true, linkify: true });
type Token = ReturnType<typeof markdown.parse>[number];
const flat = (tokens: readonly Token[]): Token[] => tokens.flatMap((token) => [token, ...flat(token.children ?? [])]);
const skeleton = (text: string): string[] => flat(markdown.parse(text, {})).map(({ type, level }) => `${level} ${type}`).filter((kind) => !/ (text|text_special|softbreak)$/.test(kind));
const words = (text: string): string => flat(markdown.parse(text, {})).map(({ type, content }) => (type === 'text' || type === 'text_special' ? content : '')).join('\n');

const visible = (name: string): string => plain(name);

describe('whatever an owner writes', () => {
    const usual = pageWith('plain');
    test.each([['html', pageHtml], ['dita', pageDita]] as const)('%s is well-formed, built as with a plain name, and reads as it was written', (_, form) => {
        const expected = parsed(form(usual)).elements;
        fc.assert(fc.property(hostile, (name) => {
            const { elements, text, attributes } = parsed(form(pageWith(name)));
            // An empty name leaves out what would be empty.
            if (visible(name) !== '') { expect(elements).toEqual(expected); expect(text).toContain(visible(name)); }
            expect(attributes.filter((attribute) => /^(on\w+|style|src|href)=/i.test(attribute))).toEqual([]);
            expect(text).not.toMatch(/[\u202A-\u202E\u2066-\u2069\u200E\u200F\u061C]/);
        }), { numRuns: 400 });
    });

    test('Markdown is built as with a plain name, and reads as it was written', () => {
        const expected = skeleton(pageMarkdown(usual));
        fc.assert(fc.property(hostile, (name) => {
            if (visible(name) === '') return;
            const page = pageMarkdown(pageWith(name));
            expect(skeleton(page)).toEqual(expected);
            expect(words(page).replace(/\n/g, '')).toContain(visible(name));
        }), { numRuns: 400 });
    });

    test('no line of the terminal holds a sign that moves its cursor', () => {
        fc.assert(fc.property(hostile, (name) => { expect(pageText(pageWith(name)).replace(/\n/g, '')).not.toMatch(/[\u0000-\u001F\u007F-\u009F\u202A-\u202E]/); }), { numRuns: 200 });
    });

    test('names of files are safe on every system, and ids of topics are legal', () => {
        fc.assert(fc.property(hostile, (name) => {
            const file = safeName(name);
            expect(file).toMatch(/^[\p{L}\p{N}_][\p{L}\p{M}\p{N}_-]*$/u);
            expect([...file].length).toBeLessThanOrEqual(90);
            expect(file).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)$/i);
            expect(xmlId(file)).toMatch(/^[A-Za-z_][A-Za-z0-9_-]*$/);
        }), { numRuns: 1000 });
        expect(safeName('renew F1 element, look F2 element')).toBe('renew-F1-element-look-F2-element');
        expect(safeName('../../etc/passwd')).toBe('etc-passwd');
        expect(distinctNames(['look-F1', 'look-f1', 'look-F1'])).toEqual(['look-F1', 'look-f1-2', 'look-F1-3']);
    });
});

const boat = await boatOf('ottilwake');

test('only the page\'s own script and style may run: the policy names their digests, by another reckoning of SHA-256', () => {
    const html = pageHtml(pageOf(boat, PLAN));
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)![1]!;
    const digest = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
    for (const name of ['script', 'style']) {
        const bodies = [...html.matchAll(new RegExp(`<${name}>([\\s\\S]*?)</${name}>`, 'g'))].map(([, body]) => body!);
        expect(policy).toContain(`${name}-src ${bodies.map(digest).join(' ')};`);
        for (const body of bodies) expect(body).not.toMatch(/eval|innerHTML|document\.write|fetch|XMLHttp|https?:/);
    }
    expect(policy).toMatch(/^default-src 'none'/);
    expect(policy).not.toMatch(/unsafe|\*|https?:|data:/);
    expect([...html.matchAll(/<script/g)]).toHaveLength(1);
    expect(html.replace('http://www.w3.org/1999/xhtml', '')).not.toMatch(/https?:|\ssrc=|<link|@import|url\(/);
});

test('every box and field has its words, and every id is given once', () => {
    const html = pageHtml(pageOf(boat, PLAN));
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!);
    const inputs = [...html.matchAll(/<input [^>]*id="([^"]*)"/g)].map(([, id]) => id!);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...html.matchAll(/<label [^>]*for="([^"]*)"/g)].map(([, id]) => id!).sort()).toEqual([...inputs].sort());
    // 29 steps in the plan, each with a box.
    expect([...html.matchAll(/type="checkbox"/g)]).toHaveLength(29);
});

test('ticks are kept by page and facts: other facts, other ticks', () => {
    const page = pageOf(boat, PLAN);
    const key = (one: Page): string => /data-key="([^"]*)"/.exec(pageHtml(one))![1]!;
    expect(key({ ...page, effectivity: { ...page.effectivity, facts: 'other' } })).not.toBe(key(page));
    expect(key({ ...page, id: 'other' })).not.toBe(key(page));
    expect(key({ ...page, effectivity: { ...page.effectivity, issued: '2027-01-01' } })).toBe(key(page));
});

test('in every form a caution stands before its step, and steps are numbered through', () => {
    const page = pageOf(boat, PLAN);
    const steps = page.sections.flatMap((section) => section.steps);
    for (const text of [pageText(page), pageMarkdown(page), pageHtml(page), pageDita(page)].map((form) => form.replace(/\s+/g, ' '))) {
        const at = (words: string): number => text.indexOf(words.replace(/\s+/g, ' '));
        for (const { cautions, action } of steps) for (const { hazard } of cautions) {
            expect([hazard, at(hazard) >= 0]).toEqual([hazard, true]);
            expect(at(hazard)).toBeLessThan(at(action));
        }
    }
});

test('a page of 300 steps: all of them, once each, and the same bytes every time', () => {
    const page = pageOf(boat, { ...PLAN, steps: Array.from({ length: 150 }, () => PLAN.steps.filter(({ step }) => step.do === 'set')).flat() });
    const html = pageHtml(page);
    expect([...html.matchAll(/<input class="box" type="checkbox" id="s(\d+)"/g)].map(([, number]) => Number(number))).toEqual(Array.from({ length: 300 }, (_, i) => i + 1));
    expect([...pageDita(page).matchAll(/<step id=/g)]).toHaveLength(300);
    expect([...pageMarkdown(page).matchAll(/^\d+\. \[ \]/gm)]).toHaveLength(300);
    for (const form of [pageHtml, pageDita, pageMarkdown, pageText]) expect(form(page)).toBe(form(structuredClone(page)));
});
