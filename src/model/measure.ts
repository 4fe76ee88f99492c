/** How well a fact is known, from the strongest to the weakest. */
export const GRADES = ['measured', 'touched', 'seen', 'inferred', 'told', 'unreached'] as const;
export type Grade = (typeof GRADES)[number];

/** Where a fact comes from: its grade, who said so, when, and the photograph that shows it. */
export interface Evidence {
    readonly grade?: Grade;
    readonly by?: string;
    /** ISO date or year, as written. */
    readonly on?: string;
    readonly photo?: string;
}

/** A quantity in SI. A range keeps both ends; `si` is then its middle. */
export interface Measure {
    readonly si: number;
    readonly low?: number;
    readonly high?: number;
    readonly about?: true;
}

/** A point in the boat, metres: up from the datum, forward of the transom, to starboard (port is negative). */
export interface Place {
    readonly up?: Measure;
    readonly fwd?: Measure;
    readonly stbd?: Measure;
}

/** One point of a curve, such as 2.4 L/h at 2400 rpm: flow in m³/s, speed in rev/s. */
export interface CurvePoint {
    readonly value: Measure;
    readonly at: Measure;
}
