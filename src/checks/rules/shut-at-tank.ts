import type { Course, Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { listed } from '../../model/words';
import { freeTag, type Check, type View } from '../check';
import { lengthMissing } from '../../analysis/missing';

/** A shutoff counts as at the tank within this length of pipe, m: common practice, from memory. */
export const AT_TANK = 0.15;

export const shutAtTank: Check = {
    code: 'SHUT-AT-TANK', severity: 'critical',
    statement: 'Every supply line has a manual shutoff at the tank fitting.',
    prevents: 'A burst or burnt hose feeds a fire or empties the tank into the bilge.',
    facts: 'what stands first in each supply course from a tank; the length of pipe before it',
    source: '46 CFR 182.455(b)(4) and 28.335(f) (2015 edition read): a shutoff at the tank connection; 150 mm is common practice',
    judge: (view) => view.boat.courses
        .filter((course) => course.service === 'supply' && view.network.tanks.has(course.from.part ?? '') && isFuel(view, course))
        .map((course) => shutoffAtTank(view, course)),
};

/** Of any course that begins at a tank: whether a manual shutoff stands at its fitting. */
export function shutoffAtTank(view: View, course: Course): Verdict {
    const tank = course.from.part!;
    // A course may end at the very selector that shuts it.
    const end = view.network.parts.get(course.to.part ?? '');
    const parts = [...course.parts.map((id) => view.network.parts.get(id)!), ...(end?.kind === 'selector' ? [end] : [])];
    const at = parts.findIndex((part) => shutsOff(part, course.to.port));
    const before = parts.slice(0, at < 0 ? parts.length : at);
    const pipes = before.filter((part) => part.kind === 'hose' || part.kind === 'tube');
    const others = before.filter((part) => !pipes.includes(part));
    // A selector far from the tank is no shutoff at the tank; one whose pipe nobody measured is not taken for one.
    const selectorOnly = at >= 0 && parts[at]!.kind === 'selector' && pipes.some((pipe) => !pipe.length);
    const known = pipes.reduce((sum, pipe) => sum + (pipe.length?.si ?? 0), 0);
    if (at >= 0 && others.length === 0 && !selectorOnly) {
        if (pipes.every((pipe) => pipe.length) && known <= AT_TANK) return { outcome: 'pass', about: course.id, rests: [{ about: parts[at]!.id }, ...pipes.map(({ id }) => ({ about: id, fact: 'length' }))] };
        const unknown = pipes.filter((pipe) => !pipe.length);
        if (known <= AT_TANK && unknown.length > 0) {
            return { outcome: 'cannot tell', about: course.id, missing: unknown.map((pipe) => lengthMissing(pipe, `${tank} and ${parts[at]!.name}`)) };
        }
    }
    const first = parts[0]?.course === course.id ? parts[0] : undefined;
    const tag = freeTag(view.boat, 'V');
    const what = at < 0 ? `${course.id} has no shutoff at all` : `the first shutoff of ${course.id}, ${parts[at]!.name}, stands behind ${listed(before.map((part) => part.name))}`;
    return {
        outcome: 'fail', about: first?.id ?? course.id,
        message: `There is no shutoff at the fitting of ${tank}: ${what}.`,
        reason: `If a line between ${tank} and the first valve bursts or burns, nothing stops the fuel.`,
        advice: `Put a quarter-turn full-bore shutoff between the fitting of ${tank} and ${first ? first.name : 'the line'}, to be worked from outside the space it is in.`,
        fix: { title: `Put a shutoff at ${tank}`, line: `shutoff ${tag}   normally open`, where: first ? { before: first.id } : { intoStartOf: course.id } },
        see: [{ id: tank, why: `${tank} feeds it` }],
    };
}

function shutsOff(part: Part, port: string | undefined): boolean {
    if (part.kind === 'shutoff') return !part.solenoid && !part.lockedOpen;
    return part.kind === 'selector' && part.positions.some((position) => position.joins.length === 0) && part.ports.includes(port ?? '');
}

const isFuel = (view: View, course: Course): boolean => (view.boat.tanks.find((tank) => tank.id === course.from.part)?.carries ?? 'diesel') === 'diesel';
