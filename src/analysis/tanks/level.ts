/** Tanks that can come to one level by an open line between them. */
import type { Id, Tank } from '../../model/boat';
import type { Network, Positions } from '../topology/network';
import { joinedTanks } from '../topology/paths';
import { heightOf, UPRIGHT } from './attitude';
import { span } from './liquid';

/**
 * Groups as `joinedTanks` has them, without lines that leave a tank above the inside of all that they could join it to, as the overflow of a high day
 * tank does: what stands above the mouth runs off, and nothing ever comes back. Upright. A mouth or a tank of unknown height counts as one that joins.
 */
export function levelTanks(network: Network, positions: Positions): readonly (readonly Id[])[] {
    const groups = joinedTanks(network, positions);
    const tanks = new Map(network.boat.tanks.map((tank) => [tank.id, tank]));
    const topOf = (tank: Tank): number => span(tank, UPRIGHT)?.high ?? Infinity;
    const above = groups.filter((group) => group.length > 1).flatMap((group) => group.flatMap((id) => {
        const highest = Math.max(...group.filter((other) => other !== id).map((other) => topOf(tanks.get(other)!)));
        return tanks.get(id)!.fittings.filter(({ mouth }) => (heightOf(mouth, UPRIGHT) ?? -Infinity) >= highest).map((fitting) => fitting.id);
    }));
    return above.length > 0 ? joinedTanks(network, positions, above) : groups;
}
