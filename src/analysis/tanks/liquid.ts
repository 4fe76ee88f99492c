/**
 * How much of a tank lies below a level plane, and where the surface of so much stands. Exact for every mesh: with d the height of
 * a point over the plane, the field (0, 0, min(d, 0)) along the leaned vertical has the divergence 1 below the plane and 0 above
 * it, so the volume below is the sum over the triangles of (area as seen from above) x (mean of min(d, 0)). The surface itself
 * adds nothing, since d is 0 there. Error: that of the arithmetic, some 1e-12 of the gross volume.
 *
 * All of the liquid has one surface: where a hump parts a tank in two, or a baffle lets nothing through, each side would have its own.
 */
import type { Tank } from '../../model/boat';
import { dot, vertical, type Attitude } from './attitude';
import { facing, meshOf, type Mesh } from './mesh';

/** m³, the whole inside. */
export const grossOf = (tank: Tank): number | undefined => meshOf(tank)?.gross;

/** The lowest and the highest point of the inside, heights in m. Undefined if the shape, or a place that counts here, is not known. */
export function span(tank: Tank, attitude: Attitude): { readonly low: number; readonly high: number } | undefined {
    const mesh = placed(tank, attitude);
    return mesh && leaned(mesh, attitude);
}

/** m³ of the tank that lie below a height; undefined as for `span`. */
export function volumeBelow(tank: Tank, height: number, attitude: Attitude): number | undefined {
    const mesh = placed(tank, attitude);
    return mesh && Number.isFinite(height) ? below(mesh, height, attitude) : undefined;
}

/**
 * The height of the free surface of a volume (m³), m; undefined as for `span`. Nothing stands at the lowest point of the tank, and more than
 * it holds at the highest. To 1e-12 of the span where the tank is not drawn to a point.
 */
export function surfaceAt(tank: Tank, volume: number, attitude: Attitude): number | undefined {
    const mesh = placed(tank, attitude);
    if (!mesh || Number.isNaN(volume)) return undefined;
    const { low, high } = leaned(mesh, attitude);
    if (volume <= 0) return low;
    if (volume >= mesh.gross) return high;
    return crossing((height) => below(mesh, height, attitude) - volume, { low, high, atLow: -volume, atHigh: mesh.gross - volume });
}

/** Where a growing function is nought, to 1e-12 of the span: false position, halved where one end stays (the Illinois rule), and plain halving where that stalls. */
function crossing(of: (x: number) => number, { low, high, atLow, atHigh }: { low: number; high: number; atLow: number; atHigh: number }): number {
    const enough = (high - low) * 1e-12;
    for (let stayed = 0, turn = 0; high - low > enough; turn++) {
        const middle = turn % 4 === 3 ? (low + high) / 2 : high - (atHigh * (high - low)) / (atHigh - atLow);
        if (!(middle > low && middle < high)) return middle <= low ? low : high;
        const value = of(middle);
        if (value === 0) return middle;
        if (value < 0) { low = middle; atLow = value; if (stayed < 0) atHigh /= 2; stayed = -1; } else { high = middle; atHigh = value; if (stayed > 0) atLow /= 2; stayed = 1; }
    }
    return (low + high) / 2;
}

/** The same in the coordinates of the mesh, wherever it stands in the boat. */
export function below(mesh: Mesh, height: number, attitude: Attitude): number {
    const { heights, areas, low, high } = leaned(mesh, attitude);
    if (height <= low) return 0;
    if (height >= high) return mesh.gross;
    let sum = 0;
    // Asked thousands of times while somebody types.
    for (let i = 0; i < mesh.triangles.length; i++) {
        const [a, b, c] = mesh.triangles[i]!;
        sum += areas[i]! * meanBelow(heights[a]! - height, heights[b]! - height, heights[c]! - height);
    }
    return Math.min(Math.max(sum, 0), mesh.gross);
}

/** The mean of min(d, 0) over a triangle, d being linear between its corners. */
function meanBelow(one: number, two: number, three: number): number {
    const whole = (one + two + three) / 3;
    const [a, c] = [Math.min(one, two, three), Math.max(one, two, three)];
    if (c <= 0) return whole;
    if (a >= 0) return 0;
    const b = one + two + three - a - c;
    // One corner is below: of the triangle cut off there the sides are these shares of the whole sides, and the mean is a third of a.
    if (b >= 0) return (a / (a - b)) * (a / (a - c)) * a / 3;
    // One corner is above: the whole, less the triangle cut off there.
    return whole - (c / (c - a)) * (c / (c - b)) * c / 3;
}

interface Leaned {
    readonly heights: readonly number[];
    /** Of the triangles, as seen along the leaned vertical, m². */
    readonly areas: readonly number[];
    readonly low: number;
    readonly high: number;
}

/** The latest attitude of each mesh: a search for a surface asks dozens of times for the same. */
const latest = new WeakMap<Mesh, { readonly attitude: Attitude; readonly leaned: Leaned }>();

function leaned(mesh: Mesh, attitude: Attitude): Leaned {
    const known = latest.get(mesh);
    if (known && known.attitude.heel === attitude.heel && known.attitude.trim === attitude.trim) return known.leaned;
    const up = vertical(attitude);
    const heights = mesh.points.map((point) => dot(point, up));
    const areas = mesh.triangles.map(([a, b, c]) => facing(mesh.points[a]!, mesh.points[b]!, mesh.points[c]!, up));
    const found = { heights, areas, low: Math.min(...heights), high: Math.max(...heights) };
    latest.set(mesh, { attitude, leaned: found });
    return found;
}

/** The mesh, when heights in the boat can be told from it at this attitude. */
function placed(tank: Tank, { heel, trim }: Attitude): Mesh | undefined {
    const mesh = meshOf(tank);
    return mesh?.known.up && (heel === 0 || mesh.known.stbd) && (trim === 0 || mesh.known.fwd) && Number.isFinite(heel) && Number.isFinite(trim) ? mesh : undefined;
}
