/** Bleed points and the parts they stand on. */
import type { Id } from '../../model/boat';
import type { Network } from '../topology/network';

/** Vents of a part or consumer in the order in which they are bled. */
export function ventsOf(network: Network, segment: Id): readonly Id[] {
    return (network.parts.get(segment)?.vents ?? network.consumers.get(segment)?.vents ?? []).map((vent) => vent.id);
}

/** The part or consumer that a vent stands on. */
export function segmentOf(network: Network, vent: Id): Id | undefined {
    for (const owner of [...network.parts.values(), ...network.consumers.values()]) {
        if (owner.vents.some((other) => other.id === vent)) return owner.id;
    }
    return undefined;
}

/** Gravity must leave at least this head at a vent, m: trade practice, no source; less what a surface is rounded by. */
export const LEAST_HEAD = 0.05 - 1e-9;
