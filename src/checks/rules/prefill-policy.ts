/** What a filter's text says of filling by hand, held against where it stands: the procedures take it at its word. */
import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { partsBefore } from '../../analysis/topology/paths';
import { capital, listed } from '../../model/words';
import { burnsFuel, isLastFilter, type Check, type View } from '../check';
import { injectionMissing } from '../../analysis/missing';

export const prefillPolicy: Check = {
    code: 'PREFILL-POLICY', severity: 'minor',
    statement: 'Each filter says whether it may be filled by hand; one that no filter follows is not filled on its clean side, and before a common rail not at all.',
    prevents: 'Dirt poured past the last element.',
    facts: 'what the maker says of filling; which filters follow; the kind of injection',
    source: 'makers of engines (from secondary sources; opinions differ on primaries, none allows the clean side of the last filter)',
    judge: (view) => view.boat.parts.filter((part) => part.kind === 'filter').map((filter) => judge(view, filter)),
};

function judge(view: View, filter: Part): Verdict {
    const about = filter.id;
    const served = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer) && partsBefore(view.allOpen, `${consumer.id}:in`).has(filter.id));
    if (served.length === 0) return { outcome: 'not applicable', about, why: 'it stands on no supply of anything that burns fuel' };
    if (filter.prefill === undefined) {
        return { outcome: 'cannot tell', about, missing: [{ about, fact: `what the maker says of filling ${filter.name} by hand`, how: 'look in the engine maker\'s book, and write `prefill allowed`, `prefill not on the clean side` or `prefill forbidden`' }] };
    }
    const lastOf = served.filter((consumer) => isLastFilter(view, filter, consumer));
    const names = listed(lastOf.map(({ id }) => id));
    const rests = [{ about, fact: 'prefill' }];
    const rail = lastOf.filter((consumer) => consumer.injection?.pump === 'common-rail');
    if (filter.prefill !== 'forbidden' && rail.length > 0) {
        return {
            outcome: 'fail', about, fact: 'prefill', rests: [...rests, ...rail.map(({ id }) => ({ about: id, fact: 'injection common-rail' }))],
            message: `${capital(filter.name)} is the last filter before the common rail of ${listed(rail.map(({ id }) => id))}, and its text lets it be filled by hand (\`prefill ${filter.prefill}\`).`,
            reason: 'A grain poured in goes straight to parts that fit to a thousandth of a millimetre.', advice: `Write \`prefill forbidden\` at ${filter.name}, and fill it with the pump.`,
        };
    }
    if (filter.prefill === 'allowed' && lastOf.length > 0) {
        return {
            outcome: 'fail', about, fact: 'prefill', rests, message: `${capital(filter.name)} is the last filter before ${names}, and its text lets it be filled by hand on both sides (\`prefill allowed\`).`,
            reason: 'What is poured into its clean side never passes an element.', advice: `Write \`prefill not on the clean side\` or \`prefill forbidden\` at ${filter.name}.`,
        };
    }
    const unknown = filter.prefill === 'not on the clean side' ? lastOf.filter((consumer) => consumer.injection === undefined && (consumer.kind === 'engine' || consumer.kind === 'generator')) : [];
    return unknown.length > 0 ? { outcome: 'cannot tell', about, missing: unknown.map(({ id }) => injectionMissing(id)) } : { outcome: 'pass', about, rests };
}
