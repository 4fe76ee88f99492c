/**
 * What liquid can come to while everything is stopped, and what hands can turn to keep it away. Built once for a boat, so
 * that thousands of settings can be tried one after another: ways as rows of numbers, a setting as a row of shut passages.
 *
 * Careful where a fact is not stated: a pump stops liquid only when that is said of it, and so does a consumer from its
 * return; a valve of which no position is known is open every way. A valve that hands cannot turn stays as the line-up has it.
 */
import type { Id } from '../../model/boat';
import { ganged, handPositions, hasPosition } from './line-ups';
import { isValve, type Network, type Passage, type Positions } from './network';

/** Whether check valves hold. The valves inside a pump that passes at rest are check valves too. */
export type Checks = 'tight' | 'leaky';

/** A valve turned to a position; all that is ganged with it turns along. */
export interface Setting {
    readonly part: Id;
    readonly position: string;
}

/** A setting that a hand can make, as what it does to passages. */
export interface Turn {
    readonly setting: Setting;
    /** All valves with one handle: one list for all turns of it, of which one counts at a time. */
    readonly gang: readonly Id[];
    readonly shuts: readonly number[];
    readonly opens: readonly number[];
}

export interface AtRest {
    /** For each point, where liquid comes from and by which passage, in an order that no order of declaration changes. */
    readonly from: readonly Int32Array[];
    readonly by: readonly Int32Array[];
    /** The place of each point in that order. */
    readonly rank: Int32Array;
    readonly isTank: Uint8Array;
    /** In order of part and position. */
    readonly turns: readonly Turn[];
    /** For each passage, the turns that shut it. */
    readonly shutBy: readonly (readonly number[])[];
    /** For the walks: where each point was met from. Marked by the number of the walk, so that nothing is to be cleared. */
    readonly scratch: { readonly met: Int32Array; readonly point: Int32Array; readonly passage: Int32Array; readonly queue: Int32Array; walks: number };
}

const known: Record<Checks, WeakMap<Network, AtRest>> = { tight: new WeakMap(), leaky: new WeakMap() };

