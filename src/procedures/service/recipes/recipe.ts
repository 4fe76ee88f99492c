/**
 * A recipe answers some jobs. Most give the work alone, what is opened and what is done there, and the frame puts around it what
 * every visit has: one isolation and one bleed for all the jobs that are done together. Others write all of their steps.
 */
import type { Boat, Id, Job } from '../../../model/boat';
import type { Blank, Needs, PlannedServiceStep, ProcedurePlan } from '../plan';
import type { Visit } from '../visit';

export interface Recipe {
    /** Its column in the table of procedures: `renew`, `lay up`, `transfer`. */
    readonly verb: string;
    /** Jobs of the boat that it adds to the table, beside those of every tagged part, tank and consumer. */
    readonly rows?: (boat: Boat) => readonly Job[];
    /** Whether the job is this recipe's to answer; of several the first in the table is asked. */
    readonly fits: (visit: Visit, job: Job) => boolean;
    readonly make: (visit: Visit, job: Job) => Work | Whole | Blank;
    /** The line-up that it starts from where none was asked for and it is not the normal one. */
    readonly starts?: (boat: Boat, job: Job) => Id | undefined;
}

/** One job in the middle of a visit. */
export interface Work {
    /** Openings in the order in which they are opened, the lowest first; isolation, cans, pads and air follow from them. */
    readonly opens: readonly Opened[];
    /** Done while all of that stands open: what is taken out, looked at, cleaned and fitted. Seals of a drain are the frame's. */
    readonly steps: readonly PlannedServiceStep[];
    /** Parts that hands work on without opening them: the engines on whose lines they lie stand still. */
    readonly touches?: readonly Id[];
    /** Done before anything is shut or opened. */
    readonly first?: readonly PlannedServiceStep[];
    /** Done when all is closed and bled, before anything is started. */
    readonly afterwards?: readonly PlannedServiceStep[];
    /** New pieces and seals. */
    readonly parts: Needs['parts'];
    readonly tools?: readonly string[];
    readonly defaults?: readonly string[];
    /** s, for the work alone. */
    readonly seconds: number;
}

export interface Opened {
    readonly part: Id;
    /** As `openingsOf` names it; `joint` of what is taken off whole. */
    readonly opening: string;
}

/** A visit that the recipe writes from its first step to its last; what it leaves out, the frame fills in. */
export interface Whole extends Partial<Pick<ProcedurePlan, 'on' | 'title' | 'preface' | 'consumers' | 'fluid' | 'takes' | 'drainsWhere' | 'acceptance' | 'log' | 'after' | 'defaults'>> {
    readonly whole: readonly PlannedServiceStep[];
    readonly needs?: Partial<Needs>;
    /** Where it ends in another line-up than was asked for. */
    readonly ends?: Id;
    /** Her engines run from the start, and are not stopped for it. */
    readonly underWay?: boolean;
}

export const isWhole = (made: Work | Whole): made is Whole => 'whole' in made;
