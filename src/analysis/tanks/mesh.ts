/** The inside of a tank as one closed mesh of triangles, whatever its shape: everything that asks for volumes and heights reads this. */
import type { Box, Section, Tank } from '../../model/boat';
import { dot, UPRIGHT, vertical, type Vector } from './attitude';

export interface Mesh {
    /** In the boat's coordinates; along an axis on which the place of the tank is not known they count from the tank itself. */
    readonly points: readonly Vector[];
    /** Indices into `points`, outward oriented: the product of the first two edges points out. */
    readonly triangles: readonly (readonly [number, number, number])[];
    /** Whether the place of the tank is known along each axis. */
    readonly known: { readonly fwd: boolean; readonly stbd: boolean; readonly up: boolean };
    /** m³ */
    readonly gross: number;
}

/** Less than a drop is no tank, m³: sections in one plane, or corners in one line. */
const NOTHING = 1e-9;

/** What a tank's inside is read from. */
export type Shape = Pick<Tank, 'box' | 'sections'>;

const meshes = new WeakMap<Shape, Mesh | undefined>();

/** Undefined when the shape is not stated, or holds nothing. */
export function meshOf(tank: Shape): Mesh | undefined {
    if (!meshes.has(tank)) meshes.set(tank, tank.box ? boxed(tank.box) : tank.sections && sectioned(tank.sections, { fwd: true, stbd: true, up: true }));
    return meshes.get(tank);
}

/** A box is two sections, its after end and its forward one. */
function boxed({ length, breadth, height, corner: { fwd, stbd, up }, outboard }: Box): Mesh | undefined {
    const [x, y, z] = [fwd?.si ?? 0, stbd?.si ?? 0, up?.si ?? 0];
    const corners = [[z, y], [z, y + outboard * breadth], [z + height, y + outboard * breadth], [z + height, y]].map(([high, across]) => ({ up: high!, stbd: across! }));
    return sectioned([{ fwd: x, corners }, { fwd: x + length, corners }], { fwd: fwd !== undefined, stbd: stbd !== undefined, up: up !== undefined });
}

/**
 * Flat ends, and straight lines from corner to corner between the sections. Where the four corners of a side are not in one plane, the
 * side is four triangles about their mean. What such a side encloses is exactly what the surface of straight lines between the two
 * edges encloses: under z = huv over the unit square both are h/4, and any such side is that one, sheared.
 */
function sectioned(sections: readonly Section[], known: Mesh['known']): Mesh | undefined {
    const count = sections[0]?.corners.length ?? 0;
    if (sections.length < 2 || count < 3 || sections.some(({ corners }) => corners.length !== count)) return undefined;
    const points: Vector[] = sections.flatMap(({ fwd, corners }) => corners.map(({ up, stbd }): Vector => [fwd, stbd, up]));
    if (!points.flat().every(Number.isFinite)) return undefined;
    const triangles: [number, number, number][] = [];
    // A fan about one corner. In a hollow end some of its triangles lie outside, and count as much against as they count for.
    const last = points.length - count;
    for (let i = 1; i + 1 < count; i++) triangles.push([0, i, i + 1], [last, last + i + 1, last + i]);
    for (let aft = 0; aft < last; aft += count) {
        for (let i = 0; i < count; i++) {
            const next = (i + 1) % count;
            const round = [aft + i, aft + count + i, aft + count + next, aft + next];
            const middle = points.push(mean(round.map((at) => points[at]!))) - 1;
            round.forEach((at, k) => triangles.push([at, round[(k + 1) % 4]!, middle]));
        }
    }
    const gross = enclosed(points, triangles);
    if (!(Math.abs(gross) > NOTHING)) return undefined;
    // The corners of a section may go round either way, and the sections from aft or from forward.
    const outward = gross > 0 ? triangles : triangles.map(([a, b, c]) => [a, c, b] as const);
    return { points, triangles: outward, known, gross: Math.abs(gross) };
}

const mean = (points: readonly Vector[]): Vector => {
    const [x, y, z] = points.reduce(([a, b, c], [p, q, r]) => [a + p, b + q, c + r]);
    return [x / points.length, y / points.length, z / points.length];
};

/** By the divergence theorem, with the height as the field; from the first point, so that nothing cancels far from the datum. */
function enclosed(points: readonly Vector[], triangles: Mesh['triangles']): number {
    const up = vertical(UPRIGHT);
    const base = points[0]![2];
    return triangles.reduce((sum, [a, b, c]) => sum + facing(points[a]!, points[b]!, points[c]!, up) * (points[a]![2] + points[b]![2] + points[c]![2] - 3 * base) / 3, 0);
}

/** The area of a triangle as seen along a direction, m²: positive where it faces that way. */
export function facing(a: Vector, b: Vector, c: Vector, along: Vector): number {
    const [p, q, r] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const [s, t, u] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
    return dot([q * u - r * t, r * s - p * u, p * t - q * s], along) / 2;
}
