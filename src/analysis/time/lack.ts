/** What a figure in time cannot be told without, and what was taken where nothing is stated. */
import type { Id } from '../../model/boat';

export interface TimeLack {
    /** The tank, fitting, consumer, part, line-up or passage that it is about; `vessel` for the boat. */
    readonly about: Id;
    readonly of: LackOf;
}

/**
 * Of tanks: their shape and place, what is in them (`level`), their test pressure, and, for one that nothing comes out of, a pickup. Of fittings: the `mouth`, and
 * what a fill `takes`. Of consumers: their curves, how warm their return is (`returns`), the `limit` of fuel temperature, and a tank that feeds them (`pickup`). Of
 * the vessel: how warm the fuel is (`fuel`). Of passages: hours under engine and engine speed. `line` is a vent line, or the way between two tanks, that is not one row of pipes.
 */
export type LackOf =
    | 'shape' | 'level' | 'tested' | 'pickup' | 'mouth' | 'takes' | 'burns' | 'draws' | 'returns' | 'limit' | 'fuel' | 'motors' | 'speed' | 'moves'
    | 'bore' | 'length' | 'holds' | 'rate' | 'line';

/** Each lack once. */
export const eachLackOnce = (lacks: readonly TimeLack[]): TimeLack[] => lacks.filter(({ about, of }, i) => lacks.findIndex((other) => other.about === about && other.of === of) === i);

/** When something comes about, s: no sooner than, as a best guess, and no later than, unless it may never come. */
export interface When {
    readonly soonest: number;
    readonly si?: number;
    readonly latest?: number;
}
