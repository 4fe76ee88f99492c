import type { Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { orphansOf } from '../../analysis/topology/orphans';
import { listed } from '../../model/words';
import { type Check, type View } from '../check';

export const portOnce: Check = {
    code: 'PORT-ONCE', severity: 'critical',
    statement: 'Each port is joined to exactly one line.',
    prevents: 'An open pipe, or a drawing that shows what cannot be.',
    facts: 'the ends of every course',
    source: 'logic of the network',
    // What no line touches at all is NO-ORPHAN's.
    judge: (view) => { const orphans = orphansOf(view.boat); return [...fittings(view, orphans), ...consumers(view), ...selectors(view, orphans), ...tees(view)]; },
};

function fittings(view: View, orphans: ReadonlySet<Id>): Verdict[] {
    return view.boat.tanks.filter((tank) => !orphans.has(tank.id)).flatMap((tank) => tank.fittings.map((fitting) => {
        const courses = joined(view, fitting.id);
        // A vent or fill fitting may stand for its whole line; a tube into the tank with nothing on it is an open pipe.
        if (courses.length === 0 && (fitting.kind === 'vent' || fitting.kind === 'fill')) return { outcome: 'pass', about: fitting.id };
        return once(fitting.id, courses, fitting.id, 'Give each course a fitting of its own, or join the courses at a tee.');
    }));
}

function consumers(view: View): Verdict[] {
    return view.boat.consumers.flatMap((consumer) => ['in', 'out'].flatMap((port): Verdict[] => {
        const courses = joined(view, `${consumer.id}:${port}`);
        if (courses.length < 2) return courses.length === 1 ? [{ outcome: 'pass', about: consumer.id }] : [];
        return [once(consumer.id, courses, `The ${port === 'in' ? 'supply inlet' : 'return outlet'} of ${consumer.id}`, `Join the courses at a tee before ${consumer.id}.`)];
    }));
}

function selectors(view: View, orphans: ReadonlySet<Id>): Verdict[] {
    return view.boat.parts.filter((part) => part.kind === 'selector' && !orphans.has(part.id)).flatMap((part) => part.ports.map((port) =>
        once(part.id, joined(view, `${part.id}:${port}`), `Port ${port} of ${part.id}`, `Write the course that begins or ends at \`${part.id}.${port}\`, one and no more.`)));
}

function tees(view: View): Verdict[] {
    return view.boat.parts.filter((part) => part.kind === 'tee' && part.tag !== undefined).map((tee) => {
        const count = view.boat.joints.filter((joint) => joint.from === tee.id || joint.to === tee.id).length;
        if (count >= 3) return { outcome: 'pass', about: tee.id };
        return {
            outcome: 'fail', about: tee.id, severity: 'minor', message: `${tee.id} is a tee, but only ${count} of its pipes lead anywhere.`, reason: 'One of its ends is open, or the model is not finished.',
            advice: `Write the course that begins or ends at ${tee.id}, like \`supply course Branch from ${tee.id} to E2 { ... }\`, or remove the tee.`,
        };
    });
}

function joined(view: View, point: string): Id[] {
    return view.boat.joints.filter((joint) => joint.from === point || joint.to === point).map((joint) => joint.course);
}

function once(about: Id, courses: readonly Id[], name: string, advice: string): Verdict {
    if (courses.length === 1) return { outcome: 'pass', about };
    if (courses.length === 0) {
        return { outcome: 'fail', about, severity: 'minor', message: `${name} is joined to nothing.`, reason: 'It is an open pipe, or its course is not written yet.', advice: `Write the course that begins or ends there, or remove it.` };
    }
    return {
        outcome: 'fail', about, message: `${name} is joined to ${courses.length} courses: ${listed(courses)}.`, reason: 'One port takes one line; as written this cannot be built.', advice,
        see: [...new Set(courses)].map((id) => ({ id, why: 'ends here' })),
    };
}
