/** What stands at a point, looked up once for a boat: asked for both ends of every pipe. */
import type { Boat, Fitting } from '../../model/boat';

interface Lookup {
    readonly joined: ReadonlyMap<string, readonly string[]>;
    readonly fittings: ReadonlyMap<string, Fitting>;
}

const lookups = new WeakMap<Boat, Lookup>();

function lookupOf(boat: Boat): Lookup {
    const known = lookups.get(boat);
    if (known) return known;
    const joined = new Map<string, string[]>();
    const add = (point: string, other: string): void => { const others = joined.get(point); if (others) others.push(other); else joined.set(point, [other]); };
    for (const { from, to } of boat.joints) { add(from, to); if (from !== to) add(to, from); }
    const fittings = new Map<string, Fitting>();
    for (const { fittings: own } of boat.tanks) for (const fitting of own) if (!fittings.has(fitting.id)) fittings.set(fitting.id, fitting);
    const found = { joined, fittings };
    lookups.set(boat, found);
    return found;
}

/** The points that a point is joined to, in the order of the joints. */
export const joinedTo = (boat: Boat, point: string): readonly string[] => lookupOf(boat).joined.get(point) ?? [];

export const fittingOf = (boat: Boat, id: string): Fitting | undefined => lookupOf(boat).fittings.get(id);
