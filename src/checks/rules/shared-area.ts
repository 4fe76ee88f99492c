/** Division: FITTING-BORE judges a pickup against the pipe beside it, so here a pickup counts as a leg only where no pipe is shared. */
import type { Consumer, Id } from '../../model/boat';
import type { Measure } from '../../model/measure';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { areaOf } from '../../analysis/flow/pipe';
import { fittingOf } from '../../analysis/topology/joints';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsBefore } from '../../analysis/topology/paths';
import { figure, listed } from '../../model/words';
import { fromSI } from '../../model/units';
import { burnsFuel, nameOf, nothing, type Check, type View } from '../check';
import { boreMissing, distinct } from '../../analysis/missing';
import { least, most } from '../../analysis/estimate';
import { partsOnEveryWayTo } from '../../analysis/topology/every-way';

export const sharedArea: Check = {
    code: 'SHARED-AREA', severity: 'minor', slow: true,
    statement: 'Where several consumers that run in one line-up draw through one leg, its area at its smallest pipe is at least the sum of those of the branches that leave it, each at its smallest pipe.',
    prevents: 'With all of them running, the one that draws least well is starved.',
    facts: 'bores of pipes; the network; line-ups',
    source: 'handbooks, as common practice',
    judge: (view) => {
        const legs = view.runs.flatMap((lineUp) => legsIn(view, lineUp));
        // A line-up in which fewer run tells nothing more of the same leg.
        const worst = legs.filter((leg, i) => !legs.some((other, j) => sameLeg(leg, other) && (other.branches.length > leg.branches.length || (other.branches.length === leg.branches.length && j < i))));
        return worst.length === 0 ? [nothing('no two consumers draw through one leg at the same time')] : worst.map((leg) => judge(view, leg));
    },
};

interface Leg {
    readonly lineUp: Id;
    /** Pipes that all of them draw through, or a pickup. */
    readonly pipes: readonly Id[];
    readonly branches: readonly { readonly consumer: Id; readonly pipes: readonly Id[] }[];
}

const sameLeg = (one: Leg, other: Leg): boolean => one.pipes.join() === other.pipes.join();

function legsIn(view: View, lineUp: ResolvedLineUp): Leg[] {
    const { boat, network } = view;
    const linedUp = view.running(lineUp);
    const consumers = boat.consumers.filter((consumer) => burnsFuel(view, consumer) && !lineUp.stopped.includes(consumer.id));
    const isPipe = (id: Id): boolean => ['hose', 'tube'].includes(network.parts.get(id)?.kind ?? '');
    const along = new Map(consumers.map(({ id }) => [id, [...partsOnEveryWayTo(linedUp, `${id}:in`)].filter((part) => isPipe(part) || fittingOf(boat, part)?.kind === 'pickup')]));
    const users = new Map<Id, Consumer[]>();
    for (const consumer of consumers) for (const part of along.get(consumer.id)!) { const known = users.get(part); if (known) known.push(consumer); else users.set(part, [consumer]); }
    const groups = new Map([...users.values()].filter((group) => group.length > 1).map((group) => [group.map(({ id }) => id).join(), group]));
    return [...groups.values()].flatMap((group) => {
        const shared = along.get(group[0]!.id)!.filter((part) => users.get(part)!.length === group.length && users.get(part)!.every((user) => group.includes(user)));
        const pipes = shared.some(isPipe) ? shared.filter(isPipe) : shared;
        const branches = group.map(({ id }) => {
            const own = along.get(id)!;
            const others = consumers.filter((other) => other.id !== id).map((other) => partsBefore(linedUp, `${other.id}:in`));
            return { consumer: id, pipes: own.slice(own.indexOf(shared.at(-1)!) + 1).filter((part) => isPipe(part) && !others.some((parts) => parts.has(part))) };
        }).filter((branch) => branch.pipes.length > 0);
        return branches.length > 1 ? [{ lineUp: lineUp.id, pipes, branches }] : [];
    });
}

function judge(view: View, { lineUp, pipes, branches }: Leg): Verdict {
    const { boat, network } = view;
    const boreOf = (id: Id): Measure | undefined => network.parts.get(id)?.bore ?? fittingOf(boat, id)?.bore;
    const all = [...pipes, ...branches.flatMap((branch) => branch.pipes)];
    const missing: MissingFact[] = all.filter((id) => !boreOf(id)).map((id) => boreMissing({ id, name: nameOf(boat, id) }));
    if (missing.length > 0) return { outcome: 'cannot tell', about: pipes[0]!, missing: distinct(missing) };
    const smallest = (ids: readonly Id[]): Id => ids.reduce((small, id) => (boreOf(id)!.si < boreOf(small)!.si ? id : small));
    const leg = smallest(pipes);
    const rests: Ground[] = all.map((id) => ({ about: id, fact: 'bore' }));
    const narrow = branches.map((branch) => ({ consumer: branch.consumer, pipe: smallest(branch.pipes) }));
    const sum = (of: (bore: Measure) => number): number => narrow.reduce((total, { pipe }) => total + areaOf(of(boreOf(pipe)!)), 0);
    const short = (area: number, needed: number): boolean => area < needed * (1 - 1e-9);
    const certain = short(areaOf(most(boreOf(leg)!)), sum(least));
    if (!certain && !short(areaOf(least(boreOf(leg)!)), sum(most))) return { outcome: 'pass', about: leg, rests };
    const needed = sum(({ si }) => si);
    return {
        outcome: 'fail', about: leg, fact: 'bore', rests, ...(!certain && { severity: 'advice' }),
        message: `${listed(narrow.map(({ consumer }) => consumer))} draw through ${nameOf(boat, leg)} together in ${lineUp}: its ${mm(boreOf(leg)!.si)} bore has ${mm2(areaOf(boreOf(leg)!.si))}, and the branches `
            + `${listed(narrow.map(({ consumer, pipe }) => `to ${consumer} (${nameOf(boat, pipe)}, ${mm(boreOf(pipe)!.si)})`))} ${mm2(needed)}${certain ? '' : ', and not all of these bores are exact'}.`,
        reason: 'With all of them at full speed, the one that draws least well is starved.',
        advice: certain ? `Fit pipe of at least ${mm(Math.ceil(Math.sqrt((4 * needed) / Math.PI) * 1e4 - 1e-6) / 1e4)} bore where they share it, or give one of them a pickup of its own.` : 'Write the exact bores of these pipes, once they are measured.',
        see: narrow.map(({ consumer, pipe }) => ({ id: pipe, why: `the branch to ${consumer}` })),
    };
}

const mm = (si: number): string => `${figure(fromSI(si, 'mm'))} mm`;
const mm2 = (si: number): string => `${figure(fromSI(si, 'mm2'))} mm²`;
