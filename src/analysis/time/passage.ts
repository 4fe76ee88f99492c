/** How far her fuel takes her, and what a passage needs of it. */
import type { Boat, Consumer, Id, Passage } from '../../model/boat';
import { estimateOf, exactly, floored, minus, plus, sound, sum, times, type Estimate } from '../estimate';
import { enduranceOf, usuallyRunning, type Endurance } from './endurance';
import { eachLackOnce, type TimeLack } from './lack';
import { reserveOf, type Volumes } from './store';

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
    /** Of the engines those whose return is counted as gone. */
    readonly astray: readonly Id[];
    /** Each group of engines that must share tanks, with what it needs of them. Empty with lacks. */
    readonly groups: readonly { readonly engines: readonly Id[]; readonly tanks: readonly Id[]; readonly usable: number; readonly needs: Estimate }[];
    readonly reserve: Estimate;
    /** m³ that can still be used at the end, the reserve in it; below nothing when it is not enough. */
    readonly left?: Estimate;
    /** m³ by which the reserve is cut into, of the group that cuts deepest; nothing where it stays whole. */
    readonly short?: Estimate;
    readonly lacks: readonly TimeLack[];
    readonly taken: readonly string[];
}

/** needs = burn x hours x (1 + margin). Where no speed is said, one figure for what an engine burns is taken for it. */
export function passageFuel(boat: Boat, passage: Passage, volumes?: Volumes): PassageFuel {
    const engines = enginesOf(boat);
    const speed = passage.speed?.si;
    const only = ({ burns }: Consumer): number | undefined => (burns.length === 1 ? burns[0]!.at.si : undefined);
    const endurance = enduranceOf(boat, engines, (engine) => speed ?? only(engine) ?? NaN, volumes);
    const unsaid = speed === undefined ? boat.consumers.some((engine) => engines.includes(engine.id) && engine.burns.length > 1) : !(speed > 0);
    const lacks: TimeLack[] = [
        ...(passage.motors ? [] : [{ about: passage.id, of: 'motors' } as const]),
        ...(unsaid ? [{ about: passage.id, of: 'speed' } as const, ...endurance.lacks.filter(({ of }) => of !== 'burns' && of !== 'draws')] : endurance.lacks),
    ];
    const margin = passage.margin ? estimateOf(passage.margin) : exactly(0);
    const base = { passage: passage.id, engines, without: usuallyRunning(boat).map(({ id }) => id).filter((id) => !engines.includes(id)), astray: endurance.astray, reserve: endurance.reserve };
    const taken = [...endurance.taken, ...(passage.margin ? [] : ['no margin is added for weather and foul tides (none is stated)'])];
    const needed = (takes: Estimate): Estimate => times(times(takes, floored(estimateOf(passage.motors!))), floored(plus(exactly(1), margin)));
    const needs = passage.motors && lacks.length === 0 && endurance.uses.length > 0 ? sound(needed(sum(endurance.uses.map(({ takes }) => takes)))) : undefined;
    if (!needs) return { ...base, groups: [], lacks: eachLackOnce(lacks), taken };
    const groups = endurance.groups.map(({ consumers, tanks, usable, takes }) => ({ engines: consumers, tanks, usable, needs: needed(takes) }));
    const { share } = reserveOf(boat);
    const shorts = groups.map((group) => floored(minus(plus(group.needs, times(exactly(group.usable), share)), exactly(group.usable))));
    const most = (of: keyof Estimate): number => Math.max(0, ...shorts.map((short) => short[of]));
    return { ...base, groups, needs, left: minus(exactly(endurance.store.usable), needs), short: { si: most('si'), least: most('least'), most: most('most') }, lacks: [], taken };
}

/** Engines that drive her; generators and heaters run at other hours. */
const enginesOf = (boat: Boat): Id[] => usuallyRunning(boat).filter(({ kind }) => kind === 'engine').map(({ id }) => id);
