/**
 * Division: what no line touches at all is told here, once; PORT-ONCE is silent about its single ports, and speaks of those
 * of everything else, tees included. An engine that no line feeds is PATH-ONE's, where a line-up for running asks for it.
 */
import type { Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { orphansOf } from '../../analysis/topology/orphans';
import { nothing, type Check, type View } from '../check';

export const noOrphan: Check = {
    code: 'NO-ORPHAN', severity: 'document',
    statement: 'Every tank, selector and consumer is joined to some line.',
    prevents: 'A model that is not the boat.',
    facts: 'the ends of every course',
    source: 'logic of the network',
    judge: (view) => {
        const { boat } = view;
        const things = [...boat.tanks, ...boat.parts.filter(({ kind }) => kind === 'selector'), ...boat.consumers].map(({ id }) => id);
        const orphans = orphansOf(boat);
        return things.length === 0 ? [nothing('no tank, selector or engine is written')] : things.map((id) => judge(view, id, orphans));
    },
};

function judge({ boat, runs }: View, about: Id, orphans: ReadonlySet<Id>): Verdict {
    if (!orphans.has(about)) return { outcome: 'pass', about };
    if (runs.length > 0 && boat.consumers.some(({ id }) => id === about)) return { outcome: 'not applicable', about, why: 'nothing feeds it (see PATH-ONE)' };
    // It may be what the unfinished end is meant to name.
    const loose = boat.courses.flatMap(({ id, from, to }) => [{ id, end: from, side: 'begins' }, { id, end: to, side: 'ends' }]).filter(({ end }) => end.part === undefined && end.outside === undefined);
    if (loose.length > 0) return { outcome: 'cannot tell', about, missing: loose.map(({ id, side }) => ({ about: id, fact: `where ${id} ${side}`, how: 'name the tank, engine, tee or port of a selector there' })) };
    return {
        outcome: 'fail', about, message: `${about} is joined to nothing: no line of liquid begins or ends at it.`, reason: 'What is judged and bled without it may not be the boat as she is.',
        advice: `Write the course that begins or ends at ${about}, or remove it.`,
    };
}
