/**
 * The boat with some of its tanks' fittings left out, so that one side is asked about alone: what comes along supplies, or by one
 * fitting. Where a tank reaches an opening by several ways only the easiest is followed; the others would hide behind it.
 */
import type { Boat, Fitting } from '../../model/boat';

/** As if every return were shut at its tank. */
export const supplyOnly = (boat: Boat): Boat => having(boat, 'supplies', ({ kind }) => kind !== 'drop');

/** As if every pickup were shut at its tank. */
export const returnsOnly = (boat: Boat): Boat => having(boat, 'returns', ({ kind }) => kind === 'drop');

/** Asked again by every rule and for every part. */
const known = new WeakMap<Boat, Map<string, Boat>>();

function having(boat: Boat, key: string, keep: (fitting: Fitting) => boolean): Boat {
    const answers = known.get(boat) ?? new Map<string, Boat>();
    known.set(boat, answers);
    const found = answers.get(key) ?? { ...boat, tanks: boat.tanks.map((tank) => ({ ...tank, fittings: tank.fittings.filter(keep) })) };
    answers.set(key, found);
    return found;
}
