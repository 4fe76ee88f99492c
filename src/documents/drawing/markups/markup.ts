/** What can be shown over a boat, as data, and the markup for it; one file a kind. */
import type { Boat, Id } from '../../../model/boat';
import type { Markup } from '../markup';
import { bleedMarkup, type BleedShow } from './bleed';
import { changesMarkup } from './changes';
import { findingsMarkup, type ShownFinding } from './findings';
import { isolateMarkup } from './isolate';
import { lineUpMarkup } from './line-up';
import { pressureMarkup } from './pressure';
import { stepCount, stepMarkup, type ProcedureShown } from './step';

export type { ShownFinding } from './findings';
export type { ProcedureShown } from './step';

export type Show =
    /** What is live and what is dead in the line-up that is drawn. */
    | { readonly show: 'line-up' }
    /** Of the engines: rev/s, each at its fastest, or nothing running. */
    | { readonly show: 'pressure'; readonly speed: number | 'full' | 'stopped' }
    | { readonly show: 'bleed' } & BleedShow
    | { readonly show: 'isolate'; readonly part: Id }
    | { readonly show: 'findings' }
    | { readonly show: 'changes' }
    /** From 1, as the page numbers them. */
    | { readonly show: 'step'; readonly step: number; readonly of: ProcedureShown };

/** The boat, the state in which she is drawn, and what only the caller can have worked out. */
export interface Shown {
    readonly boat: Boat;
    /** The normal one, when none is said. */
    readonly lineUp?: Id;
    /** A share of the gross volume, from 0 to 1. */
    readonly level?: number;
    /** rad, positive with the starboard side down. */
    readonly heel?: number;
    /** As the report has them; for `findings`. */
    readonly findings?: readonly ShownFinding[];
    /** The same boat in view `drawn`; for `changes`. */
    readonly before?: Boat;
}

/** Why nothing can be shown, in a sentence or two. */
export interface Refused {
    readonly refused: string;
}

export function markupFor(show: Show, of: Shown): Markup | Refused {
    switch (show.show) {
        case 'line-up': return lineUpMarkup(of);
        case 'pressure': return pressureMarkup(of, show.speed);
        case 'bleed': return bleedMarkup(of, show);
        case 'isolate': return isolateMarkup(of, show.part);
        case 'findings': return findingsMarkup(of);
        case 'changes': return changesMarkup(of);
        case 'step': return stepMarkup(of, show.of, show.step);
    }
}

/** How many steps what is shown has, to walk through them; undefined where it has none. */
export const stepsOf = (show: Show, of: Shown): number | undefined => (show.show === 'step' ? stepCount(of, show.of) : undefined);
