import type { Consumer, Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { follows } from '../../analysis/topology/paths';
import { burnsFuel, filtersOf, type Check, type View } from '../check';

export const filterOrder: Check = {
    code: 'FILTER-ORDER', severity: 'major',
    statement: 'Along each supply path no filter lets larger particles pass than one before it.',
    prevents: 'The fine filter clogs early while the coarse one behind it does nothing.',
    facts: 'what each filter passes',
    source: 'common practice (a primary of about 10 to 30 um, then 2 to 5 um; opinions differ between 2 and 10 in the primary)',
    judge: (view) => view.boat.consumers.filter((consumer) => burnsFuel(view, consumer)).map((consumer) => judge(view, consumer)),
};

function judge(view: View, consumer: Consumer): Verdict {
    const filters = filtersOf(view, consumer);
    const inOrder = (first: Part, second: Part): boolean => second !== first && follows(view.allOpen, first.id, second.id);
    if (!filters.some((first) => filters.some((second) => inOrder(first, second)))) return { outcome: 'not applicable', about: consumer.id, why: 'fewer than two filters follow one another on its supply' };
    const coarser = (first: Part): Part | undefined => filters.find((second) => first.passes && second.passes && second.passes.si > first.passes.si * 1.0001 && inOrder(first, second));
    const first = filters.find((filter) => coarser(filter) !== undefined);
    if (first) {
        const second = coarser(first)!;
        return {
            outcome: 'fail', about: second.id, fact: 'passes', rests: [first, second].map(({ id }) => ({ about: id, fact: 'passes' })), message: `${second.name} passes ${um(second)}, coarser than ${first.name} before it with ${um(first)}.`,
            reason: `${first.name} takes all the dirt and clogs early; ${second.name} catches nothing that passed it.`,
            advice: `Fit an element of ${um(first)} or finer in ${second.name}, or a coarser one in ${first.name}.`, see: [{ id: first.id, why: 'the filter before it' }],
        };
    }
    const unknown = filters.filter((filter) => !filter.passes);
    if (unknown.length > 0) return { outcome: 'cannot tell', about: consumer.id, missing: unknown.map((filter) => ({ about: filter.id, fact: `what ${filter.name} passes`, how: `read it on the element, and write it like \`passes 10 um\`` })) };
    return { outcome: 'pass', about: consumer.id, rests: filters.map(({ id }) => ({ about: id, fact: 'passes' })) };
}

const um = (part: Part): string => `${Number((part.passes!.si * 1e6).toPrecision(3))} um`;
