/**
 * Sets a text as the examples are set. Nothing but blanks changes: no comment, word or line is lost, moved, joined or parted.
 * Lines that are half typed stay as they are.
 */
import type { LangiumDocument, Lexer } from 'langium';
import type { Formatter, LangiumServices } from 'langium/lsp';
import type { DocumentOnTypeFormattingParams, DocumentRangeFormattingParams, TextEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { layoutOf, WIDE, type Gap, type Layout, type Table } from './layout';

const INDENT = '  ';

export class BoatFormatter implements Formatter {
    readonly formatOnTypeOptions = { firstTriggerCharacter: '}' };
    private readonly lexer: Lexer;
    constructor(services: LangiumServices) {
        this.lexer = services.parser.Lexer;
    }

    formatDocument(document: LangiumDocument): TextEdit[] {
        return format(document, this.lexer);
    }
    formatDocumentRange(document: LangiumDocument, { range }: DocumentRangeFormattingParams): TextEdit[] {
        return format(document, this.lexer).filter((edit) => edit.range.start.line >= range.start.line && edit.range.end.line <= range.end.line);
    }
    /** The line of the brace that was just typed. */
    formatDocumentOnType(document: LangiumDocument, { position: { line } }: DocumentOnTypeFormattingParams): TextEdit[] {
        return format(document, this.lexer).filter(({ range }) => range.start.line === line && range.end.line === line);
    }
}

interface Sign {
    readonly image: string;
    readonly offset: number;
    readonly type: string;
}

interface Line {
    readonly start: number;
    /** Without its end of line. */
    readonly end: number;
    readonly signs: readonly Sign[];
    /** Half typed: left as it is. */
    readonly broken: boolean;
}

/** The blanks that stand, or should stand, from one offset to another. */
interface Blank {
    readonly from: number;
    readonly to: number;
    text: string;
}

export function format(document: LangiumDocument, lexer: Lexer): TextEdit[] {
    const text = document.textDocument.getText();
    const layout = layoutOf(document.parseResult.value);
    const lines = linesOf(document, lexer, layout);
    const surplus = betweenLines(text, lines);
    const blanks = [...surplus, ...inLines(text, lines, layout).filter(({ from, to }) => !surplus.some((lost) => from >= lost.from && to <= lost.to))];
    const edits = blanks.filter(({ from, to, text: wanted }) => text.slice(from, to) !== wanted)
        .map(({ from, to, text: newText }) => ({ range: { start: document.textDocument.positionAt(from), end: document.textDocument.positionAt(to) }, newText }));
    // Should blanks ever part or join two words, the text is left alone.
    return same(lexer, text, TextDocument.applyEdits(document.textDocument as TextDocument, edits)) ? edits : [];
}

function linesOf({ textDocument, parseResult: { parserErrors, lexerErrors } }: LangiumDocument, lexer: Lexer, { known }: Layout): Line[] {
    const text = textDocument.getText();
    const { tokens, hidden } = lexer.tokenize(text);
    const signs = [...tokens, ...hidden].map((token): Sign => ({ image: token.image, offset: token.startOffset, type: token.tokenType.name }))
        .filter(({ type }) => type !== 'NL' && type !== 'WS').sort((a, b) => a.offset - b.offset);
    const wrong = [...lexerErrors.map(({ offset, length }) => [offset, offset + length] as const), ...parserErrors.map(({ token }) => [token.startOffset, token.startOffset] as const)];
    const found: Line[] = [];
    let next = 0;
    for (const match of text.matchAll(/([^\r\n]*)(\r\n?|\n|$)/g)) {
        const [start, end] = [match.index, match.index + match[1]!.length];
        const own: Sign[] = [];
        for (; next < signs.length && signs[next]!.offset < end; next++) own.push(signs[next]!);
        const broken = wrong.some(([from, to]) => from <= end && to >= start)
            || own.some(({ image, offset, type }) => (type === 'STRING' && !/^".*"$/.test(image)) || (type !== 'COMMENT' && !known.has(offset)));
        found.push({ start, end, signs: own, broken });
        if (match[2] === '') break;
    }
    return found;
}

// ---- within lines

function inLines(text: string, lines: readonly Line[], layout: Layout): Blank[] {
    const levels = levelsOf(lines, layout);
    const byOffset = new Map<number, { line: number; at: number }>();
    const blanks = lines.map((line, number): Blank[] => line.signs.map((sign, at) => {
        byOffset.set(sign.offset, { line: number, at });
        const before = line.signs[at - 1];
        const from = before ? before.offset + before.image.length : line.start;
        const written = text.slice(from, sign.offset);
        const level = levels?.[number];
        const wanted = line.broken || !/^[ \t]*$/.test(written) || (!before && level === undefined) ? written
            : before ? gapBefore(line.signs, at, written, layout) : INDENT.repeat(level!);
        return { from, to: sign.offset, text: wanted };
    }));
    const startOf = (offset: number): number => {
        const { line, at } = byOffset.get(offset)!;
        return lines[line]!.signs.slice(0, at + 1).reduce((sum, sign, i) => sum + blanks[line]![i]!.text.length + (i < at ? sign.image.length : 0), 0);
    };
    const put = (offset: number, column: number, least: number): void => {
        const { line, at } = byOffset.get(offset)!;
        const blank = blanks[line]![at]!;
        blank.text = ' '.repeat(Math.max(least, column - (startOf(offset) - blank.text.length)));
    };
    const isSet = (offset: number): boolean => { const place = byOffset.get(offset); return place !== undefined && place.at > 0 && !lines[place.line]!.broken; };
    for (const [offset, { from, column }] of layout.columns) {
        if (!isSet(offset)) continue;
        const width = startOf(offset) - blanks[byOffset.get(offset)!.line]![byOffset.get(offset)!.at]!.text.length - startOf(from);
        put(offset, startOf(from) + column, width < column ? 1 : WIDE);
    }
    for (const table of layout.tables) align(table, (offset) => byOffset.get(offset)?.line ?? -1, lines, isSet, (offset) => startOf(offset) - blanks[byOffset.get(offset)!.line]![byOffset.get(offset)!.at]!.text.length, put);
    const trailing = lines.flatMap((line): Blank[] => {
        if (line.broken) return [];
        const last = line.signs.at(-1);
        const end = last ? last.offset + last.image.trimEnd().length : line.start;
        return /^[ \t]*$/.test(text.slice(end, line.end)) ? [{ from: end, to: line.end, text: '' }] : [];
    });
    return [...blanks.flat(), ...trailing];
}

function gapBefore(signs: readonly Sign[], at: number, written: string, { gaps }: Layout): string {
    const [before, sign] = [signs[at - 1]!, signs[at]!];
    const asWritten = written.length > 1 || written.includes('\t') ? WIDE : 1;
    // `8,5` and `5-95` are slips, and their messages go by what touches what.
    const bare = (token: Sign | undefined): boolean => token?.type === 'MEASURE' && /[\d%]$/.test(token.image);
    if (before.image === '.' || sign.image === '.') return '';
    if (sign.image === ',') return bare(before) ? written : '';
    if (before.image === ',') return bare(signs[at - 2]) ? written : ' ';
    if (sign.type === 'COMMENT') return ' '.repeat(written === '' ? WIDE : asWritten);
    if (sign.image === '{' || sign.image === '}' || before.image === '{') return ' ';
    if (written === '' && before.image !== '}') return '';
    const gap: Gap = gaps.get(sign.offset) ?? 1;
    return ' '.repeat(gap === 'as written' ? asWritten : gap);
}

/** How deep each line stands; nothing while a brace is missing, since no one can tell where. */
function levelsOf(lines: readonly Line[], { deeper }: Layout): number[] | undefined {
    const open: number[] = [];
    let goesOn = false;
    const levels: number[] = [];
    for (const [number, { signs }] of lines.entries()) {
        let closing = true;
        let level: number | undefined;
        for (const { image, type } of signs) {
            if (type === 'COMMENT' || type === 'STRING') { closing = false; continue; }
            if (image !== '}' || !closing) { closing = false; level ??= new Set(open).size; }
            if (image === '{') open.push(number);
            if (image === '}' && open.pop() === undefined) return undefined;
        }
        level ??= new Set(open).size;
        levels.push(level + (goesOn || (signs[0] && deeper.has(signs[0].offset)) ? 1 : 0));
        const last = signs.filter(({ type }) => type !== 'COMMENT').at(-1);
        if (last) goesOn = last.image === ',';
    }
    return open.length === 0 ? levels : undefined;
}

/** Sets the cells of a table, column by column. A blank line parts two tables, and so does a line that is no row. */
function align({ rows, gap, alike }: Table, lineOf: (offset: number) => number, lines: readonly Line[], isSet: (offset: number) => boolean, endBefore: (offset: number) => number, put: (offset: number, column: number, least: number) => void): void {
    const imageAt = (offset: number): string => lines[lineOf(offset)]!.signs.find((other) => other.offset === offset)!.image;
    const usable = rows.filter((row) => row.length > 1 && row.slice(1).every(isSet));
    for (let column = 1; usable.some((row) => row.length > column); column++) {
        let group: Row[] = [];
        const least = column === 1 ? gap : WIDE;
        const flush = (): void => {
            const at = Math.max(...group.map((row) => endBefore(row[column]!))) + least;
            for (const row of group) put(row[column]!, at, least);
            group = [];
        };
        for (const row of usable) {
            const last = group.at(-1);
            const fits = row.length > column;
            const goesOn = last && fits && !blankBetween(lines, lineOf(last[0]!), lineOf(row[0]!)) && (column === 1 || !alike || imageAt(last[column]!) === imageAt(row[column]!));
            if (last && !goesOn && (fits || alike)) flush();
            if (fits) group.push(row);
        }
        if (group.length > 0) flush();
    }
}
type Row = readonly number[];
const blankBetween = (lines: readonly Line[], from: number, to: number): boolean => lines.slice(from + 1, to).some(({ signs }) => signs.length === 0);

// ---- between lines

/** At most one blank line in a row, none at the beginning or the end. */
function betweenLines(text: string, lines: readonly Line[]): Blank[] {
    const blanks: Blank[] = [];
    const isBlank = ({ start, end }: Line): boolean => /^[ \t]*$/.test(text.slice(start, end));
    for (let at = 0; at < lines.length; at++) {
        if (!isBlank(lines[at]!)) continue;
        let last = at;
        while (last + 1 < lines.length && isBlank(lines[last + 1]!)) last++;
        const keep = at === 0 ? 0 : 1;
        const surplus = last - at + 1 - keep;
        if (surplus > 0 && at + keep <= last) blanks.push({ from: lines[at]!.start, to: lines[at + surplus]?.start ?? lines[last]!.end, text: '' });
        at = last;
    }
    return blanks;
}

/** Whether two texts have the same words in the same order. */
function same(lexer: Lexer, a: string, b: string): boolean {
    const words = (text: string): string => { const { tokens, hidden } = lexer.tokenize(text); return JSON.stringify([tokens.filter(({ tokenType }) => tokenType.name !== 'NL').map(({ image }) => image), hidden.filter(({ tokenType }) => tokenType.name === 'COMMENT').map(({ image }) => image.trimEnd())]); };
    return words(a) === words(b);
}
