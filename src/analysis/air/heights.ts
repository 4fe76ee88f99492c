/** Heights along the network, upright, m above the datum. */
import type { Id } from '../../model/boat';
import { fittingOf, joinedTo } from '../topology/joints';
import type { Network } from '../topology/network';

/** The lowest and highest point of a segment; undefined when an end of it is not known. */
export function span(network: Network, id: Id): Span | undefined {
    const answers = spansKnown.get(network) ?? new Map<Id, Span | undefined>();
    spansKnown.set(network, answers);
    if (!answers.has(id)) answers.set(id, findSpan(network, id));
    return answers.get(id);
}

interface Span {
    readonly low: number;
    readonly high: number;
}

/** Asked of every segment whenever a part is opened. */
const spansKnown = new WeakMap<Network, Map<Id, Span | undefined>>();

function findSpan(network: Network, id: Id): Span | undefined {
    const part = network.parts.get(id);
    const own = part?.at?.up?.si ?? network.consumers.get(id)?.inlet?.up?.si;
    if (own !== undefined && part?.kind !== 'hose' && part?.kind !== 'tube') return { low: own, high: own };
    const fitting = fittingOf(network.boat, id);
    const heights = fitting
        ? [fitting.mouth?.up?.si, fitting.top?.up?.si]
        : part ? [endHeight(network, `${id}:in`), endHeight(network, `${id}:out`)] : [];
    if (heights.length === 0 || heights.includes(undefined)) return undefined;
    const all = [...heights, part?.low?.up?.si, part?.crest?.up?.si].filter((height): height is number => height !== undefined);
    return { low: Math.min(...all), high: Math.max(...all) };
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

/** The height of one end of a pipe: that of the part it is joined to, through tees and gauges without heights. */
function endHeight(network: Network, end: string, seen: ReadonlySet<string> = new Set()): number | undefined {
    for (const other of joinedTo(network.boat, end)) {
        if (seen.has(other)) continue;
        const height = pointHeight(network, other, new Set([...seen, end, other]));
        if (height !== undefined) return height;
    }
    return undefined;
}

function pointHeight(network: Network, point: string, seen: ReadonlySet<string>): number | undefined {
    const [owner, port] = [point.split(':')[0]!, point.split(':')[1]];
    const part = network.parts.get(owner);
    if (part?.at?.up) return part.at.up.si;
    const consumer = network.consumers.get(owner);
    if (consumer) return consumer.inlet?.up?.si;
    const fitting = fittingOf(network.boat, point);
    if (fitting) return fitting.top?.up?.si;
    // A small part without a height of its own is as high as what is on its other side.
    const through: Record<string, string> = { in: 'out', out: 'in' };
    if (part && port !== undefined && port in through && part.kind !== 'hose' && part.kind !== 'tube') {
        const far = `${owner}:${through[port]!}`;
        return endHeight(network, far, new Set([...seen, far]));
    }
    return part?.kind === 'tee' ? endHeight(network, owner, seen) : undefined;
}
