/** What a gauge has before it and behind it while she runs: the elements whose dirt it shows, the tank whose level it shows too, the engine that draws. */
import type { Boat, Id } from '../../model/boat';
import { lineUpsOf, normalLineUp, runLineUps, type ResolvedLineUp } from '../topology/line-ups';
import { networkOf } from '../topology/network';
import { partsBefore, running, tanksBefore } from '../topology/paths';

export interface GaugePlace {
    /** The line-up for running that was looked at. */
    readonly lineUp: ResolvedLineUp;
    /** There are other line-ups for running, in which it may read another tank. */
    readonly oneOfSeveral: boolean;
    /** Filters and strainers between a tank and the gauge. */
    readonly elements: readonly Id[];
    readonly tanks: readonly Id[];
    /** Engines and other consumers that draw past it. */
    readonly drawn: readonly Id[];
}

/** In the line-up that `is normal` when that is one for running, else in the first for running. Undefined when the boat has none. */
export function gaugePlace(boat: Boat, gauge: Id): GaugePlace | undefined {
    const all = lineUpsOf(boat);
    const runs = runLineUps(all);
    const lineUp = runs.find((run) => run === normalLineUp(boat, all)) ?? runs[0];
    if (!lineUp) return undefined;
    const linedUp = running(networkOf(boat), lineUp.positions);
    const before = partsBefore(linedUp, `${gauge}:in`);
    return {
        lineUp, oneOfSeveral: runs.length > 1,
        elements: boat.parts.filter(({ id, kind }) => before.has(id) && (kind === 'filter' || kind === 'strainer')).map(({ id }) => id).sort(),
        tanks: tanksBefore(linedUp, `${gauge}:in`).toSorted(),
        drawn: boat.consumers.filter(({ id }) => !lineUp.stopped.includes(id) && partsBefore(linedUp, `${id}:in`).has(gauge)).map(({ id }) => id).sort(),
    };
}
