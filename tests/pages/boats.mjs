/** The boats whose procedures are printed: the examples, one whose names are hostile, and its twin with plain names. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const folders = (folder) => readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory()).map(({ name }) => name).sort();

const STRING = /"((?:DANGER|WARNING|CAUTION|NOTICE): )?([^"\r\n]*)"/g;

/** Writes the same boat with a plain word in place of each text in quotes. What each word stands for is returned. */
export function writeTwin(from, to) {
    const plain = new Map();
    const wordFor = (text) => {
        const n = plain.size;
        const word = `plain${String.fromCharCode(97 + Math.floor(n / 26), 97 + n % 26)}`;
        plain.set(word, text);
        return word;
    };
    mkdirSync(to, { recursive: true });
    for (const file of readdirSync(from).filter((name) => name.endsWith('.orlop')).sort()) {
        const lines = readFileSync(join(from, file), 'utf8').split('\n').map((line) => /^\s*--/.test(line) ? line : line.replace(STRING, (_, signal = '', text) => `"${signal}${wordFor(text)}"`));
        writeFileSync(join(to, file), lines.join('\n'));
    }
    return plain;
}

/** Signs that no one sees, or that turn what follows: a page may leave them out. */
const UNSEEN = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufffd-\uffff]/g;
/** Those that a page must leave out: XML knows no control signs, and what turns the order of signs can make `shut` of `open`. */
export const UNFIT = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufffe\uffff]/u;
/** The words alone: blanks do not count, nor digests, which differ because the texts do. */
const bare = (words) => words.replace(UNSEEN, ' ').replace(/\s+/g, '').replace(/(Boataswritten|Factsofthispage|Revision):?[0-9a-f]{12}/g, '$1');

/** Whether a page of the twin, with the hostile texts in place of the plain words, reads as the hostile boat's page does; where not, the first difference. */
export function differs(hostile, twin, plain) {
    // At the head of a sentence it has a capital letter.
    const meant = (word) => plain.get(word) ?? `${plain.get(word.toLowerCase())?.[0].toUpperCase()}${plain.get(word.toLowerCase())?.slice(1)}`;
    const expected = bare(twin.replace(/[Pp]lain[a-z]{2}/g, meant));
    const found = bare(hostile);
    if (found === expected) return [];
    let i = 0;
    while (found[i] === expected[i]) i++;
    return [`\`${found.slice(Math.max(0, i - 30), i + 50)}\` in place of \`${expected.slice(Math.max(0, i - 30), i + 50)}\``];
}
