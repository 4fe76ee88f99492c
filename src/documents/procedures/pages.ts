/** All procedures of a boat as pages: those that are made from her, and those that somebody wrote, which take the place of what would be made. */
import type { Boat, Job, ProcedureBlock } from '../../model/boat';
import type { MissingFact } from '../../model/finding';
import { isBlank, jobWords, type Blank, type ProcedurePlan } from '../../procedures/service/plan';
import { handWrittenPage } from './hand-written';
import { pageOf } from './page';
import { distinctNames } from './safe';
import type { Page } from './tree';

/** A line of the index: a job, and its page or why there is none. */
export interface Entry {
    /** The part; `boat` where the job has none. */
    readonly about: string;
    /** The job without its part. */
    readonly words: string;
    readonly jobs: readonly Job[];
    readonly page?: Page;
    readonly blank?: string;
    readonly missing?: readonly MissingFact[];
}

/** Jobs that are done together, and what was made of them. */
export interface Made { readonly jobs: readonly Job[]; readonly made: ProcedurePlan | Blank }

export const wordsOf = (jobs: readonly Job[]): string => jobs.map(jobWords).join(', ');

/** The procedure that somebody wrote for these jobs, in any order; what Orlop keeps is not somebody's. */
export const writtenFor = (boat: Boat, jobs: readonly Job[]): ProcedureBlock | undefined => {
    const key = (all: readonly Job[]): string => all.map(jobWords).sort().join(', ');
    return boat.procedures.find((block) => !block.kept && block.jobs.length > 0 && key(block.jobs) === key(jobs));
};

/** The page of some jobs: as it is written in the text, or as it was made. */
export function pageFor(boat: Boat, { jobs, made }: Made, issued?: string): Page | Blank {
    const block = writtenFor(boat, jobs);
    return block ? handWrittenPage(boat, block, issued) : isBlank(made) ? made : pageOf(boat, made, issued);
}

export function entriesOf(boat: Boat, cells: readonly Made[], issued?: string): Entry[] {
    const others = boat.procedures.filter((block) => !block.kept && !cells.some(({ jobs }) => writtenFor(boat, jobs) === block));
    const entries = [
        ...cells.filter(({ jobs }) => !isOfBoat(jobs)).map((cell): Entry => {
            const page = pageFor(boat, cell, issued);
            return { ...aboutOf(cell.jobs), jobs: cell.jobs, ...('blank' in page ? page : { page }) };
        }),
        ...others.map((block): Entry => ({ ...aboutOf(block.jobs, block.title), jobs: block.jobs, page: handWrittenPage(boat, block, issued) })),
    ];
    // What is done to one part stands together, in the order of the first of it.
    const order = [...new Set(entries.map(({ about }) => about))];
    const sorted = order.flatMap((about) => entries.filter((entry) => entry.about === about));
    const names = distinctNames(sorted.flatMap(({ page }) => (page ? [page.id] : [])));
    return sorted.map((entry) => (entry.page ? { ...entry, page: { ...entry.page, id: names.shift()! } } : entry));
}

/** Of a single part these say nothing: the boat is laid up as a whole. */
const isOfBoat = ([first]: readonly Job[]): boolean => first?.part !== undefined && (first.verb === 'lay up' || first.verb === 'recommission');

function aboutOf(jobs: readonly Job[], title = ''): { about: string; words: string } {
    const [first, ...others] = jobs;
    if (!first) return { about: 'boat', words: title };
    return others.length > 0 || first.part === undefined ? { about: first.part ?? 'boat', words: wordsOf(jobs) } : { about: first.part, words: [first.verb, first.piece].filter((word) => word !== '').join(' ') };
}
