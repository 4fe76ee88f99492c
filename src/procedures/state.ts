/** The state of the boat while a procedure runs: valve positions, and what each segment holds. */
import type { Id } from '../model/boat';
import type { Positions } from '../analysis/topology/network';

/** What a segment holds. `unknown` may be either: liquid may have run out of it. */
export type Content = 'fuel' | 'air' | 'unknown';

export interface BenchState {
    readonly positions: Positions;
    /** Segments that do not hold fuel; all others do. */
    readonly gas: ReadonlyMap<Id, Exclude<Content, 'fuel'>>;
    /** How many of a segment's vents have been bled, in order, since it last lost its fuel. */
    readonly bled: ReadonlyMap<Id, number>;
    /** Filled by hand: what air is left goes through with the flow. */
    readonly topped: ReadonlySet<Id>;
    /** Segments of other branches that were pushed air in. */
    readonly tainted: ReadonlySet<Id>;
}

export function startState(positions: Positions, gas: ReadonlyMap<Id, Exclude<Content, 'fuel'>>): BenchState {
    return { positions, gas, bled: new Map(), topped: new Set(), tainted: new Set() };
}

export const contentOf = (state: BenchState, segment: Id): Content => state.gas.get(segment) ?? 'fuel';
