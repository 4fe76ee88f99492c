/** Sounding tables: what the tank holds at each dip, upright and leaned. */
import type { Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import { dot, UPRIGHT, vertical, type Attitude, type Vector } from './attitude';
import { below } from './liquid';
import { facing, meshOf, type Mesh, type Shape } from './mesh';

/** Where the dip is taken, m. */
export interface DipPlace {
    readonly fwd: number;
    readonly stbd: number;
}

export interface Soundings {
    readonly attitudes: readonly Attitude[];
    /** The dip in m along the boat's own vertical from the bottom there, and the volume in m³ at each attitude. */
    readonly rows: readonly { readonly dip: number; readonly volumes: readonly number[] }[];
}

/** A table longer than this is a slip of the step. */
const MOST_ROWS = 10_000;

/**
 * Volumes at each `step` (m) of dip, from an empty dipstick to the top of the tank there. `at` is the centre of the tank unless it is stated.
 * The height of the tank above the datum does not count; nor does its place along and across the boat, when `at` is not stated.
 * Undefined when the shape is not known, or `at` lies outside it.
 */
export function soundings(tank: Tank, step: number, attitudes: readonly Attitude[] = [UPRIGHT], at?: DipPlace): Soundings | undefined {
    const mesh = meshOf(tank);
    if (!mesh || !(step > 0) || (at && !(mesh.known.fwd && mesh.known.stbd))) return undefined;
    const place = at ?? centre(mesh);
    const reach = along(mesh, place);
    if (!reach || (reach.top - reach.bottom) / step > MOST_ROWS) return undefined;
    const depth = reach.top - reach.bottom;
    // The last step may fall short of the top; the top is always told.
    const whole = Math.floor(depth / step * (1 + 1e-12));
    const dips = Array.from({ length: whole + 1 }, (_, i) => i * step);
    if (depth - whole * step > 1e-9) dips.push(depth);
    return {
        attitudes,
        rows: dips.map((dip) => ({
            dip, volumes: attitudes.map((attitude) => below(mesh, dot([place.fwd, place.stbd, reach.bottom + dip], vertical(attitude)), attitude)),
        })),
    };
}

/**
 * The height of the bottom under a place, m: from there a pipe is measured as so much `off bottom`. Undefined when the height of the tank is not
 * known, or for one that is no box where the place along and across is not known or is outside it.
 */
export function bottomUnder(tank: Shape, { fwd, stbd }: Place): number | undefined {
    const mesh = meshOf(tank);
    if (!mesh?.known.up) return undefined;
    if (tank.box) return Math.min(...mesh.points.map(([, , up]) => up));
    return fwd && stbd && along(mesh, { fwd: fwd.si, stbd: stbd.si })?.bottom;
}

/**
 * The height of the surface, m, when the dipstick is wet to `dip` (m) upright, in the centre of the tank unless `at` is stated. Undefined when the height of
 * the tank is not known, when `at` is outside it, or for a dip that the tank cannot have.
 */
export function dippedSurface(tank: Shape, dip: number, at?: DipPlace): number | undefined {
    const mesh = meshOf(tank);
    if (!mesh?.known.up || (at && !(mesh.known.fwd && mesh.known.stbd))) return undefined;
    const reach = along(mesh, at ?? centre(mesh));
    return reach && dip >= 0 && dip <= (reach.top - reach.bottom) * (1 + 1e-9) ? reach.bottom + dip : undefined;
}

/** Midway between the ends, and midway between the sides. */
function centre({ points }: Mesh): DipPlace {
    const middle = (axis: 0 | 1): number => (Math.min(...points.map((point) => point[axis])) + Math.max(...points.map((point) => point[axis]))) / 2;
    return { fwd: middle(0), stbd: middle(1) };
}

const UP = vertical(UPRIGHT);

/** Where a dipstick enters and ends: the highest and the lowest point of the inside on the vertical through a place. */
function along({ points, triangles }: Mesh, { fwd, stbd }: DipPlace): { readonly bottom: number; readonly top: number } | undefined {
    const heights = triangles.flatMap(([a, b, c]) => {
        const [p, q, r] = [points[a]!, points[b]!, points[c]!];
        const here: Vector = [fwd, stbd, 0];
        const area = facing(p, q, r, UP);
        if (area === 0) return [];
        const shares = [facing(here, q, r, UP), facing(p, here, r, UP), facing(p, q, here, UP)].map((part) => part / area);
        return shares.some((share) => share < -1e-9) ? [] : [shares[0]! * p[2] + shares[1]! * q[2] + shares[2]! * r[2]];
    });
    return heights.length === 0 ? undefined : { bottom: Math.min(...heights), top: Math.max(...heights) };
}
