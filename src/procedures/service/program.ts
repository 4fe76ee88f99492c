/** What the executor runs, and what it finds. */
import type { Id, Job } from '../../model/boat';
import type { MissingFact } from '../../model/finding';
import type { ServiceStep } from '../../model/step';
import type { BrokenLaw, ServiceLaw } from './laws';
import type { Condition } from './plan';
import type { ServiceState } from './state';

/** A procedure as the executor takes it, generated or written by hand. */
export interface Program {
    readonly jobs: readonly Job[];
    /** Line-ups. */
    readonly starts: Id;
    readonly ends: Id;
    readonly steps: readonly ServiceStep[];
    readonly today?: Condition;
    /** Her engines run from the start, and are not stopped for it. */
    readonly underWay?: boolean;
}

export interface Executed {
    /** Before the first step, and after each. */
    readonly states: readonly ServiceState[];
    /** What each step breaks, one entry a step. */
    readonly broken: readonly (readonly BrokenLaw[])[];
    /** What is broken where it ends. */
    readonly atEnd: readonly BrokenLaw[];
}

/** The state after a step, and the laws that it breaks. A step that breaks one is done all the same, where it can be. */
export interface Done {
    readonly state: ServiceState;
    readonly broken: readonly BrokenLaw[];
}

export const breaks = (law: ServiceLaw, parts: readonly Id[], missing: readonly MissingFact[] = []): BrokenLaw => ({ law, parts, ...(missing.length > 0 && { missing }) });
export const isSound = ({ broken, atEnd }: Executed): boolean => atEnd.length === 0 && broken.every((laws) => laws.length === 0);
