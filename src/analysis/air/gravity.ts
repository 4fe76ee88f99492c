/** How long a tank takes to fill a line by its own height. */
import type { Fluid } from '../flow/fluid';
import { flowByHead, type Pipe } from '../flow/pipe';
import { secondsToFlush } from './strokes';

/** Filters and fittings on the way slow it down so much: the trade's rule, no published source. */
export const FITTINGS = 3;

/** One velocity head at the open end, and half of one where the liquid enters: the textbooks' values for a sharp edge. */
export const MOUTHS = 1.5;

/**
 * Seconds in which a head (m) flushes a volume (m³) through a row of pipes that is full all the while, by the pipes alone and with
 * filters and fittings. While the line is still partly empty less of it is rubbed along, so it is no faster than is told for the pipes.
 * Undefined where no head is left or the pipes are not known.
 */
export function secondsByGravity(volume: number, pipes: readonly Pipe[], head: number, fluid: Fluid): { readonly pipes: number; readonly fittings: number } | undefined {
    const rate = flowByHead(pipes, head, fluid, MOUTHS);
    if (rate === undefined || rate <= 0) return undefined;
    return { pipes: secondsToFlush(volume, rate), fittings: secondsToFlush(FITTINGS * volume, rate) };
}
