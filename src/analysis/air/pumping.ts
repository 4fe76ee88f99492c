/**
 * One vent opened, one driver worked: which liquid moves, what it takes with it, and which laws that would break.
 *
 * The law behind all of it: a vent may be opened only where what is behind it can be pushed, by a pump or a higher
 * surface upstream with an open and tight path. Air is cleared for certain only where every way that the liquid can
 * take leads through it, and under a lid with a bleed point only by that bleed point.
 */
import type { Id } from '../../model/boat';
import type { Driver } from '../../model/step';
import { NONE, lineUpNetwork, passesAtRest, reach, type LinedUp, type Network, type Points, type Positions } from '../topology/network';
import { onEveryWay } from '../topology/every-way';
import { running } from '../topology/paths';
import { routes } from '../topology/routes';
import { segmentsBefore } from './opened';
import { segmentOf } from './vents';

/** A law that a step breaks, with the ids that its message names. */
export interface Broken {
    readonly law: Law;
    readonly parts: readonly Id[];
}

export type Law =
    /** the vent is not downstream of the driver */
    | 'not-reached'
    /** the vent is upstream of the pump being worked: it would draw air in */
    | 'on-suction'
    /** no tank feeds the driver */
    | 'not-fed'
    /** the return of an engine that fuel is pumped towards is shut */
    | 'return-shut'
    /** the vents of one part are bled in their stated order */
    | 'out-of-order'
    /** air elsewhere on the suction side would be drawn in */
    | 'air-drawn'
    /** air further up still collects under a lid, or in a leg beside: no solid stream can come */
    | 'air-upstream'
    /** by gravity: the surface is not proven to stand above the vent, or not one tank alone feeds it */
    | 'no-head'
    | 'no-such-part' | 'no-such-position' | 'not-a-driver' | 'not-empty' | 'may-not-prefill' | 'not-isolated'
    | 'air-left' | 'wrong-line-up';

/** How liquid would move from the tanks past the driver to the vent. Independent of what the segments hold. */
export interface Flow {
    /** On every way: cleared for certain; in the direction of flow, the vent's own segment left out. */
    readonly sure: readonly Id[];
    /** On some way but not on all, downstream of the driver. */
    readonly legs: readonly Id[];
    /** On the suction side, but not on every way. */
    readonly beside: readonly Id[];
    /** In branches through which part of the flow could leave. */
    readonly branches: readonly Id[];
}

export class Pumping {
    private readonly linedUp = new Map<string, LinedUp>();
    private readonly keys = new WeakMap<Positions, string>();
    private readonly befores = new Map<string, ReadonlySet<Id>>();
    private readonly flows = new Map<string, Flow | Broken>();
    private readonly openReturns = new Map<string, boolean>();
    private readonly shutReturns = new Map<string, readonly Id[]>();
    constructor(readonly network: Network) {}

    key(positions: Positions): string {
        let found = this.keys.get(positions);
        if (found === undefined) { found = [...positions].map(([valve, position]) => `${valve}=${position}`).join(' '); this.keys.set(positions, found); }
        return found;
    }

    lineUp(positions: Positions, key = this.key(positions)): LinedUp {
        let found = this.linedUp.get(key);
        if (!found) { found = lineUpNetwork(this.network, positions); this.linedUp.set(key, found); }
        return found;
    }

    /** Segments between the tanks and the consumer when it runs, electric pumps with it. */
    before(consumer: Id, positions: Positions): ReadonlySet<Id> {
        const key = `${consumer} ${this.key(positions)}`;
        let found = this.befores.get(key);
        if (!found) { found = segmentsBefore(running(this.network, positions), consumer); this.befores.set(key, found); }
        return found;
    }

    /** Whether the consumer's outlet has an open way to a tank; true for one that has no return line at all. */
    returnIsOpen(consumer: Id, positions: Positions): boolean {
        const key = `${consumer} ${this.key(positions)}`;
        let open = this.openReturns.get(key);
        if (open === undefined) { open = this.findsTank(`${consumer}:out`, positions); this.openReturns.set(key, open); }
        return open;
    }

    private findsTank(out: string, positions: Positions): boolean {
        if (!this.network.boat.joints.some((joint) => joint.from === out)) return true;
        const linedUp = this.lineUp(positions);
        const found = reach(linedUp, linedUp.ways, [this.network.index.get(out)!]);
        return [...this.network.tanks.values()].some((tank) => found.has(tank));
    }

    /** Consumers that a pump pushes fuel to and whose return is shut. */
    shutBehind(pump: Id, positions: Positions): readonly Id[] {
        const key = `${pump} ${this.key(positions)}`;
        let found = this.shutReturns.get(key);
        if (!found) {
            const { index, passages, through, consumers } = this.network;
            const own = through.get(pump) ?? [];
            const linedUp = this.lineUp(positions);
            const pushed = reach(linedUp, linedUp.ways, own.map((i) => passages[i]!.to), new Set(own));
            found = [...consumers.keys()].filter((id) => pushed.has(index.get(`${id}:in`)!) && !this.returnIsOpen(id, positions));
            this.shutReturns.set(key, found);
        }
        return found;
    }

    flow(vent: Id, driver: Driver, consumer: Id, positions: Positions): Flow | Broken {
        const positionsKey = this.key(positions);
        const key = `${vent} ${driver.by} ${driver.part} ${consumer} ${positionsKey}`;
        let found = this.flows.get(key);
        if (!found) { found = this.computeFlow(vent, driver, consumer, positions, positionsKey); this.flows.set(key, found); }
        return found;
    }

