/** Division: ISOLATE-FILTER-IN asks for what can flood from a tank beyond the outlet; this rule for the column that merely falls back. */
import type { Id, Part } from '../../model/boat';
import type { MissingFact, Verdict } from '../../model/finding';
import { LEVEL } from '../../analysis/air/opened';
import { span } from '../../analysis/air/heights';
import { comingTo } from '../../analysis/topology/isolation';
import { downstream, passagesOf, partsBefore } from '../../analysis/topology/paths';
import { handSettings } from '../../analysis/topology/settings';
import { listed } from '../../model/words';
import { freeTag, isLastFilter, nameOf, type Check, type View } from '../check';
import { heightsMissing, placeMissing } from '../../analysis/missing';

export const isolateFilterOut: Check = {
    code: 'ISOLATE-FILTER-OUT', severity: 'minor',
    statement: 'Where pipes or parts that hold liquid stand higher than a filter downstream of it, with another filter to come, a shutoff, a check valve or a pump with valves of its own stands before them.',
    prevents: 'The engine side drains back into the opened filter, and all of it must be bled.',
    facts: 'the height of the filter; heights of what follows it; shutoffs and checks',
    source: 'common practice',
    judge: (view) => view.boat.parts.filter((part) => part.kind === 'filter').map((filter) => judge(view, filter)),
};

function judge(view: View, filter: Part): Verdict {
    const { boat, allOpen, network } = view;
    const about = filter.id;
    const served = boat.consumers.filter((consumer) => partsBefore(allOpen, `${consumer.id}:in`).has(filter.id));
    if (served.length === 0) return { outcome: 'not applicable', about, why: 'it stands on no supply of a consumer' };
    if (served.every((consumer) => isLastFilter(view, filter, consumer))) {
        return { outcome: 'not applicable', about, why: 'no filter follows it: what drains back to it is bled with the engine in any case' };
    }
    const behind = couldDrainBack(view, filter);
    if (behind.length === 0) return { outcome: 'pass', about };
    const own = filter.at?.up?.si;
    const spans = behind.map((id) => ({ id, span: span(network, id) }));
    const higher = own === undefined ? [] : spans.filter(({ span: found }) => found !== undefined && found.high > own + LEVEL).map(({ id }) => id);
    const rests = [{ about, fact: 'ports' }];
    if (higher.length > 0) {
        const names = listed(higher.map((id) => nameOf(boat, id)));
        return {
            outcome: 'fail', about, rests, message: `${names} ${higher.length > 1 ? 'stand' : 'stands'} higher than ${filter.name}, and nothing between holds what is in ${higher.length > 1 ? 'them' : 'it'}.`,
            reason: `When ${filter.name} is opened it drains back, and air follows: more to bleed.`,
            advice: `Put a shutoff, or a check valve with a light spring, at the outlet of ${filter.name}.`,
            fix: { title: `Put a shutoff after ${filter.name}`, line: `shutoff ${freeTag(boat, 'V')}   normally open${filter.space === undefined ? '' : `   in ${filter.space}`}`, where: { after: filter.id } },
            see: higher.map((id) => ({ id, why: 'stands higher' })),
        };
    }
    const missing: MissingFact[] = [
        ...(own === undefined ? [placeMissing(filter, 'ports')] : []),
        ...spans.filter(({ span: found }) => found === undefined).map(({ id }) => heightsMissing(id, nameOf(boat, id))),
    ];
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

/** What holds liquid downstream and has an open way back, when hands have shut what they can. */
function couldDrainBack({ boat, network, allOpen }: View, filter: Part): Id[] {
    const outlet = network.index.get(`${filter.id}:out`)!;
    const barred = passagesOf(network, [filter.id, ...boat.consumers.map(({ id }) => id)]);
    const after = downstream(allOpen, outlet, barred);
    let fewest: Id[] | undefined;
    for (const setting of handSettings(boat, 'shutoffs shut', comingTo(allOpen, [outlet], new Map(), barred).met)) {
        const { points } = comingTo(allOpen, [outlet], setting, barred);
        const near = new Set([...points].flatMap((at) => allOpen.ways[at]!.map(({ passage }) => passage)));
        const found = [...near].sort((a, b) => a - b).flatMap((i) => {
            const { segment, kind, part, from, to } = network.passages[i]!;
            return segment && kind === 'plain' && !barred.has(i) && network.parts.has(part!) && after.has(from) && points.has(from) && points.has(to) ? [part!] : [];
        });
        if (fewest === undefined || found.length < fewest.length) fewest = found;
        if (found.length === 0) break;
    }
    return fewest!;
}
