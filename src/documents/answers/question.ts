/** What is asked of a boat, and the state in which it is asked. */
import type { Id } from '../../model/boat';

export type Question =
    | { readonly ask: 'isolate' | 'open'; readonly part: Id; readonly opening?: string }
    /** No part: after running dry. */
    | { readonly ask: 'air'; readonly after: readonly Id[] }
    | { readonly ask: 'paths'; readonly way: 'to' | 'from'; readonly consumer: Id }
    | { readonly ask: 'reach' }
    | { readonly ask: 'severed'; readonly line: Id }
    | { readonly ask: 'sounding'; readonly tank: Id }
    /** One part; the supply of a consumer or its return; or, with neither, all that flows. */
    | { readonly ask: 'flow'; readonly part?: Id; readonly way?: { readonly to: Id } | { readonly from: Id } }
    | { readonly ask: 'gauge'; readonly gauge: Id }
    | { readonly ask: 'suction' | 'back-pressure'; readonly consumer: Id }
    | { readonly ask: 'starve' | 'endurance' | 'overflow' };

/** A share of the gross volume, or m³. */
export type Level = { readonly share: number } | { readonly volume: number };

/** Angles in rad: heel positive with starboard down, trim positive with the bow up. */
export interface Circumstances {
    readonly level?: Level;
    /** Of single tanks. */
    readonly levels: ReadonlyMap<Id, Level>;
    readonly heel?: number;
    readonly trim?: number;
    readonly lineUp?: Id;
    /** Of the engines, rev/s. */
    readonly speed?: number;
    readonly elements?: 'clean' | 'dirty';
}
