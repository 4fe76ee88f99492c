/** How long her fuel lasts. */
import type { Boat, Consumer, Id } from '../../model/boat';
import { exactly, floored, minus, over, sound, sum, times, type Estimate } from '../estimate';
import { demandAt } from '../flow/demand';
import { lineUpsOf, normalLineUp, runLineUps, type ResolvedLineUp } from '../topology/line-ups';
import { networkOf, type Network } from '../topology/network';
import { running, tanksAfter } from '../topology/paths';
import { atFull, burnersOf, enginesAt, runsIn, type SpeedOf } from './burners';
import { eachLackOnce, type TimeLack } from './lack';
import { feedsOf, reserveOf, storeForAll, type Store, type Volumes } from './store';

/** t = (V - kept) / burn, s; m³ and m³/s. Undefined where the burn may be nothing. */
export const lasts = (volume: Estimate, kept: Estimate, burn: Estimate): Estimate | undefined => over(floored(minus(volume, kept)), burn);

/** Consumers that must share tanks. */
export interface Group {
    readonly consumers: readonly Id[];
    readonly tanks: readonly Id[];
    /** m³ that can be used of these tanks, and m³/s that are taken out of them. */
    readonly usable: number;
    readonly takes: Estimate;
    /** s down to the reserve. */
    readonly seconds?: Estimate;
}

export interface Endurance {
    /** Who runs, and what each takes out of the store, m³/s: its burn, or more where its return leads to a tank that it cannot draw from. */
    readonly uses: readonly { readonly consumer: Id; readonly speed: number; readonly takes: Estimate }[];
    /** Whose return leads at least in part to a tank that does not feed it: what comes back there is counted as gone. */
    readonly astray: readonly Id[];
    /** Every group of them with the tanks that feed any of it, in the order of `groupsOf`: all of them together too. Empty with lacks. */
    readonly groups: readonly Group[];
    readonly store: Store;
    /** m³ to be kept back. */
    readonly reserve: Estimate;
    /** s until one of them is down to the reserve. Undefined with lacks. */
    readonly seconds?: Estimate;
    readonly lacks: readonly TimeLack[];
    readonly taken: readonly string[];
}

/**
 * How long these consumers run together, each as fast as is said, until the first of them is down to the reserve. Where not all can draw
 * from all tanks, the valves are taken to be set so that it comes as late as it can: for every group of consumers the tanks that feed any of them
 * must last for the whole group, and the group that is first short decides (Hall's condition, as for any such sharing out).
 */
export function enduranceOf(boat: Boat, consumers: readonly Id[], speedOf: SpeedOf, volumes: Volumes = new Map()): Endurance {
    const network = networkOf(boat);
    const lacks: TimeLack[] = [];
    const uses: Endurance['uses'][number][] = [];
    const astray: Id[] = [];
    for (const consumer of consumers.flatMap((id) => network.consumers.get(id) ?? [])) {
        const demand = demandAt(consumer, speedOf(consumer));
        const lost = returnsAstray(network, consumer);
        if (lost) astray.push(consumer.id);
        if (!demand?.burns) lacks.push({ about: consumer.id, of: 'burns' });
        else if (lost && !demand.draws) lacks.push({ about: consumer.id, of: 'draws' });
        else uses.push({ consumer: consumer.id, speed: demand.speed, takes: lost === 'all' ? demand.draws! : lost ? { ...demand.draws!, least: demand.burns.least } : demand.burns });
        if (feedsOf(network, consumer.id).size === 0) lacks.push({ about: consumer.id, of: 'pickup' });
    }
    const ids = uses.map(({ consumer }) => consumer);
    const store = storeForAll(network, consumers, volumes);
    lacks.push(...store.lacks);
    const { share, taken } = reserveOf(boat);
    const groups = lacks.length > 0 ? [] : groupsOf(ids).map((group): Group => {
        const tanks = store.tanks.filter(({ tank }) => group.some((id) => feedsOf(network, id).has(tank)));
        const usable = tanks.reduce((all, one) => all + one.usable, 0);
        const takes = sum(uses.filter(({ consumer }) => group.includes(consumer)).map((use) => use.takes));
        const seconds = lasts(exactly(usable), times(exactly(usable), share), takes);
        return { consumers: group, tanks: tanks.map(({ tank }) => tank), usable, takes, ...(seconds && { seconds }) };
    });
    const limits = groups.flatMap((group) => group.seconds ?? []);
    const seconds = limits.length > 0 && limits.length === groups.length
        ? sound({ si: Math.min(...limits.map(({ si }) => si)), least: Math.min(...limits.map(({ least }) => least)), most: Math.min(...limits.map(({ most }) => most)) }) : undefined;
    return {
        uses, astray, groups, store, reserve: times(exactly(store.usable), share), ...(seconds && { seconds }),
        lacks: eachLackOnce(lacks), taken: [...store.taken, ...taken],
    };
}

/** More consumers than this are asked as one group and one by one: no boat has so many. */
const MOST_CONSUMERS = 10;

function groupsOf(ids: readonly Id[]): readonly (readonly Id[])[] {
    if (ids.length > MOST_CONSUMERS) return [ids, ...ids.map((id) => [id])];
    const groups: Id[][] = [];
    for (let bits = 1; bits < 2 ** ids.length; bits++) groups.push(ids.filter((_, i) => (bits & (1 << i)) !== 0));
    return groups;
}

/** The normal line-up where it is one for running, else the first for running: she may be left with everything shut. */
function usualRun(boat: Boat): ResolvedLineUp | undefined {
    const lineUps = lineUpsOf(boat);
    const [runs, normal] = [runLineUps(lineUps), normalLineUp(boat, lineUps)];
    return normal && runs.includes(normal) ? normal : runs[0];
}

/** Whether in the usual line-up its return comes to tanks that cannot feed it. */
function returnsAstray(network: Network, { id }: Consumer): 'all' | 'some' | undefined {
    const { boat } = network;
    const lineUp = usualRun(boat);
    const back = lineUp ? tanksAfter(running(network, lineUp.positions), `${id}:out`) : [];
    const feeding = feedsOf(network, id);
    const lost = back.filter((tank) => !feeding.has(tank)).length;
    return lost === 0 ? undefined : lost === back.length ? 'all' : 'some';
}

/** The group that is first short, by the best guesses: of several the smallest. */
export const firstShort = ({ groups }: Pick<Endurance, 'groups'>): Group | undefined => groups.filter(({ seconds }) => seconds).sort((a, b) => a.seconds!.si - b.seconds!.si || a.consumers.length - b.consumers.length)[0];

/** One consumer alone. */
export const enduranceFor = (boat: Boat, consumer: Id, speed: number | 'full', volumes?: Volumes): Endurance => enduranceOf(boat, [consumer], () => speed, volumes);

/** Those that burn fuel and run in the usual line-up: the normal one, or the first for running. */
export function usuallyRunning(boat: Boat): readonly Consumer[] {
    const lineUp = usualRun(boat);
    return burnersOf(networkOf(boat)).filter(({ id }) => !lineUp || runsIn(lineUp, id));
}

/** All of them: engines at a speed, others at their own full speed. */
export const enduranceOfAll = (boat: Boat, speed: number | 'full', volumes?: Volumes): Endurance =>
    enduranceOf(boat, usuallyRunning(boat).map(({ id }) => id), speed === 'full' ? atFull : enginesAt(speed), volumes);
