/** What comes to an opening in the line-ups in which hands open it: those for service, or for running where none is for service. */
import type { Id } from '../model/boat';
import type { MissingFact } from '../model/finding';
import { fullest } from '../analysis/opening/condition';
import type { Opening } from '../analysis/opening/openings';
import { plumbing } from '../analysis/opening/plumbing';
import { returnsOnly, supplyOnly } from '../analysis/opening/side';
import { weigh, type Weighed, type Worst } from '../analysis/opening/worst';
import { pointsOf } from '../analysis/opening/ways';
import { isolate, type Setting } from '../analysis/topology/isolating';
import { comingTo } from '../analysis/topology/isolation';
import { turned, type ResolvedLineUp } from '../analysis/topology/line-ups';
import { networkOf, type Network, type Positions } from '../analysis/topology/network';
import type { View } from './check';
import { distinct, missingOf, positionMissing } from '../analysis/missing';

export interface Floods {
    readonly outcome: 'floods';
    readonly lineUp: ResolvedLineUp;
    readonly worst: Worst;
    readonly tanks: readonly Id[];
    /** What hands can set there so that nothing comes; nothing where no setting does it. */
    readonly settings: readonly Setting[];
    /** Whether it comes along a supply, or by returns alone. */
    readonly along: 'supply' | 'return';
}

export type WhenOpened = { readonly outcome: 'stays dry' } | { readonly outcome: 'cannot tell'; readonly missing: readonly MissingFact[] } | Floods;

/** The line-ups in which parts are opened. */
export function openedIn({ lineUps, runs }: View): { readonly forService: boolean; readonly lineUps: readonly ResolvedLineUp[] } {
    const service = lineUps.filter(({ use }) => use === 'service');
    return service.length > 0 ? { forService: true, lineUps: service } : { forService: false, lineUps: runs };
}

/** One line-up for service that keeps it dry is enough; where there is none, every line-up for running must. */
export function whenOpened(view: View, opening: Opening): WhenOpened {
    const { forService, lineUps } = openedIn(view);
    const found = lineUps.map((lineUp) => inLineUp(view, opening, lineUp));
    const floods = found.filter((answer): answer is Floods => answer.outcome === 'floods');
    const unknown = found.find((answer) => answer.outcome === 'cannot tell');
    if (found.length === 0 || (forService ? found.some(({ outcome }) => outcome === 'stays dry') : floods.length === 0 && !unknown)) return { outcome: 'stays dry' };
    if (unknown && (forService || floods.length === 0)) return unknown;
    return floods.reduce((most, other) => (other.worst.from.head > most.worst.from.head ? other : most));
}

/**
 * Along supplies no check is relied on, as SHUTOFF-BEFORE-FILTER counts none; in a return a check counts, as it does for ISOLATE-FILTER-IN,
 * since a valve there could block it.
 */
function inLineUp(view: View, opening: Opening, lineUp: ResolvedLineUp): WhenOpened {
    const { boat, network, allOpen } = view;
    const { positions } = lineUp;
    if (lineUp.unplaced.length > 0) {
        const { met } = comingTo(allOpen, pointsOf(network, opening.part), new Map());
        const unplaced = lineUp.unplaced.filter((valve) => met.has(valve));
        if (unplaced.length > 0) return { outcome: 'cannot tell', missing: unplaced.map((valve) => positionMissing(valve, lineUp.id)) };
    }
    const [supplies, returns] = [networkOf(supplyOnly(boat)), networkOf(returnsOnly(boat))];
    const by = (side: Network, checks: 'tight' | 'leaky', backflow: 'passes' | 'blocks'): Weighed => weigh([plumbing(side, positions, checks, backflow)], [opening], fullest(boat));
    const [supply, back] = [by(supplies, 'leaky', 'blocks'), by(returns, 'tight', 'blocks')];
    // Every tank counts: a selector that is turned away from one may be turned to another.
    const cuts = (side: Network): readonly Setting[] => (['leaky', 'tight'] as const).map((checks) => isolate(side, positions, opening.part, [...side.tanks.keys()], { checks }).sets[0]?.settings ?? []).find((settings) => settings.length > 0) ?? [];
    // What cuts one side off may, by a selector that turns along, open the other: then the whole is asked at once.
    const together = (settings: readonly Setting[]): readonly Setting[] => {
        if (settings.length === 0) return settings;
        const after = settings.reduce<Positions>((at, { part, position }) => turned(boat, at, part, position), positions);
        const all = [...network.tanks.keys()];
        return isolate(network, after, opening.part, all, { checks: 'tight' }).already ? settings : isolate(network, positions, opening.part, all, { checks: 'tight' }).sets[0]?.settings ?? settings;
    };
    if (supply.worst) {
        const others = back.worst ? cuts(returns) : [];
        const own = cuts(supplies);
        const worst = back.worst && others.length > 0 && back.worst.from.head > supply.worst.from.head ? back.worst : supply.worst;
        return { outcome: 'floods', lineUp, worst, tanks: supply.tanks, settings: own.length === 0 ? [] : together([...own, ...others.filter(({ part }) => !own.some((setting) => setting.part === part))]), along: 'supply' };
    }
    if (back.worst) return { outcome: 'floods', lineUp, worst: back.worst, tanks: back.tanks, settings: together(cuts(returns)), along: 'return' };
    const lacks = [...supply.lacks, ...by(returns, 'tight', 'passes').lacks];
    return lacks.length > 0 ? { outcome: 'cannot tell', missing: distinct(lacks.map((lack) => missingOf(boat, lack))) } : { outcome: 'stays dry' };
}

/** As a sentence names it: the lid of F1. */
export const openingName = (name: string, { name: opening }: Opening): string => `the ${opening} of ${name}`;
