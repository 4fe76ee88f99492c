/**
 * How the lines of a text are set: what blank stands before each token. Three blanks part facts, parts and cells; words that belong
 * together stand one blank apart. Columns are aligned where lines say the same kind of thing.
 */
import { AstUtils, CstUtils, type AstNode, type CstNode } from 'langium';
import type { AnyFactToken } from '../facts';
import { isBleed, isLater, isLineUp, isLog, isPart, isProcedure, isTend, isWord, type AnyToken, type Line } from '../generated/ast';
import { JOB_VERBS } from '../lowering/jobs';
import type { FactWord } from '../vocabulary';
import { readingsOf } from './readings';

/** The blanks wanted before a token: so many, or three where the writer left more than one and one otherwise. */
export type Gap = number | 'as written';
export const WIDE = 3;
/** Where what follows the name of a part begins, counted from the part. */
const NAME_COLUMN = 14;

/** Cells of one line, by the offsets at which they begin. */
export type Row = readonly number[];
export interface Table {
    readonly rows: readonly Row[];
    /** Blanks after the widest cell of the first column. */
    readonly gap: number;
    /** Columns behind the first are aligned only where neighbouring lines open the same way: renew ... with, look ... common. */
    readonly alike: boolean;
}

export interface Layout {
    /** By the offset of the token that the gap stands before; a token that is not in it stands one blank from the one before. */
    readonly gaps: ReadonlyMap<number, Gap>;
    /** The column that a token begins at, counted from the start of its item. */
    readonly columns: ReadonlyMap<number, { readonly from: number; readonly column: number }>;
    readonly tables: readonly Table[];
    /** Lines set one level deeper, by the offset of their first token: notes under their step. */
    readonly deeper: ReadonlySet<number>;
    /** Offsets of tokens that the tree holds; what is not in it was not understood. */
    readonly known: ReadonlySet<number>;
}

/** Things that may stand side by side on a line. */
const ITEMS = new Set(['Part', 'Split', 'Changeover', 'Leg', 'Fitting', 'Section', 'BleedPoint', 'Space', 'Position', 'Setting']);
/** Entries whose words are known, so that a gap between them means nothing. */
const SET = new Set(['Vessel', 'Tank', 'Consumer', 'Selector', 'Course', 'LineUp', 'Tend', 'Log', 'Bleed', 'Procedure', 'Pattern']);
/** What is set in a column, each kind for itself within its block, and the blanks after the widest. */
const ALIGNED: Readonly<Record<string, number>> = { Fitting: WIDE, Section: WIDE, BleedPoint: WIDE, Position: 1, Leg: 1 };

export function layoutOf(root: AstNode): Layout {
    const layout = {
        gaps: new Map<number, Gap>(), columns: new Map<number, { from: number; column: number }>(), tables: [] as Table[], deeper: new Set<number>(), known: new Set<number>(),
    };
    if (root.$cstNode) for (const leaf of CstUtils.flattenCst(root.$cstNode)) if (!leaf.hidden) layout.known.add(leaf.offset);
    for (const entry of AstUtils.streamContents(root)) if (!SET.has(entry.$type)) asWritten(entry, layout.gaps);
    for (const node of AstUtils.streamAst(root)) {
        if (!node.$cstNode) continue;
        // `pattern Bowl is filter`, `insert shutoff V2`: one phrase.
        if (ITEMS.has(node.$type)) layout.gaps.set(node.$cstNode.offset, isPhrase(node) ? 1 : WIDE);
        facts(node, layout.gaps);
        if (isPart(node) && leads(node) && onOneLine(node)) nameColumn(node, layout);
        if (isBleed(node)) { bleed(node.tokens, HEAD_CELLS, layout.gaps); for (const line of node.lines) bleedLine(line, layout); }
        if (isProcedure(node)) { procedureHead(node.tokens, layout.gaps); for (const line of node.lines) bleedLine(line, layout); }
        if (isTend(node)) layout.tables.push({ rows: rowsOf(node.lines, tendCell, false), gap: WIDE, alike: true });
        if (isLog(node)) layout.tables.push({ rows: rowsOf(node.lines, logCell), gap: WIDE, alike: true });
        if (isLater(node) && node.kind === 'locker' && node.block) {
            // The count stands close to its word; what else its writer set apart stays apart.
            const counted = ({ tokens }: { readonly tokens: readonly AnyToken[] }): boolean => tokens.length > 1 && lockerCell(tokens, 1);
            layout.tables.push({ rows: rowsOf(node.block.lines.filter(counted), lockerCell), gap: 1, alike: true }, { rows: rowsOf(node.block.lines.filter((line) => !counted(line)), lockerCell), gap: WIDE, alike: true });
        }
        for (const [type, gap] of Object.entries(ALIGNED)) {
            const own = AstUtils.streamContents(node).filter((child) => child.$type === type && leads(child) && onOneLine(child)).toArray();
            if (own.length > 0) layout.tables.push({ rows: own.map(cellsOf), gap, alike: true });
        }
    }
    const lineUps = AstUtils.streamContents(root).filter(isLineUp).filter((node) => leads(node) && onOneLine(node)).map((node): Row => {
        const { tokens } = node;
        const cells = tokens.filter((token, i) => isWord(token) && (i === 0 || token.text === 'is' || token.text === 'from'));
        return [node, ...cells].flatMap((cell) => cell.$cstNode?.offset ?? []).concat(brace(node)?.offset ?? []);
    }).toArray();
    if (lineUps.length > 0) layout.tables.push({ rows: lineUps, gap: WIDE, alike: false });
    return layout;
}

