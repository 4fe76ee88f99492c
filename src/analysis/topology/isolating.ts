/**
 * How hands cut a part that is to be opened off from tanks: the smallest sets of valve settings.
 *
 * Take one way on which liquid still comes. Whatever set cuts the part off must hold a setting that cuts this way, so try
 * each of them, and go on where liquid still comes. Every candidate is judged anew, since a selector that is turned opens
 * another way. Candidates are tried by the size that a set must have at least (they need one setting more for each way that
 * has none in common with the others), so the first sets that are found are the smallest, and none of that size is missed.
 *
 * No height is read: a tank counts although its liquid may stand lower than the opening, or below the mouth of its return.
 */
import type { Id } from '../../model/boat';
import { afterTurn, atRest, shutIn, wayFrom, type AtRest, type Checks, type Come, type Setting } from './at-rest';
import { returnIsBlocked } from './isolation';
import { lineUpNetwork, reach, type LinedUp, type Network, type Positions } from './network';

export type { Checks, Setting } from './at-rest';

export interface IsolatingSet {
    /** In order of parts. */
    readonly settings: readonly Setting[];
    /** Consumers whose return it blocks: they must be stopped first, and not run until it is open again. */
    readonly blocks: readonly Id[];
}

export interface Isolation {
    /** Nothing needs to be turned: the part is cut off in this line-up as it is. */
    readonly already: boolean;
    /** All of the smallest sets, or the first of them. */
    readonly sets: readonly IsolatingSet[];
    /** How many more there are of that size. */
    readonly more: number;
    /** Some sets with one setting more, of which no smallest set is a part. */
    readonly alternatives: readonly IsolatingSet[];
    /**
     * Why no set cuts it off from all sources: the parts of one way from the tank on, of which no hand can shut any, or
     * none without opening another way. Then `sets` is empty, though another question may be answered for the other tanks.
     */
    readonly cannot: readonly { readonly from: Id; readonly by: readonly Id[] }[];
    /** The search was given up: what it looked for may exist beyond what is told. */
    readonly unfinished?: 'sets' | 'alternatives';
}

const MOST_SETS = 12;
const MOST_ALTERNATIVES = 6;
/** So many candidates are judged, at most some tenths of a second on a boat of 300 parts. */
const MOST_TRIED = 3000;

const NOTHING: Isolation = { already: false, sets: [], more: 0, alternatives: [], cannot: [] };

/** Turns by number, ascending. */
type Turns = readonly number[];

interface Trial {
    readonly turns: Turns;
    readonly shut: Uint8Array;
    /** One of these is in every set that holds this one and cuts the part off. */
    readonly cutBy: Turns;
}

/** Of a part that is not in the network nothing is claimed: `already` is false and there are no sets. */
export function isolate(network: Network, positions: Positions, part: Id, sources: readonly Id[], { checks }: { readonly checks: Checks }): Isolation {
    const rest = atRest(network, checks);
    const starts = pointsOf(network, part).sort((a, b) => rest.rank[a]! - rest.rank[b]!);
    if (starts.length === 0) return NOTHING;
    const tanks = marked(network, sources);
    const shut = shutIn(network, positions);
    if (wayFrom(rest, shut, starts, tanks) === undefined) return { ...NOTHING, already: true };
    const usable = rest.turns.map(({ gang }) => !gang.includes(part));
    const open = always(network, rest, shut, starts, sources, usable);
    if (open.length > 0) return { ...NOTHING, cannot: cannotFor(network, open) };
    return search(network, rest, shut, starts, tanks, usable);
}

/** Whether no liquid of these tanks can come to a part with the valves so; never claimed of what is not in the network. */
export function isCutOff(network: Network, positions: Positions, part: Id, sources: readonly Id[], { checks }: { readonly checks: Checks }): boolean {
    const starts = pointsOf(network, part);
    return starts.length > 0 && wayFrom(atRest(network, checks), shutIn(network, positions), starts, marked(network, sources)) === undefined;
}

