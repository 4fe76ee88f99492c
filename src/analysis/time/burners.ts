/** Which consumers burn fuel, and which of them run in a line-up. */
import type { Consumer, Id } from '../../model/boat';
import type { ResolvedLineUp } from '../topology/line-ups';
import type { Network } from '../topology/network';
import { passagesOf, running, tanksBefore } from '../topology/paths';

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

interface Barred {
    /** Consumers, vents and fills: no fuel runs on through them to where it is used. */
    readonly any: ReadonlySet<number>;
    /** From tank to tank nor through returns, and the supplies of consumers: fuel may find its way there, but nobody moves it so. */
    readonly betweenTanks: ReadonlySet<number>;
}

/** Passages that do not count as ways of fuel from a tank to a consumer or to another tank. */
export function barredFor(network: Network): Barred {
    const known = barredKnown.get(network);
    if (known) return known;
    const { boat } = network;
    const tanks = new Set(boat.tanks.map(({ id }) => id));
    const fittings = boat.tanks.flatMap((tank) => tank.fittings).filter(({ kind }) => kind === 'vent' || kind === 'fill').map(({ id }) => id);
    const any = passagesOf(network, [...network.consumers.keys(), ...fittings]);
    const served = boat.courses.filter(({ service, to }) => service === 'return' || (service === 'supply' && !tanks.has(to.part ?? '')));
    const courses = new Set(served.map(({ id }) => id));
    const joints = new Set(boat.joints.filter(({ course }) => courses.has(course)).map(({ from, to }) => `${network.index.get(from)} ${network.index.get(to)}`));
    const joined = network.passages.flatMap(({ kind, from, to }, i) => (kind === 'joint' && joints.has(`${from} ${to}`) ? [i] : []));
    const found = { any, betweenTanks: new Set([...any, ...passagesOf(network, served.flatMap(({ parts }) => parts)), ...joined]) };
    barredKnown.set(network, found);
    return found;
}

const barredKnown = new WeakMap<Network, Barred>();

/** How fast each consumer runs, rev/s: an engine at what was asked, others at their full speed. */
export type SpeedOf = (consumer: Consumer) => number | 'full';
export const atFull: SpeedOf = () => 'full';
export const enginesAt = (speed: number): SpeedOf => ({ kind }) => (kind === 'engine' ? speed : 'full');
