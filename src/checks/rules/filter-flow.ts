import type { Consumer, Id, Part } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { grossFlow } from '../../analysis/flow/demand';
import { partsOnEveryWayTo } from '../../analysis/topology/every-way';
import { partsBefore, running } from '../../analysis/topology/paths';
import type { LinedUp } from '../../analysis/topology/network';
import { capital, listed, litresAnHour } from '../../model/words';
import { burnsFuel, type Check, type View } from '../check';
import { drawsMissing, ratedMissing } from '../../analysis/missing';

export const filterFlow: Check = {
    code: 'FILTER-FLOW', severity: 'major',
    statement: 'Each filter is rated for at least the greatest gross flow of all that draws through it alone, each side of a changeover by itself; what is burnt is only a part of that flow.',
    prevents: 'Loss of power, and elements that clog early.',
    facts: 'rated flow of the filter; gross flow of each engine up to full speed; the network',
    source: 'common practice (makers of filters ask for the rated flow at least; 1.5 to 2 times is better)',
    judge: (view) => view.boat.parts.filter((part) => part.kind === 'filter').map((filter) => judge(view, filter)),
};

function judge(view: View, filter: Part): Verdict {
    const about = filter.id;
    const served = drawnThrough(view, filter);
    if (served.all.length === 0) return { outcome: 'not applicable', about, why: 'nothing that burns fuel draws through it in a line-up for running' };
    const rests: Ground[] = [{ about, fact: 'rated' }, ...served.all.map(({ id }) => ({ about: id, fact: 'draws' }))];
    const rated = filter.rated && (filter.rated.low ?? filter.rated.si);
    const gross = served.alone.map((consumers) => consumers.map(grossFlow));
    const least = Math.max(0, ...gross.map((group) => group.reduce((sum, flow) => sum + flow.least, 0)));
    const missing: MissingFact[] = [];
    if (rated === undefined) missing.push(ratedMissing(filter));
    else if (rated < least) {
        const consumers = served.alone.find((group) => group.map(grossFlow).reduce((sum, flow) => sum + flow.least, 0) === least)!;
        return {
            outcome: 'fail', about, fact: 'rated', rests,
            message: `${capital(filter.name)} is rated ${litresAnHour(rated)}, and ${listed(consumers.map(({ id }) => id))} ${consumers.length > 1 ? 'draw' : 'draws'} up to ${litresAnHour(least)} through it.`,
            reason: 'At full speed it starves the engine, and its element clogs early.',
            advice: `Fit a filter rated ${litresAnHour(1.5 * least)} or more in the place of ${filter.name}.`, see: consumers.map(({ id }) => ({ id, why: 'draws through it' })),
        };
    }
    for (const consumer of served.all) {
        const { most } = grossFlow(consumer);
        const doubtful = most === undefined || (rated !== undefined && gross.some((group, i) => served.alone[i]!.includes(consumer) && group.reduce((sum, flow) => sum + (flow.most ?? Infinity), 0) > rated));
        if (doubtful) missing.push(drawsMissing(consumer));
    }
    // Beside another filter it carries a part of the flow that nobody has measured; one that could carry all is enough.
    if (missing.length === 0 && served.alone.length === 0 && served.all.reduce((sum, consumer) => sum + grossFlow(consumer).most!, 0) > rated!) {
        missing.push({ about, fact: `the share of the flow that passes ${filter.name}`, how: 'shut the way beside it, and see whether the engine still holds full speed' });
    }
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

/** Consumers that draw through the filter at all, and for each setting for running those that draw through nothing else. */
export function drawnThrough(view: View, filter: Part): { all: Consumer[]; alone: Consumer[][] } {
    const changeovers = view.boat.parts.filter(({ kind, course }) => kind === 'changeover' && course === filter.course);
    const consumers = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer));
    const all = new Set<Id>();
    const groups = new Map<string, Consumer[]>();
    for (const linedUp of settings(view, changeovers)) {
        const through = consumers.filter(({ id }) => partsBefore(linedUp, `${id}:in`).has(filter.id));
        for (const { id } of through) all.add(id);
        const group = through.filter(({ id }) => partsOnEveryWayTo(linedUp, `${id}:in`).has(filter.id));
        if (group.length > 0) groups.set(group.map(({ id }) => id).join(), group);
    }
    return { all: consumers.filter(({ id }) => all.has(id)), alone: [...groups.values()] };
}

/** The line-ups for running, and each with one of the changeovers in another of its positions. */
export function settings(view: View, changeovers: readonly Part[]): LinedUp[] {
    return view.runs.flatMap((lineUp) => [view.running(lineUp), ...changeovers.flatMap((valve) => valve.positions.map(({ name }) => running(view.network, new Map(lineUp.positions).set(valve.id, name))))]);
}
