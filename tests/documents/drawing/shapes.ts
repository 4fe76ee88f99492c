/** What an SVG file draws, as points on the sheet: read from the file alone, with every transform applied. Only what our drawings use is known; the rest throws. */
import { elements, type Element } from './xml';

export type Point = readonly [x: number, y: number];
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export interface Shape {
    readonly element: Element;
    readonly matrix: Matrix;
    /** Each stroke or outline as a row of points; curves in small steps. */
    readonly strokes: readonly (readonly Point[])[];
    /** Black, or in the one colour, as against white or nothing. */
    readonly filled: boolean;
}

const UNIT: Matrix = [1, 0, 0, 1, 0, 0];
const times = ([a, b, c, d, e, f]: Matrix, [g, h, i, j, k, l]: Matrix): Matrix => [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
export const apply = ([a, b, c, d, e, f]: Matrix, [x, y]: Point): Point => [a * x + c * y + e, b * x + d * y + f];

const matrices = new WeakMap<Element, Matrix>();

/** Of the element's own transform and all above it. */
export function matrixOf(element: Element): Matrix {
    const known = matrices.get(element) ?? reckoned(element);
    matrices.set(element, known);
    return known;
}

function reckoned(element: Element): Matrix {
    const outer = element.parent ? matrixOf(element.parent) : UNIT;
    let own: Matrix = UNIT;
    for (const [, kind, args] of (element.attributes.get('transform') ?? '').matchAll(/(\w+)\(([^)]*)\)/g)) {
        const [x = NaN, y, z] = args!.trim().split(/[\s,]+/).map(Number);
        if (kind === 'translate') own = times(own, [1, 0, 0, 1, x, y ?? 0]);
        else if (kind === 'scale') own = times(own, [x, 0, 0, y ?? x, 0, 0]);
        else if (kind === 'rotate') {
            const [sin, cos] = [Math.sin(x * Math.PI / 180), Math.cos(x * Math.PI / 180)];
            own = times(times(times(own, [1, 0, 0, 1, y ?? 0, z ?? 0]), [cos, sin, -sin, cos, 0, 0]), [1, 0, 0, 1, -(y ?? 0), -(z ?? 0)]);
        } else throw new Error(`transform ${kind} is not known`);
    }
    return times(outer, own);
}

const number = (element: Element, name: string): number => Number(element.attributes.get(name) ?? 0);

export function strokesOf(element: Element): Point[][] {
    switch (element.name) {
        case 'path': return pathPoints(element.attributes.get('d') ?? '');
        case 'polygon': { const all = pairs(element.attributes.get('points') ?? ''); return [[...all, all[0]!]]; }
        case 'rect': { const [x, y, w, h] = ['x', 'y', 'width', 'height'].map((name) => number(element, name)) as [number, number, number, number]; return [[[x, y], [x + w, y], [x + w, y + h], [x, y + h], [x, y]]]; }
        case 'circle': { const [x, y, r] = ['cx', 'cy', 'r'].map((name) => number(element, name)) as [number, number, number]; return [Array.from({ length: 25 }, (_, i): Point => [x + r * Math.cos(i / 12 * Math.PI), y + r * Math.sin(i / 12 * Math.PI)])]; }
        default: return [];
    }
}

const pairs = (text: string): Point[] => text.trim().split(/\s+/).map((pair) => pair.split(',').map(Number) as [number, number]);

function pathPoints(d: string): Point[][] {
    const strokes: Point[][] = [];
    let at: Point = [0, 0];
    let control: Point | undefined;
    for (const [, command, args] of d.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
        const values = (args!.match(/-?\d*\.?\d+/g) ?? []).map(Number);
        const own = strokes.at(-1)!;
        const relative = command === command!.toLowerCase();
        const next = (i: number): Point => [values[i]! + (relative ? at[0] : 0), values[i + 1]! + (relative ? at[1] : 0)];
        const curve = (c: Point, to: Point): void => { for (let i = 1; i <= 6; i++) { const t = i / 6; own.push([(1 - t) ** 2 * at[0] + 2 * t * (1 - t) * c[0] + t * t * to[0], (1 - t) ** 2 * at[1] + 2 * t * (1 - t) * c[1] + t * t * to[1]]); } control = c; at = to; };
        switch (command!.toUpperCase()) {
            case 'M': at = next(0); strokes.push([at]); for (let i = 2; i < values.length; i += 2) { at = next(i); strokes.at(-1)!.push(at); } break;
            case 'L': for (let i = 0; i < values.length; i += 2) { at = next(i); own.push(at); } break;
            case 'H': at = [values[0]! + (relative ? at[0] : 0), at[1]]; own.push(at); break;
            case 'V': at = [at[0], values[0]! + (relative ? at[1] : 0)]; own.push(at); break;
            case 'Q': curve(next(0), next(2)); continue;
            case 'T': curve(control ? [2 * at[0] - control[0], 2 * at[1] - control[1]] : at, next(0)); continue;
            // An arc is taken for its chord: none of ours is longer than a letter.
            case 'A': at = next(5); own.push(at); break;
            case 'Z': own.push(own[0]!); at = own[0]!; break;
            default: throw new Error(`path command ${command} is not known`);
        }
        control = undefined;
    }
    return strokes;
}

export function shapesOf(root: Element): Shape[] {
    return [...elements(root)].flatMap((element): Shape[] => {
        const strokes = strokesOf(element);
        if (strokes.length === 0) return [];
        const matrix = matrixOf(element);
        const fill = element.attributes.get('fill');
        return [{ element, matrix, strokes: strokes.map((stroke) => stroke.map((point) => apply(matrix, point))), filled: fill !== undefined && fill !== 'none' && fill !== '#fff' }];
    });
}

export interface Box { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }

export const boxOf = (points: readonly Point[]): Box => ({ left: Math.min(...points.map(([x]) => x)), right: Math.max(...points.map(([x]) => x)), top: Math.min(...points.map(([, y]) => y)), bottom: Math.max(...points.map(([, y]) => y)) });
