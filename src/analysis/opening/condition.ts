/** What stands in the tanks and how the boat leans while a part is open. */
import type { Boat, Id, Tank } from '../../model/boat';
import { grossOf, surfaceAt } from '../tanks/liquid';
import { UPRIGHT, corners, type Attitude } from '../tanks/attitude';

export interface Condition {
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

/** Upright, with every tank as full as it is ever used. */
export const conditionAt = (boat: Boat, attitude: Attitude = UPRIGHT): Condition => ({ attitude, volumes: atLevel(boat, highLevel(boat)) });

/** Upright, and the corners of the envelope: both tacks, bow up and down. Each once. */
export function attitudesOf(boat: Boat): readonly Attitude[] {
    // Without heel or trim some corners are one, and -0 is 0.
    const each = new Map(corners(boat.vessel.envelope).map(({ heel, trim }) => [`${heel + 0} ${trim + 0}`, { heel: heel + 0, trim: trim + 0 }]));
    return [...each.values()];
}

/** Every tank as full as she is ever used, upright and in each corner of the envelope; the same list for every rule that asks. */
export const fullest = (boat: Boat): readonly Condition[] => everywhere(boat, highLevel(boat), full);
/** The same, as empty as she is ever used. */
export const emptiest = (boat: Boat): readonly Condition[] => everywhere(boat, lowLevel(boat), empty);

const [full, empty] = [new WeakMap<Boat, readonly Condition[]>(), new WeakMap<Boat, readonly Condition[]>()];

function everywhere(boat: Boat, level: number, known: WeakMap<Boat, readonly Condition[]>): readonly Condition[] {
    let found = known.get(boat);
    if (!found) { const volumes = atLevel(boat, level); found = attitudesOf(boat).map((attitude) => ({ attitude, volumes })); known.set(boat, found); }
    return found;
}

/** The height of a tank's surface, m; worked out once for all openings that are asked about. Undefined when it is not known. */
export function surfaceIn(condition: Condition, tank: Tank): number | undefined {
    const answers = surfaces.get(condition) ?? new Map<Tank, number | undefined>();
    surfaces.set(condition, answers);
    if (!answers.has(tank)) { const volume = condition.volumes.get(tank.id); answers.set(tank, volume === undefined ? undefined : surfaceAt(tank, volume, condition.attitude)); }
    return answers.get(tank);
}

const surfaces = new WeakMap<Condition, Map<Tank, number | undefined>>();
