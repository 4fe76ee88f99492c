/**
 * Single points of failure: what must hold for any liquid to come from a tank to a consumer.
 *
 * Take one way from a tank to the consumer; only what stands on it can be such a point. Walk along it, and from each of its
 * places on through everything beside it: what no walk beside it gets past is a single point. Each passage is looked at once.
 */
import type { Id } from '../../model/boat';
import type { LinedUp } from './network';
import { passagesOf, tanksBefore } from './paths';

/** Tanks, fittings and parts without any one of which nothing comes to the consumer, in the direction of flow; undefined when nothing comes anyway. */
export function singlePoints(linedUp: LinedUp, consumer: Id): readonly Id[] | undefined {
    const { network } = linedUp;
    const inlet = network.index.get(`${consumer}:in`);
    const way = inlet === undefined ? undefined : wayTo(linedUp, inlet);
    if (way === undefined) return undefined;
    const alone = necessary(linedUp, way);
    // What has several ways through it may be passed by one of them or by another: it is taken away as a whole.
    const needed = (id: Id, at: number): boolean => alone.has(at) || ((network.through.get(id)?.length ?? 0) > 1 && tanksBefore(linedUp, `${consumer}:in`, passagesOf(network, [id])).length === 0);
    return [...new Set(way.flatMap((place, at) => { const id = ownerOf(linedUp, place); return id !== undefined && needed(id, at) ? id : []; }))];
}

/** Without any one of which nothing comes to any of the consumers, of those that are fed at all; in the order in which it feeds the first. */
export function sharedPoints(linedUp: LinedUp, consumers: readonly Id[]): readonly Id[] {
    const [first, ...others] = consumers.flatMap((id) => { const found = singlePoints(linedUp, id); return found ? [found] : []; });
    return (first ?? []).filter((id) => others.every((found) => found.includes(id)));
}

/** A place is a point, or a passage by its number after all points. */
type Place = number;

/** The part, fitting or tank that a place belongs to; a port belongs to the passage behind it, and a joint to nothing. */
function ownerOf({ network }: LinedUp, place: Place): Id | undefined {
    if (place >= network.points.length) return network.passages[place - network.points.length]!.part;
    const name = network.points[place]!;
    return network.tanks.has(name) || network.parts.get(name)?.kind === 'tee' ? name : undefined;
}

/** The shortest way from a tank to a point, both included. */
function wayTo({ network, back }: LinedUp, inlet: number): readonly Place[] | undefined {
    const next = new Map<Place, Place>([[inlet, -1]]);
    const queue = [inlet];
    for (let i = 0; i < queue.length; i++) {
        const at = queue[i]!;
        if (network.tankPoints.has(at)) {
            const way = [at];
            for (let place = next.get(at)!; place !== -1; place = next.get(place)!) way.push(place);
            return way;
        }
        for (const { to: from, passage } of back[at]!) {
            if (next.has(from)) continue;
            // A passage that stands on a way already leads to a point that was met.
            const place = network.points.length + passage;
            next.set(place, at);
            next.set(from, place);
            queue.push(from);
        }
    }
    return undefined;
}

/** Places of the way, by their number on it, that nothing leads past. */
function necessary({ network, ways }: LinedUp, way: readonly Place[]): ReadonlySet<number> {
    const numbers = new Map(way.map((place, at) => [place, at]));
    const found = new Set<number>();
    const seen = new Set<Place>();
    const queue: Place[] = [];
    let furthest = -1;
    const meet = (place: Place): void => {
        const at = numbers.get(place);
        if (at !== undefined) furthest = Math.max(furthest, at);
        else if (!seen.has(place)) { seen.add(place); queue.push(place); }
    };
    /** From a point into its passages, and on to where they lead: a passage beside the way is entered from one end, since the other was met before. */
    const onward = (at: number): void => {
        for (const { to, passage } of ways[at]!) {
            const place = network.points.length + passage;
            if (numbers.has(place)) meet(place); else meet(to);
        }
    };
    for (const tank of network.tankPoints) meet(tank);
    for (let at = 0; at < way.length; at++) {
        for (let place = queue.pop(); place !== undefined; place = queue.pop()) onward(place);
        if (furthest === at) found.add(at);
        const place = way[at]!;
        if (place < network.points.length) onward(place);
        furthest = Math.max(furthest, Math.min(at + 1, way.length - 1));
    }
    return found;
}
