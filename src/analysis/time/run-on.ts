/**
 * How long an engine runs on after valves at the tanks were shut: at most until all is used that lines, filters and it itself hold behind them. What it sends
 * back to a tank is gone, so it uses them up as fast as it draws; where its return joins its own supply, only as fast as it burns. Really it stops
 * sooner, since nothing comes after what is drawn away.
 */
import type { Boat, Consumer, Id } from '../../model/boat';
import { exactly, over, type Estimate } from '../estimate';
import { demandAt } from '../flow/demand';
import { networkOf, reach, type Positions } from '../topology/network';
import { passagesOf, running } from '../topology/paths';
import { volumeOf } from '../volumes';
import type { TimeLack } from './lack';

export interface RunOn {
    /** Tanks that still feed it with these valves shut: then it does not stop. */
    readonly fedBy: readonly Id[];
    /** What holds fuel behind the valves, and m³ of it in all. */
    readonly parts: readonly Id[];
    readonly held?: number;
    /** Whether it uses what it draws, or what it burns. */
    readonly by: 'draws' | 'burns';
    /** s; no longer than the most. */
    readonly seconds?: Estimate;
    readonly lacks: readonly TimeLack[];
}

export function runOn(boat: Boat, consumer: Consumer, positions: Positions, shut: readonly Id[], speed: number | 'full' = 'full'): RunOn {
    const network = networkOf(boat);
    const linedUp = running(network, positions);
    const others = [...network.consumers.keys()];
    const barred = new Set([...passagesOf(network, [...shut, ...others])]);
    const [into, out] = [network.index.get(`${consumer.id}:in`)!, network.index.get(`${consumer.id}:out`)!];
    const behind = reach(linedUp, linedUp.back, [into], barred);
    const fedBy = boat.tanks.filter(({ id }) => behind.has(network.tanks.get(id)!)).map(({ id }) => id);
    const after = reach(linedUp, linedUp.ways, [out], barred);
    const by = after.has(into) ? 'burns' : 'draws';
    if (fedBy.length > 0) return { fedBy, parts: [], by, lacks: [] };
    const found = network.passages.filter((passage) => passage.part !== undefined && passage.segment && passage.kind !== 'consumer' && behind.has(passage.from) && behind.has(passage.to)).map(({ part }) => part!);
    const parts = [...new Set([...found, consumer.id])];
    const volumes = parts.map((id) => volumeOf(boat, id));
    const demand = demandAt(consumer, speed);
    const flow = by === 'burns' ? demand?.burns : demand?.draws;
    const lacks: TimeLack[] = [...parts.filter((_, i) => volumes[i] === undefined).map((id) => holdsLack(boat, id)).flat(), ...(flow ? [] : [{ about: consumer.id, of: by } as const])];
    const held = volumes.includes(undefined) ? undefined : (volumes as number[]).reduce((sum, volume) => sum + volume, 0);
    const seconds = held !== undefined && flow ? over(exactly(held), flow) : undefined;
    return { fedBy, parts, ...(held !== undefined && { held }), by, ...(seconds && { seconds }), lacks };
}

function holdsLack(boat: Boat, id: Id): TimeLack[] {
    const part = boat.parts.find((other) => other.id === id);
    if (part?.kind !== 'hose' && part?.kind !== 'tube') return [{ about: id, of: 'holds' }];
    return [...(part.bore ? [] : [{ about: id, of: 'bore' } as const]), ...(part.length ? [] : [{ about: id, of: 'length' } as const])];
}
