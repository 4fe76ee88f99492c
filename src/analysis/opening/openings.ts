/** Where hands open the system: lids, drains, bleed points, and the joints of what has neither. */
import type { Boat, Consumer, Id, Part } from '../../model/boat';
import type { Place } from '../../model/measure';
import { networkOf, type Network } from '../topology/network';
import { endPlace } from '../air/heights';

export interface Opening {
    /** The part or consumer that is opened. */
    readonly part: Id;
    /** As a person says it: lid, drain, ports, a bleed point's tag, or joint. */
    readonly name: string;
    readonly place: Place | undefined;
    /** Whether the liquid in the part itself hangs above this opening. */
    readonly drainsPart: boolean;
}

const hasLid = (part: Part): boolean => part.kind === 'filter' || part.kind === 'strainer';

/** The names of all openings of a part or consumer, in their order: lid or, without one, ports; drain, bleed points; else joint. */
export const openingNames = (of: Part | Consumer): string[] => [
    ...('ports' in of && hasLid(of) ? [of.lid ? 'lid' : 'ports', ...(of.drain ? ['drain'] : [])] : ['joint']), ...of.vents.map((vent) => vent.tag),
];

const known = new WeakMap<Boat, ReadonlyMap<Id, readonly Opening[]>>();

/** Every opening of the boat by its part. A tank's own lid is no opening here: what stands in a tank is looked at from above. */
export function openingsOf(boat: Boat): ReadonlyMap<Id, readonly Opening[]> {
    let found = known.get(boat);
    if (!found) { found = find(networkOf(boat)); known.set(boat, found); }
    return found;
}

function find(network: Network): Map<Id, readonly Opening[]> {
    const { boat } = network;
    const found = new Map<Id, readonly Opening[]>();
    for (const part of boat.parts) {
        const vents = part.vents.map((vent): Opening => ({ part: part.id, name: vent.tag, place: vent.at, drainsPart: false }));
        if (hasLid(part)) {
            // Without a lid the whole body is screwed off at the ports.
            found.set(part.id, [
                { part: part.id, name: part.lid ? 'lid' : 'ports', place: part.lid ?? part.at, drainsPart: false },
                ...(part.drain ? [{ part: part.id, name: 'drain', place: part.drain, drainsPart: true }] : []), ...vents,
            ]);
        } else if (part.kind === 'tee') found.set(part.id, [...joint(network, part.id, [part.id]), ...vents]);
        else found.set(part.id, [...joint(network, part.id, part.ports.length > 0 ? part.ports.map((port) => `${part.id}:${port}`) : [`${part.id}:in`, `${part.id}:out`]), ...vents]);
    }
    for (const consumer of boat.consumers) {
        found.set(consumer.id, [
            { part: consumer.id, name: 'joint', place: consumer.inlet, drainsPart: false },
            ...consumer.vents.map((vent): Opening => ({ part: consumer.id, name: vent.tag, place: vent.at, drainsPart: false })),
        ]);
    }
    return found;
}

/** The union at the lower end of a part, where more comes. One end that is not known leaves the lower one unknown. */
function joint(network: Network, part: Id, points: readonly string[]): Opening[] {
    const places = points.map((point) => network.parts.get(part)?.at ?? endPlace(network, point));
    const known = places.filter((place): place is Place => place?.up !== undefined);
    const lowest = known.length === places.length ? known.reduce<Place | undefined>((low, place) => (low === undefined || place.up!.si < low.up!.si ? place : low), undefined) : undefined;
    return [{ part, name: 'joint', place: lowest, drainsPart: true }];
}

/** The opening that words mean: F1, F1 lid, BS1. */
export function openingNamed(boat: Boat, part: Id, name?: string): Opening | undefined {
    const own = openingsOf(boat).get(part);
    return name === undefined ? own?.[0] : own?.find((opening) => opening.name === name);
}
