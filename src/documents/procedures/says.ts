/** What a page says, as lines with their kinds: what is compared between two pages, by meaning and not by characters. */
import { UNITS, toSI, unitPattern } from '../../model/units';
import type { Page } from './tree';

/** A page without the digests that stand on it. */
export type Said = Omit<Page, 'effectivity'>;

export interface SaidLine {
    /** step, warning, sign, valve and so on; a field of the page that is new here is called by its own name. */
    readonly kind: string;
    readonly text: string;
}

/** One difference: what it said, and what is said now. */
export interface Difference {
    readonly kind: string;
    readonly was?: string;
    readonly now?: string;
    /** The figures that differ, where nothing else does. */
    readonly figures?: readonly { readonly was: string; readonly now: string }[];
}

/** Fields that say nothing: names of files, and what stands for the state of the model. */
const SILENT = new Set(['id', 'effectivity', 'sections', 'number', 'drawing']);
const KINDS: Readonly<Record<string, string>> = { tools: 'tool', parts: 'part', valves: 'valve', drains: 'drain', places: 'place', faults: 'fault', cautions: 'warning', signs: 'sign', notes: 'note', does: 'step' };

/** What the drawing shows is a kind of its own: all of some lines, whatever the page names of them. */
export const DRAWN = 'drawing';

/** Every text of a page, for what it names. */
export const textsOf = (page: Said): string[] => saysOf(page).flatMap(({ kind, text }) => (kind === DRAWN ? [] : [text]));

export function saysOf(page: Said): SaidLine[] {
    const lines: SaidLine[] = [];
    const tell = (kind: string, value: unknown): void => {
        if (Array.isArray(value)) for (const each of value) tell(kind, each);
        else if (value !== undefined && value !== null && value !== '') lines.push({ kind, text: typeof value === 'object' ? rowWords(kind, value) : String(value) });
    };
    for (const [key, value] of Object.entries(page)) if (!SILENT.has(key)) tell(KINDS[key] ?? key, value);
    for (const { steps } of page.sections) for (const { cautions, tag, place, action, ...rest } of steps) {
        tell('warning', cautions);
        tell('step', [tag, place && `(${place})`].filter(Boolean).join(' ') === '' ? action : `${[tag, place && `(${place})`].filter(Boolean).join(' ')}: ${action}`);
        for (const [key, value] of Object.entries(rest)) if (!SILENT.has(key)) tell(KINDS[key] ?? key, value);
    }
    for (const text of drawnLines(page)) lines.push({ kind: DRAWN, text });
    return lines;
}

/** What the drawing tells in words, a heading and all below it in one line. */
function drawnLines({ drawing }: Said): string[] {
    const lines: string[][] = [];
    for (const { text, depth } of drawing?.words ?? []) if (depth === 0) lines.push([text]); else lines.at(-1)?.push(text);
    return lines.map(([heading, ...below]) => [heading, below.join('; ')].filter((text) => text !== '').join(': '));
}

/** A row of a table in one line. What a row is about stands first, before a colon. */
function rowWords(kind: string, row: object): string {
    const [first, ...others] = Object.entries(row).filter(([, value]) => value !== '' && value !== undefined).map(([key, value]) => (kind === 'valve' && ['start', 'work', 'bleed', 'end'].includes(key) ? `${key} ${String(value)}` : String(value)));
    return others.length === 0 ? first ?? '' : `${first}: ${others.join(', ')}`;
}

/** What differs between two pages. Line ends, blanks and the unit in which a figure is written are no difference; order is one. */
export function differences(was: readonly SaidLine[], now: readonly SaidLine[]): Difference[] {
    const kept = longestCommon(was.map(meaningOf), now.map(meaningOf));
    const [gone, come] = [was.filter((_, i) => !kept.was.has(i)), now.filter((_, i) => !kept.now.has(i))];
    const found: Difference[] = [];
    const left = [...come];
    const pair = (same: (a: SaidLine, b: SaidLine) => boolean, line: SaidLine): SaidLine | undefined => { const at = left.findIndex((other) => other.kind === line.kind && same(line, other)); return at < 0 ? undefined : left.splice(at, 1)[0]; };
    for (const line of gone) {
        const other = pair((a, b) => skeletonOf(a.text) === skeletonOf(b.text), line) ?? pair((a, b) => aboutOf(a.text) !== '' && aboutOf(a.text) === aboutOf(b.text) && a.kind !== 'step', line);
        const figures = other && skeletonOf(line.text) === skeletonOf(other.text) ? figuresThatDiffer(line.text, other.text) : [];
        found.push({ kind: line.kind, was: line.text, ...(other && { now: other.text }), ...(figures.length > 0 && { figures }) });
    }
    return [...found, ...left.map(({ kind, text }) => ({ kind, now: text }))];
}

const NUMBER = '[0-9]+(?:\\.[0-9]+)?';
/** A figure with its unit, or alone. */
export const FIGURE = new RegExp(`(?<![\\p{L}\\p{N}_.])(${NUMBER})(?:[ \\u00a0]?(${unitPattern()})(?![\\p{L}\\p{N}_]))?(?![\\p{L}\\p{N}_])`, 'gu');

const collapsed = (text: string): string => text.replace(/\s+/g, ' ').trim();
/** Six digits of SI: 450 mL and 0.45 L are one. */
const plain = (text: string): string => collapsed(text).replace(FIGURE, (_, number: string, unit?: string) => (unit === undefined ? String(Number(number)) : `${Number(toSI(Number(number), unit).toPrecision(6))} ${UNITS[unit]!.dimension}`));
const meaningOf = ({ kind, text }: SaidLine): string => `${kind}\t${plain(text)}`;
const skeletonOf = (text: string): string => collapsed(text).replace(FIGURE, '#');
const aboutOf = (text: string): string => (text.includes(': ') ? text.slice(0, text.indexOf(': ')) : '');

function figuresThatDiffer(was: string, now: string): { was: string; now: string }[] {
    const [before, after] = [[...was.matchAll(FIGURE)], [...now.matchAll(FIGURE)]].map((all) => all.map(([whole]) => whole));
    return before!.flatMap((figure, i) => (plain(figure) === plain(after![i] ?? '') ? [] : [{ was: figure, now: after![i] ?? '' }]));
}

/** The places of a longest common run of two lists, in order. */
function longestCommon(was: readonly string[], now: readonly string[]): { was: Set<number>; now: Set<number> } {
    const length: number[][] = Array.from({ length: was.length + 1 }, () => new Array<number>(now.length + 1).fill(0));
    for (let i = was.length - 1; i >= 0; i--) for (let j = now.length - 1; j >= 0; j--) length[i]![j] = was[i] === now[j] ? length[i + 1]![j + 1]! + 1 : Math.max(length[i + 1]![j]!, length[i]![j + 1]!);
    const kept = { was: new Set<number>(), now: new Set<number>() };
    for (let i = 0, j = 0; i < was.length && j < now.length;) {
        if (was[i] === now[j]) { kept.was.add(i++); kept.now.add(j++); } else if (length[i + 1]![j]! >= length[i]![j + 1]!) i++; else j++;
    }
    return kept;
}
