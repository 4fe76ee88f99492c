import type { Part, PartKind } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { usualJobs } from '../../analysis/upkeep/practice';
import { capital } from '../../model/words';
import { nothing, type Check, type View } from '../check';

export const taskSet: Check = {
    code: 'TASK-SET', severity: 'document',
    statement: 'Every part that is serviced has an interval, an element that is renewed one in hours and one in months; a part that is only looked at or tested may have either.',
    prevents: 'What is forgotten.',
    facts: 'filters, strainers, primers, pumps and hoses; the lines of `tend`',
    source: 'makers of engines (from secondary sources)',
    judge: (view) => {
        const { boat } = view;
        const parts = boat.parts.filter((part) => SERVICED.has(part.kind));
        const hose = boat.parts.find((part) => part.kind === 'hose');
        const first = parts[0] ?? hose;
        if (!first) return [nothing('it has no part that is serviced')];
        if (boat.intervals.length === 0) return [fails(view, first, 'No interval is written for any part of this boat.')];
        return [...parts.map((part) => judge(view, part)), ...(hose ? [hoses(view, hose)] : [])];
    },
};

const SERVICED: ReadonlySet<PartKind> = new Set(['filter', 'strainer', 'hand primer', 'electric primer', 'lift pump', 'electric pump']);
const RENEWS: ReadonlySet<string> = new Set(['renew', 'refit', 'clean']);

function judge(view: View, part: Part): Verdict {
    const about = part.id;
    if (part.tag === undefined) return { outcome: 'cannot tell', about, missing: [{ about, fact: `the tag of ${part.name}`, how: `give it one, like \`${part.kind} ${TAGS[part.kind] ?? 'P'}9\`, so that an interval can name it` }] };
    const own = view.boat.intervals.filter((interval) => interval.job.part === about);
    if (own.length === 0) return fails(view, part, `${part.name} has no interval.`);
    const renewed = own.filter(({ job }) => RENEWS.has(job.verb));
    if (part.kind !== 'filter' || renewed.length === 0) return { outcome: 'pass', about };
    const [byHours, byMonths] = [renewed.some(({ hours }) => hours !== undefined), renewed.some(({ months, days }) => months !== undefined || days !== undefined)];
    if (byHours && byMonths) return { outcome: 'pass', about };
    return {
        outcome: 'fail', about, message: `The element of ${part.name} has an interval in ${byHours ? 'hours' : 'months'} only.`,
        reason: byHours ? 'In a year of little running it stays in for years, and water and growth with it.' : 'In a year of much running it clogs before its day.',
        advice: `Write both, like \`renew ${about} element every 250 h or 12 months\`.`, see: renewed.map(({ id }) => ({ id, why: 'its interval' })),
    };
}

const TAGS: Partial<Record<PartKind, string>> = { filter: 'F', strainer: 'ST', 'hand primer': 'PR', 'electric primer': 'EP', 'lift pump': 'LP', 'electric pump': 'EP' };

function hoses(view: View, first: Part): Verdict {
    const named = view.boat.intervals.some(({ job }) => job.part === undefined && job.piece === 'hoses');
    const each = view.boat.parts.filter((part) => part.kind === 'hose').every((hose) => view.boat.intervals.some(({ job }) => job.part === hose.id));
    return named || each ? { outcome: 'pass', about: first.id } : fails(view, first, 'The hoses have no interval.');
}

function fails({ boat }: View, part: Part, message: string): Verdict {
    const jobs = usualJobs(boat).filter((job) => (part.kind === 'hose' ? job.piece === 'hoses' : job.part === part.id));
    const line = jobs[0] ? [jobs[0].verb, jobs[0].part, jobs[0].piece, `every ${jobs[0].every}`].filter((word) => word !== undefined && word !== '').join(' ') : `renew ${part.tag ?? 'F1'} element every 250 h or 12 months`;
    return {
        outcome: 'fail', about: part.id, message: capital(message), reason: 'What has no interval is never due, and is forgotten.',
        advice: `Write lines like \`${line}\` into \`tend\`. In the editor "Write the usual intervals" writes them for all parts that have none.`,
    };
}
