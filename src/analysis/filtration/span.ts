/** How far off a figure could be. */
import type { Measure } from '../../model/measure';

/** The likely figure, and the least and the most that it could be. */
export interface Span {
    readonly si: number;
    readonly low: number;
    readonly high: number;
}

/** `about` is 10 % either way, common practice; a range is its ends. */
export function spanOf({ si, low, high, about }: Measure): Span {
    const off = about && low === undefined && high === undefined ? 0.1 * Math.abs(si) : 0;
    return { si, low: (low ?? si) - off, high: (high ?? si) + off };
}
