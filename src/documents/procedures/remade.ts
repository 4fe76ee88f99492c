/** What was asked for when a page was issued, and the page made anew for it from the present model. */
import type { Boat } from '../../model/boat';
import { procedureFor } from '../../procedures/service/generate';
import type { Condition, ProcedureRequest } from '../../procedures/service/plan';
import { handWrittenPage } from './hand-written';
import type { Asked, IssuedPage, Remade } from './issued';
import { pageFor } from './pages';
import { safeName } from './safe';

/** The page as it would be issued now, or why there is none. */
export function remade(boat: Boat, { id, asked, title }: Pick<IssuedPage, 'id' | 'asked' | 'title'>): Remade {
    const { today, ...request } = asked;
    if (request.jobs.length > 0) return pageFor(boat, { jobs: request.jobs, made: procedureFor(boat, { ...request, ...(today && { today: conditionOf(today) }) }) });
    // Somebody wrote it, and named no job of the boat.
    const block = boat.procedures.find((other) => !other.kept && other.jobs.length === 0 && safeName(other.title ?? other.id) === id);
    return block ? handWrittenPage(boat, block) : { blank: `No procedure called ${title} is written any more.` };
}

/** What was asked for, as the register keeps it. */
export const askedOf = ({ jobs, starts, ends, today }: ProcedureRequest): Asked => ({
    jobs, ...(starts !== undefined && { starts }), ...(ends !== undefined && { ends }),
    ...(today && { today: { volumes: Object.fromEntries([...today.volumes].sort(([a], [b]) => (a < b ? -1 : 1))), heel: today.attitude.heel, trim: today.attitude.trim } }),
});

const conditionOf = ({ volumes, heel, trim }: NonNullable<Asked['today']>): Condition => ({ volumes: new Map(Object.entries(volumes)), attitude: { heel, trim } });
