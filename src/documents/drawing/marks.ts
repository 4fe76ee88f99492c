/**
 * Marks over a drawing, for whatever stands in a box. Beneath it goes what fills an area, above it what rings or clouds it; what a mark says
 * stands in lines over the upper left corner, and `roomFor` tells how much room that takes. Live and dead are weights of lines (line-styles.ts):
 * whoever draws a line gives them to it.
 */
import type { Look, Mark } from './markup';
import { inked, n, points, widthOf, words, type Point } from './svg';

export interface Box {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
}

/** A ring or cloud stands off by so much. */
export const OFF = 5;
const LINE = 14;
const SIZE = 10;
const RING = 6.5;

const grown = ({ x, y, width, height }: Box, by = OFF): Box => ({ x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by });
const has = (marks: readonly Mark[], ...looks: readonly Look[]): boolean => marks.some(({ as }) => looks.includes(as));

/** Drawn before the thing itself: the ground of what the sheet is about, the hatching of suction and pressure. */
export function underlay(box: Box, marks: readonly Mark[]): string {
    const { x, y, width, height } = grown(box);
    return [
        has(marks, 'about') ? `<rect ${inked('accent-solid')} fill-opacity="0.12" stroke-opacity="0" x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" rx="${OFF}"/>` : '',
        has(marks, 'suction') ? hatched({ x, y, width, height }, -1) : '',
        has(marks, 'pressure') ? hatched({ x, y, width, height }, 1) : '',
    ].join('');
}

/** What `underlay` is for a thing, for a line: `lined` gives the line with attributes. What lies below the pressure of the air has light strokes across it, what lies above heavy ones. */
export function underline(lined: (attributes: string) => string, marks: readonly Mark[]): string {
    const across = (width: number, dashes: string): string => lined(`${inked('line', width)} stroke-dasharray="${dashes}"`);
    return [
        has(marks, 'about') ? lined(`${inked('accent', 8)} stroke-opacity="0.3"`) : '',
        has(marks, 'suction') ? across(9, '1 6') : '', has(marks, 'pressure') ? across(9, '3 6') : '',
    ].join('');
}

/** Whether a line that has these marks takes a box around it: `shapes` draws nothing else about a line. */
export const isClouded = (marks: readonly Mark[]): boolean => has(marks, 'changed', 'added', 'removed');

/** What rings, clouds or crosses the box, without words. Which opening of a part stands open is said in words; a bleed point's own sign stands over it. */
export function shapes(box: Box, marks: readonly Mark[], open: 'corner' | 'top' = 'corner'): string {
    const round = grown(box);
    const { x, y, width, height } = round;
    const [right, bottom] = [x + width, y + height];
    return [
        has(marks, 'about') ? `<rect ${inked('accent')} x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" rx="${OFF}"/>` : '',
        has(marks, 'changed', 'added', 'removed') ? cloud(round) : '',
        has(marks, 'removed') ? `<path ${inked('thin')} d="M${n(x)} ${n(y)}L${n(right)} ${n(bottom)}M${n(x)} ${n(bottom)}L${n(right)} ${n(y)}"/>` : '',
        has(marks, 'turned') ? turnedArrow(x, y) : '',
        has(marks, 'open') ? `<path ${inked('line')} d="${open === 'top' ? `M${n(x + width / 2 - 2)} ${n(y + 2)}l-5 -7M${n(x + width / 2 + 2)} ${n(y + 2)}l5 -7` : `M${n(right - 3)} ${n(y - 1)}l2 -8M${n(right + 1)} ${n(y + 3)}l8 -2`}"/>` : '',
    ].join('');
}

/** A quarter of a turn about the upper left corner, with a head. */
const turnedArrow = (x: number, y: number): string =>
    `<path ${inked('line')} d="M${n(x + 9)} ${n(y - 1)}A9 9 0 0 0 ${n(x)} ${n(y + 8)}"/><polygon ${inked('solid')} points="${points([[x - 3, y + 7], [x + 3, y + 7], [x, y + 12]])}"/>`;

/** Slanted lines across a box, falling or rising to the right. */
function hatched({ x, y, width, height }: Box, way: 1 | -1): string {
    const lines: string[] = [];
    for (let at = 6; at < width + height; at += 6) {
        // From the upper edge or the right one to the left edge or the lower one, mirrored for the other slant.
        const [top, left]: [Point, Point] = [[Math.min(at, width), Math.max(0, at - width)], [Math.max(0, at - height), Math.min(at, height)]];
        const [a, b] = [top, left].map(([dx, dy]) => `${n(way === 1 ? x + dx : x + width - dx)} ${n(y + dy)}`);
        lines.push(`M${a}L${b}`);
    }
    return `<path ${inked('thin')} stroke-opacity="0.55" d="${lines.join('')}"/>`;
}

