/** Division: FILTER-FLOW asks for enough, this rule whether it is far more than enough. Both read the flow in one way. */
import type { Part } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { capital, figure, listed } from '../../model/words';
import { fromSI } from '../../model/units';
import { nothing, type Check, type View } from '../check';
import { drawsMissing, ratedMissing } from '../../analysis/missing';
import { least } from '../../analysis/estimate';
import { grossFlow } from '../../analysis/flow/demand';
import { drawnThrough } from './filter-flow';

export const filterOversize: Check = {
    code: 'FILTER-OVERSIZE', severity: 'advice',
    statement: 'A filter that separates water is rated for no more than about 5 times the greatest gross flow through it.',
    prevents: 'Fuel that passes too slowly to throw its water out.',
    facts: 'rated flow of the filter; gross flow of what draws through it; the network',
    source: 'an opinion in the trade, of filters that throw the water out by the speed of the fuel; no standard says so',
    judge: (view) => {
        const filters = view.boat.parts.filter((part) => part.kind === 'filter' && part.separatesWater);
        return filters.length === 0 ? [nothing('no filter is written to separate water')] : filters.map((filter) => judge(view, filter));
    },
};

/** The greatest gross flow. */
export const TIMES = 5;

function judge(view: View, filter: Part): Verdict {
    const about = filter.id;
    const { all, alone } = drawnThrough(view, filter);
    if (all.length === 0) return { outcome: 'not applicable', about, why: 'nothing that burns fuel draws through it in a line-up for running' };
    if (!filter.rated) return { outcome: 'cannot tell', about, missing: [ratedMissing(filter)] };
    // Of filters side by side one may yet have to carry all of it.
    const groups = alone.length > 0 ? alone : [all];
    const greatest = (of: 'least' | 'most'): number => Math.max(...groups.map((group) => group.reduce((sum, consumer) => sum + (grossFlow(consumer)[of] ?? NaN), 0)));
    const rests: Ground[] = [{ about, fact: 'rated' }, ...all.map(({ id }) => ({ about: id, fact: 'draws' }))];
    const rated = least(filter.rated);
    if (rated <= TIMES * greatest('least') * (1 + 1e-9)) return { outcome: 'pass', about, rests };
    const unknown = all.filter((consumer) => grossFlow(consumer).most === undefined);
    if (unknown.length > 0) return { outcome: 'cannot tell', about, missing: unknown.map(drawsMissing) };
    const flow = greatest('most');
    if (rated <= TIMES * flow * (1 + 1e-9)) return { outcome: 'pass', about, rests };
    return {
        outcome: 'fail', about, fact: 'rated', rests,
        message: `${capital(filter.name)} is rated ${flowWords(rated)}, ${figure(rated / flow, 2)} times the ${flowWords(flow)} that ${listed(all.map(({ id }) => id))} ${all.length > 1 ? 'draw' : 'draws'} through it at most.`,
        reason: 'Where water is thrown out by the speed of the fuel, fuel that passes so slowly keeps it. That is an opinion in the trade, which no standard states.',
        advice: `Fit one rated ${figure(fromSI(1.5 * flow, 'L/h'))} to ${flowWords(TIMES * flow)} when ${filter.name} is replaced, and drain its water often until then.`,
    };
}

const flowWords = (si: number): string => `${figure(fromSI(si, 'L/h'))} L/h`;
