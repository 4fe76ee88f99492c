/** What a rule sees, and what it must offer. One file a rule under rules/; rules.ts is the one table. */
import type { Boat, Carries, Consumer, Id, Part, Service } from '../model/boat';
import type { Rule, Verdict } from '../model/finding';
import { lineUpsOf, runLineUps, type ResolvedLineUp } from '../analysis/topology/line-ups';
import { networkOf, reach, type LinedUp, type Network, type Points } from '../analysis/topology/network';
import { eitherWay, followers, joinedTanks, partsBefore, running, tanksBefore } from '../analysis/topology/paths';

export interface Check extends Rule {
    /** One verdict for each thing that the rule speaks of. Never throws; a missing fact is `cannot tell`. */
    readonly judge: (view: View) => readonly Verdict[];
    /** Weighs levels, heels and line-ups against one another: an editor judges by it a moment after the others. */
    readonly slow?: true;
}

/** The boat with what every rule needs worked out once. */
export interface View {
    readonly boat: Boat;
    /** The day of judgement as an ISO date, when one was given. */
    readonly today?: string;
    readonly network: Network;
    readonly lineUps: readonly ResolvedLineUp[];
    readonly runs: readonly ResolvedLineUp[];
    readonly running: (lineUp: ResolvedLineUp) => LinedUp;
    /** Groups of tanks that are joined by an open line. */
    readonly joined: (lineUp: ResolvedLineUp) => readonly (readonly Id[])[];
    /** Everything running and every valve open: what could be reached at all. */
    readonly allOpen: LinedUp;
}

export function viewOf(boat: Boat, today?: string): View {
    const network = networkOf(boat);
    const lineUps = lineUpsOf(boat);
    const once = <T>(work: (lineUp: ResolvedLineUp) => T): ((lineUp: ResolvedLineUp) => T) => {
        const cache = new Map<Id, T>();
        return (lineUp) => {
            if (!cache.has(lineUp.id)) cache.set(lineUp.id, work(lineUp));
            return cache.get(lineUp.id)!;
        };
    };
    return {
        boat, network, lineUps, runs: runLineUps(lineUps), ...(today !== undefined && { today }),
        running: once(({ positions }) => running(network, positions)), joined: once(({ positions }) => joinedTanks(network, positions)),
        allOpen: running(network, new Map(), 'all open'),
    };
}

/** How a sentence names an id: the part's own words, the tag otherwise. */
export function nameOf(boat: Boat, id: Id): string {
    return networkOf(boat).parts.get(id)?.name ?? id;
}

const seas = ({ points }: View['network']): number[] => points.flatMap((name, i) => (name.endsWith(':sea') ? [i] : []));

/** Whether it is the sea and no tank that feeds a consumer. */
export function isFedFromSea({ allOpen, network }: View, consumer: Id): boolean {
    const before = reach(allOpen, allOpen.back, [network.index.get(`${consumer}:in`)!]);
    return seas(network).some((sea) => before.has(sea)) && ![...network.tankPoints].some((tank) => before.has(tank));
}

/** What a consumer is fed with; diesel where neither a tank nor the sea says otherwise. */
export function fluidOf(view: View, consumer: Consumer): Carries {
    if (isFedFromSea(view, consumer.id)) return 'raw water';
    const tanks = tanksBefore(view.allOpen, `${consumer.id}:in`);
    return view.boat.tanks.find((tank) => tanks.includes(tank.id))?.carries ?? 'diesel';
}

export const burnsFuel = (view: View, consumer: Consumer): boolean => consumer.kind !== 'exchanger' && fluidOf(view, consumer) === 'diesel';

/** The next free tag of a letter: V4 when V1 to V3 are taken; V2 too when a pattern has made V2-P of it. */
export function freeTag(boat: Boat, letter: string): string {
    const taken = new Set([...boat.tags.keys()].flatMap((tag) => [tag, tag.split('-')[0]!]));
    for (let n = 1; ; n++) if (!taken.has(`${letter}${n}`)) return `${letter}${n}`;
}

/** Consumers that drive or light the boat: what NO-UNFILTERED calls an engine. */
export const isEngine = (view: View, consumer: Consumer): boolean => burnsFuel(view, consumer) && consumer.kind !== 'heater';

interface FiltersBefore {
    readonly filters: readonly Part[];
    /** Their inlets as points of the network. */
    readonly inlets: readonly number[];
}

function filtersBefore({ allOpen, network }: View, consumer: Consumer): FiltersBefore {
    const before = partsBefore(allOpen, `${consumer.id}:in`);
    const known = filtersKnown.get(before);
    if (known) return known;
    const filters = [...before].map((id) => network.parts.get(id)).filter((part): part is Part => part?.kind === 'filter');
    const found = { filters, inlets: filters.map(({ id }) => network.index.get(`${id}:in`)!) };
    filtersKnown.set(before, found);
    return found;
}

/** By the parts before a consumer, which are worked out once. */
const filtersKnown = new WeakMap<ReadonlySet<Id>, FiltersBefore>();

/** The filters on some way from a tank to the consumer. */
export const filtersOf = (view: View, consumer: Consumer): readonly Part[] => filtersBefore(view, consumer).filters;

/** Whether no other filter follows this one on the way to the consumer. */
export function isLastFilter(view: View, filter: Part, consumer: Consumer): boolean {
    const own = view.network.index.get(`${filter.id}:in`);
    const after = followers(view.allOpen, filter.id);
    return !filtersBefore(view, consumer).inlets.some((inlet) => inlet !== own && after.has(inlet));
}

/** What the course of a part is for; nothing for a selector, which stands in none. */
export const serviceOf = (boat: Boat, part: Pick<Part, 'course'>): Service | undefined => boat.courses.find(({ id }) => id === part.course)?.service;

/** Points that are reached from a tank which carries something else, or from the sea. */
export function pointsWithoutFuel({ boat, network, allOpen }: View): Points {
    const dry = boat.tanks.filter((tank) => (tank.carries ?? 'diesel') !== 'diesel').flatMap((tank) => tank.fittings.map((fitting) => network.index.get(fitting.id)!));
    return reach(allOpen, eitherWay(allOpen), [...dry, ...seas(network)]);
}

/** Hoses in the lines of fuel tanks: every service, vents and fills too. */
export function fuelHoses(view: View): Part[] {
    const other = pointsWithoutFuel(view);
    return view.boat.parts.filter((part) => part.kind === 'hose' && !other.has(view.network.index.get(`${part.id}:in`)!));
}

/** The verdict of a rule that finds nothing on the boat to speak of. */
export const nothing = (why: string): Verdict => ({ outcome: 'not applicable', about: 'vessel', why });