    private computeFlow(vent: Id, driver: Driver, consumer: Id, positions: Positions, positionsKey: string): Flow | Broken {
        const { network } = this;
        const segment = segmentOf(network, vent);
        if (segment === undefined) return { law: 'no-such-part', parts: [vent] };
        const linedUp = this.lineUp(positions, positionsKey);
        const { ways, back } = linedUp;
        const own = new Set(network.through.get(segment)!);
        const target = network.passages[[...own][0]!]!;
        // Liquid enters the vent's part at its inlet; at its outlet only where it can also pass backward.
        const doors = target.kind === 'plain' ? [target.from, target.to] : [target.from];
        const tanks = [...network.tanks.values()];
        const pump = driver.by === 'gravity' ? undefined : network.passages[network.through.get(driver.part)?.[0] ?? -1];
        if (driver.by !== 'gravity' && pump?.kind !== 'pump') return { law: 'not-a-driver', parts: [driver.part] };

        const pumpWays = pump ? new Set(network.through.get(driver.part)!) : NONE;
        // Where a return leads back into the supply, what lies before the engine is not on the suction side: the pump pushes it.
        const engine = network.through.get(consumer) ?? [];
        const suction = pump ? reach(linedUp, back, [pump.from], new Set([...pumpWays, ...engine])) : NONE;
        const outlet = pump ? pump.to : network.tanks.get(driver.part);
        if (outlet === undefined) return { law: 'not-a-driver', parts: [driver.part] };
        const barred = new Set([...pumpWays, ...own]);
        // Gravity fills from the tank's own pickups; the other side of the tank is not upstream of anything.
        const pressure = reach(linedUp, ways, [outlet], barred);
        const arrives = doors.filter((door) => pressure.has(door));
        if (pump && (target.kind === 'consumer' ? [target.from] : [target.from, target.to]).some((end) => suction.has(end))) return { law: 'on-suction', parts: [vent, driver.part] };
        if (arrives.length === 0) return { law: 'not-reached', parts: [vent, driver.part] };
        const feeding = tanks.filter((tank) => suction.has(tank));
        if (pump && feeding.length === 0) return { law: 'not-fed', parts: [driver.part] };
        if (!pump && tanks.filter((tank) => reach(linedUp, ways, [tank], own).has(arrives[0]!)).length !== 1) return { law: 'no-head', parts: [vent, driver.part] };
        if (!this.returnIsOpen(consumer, positions)) return { law: 'return-shut', parts: [consumer] };
        const [other] = pump ? this.shutBehind(driver.part, positions) : [];
        if (other !== undefined) return { law: 'return-shut', parts: [other] };

        // Whether it flows at all is asked far more often than what it takes along, which costs most.
        return lazily(() => {
            const upstream = pump ? this.sureBetween(linedUp, feeding, [pump.from], pumpWays, suction) : [];
            const downstream = this.sureBetween(linedUp, [outlet], arrives, barred, pressure);
            const onWay = new Set(this.onRoutes(linedUp, [outlet], arrives, barred));
            // Gravity drives nothing into a line that ends in the same tank.
            const toTank = reach(linedUp, back, pump ? tanks : tanks.filter((tank) => tank !== outlet), barred);
            const onward = (from: number, to: number): boolean => pressure.has(from) && !network.tankPoints.has(from) && toTank.has(to);
            const along = (passage: Network['passages'][number]): boolean =>
                onward(passage.from, passage.to) || (passage.kind === 'plain' && onward(passage.to, passage.from));
            // Another pickup of the same tank is not beside anything: the tank lies between.
            const drawn = (point: number): boolean => suction.has(point) && !network.tankPoints.has(point);
            const sure = [...upstream, ...(pump ? [driver.part] : []), ...downstream];
            const isSure = new Set(sure);
            return {
                sure, legs: [...onWay].filter((id) => !isSure.has(id)),
                beside: this.segments((passage, i) => !barred.has(i) && passesAtRest(passage) && (drawn(passage.to) || (passage.kind === 'plain' && drawn(passage.from)))).filter((id) => !isSure.has(id)),
                branches: this.segments((passage, i) => !barred.has(i) && along(passage)).filter((id) => !onWay.has(id) && !isSure.has(id)),
            };
        });
    }

    private onRoutes(linedUp: LinedUp, starts: readonly number[], ends: readonly number[], barred: ReadonlySet<number>): Id[] {
        const found = routes(linedUp, starts, ends, barred);
        return this.segments((_passage, i) => found.has(i));
    }

    private segments(test: (passage: Network['passages'][number], index: number) => boolean): Id[] {
        const found = new Set<Id>();
        this.network.passages.forEach((passage, i) => { if (passage.segment && test(passage, i)) found.add(passage.part!); });
        return [...found];
    }

    /** Segments without which the ends could not be reached, nearest to the start first. */
    private sureBetween(linedUp: LinedUp, start: readonly number[], ends: readonly number[], barred: ReadonlySet<number>, within: Points): Id[] {
        return onEveryWay(linedUp, start, ends, barred).map((i) => this.network.passages[i]!)
            .filter(({ segment, from, to }) => segment && (within.has(from) || within.has(to))).map(({ part }) => part!);
    }
}

/** The same for all that ask of a network: what moves is worked out once. */
export function pumpingOf(network: Network): Pumping {
    const found = pumpings.get(network) ?? new Pumping(network);
    pumpings.set(network, found);
    return found;
}

const pumpings = new WeakMap<Network, Pumping>();

function lazily(work: () => Flow): Flow {
    let done: Flow | undefined;
    const flow = (): Flow => (done ??= work());
    return { get sure() { return flow().sure; }, get legs() { return flow().legs; }, get beside() { return flow().beside; }, get branches() { return flow().branches; } };
}
