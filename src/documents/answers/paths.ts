/** Paths: what lies on the ways from the tanks to a consumer, or back from it, in a line-up, and what stops it when it fails. */
import type { Boat, Id } from '../../model/boat';
import { networkOf, type LinedUp } from '../../analysis/topology/network';
import { partsAfter, partsBefore, running, tanksAfter, tanksBefore } from '../../analysis/topology/paths';
import { singlePoints } from '../../analysis/topology/single-points';
import { nameOf } from '../../checks/check';
import { capital, listed } from '../../model/words';
import type { Answer } from './answer';
import type { State } from './state';

export function answerPaths(boat: Boat, way: 'to' | 'from', consumer: Id, { lineUp, defaults }: State): Answer {
    const network = networkOf(boat);
    const linedUp = running(network, lineUp.positions);
    const point = `${consumer}:${way === 'to' ? 'in' : 'out'}`;
    const tanks = way === 'to' ? tanksBefore(linedUp, point) : tanksAfter(linedUp, point);
    const met = way === 'to' ? partsBefore(linedUp, point) : partsAfter(linedUp, point);
    const order = inOrder(linedUp, way === 'to' ? tanks.map((id) => network.tanks.get(id)!) : [network.index.get(point)!], met);
    const alone = way === 'to' ? singlePoints(linedUp, consumer) ?? [] : [];
    const shut = [...lineUp.positions].filter(([id, position]) => position === 'shut' && boat.parts.some((part) => part.id === id)).map(([id]) => id);
    const none = way === 'to' ? `No tank feeds ${consumer} in line-up ${lineUp.id}.` : `${consumer} returns to no tank in line-up ${lineUp.id}.`;
    return {
        title: `${way === 'to' ? 'The supply of' : 'The return of'} ${consumer} in line-up ${lineUp.id}`, defaults: defaults.filter((taken) => !/ever used|upright/.test(taken)),
        body: [
            tanks.length === 0 ? `${none}${shut.length > 0 ? ` Shut are ${listed(shut)}.` : ''}` : `${way === 'to' ? `${consumer} draws from ${listed(tanks)}` : `${consumer} returns to ${listed(tanks)}`}${tanks.length > 1 ? ', from more than one tank at once' : ''}.`,
            ...(order.length > 0 ? [`${way === 'to' ? 'From the tank on' : 'From the engine on'}: ${order.map((id) => nameOf(boat, id)).join(', ')}.`] : []),
            ...(way === 'to' && tanks.length > 0 ? [alone.length === 0 ? 'No single part stops it.' : `${capital('each')} of these alone stops it, blocked or drawing air: ${alone.map((id) => nameOf(boat, id)).join(', ')}.`] : []),
        ],
        data: { ask: 'paths', way, consumer, lineUp: lineUp.id, tanks, parts: order, ...(way === 'to' && { singlePoints: alone }) },
        used: [...lineUp.positions.keys()].filter((id) => met.has(id)).map((about) => ({ about, fact: 'normally' })), missing: [],
    };
}

/** In the order in which the liquid meets them; of legs side by side, the parts that are as far along together. */
function inOrder({ network, ways }: LinedUp, starts: readonly number[], met: ReadonlySet<Id>): Id[] {
    const [order, seen, queue] = [new Set<Id>(), new Set(starts), [...starts]];
    for (const at of queue) for (const { to, passage } of ways[at]!) {
        const { part } = network.passages[passage]!;
        if (part !== undefined && !met.has(part)) continue;
        if (part !== undefined) order.add(part);
        if (!seen.has(to)) { seen.add(to); queue.push(to); }
    }
    return [...order];
}
