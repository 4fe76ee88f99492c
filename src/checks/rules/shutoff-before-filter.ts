import type { Boat, Id, Part, Tank } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { canStandAbove } from '../../analysis/tanks/surface';
import { partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { capital, listed } from '../../model/words';
import { handSettings } from '../../analysis/topology/settings';
import type { Positions } from '../../analysis/topology/network';
import { freeTag, nameOf, type Check, type View } from '../check';

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
    const service = boat.courses.find((course) => course.parts.includes(filter.id))?.service;
    if (service !== 'supply' && service !== 'transfer') return { outcome: 'not applicable', about: filter.id, why: 'it stands in no supply' };
    if (tanksBefore(allOpen, inlet).length === 0) return { outcome: 'not applicable', about: filter.id, why: 'no tank feeds it' };
    const { tanks: open, met } = unshut(view, inlet);
    if (open.length === 0) return { outcome: 'pass', about: filter.id };

    const flood = couldFlood(view, boat.tanks.filter((tank) => open.includes(tank.id)), filter);
    const onWay = partsBefore(allOpen, inlet);
    const held = met.filter((id) => onWay.has(id)).map((id) => network.parts.get(id)!);
    const place = placeFor(view, inlet);
    return {
        outcome: 'fail', about: filter.id, severity: flood === 'no' ? 'minor' : 'major',
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

/**
 * Walks from the filter against the flow, every way in every position, and stops only at what a hand can shut: a manual
 * shutoff, or a selector or changeover in a position in which the port on the filter's side is joined to nothing. One
 * position counts at a time. The best setting is told.
 */
function unshut(view: View, inlet: string, added?: number): { tanks: Id[]; met: Id[] } {
    let best: { tanks: Id[]; met: Id[] } | undefined;
    for (const setting of handSettings(view.boat, 'shutoffs shut')) {
        const found = walk(view, inlet, setting, added);
        if (best === undefined || found.tanks.length < best.tanks.length) best = found;
        if (found.tanks.length === 0) break;
    }
    return best!;
}

function walk({ network, allOpen }: View, inlet: string, setting: Positions, added: number | undefined): { tanks: Id[]; met: Id[] } {
    const start = network.index.get(inlet)!;
    const seen = new Set([start]);
    const met = new Set<Id>();
    const queue = [start];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
        for (const way of allOpen.back[at]!) {
            const id = network.passages[way.passage]!.part;
            const part = id === undefined ? undefined : network.parts.get(id);
            if (way.passage === added || seen.has(way.to) || (part && shuts(part, network.points[at]!, setting))) continue;
            if (part) met.add(part.id);
            seen.add(way.to);
            if (!network.tankPoints.has(way.to)) queue.push(way.to);
        }
    }
    return { tanks: [...network.tanks].filter(([, point]) => seen.has(point)).map(([id]) => id), met: [...met] };
}

function shuts(part: Part, point: string, setting: Positions): boolean {
    if (part.kind === 'shutoff') return !part.solenoid && !part.lockedOpen;
    const port = point.slice(part.id.length + 1);
    const position = part.positions.find((other) => other.name === setting.get(part.id));
    return position !== undefined && !position.joins.some((group) => group.includes(port));
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
