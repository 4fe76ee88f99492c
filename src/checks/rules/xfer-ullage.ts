/** No level of the moment is known to a text, so the best case is judged: the tank that is filled stands at the lowest level of the envelope. */
import type { Id, LineUp, Tank } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { lowLevel } from '../../analysis/opening/condition';
import { grossOf } from '../../analysis/tanks/liquid';
import { FULL } from '../../analysis/tanks/pickups';
import { transfersOf } from '../../analysis/time/transfer';
import { downstream, passagesOf } from '../../analysis/topology/paths';
import { figure, listed, litres } from '../../model/words';
import { nothing, type Check, type View } from '../check';
import { levelMissing, shapeGrounds, sizeMissing } from '../../analysis/missing';
import { least, most } from '../../analysis/estimate';

export const xferUllage: Check = {
    code: 'XFER-ULLAGE', severity: 'minor', slow: true,
    statement: 'What a line-up for transferring moves has room in the tank that it fills, up to 95 %, at least when that tank stands at the lowest level of the envelope.',
    prevents: 'A tank that is pumped over, through its vent.',
    facts: 'what the line-up moves; size of the tank that it fills; lowest level of the envelope; the network',
    source: 'logic; 95 % is common practice',
    judge: (view) => {
        const moving = view.boat.lineUps.filter(({ moves }) => moves);
        return moving.length === 0 ? [nothing('no line-up says what it moves')] : moving.map((lineUp) => judge(view, lineUp));
    },
};

function judge(view: View, { id: about, moves }: LineUp): Verdict {
    const { boat } = view;
    const { fills, filled, leadsBack } = tanksOf(view, about);
    if (fills.length === 0) return { outcome: 'not applicable', about, why: 'it leads fuel from no tank to another' };
    const bothWays: Verdict = { outcome: 'cannot tell', about, missing: [{ about, fact: `which tank ${about} fills`, how: 'set the valves in the line-up so that one way between the tanks is open' }] };
    if (filled.length === 0) return bothWays;
    const unsized = filled.filter((tank) => grossOf(tank) === undefined);
    if (unsized.length > 0) return { outcome: 'cannot tell', about, missing: unsized.map(({ id }) => sizeMissing(id)) };
    const gross = filled.reduce((sum, tank) => sum + grossOf(tank)!, 0);
    const room = Math.max(0, (FULL - lowLevel(boat)) * gross);
    const rests: Ground[] = [{ about }, ...filled.flatMap((tank) => shapeGrounds(boat, tank.id)), ...(boat.vessel.envelope.level ? [{ about: 'vessel', fact: 'envelope level' }] : [])];
    const certain = least(moves!) > room + DROP;
    if (!certain && most(moves!) <= room + DROP) return boat.vessel.envelope.level ? { outcome: 'pass', about, rests } : { outcome: 'cannot tell', about, missing: [levelMissing] };
    // What leads back takes some of it, and nobody knows how much.
    if (leadsBack) return bothWays;
    const names = listed(filled.map(({ id }) => id));
    const from = FULL - most(moves!) / gross;
    const whole = Math.floor(room * 1e3 + 1e-6);
    return {
        outcome: 'fail', about, rests, ...(!certain && { severity: 'advice' }),
        message: `${about} moves ${litres(moves!.si)}, and up to 95 % ${names} ${filled.length > 1 ? 'take' : 'takes'} no more than ${litres(room)}${lowLevel(boat) > 0 ? `, even from the lowest level, ${figure(lowLevel(boat) * 100)} %` : ', even when empty'}.`,
        reason: `The rest comes out of the vent of ${names}.`,
        advice: `Move ${whole >= 1 ? `no more than ${whole} L, and write \`moves ${whole} L\`` : 'nothing before there is room'}${from >= 0 ? `; or sound ${names} first: what is planned fits when ${filled.length > 1 ? 'they hold' : 'it holds'} ${figure(Math.floor(from * 1000 + 1e-6) / 10)} % or less` : ': what is planned fits at no level'}.`,
        see: filled.map(({ id }) => ({ id, why: 'is filled' })),
    };
}

/** Less than this is nothing, m³. */
const DROP = 1e-6;

/**
 * The tanks for fuel that are filled from another in a line-up, by lines read downstream, through no consumer; of them those that its pumps fill,
 * or, where no pump does, those that give to none. An overflow leads back from a tank that a pump fills.
 */
function tanksOf(view: View, lineUp: Id): { fills: Tank[]; filled: Tank[]; leadsBack: boolean } {
    const { boat, network } = view;
    const resolved = view.lineUps.find(({ id }) => id === lineUp)!;
    const linedUp = view.running(resolved);
    const barred = passagesOf(network, boat.consumers.map(({ id }) => id));
    const fuel = boat.tanks.filter((tank) => (tank.carries ?? 'diesel') === 'diesel');
    const pairs = fuel.flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup').flatMap((pickup) => {
        const met = downstream(linedUp, network.index.get(pickup.id)!, barred);
        return fuel.filter((other) => other !== tank && other.fittings.some(({ id }) => met.has(network.index.get(id)!))).map((other) => ({ gives: tank, fills: other }));
    }));
    const [gives, fills] = [fuel.filter((tank) => pairs.some((pair) => pair.gives === tank)), fuel.filter((tank) => pairs.some((pair) => pair.fills === tank))];
    const pumped = transfersOf(boat, resolved);
    const [from, to] = [pumped.flatMap((transfer) => transfer.from), pumped.flatMap((transfer) => transfer.to)];
    const filled = fills.filter((tank) => to.includes(tank.id) && !from.includes(tank.id));
    return filled.length > 0 ? { fills, filled, leadsBack: filled.some((tank) => gives.includes(tank)) } : { fills, filled: fills.filter((tank) => !gives.includes(tank)), leadsBack: false };
}
