/** Lines that could run a fuel tank out when they fail, each with what is computed of it once for the rules that ask. */
import type { Course, Id, Part } from '../model/boat';
import type { Verdict } from '../model/finding';
import { runsOut } from '../analysis/opening/siphon';
import type { Weighed } from '../analysis/opening/worst';
import type { ResolvedLineUp } from '../analysis/topology/line-ups';
import { isFuelTank, atFitting, type AtFitting } from './at-fitting';
import type { View } from './check';
import { shutoffAtTank } from './rules/shut-at-tank';

/** The line-ups in which somebody may be away from the valves: all for running and for service. */
export const declared = ({ lineUps, runs }: View): readonly ResolvedLineUp[] => [...new Set([...runs, ...lineUps.filter(({ use }) => use === 'service')])];

export const lineUpOf = (view: View, { plumbing }: NonNullable<Weighed['worst']>): Id => declared(view).find(({ positions }) => positions === plumbing.positions)!.id;

const partsIn = ({ boat, network }: View, services: readonly Course['service'][]): Id[] => boat.courses.filter(({ service }) => services.includes(service)).flatMap(({ parts }) => parts)
    .filter((id) => network.through.get(id)?.some((i) => network.passages[i]!.segment));

export interface Outgoing {
    readonly course: Course;
    readonly tank: Id;
    readonly fitting: Id;
    /** Whether a shutoff stands at the tank: as SHUT-AT-TANK sees it. */
    readonly valve: Verdict;
    readonly parts: readonly Id[];
}

/** Courses that begin at a pickup of a fuel tank. */
export const outgoing = (view: View): Outgoing[] => view.boat.courses.flatMap((course) => {
    const tank = course.from.part;
    if ((course.service !== 'supply' && course.service !== 'transfer') || !isFuelTank(view, tank)) return [];
    return [{ course, tank: tank!, fitting: `${tank!}.${course.from.port ?? ''}`, valve: shutoffAtTank(view, course), parts: partsIn(view, ['supply', 'transfer']) }];
});

export interface Incoming {
    readonly course: Course;
    readonly tank: Id;
    readonly fitting: Id;
    /** A check with its arrow to the tank, or a valve, at the fitting. */
    readonly held: AtFitting;
    readonly parts: readonly Id[];
}

/** Returns that end at a fuel tank. A valve that hands can shut holds the tank as one locked open does; that it must not be there is RETURN-NO-BLOCK's. */
export const incoming = (view: View): Incoming[] => view.boat.courses.flatMap((course) => {
    const tank = course.to.part;
    if (course.service !== 'return' || !isFuelTank(view, tank)) return [];
    const stops = (part: Part): boolean => (part.kind === 'check' && !part.reversed) || (part.kind === 'shutoff' && !part.solenoid);
    return [{ course, tank: tank!, fitting: `${tank!}.${course.to.port ?? ''}`, held: atFitting(view, course, 'end', stops), parts: partsIn(view, ['return']) }];
});

export const runningOut = (view: View, { fitting, parts }: Pick<Outgoing, 'fitting' | 'parts'>): Weighed => runsOut(view.boat, fitting, parts, declared(view).map(({ positions }) => positions));
