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

/** Gravity must leave at least 50 mm of head at a vent: trade practice, no source. A surface is found by halving, so what is 50 mm to a nanometre is 50 mm. */
export const LEAST_HEAD = 0.05 - 1e-9;
