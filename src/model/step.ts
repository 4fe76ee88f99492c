/** The steps of sequences and procedures as data. The executors run them, the documents print them, the language reads them. */
import type { Id } from './id';
import type { Job } from './upkeep';

/** What moves the liquid: a pump worked by hand, lever or electricity, or the height of a tank. */
export interface Driver {
    readonly by: 'hand' | 'lever' | 'electric' | 'gravity';
    /** The pump, or the tank for gravity. */
    readonly part: Id;
}

/** A step of a bleed sequence. */
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

/** A step of a service procedure: a bleeding step, or what hands do around it. */
export type ServiceStep = Step | HandStep;

export type HandStep =
    | OpeningStep | HoldStep | PieceStep | LookStep | SwitchStep | PlaceStep | RunStep | CautionStep | SequenceStep
    /** stop E1 key out, stop TP1; with the key goes the stop control */
    | { readonly do: 'stop'; readonly part: Id; readonly keyOut?: true }
    /** clean F1 bowl */
    | { readonly do: 'clean'; readonly part: Id; readonly piece: string }
    /** read G1 expect 0.4 to 1.4 inHg at 2400 rpm: Pa above the surroundings (suction is negative), rev/s */
    | { readonly do: 'read'; readonly gauge: Id; readonly expect?: { readonly low: number; readonly high: number }; readonly speed?: number }
    /** wait 10 min */
    | { readonly do: 'wait'; readonly seconds: number }
    /** log renew F1 element */
    | { readonly do: 'log'; readonly jobs: readonly Job[] };

/** open F1 lid, shut F1 drain, open S1 joint: what is opened as `openingsOf` names it, a bleed point by its tag. */
export interface OpeningStep {
    readonly do: 'open' | 'close';
    readonly part: Id;
    readonly opening: string;
}

/** prove V1 by draining F1 until the stream dies within 10 s: shows that the valves hold. */
export interface HoldStep {
    readonly do: 'hold';
    readonly valves: readonly Id[];
    readonly part: Id;
    readonly opening: string;
    /** s */
    readonly within: number;
}

/** remove F1 element, lid ring; fit F1 element, lid ring; refit F2 element. No piece means the whole part. */
export interface PieceStep {
    readonly do: 'remove' | 'fit';
    readonly part: Id;
    readonly pieces: readonly string[];
    /** What was taken out goes in again; a new one otherwise. */
    readonly again?: true;
}

/** look F1 bowl "water, slime"; without a part: look all joints "dry card". */
export interface LookStep {
    readonly do: 'look';
    readonly part?: Id;
    readonly piece: string;
    readonly words?: string;
}

/** What a procedure sets that is not plumbed: set bilge pump off, set battery switch off, set E1 seacock open. */
export interface SwitchStep {
    readonly do: 'switch';
    readonly thing: 'bilge pump' | 'battery switch' | 'seacock';
    /** The engine whose seacock it is. */
    readonly of?: Id;
    readonly to: 'off' | 'auto' | 'on' | 'open' | 'shut';
}

/** place can 2 L under F1, place 4 pads under F1. */
export interface PlaceStep {
    readonly do: 'place';
    readonly thing: 'can' | 'pads';
    readonly part: Id;
    /** m³, of a can. */
    readonly holds?: number;
    /** Of pads. */
    readonly count?: number;
}

/** run E1 at 1300 rpm for 5 min; run E1 at 2400 rpm for 10 min in gear; run TP1 until T2 holds 100 L. */
export interface RunStep {
    readonly do: 'run';
    readonly part: Id;
    /** rev/s */
    readonly speed?: number;
    /** s */
    readonly seconds?: number;
    readonly inGear?: true;
    /** Until a tank holds so much, m³. */
    readonly until?: { readonly tank: Id; readonly holds: number };
}

export type CautionTopic = 'fire' | 'flood' | 'skin' | 'spill' | 'starter' | 'jet' | 'exhaust' | 'scald' | 'waste' | 'underway' | 'overfill' | 'rail';

/** A caution stands before the step that it is for. What it says is the table's to tell, unless somebody wrote it. */
export interface CautionStep {
    readonly do: 'caution';
    readonly topic: CautionTopic;
    /** Of `flood`: the part. */
    readonly part?: Id;
    readonly signal?: 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';
    readonly text?: string;
}

/** do bleed E1 after opening F1, F2 prefilled F1: the steps of that bleed sequence, from the state that the boat is then in. */
export interface SequenceStep {
    readonly do: 'sequence';
    readonly engine: Id;
    readonly opened: readonly Id[];
    readonly prefilled: readonly Id[];
    readonly ranDry?: true;
}
