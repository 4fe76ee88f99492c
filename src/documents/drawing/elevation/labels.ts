/** Labels beside one another in a column: each near its height, none on another, none on a line that crosses the column. */
import type { Id } from '../../../model/boat';
import { escapeXml } from '../../procedures/safe';
import type { Mark } from '../markup';
import { roomFor, said } from '../marks';
import { inked, n, widthOf, words } from '../svg';
import { wrapTo } from '../wrap';

/** A piece of a label: a tag in bold, or words. */
interface Span {
    readonly text: string;
    readonly bold: boolean;
    readonly tag?: Id;
}

export interface Label {
    readonly lines: readonly (readonly Span[])[];
    readonly marks: readonly Mark[];
    readonly width: number;
    readonly height: number;
}

export const SIZE = 10;
const LINE = 13;
const [WIDEST, GAP] = [132, 4] as const;

/** Words in bold, without being a tag. */
export const strong = (text: string, widest: number): Label => {
    const lines = wrapTo(text, widest, SIZE, true).map((line): Span[] => [{ text: line, bold: true }]);
    return { lines, marks: [], width: Math.max(0, ...lines.map(widthOfLine)), height: lines.length * LINE };
};

/** A bold tag with its id, and what follows it on the same line where that has room. */
export function label(tag: { readonly text: string; readonly id: Id } | undefined, text = '', marks: readonly Mark[] = [], widest: number = WIDEST): Label {
    const tags = tag === undefined ? [] : wrapTo(tag.text, widest, SIZE, true).map((line): Span => ({ text: line, bold: true, tag: tag.id }));
    const lines: Span[][] = tags.map((span) => [span]);
    const last = lines.at(-1);
    const beside = last !== undefined && widthOf(last[0]!.text, SIZE, true) + GAP + widthOf(text, SIZE) <= widest;
    if (beside && text !== '') last.push({ text, bold: false });
    else lines.push(...wrapTo(text, widest, SIZE).map((line): Span[] => [{ text: line, bold: false }]));
    const room = roomFor(marks);
    return { lines, marks, width: Math.max(room.width, 0, ...lines.map(widthOfLine)), height: lines.length * LINE + room.height };
}

const widthOfSpan = ({ text, bold }: Span): number => widthOf(text, SIZE, bold);
const widthOfLine = (line: readonly Span[]): number => line.reduce((sum, span) => sum + widthOfSpan(span), (line.length - 1) * GAP);

/** Drawn with its upper edge at `top`. */
export function drawLabel({ lines, marks, width }: Label, x: number, top: number, anchor: 'start' | 'end' = 'start'): string {
    const room = roomFor(marks);
    const left = (line: readonly Span[]): number => (anchor === 'start' ? x : x - widthOfLine(line));
    return said(marks, { x: anchor === 'start' ? x : x - width, y: top + room.height }) + lines.map((line, i) => {
        let at = left(line);
        return line.map((span) => {
            const drawn = words(span.text, { x: at, y: top + room.height + (i + 1) * LINE - 3, size: SIZE, bold: span.bold, ...(span.tag !== undefined && { also: `data-tag="${escapeXml(span.tag)}"` }) });
            at += widthOfSpan(span) + GAP;
            return drawn;
        }).join('');
    }).join('');
}

/** One thing to be said of a height, y being where that is on the sheet. */
export interface Wanted {
    readonly y: number;
    readonly label: Label;
}

export interface Placed extends Wanted {
    readonly top: number;
}

/** Clear of a line by so much. */
const CLEAR = 2;

/** The nearest free place at or above a height; `lines` are where lines cross. */
export function above(bottom: number, height: number, lines: readonly number[]): number {
    let top = bottom - height;
    for (const line of lines.toSorted((a, b) => b - a)) if (line > top - CLEAR && line < top + height + CLEAR) top = line - CLEAR - height;
    return top;
}

export function below(from: number, height: number, lines: readonly number[]): number {
    let top = from;
    for (const line of lines.toSorted((a, b) => a - b)) if (line > top - CLEAR && line < top + height + CLEAR) top = line + CLEAR;
    return top;
}

/** Stacked upwards from a height, each as near to its own as the ones below it leave it. */
export function stackedUp(wanted: readonly Wanted[], bottom: number, lines: readonly number[]): Placed[] {
    let limit = bottom;
    return wanted.toSorted((a, b) => b.y - a.y).map((one) => {
        const top = above(Math.min(limit, one.y + one.label.height / 2), one.label.height, lines);
        limit = top;
        return { ...one, top };
    });
}

export function stackedDown(wanted: readonly Wanted[], from: number, lines: readonly number[]): Placed[] {
    let limit = from;
    return wanted.toSorted((a, b) => a.y - b.y).map((one) => {
        const top = below(Math.max(limit, one.y - one.label.height / 2), one.label.height, lines);
        limit = top + one.label.height;
        return { ...one, top };
    });
}

/** From a point to the near edge of its label, at its first line. */
export function leader([fromX, fromY]: readonly [number, number], toX: number, { top, label: { marks } }: Placed): string {
    const to = top + roomFor(marks).height + LINE / 2;
    return `<path ${inked('thin')} d="M${n(fromX)} ${n(fromY)}L${n(toX)} ${n(to)}"/>`;
}

/** Several as one, below one another. */
export const joined = (labels: readonly Label[]): Label => ({
    lines: labels.flatMap(({ lines }) => lines), marks: labels.flatMap(({ marks }) => marks), width: Math.max(0, ...labels.map(({ width }) => width)), height: labels.reduce((sum, { height }) => sum + height, 0),
});
