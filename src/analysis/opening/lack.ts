/** What is not known that an answer needs. The words for it are in analysis/missing.ts. */
import type { Id } from '../../model/boat';
import type { Place } from '../../model/measure';
import type { Attitude } from '../tanks/attitude';

export interface Lack {
    /** The part, tank or fitting that it is about; for an opening also its name. */
    readonly about: Id;
    readonly opening?: string;
    readonly of: 'height' | 'place' | 'shape' | 'tank place' | 'level' | 'mouth' | 'backflow' | 'when off' | 'position' | 'envelope';
}

/** What of a place is missing to tell its height at an attitude; undefined when nothing is. */
export function lackOf(about: Id, place: Place | undefined, { heel, trim }: Attitude, height: Lack['of'] = 'height', opening?: string): Lack | undefined {
    const named = opening === undefined ? { about } : { about, opening };
    if (!place?.up) return { ...named, of: height };
    return (heel !== 0 && !place.stbd) || (trim !== 0 && !place.fwd) ? { ...named, of: 'place' } : undefined;
}

/** Each lack once. */
export const eachOnce = (lacks: readonly (Lack | undefined)[]): Lack[] => lacks.filter((lack): lack is Lack => lack !== undefined)
    .filter((lack, i, all) => all.findIndex((other) => other.about === lack.about && other.of === lack.of && other.opening === lack.opening) === i);
