/** Line-ups for transfer and polishing: whether what is planned has room, how long the pump takes, and how often it turns a tank over. */
import type { Id, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { exactly } from '../../../analysis/estimate';
import { lowLevel } from '../../../analysis/opening/condition';
import { FULL } from '../../../analysis/tanks/pickups';
import { polishingOf, transfersOf, TURNOVERS, unfiltered, type PolishingLoop, type Transfer } from '../../../analysis/time/transfer';
import type { View } from '../../../checks/check';
import { distinct, levelMissing } from '../../../analysis/missing';
import { missingInTime } from '../../../checks/missing-in-time';
import { WITHIN } from '../../../checks/rules/polish-turnover';
import { listed, litres } from '../../../model/words';
import { byName, carried, input, within, type From, type Working } from '../working';
import { fullWorking, grossWorking, sub } from './tanks';

export const transferWorkings = (view: View): Working[] => [...view.lineUps].sort((a, b) => byName(a.id, b.id)).flatMap((lineUp) => [
    ...transfersOf(view.boat, lineUp).flatMap((transfer) => movedWorkings(view, transfer)),
    ...polishingOf(view.boat, lineUp).flatMap((loop) => polishWorkings(view, loop)),
]);

const tanksOf = ({ boat }: View, ids: readonly Id[]): Tank[] => boat.tanks.filter(({ id }) => ids.includes(id));

function movedWorkings(view: View, { lineUp, pump, to, from, moves, rate, seconds, lacks }: Transfer): Working[] {
    const { boat } = view;
    // One that it also draws from is not filled.
    const filled = tanksOf(view, to.filter((id) => !from.includes(id)));
    const gross = filled.map(grossWorking);
    const names = listed(filled.map(({ id }) => id));
    const low = lowLevel(boat);
    const stated = boat.vessel.envelope.level;
    const sum = gross.every(({ result }) => result) && filled.length > 0 ? gross.reduce((all, { result }) => all + result!.value.si, 0) : undefined;
    const inputs = gross.flatMap((working, i) => carried(gross.length > 1 ? `G${sub(i + 1)}` : 'G', `the whole inside of ${filled[i]!.id}`, working));
    const symbols = inputs.map(({ symbol }) => symbol);
    const planned = boat.lineUps.find(({ id }) => id === lineUp)?.moves;
    const movesFact: From = { about: lineUp, fact: 'moves', ...(planned && { words: `moves ${litres(planned.si)}` }) };
    const room: Working = {
        id: `room for ${lineUp} by ${pump}`, about: lineUp, what: `What ${names} ${filled.length > 1 ? 'take' : 'takes'} from the lowest level up to 95 %`, formula: `R = max(0, f − p) × ${symbols.length > 1 ? `(${symbols.join(' + ')})` : 'G'}`, source: 'definition',
        inputs: [...inputs, input('f', 'share to which it is filled', FULL, '%', { taken: `${FULL * 100} %, trade practice` }), ...(stated ? [input('p', 'lowest level, as a share of the whole inside', low, '%', { about: 'vessel', fact: 'envelope level' })] : [])], steps: [],
        ...(sum !== undefined && stated && { result: { symbol: 'R', value: exactly(Math.max(0, FULL - low) * sum), unit: 'L' } }), rule: 'XFER-ULLAGE', missing: distinct([...gross.flatMap(({ missing }) => missing), ...(stated ? [] : [levelMissing])]),
        ...(moves && planned && { limit: { value: moves, unit: 'L', sense: 'at least' as const, from: movesFact } }), notes: ['Sound the tank before pumping: from a higher level there is less room.'],
    };
    const missing: MissingFact[] = distinct(lacks.filter(({ of }) => of === 'moves' || of === 'rate').map((lack) => missingInTime(boat, lack)));
    return [...(filled.length > 0 ? [room] : []), {
        id: `time for ${lineUp} by ${pump}`, about: pump, what: `How long ${pump} takes for what is planned`, formula: 't = M / Q', source: 'volume by flow', steps: [],
        inputs: [...(planned ? [input('M', 'what is to be moved', planned, 'L', movesFact)] : []), ...rateInput(view, pump)], ...(seconds && { result: { symbol: 't', value: seconds, unit: 'min' } }), missing,
        notes: rate ? ['At the rate on its plate; lift and a dirty strainer make it slower.'] : [],
    }];
}

const rateInput = ({ boat }: View, pump: Id): Working['inputs'] => { const rate = boat.parts.find(({ id }) => id === pump)?.rate; return rate ? [input('Q', `what ${pump} moves`, rate, 'L/h', { about: pump, fact: 'gives' })] : []; };

function polishWorkings(view: View, { lineUp, pump, tank: id, turnover, seconds, lacks }: PolishingLoop): Working[] {
    const tank = view.boat.tanks.find((other) => other.id === id)!;
    const full = fullWorking(tank);
    const n = TURNOVERS[0];
    const count = { symbol: 'n', what: 'turnovers', value: exactly(n), unit: '1', from: { taken: `${TURNOVERS.join(' at least, ')} is better (common practice)` } };
    const missing = distinct(lacks.map((lack) => missingInTime(view.boat, lack)));
    const left = within([count.value], (of) => unfiltered(of!));
    return [full, {
        id: `polish ${id}, ${lineUp}`, about: id, what: `How long ${pump} takes to pump what ${id} holds round ${n} times`, formula: 't = n × τ', source: 'volume by flow', where: `line-up ${lineUp}, from full`,
        inputs: [...carried('V', `what ${id} holds`, full), ...rateInput(view, pump), count], steps: turnover ? [{ symbol: 'τ', what: 'one turnover', formula: 'τ = V / Q', value: turnover.si, unit: 'h' }] : [],
        ...(seconds && { result: { symbol: 't', value: seconds[0], unit: 'h' } }), limit: { value: exactly(WITHIN), unit: 'h', sense: 'at most', from: { cited: 'a day of pumping, our own figure' } }, rule: 'POLISH-TURNOVER', missing,
        notes: ['POLISH-TURNOVER also asks how far apart suction and discharge stand.'],
    }, ...(left && turnover ? [{
        id: `unfiltered ${id}, ${lineUp}`, about: id, what: `The share of what ${id} holds that has not been through the filter after ${n} turnovers`, formula: 'c = exp(−n)', source: 'a tank that mixes well: dc/dt = −c × Q / V', inputs: [count], steps: [],
        where: `line-up ${lineUp}`, result: { symbol: 'c', value: left, unit: '%' }, notes: ['It is also the share of the dirt, for a filter that stops all of it. What lies in corners does not mix.'], missing: [],
    } satisfies Working] : [])];
}
