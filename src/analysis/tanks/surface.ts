/** Heights of tanks and points under heel and trim, as far as this version needs them: bounds, never guesses. */
import type { Boat, Envelope, Tank } from '../../model/boat';
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

/**
 * Height of a point, m: z' = z cos φ - y sin φ, then z'' = z' cos θ + x sin θ. Undefined when the boat leans and the
 * place across or along it is not known.
 */
export function heightOf(place: Place | undefined, { heel, trim }: Attitude): number | undefined {
    if (place?.up === undefined) return undefined;
    if ((heel !== 0 && !place.stbd) || (trim !== 0 && !place.fwd)) return undefined;
    const heeled = place.up.si * Math.cos(heel) - (place.stbd?.si ?? 0) * Math.sin(heel);
    return heeled * Math.cos(trim) + (place.fwd?.si ?? 0) * Math.sin(trim);
}

/** The highest point of the inside of a box tank: no liquid in it can stand higher at this attitude. */
export function highestPoint(tank: Tank, attitude: Attitude): number | undefined {
    const { box } = tank;
    if (!box?.corner.up) return undefined;
    const { up, fwd, stbd } = box.corner;
    let highest: number | undefined;
    for (const length of [0, box.length]) for (const breadth of [0, box.breadth]) {
        const corner: Place = {
            up: { si: up.si + box.height },
            ...(fwd && { fwd: { si: fwd.si + length } }), ...(stbd && { stbd: { si: stbd.si + box.outboard * breadth } }),
        };
        const height = heightOf(corner, attitude);
        if (height === undefined) return undefined;
        highest = Math.max(highest ?? height, height);
    }
    return highest;
}

/** Height of the upright free surface at a level given as a fraction of the gross volume; box tanks only. */
export function uprightSurface(tank: Tank, level: number): number | undefined {
    const { box } = tank;
    return box?.corner.up === undefined ? undefined : box.corner.up.si + level * box.height;
}

/** Whether liquid of the tank can stand above a place anywhere in the envelope. */
export function canStandAbove(boat: Boat, tank: Tank, place: Place | undefined): 'yes' | 'no' | 'unknown' {
    const level = boat.vessel.envelope.level?.high ?? boat.vessel.envelope.level?.si ?? 1;
    const upright = uprightSurface(tank, level);
    if (upright !== undefined && place?.up !== undefined && upright > place.up.si) return 'yes';
    let verdict: 'yes' | 'no' | 'unknown' = 'no';
    for (const attitude of corners(boat.vessel.envelope)) {
        const [surface, height] = [highestPoint(tank, attitude), heightOf(place, attitude)];
        if (surface === undefined || height === undefined) verdict = 'unknown';
        else if (surface > height) return 'yes';
    }
    // Without a stated envelope the boat may lean any way: only an upright answer would be known.
    const { heel, trim } = boat.vessel.envelope;
    return verdict === 'no' && (heel === undefined || trim === undefined) ? 'unknown' : verdict;
}
