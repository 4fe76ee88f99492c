/**
 * What all engines and generators of a line-up have to draw through. A tank is no such part here: a boat with one tank has
 * one by design, and a boat with several is turned to another by another line-up, which is judged by itself. So a tank that
 * all draw from is only mentioned where there is a part to tell of, and its fill and vent are not spoken of at all. Its
 * pickup is: a second one is the remedy. Heaters and exchangers do not count, neither as what stops nor as what goes on.
 *
 * Only what stops all is told. What two engines share while the generator runs on is a matter of the owner's judgement.
 */
import type { Consumer, Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { sharedPoints } from '../../analysis/topology/single-points';
import { listed } from '../../model/words';
import { isEngine, nameOf, nothing, type Check, type View } from '../check';
import { positionMissing } from '../../analysis/missing';

export const singlePoint: Check = {
    code: 'SINGLE-POINT', severity: 'advice',
    statement: 'No one component stops all propulsion and generator: in each line-up for running, no part but a tank stands on every way of the fuel to every engine and generator.',
    prevents: 'One air leak or one blocked filter on a common manifold stops everything.',
    facts: 'the network; the position of every valve in every line-up for running',
    source: 'common practice',
    judge: (view) => {
        const engines = view.boat.consumers.filter((consumer) => isEngine(view, consumer));
        if (engines.length < 2) return [nothing(engines.length === 0 ? 'there is no engine' : `${engines[0]!.id} is the only engine`)];
        const judged = view.runs.map((lineUp) => inLineUp(view, engines, lineUp));
        return [...judged.filter((one) => 'outcome' in one), ...together(view, judged.filter((one) => 'shared' in one))];
    },
};

interface Shared {
    readonly lineUp: ResolvedLineUp;
    readonly engines: readonly Id[];
    /** In the direction of flow, tanks left out. */
    readonly shared: readonly Id[];
    readonly tanks: readonly Id[];
}

function inLineUp(view: View, engines: readonly Consumer[], lineUp: ResolvedLineUp): Verdict | Shared {
    const linedUp = view.running(lineUp);
    const inlets = engines.map(({ id }) => `${id}:in`);
    const unplaced = lineUp.unplaced.filter((valve) => inlets.some((inlet) => partsBefore(view.allOpen, inlet).has(valve)));
    if (unplaced.length > 0) return { outcome: 'cannot tell', about: unplaced[0]!, missing: unplaced.map((valve) => positionMissing(valve, lineUp.id)) };
    const fed = engines.map(({ id }) => id).filter((id) => tanksBefore(linedUp, `${id}:in`).length > 0);
    if (fed.length < 2) return { outcome: 'not applicable', about: fed[0] ?? engines[0]!.id, why: `in line-up ${lineUp.id} ${fed.length === 0 ? 'no engine is' : `${fed[0]!} alone is`} fed` };
    const points = sharedPoints(linedUp, fed);
    const shared = points.filter((id) => !view.network.tanks.has(id));
    if (shared.length === 0) return { outcome: 'pass', about: 'vessel' };
    return { lineUp, engines: fed, shared, tanks: points.filter((id) => view.network.tanks.has(id)) };
}

/** Line-ups in which the same engines share the same parts are told together. */
function together(view: View, all: readonly Shared[]): Verdict[] {
    const groups = new Map<string, Shared[]>();
    for (const one of all) { const key = `${one.engines.join()} ${one.shared.join()}`; groups.set(key, [...(groups.get(key) ?? []), one]); }
    return [...groups.values()].map((group) => fails(view, group));
}

function fails({ boat }: View, group: readonly Shared[]): Verdict {
    const { engines, shared } = group[0]!;
    const lineUps = group.map(({ lineUp }) => lineUp.id);
    const tanks = [...new Set(group.flatMap((one) => one.tanks))];
    const names = shared.map((id) => nameOf(boat, id));
    const told = names.length > 5 ? [...names.slice(0, 4), `${names.length - 4} more parts`] : names;
    const all = engines.length === 2 ? `both ${listed(engines)}` : `all of ${listed(engines)}`;
    return {
        outcome: 'fail', about: shared[0]!, members: shared,
        message: `In line-up ${listed(lineUps)} the fuel of ${all} must go through ${listed(told)}.`,
        reason: `Blocked, shut or drawing air, ${shared.length > 1 ? 'any one of them' : 'it'} stops ${engines.length === 2 ? 'both' : 'all of them'} at once.`,
        advice: `Give ${listed(engines)} each a pickup and a line of its own; a crossover with a valve that is normally shut can still join them.`,
        see: [
            ...[...shared.slice(1), ...tanks].map((id) => ({ id, why: `feeds ${listed(engines)} too` })),
            ...lineUps.filter((id) => boat.lineUps.some((lineUp) => lineUp.id === id)).map((id) => ({ id, why: 'this line-up' })),
        ],
    };
}