/** An outline of scallops, as revisions are clouded. */
export function cloud({ x, y, width, height }: Box): string {
    const [right, bottom] = [x + width, y + height];
    const corners: readonly Point[] = [[x, y], [right, y], [right, bottom], [x, bottom], [x, y]];
    const arcs = corners.slice(1).flatMap(([toX, toY], i) => {
        const [fromX, fromY] = corners[i]!;
        const length = Math.abs(toX - fromX) + Math.abs(toY - fromY);
        const count = Math.max(2, Math.round(length / 10));
        const radius = n(Math.max(1, length / count / 1.8));
        return Array.from({ length: count }, (_, k) => `A${radius} ${radius} 0 0 1 ${n(fromX + (toX - fromX) * (k + 1) / count)} ${n(fromY + (toY - fromY) * (k + 1) / count)}`);
    });
    return `<path ${inked('thin')} d="M${n(x)} ${n(y)}${arcs.join('')}Z"/>`;
}

/** What a mark says without words of its own. What is told by shape and line alone says nothing. */
const DEFAULT: Readonly<Partial<Record<Look, string>>> = { turned: 'turned', open: 'open', changed: 'changed', added: 'added', removed: 'removed' };

interface Line {
    readonly mark: Mark;
    readonly text: string;
    readonly width: number;
}

function linesOf(marks: readonly Mark[]): Line[] {
    return marks.flatMap((mark): Line[] => {
        const cased = mark.as === 'number' || mark.as === 'finding';
        const own = DEFAULT[mark.as];
        const text = mark.words === undefined ? own ?? '' : own === undefined || mark.as === 'turned' || mark.as === 'open' || mark.words.startsWith(own) ? mark.words : `${own}: ${mark.words}`;
        if (text === '') return [];
        return [{ mark, text, width: cased ? Math.max(2 * RING, widthOf(text, SIZE, true) + 6) : widthOf(text, SIZE) }];
    });
}

/** How much room the words of marks take above their box. */
export function roomFor(marks: readonly Mark[]): { readonly width: number; readonly height: number } {
    const lines = linesOf(marks);
    return lines.length === 0 ? { width: 0, height: 0 } : { width: Math.max(...lines.map(({ width }) => width)), height: lines.length * LINE + 2 };
}

/** The words of marks, in lines that end above a point and begin at it. */
export function said(marks: readonly Mark[], { x, y }: { readonly x: number; readonly y: number }): string {
    const lines = linesOf(marks);
    return lines.map(({ mark: { as }, text, width }, i) => {
        const base = y - (lines.length - 1 - i) * LINE - 2;
        if (as !== 'number' && as !== 'finding') return words(text, { x, y: base, size: SIZE, ...(as === 'about' && { ink: 'accent-words' as const }) });
        const middle = base - 3.5;
        return `<rect ${inked('outline')} x="${n(x)}" y="${n(middle - RING)}" width="${n(width)}" height="${n(2 * RING)}"${as === 'number' ? ` rx="${RING}"` : ''}/>${words(text, { x: x + width / 2, y: base, size: SIZE, anchor: 'middle', bold: true })}`;
    }).join('');
}

/** For the legend: what each look means. */
export const LOOK_WORDS: Readonly<Record<Look, string>> = {
    live: 'fuel moves', dead: 'nothing moves', suction: 'below the pressure of the air', pressure: 'above the pressure of the air', about: 'what this sheet is about',
    turned: 'valve that is turned', open: 'stands open to the air', number: 'place in the order', finding: 'number of the finding', changed: 'changed', added: 'added', removed: 'removed',
};

/** A sample of a look for the legend, drawn about y = 0 from x = 0, 30 wide. */
export function sampleOf(look: Look): string {
    const mark: Mark = { about: '', as: look, ...((look === 'number' || look === 'finding') && { words: '1' }) };
    if (look === 'number' || look === 'finding') return said([mark], { x: 8, y: 5.5 });
    if (look === 'live' || look === 'dead') return '';
    if (look === 'suction' || look === 'pressure') return `${underline((attributes) => `<path ${attributes} d="M18 0H36"/>`, [mark])}<path ${inked('line')} d="M18 0H36"/>${underlay({ x: 0, y: -4, width: 8, height: 8 }, [mark])}`;
    const box: Box = { x: 10, y: -3, width: 10, height: 6 };
    return underlay(box, [mark]) + shapes(box, [mark]);
}
