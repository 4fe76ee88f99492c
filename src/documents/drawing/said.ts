/** The text alternative of a drawing in the forms in which it is printed. */
import { wrap } from '../figures';
import { escapeXml, plain } from '../procedures/safe';
import type { Said } from './sheet';

const WIDTH = 80;

/** Nested lines for the terminal, in 80 columns. */
export const saidText = (words: readonly Said[]): string =>
    words.map(({ text, depth }, i) => `${depth === 0 && i > 0 ? '\n' : ''}${wrap(plain(text), WIDTH, '  '.repeat(depth + 2), '  '.repeat(depth))}\n`).join('');

/** Nested lists for HTML. */
export function saidHtml(words: readonly Said[]): string {
    const items: string[] = [];
    for (let i = 0; i < words.length;) {
        const { text, depth } = words[i]!;
        const next = words.findIndex((other, k) => k > i && other.depth <= depth);
        const below = words.slice(i + 1, next < 0 ? undefined : next);
        items.push(`<li>${escapeXml(text)}${saidHtml(below)}</li>`);
        i += 1 + below.length;
    }
    return items.length === 0 ? '' : `<ul>\n${items.join('\n')}\n</ul>\n`;
}
