/** Division: NO-UNFILTERED speaks of no filter at all and of ways past the final one; this rule of the separating filter before it. */
import type { Consumer, Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { partsBefore, passagesOf, tanksBefore } from '../../analysis/topology/paths';
import { listed } from '../../model/words';
import { filtersOf, isEngine, type Check, type View } from '../check';
import { finalMissing, positionMissing, waterMissing } from '../../analysis/missing';

export const filterTwo: Check = {
    code: 'FILTER-TWO', severity: 'major',
    statement: 'In every line-up for running, fuel for an engine passes a filter that separates water and then, as another filter, the final one.',
    prevents: 'Water and dirt ruin the injection.',
    facts: 'filters on the way; which separate water; which is final; positions of valves',
    source: 'makers of engines (from secondary sources)',
    judge: (view) => view.boat.consumers.filter((consumer) => isEngine(view, consumer)).map((consumer) => judge(view, consumer)),
};

function judge(view: View, consumer: Consumer): Verdict {
    const about = consumer.id;
    const inlet = `${about}:in`;
    const filters = filtersOf(view, consumer);
    if (tanksBefore(view.allOpen, inlet).length === 0) return { outcome: 'not applicable', about, why: 'no tank feeds it' };
    if (filters.length === 0) return { outcome: 'not applicable', about, why: 'no filter stands before it (see NO-UNFILTERED)' };
    const finals = filters.filter((filter) => filter.role === 'final');
    if (filters.length > 1 && finals.length === 0) return { outcome: 'cannot tell', about, missing: [finalMissing(filters.at(-1)!.id, about)] };
    const firsts = filters.filter((filter) => filter.role !== 'final' && filters.length > 1);
    const separators = firsts.filter((filter) => filter.separatesWater);
    const fedPast = (lineUp: View['runs'][number], through: readonly { id: Id }[]): readonly Id[] => tanksBefore(view.running(lineUp), inlet, passagesOf(view.network, through.map(({ id }) => id)));
    const last = finals.length > 0 ? finals : filters;
    const before = partsBefore(view.allOpen, inlet);
    const doubtful = new Set<Id>();
    for (const lineUp of view.runs) {
        const unplaced = lineUp.unplaced.filter((valve) => before.has(valve));
        if (unplaced.length > 0) return { outcome: 'cannot tell', about, missing: unplaced.map((valve) => positionMissing(valve, lineUp.id)) };
        const past = fedPast(lineUp, firsts);
        if (past.length > 0) {
            return {
                outcome: 'fail', about, message: `Fuel from ${listed(past)} reaches ${about} through ${listed(last.map(({ name }) => name))} alone${view.boat.lineUps.length > 0 ? ` in line-up ${lineUp.id}` : ''}: no other filter stands before ${last.length > 1 ? 'them' : 'it'}.`,
                reason: 'Water goes straight to the injection, and the final filter takes all the dirt.',
                advice: `Fit a filter that separates water between ${listed(past)} and ${last[0]!.name}.`, see: last.map(({ id }) => ({ id, why: 'the only filter on this way' })),
            };
        }
        if (fedPast(lineUp, separators).length > 0) for (const filter of firsts) if (!filter.separatesWater) doubtful.add(filter.id);
    }
    if (doubtful.size > 0) return { outcome: 'cannot tell', about, missing: firsts.filter(({ id }) => doubtful.has(id)).map(waterMissing) };
    return { outcome: 'pass', about, rests: [...separators.map(({ id }) => ({ about: id, fact: 'separates water' })), ...finals.map(({ id }) => ({ about: id, fact: 'final' }))] };
}
