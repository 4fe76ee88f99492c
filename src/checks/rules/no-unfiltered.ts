import type { Consumer, Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsBefore, passagesOf, tanksBefore } from '../../analysis/topology/paths';
import { listed } from '../../model/words';
import { filtersOf, isEngine, type Check, type View } from '../check';
import { finalMissing, positionMissing } from '../../analysis/missing';

export const noUnfiltered: Check = {
    code: 'NO-UNFILTERED', severity: 'critical',
    statement: 'In no line-up does fuel reach an engine past its final filter.',
    prevents: 'Ruined injectors.',
    facts: 'the network; which filters are final; the position of every valve in every line-up',
    source: 'makers of engines; TM 5-685 / NAVFAC MO-912, filters: no bypass or relief around filters and strainers',
    judge: (view) => view.boat.consumers.filter((consumer) => isEngine(view, consumer)).flatMap((consumer) => judge(view, consumer)),
};

function judge(view: View, consumer: Consumer): Verdict[] {
    const inlet = `${consumer.id}:in`;
    const filters = filtersOf(view, consumer);
    if (tanksBefore(view.allOpen, inlet).length === 0) return [{ outcome: 'not applicable', about: consumer.id, why: 'no tank feeds it' }];
    if (filters.length === 0) {
        return [{
            outcome: 'fail', about: consumer.id, message: `Fuel reaches ${consumer.id} through no filter at all.`, reason: 'Dirt ruins the injectors.',
            advice: `Write the filters into the supply of ${consumer.id}; if there are none, fit a water-separating primary and a final filter.`,
        }];
    }
    const finals = filters.filter((filter) => filter.role === 'final');
    if (finals.length === 0) return [{ outcome: 'cannot tell', about: consumer.id, missing: [finalMissing(filters.at(-1)!.id, consumer.id)] }];
    return view.lineUps.map((lineUp) => past(view, consumer, finals, lineUp));
}

function past(view: View, consumer: Consumer, finals: readonly Part[], lineUp: ResolvedLineUp): Verdict {
    const before = partsBefore(view.allOpen, `${consumer.id}:in`);
    const unplaced = lineUp.unplaced.filter((valve) => before.has(valve));
    if (unplaced.length > 0) return { outcome: 'cannot tell', about: consumer.id, missing: unplaced.map((valve) => positionMissing(valve, lineUp.id)) };
    const linedUp = view.running(lineUp);
    const past = tanksBefore(linedUp, `${consumer.id}:in`, passagesOf(view.network, finals.map((filter) => filter.id)));
    const rests = finals.map(({ id }) => ({ about: id, fact: 'final' }));
    if (past.length === 0) return { outcome: 'pass', about: consumer.id, rests };
    return {
        outcome: 'fail', about: consumer.id, rests, message: `In line-up ${lineUp.id} fuel from ${listed(past)} reaches ${consumer.id} past ${listed(finals.map((filter) => filter.name))}.`,
        reason: 'Unfiltered fuel ruins the injectors.', advice: 'Shut or blank the way round, or put a final filter into it.',
        see: [...finals.map((filter) => ({ id: filter.id, why: 'the final filter' })), ...(view.boat.lineUps.length > 0 ? [{ id: lineUp.id, why: 'this line-up' }] : [])],
    };
}
