/**
 * Sets a text as the examples are set. Nothing but blanks changes: no comment, word or line is lost, moved, joined or parted.
 * Lines that are half typed stay as they are.
 */
import type { LangiumDocument, Lexer } from 'langium';
import type { Formatter, LangiumServices } from 'langium/lsp';
import type { DocumentOnTypeFormattingParams, DocumentRangeFormattingParams, TextEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { layoutOf, WIDE, type Gap, type Layout, type Row, type Table } from './layout';

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
    const page = new Page(lines, lines.map((line, number): Blank[] => line.signs.map((sign, at) => {
        const before = line.signs[at - 1];
        const from = before ? before.offset + before.image.length : line.start;
        const written = text.slice(from, sign.offset);
        const level = levels?.[number];
        const wanted = line.broken || !/^[ \t]*$/.test(written) || (!before && level === undefined) ? written
            : before ? gapBefore(line.signs, at, written, layout) : INDENT.repeat(level!);
        return { from, to: sign.offset, text: wanted };
    })));
    for (const [offset, { from, column }] of layout.columns) {
        if (!page.movable(offset)) continue;
        const target = page.columnOf(from) + column;
        page.moveTo(offset, target, page.endBefore(offset) < target ? 1 : WIDE);
    }
    for (const table of layout.tables) align(table, page);
    const trailing = lines.flatMap((line): Blank[] => {
        const last = line.signs.at(-1);
        const end = last ? last.offset + last.image.trimEnd().length : line.start;
        return !line.broken && /^[ \t]*$/.test(text.slice(end, line.end)) ? [{ from: end, to: line.end, text: '' }] : [];
    });
    return [...page.blanks.flat(), ...trailing];
}

/** The lines as they are being set. Tokens go by their offsets in the text as written, columns by where they come to stand. */
class Page {
    private readonly places = new Map<number, { readonly line: number; readonly at: number }>();

    constructor(readonly lines: readonly Line[], readonly blanks: readonly Blank[][]) {
        lines.forEach(({ signs }, line) => signs.forEach(({ offset }, at) => this.places.set(offset, { line, at })));
    }

    /** Whether blanks before a token may be changed: it has something before it on a line that is whole. */
    movable(offset: number): boolean {
        const place = this.places.get(offset);
        return place !== undefined && place.at > 0 && !this.lines[place.line]!.broken;
    }
    /** The column at which what stands before a token ends. */
    endBefore(offset: number): number {
        const { line, at } = this.places.get(offset)!;
        return this.lines[line]!.signs.slice(0, at).reduce((sum, sign, i) => sum + this.blanks[line]![i]!.text.length + sign.image.length, 0);
    }
    columnOf(offset: number): number {
        const { line, at } = this.places.get(offset)!;
        return this.endBefore(offset) + this.blanks[line]![at]!.text.length;
    }
    moveTo(offset: number, column: number, least: number): void {
        const { line, at } = this.places.get(offset)!;
        this.blanks[line]![at]!.text = ' '.repeat(Math.max(least, column - this.endBefore(offset)));
    }
    imageAt(offset: number): string {
        const { line, at } = this.places.get(offset)!;
        return this.lines[line]!.signs[at]!.image;
    }
    blankLineBetween(one: number, other: number): boolean {
        return this.lines.slice(this.places.get(one)!.line + 1, this.places.get(other)!.line).some(({ signs }) => signs.length === 0);
    }
}

/** Sets the cells of a table, column by column. A blank line parts two tables; where `alike` is asked, so does a line that says something else. */
function align({ rows, gap, alike }: Table, page: Page): void {
    const usable = rows.filter((row) => row.length > 1 && row.slice(1).every((offset) => page.movable(offset)));
    for (let column = 1; usable.some((row) => row.length > column); column++) {
        const least = column === 1 ? gap : WIDE;
        let group: Row[] = [];
        const close = (): void => {
            const target = Math.max(...group.map((row) => page.endBefore(row[column]!))) + least;
            for (const row of group) page.moveTo(row[column]!, target, least);
            group = [];
        };
        for (const row of usable) {
            const last = group.at(-1);
            const fits = row.length > column;
            const goesOn = last && fits && !page.blankLineBetween(last[0]!, row[0]!) && (column === 1 || !alike || page.imageAt(last[column]!) === page.imageAt(row[column]!));
            if (last && !goesOn && (fits || alike)) close();
            if (fits) group.push(row);
        }
        if (group.length > 0) close();
    }
}

function gapBefore(signs: readonly Sign[], at: number, written: string, { gaps }: Layout): string {
    const [before, sign] = [signs[at - 1]!, signs[at]!];
    const asWritten = written.length > 1 || written.includes('\t') ? WIDE : 1;
    // `8,5` and `5-95` are slips, and their messages go by what touches what.
    const bare = (token: Sign | undefined): boolean => token?.type === 'MEASURE' && /\d$/.test(token.image);
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
