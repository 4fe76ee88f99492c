/**
 * How hands cut a part that is to be opened off from tanks: the smallest sets of valve settings.
 *
 * Take one way on which liquid still comes. Whatever set cuts the part off must hold a setting that cuts this way, so try
 * each of them, and go on where liquid still comes. Every candidate is judged anew, since a selector that is turned opens
 * another way. Sets are tried by size, so the first that are found are the smallest, and none of that size is missed.
 */
import type { Id } from '../../model/boat';
import { afterTurn, atRest, shutIn, wayFrom, type AtRest, type Checks, type Come, type Setting } from './at-rest';
import { returnIsBlocked } from './isolation';
import { lineUpNetwork, type LinedUp, type Network, type Positions } from './network';

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
/** So many settings are tried, about a tenth of a second on a boat of 300 parts. */
const MOST_TRIED = 10_000;

const NOTHING: Isolation = { already: false, sets: [], more: 0, alternatives: [], cannot: [] };

interface Trial {
    /** Turns by number, ascending. */
    readonly turns: readonly number[];
    readonly shut: Uint8Array;
    /** A way on which liquid still comes. */
    readonly way: Come;
}

/** Of a part that is not in the network nothing is claimed: `already` is false and there are no sets. */
export function isolate(network: Network, positions: Positions, part: Id, sources: readonly Id[], { checks }: { readonly checks: Checks }): Isolation {
    const rest = atRest(network, checks);
    const starts = pointsOf(network, part).sort((a, b) => rest.rank[a]! - rest.rank[b]!);
    if (starts.length === 0) return NOTHING;
    const tanks = new Uint8Array(network.points.length);
    for (const id of sources) { const point = network.tanks.get(id); if (point !== undefined) tanks[point] = 1; }
    const shut = shutIn(network, positions);
    const way = wayFrom(rest, shut, starts, tanks);
    if (way === undefined) return { ...NOTHING, already: true };
    const usable = rest.turns.map(({ gang }) => !gang.includes(part));
    const open = always(network, rest, shut, starts, sources, usable);
    if (open.length > 0) return { ...NOTHING, cannot: told(network, open) };
    return search(network, rest, { turns: [], shut, way }, starts, tanks, usable);
}

function search(network: Network, rest: AtRest, first: Trial, starts: readonly number[], tanks: Uint8Array, usable: readonly boolean[]): Isolation {
    const dead = new Map<number, Come>();
    const found: Trial['turns'][] = [];
    const longer: Trial['turns'][] = [];
    const shutAfter = new Map<Trial['turns'], Uint8Array>();
    let tried = 0;
    let unfinished: Isolation['unfinished'];
    for (let trials = [first]; trials.length > 0 && unfinished === undefined;) {
        const into = found.length === 0 ? found : longer;
        const smallest = [...found];
        const next: Trial[] = [];
        const seen = new Set<string>();
        level: for (const trial of trials) {
            const turns = cutting(rest, trial, usable);
            if (turns.length === 0 && !dead.has(trial.way.from)) dead.set(trial.way.from, trial.way);
            for (const turn of turns) {
                const together = [...trial.turns, turn].sort((a, b) => a - b);
                const key = together.join();
                if (seen.has(key) || smallest.some((set) => set.every((one) => together.includes(one)))) continue;
                seen.add(key);
                if (++tried > MOST_TRIED) { unfinished = into === found ? 'sets' : 'alternatives'; break level; }
                const shut = afterTurn(trial.shut, rest.turns[turn]!);
                const way = wayFrom(rest, shut, starts, tanks);
                if (way !== undefined) { next.push({ turns: together, shut, way }); continue; }
                into.push(together);
                shutAfter.set(together, shut);
                if (longer.length === MOST_ALTERNATIVES) break level;
            }
        }
        if (into === longer) break;
        trials = next;
    }
    const order = (sets: readonly Trial['turns'][]): Trial['turns'][] => [...sets].sort((a, b) => { const i = a.findIndex((turn, at) => turn !== b[at]); return i < 0 ? 0 : a[i]! - b[i]!; });
    const blocked = blocking(network, first.shut);
    const spelt = (set: Trial['turns']): IsolatingSet => ({ settings: set.map((turn) => rest.turns[turn]!.setting), blocks: blocked(shutAfter.get(set)!) });
    return {
        already: false, sets: order(found).slice(0, MOST_SETS).map(spelt), more: Math.max(0, found.length - MOST_SETS), alternatives: order(longer).map(spelt),
        cannot: found.length > 0 || unfinished !== undefined ? [] : told(network, [...dead.values()]), ...(unfinished !== undefined && { unfinished }),
    };
}

/** The turns that cut the way on which liquid still comes, of gangs that were not turned yet. */
function cutting(rest: AtRest, { turns, way }: Trial, usable: readonly boolean[]): number[] {
    const found = new Set<number>();
    for (const passage of way.passages) for (const turn of rest.shutBy[passage]!) {
        if (usable[turn] && !turns.some((other) => rest.turns[other]!.gang === rest.turns[turn]!.gang)) found.add(turn);
    }
    return [...found].sort((a, b) => a - b);
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

function told(network: Network, ways: readonly Come[]): Isolation['cannot'] {
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
    const allOpen = allOpenOf(network);
    const valves = (shut: Uint8Array): Set<number> => new Set(network.passages.flatMap((_, i) => (shut[i] === 1 ? i : [])));
    const without = valves(before);
    const free = [...network.consumers.keys()].filter((id) => !returnIsBlocked(allOpen, id, without)).sort();
    return (after) => { const shut = valves(after); return free.filter((id) => returnIsBlocked(allOpen, id, shut)); };
}

const allOpenKnown = new WeakMap<Network, LinedUp>();

function allOpenOf(network: Network): LinedUp {
    const found = allOpenKnown.get(network) ?? lineUpNetwork(network, new Map(), 'all open');
    allOpenKnown.set(network, found);
    return found;
}