const isPhrase = ({ $container: at, $containerProperty: property }: AstNode): boolean => property === 'part' && (at?.$type === 'Pattern' || at?.$type === 'Insertion');

/** The head of an item, then what follows it, then each further fact. */
function cellsOf(item: AstNode): Row {
    const next = afterHead(item);
    const facts = readingsOf(item).flatMap(({ token, begins }) => (begins && !begins.close && token.$container === item ? token.$cstNode?.offset ?? [] : []));
    const cells = item.$type === 'Section' ? facts.filter((offset) => offset !== next) : [...(next === undefined ? [] : [next]), ...facts];
    return [...new Set([item.$cstNode!.offset, ...cells])];
}

// ---- facts

function facts(node: AstNode, gaps: Map<number, Gap>): void {
    const head = afterHead(node);
    // The head of a block is written as its writer sees fit, tank T1 "port tank" in PortLocker carries diesel {, and so is the
    // first word of one of several parts on a line: { filter F1 final   hose }
    const isHead = (token: AnyFactToken, fact: FactWord): boolean =>
        token.$container === node && node.$type !== 'Section' && (!ITEMS.has(node.$type) || !onOneLine(node) || (token.$cstNode?.offset === head && fact.form.is === 'flag' && !leads(node)));
    let last: { heading: string; end: number } | undefined;
    for (const { token, as, begins } of readingsOf(node)) {
        const cst = token.$cstNode;
        if (!cst) continue;
        if (begins) {
            const heading = begins.words.split(' ')[0]!;
            const goesOn = begins.form.is === 'flag' && last?.heading === heading && /^[ \t]*$/.test(cst.root.fullText.slice(last.end, cst.offset));
            // `section at 2200 mm fwd`: one phrase.
            const phrase = node.$type === 'Space' || (node.$type === 'Section' && cst.offset === head);
            gaps.set(cst.offset, begins.close || goesOn || phrase ? 1 : isHead(token, begins) ? 'as written' : WIDE);
            last = { heading, end: cst.end };
        } else if (as === 'fact') last = last && { ...last, end: cst.end };
    }
}

/** Where the head of a declaration ends: its kind, its name and its title are behind. */
const afterHead = (node: AstNode): number | undefined =>
    (node as { tokens?: readonly AnyFactToken[] }).tokens?.[0]?.$cstNode?.offset ?? (node.$type === 'Leg' ? brace(node)?.offset : undefined);

function nameColumn(node: AstNode, layout: { columns: Map<number, { from: number; column: number }> }): void {
    const next = afterHead(node);
    if (next !== undefined) layout.columns.set(next, { from: node.$cstNode!.offset, column: NAME_COLUMN });
}

// ---- bleed sequences and procedures

const HEAD_CELLS = ['after', 'prefilled', 'from', 'starts', 'ends', 'kept'];
const STEP_CELLS = ['key out', 'expect', 'stop and', 'at most', 'seacock open', 'budget'];

function bleed(tokens: readonly AnyToken[], cells: readonly string[], gaps: Map<number, Gap>): void {
    tokens.forEach((token, i) => {
        const next = tokens[i + 1];
        const two = `${wordOf(token)} ${next ? wordOf(next) : ''}`;
        if (token.$cstNode && cells.some((cell) => (cell.includes(' ') ? two === cell : wordOf(token) === cell))) gaps.set(token.$cstNode.offset, WIDE);
    });
}

