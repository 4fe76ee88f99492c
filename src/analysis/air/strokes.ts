/** What strokes of a hand pump and seconds of a running one do with air. */
import type { Part } from '../../model/boat';
import type { Driver } from '../../model/step';

/** 25 % more than the volume, to flush; a hand pump moves 80 % of its stroke: the trade's rule, no published source. */
export const FLUSH = 1.25;
export const EFFICIENCY = 0.8;

/** N = ⌈1.25 V / (0.8 s)⌉, and at least one: strokes of s m³ that clear V m³. */
export const strokesToFlush = (volume: number, stroke: number): number => counted(FLUSH * volume / (EFFICIENCY * stroke));

/** ⌈1.25 V / Q⌉, and at least one: seconds in which a flow of Q m³/s clears V m³. */
export const secondsToFlush = (volume: number, rate: number): number => counted(FLUSH * volume / rate);

const counted = (count: number): number => Math.max(1, Math.ceil(count - 1e-9));

/** One full stroke a second: common practice. */
const STROKES_PER_SECOND = 1;

/** What a pump moves, m³/s; undefined where its flow or its stroke is not known. */
export const rateOf = (pump: Part | undefined, by: Driver['by']): number | undefined => (by === 'electric' ? pump?.rate?.si : pump?.stroke && pump.stroke.si * STROKES_PER_SECOND);

/** Standard atmosphere at sea level, Pa. */
export const ATMOSPHERE = 101325;

/**
 * Strokes of s m³ that thin V m³ of air until its pressure has fallen by `drop` Pa: Boyle, n = ln(p0 / (p0 - Δp)) / ln(1 + s/V). The air
 * is taken to keep its volume and the pump to waste none, so it is a bound on neither side. Undefined where no such vacuum can be.
 */
export function strokesToLift(volume: number, stroke: number, drop: number, ambient = ATMOSPHERE): number | undefined {
    if (!(stroke > 0) || !(volume >= 0) || !(drop < ambient)) return undefined;
    return drop <= 0 || volume === 0 ? 0 : Math.log(ambient / (ambient - drop)) / Math.log(1 + stroke / volume);
}

/** The volume of a given air at another absolute pressure, at the same temperature: p1 V1 = p2 V2. Undefined at no pressure. */
export const airAt = (volume: number, from: number, to: number): number | undefined => (to > 0 ? volume * from / to : undefined);
