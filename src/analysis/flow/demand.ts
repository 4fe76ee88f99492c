/**
 * What a consumer draws, burns and returns at a speed of its engine, m³/s.
 *
 * Between two stated points a curve runs straight. A feed pump moves in proportion to its speed, so what is drawn is carried on so beyond the stated
 * points: as a best guess, between what the next stated point gives and what the proportion gives. What is burnt depends on the load, so
 * beyond its points it is not told. A consumer draws no less than it burns, and returns the rest.
 */
import type { Consumer } from '../../model/boat';
import type { CurvePoint, Measure } from '../../model/measure';
import { estimateOf, floored, minus, sound, type Estimate } from '../estimate';

export interface Demand {
    /** rev/s. */
    readonly speed: number;
    /** The gross flow. Undefined without a stated curve: it is then no less than what is burnt, and nobody knows how much more. */
    readonly draws?: Estimate;
    /** Undefined outside the stated points. */
    readonly burns?: Estimate;
    /** draws - burns; undefined unless both are known. */
    readonly returns?: Estimate;
    /** What is drawn is carried on beyond the stated points. */
    readonly carriedOn?: true;
}

/** The fastest speed of either curve, rev/s: what is called full. Undefined without a curve. */
export function fullSpeed({ draws, burns }: Pick<Consumer, 'draws' | 'burns'>): number | undefined {
    return [...knots(draws), ...knots(burns)].reduce<number | undefined>((most, { speed }) => (most === undefined || speed > most ? speed : most), undefined);
}

/** At a speed in rev/s, or at `full`. Undefined without a curve at full, or for a speed that is none. */
export function demandAt(consumer: Pick<Consumer, 'draws' | 'burns'>, at: number | 'full'): Demand | undefined {
    const speed = at === 'full' ? fullSpeed(consumer) : at;
    if (speed === undefined || !(speed > 0) || !Number.isFinite(speed)) return undefined;
    const burns = within(knots(consumer.burns), speed);
    const drawn = within(knots(consumer.draws), speed) ?? carriedOn(knots(consumer.draws), speed);
    const draws = drawn && { si: Math.max(drawn.si, burns?.si ?? 0), least: Math.max(drawn.least, burns?.least ?? 0), most: Math.max(drawn.most, burns?.most ?? 0) };
    const returns = draws && burns && floored(minus(draws, burns));
    return { speed, ...(draws && { draws }), ...(burns && { burns }), ...(returns && { returns }), ...(draws && !within(knots(consumer.draws), speed) && { carriedOn: true }) };
}

/** What a consumer draws at most at any speed, m³/s: at least what is stated or burnt, at most as much more as its speed goes beyond the stated curve. */
export interface Gross {
    readonly least: number;
    readonly most?: number;
}

const upper = (measure: Measure): number => measure.high ?? measure.si;
const greatest = (curve: readonly CurvePoint[]): number => Math.max(0, ...curve.map(({ value }) => upper(value)));

export function grossFlow(consumer: Pick<Consumer, 'draws' | 'burns'>): Gross {
    const least = Math.max(greatest(consumer.draws), greatest(consumer.burns));
    const most = demandAt(consumer, 'full')?.draws?.most;
    return most === undefined ? { least } : { least, most: Math.max(least, most) };
}

export interface Knot {
    readonly speed: number;
    readonly value: Estimate;
}

/** The points in order of speed, each speed once: of two figures for one speed either may be true. What is no flow at a speed is left out. */
export function knots(curve: readonly CurvePoint[]): readonly Knot[] {
    const found = new Map<number, Estimate>();
    for (const { value, at } of curve) {
        const estimate = sound(estimateOf(value));
        if (!estimate || estimate.least < 0 || !(at.si > 0) || !Number.isFinite(at.si)) continue;
        const other = found.get(at.si);
        const [least, most] = [Math.min(estimate.least, other?.least ?? estimate.least), Math.max(estimate.most, other?.most ?? estimate.most)];
        found.set(at.si, other ? { si: (least + most) / 2, least, most } : estimate);
    }
    return [...found].map(([speed, value]) => ({ speed, value })).sort((a, b) => a.speed - b.speed);
}

/** Speeds as near as this are one: 2400 rpm written twice, by different roundings. */
const SAME = 1e-9;

function within(curve: readonly Knot[], speed: number): Estimate | undefined {
    const exact = curve.find((knot) => Math.abs(knot.speed - speed) <= SAME * speed);
    if (exact) return exact.value;
    const next = curve.findIndex((knot) => knot.speed > speed);
    if (next <= 0) return undefined;
    const [a, b] = [curve[next - 1]!, curve[next]!];
    const share = (speed - a.speed) / (b.speed - a.speed);
    const between = (of: keyof Estimate): number => a.value[of] + share * (b.value[of] - a.value[of]);
    return { si: between('si'), least: between('least'), most: between('most') };
}

/** In proportion to the speed from the nearest stated point: beyond the last at least what that gives, below the first at most. */
function carriedOn(curve: readonly Knot[], speed: number): Estimate | undefined {
    const [first, last] = [curve[0], curve.at(-1)];
    if (!first || !last) return undefined;
    const end = speed > last.speed ? last : first;
    const by = speed / end.speed;
    return sound({ si: end.value.si * by, least: by > 1 ? end.value.least : 0, most: by > 1 ? end.value.most * by : end.value.most });
}
