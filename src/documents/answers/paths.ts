/** Paths: what lies on the ways from the tanks to a consumer, or back from it, in a line-up, and what stops it when it fails. */
import type { Boat, Id } from '../../model/boat';
import { networkOf } from '../../analysis/topology/network';
import { inOrder, running, tanksAfter, tanksBefore } from '../../analysis/topology/paths';
import { singlePoints } from '../../analysis/topology/single-points';
import { nameOf } from '../../checks/check';
import { capital, listed } from '../../model/words';
import type { Answer } from './answer';
import type { State } from './state';

export function answerPaths(boat: Boat, way: 'to' | 'from', consumer: Id, { lineUp }: State): Answer {
    const network = networkOf(boat);
    const linedUp = running(network, lineUp.positions);
    const point = `${consumer}:${way === 'to' ? 'in' : 'out'}`;
    const tanks = way === 'to' ? tanksBefore(linedUp, point) : tanksAfter(linedUp, point);
    const order = inOrder(linedUp, consumer, way);
    const alone = way === 'to' ? singlePoints(linedUp, consumer) ?? [] : [];
    const shut = [...lineUp.positions].filter(([id, position]) => position === 'shut' && boat.parts.some((part) => part.id === id)).map(([id]) => id);
    const none = way === 'to' ? `No tank feeds ${consumer} in line-up ${lineUp.id}.` : `${consumer} returns to no tank in line-up ${lineUp.id}.`;
    return {
        title: `${way === 'to' ? 'The supply of' : 'The return of'} ${consumer} in line-up ${lineUp.id}`, defaults: [],
        body: [
            tanks.length === 0 ? `${none}${shut.length > 0 ? ` Shut: ${listed(shut)}.` : ''}` : `${way === 'to' ? `${consumer} draws from ${listed(tanks)}` : `${consumer} returns to ${listed(tanks)}`}${tanks.length > 1 ? ', from more than one tank at once' : ''}.`,
            ...(order.length > 0 ? [`${way === 'to' ? 'From the tank on' : 'From the engine on'}: ${order.map((id) => nameOf(boat, id)).join(', ')}.`] : []),
            ...(way === 'to' && tanks.length > 0 ? [alone.length === 0 ? 'No single part stops it.' : `${capital('each')} of these alone stops it, blocked or drawing air: ${alone.map((id) => nameOf(boat, id)).join(', ')}.`] : []),
        ],
        data: { ask: 'paths', way, consumer, lineUp: lineUp.id, tanks, parts: order, ...(way === 'to' && { singlePoints: alone }) },
        used: [...lineUp.positions.keys()].filter((id) => order.includes(id)).map((about) => ({ about, fact: 'normally' })), missing: [],
    };
}
