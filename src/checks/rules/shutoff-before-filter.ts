import type { Boat, Id, Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { couldFlood, openingsOf } from '../../analysis/tanks/openings';
import { comingTo } from '../../analysis/topology/isolation';
import { partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { capital, listed } from '../../model/words';
import { handSettings } from '../../analysis/topology/settings';
import { freeTag, nameOf, serviceOf, type Check, type View } from '../check';
import { shapeFact } from '../../analysis/missing';

export const shutoffBeforeFilter: Check = {
    code: 'SHUTOFF-BEFORE-FILTER', severity: 'major',
    statement: 'On every path from every tank to a filter that is opened for service there is a manual shutoff. A check valve, a solenoid or a selector without an off position does not count.',
    prevents: 'Opening the filter floods the bilge, or the column falls back and takes air.',
    facts: 'supply paths; kinds and positions of valves; for the weight, heights of the filter and of the tanks',
    source: '46 CFR 182.455(b)(4): shutoff valves at the tank and at the engine end, to stop fuel flow when servicing accessories (2015 edition read; binds small passenger vessels); otherwise common practice',
    judge: (view) => view.boat.parts.filter((part) => part.kind === 'filter').map((filter) => judge(view, filter)),
};

function judge(view: View, filter: Part): Verdict {
    const { boat, network, allOpen } = view;
    const inlet = `${filter.id}:in`;
    const service = serviceOf(boat, filter);
    if (service !== 'supply' && service !== 'transfer') return { outcome: 'not applicable', about: filter.id, why: 'it stands in no supply' };
    if (tanksBefore(allOpen, inlet).length === 0) return { outcome: 'not applicable', about: filter.id, why: 'no tank feeds it' };
    const { tanks: open, met } = unshut(view, inlet);
    if (open.length === 0) return { outcome: 'pass', about: filter.id };

    const tanks = boat.tanks.filter((tank) => open.includes(tank.id));
    const flood = couldFlood(boat, tanks, filter);
    const onWay = partsBefore(allOpen, inlet);
    const held = [...met].filter((id) => onWay.has(id)).flatMap((id) => network.parts.get(id) ?? []);
    const place = placeFor(view, inlet);
    return {
        outcome: 'fail', about: filter.id, rests: flood === 'unknown' ? [] : [...openingsOf(filter).map(({ name }) => ({ about: filter.id, fact: name })), ...tanks.map((tank) => ({ about: tank.id, fact: shapeFact(tank) }))], severity: flood === 'no' ? 'minor' : 'major',
        message: `${capital(filter.name)} cannot be shut off from ${listed(open)}: no valve on the way stops the flow.${notCounted(held)}`,
        reason: flood === 'no' ? `Opened, its column falls back to ${listed(open)} and air follows.`
            : flood === 'yes' ? `Opened, it can flood: liquid in ${listed(open)} can stand above it.`
                : 'Opened, it may flood or fall back; the heights that would tell are not all known.',
        advice: place === undefined ? `Fit a shutoff on either side of ${filter.name}: no single valve would do, since liquid also comes to it through its outlet.`
            : place === filter.id ? `Put a quarter-turn full-bore shutoff directly before ${filter.name}, in its own leg.`
                : `Put a quarter-turn full-bore shutoff before ${nameOf(boat, place)}: directly before ${filter.name} it would leave the way back through the legs beside it.`,
        ...(place !== undefined && { fix: { title: `Put a shutoff before ${filter.name}`, line: shutoffLine(boat, filter), where: { before: place } } }),
        see: open.map((id) => ({ id, why: `${id} feeds it` })),
    };
}

const shutoffLine = (boat: Boat, filter: Part): string => `shutoff ${freeTag(boat, 'V')}   normally open${filter.space === undefined ? '' : `   in ${filter.space}`}`;

/** The nearest part upstream before which one shutoff would cut the filter off; undefined when no single place does. */
function placeFor(view: View, inlet: string): Id | undefined {
    const { network } = view;
    const seen = new Set<string>([inlet]);
    for (const queue = [inlet]; queue.length > 0;) {
        const point = queue.shift()!;
        for (const [i, passage] of network.passages.entries()) {
            if (network.points[passage.to] !== point) continue;
            const entered = passage.kind === 'joint' ? placeOf(view, point) : undefined;
            if (entered !== undefined && unshut(view, inlet, i).tanks.length === 0) return entered;
            const before = network.points[passage.from]!;
            if (!seen.has(before) && !network.tankPoints.has(passage.from)) { seen.add(before); queue.push(before); }
        }
    }
    return undefined;
}

/** The part whose line begins at a point, when a line can be written before it. */
function placeOf({ network }: View, point: string): Id | undefined {
    const id = point.endsWith(':in') ? point.slice(0, -3) : point;
    const part = network.parts.get(id);
    return part && part.kind !== 'selector' && !id.endsWith('.rejoins') ? id : undefined;
}

/** Tanks that no hand can cut off from the filter, in the best setting, and what was met on the way. */
export function unshut({ boat, network, allOpen }: View, inlet: string, added?: number): { tanks: readonly Id[]; met: ReadonlySet<Id> } {
    let best: { tanks: readonly Id[]; met: ReadonlySet<Id> } | undefined;
    const without = new Set(added === undefined ? [] : [added]);
    const start = [network.index.get(inlet)!];
    for (const setting of handSettings(boat, 'shutoffs shut', comingTo(allOpen, start, new Map(), without).met)) {
        const found = comingTo(allOpen, start, setting, without);
        if (best === undefined || found.tanks.length < best.tanks.length) best = found;
        if (found.tanks.length === 0) break;
    }
    return best!;
}

/** Names what stands on the way and looks like a shutoff, and why it is none. */
function notCounted(parts: readonly Part[]): string {
    const reasons = parts.flatMap((part) => {
        if (part.kind === 'check') return [`${part.name} is a check valve`];
        if (part.kind === 'shutoff' && part.solenoid) return [`${part.name} is electric`];
        if (part.kind === 'shutoff' && part.lockedOpen) return [`${part.name} is locked open`];
        if (part.kind === 'selector' || part.kind === 'changeover') return [`${part.name} has no position that shuts it off`];
        return [];
    });
    return reasons.length === 0 ? '' : ` (${capital(listed(reasons))}.)`;
}