/** A mark at the point of each of these tanks. */
function marked({ points, tanks }: Network, ids: readonly Id[]): Uint8Array {
    const marks = new Uint8Array(points.length);
    for (const id of ids) { const point = tanks.get(id); if (point !== undefined) marks[point] = 1; }
    return marks;
}

function search(network: Network, rest: AtRest, first: Uint8Array, starts: readonly number[], tanks: Uint8Array, usable: readonly boolean[]): Isolation {
    const dead = new Map<number, Come>();
    const shutAfter = new Map<Turns, Uint8Array>();
    const found: Turns[] = [];
    const longer: Turns[] = [];
    const seen = new Set<string>();
    /** By the size that a set must have at least. */
    const waiting: Trial[][] = [];
    let unfinished: Isolation['unfinished'];
    /** Judges a candidate; no set that holds it is smaller than `least`. */
    const judge = (turns: Turns, shut: Uint8Array, least: number, into: Turns[]): void => {
        const ways = waysLeft(rest, turns, shut, starts, tanks, usable);
        const hopeless = ways.find(({ cutBy }) => cutBy.length === 0);
        if (ways.length === 0) { into.push(turns); shutAfter.set(turns, shut); } else if (hopeless) { if (!dead.has(hopeless.way.from)) dead.set(hopeless.way.from, hopeless.way); } else {
            const [narrowest] = [...ways].sort((a, b) => a.cutBy.length - b.cutBy.length);
            (waiting[Math.max(least, turns.length + ways.length)] ??= []).push({ turns, shut, cutBy: narrowest!.cutBy });
        }
    };
    judge([], first, 0, found);
    for (let size = 0; size < waiting.length && unfinished === undefined; size++) {
        const into = found.length === 0 ? found : longer;
        const smallest = [...found];
        // What waits at this size grows while it is gone through.
        level: for (const trial of waiting[size] ?? []) {
            for (const turn of trial.cutBy) {
                const turns = [...trial.turns, turn].sort((a, b) => a - b);
                const key = turns.join();
                if (seen.has(key) || smallest.some((set) => set.every((one) => turns.includes(one)))) continue;
                if (seen.size === MOST_TRIED) { unfinished = into === found ? 'sets' : 'alternatives'; break level; }
                seen.add(key);
                judge(turns, afterTurn(trial.shut, rest.turns[turn]!), size, into);
                if (longer.length === MOST_ALTERNATIVES) break level;
            }
        }
        if (into === longer) break;
    }
    const inOrder = (sets: readonly Turns[]): Turns[] => [...sets].sort((a, b) => { const i = a.findIndex((turn, at) => turn !== b[at]); return i < 0 ? 0 : a[i]! - b[i]!; });
    const blocked = blocking(network, first);
    const told = (set: Turns): IsolatingSet => ({ settings: set.map((turn) => rest.turns[turn]!.setting), blocks: blocked(shutAfter.get(set)!) });
    return {
        already: false, sets: inOrder(found).slice(0, MOST_SETS).map(told), more: Math.max(0, found.length - MOST_SETS), alternatives: inOrder(longer).map(told),
        cannot: found.length > 0 || unfinished !== undefined ? [] : cannotFor(network, [...dead.values()]), ...(unfinished !== undefined && { unfinished }),
    };
}

interface WayLeft {
    readonly way: Come;
    /** The turns that cut it, of gangs that were not turned yet. */
    readonly cutBy: Turns;
}

