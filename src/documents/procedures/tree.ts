/** A procedure as a document, before it is paper, a screen or an XML topic: one tree that every form is made from. */

import type { Drawing } from './drawing';

export interface Page {
    /** For file names and for other pages: `renew-F1-element`. */
    readonly id: string;
    readonly title: string;
    readonly boat: string;
    /** Somebody wrote it; it was not made from the boat. */
    readonly byHand?: true;
    /** What is wrong with it on the boat as she is written: it must not be followed before that is mended. */
    readonly faults?: readonly string[];
    /** For which state of the boat it holds. */
    readonly effectivity: Effectivity;
    readonly deferral: string;
    /** What it does and when, in a sentence. */
    readonly purpose: string;
    /** Time, people, line-ups and the like. */
    readonly summary: readonly Row[];
    /** What drains where, and how to stop it. */
    readonly drains: readonly string[];
    readonly tools: readonly string[];
    readonly parts: readonly PartRow[];
    /** The valves at the start, during the work and at the end. */
    readonly valves: readonly ValveRow[];
    readonly sections: readonly PageSection[];
    readonly acceptance: readonly Row[];
    /** Fields that are filled in by hand. */
    readonly log: readonly string[];
    readonly after: readonly string[];
    /** Where things are, once: all that is written of it. */
    readonly places?: readonly Row[];
    readonly taken: readonly string[];
    readonly drawing?: Drawing;
}

export interface Effectivity {
    /** The boat's model as a whole, and the facts that this page used: short digests. */
    readonly revision: string;
    readonly facts: string;
    readonly view: string;
    /** The day on which it was issued, ISO; a parameter. */
    readonly issued?: string;
}

export interface Row { readonly label: string; readonly value: string }
export interface PartRow { readonly count: string; readonly what: string; readonly where: string }
export interface ValveRow { readonly valve: string; readonly place: string; readonly start: string; readonly work: string; /** While it is bled, where that is neither as for the work nor as at the end. */ readonly bleed?: string; readonly end: string }

export interface PageSection {
    readonly heading: string;
    readonly steps: readonly PageStep[];
}

export interface PageStep {
    /** From 1, through the whole page. */
    readonly number: number;
    /** Before the action. */
    readonly cautions: readonly Hazard[];
    /** The tag in the margin, and where it is. */
    readonly tag?: string;
    readonly place?: string;
    readonly action: string;
    /** What the action consists of, in order, where one sentence does not hold it. */
    readonly does?: readonly string[];
    /** What is seen when it is right, under the action. */
    readonly signs: readonly string[];
    /** Somebody's own remarks. */
    readonly notes: readonly string[];
}

export interface Hazard {
    readonly signal: 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';
    readonly hazard: string;
    readonly consequence: string;
    readonly avoid: string;
}
