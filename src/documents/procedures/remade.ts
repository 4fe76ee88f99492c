/** An issued page made anew from the present model: as it would be issued today. */
import type { Boat } from '../../model/boat';
import { procedureFor } from '../../procedures/service/generate';
import type { Condition } from '../../procedures/service/plan';
import type { Asked, IssuedPage, Remade } from './issued';
import { handWrittenPage } from './hand-written';
import { pageFor } from './pages';
import { safeName } from './safe';

export function remade(boat: Boat, { id, asked, title }: Pick<IssuedPage, 'id' | 'asked' | 'title'>): Remade {
    const { today, ...request } = asked;
    if (request.jobs.length > 0) return pageFor(boat, { jobs: request.jobs, made: procedureFor(boat, { ...request, ...(today && { today: conditionOf(today) }) }) });
    // Somebody wrote it, and named no job of the boat.
    const block = boat.procedures.find((other) => !other.kept && other.jobs.length === 0 && safeName(other.title ?? other.id) === id);
    return block ? handWrittenPage(boat, block) : { blank: `No procedure called ${title} is written any more.` };
}

const conditionOf = ({ volumes, heel, trim }: NonNullable<Asked['today']>): Condition => ({ volumes: new Map(Object.entries(volumes)), attitude: { heel, trim } });
