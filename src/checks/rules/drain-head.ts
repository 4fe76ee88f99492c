/**
 * Division: DRAIN-PLUGGED asks for a cap, so that a knee does not open the drain; this rule asks whether a hand that opens it to drain water sets the tank
 * running. Where the lid or the ports flood as well, HEAD-ON-OPEN tells of the same valve; where nothing can be shut at all, SHUTOFF-BEFORE-FILTER
 * and ISOLATE-FILTER-IN do. So what fails here is a drain that alone hangs low enough.
 */
import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { openingsOf } from '../../analysis/opening/openings';
import { capital, listed, mm } from '../../model/words';
import { type Check, type View } from '../check';
import { cornerWords } from '../corner';
import { openedIn, whenOpened } from '../opened';
import { shapeGrounds } from '../../analysis/missing';

export const drainHead: Check = {
    code: 'DRAIN-HEAD', severity: 'minor', slow: true,
    statement: 'A drain that lies below the highest level, at any heel and trim, of a tank that reaches it is shut off in a line-up for service: it would siphon. Where no line-up is for service, those for running are judged.',
    prevents: 'The tank follows the water into the can, and over its brim.',
    facts: 'height and place of the drain; shape and place of tanks; envelope; line-ups; valves and checks',
    source: 'common practice',
    judge: (view) => view.boat.parts.filter(({ kind }) => kind === 'filter').map((filter) => judge(view, filter)),
};

function judge(view: View, filter: Part): Verdict {
    const { boat } = view;
    const about = filter.id;
    const openings = openingsOf(boat).get(about)!;
    const drain = openings.find(({ name }) => name === 'drain');
    if (!drain) return { outcome: 'not applicable', about, why: 'no height of a drain is written' };
    const found = whenOpened(view, drain);
    if (found.outcome === 'cannot tell') return { outcome: 'cannot tell', about, missing: found.missing };
    if (found.outcome === 'stays dry') return { outcome: 'pass', about, rests: [{ about, fact: 'drain' }] };
    if (found.settings.length === 0) return { outcome: 'not applicable', about, why: 'nothing shuts it off (see SHUTOFF-BEFORE-FILTER and ISOLATE-FILTER-IN)' };
    if (whenOpened(view, openings[0]!).outcome === 'floods') return { outcome: 'not applicable', about, why: `its ${openings[0]!.name} can flood as well (see HEAD-ON-OPEN)` };
    const { lineUp, worst: { condition, from }, settings } = found;
    const valves = listed(settings.map(({ part, position }) => `${part} ${position}`));
    const { forService } = openedIn(view);
    return {
        outcome: 'fail', about, rests: [{ about, fact: 'drain' }, ...shapeGrounds(boat, from.tank)],
        message: `${capital(`the drain of ${filter.name}`)} will siphon ${from.tank} when it is opened: the liquid stands ${mm(from.head)} above it (${cornerWords(boat, condition, from.tank, lineUp.id)})${forService ? ', which is the line-up for service' : ', and no line-up is for service'}.`,
        reason: 'What begins as a cup of water goes on until the tank is level with the drain.',
        advice: forService ? `Set ${valves} in line-up ${lineUp.id}, and before the drain is opened.` : `Set ${valves} before the drain is opened, and write it: \`line-up SERVICE service from ${lineUp.id} { ${settings.map(({ part, position }) => `${part} ${position}`).join('   ')} }\`.`,
        see: settings.map(({ part, position }) => ({ id: part, why: `to be set ${position}` })),
    };
}
