/** Which lines of a bleed block, as it stands in the text, open a vent on the suction side of the pump that they work. */
import type { BleedBlock, Id } from '../../model/boat';
import type { Driver } from '../../model/step';
import { lineUpsOf, normalLineUp, serviceLineUp, turned, type ResolvedLineUp } from '../topology/line-ups';
import { connectedTo } from '../topology/paths';
import type { Pumping } from './pumping';

export interface Drawn {
    readonly line: Id;
    readonly vent: Id;
    readonly driver: Driver;
    /** The positions of the valves when it is done. */
    readonly positions: ReadonlyMap<Id, string>;
}

export interface Suction {
    readonly drawn: readonly Drawn[];
    /** Where the block starts, and the valves on these lines whose positions neither it nor any step states. */
    readonly starts: ResolvedLineUp;
    readonly unplaced: readonly Id[];
}

/** Undefined when the block names an engine or a line-up that the boat has not. */
export function suctionOf(pumping: Pumping, block: BleedBlock): Suction | undefined {
    const { network } = pumping;
    const { boat } = network;
    const lineUps = lineUpsOf(boat);
    const named = (id: Id): ResolvedLineUp | undefined => lineUps.find((lineUp) => lineUp.id === id);
    const ends = block.ends === undefined ? normalLineUp(boat, lineUps) : named(block.ends);
    if (!ends || !network.consumers.has(block.engine)) return undefined;
    const connected = connectedTo(network, block.engine);
    const starts = block.starts === undefined ? serviceLineUp(lineUps, connected, ends) : named(block.starts);
    if (!starts) return undefined;
    let { positions } = starts;
    const drawn: Drawn[] = [];
    for (const { id, step } of block.lines) {
        if (step?.do === 'set') positions = turned(boat, positions, step.part, step.position);
        if (step?.do !== 'bleed' && step?.do !== 'prove') continue;
        const driver: Driver = step.do === 'bleed' ? step.driver : { by: 'lever', part: step.part };
        const flow = pumping.flow(step.vent, driver, block.engine, positions);
        if ('law' in flow && flow.law === 'on-suction') drawn.push({ line: id, vent: step.vent, driver, positions });
    }
    return { drawn, starts, unplaced: starts.unplaced.filter((valve) => connected.has(valve) && !positions.has(valve)) };
}
