/** How she is kept and used: jobs and their intervals, the log, passages. */
import type { Id } from './id';
import type { Measure } from './measure';

/** A job is a verb, a part and a piece: renew F1 element. */
export interface Job {
    readonly verb: string;
    /** The plumbed part; absent for something that is only named, such as hoses or an impeller. */
    readonly part?: Id;
    readonly piece: string;
}

export interface Interval {
    readonly id: Id;
    readonly job: Job;
    /** Running hours in s. */
    readonly hours?: number;
    readonly months?: number;
    /** Days, for daily and weekly jobs. */
    readonly days?: number;
    readonly everyStart: boolean;
    /** The same one goes in again if it is clean and has run less than this, s. */
    readonly refitUnder?: number;
    readonly seals: readonly string[];
    readonly source?: string;
}

export interface LogEntry {
    readonly id: Id;
    readonly date: string;
    /** Hour-meter readings in s, by engine. */
    readonly hours: readonly { readonly engine: Id; readonly reading: number }[];
    readonly jobs: readonly Job[];
    readonly readings: readonly LogReading[];
    /** The date of the entry that this one corrects. */
    readonly corrects?: string;
}

/** A gauge in Pa above the surroundings (suction is negative), at a speed of the engine when that was written, or a dip in m. */
export interface LogReading {
    readonly about: Id;
    readonly of: 'gauge' | 'dip';
    readonly value: number;
    /** rev/s. */
    readonly speed?: number;
}

/** A passage that is planned. */
export interface Passage {
    readonly id: Id;
    /** ISO date. */
    readonly leaves?: string;
    /** Under engine, s. */
    readonly motors?: Measure;
    /** Of the engine, rev/s. */
    readonly speed?: Measure;
    /** The share that is added for weather and foul tides. */
    readonly margin?: Measure;
}
