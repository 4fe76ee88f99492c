/** The filters of a boat as the questions about elements want them. */
import type { Boat, Id } from '../../model/boat';
import { least, most } from '../estimate';
import { onEveryWay } from '../topology/every-way';
import { networkOf } from '../topology/network';
import { running } from '../topology/paths';
import type { ResolvedLineUp } from '../topology/line-ups';
import type { TestedFilter } from './cleanliness';
import type { Element } from './life';

/** A filter with its element, for `lifeOf`; `follows` when all of its fuel comes through another one in this line-up. Undefined when nobody said how much dirt it holds. */
export function elementOf(boat: Boat, filter: Id, lineUp: ResolvedLineUp): Element | undefined {
    const part = boat.parts.find(({ id, kind }) => id === filter && kind === 'filter');
    return part?.dirt && { capacity: part.dirt, ...(part.beta && { beta: part.beta.si }), follows: filtersBefore(boat, `${filter}:in`, lineUp).length > 0 };
}

/**
 * The filters that state a β and the size that it is for, of those that all fuel for a consumer comes through in this line-up, nearest to the tank first:
 * for `behindFilters`. Of filters side by side none counts, since the fuel comes through one of them only.
 */
export function testedBefore(boat: Boat, consumer: Id, lineUp: ResolvedLineUp): readonly (TestedFilter & { readonly id: Id })[] {
    return filtersBefore(boat, `${consumer}:in`, lineUp).flatMap((id) => {
        const { beta, passes } = boat.parts.find((part) => part.id === id)!;
        // For a bound the worst of what was said counts: the least β, for particles from the largest size on.
        return beta && passes ? [{ id, beta: Math.max(1, least(beta)), passes: most(passes) }] : [];
    });
}

function filtersBefore(boat: Boat, point: string, lineUp: ResolvedLineUp): readonly Id[] {
    const network = networkOf(boat);
    const at = network.index.get(point);
    if (at === undefined) return [];
    return onEveryWay(running(network, lineUp.positions), [...network.tankPoints], [at]).flatMap((passage) => {
        const id = network.passages[passage]!.part;
        return id !== undefined && network.parts.get(id)?.kind === 'filter' ? [id] : [];
    });
}