export function atRest(network: Network, checks: Checks): AtRest {
    const found = known[checks].get(network) ?? build(network, checks);
    known[checks].set(network, found);
    return found;
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function build(network: Network, checks: Checks): AtRest {
    const { points, passages } = network;
    const rank = new Int32Array(points.length);
    points.map((_, i) => i).sort((a, b) => order(points[a]!, points[b]!)).forEach((point, place) => { rank[point] = place; });
    const lists: { from: number; by: number }[][] = points.map(() => []);
    passages.forEach((passage, by) => {
        const { forward, back } = passes(network, passage, checks);
        if (forward) lists[passage.to]!.push({ from: passage.from, by });
        if (back) lists[passage.from]!.push({ from: passage.to, by });
    });
    for (const list of lists) list.sort((a, b) => rank[a.from]! - rank[b.from]! || order(passages[a.by]!.part ?? '', passages[b.by]!.part ?? ''));
    const isTank = new Uint8Array(points.length);
    for (const point of network.tankPoints) isTank[point] = 1;
    const turns = turnsOf(network);
    const shutBy: number[][] = passages.map(() => []);
    turns.forEach(({ shuts }, turn) => { for (const passage of shuts) shutBy[passage]!.push(turn); });
    const numbers = (): Int32Array => new Int32Array(points.length);
    return {
        from: lists.map((list) => Int32Array.from(list, ({ from }) => from)), by: lists.map((list) => Int32Array.from(list, ({ by }) => by)),
        rank, isTank, turns, shutBy, scratch: { met: numbers(), point: numbers(), passage: numbers(), queue: numbers(), walks: 0 },
    };
}

function passes({ parts, consumers }: Network, passage: Passage, checks: Checks): { forward: boolean; back: boolean } {
    const leaks = checks === 'leaky';
    switch (passage.kind) {
        case 'joint': case 'plain': case 'valve': return { forward: true, back: true };
        case 'one-way': return { forward: true, back: leaks };
        case 'consumer': return { forward: true, back: consumers.get(passage.part!)?.backflow !== 'blocks' };
        case 'pump': {
            const blocks = passage.passesAtRest !== true && parts.get(passage.part!)?.whenOff === 'blocks';
            return { forward: !blocks, back: !blocks && leaks };
        }
    }
}

/** Every position that a hand can give a shutoff or a gang; a shutoff is only ever shut, since opening it stops nothing. */
function turnsOf({ boat, parts, through, passages }: Network): Turn[] {
    const turns: Turn[] = [];
    const done = new Set<Id>();
    for (const valve of [...parts.values()].filter(isValve).sort((a, b) => order(a.id, b.id))) {
        if (done.has(valve.id)) continue;
        const gang = ganged(boat, valve.id).flatMap((id) => parts.get(id) ?? []).filter((part) => handPositions(part).length > 0).sort((a, b) => order(a.id, b.id));
        const ids = gang.map(({ id }) => id);
        for (const id of ids) done.add(id);
        const positions = [...new Set(gang.flatMap(handPositions))].filter((name) => gang.length > 1 || valve.kind !== 'shutoff' || name === 'shut').sort(order);
        for (const position of positions) {
            const moved = gang.filter((part) => handPositions(part).includes(position));
            const own = moved.flatMap(({ id }) => through.get(id) ?? []);
            const isOpen = (i: number): boolean => passages[i]!.openIn?.has(position) ?? true;
            turns.push({ setting: { part: moved[0]!.id, position }, gang: ids, shuts: own.filter((i) => !isOpen(i)), opens: own.filter(isOpen) });
        }
    }
    return turns.sort((a, b) => order(a.setting.part, b.setting.part) || order(a.setting.position, b.setting.position));
}

/** A mark at each passage that is shut in a line-up. */
export function shutIn(network: Network, positions: Positions): Uint8Array {
    const answers = shutKnown.get(network) ?? new WeakMap<Positions, Uint8Array>();
    shutKnown.set(network, answers);
    const found = answers.get(positions) ?? Uint8Array.from(network.passages, ({ kind, part, openIn }) => {
        const position = positions.get(part ?? '');
        return kind === 'valve' && position !== undefined && hasPosition(network.boat, part!, position) && !openIn!.has(position) ? 1 : 0;
    });
    answers.set(positions, found);
    return found;
}

const shutKnown = new WeakMap<Network, WeakMap<Positions, Uint8Array>>();

/** What is shut after a turn more. */
export function afterTurn(shut: Uint8Array, { shuts, opens }: Turn): Uint8Array {
    const after = shut.slice();
    for (const passage of shuts) after[passage] = 1;
    for (const passage of opens) after[passage] = 0;
    return after;
}

export interface Come {
    /** The point that it comes from. */
    readonly from: number;
    /** Passages from there on. */
    readonly passages: readonly number[];
}

/** The shortest way on which liquid comes from one of the points marked in `sources`; what runs into a tank does not run on. */
export function wayFrom(rest: AtRest, shut: Uint8Array, starts: readonly number[], sources: Uint8Array): Come | undefined {
    const { met, point, passage, queue } = rest.scratch;
    const walk = ++rest.scratch.walks;
    let last = 0;
    for (const start of starts) {
        if (sources[start] === 1) return { from: start, passages: [] };
        if (met[start] !== walk) { met[start] = walk; point[start] = -1; queue[last++] = start; }
    }
    for (let first = 0; first < last; first++) {
        const at = queue[first]!;
        const [from, by] = [rest.from[at]!, rest.by[at]!];
        for (let i = 0; i < from.length; i++) {
            const next = from[i]!;
            if (met[next] === walk || shut[by[i]!] === 1) continue;
            met[next] = walk;
            point[next] = at;
            passage[next] = by[i]!;
            if (sources[next] === 1) return { from: next, passages: wayBack(rest, next) };
            if (rest.isTank[next] === 0) queue[last++] = next;
        }
    }
    return undefined;
}

function wayBack({ scratch: { point, passage } }: AtRest, from: number): number[] {
    const way: number[] = [];
    for (let at = from; point[at] !== -1; at = point[at]!) way.push(passage[at]!);
    return way;
}
