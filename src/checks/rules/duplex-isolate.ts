/**
 * Filters side by side, one of which some setting of the valves takes off line: a changeover, or legs with shutoffs. Each
 * must then be shut on both sides while another carries the fuel. Division: where a filter cannot be shut off from a tank
 * at all, SHUTOFF-BEFORE-FILTER says so with its weight, and this rule lightly.
 */
import type { Consumer, Id, Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { isManual } from '../../analysis/topology/isolation';
import { reach, type Positions } from '../../analysis/topology/network';
import { connectedTo, followers, partsBefore, passagesOf, running, tanksBefore } from '../../analysis/topology/paths';
import { handSettings } from '../../analysis/topology/settings';
import { capital, listed } from '../../model/words';
import { filtersOf, freeTag, type Check, type View } from '../check';
import { positionsMissing } from '../../analysis/missing';
import { unshut } from './shutoff-before-filter';

export const duplexIsolate: Check = {
    code: 'DUPLEX-ISOLATE', severity: 'major',
    statement: 'Of filters side by side that are changed over, each can be shut on its inlet and on its outlet with another on line; a check valve does not count, since the pump draws through it.',
    prevents: 'An element cannot be changed under way, or air is drawn in through the open filter.',
    facts: 'the network; positions of changeovers and selectors; manual shutoffs',
    source: 'common practice',
    judge: (view) => view.boat.consumers.flatMap((consumer) => judge(view, consumer)),
};

/** How far one filter can be taken off line: whether fuel can still pass it, come to its inlet, or be reached from its outlet. */
interface Off {
    readonly onLine: boolean;
    readonly inlet: boolean;
    readonly outlet: boolean;
}

function judge(view: View, consumer: Consumer): Verdict[] {
    const { allOpen, boat } = view;
    const blank = boat.parts.filter((part) => (part.kind === 'changeover' || part.kind === 'selector') && part.positions.length === 0 && boat.courses.some((course) => course.service === 'supply' && (course.parts.includes(part.id) || course.to.part === part.id)));
    if (blank.length > 0) return [{ outcome: 'cannot tell', about: consumer.id, missing: blank.map(({ id }) => positionsMissing(id)) }];
    const before = filtersOf(view, consumer);
    const filters = boat.parts.filter((part) => before.includes(part) && !isOfAnother(view, consumer, part));
    const met = filters.map((filter) => ({ filter, inlet: view.network.index.get(`${filter.id}:in`)!, after: followers(allOpen, filter.id) }));
    const pairs = met.map((one) => ({ filter: one.filter, others: met.filter((other) => other !== one && !one.after.has(other.inlet) && !other.after.has(one.inlet)).map(({ filter }) => filter) }))
        .filter(({ others }) => others.length > 0);
    if (pairs.length === 0) return [{ outcome: 'not applicable', about: consumer.id, why: 'no two filters stand side by side on its supply' }];
    const offs = pairs.map(({ filter, others }) => ({ filter, others, off: best(view, consumer, filter, others) }));
    if (offs.every(({ off }) => off.onLine)) return [{ outcome: 'not applicable', about: consumer.id, why: `nothing takes ${listed(pairs.map(({ filter }) => filter.name), 'or')} off line while another carries the fuel` }];
    return offs.map(({ filter, others, off }) => verdictOn(view, consumer, filter, others, off));
}

/** A filter of another consumer, which this one can reach by a cross connection for emergencies, is not changed over to. */
function isOfAnother(view: View, consumer: Consumer, filter: Part): boolean {
    const uses = ({ id }: Consumer): boolean => view.runs.some((lineUp) => partsBefore(view.running(lineUp), `${id}:in`).has(filter.id));
    return !uses(consumer) && view.boat.consumers.some((other) => other !== consumer && uses(other));
}

function verdictOn(view: View, consumer: Consumer, filter: Part, others: readonly Part[], { onLine, inlet, outlet }: Off): Verdict {
    const about = filter.id;
    if (!onLine && !inlet && !outlet) return { outcome: 'pass', about };
    const told = unshut(view, `${about}:in`).tanks.length > 0;
    const sides = onLine || (inlet && outlet) ? 'its inlet and outlet' : inlet ? 'its inlet' : 'its outlet';
    const other = listed(others.map(({ name }) => name), 'or');
    const valve = `shutoff ${freeTag(view.boat, 'V')}   normally open${filter.space === undefined ? '' : `   in ${filter.space}`}`;
    return {
        outcome: 'fail', about, severity: told ? 'minor' : 'major', message: `${capital(filter.name)} cannot be shut on ${sides} while ${other} carries the fuel of ${consumer.id}.`,
        reason: inlet || onLine ? 'Opened under way it spills, or air goes to the engine.' : 'Opened under way it lets air into what the engine draws.',
        advice: sides === 'its inlet and outlet' ? `Put a shutoff on either side of ${filter.name}, or a changeover that shuts both with one handle.` : `Put a quarter-turn full-bore shutoff ${inlet ? 'before' : 'after'} ${filter.name}, in its own leg.`,
        ...(sides !== 'its inlet and outlet' && { fix: { title: `Put a shutoff ${inlet ? 'before' : 'after'} ${filter.name}`, line: valve, where: inlet ? { before: about } : { after: about } } }),
        see: others.map(({ id }) => ({ id, why: 'stands beside it' })),
    };
}

/** The best that hands can do: for each setting of selectors and changeovers, shutoffs shut one by one, nearest first, while another filter still feeds. */
function best(view: View, consumer: Consumer, filter: Part, others: readonly Part[]): Off {
    const inlet = `${consumer.id}:in`;
    const own = passagesOf(view.network, [filter.id]);
    const shutoffs = nearestFirst(view, filter);
    let found: Off = { onLine: true, inlet: true, outlet: true };
    for (const setting of handSettings(view.boat, 'shutoffs open', connectedTo(view.network, consumer.id))) {
        const fed = (positions: Positions): boolean => {
            const linedUp = running(view.network, positions);
            const before = partsBefore(linedUp, inlet);
            return others.some(({ id }) => before.has(id)) && tanksBefore(linedUp, inlet, own).length > 0;
        };
        let positions: Positions = setting;
        if (!fed(positions)) continue;
        for (const id of shutoffs) { const shut = new Map(positions).set(id, 'shut'); if (fed(shut)) positions = shut; }
        const off = offIn(view, consumer, filter, own, positions);
        if (score(off) < score(found)) found = off;
        if (score(found) === 0) break;
    }
    return found;
}

const score = ({ onLine, inlet, outlet }: Off): number => 4 * Number(onLine) + Number(inlet) + Number(outlet);

function offIn({ network }: View, consumer: Consumer, filter: Part, own: ReadonlySet<number>, positions: Positions): Off {
    const linedUp = running(network, positions);
    const target = network.index.get(`${consumer.id}:in`)!;
    const live = (end: 'in' | 'out'): boolean => {
        const point = network.index.get(`${filter.id}:${end}`)!;
        const from = reach(linedUp, linedUp.back, [point], own);
        return reach(linedUp, linedUp.ways, [point], own).has(target) || [...network.tankPoints].some((tank) => from.has(tank));
    };
    return { onLine: partsBefore(linedUp, `${consumer.id}:in`).has(filter.id), inlet: live('in'), outlet: live('out') };
}

/** Manual shutoffs by their distance from the filter, either way. */
function nearestFirst({ network, allOpen }: View, filter: Part): Id[] {
    const points = new Set([network.index.get(`${filter.id}:out`)!, network.index.get(`${filter.id}:in`)!]);
    const found = new Set<Id>();
    for (const at of points) {
        for (const { to, passage } of [...allOpen.ways[at]!, ...allOpen.back[at]!]) {
            const part = network.parts.get(network.passages[passage]!.part ?? '');
            if (part && isManual(part)) found.add(part.id);
            if (!network.tankPoints.has(to)) points.add(to);
        }
    }
    return [...found];
}
