/** Where liquid can stand over a place: bounds, never guesses. */
import type { Boat, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import { corners, heightOf, UPRIGHT } from './attitude';
import { grossOf, span, surfaceAt } from './liquid';

/**
 * Height of the upright free surface at a level given as a fraction of the gross volume, m. To the nanometre: a surface that stands by its
 * figures just at a limit is at it, whatever the last digits of the arithmetic.
 */
export function uprightSurface(tank: Tank, level: number): number | undefined {
    const gross = grossOf(tank);
    const surface = gross === undefined ? undefined : surfaceAt(tank, level * gross, UPRIGHT);
    return surface === undefined ? undefined : Math.round(surface * 1e9) / 1e9;
}

/** Whether liquid of the tank can stand above a place anywhere in the envelope. */
export function canStandAbove(boat: Boat, tank: Tank, place: Place | undefined): 'yes' | 'no' | 'unknown' {
    const level = boat.vessel.envelope.level?.high ?? boat.vessel.envelope.level?.si ?? 1;
    const upright = uprightSurface(tank, level);
    if (upright !== undefined && place?.up !== undefined && upright > place.up.si) return 'yes';
    let verdict: 'yes' | 'no' | 'unknown' = 'no';
    for (const attitude of corners(boat.vessel.envelope)) {
        const [surface, height] = [span(tank, attitude)?.high, heightOf(place, attitude)];
        if (surface === undefined || height === undefined) verdict = 'unknown';
        else if (surface > height) return 'yes';
    }
    // Without a stated envelope the boat may lean any way: only an upright answer would be known.
    const { heel, trim } = boat.vessel.envelope;
    return verdict === 'no' && (heel === undefined || trim === undefined) ? 'unknown' : verdict;
}
