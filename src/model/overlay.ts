/** What surveys found and refits propose, and which of it a boat is read with. */
import type { Id } from './id';
import type { Evidence } from './measure';

/**
 * Which of the boat's surveys and refits are laid over what is drawn. `as is` takes all that surveys found but what is still
 * open; after a refit is as is with that refit.
 */
export type View = 'drawn' | 'found' | 'as is' | { readonly after: Id };

/** What was found (a survey) or is proposed (a refit), laid over what is drawn. */
export interface Overlay {
    readonly id: Id;
    readonly kind: 'survey' | 'refit';
    readonly title?: string;
    /** ISO date. */
    readonly on?: string;
    readonly by?: string;
    readonly changes: readonly Change[];
}

export interface Change {
    readonly id: Id;
    readonly do: 'insert' | 'remove' | 'set' | 'move' | 'end' | 'position';
    readonly about: Id;
    /** The line in one spelling. */
    readonly words: string;
    readonly evidence?: Evidence;
    readonly disposition?: Disposition;
}

export type Disposition = 'accept found' | 'drawing error' | 'defect A' | 'defect B' | 'defect C' | 'open';
