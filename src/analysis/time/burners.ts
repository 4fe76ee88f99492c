/** Which consumers burn fuel, and which of them run in a line-up. */
import type { Consumer, Id } from '../../model/boat';
import type { ResolvedLineUp } from '../topology/line-ups';
import type { Network } from '../topology/network';
import { running, tanksBefore } from '../topology/paths';

/** Exchangers burn nothing; nor does what no tank of diesel can feed, whatever the valves. What is not said carries diesel. */
export function burnersOf(network: Network): readonly Consumer[] {
    const { boat } = network;
    const allOpen = running(network, new Map(), 'all open');
    return boat.consumers.filter(({ id, kind }) => {
        const tanks = tanksBefore(allOpen, `${id}:in`);
        return kind !== 'exchanger' && boat.tanks.every((tank) => !tanks.includes(tank.id) || (tank.carries ?? 'diesel') === 'diesel');
    });
}

/** Nothing said, it runs; in a line-up for service or laying up nothing does. */
export const runsIn = ({ use, stopped }: ResolvedLineUp, consumer: Id): boolean => use !== 'service' && use !== 'laid up' && !stopped.includes(consumer);

/** Passages through which fuel runs from tank to tank, or from tank to consumer, are never those of a consumer, a vent or a fill. */
export function notForFuel(network: Network): ReadonlySet<number> {
    const known = barredKnown.get(network);
    if (known) return known;
    const fittings = network.boat.tanks.flatMap((tank) => tank.fittings).filter(({ kind }) => kind === 'vent' || kind === 'fill').map(({ id }) => id);
    const found = new Set([...network.consumers.keys(), ...fittings].flatMap((id) => network.through.get(id) ?? []));
    barredKnown.set(network, found);
    return found;
}

const barredKnown = new WeakMap<Network, ReadonlySet<number>>();

/** How fast each consumer runs, rev/s: an engine at what was asked, others at their full speed. */
export type SpeedOf = (consumer: Consumer) => number | 'full';
export const atFull: SpeedOf = () => 'full';
export const enginesAt = (speed: number): SpeedOf => ({ kind }) => (kind === 'engine' ? speed : 'full');
