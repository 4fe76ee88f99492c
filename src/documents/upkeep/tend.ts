/** Usual jobs as lines of a `tend` table, in aligned columns. */
import type { UsualJob } from '../../analysis/upkeep/practice';

export function tendLines(jobs: readonly UsualJob[]): string[] {
    const rows = jobs.map((job) => ({
        what: [job.verb, job.part, job.piece].filter((word) => word !== undefined && word !== '').join(' '),
        every: `every ${job.every}`,
        rest: [job.seals.length > 0 ? `with ${job.seals.join(', ')}` : '', job.source === 'common practice' ? job.source : `source "${job.source}"`].filter((word) => word !== '').join('   '),
    }));
    const what = Math.max(...rows.map((row) => row.what.length));
    const every = Math.max(...rows.map((row) => row.every.length));
    return rows.map((row) => `${row.what.padEnd(what)}   ${row.every.padEnd(every)}   ${row.rest}`.trimEnd());
}

export const tendBlock = (jobs: readonly UsualJob[]): string => `tend {\n${tendLines(jobs).map((line) => `  ${line}\n`).join('')}}\n`;
