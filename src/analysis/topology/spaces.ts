/** Which spaces of the boat a pipe is known to be in. */
import type { Boat, Id, Part } from '../../model/boat';
import { joinedTo } from './joints';
import { isOutside, type Network } from './network';

/** Spaces that hold an engine: said so, or because an engine stands in them. */
export function machinerySpaces(boat: Boat): ReadonlySet<Id> {
    return new Set([
        ...boat.vessel.spaces.filter(({ machinery }) => machinery).map(({ id }) => id),
        ...boat.consumers.filter(({ kind }) => kind === 'engine' || kind === 'generator').flatMap(({ space }) => space ?? []),
    ]);
}

export interface Whereabouts {
    /** Its own, where it is said, and those of what its ends are made fast to. */
    readonly spaces: readonly Id[];
    readonly own?: Id;
    /** Whether the space of each end is known; the open air is known. */
    readonly bothEnds: boolean;
}

/** A gauge or a tee is screwed to what it is joined to, and is where that is; of any other part without a space nothing is known. */
export function whereabouts(network: Network, pipe: Part): Whereabouts {
    const ends = [`${pipe.id}:in`, `${pipe.id}:out`].map((end) => spacesAt(network, end));
    return { spaces: [...new Set([...(pipe.space === undefined ? [] : [pipe.space]), ...ends.flatMap(({ spaces }) => spaces)])], ...(pipe.space !== undefined && { own: pipe.space }), bothEnds: ends.every(({ known }) => known) };
}

function spacesAt({ boat, parts, consumers }: Network, end: string): { spaces: Id[]; known: boolean } {
    const spaces: Id[] = [];
    let known = false;
    const seen = new Set([end]);
    const queue = [end];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
        for (const point of joinedTo(boat, at)) {
            if (seen.has(point)) continue;
            seen.add(point);
            if (isOutside(point)) { known = true; continue; }
            const owner = point.split(':')[0]!;
            const part = parts.get(owner);
            if (part?.kind === 'hose' || part?.kind === 'tube') continue;
            const space = part?.space ?? consumers.get(owner)?.space ?? consumers.get(owner.split('.')[0]!)?.space ?? boat.tanks.find((tank) => tank.fittings.some((fitting) => fitting.id === point))?.space;
            if (space !== undefined) { spaces.push(space); known = true; } else if (part?.kind === 'gauge' || part?.kind === 'tee') {
                for (const other of part.kind === 'tee' ? [owner] : [`${owner}:in`, `${owner}:out`]) { seen.add(other); queue.push(other); }
            }
        }
    }
    return { spaces, known };
}
