/** Slips of the hand, drawn from a seed: the same seed always spoils a text in the same way. */

export type Lot = () => number;
type Slip = (text: string, lot: Lot) => string;

const below = (lot: Lot, n: number): number => Math.floor(lot() * n);
const pick = <T>(lot: Lot, from: readonly T[]): T => from[below(lot, from.length)]!;

/** Characters that are easily struck by accident, and a few that programs trip over. */
const STRAYS = [' ', '\n', '\t', '"', '{', '}', '-', '.', ',', ';', ':', '/', '(', '%', '=', '#', 'x', 'é', 'ß', '°', 'µ', '½', '\u00a0', '\u200b', '\u2013', '\u201c', 'א', 'ب', '船', '\ud83d\ude42', '\ud83d', '\0', '\r', '\u2028'];
/** Names that every object of the host language has: words of no boat, yet found in every table that is asked carelessly. */
const HOST_WORDS = ['constructor', 'toString', 'hasOwnProperty', 'valueOf', 'Constructor', '__proto__'];
const NUMBERS = ['0', '-1', '-0', '1', '0.001', '1e9', '999999999999999999999', '9'.repeat(400), '8,5', '1/0', '0/0', '3/8', '-250', '1 1/2'];

const PIECE = /"[^"\n]*"?|--[^\n]*|[\p{L}\p{N}_.\/-]+|[^\S\n]+|\n|./gu;
const NUMBER = /\d+(?:\.\d+)?/g;
const TAG = /\b[A-Z][A-Za-z0-9]*(?:-[A-Z0-9]+)*\b/g;

function replaceOne(text: string, pattern: RegExp, lot: Lot, by: (old: string) => string): string {
    const found = [...text.matchAll(pattern)];
    if (found.length === 0) return text;
    const { 0: old, index } = pick(lot, found);
    return text.slice(0, index) + by(old) + text.slice(index + old.length);
}

function onPieces(change: (pieces: string[], at: number, lot: Lot) => void): Slip {
    return (text, lot) => {
        const pieces = text.match(PIECE) ?? [];
        if (pieces.length > 2) change(pieces, below(lot, pieces.length - 1), lot);
        return pieces.join('');
    };
}

function onLines(change: (lines: string[], at: number, lot: Lot) => void): Slip {
    return (text, lot) => {
        const lines = text.split('\n');
        if (lines.length > 2) change(lines, below(lot, lines.length - 1), lot);
        return lines.join('\n');
    };
}

export const SLIPS: Readonly<Record<string, Slip>> = {
    'a character left out': (text, lot) => { const at = below(lot, text.length); return text.slice(0, at) + text.slice(at + 1); },
    'a character too many': (text, lot) => { const at = below(lot, text.length + 1); return text.slice(0, at) + pick(lot, STRAYS) + text.slice(at); },
    'two characters swapped': (text, lot) => { const at = below(lot, text.length - 1); return text.slice(0, at) + (text[at + 1] ?? '') + (text[at] ?? '') + text.slice(at + 2); },
    'a word left out': onPieces((pieces, at) => { pieces.splice(at, 1); }),
    'a word from elsewhere': onPieces((pieces, at, lot) => { pieces.splice(at, 0, ' ', pick(lot, pieces), ' '); }),
    'two words swapped': onPieces((pieces, at, lot) => { const other = below(lot, pieces.length); [pieces[at], pieces[other]] = [pieces[other]!, pieces[at]!]; }),
    'a line twice': onLines((lines, at) => { lines.splice(at, 0, lines[at]!); }),
    'two lines swapped': onLines((lines, at, lot) => { const other = below(lot, lines.length); [lines[at], lines[other]] = [lines[other]!, lines[at]!]; }),
    'two lines joined': onLines((lines, at) => { lines.splice(at, 2, `${lines[at]!} ${lines[at + 1]!}`); }),
    'lines left out': onLines((lines, at, lot) => { lines.splice(at, 1 + below(lot, 6)); }),
    'another number': (text, lot) => replaceOne(text, NUMBER, lot, () => pick(lot, NUMBERS)),
    'a number turned negative': (text, lot) => replaceOne(text, NUMBER, lot, (old) => `-${old}`),
    'a word of the host language': (text, lot) => replaceOne(text, PIECE, lot, () => pick(lot, HOST_WORDS)),
    'another name': (text, lot) => replaceOne(text, TAG, lot, () => pick(lot, text.match(TAG)!)),
    'lines ended as on other machines': (text) => text.replace(/\n/g, '\r\n'),
    'lines ended by returns alone': (text) => text.replace(/\n/g, '\r'),
    'tabs for blanks': (text) => text.replace(/ {2}/g, '\t'),
    'a byte order mark': (text) => `\ufeff${text}`,
    'letters from right to left': (text, lot) => replaceOne(text, PIECE, lot, () => 'מיכל דלק'),
    'no end of line at the end': (text) => text.trimEnd(),
};

/** Spoils one file of a boat, one to three times over; says how. */
export function spoil(texts: Readonly<Record<string, string>>, lot: Lot): { readonly texts: Record<string, string>; readonly file: string; readonly how: string } {
    const file = pick(lot, Object.keys(texts));
    const names = Array.from({ length: 1 + below(lot, 3) }, () => pick(lot, Object.keys(SLIPS)));
    return { texts: { ...texts, [file]: names.reduce((text, name) => SLIPS[name]!(text, lot), texts[file]!) }, file, how: names.join(', ') };
}
