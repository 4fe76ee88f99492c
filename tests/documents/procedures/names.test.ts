/**
 * Names of a boat stand in every field of a page, and are the owner's: whatever signs they hold, a page is built as it is with plain words,
 * and reads as they do. Markdown is read by a reader of Markdown; of XML and HTML the tags are compared, by the rules of XML 1.0.
 */
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { expect, test } from 'vitest';
import { mapDita, pageDita } from '../../../src/documents/procedures/dita';
import { pageHtml } from '../../../src/documents/procedures/html';
import { pageMarkdown } from '../../../src/documents/procedures/markdown';
import { pageText } from '../../../src/documents/procedures/text';
import type { Page } from '../../../src/documents/procedures/tree';

/** A page that says the same words wherever a page can hold words of the boat. */
const pageOf = (words: string): Page => ({
    id: 'renew-F1-element', title: words, boat: words, effectivity: { revision: 'a1', facts: 'b2', view: words, issued: '2026-05-01' }, deferral: words, purpose: words,
    summary: [{ label: words, value: words }], drains: [words, words], tools: [words], parts: [{ count: '1', what: words, where: words }], faults: [words],
    valves: [{ valve: words, place: words, start: words, work: words, end: words }],
    sections: [{
        heading: words, steps: [
            { number: 1, cautions: [{ signal: 'WARNING', hazard: words, consequence: words, avoid: words }], tag: words, place: words, action: words, does: [words, words], signs: [words, words], notes: [words] },
            { number: 2, cautions: [], action: words, signs: [], notes: [] },
        ],
    }],
    acceptance: [{ label: words, value: words }, { label: '', value: words }], log: [words], after: [words], taken: [words],
});

const PLAIN = 'Plainword';
const pieces = fc.constantFrom(
    '<', '>', '&', '"', '\'', '`', '``', '~~~', '*', '**', '_', '__', '|', '\\', '#', '# ', '- ', '+ ', '1. ', '1) ', '[', ']', '(', ')', '![', '](', '://', 'www.', 'http', ':', '=', '---', '===', '$', '{', '}', '@', '!', '^', '%', ';',
    '\n', '\r\n', '\n\n', '\t', '    ', ' ', '\u2028', '\u0085', '\v', '\f', '\0', '\u0007', '\u001b[31m', '\ufffe', '\uffff', '\ud83d', '\udc00', '\u{1f527}', '\u202e', '\u2066', '\u200f', '\u00a0', '\ufeff', '\u00ad',
    '<b>', '</p>', '<!--', '-->', ']]>', '<![CDATA[', '<script>', '&amp;', '&lt;', '&#60;', '&nbsp', 'V1', 'a', 'open', 'ein Ventil', 'שסתום', '阀', 'x'.repeat(90), ' ',
);
const hostile = fc.array(pieces, { minLength: 1, maxLength: 12 }).map((some) => some.join(''));

/** What may be lost of a text is what nobody sees: how much blank stands where, and signs without a shape. */
const seen = (text: string): string => text.replace(/[\s\p{Cc}\p{Cf}\p{Cs}\ufffd\ufffe\uffff\p{Zl}\p{Zp}]+/gu, '');

/** That a text has something to be seen: a page need not stand on blanks. */
const worded = hostile.filter((text) => /[\p{L}\p{N}]/u.test(text));

const reader = new MarkdownIt({ html: true, linkify: true });
type Token = ReturnType<typeof reader.parse>[number];
const flat = (tokens: readonly Token[]): Token[] => tokens.flatMap((token) => [token, ...flat(token.children ?? [])]);

test('Markdown: no name becomes a heading, a list, a table, a link, HTML or code, and each is read as it was written', () => {
    const built = (tokens: readonly Token[]): string[] => flat(tokens).filter(({ type }) => type !== 'text' && type !== 'text_special' && type !== 'inline').map(({ type, level }) => `${level} ${type}`);
    const read = (tokens: readonly Token[]): string => seen(flat(tokens).map(({ type, content }) => (type === 'inline' ? '' : content)).join('\n'));
    const plain = reader.parse(pageMarkdown(pageOf(PLAIN)), {});
    fc.assert(fc.property(worded, (text) => {
        const page = reader.parse(pageMarkdown(pageOf(text)), {});
        expect(built(page)).toEqual(built(plain));
        expect(read(page)).toBe(read(plain).replaceAll(PLAIN, () => seen(text)));
    }), { numRuns: 600 });
});

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': '\'' };
/** Style and script are the page's own, and are compared whole. */
const OWN = /(?<=<(style|script)>).*?(?=<\/\1>)/gs;
/** A sign that XML 1.0 does not know (section 2.2, Char); of those it knows, one that nobody sees or that turns others. */
const UNFIT = /[^\t\n\u0020-\u007e\u00a0-\u2029\u202f-\u2065\u206a-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u;

test.each([
    ['HTML', pageHtml], ['DITA', pageDita], ['a map', (page: Page) => mapDita(page.title, [{ file: 'renew-F1-element.dita', title: page.title }])],
])('%s: the tags and their attributes are those of plain words, and each name is read as it was written', (_, write) => {
    /** The tags with what their attributes say, and the words between them, as a reader of XML takes them. */
    const taken = (page: string): string[] => (page.replace(OWN, '').match(/<[^>]*>|[^<]+/g) ?? []).map((piece) => seen(piece.replace(/&([^;]{0,9});/g, (entity, name: string) => ENTITIES[name] ?? `unknown ${entity}`)));
    const tags = (page: string): string[] => (page.replace(OWN, '').match(/<[^>]*>/g) ?? []).map((tag) => tag.replace(/="[^"]*"/g, '=""'));
    // The foot of a sheet is told in its style, signs by their numbers; the policy holds a digest of it. Which cell may be broken goes by the length of its words.
    const own = (page: string): string[] => (page.match(OWN) ?? []).map((text) => seen(text.replace(/\\([0-9a-f]+) /g, (_sign, code: string) => String.fromCodePoint(parseInt(code, 16)))));
    const quotes = (page: string): number[] => (page.match(OWN) ?? []).map((text) => text.split('"').length);
    const undigested = (page: string): string => page.replace(/'sha256-[^']*'/g, 'digest').replace(/ class="(?:place|why|long|place long|short)"/g, '');
    const plain = undigested(write(pageOf(PLAIN)));
    expect(plain).toContain(PLAIN);
    fc.assert(fc.property(worded, (text) => {
        const page = undigested(write(pageOf(text)));
        expect(page).not.toMatch(UNFIT);
        expect(page.replace(OWN, '')).not.toMatch(/&(?!(?:amp|lt|gt|quot|#39);)/);
        expect(own(page)).toEqual(own(plain).map((piece) => piece.replaceAll(PLAIN, () => seen(text))));
        expect(quotes(page)).toEqual(quotes(plain));
        expect(tags(page)).toEqual(tags(plain));
        expect(taken(page)).toEqual(taken(plain).map((piece) => piece.replaceAll(PLAIN, () => seen(text))));
    }), { numRuns: 300 });
});

test('the terminal gets no control signs and nothing that turns the order of words', () => {
    fc.assert(fc.property(hostile, (text) => {
        expect(pageText(pageOf(text))).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
    }), { numRuns: 300 });
});
