/** A service procedure as it stands in the text. */
import type { BleedLine } from './boat';
import type { Id } from './id';
import type { ServiceStep } from './step';
import type { Job } from './upkeep';

/** procedure renew F1 element, look F2 element "Change the primary element" starts RUN ends RUN 45 min one person { ... } */
export interface ProcedureBlock {
    readonly id: Id;
    readonly title?: string;
    readonly jobs: readonly Job[];
    readonly starts?: Id;
    readonly ends?: Id;
    /** s */
    readonly takes?: number;
    readonly people?: number;
    /** Written by Orlop and kept equal to what the boat gives. */
    readonly kept: boolean;
    /** Names in its head that are not in the boat. */
    readonly strangers?: readonly string[];
    readonly lines: readonly ProcedureLine[];
}

/** As a line of a bleed sequence, but that it may hold several steps: shut F1 lid, F1 drain. */
export interface ProcedureLine extends Omit<BleedLine, 'step'> {
    /** None for notes, remarks and lines that were not understood. */
    readonly steps: readonly ServiceStep[];
}
