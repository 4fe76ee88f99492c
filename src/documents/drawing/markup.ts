/**
 * What a drawing can show over the plain boat, as data: which things it marks, how, and what is said beside them. Schematic and elevation
 * draw the same.
 */
import type { Id } from '../../model/boat';
import type { Positions } from '../../analysis/topology/network';

export interface Markup {
    /** What the sheet is about, for its title: `Line-up RUN`, `F1 cut off`, `Step 7 of Renew F1 element`. */
    readonly title: string;
    /** The line-up that what is shown starts from, where it has one of its own. */
    readonly lineUp?: Id;
    /** The valves as they stand in it, where they differ from the line-up that is drawn. */
    readonly positions?: Positions;
    /** Its figures hold for tanks filled so far and for her leaning so, and for nothing else: an elevation draws her so. */
    readonly reckoned?: { readonly level: number | undefined; readonly heel: number };
    readonly marks: readonly Mark[];
    /** Sentences below the drawing, in the order in which they are read: what cannot be told is among them. */
    readonly notes: readonly string[];
}

export interface Mark {
    /** A part, pipe, tank, fitting (`T1.P1`), consumer or bleed point. */
    readonly about: Id;
    readonly as: Look;
    /** A few words beside it, such as `1`, `open`, `12 kPa suction`. */
    readonly words?: string;
}

/**
 * How a mark looks. Each is told by a line style, a shape or words first; `about` alone may use the sheet's one colour.
 *
 * live: fuel moves here, drawn heavier. dead: a leg that nothing moves in, drawn dashed and thin. suction, pressure: below or above the
 * pressure of the air around it. about: what this sheet is about. turned: a valve that is turned for it. open: stands open to the air
 * (a lid, a drain, a bleed point). number: its place in an order, in a ring. finding: a number of the list of findings. changed, added,
 * removed: clouded.
 */
export type Look = 'live' | 'dead' | 'suction' | 'pressure' | 'about' | 'turned' | 'open' | 'number' | 'finding' | 'changed' | 'added' | 'removed';
