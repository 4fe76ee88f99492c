/** With every guess as it is likely, as it does least harm, or as it does most. */
import type { Measure } from '../../model/measure';
import { estimateOf, type Estimate } from '../estimate';

export type Guess = 'likely' | 'least' | 'most';

/** `harm`: whether more of it does harm, or less. */
export function guessOf(estimate: Estimate, guess: Guess, harm: 'more' | 'less' = 'more'): number {
    if (guess === 'likely') return estimate.si;
    return (guess === 'most') === (harm === 'more') ? estimate.most : estimate.least;
}

export const guessed = (measure: Measure, guess: Guess, harm?: 'more' | 'less'): number => guessOf(estimateOf(measure), guess, harm);

/** What is taken where nothing is stated, and how far off it may be. */
export interface Default extends Estimate {
    /** One sentence without its subject and its full stop, as a list of defaults has it. */
    readonly taken: string;
}
