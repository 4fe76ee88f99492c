/** What a figure in time cannot be told without, and what was taken where nothing is stated. */
import type { Id } from '../../model/boat';

export interface TimeLack {
    /** The tank, fitting, consumer, part, line-up or passage that it is about; `vessel` for the boat. */
    readonly about: Id;
    readonly of: LackOf;
}

export type LackOf =
    | 'shape' | 'mouth' | 'level' | 'pickup' | 'tested' // tanks and their fittings
    | 'burns' | 'draws' | 'returns' | 'limit' | 'exhaust' // consumers
    | 'speeds' | 'speed' | 'motors' | 'moves' | 'fuel' // vessel, passages, line-ups
    | 'bore' | 'length' | 'holds' | 'rate' | 'takes' | 'line' | 'position'; // parts

/** Each lack once. */
export const eachLackOnce = (lacks: readonly TimeLack[]): TimeLack[] => lacks.filter(({ about, of }, i) => lacks.findIndex((other) => other.about === about && other.of === of) === i);

/** When something comes about, s: no sooner than, as a best guess, and no later than, unless it may never come. */
export interface When {
    readonly soonest: number;
    readonly si?: number;
    readonly latest?: number;
}