/** Ways on which liquid still comes, no two of which one turn cuts: so many turns more are needed at least. The last may be one that nothing cuts. */
function waysLeft(rest: AtRest, turns: Turns, shut: Uint8Array, starts: readonly number[], tanks: Uint8Array, usable: readonly boolean[]): WayLeft[] {
    const ways: WayLeft[] = [];
    const barred = shut.slice();
    for (let way = wayFrom(rest, barred, starts, tanks); way !== undefined; way = wayFrom(rest, barred, starts, tanks)) {
        const cutBy = new Set<number>();
        for (const passage of way.passages) for (const turn of rest.shutBy[passage]!) {
            if (usable[turn] && !turns.some((other) => rest.turns[other]!.gang === rest.turns[turn]!.gang)) cutBy.add(turn);
        }
        ways.push({ way, cutBy: [...cutBy].sort((a, b) => a - b) });
        if (cutBy.size === 0) break;
        for (const turn of cutBy) for (const passage of rest.turns[turn]!.shuts) barred[passage] = 1;
    }
    return ways;
}

/** Ways that no hand can cut at all, one for each tank that has one. */
function always(network: Network, rest: AtRest, shut: Uint8Array, starts: readonly number[], sources: readonly Id[], usable: readonly boolean[]): Come[] {
    const held = shut.map((mark, passage) => (mark === 1 || rest.shutBy[passage]!.some((turn) => usable[turn]) ? 1 : 0));
    return [...new Set(sources)].flatMap((id) => {
        const only = new Uint8Array(network.points.length);
        const point = network.tanks.get(id);
        if (point === undefined) return [];
        only[point] = 1;
        return wayFrom(rest, held, starts, only) ?? [];
    });
}

function cannotFor(network: Network, ways: readonly Come[]): Isolation['cannot'] {
    return ways.map(({ from, passages }) => ({ from: network.points[from]!, by: [...new Set(passages.flatMap((i) => network.passages[i]!.part ?? []))] })).sort((a, b) => (a.from < b.from ? -1 : 1));
}

/** All points of a part, fitting or consumer. */
function pointsOf(network: Network, id: Id): number[] {
    const ports = network.parts.get(id)?.ports ?? [];
    const named = [id, ...ports.map((port) => `${id}:${port}`)].flatMap((name) => network.index.get(name) ?? []);
    return [...new Set([...named, ...(network.through.get(id) ?? []).flatMap((i) => [network.passages[i]!.from, network.passages[i]!.to])])];
}

/** Which consumers' returns are blocked with these passages shut and were not before, in order of their ids. */
function blocking(network: Network, before: Uint8Array): (after: Uint8Array) => Id[] {
    const { linedUp, valves } = returnsOf(network);
    const isBlocked = (id: Id, shut: Uint8Array): boolean => returnIsBlocked(linedUp, id, new Set(valves.get(id)!.filter((i) => shut[i] === 1)));
    return (after) => [...valves].filter(([, own]) => own.some((i) => after[i]! > before[i]!)).map(([id]) => id).filter((id) => isBlocked(id, after) && !isBlocked(id, before));
}

/** Consumers whose return a hand blocks by one setting: they must be stopped first. */
export function blockedBy(network: Network, positions: Positions, { part, position }: Setting): readonly Id[] {
    const turn = atRest(network, 'tight').turns.find(({ gang, setting }) => setting.position === position && gang.includes(part));
    const shut = shutIn(network, positions);
    return turn ? blocking(network, shut)(afterTurn(shut, turn)) : [];
}

interface Returns {
    /** With every valve open. */
    readonly linedUp: LinedUp;
    /** For each consumer, the passages of valves that its return can come to. */
    readonly valves: ReadonlyMap<Id, readonly number[]>;
}

const returnsKnown = new WeakMap<Network, Returns>();

function returnsOf(network: Network): Returns {
    const known = returnsKnown.get(network);
    if (known) return known;
    const linedUp = lineUpNetwork(network, new Map(), 'all open');
    const valves = new Map([...network.consumers.keys()].sort().map((id) => {
        const points = reach(linedUp, linedUp.ways, [network.index.get(`${id}:out`)!]);
        return [id, network.passages.flatMap(({ kind, from, to }, i) => (kind === 'valve' && (points.has(from) || points.has(to)) ? i : []))] as const;
    }));
    const found = { linedUp, valves };
    returnsKnown.set(network, found);
    return found;
}
