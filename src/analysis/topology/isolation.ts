/** What can still come to a part that is opened, when hands have shut what they can. */
import type { Id, Part } from '../../model/boat';
import { NONE, reach, type LinedUp, type Positions } from './network';

export interface Coming {
    readonly points: ReadonlySet<number>;
    /** Parts and fittings that it comes through. */
    readonly met: ReadonlySet<Id>;
    readonly tanks: readonly Id[];
}

/**
 * Walks from some points against the flow, every way in every position, and stops only at what a hand can shut: a manual
 * shutoff, or a selector or changeover in a position in which the port on this side is joined to nothing. One position
 * counts at a time.
 */
export function comingTo(linedUp: LinedUp, starts: Iterable<number>, setting: Positions, without: ReadonlySet<number> = NONE): Coming {
    const { network, back } = linedUp;
    const points = new Set(starts);
    const met = new Set<Id>();
    const queue = [...points];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
        for (const way of back[at]!) {
            const id = network.passages[way.passage]!.part;
            const part = id === undefined ? undefined : network.parts.get(id);
            if (without.has(way.passage) || (part && shuts(part, network.points[at]!, setting))) continue;
            if (id !== undefined) met.add(id);
            if (points.has(way.to)) continue;
            points.add(way.to);
            if (!network.tankPoints.has(way.to)) queue.push(way.to);
        }
    }
    return { points, met, tanks: [...network.tanks].filter(([, point]) => points.has(point)).map(([id]) => id) };
}

/** Whether a hand can shut the part on the side of this point, a valve with positions by the one that it is set to. */
function shuts(part: Part, point: string, setting: Positions): boolean {
    if (part.kind === 'shutoff') return isManual(part);
    const port = point.slice(part.id.length + 1);
    const position = part.positions.find((other) => other.name === setting.get(part.id));
    return position !== undefined && !position.joins.some((group) => group.includes(port));
}

/** A shutoff that hands can shut. */
export const isManual = (part: Part): boolean => part.kind === 'shutoff' && !part.solenoid && !part.lockedOpen;

/** Whether what the consumer returns comes to no tank, nor back into its own supply, from where it draws the liquid again. */
export function returnIsBlocked(linedUp: LinedUp, consumer: Id, without: ReadonlySet<number> = NONE): boolean {
    const { index, tankPoints } = linedUp.network;
    const found = reach(linedUp, linedUp.ways, [index.get(`${consumer}:out`)!], without);
    return !found.has(index.get(`${consumer}:in`)!) && ![...tankPoints].some((point) => found.has(point));
}
