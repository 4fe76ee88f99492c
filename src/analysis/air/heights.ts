/** Where the points of the network stand, and how high its segments reach, upright or leaning; m above the datum, in the leaned frame. */
import type { Id } from '../../model/boat';
import type { Place } from '../../model/measure';
import { UPRIGHT, heightOf, type Attitude } from '../tanks/attitude';
import { fittingOf, joinedTo } from '../topology/joints';
import type { Network } from '../topology/network';

/** The lowest and highest point of a segment; undefined when an end of it is not known. */
export function span(network: Network, id: Id, attitude: Attitude = UPRIGHT): Span | undefined {
    const places = placesOf(network, id);
    if (places === undefined) return undefined;
    const heights = places.map((place) => heightOf(place, attitude));
    if (heights.includes(undefined)) return undefined;
    return { low: Math.min(...(heights as number[])), high: Math.max(...(heights as number[])) };
}

export interface Span {
    readonly low: number;
    readonly high: number;
}

/** The ends of a segment and its stated low and crest; undefined when the height of an end is not known. */
export function placesOf(network: Network, id: Id): readonly Place[] | undefined {
    const answers = placesKnown.get(network) ?? new Map<Id, readonly Place[] | undefined>();
    placesKnown.set(network, answers);
    if (!answers.has(id)) answers.set(id, findPlaces(network, id));
    return answers.get(id);
}

/** Asked of every segment whenever a part is opened. */
const placesKnown = new WeakMap<Network, Map<Id, readonly Place[] | undefined>>();

function findPlaces(network: Network, id: Id): readonly Place[] | undefined {
    const part = network.parts.get(id);
    const own = part?.at ?? network.consumers.get(id)?.inlet;
    if (own?.up && part?.kind !== 'hose' && part?.kind !== 'tube') return [own];
    const fitting = fittingOf(network.boat, id);
    const ends = fitting
        ? [fitting.mouth, fitting.top]
        : part ? [endPlace(network, `${id}:in`), endPlace(network, `${id}:out`)] : [];
    if (ends.length === 0 || ends.some((end) => !end?.up)) return undefined;
    return [...ends, part?.low, part?.crest].filter((place): place is Place => place?.up !== undefined);
}

/**
 * Whether liquid runs over every one of these parts by the height of a surface alone: each must be known to stay below it.
 * A column that is full may pass over a crest as a siphon; one that holds air may not, so ask it of what holds air.
 */
export function runsBelow(network: Network, parts: readonly Id[], surface: number): 'yes' | 'no' | { readonly unknown: readonly Id[] } {
    const spans = parts.map((id) => ({ id, span: span(network, id) }));
    if (spans.some(({ span: found }) => found !== undefined && found.high >= surface)) return 'no';
    const unknown = spans.filter(({ span: found }) => found === undefined).map(({ id }) => id);
    return unknown.length === 0 ? 'yes' : { unknown };
}

/** The place of one end of a part: that of what it is joined to, through tees and gauges without heights. */
export function endPlace(network: Network, end: string, seen: ReadonlySet<string> = new Set()): Place | undefined {
    for (const other of joinedTo(network.boat, end)) {
        if (seen.has(other)) continue;
        const place = pointPlace(network, other, new Set([...seen, end, other]));
        if (place?.up !== undefined) return place;
    }
    return undefined;
}

/** The place of a point: of a port, a tee or a tank's fitting. */
export function pointPlace(network: Network, point: string, seen: ReadonlySet<string> = new Set()): Place | undefined {
    const [owner, port] = [point.split(':')[0]!, point.split(':')[1]];
    const part = network.parts.get(owner);
    if (part?.at?.up) return part.at;
    const consumer = network.consumers.get(owner);
    if (consumer) return consumer.inlet;
    const fitting = fittingOf(network.boat, point);
    if (fitting) return fitting.top;
    // A small part without a height of its own is as high as what is on its other side.
    const through: Record<string, string> = { in: 'out', out: 'in' };
    if (part && port !== undefined && port in through && part.kind !== 'hose' && part.kind !== 'tube') {
        const far = `${owner}:${through[port]!}`;
        return endPlace(network, far, new Set([...seen, far]));
    }
    return part?.kind === 'tee' ? endPlace(network, owner, seen) : undefined;
}
