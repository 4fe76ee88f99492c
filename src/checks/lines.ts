/** Lines that could run a fuel tank out when they fail, each with what is computed of it once for the rules that ask. */
import type { Course, Id, Part } from '../model/boat';
import type { MissingFact, Verdict } from '../model/finding';
import { runsOut } from '../analysis/opening/siphon';
import type { Worst } from '../analysis/opening/worst';
import type { ResolvedLineUp } from '../analysis/topology/line-ups';
import { reach } from '../analysis/topology/network';
import { eitherWay, passagesOf } from '../analysis/topology/paths';
import { atFitting, isFuelTank, type AtFitting } from './at-fitting';
import type { View } from './check';
import { distinct, missingOf, positionMissing } from '../analysis/missing';
import { shutoffAtTank } from './rules/shut-at-tank';

/** The line-ups that a line is judged in: all for running and for service. */
export const declared = ({ lineUps, runs }: View): readonly ResolvedLineUp[] => [...new Set([...runs, ...lineUps.filter(({ use }) => use === 'service')])];

export const lineUpOf = (view: View, { plumbing }: Worst): Id => declared(view).find(({ positions }) => positions === plumbing.positions)!.id;

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

/** Where a line would let its tank run out, or what would have to be known to say that it nowhere does. */
export function runningOut(view: View, { fitting, parts }: Pick<Outgoing, 'fitting' | 'parts'>): { readonly worst?: Worst; readonly missing: readonly MissingFact[] } {
    const { boat, network, allOpen } = view;
    const { worst, lacks } = runsOut(boat, fitting, parts, declared(view).map(({ positions }) => positions));
    if (worst) return { worst, missing: [] };
    // A selector that nobody placed joins nothing as far as is known; what lies behind it was not looked at.
    const met = reach(allOpen, eitherWay(allOpen), [network.index.get(fitting)!], passagesOf(network, boat.consumers.map(({ id }) => id)));
    const unplaced = declared(view).flatMap((lineUp) => lineUp.unplaced.filter((valve) => network.through.get(valve)?.some((i) => met.has(network.passages[i]!.from) || met.has(network.passages[i]!.to))).map((valve) => positionMissing(valve, lineUp.id)));
    return { missing: distinct([...unplaced, ...lacks.map((lack) => missingOf(boat, lack))]) };
}
