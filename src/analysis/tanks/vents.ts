/** At what heel the sea reaches an opening. */
import type { Place } from '../../model/measure';

/** The heel at which a place goes under, rad, positive with starboard down; `never` when it lies on the centreline, above the waterline. */
export type Immersion = number | 'never';

/**
 * The boat is taken to heel about the centreline at her waterline: a place at height z and y off the centreline, on the side that goes
 * down, reaches the water at tan φ = (z - z of the waterline) / y. On the other side it rises. What stands below the waterline is under at
 * any heel: 0. Trim, sinkage and waves are left out: they need more of the hull than is known here. Undefined when a height, or
 * the place across the boat, is not known.
 */
export function immersedAt(place: Place | undefined, waterline: Place | undefined): Immersion | undefined {
    if (!place?.up || !waterline?.up) return undefined;
    const above = place.up.si - waterline.up.si;
    if (above <= 0) return 0;
    if (!place.stbd) return undefined;
    const off = place.stbd.si;
    return off === 0 ? 'never' : Math.sign(off) * Math.atan(above / Math.abs(off));
}
