/**
 * The boat of the service oracle as plain data: metres, radians, litres. It shares no code with src and states nothing that
 * was not written; what is absent is not known, and what is not known is taken the careful way.
 */

/** Up from the datum, and where it is known forward and to starboard, m. */
export interface At { readonly up: number; readonly fwd?: number; readonly stbd?: number }

export type PlainKind = 'pipe' | 'filter' | 'check' | 'shutoff' | 'selector' | 'tee' | 'gauge' | 'hand pump' | 'lever pump' | 'electric pump' | 'other';

export interface PlainPart {
    readonly name: string;
    readonly kind: PlainKind;
    /** Points of its ports by name; most have `in` and `out`, a tee has one that is its own name. */
    readonly ports: readonly string[];
    readonly at?: At;
    readonly crest?: number;
    readonly low?: number;
    /** What it holds, L. */
    readonly litres?: number;
    readonly whenOff?: 'passes' | 'blocks';
    /** Which way round: its arrow points from `out` to `in`. */
    readonly reversed?: boolean;
    readonly lid?: At;
    readonly drain?: At;
    readonly vents: readonly { readonly name: string; readonly at?: At }[];
    readonly seals: readonly string[];
    readonly prefill?: 'allowed' | 'not on the clean side' | 'forbidden';
    readonly primary?: boolean;
    /** What each position joins; a shutoff has `open` and `shut`. */
    readonly positions?: Readonly<Record<string, readonly (readonly string[])[]>>;
    /** Turns with this one. */
    readonly gang?: string;
}

export interface PlainTank {
    readonly name: string;
    readonly fluid: 'fuel' | 'water';
    readonly box?: { readonly fwd: readonly [number, number]; readonly stbd: readonly [number, number]; readonly up: readonly [number, number] };
    readonly fittings: readonly { readonly name: string; readonly kind: 'pickup' | 'drop'; readonly mouth?: At; readonly top?: At; readonly litres?: number }[];
}

export interface PlainConsumer {
    readonly name: string;
    readonly kind: 'engine' | 'generator' | 'heater' | 'exchanger';
    readonly inlet?: At;
    readonly litres?: number;
    readonly vents: readonly { readonly name: string; readonly at?: At }[];
    readonly backflow?: 'passes' | 'blocks';
    readonly rail?: boolean;
    readonly selfBleeding?: boolean;
    readonly exhaust?: { readonly wet: boolean; /** Cranking seconds that flood it. */ readonly floods?: number };
}

export interface PlainBoat {
    readonly tanks: readonly PlainTank[];
    readonly consumers: readonly PlainConsumer[];
    readonly parts: readonly PlainPart[];
    /** Points that are one: `V1:in`, `T1.P1`, `E1:out`, a tee by its name. */
    readonly joins: readonly (readonly [string, string])[];
    /** Every valve in every line-up. */
    readonly lineUps: Readonly<Record<string, Readonly<Record<string, string>>>>;
    /** Line-ups in which she is laid up. */
    readonly laidUp: readonly string[];
    /** rad, and fractions of what a tank holds. */
    readonly envelope: { readonly heel: number; readonly trim: number; readonly low: number; readonly high: number };
}
