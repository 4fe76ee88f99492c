/**
 * What no longer holds fuel after parts were opened. Liquid leaves a segment in two ways: into the opening, when it
 * hangs above it and may flow to it; or away from the opening, downhill, to a tank, the air following. Where heights
 * are not known either may have happened. Of what stands behind an engine only its own gallery comes back through it.
 */
import type { Id } from '../../model/boat';
import { passesAtRest, reach, type LinedUp, type Network } from '../topology/network';
import { routes } from '../topology/routes';
import { span } from './heights';

/** Heights that differ by less than this are called level: trade practice, no source. */
export const LEVEL = 0.02;

export type Gas = ReadonlyMap<Id, 'air' | 'unknown'>;

export function afterOpening(linedUp: LinedUp, opened: readonly Id[]): Gas {
    const { network } = linedUp;
    const gas = new Map<Id, 'air' | 'unknown'>();
    for (const part of opened) {
        if (!network.through.has(part)) continue;
        const opening = openingHeight(network, part);
        for (const id of couldFlowIn(linedUp, part)) {
            const content = afterFlowIn(network, id, opening);
            if (content && gas.get(id) !== 'air') gas.set(id, content);
        }
        for (const id of couldFlowAway(linedUp, part, airEntersAt(network, part, opening))) if (!gas.has(id)) gas.set(id, 'unknown');
    }
    for (const part of opened) if (network.through.get(part)?.some((i) => network.passages[i]!.segment)) gas.set(part, 'air');
    return gas;
}

/** After the tanks ran dry: all that lies between any tank and the consumer. */
export function afterRunningDry(linedUp: LinedUp, consumer: Id): Gas {
    return new Map([...segmentsBefore(linedUp, consumer), consumer].map((id) => [id, 'air'] as const));
}

/** Segments on some way from a tank to the consumer, its own left out. */
export function segmentsBefore(linedUp: LinedUp, consumer: Id): ReadonlySet<Id> {
    const { network } = linedUp;
    const inlet = network.index.get(`${consumer}:in`)!;
    const found = routes(linedUp, network.tankPoints, [inlet], new Set(network.through.get(consumer)));
    return new Set([...found].map((i) => network.passages[i]!).filter((passage) => passage.segment).map((passage) => passage.part!));
}

function openingHeight(network: Network, part: Id): number | undefined {
    return network.parts.get(part)?.at?.up?.si ?? network.consumers.get(part)?.inlet?.up?.si;
}

/** Liquid runs in at the ports, but air comes in at the lid, and what lies below that may follow it away. */
const airEntersAt = (network: Network, part: Id, opening: number | undefined): number | undefined => (opening === undefined ? undefined : Math.max(opening, network.parts.get(part)?.lid?.up?.si ?? opening));

/** Segments from which liquid could come to the opened part. */
function couldFlowIn(linedUp: LinedUp, part: Id): Id[] {
    const { network, back } = linedUp;
    const own = new Set(network.through.get(part)!);
    const sources = reach(linedUp, back, ends(network, part), own);
    // What runs into a tank does not run on from it: its other pickups are no sources.
    const forward = segmentsBy(network, own, (_from, to) => sources.has(to) && !network.tankPoints.has(to));
    // The gallery of an engine that is not said to hold its own runs back by its inlet.
    const galleries = network.boat.consumers.filter(({ id, kind, backflow }) => (kind === 'engine' || kind === 'generator') && backflow !== 'blocks' && id !== part && !forward.includes(id) && sources.has(network.index.get(`${id}:in`)!)).map(({ id }) => id);
    return [...forward, ...galleries];
}

function afterFlowIn(network: Network, id: Id, opening: number | undefined): 'air' | 'unknown' | undefined {
    const height = span(network, id);
    if (opening === undefined || height === undefined) return 'unknown';
    if (height.high > opening + LEVEL) return 'unknown';
    // Level with the opening a pipe runs empty; a pump holds its own between its valves.
    return height.low >= opening - LEVEL && network.passages[network.through.get(id)![0]!]!.kind === 'plain' ? 'air' : undefined;
}

/** Segments downhill of the opening on a way to a tank; none further on than one that rises above the opening. */
function couldFlowAway(linedUp: LinedUp, part: Id, opening: number | undefined): Id[] {
    const { network, ways } = linedUp;
    const own = new Set(network.through.get(part)!);
    const uphill = new Set(own);
    network.passages.forEach((passage, i) => {
        const height = passage.segment ? span(network, passage.part!) : undefined;
        if (opening !== undefined && height !== undefined && height.high > opening + LEVEL) uphill.add(i);
    });
    const away = reach(linedUp, ways, ends(network, part), uphill);
    const toTank = reach(linedUp, linedUp.back, network.tanks.values(), uphill);
    // With no heights at all, liquid may also run on into what has no way to a tank.
    const blind = opening === undefined;
    return segmentsBy(network, uphill, (from, to) => away.has(from) && !network.tankPoints.has(from) && (blind || toTank.has(to)));
}

const ends = (network: Network, part: Id): number[] => network.through.get(part)!.flatMap((i) => [network.passages[i]!.from, network.passages[i]!.to]);

function segmentsBy(network: Network, without: ReadonlySet<number>, test: (from: number, to: number) => boolean): Id[] {
    const found = new Set<Id>();
    network.passages.forEach((passage, i) => {
        if (!passage.segment || without.has(i) || !passesAtRest(passage)) return;
        if (test(passage.from, passage.to) || (passage.kind === 'plain' && test(passage.to, passage.from))) found.add(passage.part!);
    });
    return [...found];
}
