/** How a pump is worked, and from which settings of the valves it is tried. */
import type { Id, Part } from '../../model/boat';
import type { Driver } from '../../model/step';
import { handPositions, turned } from '../../analysis/topology/line-ups';
import { isValve, type Positions } from '../../analysis/topology/network';
import { connectedTo } from '../../analysis/topology/paths';
import type { Visit } from './visit';

export function driverOf({ id, kind }: Part): Driver | undefined {
    switch (kind) {
        case 'hand primer': return { by: 'hand', part: id };
        case 'lift pump': return { by: 'lever', part: id };
        case 'electric primer': case 'electric pump': return { by: 'electric', part: id };
        default: return undefined;
    }
}

/** These settings, then each with one valve turned that hangs together with one of the consumers. */
export function* oneTurned({ boat, network }: Visit, positions: Positions, consumers: readonly Id[]): Generator<readonly [valve: Id | undefined, positions: Positions]> {
    yield [undefined, positions];
    for (const valve of boat.parts) {
        if (!isValve(valve) || positions.get(valve.id) === undefined || !consumers.some((consumer) => connectedTo(network, consumer).has(valve.id))) continue;
        for (const position of handPositions(valve)) if (position !== positions.get(valve.id)) yield [valve.id, turned(boat, positions, valve.id, position)];
    }
}
