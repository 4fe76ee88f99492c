/**
 * Fuel is moved from one tank to another by an electric pump, in a line-up for transfer. It is stopped before the tank stands at 95 %, by as
 * much as comes in a minute, since so long a person may need from the sounding to the switch (common practice, from memory); and while the
 * source still covers every pickup in use, wherever in her envelope she leans. Published C5: an engine never draws from the tank that
 * is filled, if another can feed it.
 */
import type { Id, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { PlannedServiceStep, Remark } from '../plan';
import type { Visit } from '../visit';
import { mouthMissing, rateMissing, sizeMissing } from '../../../analysis/missing';
import type { Recipe, Whole } from './recipe';
import { exactly, over, type Estimate } from '../../../analysis/estimate';
import { levelTanks } from '../../../analysis/tanks/level';
import { grossOf } from '../../../analysis/tanks/liquid';
import { FULL, leastToWet, mostToWet } from '../../../analysis/tanks/pickups';
import { UPRIGHT } from '../../../analysis/tanks/attitude';
import { ledgersOf } from '../../../analysis/time/overflow';
import { transfersOf, type Transfer } from '../../../analysis/time/transfer';
import { partsAfter, partsBefore, running, tanksBefore } from '../../../analysis/topology/paths';
import { listed, litres } from '../../../model/words';
import { planned } from '../step-of';
import { blank, named, settings, sounding, unplaced, wholeLitres } from './operation';
import { drawingElsewhere, type Drawing } from './drawing-elsewhere';

/** So long a person may need from the sounding to the switch, s: common practice, from memory. */
const NOTICE = 60;
/** s to sound both tanks, to set the valves, and to do both again: no source. */
const AROUND = 15 * 60;

export const transfer: Recipe = {
    verb: 'transfer',
    rows: (boat) => boat.lineUps.filter(({ use }) => use === 'transfer').map(({ id }) => ({ verb: 'transfer', part: id, piece: '' })),
    fits: (_visit, { verb }) => verb === 'transfer',
    make: (visit, { part }) => {
        const { boat, network, lineUps, request, starts, ends } = visit;
        const lineUp = lineUps.find(({ id, use }) => id === part && use === 'transfer');
        if (!lineUp) return blank(`There is no line-up for transfer called ${part ?? ''}.`);
        const missing = unplaced(boat, lineUp, starts, ends);
        if (missing.length > 0) return blank('A valve is placed by nothing that is written.', missing);
        const found = transfersOf(boat, lineUp, request.today?.volumes);
        const [first, ...others] = found;
        if (!first) return blank(`In ${lineUp.id} no electric pump moves fuel from one tank to another. By its own height alone it runs as the levels have it, and no litres can be promised.`);
        if (others.length > 0) return blank(`In ${lineUp.id} ${listed(found.map(({ pump }) => pump))} run at once. Write a line-up for each, so that one tank is watched at a time.`);
        const [from, into] = [first.from, first.to].map((ids) => boat.tanks.filter(({ id }) => ids.includes(id)));
        if (from!.length > 1 || into!.length > 1 || from![0] === into![0]) return blank(`In ${lineUp.id} ${first.pump} draws from ${listed(first.from)} and may deliver into ${listed(first.to)}. Shut all but one on each side.`);
        const carried = [from![0]!, into![0]!].map(({ carries }) => carries ?? 'diesel');
        if (carried[0] !== carried[1]) return blank(`${from![0]!.id} carries ${carried[0]!}, ${into![0]!.id} ${carried[1]!}: the one is never pumped into the other.`);
        const away = drawingElsewhere(visit, lineUp, first.pump, into![0]!.id);
        const joined = levelTanks(network, away.positions).find((group) => group.includes(into![0]!.id)) ?? [];
        if (joined.length > 1) return blank(`In ${lineUp.id} ${listed(joined)} are joined by an open line: what is pumped in does not stay where it is sounded. Shut it in the line-up.`);
        const amounts = amountsOf(visit, first, from![0]!, into![0]!, away);
        return 'blank' in amounts ? amounts : wholeOf(visit, first, amounts, away);
    },
};

interface Amounts {
    /** m³ in the source that it must not go below, and in the tank at which the pump is stopped at the latest. */
    readonly keeps: number;
    readonly mark: number;
    /** m³ to move: what is planned, or what fits today; nothing where neither is known. */
    readonly moves?: number;
    /** m³ that the tank holds when it is done, where its level today is known. */
    readonly holds?: number;
    /** s, for what is moved, or else for all that an empty tank takes up to the mark. */
    readonly seconds: Estimate;
    /** What was planned and does not fit today, m³. */
    readonly planned?: number;
}

function amountsOf({ boat, network, ends, request: { today } }: Visit, { pump, rate, moves: plan }: Transfer, from: Tank, into: Tank, away: Drawing): Amounts | ReturnType<typeof blank> {
    const linedUp = running(network, away.positions);
    const inUse = [partsBefore(linedUp, `${pump}:in`), ...boat.consumers.map(({ id }) => partsBefore(running(network, ends.positions), `${id}:in`))];
    const pickups = from.fittings.filter(({ id, kind }) => kind === 'pickup' && inUse.some((parts) => parts.has(id)));
    const wet = pickups.map(({ id, mouth }) => ({ id, least: today ? leastToWet(from, mouth, today.attitude) : mostToWet([from], mouth, boat.vessel.envelope)?.volume ?? leastToWet(from, mouth, UPRIGHT) }));
    const [gross, ownGross] = [grossOf(into), grossOf(from)];
    const unknown: MissingFact[] = [
        ...(gross === undefined ? [sizeMissing(into.id)] : []), ...(ownGross === undefined ? [sizeMissing(from.id)] : []), ...(rate ? [] : [rateMissing(named(boat, pump))]),
        ...wet.flatMap(({ id, least }) => (least !== undefined || ownGross === undefined ? [] : [mouthMissing(id)])),
    ];
    if (gross === undefined || !rate || unknown.length > 0) return blank('It cannot be said when to stop the pump.', unknown);
    const keeps = Math.max(0, ...wet.map(({ least }) => least!));
    // What runs meanwhile fills the tank too; nothing that draws from it is counted on.
    const ledger = ledgersOf(boat, { ...away.lineUp, positions: away.positions }).find(({ tank }) => tank === into.id);
    const fastest = Math.max(rate.most, ledger?.net.most ?? 0);
    const mark = wholeLitres(FULL * gross - NOTICE * fastest);
    if (mark <= 0) return blank(`${pump} fills ${into.id} within a minute: nobody can stop it in time. Fit a float switch that stops it, and leave the filling to that.`);
    const [has, source] = [today?.volumes.get(into.id), today?.volumes.get(from.id)];
    if (has !== undefined && has >= mark) return blank(`${into.id} holds ${litres(has)} already; ${pump} is to be stopped at ${litres(mark)}.`);
    if (source !== undefined && source <= keeps) return blank(`${from.id} holds ${litres(source)}, and needs ${litres(keeps)} to keep ${listed(pickups.map(({ id }) => id))} covered: nothing can be moved out of it.`);
    if (plan && plan.si > mark) return blank(`${litres(plan.si)} are to be moved, and ${into.id} takes no more than ${litres(mark)} even when it is empty.`);
    const fits = Math.min(plan?.si ?? Infinity, has === undefined ? Infinity : mark - has, source === undefined ? Infinity : source - keeps);
    const known = has !== undefined && source !== undefined;
    const moves = known ? wholeLitres(fits) : plan?.si;
    if (moves !== undefined && moves <= 0) return blank(`Less than a litre fits: ${into.id} holds ${litres(has ?? 0)}, ${from.id} ${litres(source ?? 0)}.`);
    const seconds = over(exactly(moves ?? mark), rate);
    if (!seconds) return blank('It cannot be said when to stop the pump.', [rateMissing(named(boat, pump))]);
    return { keeps, mark, seconds, ...(moves !== undefined && { moves }), ...(known && { holds: has + moves! }), ...(known && plan && fits < plan.si && { planned: plan.si }) };
}

function wholeOf({ boat, network, starts, ends, request }: Visit, { lineUp, pump, from: [from], to: [into] }: Transfer, { keeps, mark, moves, holds, seconds, planned: tooMuch }: Amounts, { positions, stops, others, onlyHere }: Drawing): Whole {
    const [source, tank] = [from!, into!];
    const linedUp = running(network, positions);
    const [before, after] = [partsBefore(linedUp, `${pump}:in`), partsAfter(linedUp, `${pump}:out`)];
    // From the source towards the discharge (published C6); back the other way round.
    const rank = (valve: Id): number => (before.has(valve) ? 1 : after.has(valve) ? 2 : 0);
    const out = settings(network, starts.positions, positions, rank);
    const home = settings(network, positions, ends.positions, (valve) => -rank(valve));
    const bounds: Remark = { say: 'sound first', with: { from: source, to: tank, least: keeps + (moves ?? 0), ...(moves !== undefined && holds === undefined && { most: mark - moves }) } };
    const expected: Remark = { say: 'expect transfer', with: { pump, from: source, to: tank, volume: moves ?? mark, least: seconds.least, likely: seconds.si, most: seconds.most, fromEmpty: moves === undefined ? 'yes' : 'no' } };
    const less: readonly Remark[] = tooMuch === undefined ? [] : [{ say: 'moves less', with: { lineUp, volume: moves!, planned: tooMuch } }];
    const turned: readonly Remark[] = [
        ...others.map(({ engine, tanks }): Remark => ({ say: 'another tank feeds', with: { engine, tank, tanks } })),
        ...onlyHere.map((engine): Remark => ({ say: 'only this tank', with: { engine, tank } })),
    ];
    const agree: Remark = { say: 'levels agree', with: { from: source, to: tank } };
    // Where nobody knows the level today it is pumped by what goes over, and the mark is only the last stop.
    const asRun: PlannedServiceStep = planned('work', { do: 'run', part: pump, until: { tank, holds: holds ?? mark } }, expected, { say: 'never unattended', with: { pump, tank } }, { say: 'stop pumping if', with: { pump, from: source, to: tank, mark, keeps } });
    const pumping: PlannedServiceStep = holds === undefined && moves !== undefined ? { ...asRun, told: { tell: 'pump over', with: { pump, to: tank, volume: moves, likely: seconds.si, mark } } } : asRun;
    return {
        consumers: stops, fluid: (boat.tanks.find(({ id }) => id === source)!.carries ?? 'diesel') === 'diesel' ? 'fuel' : 'coolant',
        takes: { seconds: AROUND + seconds.si, people: 1 }, needs: { tools: ['sounding stick or tape', 'watch', 'pads for what comes from a vent'] },
        whole: [
            ...stops.map((part) => planned('prepare', { do: 'stop', part }, { say: 'stopped while filled', with: { engine: part, tank } })),
            sounding('prepare', source),
            sounding('prepare', tank, bounds, ...less),
            ...out.map((step, i) => planned('work', step, ...(i === 0 ? turned : []))),
            pumping,
            planned('work', { do: 'stop', part: pump }),
            ...home.map((step) => planned('restore', step)),
            sounding('verify', source),
            sounding('verify', tank, agree),
            planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' }),
            planned('finish', { do: 'log', jobs: request.jobs }),
        ],
        acceptance: [{ say: 'line-up', with: { lineUp: ends.id } }],
        log: [{ say: 'log levels', with: { tanks: [source, tank] } }, { say: 'log run', with: { pump } }],
        defaults: [
            `a person needs ${NOTICE} s from the sounding to the switch (common practice, from memory)`,
            ...(boat.vessel.envelope.heel && boat.vessel.envelope.trim || request.today ? [] : [`she lies upright meanwhile (no envelope of heel and trim is stated)`]),
            ...(tanksBefore(linedUp, `${pump}:in`).some((id) => !boat.tanks.find((other) => other.id === id)?.carries) ? [`${source} carries diesel (not stated)`] : []),
        ],
    };
}
