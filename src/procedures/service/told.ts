/** What hands do at a step that the step's own words would not say: told in place of them, as data. The catalogue makes the sentences. */
import type { Id } from '../../model/boat';

type Tells<Tell extends string, With extends Readonly<Record<string, number | string | readonly string[] | undefined>>> = { readonly tell: Tell; readonly with: With };

export type Told =
    // A can in an emergency
    | Tells<'fill the can', { readonly tap: Id }>
    /** Its bottom so far over the part, m. */
    | Tells<'lash the can', { readonly part: Id; readonly over: number }>
    | Tells<'loosen the cap', { readonly can: Id }>
    /** What catches drips, m³: it is not the can that feeds. */
    | Tells<'drip can', { readonly part: Id; readonly holds: number }>
    /** The end of the line that is taken off the part is plugged. */
    | Tells<'part and plug', { readonly part: Id; readonly from: string; readonly side: 'supply' | 'return' }>
    | Tells<'hose on', { readonly part: Id; readonly side: 'supply' | 'return'; readonly tap: Id }>
    // Tags
    | Tells<'tag', { readonly valve: Id; readonly says: 'shut: engine on a can' | 'open filter: do not turn' | 'not bled: do not turn'; readonly about: Id }>
    // A duplex under way
    | Tells<'two people', { readonly engines: readonly Id[]; readonly part: Id }>
    | Tells<'listen', { readonly seconds: number; readonly engines: readonly Id[]; readonly part: Id; readonly valve: Id }>
    | Tells<'top up', { readonly part: Id; readonly seconds: number }>
    // Laying up
    | Tells<'water out', { readonly tank: Id }>
    | Tells<'treat the fuel', { readonly tank: Id; readonly full?: number | undefined }>
    | Tells<'vent open', { readonly tank: Id }>
    | Tells<'leave her', { readonly engines: readonly Id[] }>
    | Tells<'sea water', { readonly engine: Id }>
    /** Before any fuel moves, or to see what was reached. */
    | Tells<'sample', { readonly tank: Id; readonly when: 'before' | 'after' }>
    // After running dry
    /** At least so much, m³, so that the pickup stays covered when the lines have filled; not more than `full`. */
    | Tells<'fill the tank', { readonly tank: Id; readonly volume?: number | undefined; readonly full?: number | undefined }>
    // Transfer
    /** So much, m³ and s; at the latest to the mark, m³. */
    | Tells<'pump over', { readonly pump: Id; readonly to: Id; readonly volume: number; readonly likely: number; readonly mark: number }>
    // Shutoffs from afar
    | Tells<'pull', { readonly valve: Id }>
    // Of all
    | Tells<'sound', { readonly tank: Id }>
    | Tells<'count all', { readonly things: readonly string[] }>;
