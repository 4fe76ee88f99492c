/** The steps of a procedure as data. The executor runs them, the documents print them, the language reads them. */
import type { Id } from './id';

/** What moves the liquid: a pump worked by hand, lever or electricity, or the height of a tank. */
export interface Driver {
    readonly by: 'hand' | 'lever' | 'electric' | 'gravity';
    /** The pump, or the tank for gravity. */
    readonly part: Id;
}

export type Step =
    /** open V1, shut V1, turn SV1 to PORT */
    | { readonly do: 'set'; readonly part: Id; readonly position: string }
    /** fill a part by hand before it is closed */
    | { readonly do: 'prefill'; readonly part: Id }
    | BleedStep
    /** work a lift pump's lever at an open vent, to see that it draws */
    | { readonly do: 'prove'; readonly part: Id; readonly vent: Id; readonly strokes: number }
    | StartStep;

/** Open one vent, work the driver until solid fuel comes, close the vent while still pumping. */
export interface BleedStep {
    readonly do: 'bleed';
    readonly vent: Id;
    readonly driver: Driver;
    /** What is expected, in strokes of a hand pump or seconds of an electric one or of gravity; absent when not known. */
    readonly expect?: Expectation;
}

export interface Expectation {
    readonly in: 'strokes' | 's';
    /** For what is known to be air (or, when nothing is, for what may be). */
    readonly likely: number;
    /** For all that may be air; by gravity also for what filters and fittings hinder. */
    readonly most: number;
    /** Past this it is not trapped air: stop and think. */
    readonly think: number;
}

export interface StartStep {
    readonly do: 'start';
    readonly engine: Id;
    readonly tries: number;
    /** Longest single attempt, s. */
    readonly seconds: number;
    /** Wet exhausts only. */
    readonly seacock?: 'open';
    /** Cranking seconds in all before the seacock is shut or the muffler drained; wet exhausts only. */
    readonly budget?: number;
}
