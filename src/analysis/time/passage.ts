/** How far her fuel takes her, and what a passage needs of it. */
import type { Boat, Id, Passage } from '../../model/boat';
import { estimateOf, exactly, floored, minus, plus, scaled, sound, sum, times, type Estimate } from '../estimate';
import { enduranceOf, usuallyRunning, type Endurance } from './endurance';
import { eachLackOnce, type TimeLack } from './lack';
import type { Volumes } from './store';

export interface Range {
    /** Of the engines, rev/s, and of the boat, m/s. */
    readonly speed: number;
    readonly through: Estimate;
    readonly endurance: Endurance;
    /** m down to the reserve: endurance x speed. Still water. */
    readonly metres?: Estimate;
}

/** At each speed that is stated for the boat, slowest first; the engines alone, all that run in the usual line-up. */
export function ranges(boat: Boat, volumes?: Volumes): readonly Range[] {
    const engines = enginesOf(boat);
    const stated = boat.vessel.speeds.filter(({ at, value }) => at.si > 0 && sound(estimateOf(value)) && value.si >= 0);
    return [...stated].sort((a, b) => a.at.si - b.at.si || a.value.si - b.value.si).map(({ at, value }) => {
        const through = floored(estimateOf(value));
        const endurance = enduranceOf(boat, engines, () => at.si, volumes);
        const metres = endurance.seconds && sound(times(endurance.seconds, through));
        return { speed: at.si, through, endurance, ...(metres && { metres }) };
    });
}

export interface PassageFuel {
    readonly passage: Id;
    /** The engines that are counted, and what runs beside them and is not. */
    readonly engines: readonly Id[];
    readonly without: readonly Id[];
    /** m³ for the hours under engine, the margin in it. Undefined with lacks. */
    readonly needs?: Estimate;
    readonly reserve: Estimate;
    /** m³ that can still be used at the end, the reserve in it; below nothing when it is not enough. */
    readonly left?: Estimate;
    /** m³ by which the reserve is cut into; nothing where it stays whole. */
    readonly short?: Estimate;
    readonly lacks: readonly TimeLack[];
    readonly taken: readonly string[];
}

/** needs = burn x hours x (1 + margin). */
export function passageFuel(boat: Boat, passage: Passage, volumes?: Volumes): PassageFuel {
    const engines = enginesOf(boat);
    const speed = passage.speed?.si;
    const endurance = enduranceOf(boat, engines, () => speed ?? NaN, volumes);
    const lacks: TimeLack[] = [
        ...(passage.motors ? [] : [{ about: passage.id, of: 'motors' } as const]),
        ...(speed === undefined || !(speed > 0) ? [{ about: passage.id, of: 'speed' } as const, ...endurance.lacks.filter(({ of }) => of !== 'burns' && of !== 'draws')] : endurance.lacks),
    ];
    const margin = passage.margin ? estimateOf(passage.margin) : exactly(0);
    const base = { passage: passage.id, engines, without: usuallyRunning(boat).map(({ id }) => id).filter((id) => !engines.includes(id)), reserve: endurance.reserve };
    const taken = [...endurance.taken, ...(passage.margin ? [] : ['no margin is added for weather and foul tides (none is stated)'])];
    const needs = passage.motors && lacks.length === 0 && endurance.uses.length > 0
        ? sound(times(times(sum(endurance.uses.map(({ takes }) => takes)), floored(estimateOf(passage.motors))), floored(plus(exactly(1), margin)))) : undefined;
    if (!needs) return { ...base, lacks: eachLackOnce(lacks), taken };
    const left = minus(exactly(endurance.store.usable), needs);
    return { ...base, needs, left, short: floored(scaled(minus(left, endurance.reserve), -1)), lacks: [], taken };
}

/** Engines that drive her; generators and heaters run at other hours. */
const enginesOf = (boat: Boat): Id[] => usuallyRunning(boat).filter(({ kind }) => kind === 'engine').map(({ id }) => id);
