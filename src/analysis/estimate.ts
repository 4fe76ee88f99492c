/** A figure and how far off it may be: between the least and the most it lies for certain, if what was stated is true. */
import type { Measure } from '../model/measure';

export interface Estimate {
    readonly si: number;
    readonly least: number;
    readonly most: number;
}

/** What is written with `about` is taken as a tenth either way. Common practice, no source. */
export const ABOUT = 0.1;

export const exactly = (si: number): Estimate => ({ si, least: si, most: si });

/** A range is believed as written. Not for temperatures, of which a tenth means nothing. */
export function estimateOf({ si, low, high, about }: Measure): Estimate {
    const off = about ? ABOUT * Math.abs(si) : 0;
    return { si, least: (low ?? si) - off, most: (high ?? si) + off };
}

export const least = (measure: Measure): number => estimateOf(measure).least;
export const most = (measure: Measure): number => estimateOf(measure).most;

/** Undefined unless all of it is a number and in order. */
export const sound = (estimate: Estimate | undefined): Estimate | undefined =>
    (estimate && [estimate.si, estimate.least, estimate.most].every(Number.isFinite) && estimate.least <= estimate.si && estimate.si <= estimate.most ? estimate : undefined);

export const plus = (a: Estimate, b: Estimate): Estimate => ({ si: a.si + b.si, least: a.least + b.least, most: a.most + b.most });
export const minus = (a: Estimate, b: Estimate): Estimate => ({ si: a.si - b.si, least: a.least - b.most, most: a.most - b.least });
export const scaled = (a: Estimate, by: number): Estimate => (by < 0 ? { si: a.si * by, least: a.most * by, most: a.least * by } : { si: a.si * by, least: a.least * by, most: a.most * by });
/** Of figures that are not below nothing. */
export const times = (a: Estimate, b: Estimate): Estimate => ({ si: a.si * b.si, least: a.least * b.least, most: a.most * b.most });
/** Of figures that are not below nothing; undefined where the divisor may be nothing, for then it has no bound. */
export const over = (a: Estimate, b: Estimate): Estimate | undefined => (sound(a) && sound(b) && b.least > 0 ? sound({ si: a.si / b.si, least: a.least / b.most, most: a.most / b.least }) : undefined);
/** Nothing below nought. */
export const floored = ({ si, least, most }: Estimate): Estimate => ({ si: Math.max(0, si), least: Math.max(0, least), most: Math.max(0, most) });
export const sum = (all: readonly Estimate[]): Estimate => all.reduce(plus, exactly(0));