function bleedLine({ tokens, $cstNode }: Line, layout: { gaps: Map<number, Gap>; deeper: Set<number> }): void {
    const quotes = tokens.some((token) => token.$type === 'Quoted');
    // In `set E1 seacock open` the seacock is what is set.
    if (!quotes) bleed(tokens, wordOf(tokens[0]!) === 'set' ? [] : STEP_CELLS, layout.gaps);
    // A note hangs under its step, unless it says that its step has gone.
    if ($cstNode && tokens[0] && wordOf(tokens[0]) === 'note' && !tokens.some((token) => wordOf(token) === 'once')) layout.deeper.add($cstNode.offset);
}

/** The line-ups, how long it takes and how many people stand apart. */
function procedureHead(tokens: readonly AnyToken[], gaps: Map<number, Gap>): void {
    tokens.forEach((token, i) => {
        const person = (at: number): boolean => tokens[at] !== undefined && ['person', 'people'].includes(wordOf(tokens[at]));
        const apart = ['starts', 'ends', 'kept'].includes(wordOf(token)) || token.$type === 'Measure' || (isWord(token) && person(i + 1));
        if (token.$cstNode && apart) gaps.set(token.$cstNode.offset, WIDE);
    });
}

// ---- tables

type Opens = (tokens: readonly AnyToken[], at: number) => boolean;

const tendCell: Opens = (tokens, at) => ['every', 'with', 'common', 'source', 'note', 'refit'].includes(wordOf(tokens[at]!));

const PAST = new Set(Object.values(JOB_VERBS));
const logCell: Opens = (tokens, at) => {
    const [before, token, next] = [tokens[at - 1]!, tokens[at]!, tokens[at + 1]];
    if (before.$type === 'Day' && at === 1) return true;
    if (token.$type === 'Ref') return next?.$type === 'Measure' || (next !== undefined && wordOf(next) === 'dipped');
    if (PAST.has(wordOf(token))) return wordOf(before) !== 'and';
    return ['by', 'corrects', 'note', 'photo'].includes(wordOf(token)) || (['water', 'level'].includes(wordOf(token)) && next?.$type === 'Measure');
};

/** 2 of F1 element */
const lockerCell: Opens = (tokens, at) => at === 1 && wordOf(tokens[at]!) === 'of';

/** Lines that stand alone on theirs, each with its cells: those that its words open, and in free lines those that its writer set apart. */
function rowsOf(lines: readonly (AstNode & { readonly tokens: readonly AnyToken[] })[], opens: Opens, apart = true): Row[] {
    return lines.filter((line) => leads(line) && onOneLine(line)).map((line) => line.tokens.flatMap((token, i) => {
        const { $cstNode: cst } = token;
        return cst && (i === 0 || (token.$type !== 'Comma' && line.tokens[i - 1]!.$type !== 'Comma' && (opens(line.tokens, i) || (apart && isApart(cst))))) ? [cst.offset] : [];
    }));
}

/** Entries that have no setting of their own keep the gaps of their writer, but for the parts and facts in them. */
function asWritten({ $cstNode }: AstNode, gaps: Map<number, Gap>): void {
    if ($cstNode) for (const leaf of CstUtils.flattenCst($cstNode)) if (!leaf.hidden) gaps.set(leaf.offset, 'as written');
}

// ---- places

const wordOf = (token: AnyToken): string => (isWord(token) ? token.text : '');
const isApart = (cst: CstNode): boolean => /(?:[ \t]{2}|\t)$/.test(lineBefore(cst));
const brace = (node: AstNode): CstNode | undefined => node.$cstNode && CstUtils.flattenCst(node.$cstNode).find((leaf) => leaf.text === '{' && leaf.astNode === node);

/** What stands before a node on its line. */
function lineBefore({ root: { fullText }, offset }: CstNode): string {
    let start = offset;
    while (start > 0 && fullText[start - 1] !== '\n' && fullText[start - 1] !== '\r') start--;
    return fullText.slice(start, offset);
}

/** Whether a node is the first on its line. */
const leads = ({ $cstNode: cst }: AstNode): boolean => cst !== undefined && /^[ \t]*$/.test(lineBefore(cst));
const onOneLine = ({ $cstNode: cst }: AstNode): boolean => cst !== undefined && !/[\r\n]/.test(cst.text.trimEnd());
