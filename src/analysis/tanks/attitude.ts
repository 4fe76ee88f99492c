/** How the boat lies, and how high a point then stands. */
import type { Envelope } from '../../model/boat';
import type { Place } from '../../model/measure';

/** Heel positive with starboard down, trim positive with bow up; rad. */
export interface Attitude {
    readonly heel: number;
    readonly trim: number;
}

export const UPRIGHT: Attitude = { heel: 0, trim: 0 };

/** The corners of the envelope: both tacks, bow up and down. */
export function corners(envelope: Envelope): readonly Attitude[] {
    const [heel, trim] = [envelope.heel?.high ?? envelope.heel?.si ?? 0, envelope.trim?.high ?? envelope.trim?.si ?? 0];
    return [UPRIGHT, ...[-heel, heel].flatMap((h) => [-trim, trim].map((t) => ({ heel: h, trim: t })))];
}

/** A point or a direction in the boat: forward, to starboard, up; m. */
export type Vector = readonly [fwd: number, stbd: number, up: number];

/**
 * The leaned vertical as the boat sees it. z' = z cos φ - y sin φ, then z'' = z' cos θ + x sin θ, so that the height of
 * a point is its product with this unit vector.
 */
export const vertical = ({ heel, trim }: Attitude): Vector => [Math.sin(trim), -Math.sin(heel) * Math.cos(trim), Math.cos(heel) * Math.cos(trim)];

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Height of a point, m. Undefined when the boat leans and the place across or along it is not known. */
export function heightOf(place: Place | undefined, attitude: Attitude): number | undefined {
    if (place?.up === undefined) return undefined;
    if ((attitude.heel !== 0 && !place.stbd) || (attitude.trim !== 0 && !place.fwd)) return undefined;
    return dot(vertical(attitude), [place.fwd?.si ?? 0, place.stbd?.si ?? 0, place.up.si]);
}
