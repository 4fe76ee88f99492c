/** A service procedure that was made: steps in sections with what stands under them, and what is to be in hand. */
import type { Boat, Id, Job } from '../../model/boat';
import type { MissingFact } from '../../model/finding';
import type { ServiceStep } from '../../model/step';
import type { Attitude } from '../../analysis/tanks/attitude';
import type { Thresholds } from '../../analysis/opening/thresholds';
import type { DrawUp, Trap } from '../expected';
import type { Remark } from './remarks';
import type { Told } from './told';

export type { Remark } from './remarks';

/** Today's case, where it is known. */
export interface Condition {
    /** What tanks hold, m³. */
    readonly volumes: ReadonlyMap<Id, number>;
    readonly attitude: Attitude;
}

export interface ProcedureRequest {
    readonly jobs: readonly Job[];
    /** The line-ups to start from and to end in: the normal one, when none is said. */
    readonly starts?: Id;
    readonly ends?: Id;
    readonly today?: Condition;
}

export type Section = 'prepare' | 'isolate' | 'open' | 'renew' | 'close' | 'restore' | 'bleed' | 'start' | 'verify' | 'work' | 'finish';

export interface PlannedServiceStep {
    readonly step: ServiceStep;
    readonly section: Section;
    /** In place of the step's own words: what hands do there, in order. */
    readonly told?: Told;
    /** What to expect under it, as data for the catalogue of messages. */
    readonly remarks: readonly Remark[];
    /** Of a bleed step. */
    readonly traps?: readonly Trap[];
    readonly drawUp?: DrawUp;
}

export interface Needs {
    /** Pieces and seals by position. */
    readonly parts: readonly { readonly part: Id; readonly piece: string; readonly count: number; readonly ready?: 'only if it is not refitted' }[];
    /** Spanner sizes, m, with what each is for; and other tools in words. */
    readonly spanners: readonly { readonly size: number; readonly for: readonly Id[] }[];
    readonly tools: readonly string[];
    /** Clean fuel to have in hand, and what the cans must take, m³. */
    readonly fuel?: number;
    readonly can?: number;
    /** The cans that are put under something, each with what it must hold, m³. */
    readonly cans?: readonly { readonly under: Id; readonly holds?: number }[];
    readonly pads?: number;
}

/** What an opening does at the levels and leans of the boat, with the valves as they stand before isolating and after. */
export interface DrainsWhere {
    readonly part: Id;
    readonly opening: string;
    /** With the valves as they are before, no check counted: from which level on it floods upright, and from which lean on today or with the tanks as full as they are used. */
    readonly thresholds: readonly Thresholds[];
    /** The same with the tanks half full, where today is not known. */
    readonly atHalf?: readonly Thresholds[];
    /** Today, where that is known: what it would do with the valves as they are before, and once they are shut. */
    readonly today?: 'floods' | 'level' | 'falls back' | 'stays' | 'shut off' | 'cannot tell';
    /** How to stop it: the valves that isolate it. */
    readonly stops: readonly Id[];
    /** What can still come back by a return when those are shut, upright never, from these leans on. */
    readonly byReturn: readonly Thresholds[];
}

export interface ProcedurePlan {
    /** The boat that it is of, where that is not the boat as written: a can hangs in her, or a line-up that is not declared. */
    readonly on?: Boat;
    /** Her engines run from the start, and are not all stopped for it. */
    readonly underWay?: true;
    /** Where the words of its jobs do not say what is done. */
    readonly title?: string;
    /** What must be known before the first step, at the top of the page. */
    readonly preface?: readonly Remark[];
    /** Words of the jobs, joined: `renew F1 element, look F2 element`. */
    readonly id: string;
    readonly request: ProcedureRequest;
    readonly jobs: readonly Job[];
    readonly starts: Id;
    readonly ends: Id;
    /** Consumers that stand still meanwhile. */
    readonly consumers: readonly Id[];
    readonly fluid: 'fuel' | 'coolant';
    readonly takes: { readonly seconds: number; readonly people: number };
    readonly steps: readonly PlannedServiceStep[];
    readonly needs: Needs;
    readonly drainsWhere: readonly DrainsWhere[];
    /** Valves that isolate, that are proved, or that a caution relies on, in the order of the text: each belongs into the table of valves. */
    readonly leant?: readonly Id[];
    /** Expected readings and signs of success, for the verification and the log. */
    readonly acceptance: readonly Remark[];
    readonly log: readonly Remark[];
    readonly after: readonly Remark[];
    /** Defaults that were taken because nothing was said. */
    readonly defaults: readonly string[];
}

/** Why there is no procedure, and what would have to be known or changed first. */
export interface Blank {
    readonly blank: string;
    readonly missing: readonly MissingFact[];
}

export const isBlank = (made: ProcedurePlan | Blank): made is Blank => 'blank' in made;
export const jobWords = ({ verb, part, piece }: Job): string => [verb, part, piece].filter((word) => word !== undefined && word !== '').join(' ');
