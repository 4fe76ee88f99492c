/** Whether a drain can run by itself when it is knocked open is computed from heights; it decides the weight. */
import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { canStandAbove } from '../../analysis/tanks/surface';
import { tanksBefore } from '../../analysis/topology/paths';
import { listed } from '../../model/words';
import { type Check, type View } from '../check';
import { plugMissing, waterMissing } from '../../analysis/missing';

export const drainPlugged: Check = {
    code: 'DRAIN-PLUGGED', severity: 'major',
    statement: 'The drain of each fuel filter has a cap or a plug.',
    prevents: 'A knee opens the drain and the tank siphons into the bilge.',
    facts: 'which filters have a drain; its plug; for the weight, heights of the drain and of the tanks',
    source: '46 CFR 182.455(b)(9) (2015 edition read): valves for removing water from diesel must have caps or plugs; binds small passenger vessels, used here as guidance',
    judge: (view) => view.boat.parts.filter((part) => part.kind === 'filter').map((filter) => judge(view, filter)),
};

function judge(view: View, filter: Part): Verdict {
    const { boat } = view;
    const about = filter.id;
    const ids = tanksBefore(view.allOpen, `${about}:in`);
    const tanks = boat.tanks.filter((tank) => ids.includes(tank.id));
    if (!tanks.some((tank) => (tank.carries ?? 'diesel') === 'diesel')) return { outcome: 'not applicable', about, why: 'no fuel tank feeds it' };
    if (!filter.drain && !filter.separatesWater) {
        return filter.role === 'primary' && !filter.plugged ? { outcome: 'cannot tell', about, missing: [waterMissing(filter)] } : { outcome: 'not applicable', about, why: 'no drain is written' };
    }
    if (filter.plugged) return { outcome: 'pass', about, rests: [{ about, fact: 'plugged' }, ...(filter.drain ? [{ about, fact: 'drain' }] : [])] };
    // Who wrote where the drain is has looked at it; that there is water to drain does not say what closes it.
    if (!filter.drain) return { outcome: 'cannot tell', about, missing: [plugMissing(filter)] };
    const above = tanks.filter((tank) => canStandAbove(boat, tank, filter.drain) !== 'no');
    const certain = above.some((tank) => canStandAbove(boat, tank, filter.drain) === 'yes');
    return {
        outcome: 'fail', about, rests: [{ about, fact: 'plugged' }, { about, fact: 'drain' }], severity: above.length === 0 ? 'minor' : 'major', message: `The drain of ${filter.name} has no cap or plug.`,
        reason: above.length === 0 ? 'Knocked open, it empties the bowl and lets air in.' : `Knocked open, it ${certain ? 'can' : 'may'} empty ${listed(above.map(({ id }) => id))} into the bilge${certain ? '' : ' (the heights that would tell are not all known)'}.`,
        advice: `Fit a plug or cap in the drain of ${filter.name}.`,
        fix: { title: `Put a plug in the drain of ${filter.name}`, line: 'plugged', where: { endOfLineOf: about } },
    };
}
