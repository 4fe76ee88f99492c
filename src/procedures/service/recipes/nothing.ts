/** The last to be asked: why there is nothing of the kind to do to a part. */
import { blank, partOf } from './pieces';
import type { Recipe } from './recipe';

/** What is said where no part of any kind has such a job. */
const WHY: Readonly<Record<string, (name: string) => string>> = {
    work: (name) => `Nothing on ${name} is turned by hand, so there is nothing to work.`,
    bleed: (name) => `Bleeding is written for an engine, with what was opened: ask \`bleed E1 after opening ${name}\` with the engine's name.`,
    grease: (name) => `Nothing of ${name} that is greased is written.`,
};

export const NOTHING: readonly Recipe[] = Object.entries(WHY).map(([verb, why]) => ({
    verb, fits: (visit, job) => job.verb === verb && partOf(visit, job) !== undefined, make: (visit, job) => blank(why(partOf(visit, job)!.name)),
}));
