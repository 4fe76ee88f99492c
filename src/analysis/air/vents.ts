/** Bleed points and the parts they stand on. */
import type { Id } from '../../model/boat';
import type { Network } from '../topology/network';

/** Vents of a part or consumer in the order in which they are bled. */
export function ventsOf(network: Network, segment: Id): readonly Id[] {
    return (network.parts.get(segment)?.vents ?? network.consumers.get(segment)?.vents ?? []).map((vent) => vent.id);
}

/** The part or consumer that a vent stands on. */
export function segmentOf(network: Network, vent: Id): Id | undefined {
    let owners = ownersKnown.get(network);
    if (!owners) {
        owners = new Map();
        for (const owner of [...network.parts.values(), ...network.consumers.values()]) for (const { id } of owner.vents) if (!owners.has(id)) owners.set(id, owner.id);
        ownersKnown.set(network, owners);
    }
    return owners.get(vent);
}

/** A search asks for the same few vents at each step. */
const ownersKnown = new WeakMap<Network, Map<Id, Id>>();

/** Gravity must leave at least this head at a vent, m: trade practice, no source. */
const LEAST_HEAD = 0.05;
/** Whether it does, with the surface and the vent at these heights, m. Just that head is enough, whatever the last digit of the difference. */
export const headEnough = (surface: number, vent: number): boolean => surface - vent > LEAST_HEAD - 1e-6;
