/** The state in which a part is opened: how the boat leans, what stands in its tanks, how its valves are set. */
import type { Boat, Id } from '../../model/boat';
import { grossOf } from '../tanks/liquid';
import { corners, type Attitude } from '../tanks/surface';
import type { LinedUp, Positions } from '../topology/network';

/** How the liquid can run: which valves are open, and what checks and stopped consumers hold. */
export interface Plumbing {
    readonly positions: Positions;
    readonly linedUp: LinedUp;
    /** Whether check valves, and those in pumps, hold what would come back through them. A worn one does not. */
    readonly checks: 'tight' | 'leaky';
    /** What stopped consumers let through from their return to their supply, where they do not say so themselves. */
    readonly backflow: 'passes' | 'blocks';
}

export interface Condition extends Plumbing {
    readonly attitude: Attitude;
    /** What is in each tank, m³. A tank that is not named holds an amount that nobody knows. */
    readonly volumes: ReadonlyMap<Id, number>;
}

/** Every tank at the same share of its gross volume. */
export function atLevel(boat: Boat, level: number): ReadonlyMap<Id, number> {
    return new Map(boat.tanks.flatMap((tank) => { const gross = grossOf(tank); return gross === undefined ? [] : [[tank.id, level * gross] as const]; }));
}

/** The highest level that she is used at, as a share of the gross volume; full where no envelope says so. */
export const highLevel = (boat: Boat): number => boat.vessel.envelope.level?.high ?? boat.vessel.envelope.level?.si ?? 1;
export const lowLevel = (boat: Boat): number => boat.vessel.envelope.level?.low ?? boat.vessel.envelope.level?.si ?? 0;

/** Upright and the corners of the envelope: where opposite tacks or trims are not known to differ there are fewer. */
export function attitudesOf(boat: Boat): readonly Attitude[] {
    const seen = new Map<string, Attitude>();
    for (const attitude of corners(boat.vessel.envelope)) seen.set(`${attitude.heel === 0 ? 0 : attitude.heel} ${attitude.trim === 0 ? 0 : attitude.trim}`, attitude);
    return [...seen.values()];
}
