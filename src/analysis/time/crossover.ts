/**
 * Two tanks that an open pipe joins, at different levels: how much runs over, and how long it takes. Any shapes, upright or leaned.
 *
 * With v the volume that has run over, the surface of the one falls and that of the other rises, and the head between them drives
 * dv/dt = Q(head) through the pipe. What is left to run, r = end - v, is followed by its logarithm: t = the integral of r / Q over ln r, which stays
 * smooth down to nothing, both where Q goes with the head (laminar) and where it goes with its root.
 */
import type { Id, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import type { Fluid } from '../flow/fluid';
import { flowByHead, type Pipe } from '../flow/pipe';
import { rowOf } from '../flow/row';
import { heightOf, UPRIGHT, type Attitude } from '../tanks/attitude';
import { grossOf, span, surfaceAt } from '../tanks/liquid';
import { levelTanks } from '../tanks/level';
import { partsAfter, partsBefore, passagesOf } from '../topology/paths';
import { lineUpNetwork, type Network, type Positions } from '../topology/network';
import { routes } from '../topology/routes';
import { MOUTHS } from '../air/gravity';
import { barredFor } from './burners';
import type { TimeLack } from './lack';

/** Surfaces as close as this stand level, m: laminar flow comes nearer and nearer, and never ends. */
export const LEVEL = 1e-3;

/** One of the two. */
export interface Side {
    readonly tank: Tank;
    /** m³ in it at first. */
    readonly volume: number;
    /** Where the pipe opens into it. Not stated: the lowest point, so that it is always under. */
    readonly mouth?: Place;
}

export interface Levelling {
    /** Which of the two gives. */
    readonly from: Id;
    /** m³ that run over in all. */
    readonly moved: number;
    /** s until the surfaces are within LEVEL of one another, or the pipe's mouth comes dry. By the pipe alone: filters and fittings make it longer. */
    readonly seconds: number;
    /** m³/s at first. */
    readonly first: number;
    /** m, the height of the surface that gives, at the end. */
    readonly height: number;
    readonly ends: 'level' | 'mouth dry' | 'other full';
}

/**
 * From the tank whose surface stands higher. `k` is the sum of the minor losses of the pipe. Nothing moves, 0 s, where both stand level, or the mouth in
 * the higher is dry. Undefined where a shape, a place that counts, or the pipe is not known.
 */
export function levelling(one: Side, other: Side, pipes: readonly Pipe[], fluid: Fluid, attitude: Attitude = UPRIGHT, k = MOUTHS, within = LEVEL): Levelling | undefined {
    const [a, b] = [surfaceAt(one.tank, one.volume, attitude), surfaceAt(other.tank, other.volume, attitude)];
    if (a === undefined || b === undefined || !(within > 0)) return undefined;
    return a >= b ? run(one, other, pipes, fluid, attitude, k, within) : run(other, one, pipes, fluid, attitude, k, within);
}

function run(from: Side, to: Side, pipes: readonly Pipe[], fluid: Fluid, attitude: Attitude, k: number, within: number): Levelling | undefined {
    const [mouthFrom, mouthTo] = [mouthOf(from, attitude), mouthOf(to, attitude)];
    const gross = grossOf(to.tank)!;
    if (mouthFrom === undefined || mouthTo === undefined) return undefined;
    const [has, held] = [from.volume, to.volume].map((volume, i) => Math.min(Math.max(volume, 0), i === 0 ? grossOf(from.tank)! : gross)) as [number, number];
    const surface = (v: number): number => surfaceAt(from.tank, has - v, attitude)!;
    // Above its surface the other end pours out of the pipe, and is driven by the height of the mouth.
    const head = (v: number): number => surface(v) - Math.max(surfaceAt(to.tank, held + v, attitude)!, mouthTo);
    const most = Math.min(has, gross - held);
    const dry = (v: number): boolean => surface(v) <= mouthFrom;
    const end = last(most, (v) => head(v) > 0 && !dry(v));
    const flow = (v: number): number => flowByHead(pipes, head(v), fluid, k) ?? NaN;
    const result = (moved: number, seconds: number, first: number): Levelling => ({
        from: from.tank.id, moved, seconds, first, height: surface(moved), ends: moved >= most && most < has && head(moved) > within ? 'other full' : head(moved) <= within ? 'level' : 'mouth dry',
    });
    if (head(0) <= 0 || dry(0) || end <= 0) return result(0, 0, 0);
    const first = flow(0);
    if (!(first > 0)) return undefined;
    const near = last(end, (v) => head(v) > within);
    const left = Math.max(end - near, end * LAST);
    if (near <= 0) return result(end, 0, first);
    const steps = { left: MOST_STEPS };
    const rate = (s: number): number => { const r = Math.exp(s); return r / flow(end - r); };
    // What little is left when the mouth comes dry runs at the last flow.
    const rest = end - near < left ? left / flow(end - left) : 0;
    const [low, high] = [Math.log(left), Math.log(end)];
    const seconds = low < high ? integral(rate, low, high, steps) + rest : rest;
    return Number.isFinite(seconds) ? result(end, seconds, first) : undefined;
}

/** The share of what runs over that is not followed step by step. */
const LAST = 1e-9;
/** Halvings of the integral: a few dozen are enough for any tank that is not drawn to a point. */
const MOST_STEPS = 400;

/** Simpson's rule, halved where a half and the whole differ by more than a millionth; once the steps are used up, as it is. */
function integral(of: (x: number) => number, from: number, to: number, steps: { left: number }): number {
    const pieces = 8;
    const width = (to - from) / pieces;
    let sum = 0;
    for (let i = 0; i < pieces; i++) {
        const [a, b] = [from + i * width, from + (i + 1) * width];
        const [fa, fm, fb] = [of(a), of((a + b) / 2), of(b)];
        sum += halved(of, a, b, fa, fm, fb, (width / 6) * (fa + 4 * fm + fb), steps);
    }
    return sum;
}

function halved(of: (x: number) => number, a: number, b: number, fa: number, fm: number, fb: number, whole: number, steps: { left: number }): number {
    const m = (a + b) / 2;
    const [f1, f2] = [of((a + m) / 2), of((m + b) / 2)];
    const [left, right] = [((m - a) / 6) * (fa + 4 * f1 + fm), ((b - m) / 6) * (fm + 4 * f2 + fb)];
    const off = left + right - whole;
    if (!(Math.abs(off) > 1e-6 * Math.abs(left + right)) || steps.left-- <= 0) return left + right + off / 15;
    return halved(of, a, m, fa, f1, fm, left, steps) + halved(of, m, b, fm, f2, fb, right, steps);
}

/** The greatest value up to `most` for which something holds that ceases to hold once. */
function last(most: number, holds: (v: number) => boolean): number {
    if (holds(most)) return most;
    let [low, high] = [0, most];
    for (let i = 0; i < 200 && high - low > 1e-13 * most; i++) { const middle = (low + high) / 2; if (holds(middle)) low = middle; else high = middle; }
    return low;
}

const mouthOf = ({ tank, mouth }: Side, attitude: Attitude): number | undefined => (mouth ? heightOf(mouth, attitude) : span(tank, attitude)?.low);

export interface Crossover {
    readonly tanks: readonly [Tank, Tank];
    /** Where the pipe opens into each. */
    readonly mouths: readonly [Place | undefined, Place | undefined];
    readonly pipes: readonly Pipe[];
    /** The parts of the line, from the first to the second. */
    readonly parts: readonly Id[];
    readonly lacks: readonly TimeLack[];
}

/** The pairs of tanks that a single open line joins, with the valves so; on no consumer's supply or return. `line` is lacking where it is more than one: legs side by side. */
export function crossovers(network: Network, positions: Positions): readonly Crossover[] {
    const atRest = lineUpNetwork(network, positions);
    const groups = levelTanks(network, positions);
    const { tanks } = network.boat;
    const barred = new Set([...barredFor(network).any, ...passagesOf(network, [...network.consumers.keys()].flatMap((id) => [...partsBefore(atRest, `${id}:in`), ...partsAfter(atRest, `${id}:out`)]))]);
    return tanks.flatMap((one, i) => tanks.slice(i + 1).flatMap((other) => {
        if (!groups.some((group) => group.includes(one.id) && group.includes(other.id))) return [];
        const [a, b] = [network.tanks.get(one.id)!, network.tanks.get(other.id)!];
        const on = routes(atRest, [a], [b], barred);
        if (on.size === 0) return [];
        const parts = [...new Set([...on].flatMap((passage) => network.passages[passage]!.part ?? []))];
        const points = new Set([...on].flatMap((passage) => [network.passages[passage]!.from, network.passages[passage]!.to]));
        const mouthIn = (tank: Tank): Place | undefined => tank.fittings.find(({ id }) => parts.includes(id))?.mouth;
        const { pipes, lacks } = rowOf(network, parts);
        const single = points.size === on.size + 1;
        return [{ tanks: [one, other] as const, mouths: [mouthIn(one), mouthIn(other)] as const, pipes, parts, lacks: [...lacks, ...(single ? [] : [{ about: one.id, of: 'line' } as const])] }];
    }));
}
