import type { Id, Part, Tank } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { canStandAbove } from '../../analysis/tanks/surface';
import { partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { capital, listed } from '../../model/words';
import { freeTag, type Check, type View } from '../check';

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
    const tanks = tanksBefore(allOpen, inlet);
    if (tanks.length === 0) return { outcome: 'not applicable', about: filter.id, why: 'no tank feeds it' };
    const { tanks: open, met } = unshut(view, inlet);
    if (open.length === 0) return { outcome: 'pass', about: filter.id };

    const feeding = boat.tanks.filter((tank) => open.includes(tank.id));
    const flood = couldFlood(view, feeding, filter);
    const tag = freeTag(boat, 'V');
    const onWay = partsBefore(allOpen, inlet);
    const held = met.filter((id) => onWay.has(id)).map((id) => network.parts.get(id)!);
    return {
        outcome: 'fail', about: filter.id, severity: flood === 'no' ? 'minor' : 'major',
        message: `${capital(filter.name)} cannot be shut off from ${listed(open)}: no valve on the way stops the flow.${notCounted(held)}`,
        reason: flood === 'no' ? `Opened, its column falls back to ${listed(open)} and air follows.`
            : flood === 'yes' ? `Opened, it can flood: liquid in ${listed(open)} can stand above it.`
                : `Opened, it may flood or fall back; the heights that would tell are not all known.`,
        advice: `Put a quarter-turn full-bore shutoff directly before ${filter.name}, in its own leg.`,
        fix: { title: `Put a shutoff before ${filter.name}`, line: `shutoff ${tag}   normally open${filter.space === undefined ? '' : `   in ${filter.space}`}`, where: { before: filter.id } },
        see: open.map((id) => ({ id, why: `${id} feeds it` })),
    };
}

/**
 * Walks from the filter against the flow, every way in every position, and stops only at what a hand can shut: a manual
 * shutoff, or a selector with a position in which the port on the filter's side is joined to nothing.
 */
function unshut({ network, allOpen }: View, inlet: string): { tanks: Id[]; met: Id[] } {
    const start = network.index.get(inlet)!;
    const seen = new Set([start]);
    const met = new Set<Id>();
    const queue = [start];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
        for (const way of allOpen.back[at]!) {
            const id = network.passages[way.passage]!.part;
            const part = id === undefined ? undefined : network.parts.get(id);
            if (seen.has(way.to) || (part && shuts(part, network.points[at]!))) continue;
            if (part) met.add(part.id);
            seen.add(way.to);
            if (!network.tankPoints.has(way.to)) queue.push(way.to);
        }
    }
    return { tanks: [...network.tanks].filter(([, point]) => seen.has(point)).map(([id]) => id), met: [...met] };
}

function shuts(part: Part, point: string): boolean {
    if (part.kind === 'shutoff') return !part.solenoid && !part.lockedOpen;
    const port = point.slice(part.id.length + 1);
    return part.positions.some((position) => !position.joins.some((group) => group.includes(port)));
}

function couldFlood(view: View, tanks: readonly Tank[], filter: Part): 'yes' | 'no' | 'unknown' {
    const openings = [filter.lid, filter.drain, filter.at].filter((place) => place !== undefined);
    const answers = tanks.flatMap((tank) => (openings.length === 0 ? ['unknown' as const] : openings.map((place) => canStandAbove(view.boat, tank, place))));
    return answers.includes('yes') ? 'yes' : answers.includes('unknown') ? 'unknown' : 'no';
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
