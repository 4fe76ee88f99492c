/**
 * Division: PATH-ONE asks for one tank each way; where that fails this rule is silent. RETURN-OVERFLOW tells how long it goes well, where that can be told: it is
 * then the finding of weight, and this one points to it.
 */
import type { Consumer } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsAfter, partsBefore } from '../../analysis/topology/paths';
import { litresAnHour } from '../../model/words';
import { type Check, type View } from '../check';
import { isTimed, wayRound } from '../mismatch';
import { positionMissing } from '../../analysis/missing';

export const supplyReturnMatch: Check = {
    code: 'SUPPLY-RETURN-MATCH', severity: 'major',
    statement: 'In each line-up for running, every consumer returns to the tank that it draws from; tanks joined by an open line count as one. A line-up that is declared a transfer is not judged.',
    prevents: 'The one tank overflows overboard while the other runs empty.',
    facts: 'the network; the position of every valve in every line-up for running',
    source: 'common practice',
    judge: (view) => view.boat.consumers.flatMap((consumer) => view.runs.map((lineUp) => judge(view, consumer, lineUp))),
};

function judge(view: View, consumer: Consumer, lineUp: ResolvedLineUp): Verdict {
    const { id } = consumer;
    if (!view.boat.joints.some((joint) => joint.from === `${id}:out`)) return { outcome: 'not applicable', about: id, why: 'no return course begins at it' };
    const lines = new Set([...partsBefore(view.allOpen, `${id}:in`), ...partsAfter(view.allOpen, `${id}:out`)]);
    const unplaced = lineUp.unplaced.filter((valve) => lines.has(valve));
    if (unplaced.length > 0) return { outcome: 'cannot tell', about: id, missing: unplaced.map((valve) => positionMissing(valve, lineUp.id)) };
    const round = wayRound(view, consumer, lineUp);
    if (round === 'elsewhere') return { outcome: 'not applicable', about: id, why: `it does not draw from one tank and return to one in line-up ${lineUp.id} (see PATH-ONE)` };
    if (round === 'same') return { outcome: 'pass', about: id };
    const { from, to } = round;
    const timed = !lineUp.stopped.includes(id) && isTimed(view, lineUp, to);
    const surplus = surplusOf(consumer);
    return {
        outcome: 'fail', about: id, ...(timed && { severity: 'advice' }), rests: surplus === undefined ? [] : [{ about: id, fact: 'draws' }, { about: id, fact: 'burns' }],
        message: `In line-up ${lineUp.id} ${id} draws from ${from} and returns to ${to}.${timed ? ' How long that goes well is told by RETURN-OVERFLOW.' : ''}`,
        reason: `${to} fills with what is not burnt${surplus === undefined ? '' : `, up to ${litresAnHour(surplus)}`}, until it runs out of its vent; ${from} empties sooner than the engine burns.`,
        advice: `Set the valves so that ${id} returns to ${from} in line-up ${lineUp.id}, and gang the two selectors; or declare the line-up \`transfer\`.`,
        see: [{ id: to, why: 'where it returns to' }, ...(view.boat.lineUps.length > 0 ? [{ id: lineUp.id, why: 'this line-up' }] : [])],
    };
}

/** The most that comes back, m³/s, at the speeds for which both curves have a point. */
function surplusOf({ draws, burns }: Consumer): number | undefined {
    const pairs = draws.flatMap((drawn) => burns.filter((burnt) => Math.abs(burnt.at.si - drawn.at.si) < 1e-6).map((burnt) => drawn.value.si - burnt.value.si));
    const most = Math.max(...pairs);
    return most > 0 && Number.isFinite(most) ? most : undefined;
}
