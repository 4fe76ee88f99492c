/**
 * Names of a boat stand in every field of a page, and are the owner's: whatever signs they hold, a page is built as it is with plain words,
 * and reads as they do. Markdown is read by a reader of Markdown; of XML and HTML the tags are compared, by the rules of XML 1.0.
 */
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { expect, test } from 'vitest';
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
    }), { numRuns: 1500 });
});

test('the terminal gets no control signs and nothing that turns the order of words', () => {
    fc.assert(fc.property(hostile, (text) => {
        expect(pageText(pageOf(text))).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
    }), { numRuns: 500 });
});
