/** What the first pump of each consumer draws against: the budget of its suction, in the worst corner of the envelope. */
import type { Consumer, Id } from '../../../model/boat';
import type { Measure } from '../../../model/measure';
import { estimateOf } from '../../../analysis/estimate';
import { isTold, suctionAt, worstSuction, type Suction, type Worst } from '../../../analysis/flow/suction';
import { attitudesOf } from '../../../analysis/opening/condition';
import { nameOf, type View } from '../../../checks/check';
import { distinct, flowMissing } from '../../../analysis/missing';
import { fromSI } from '../../../model/units';
import { attitudeWords, capital, listed } from '../../../model/words';
import { flowsOf, worseBy, type Drawing } from '../flows';
import { signed } from '../numbers';
import { carried, type Working } from '../working';
import { densityWorking } from './fuel';
import { headIn } from './heads';
import { G, lossesOn } from './losses';

const FORMULA = 'p = ρ × g × h + F + E + C';
const SOURCE = 'sum of what height, pipes, elements and checks take';
const bare = (pascals: number): string => signed(fromSI(pascals, 'kPa').toFixed(2));

export function suctionWorkings(view: View): Working[] {
    const drawings = flowsOf(view).drawing;
    return [...new Set(drawings.map(({ consumer }) => consumer))].flatMap((consumer) => {
        const own = drawings.filter((drawing) => drawing.consumer === consumer);
        return [...budget(view, own, 'dirty'), ...(consumer.limits.clean ? budget(view, own, 'clean') : [])];
    });
}

/** The line-up in which it is worst; undefined where it is told in none. */
export function worstOf(drawings: readonly Drawing[]): (Drawing & { readonly worst: Worst }) | undefined {
    return drawings.filter((drawing): drawing is Drawing & { readonly worst: Worst } => drawing.worst !== undefined)
        .reduce<(Drawing & { readonly worst: Worst }) | undefined>((most, other) => (most && most.worst.total.si >= other.worst.total.si - 1e-3 ? most : other), undefined);
}

function budget(view: View, drawings: readonly Drawing[], elements: 'dirty' | 'clean'): Working[] {
    const { boat, network } = view;
    const { consumer } = drawings[0]!;
    const shared = { id: `suction ${consumer.id}${elements === 'clean' ? ', new elements' : ''}`, about: consumer.id, source: SOURCE, rule: 'SUCTION-BUDGET' };
    const asked = elements === 'dirty' ? drawings : drawings.map(({ worst: _, ...drawing }): Drawing => ({ ...drawing, ...worstSuction(network, consumer, [drawing.lineUp], { speed: 'full', elements }) }));
    const most = worstOf(asked);
    const untold = asked.flatMap((drawing) => drawing.untold);
    const missing = distinct(untold.flatMap((one) => flowMissing(boat, consumer, one)));
    if (!most) return [{ ...shared, what: `What ${consumer.id} draws against`, formula: FORMULA, inputs: [], steps: [], notes: [], missing }];
    const { worst: { suction, total }, inlet } = most;
    const pump = inlet.pump ?? consumer.id;
    const head = suction.from === undefined ? undefined : headIn(view, pump, suction.from, suction.asked.attitude);
    const what = `What ${pump === consumer.id ? consumer.id : `${nameOf(boat, pump)} of ${consumer.id}`} draws against at full speed, with ${elements === 'dirty' ? 'elements that are to be renewed' : 'new elements'}`;
    const where = `${attitudeWords(suction.asked.attitude)}, lowest level, coldest fuel, line-up ${suction.asked.lineUp.id}`;
    if (!head?.result) return [...(head ? [head] : []), { ...shared, what, formula: FORMULA, inputs: [], steps: [], where, notes: [], missing: distinct([...(head?.missing ?? []), ...missing]) }];
    const losses = lossesOn(view, suction.way.map(({ passed }) => passed), { steady: suction.steady, asked: suction.asked, point: inlet.point }, elements);
    const limit = limitOf(consumer, inlet.feeds, elements);
    return [head, ...losses.frictions, {
        ...shared, what, formula: `p = ${['ρ × g × h', ...losses.terms].join(' + ')}`, where, ...(limit && { limit }),
        inputs: [...carried('ρ', 'density of the fuel', densityWorking(view)), G, ...carried('h', `height of ${nameOf(boat, pump)} over what it draws from`, head), ...losses.inputs], steps: losses.steps,
        result: { symbol: 'p', value: total, unit: 'kPa', remains: true }, missing,
        notes: [
            `Of it height ${bare(suction.height)}, pipes ${bare(suction.friction)}, elements ${bare(suction.elements)} and checks ${bare(suction.checks)} kPa.`,
            ...elsewhere(view, consumer, most, asked), ...divided(view, suction),
            ...(total.least < total.most ? ['At most: the fuel as thick as it may be, every guess at its worst, and tails, elbows and valves; at least none of these.'] : []),
            ...(inlet.feeds === undefined ? [] : [`${nameOf(boat, pump)} pushes to ${nameOf(boat, inlet.feeds)}, so the limit of ${consumer.id} is not asked here.`]),
            ...worseBy(missing),
        ],
    }];
}

function limitOf({ id, limits: { inlet, clean } }: Consumer, feeds: Id | undefined, elements: 'dirty' | 'clean'): Working['limit'] {
    const limit: Measure | undefined = elements === 'dirty' ? inlet : clean;
    return limit && feeds === undefined ? { value: estimateOf(limit), unit: 'kPa', sense: 'at most', from: { about: id, fact: elements === 'dirty' ? 'limits inlet' : 'limits clean' } } : undefined;
}

/** The other corners, and the other line-ups, each in one line. */
function elsewhere(view: View, consumer: Consumer, { worst: { suction }, inlet, lineUp }: Drawing & { readonly worst: Worst }, all: readonly Drawing[]): string[] {
    const corners = attitudesOf(view.boat).flatMap((attitude) => {
        const found = suctionAt(view.network, consumer, inlet, { ...suction.asked, attitude });
        return isTold(found) ? [`${bare(found.total)} ${attitudeWords(attitude)}`] : [];
    });
    const others = all.flatMap((other) => (other.lineUp === lineUp ? [] : [`${other.lineUp.id} ${other.worst ? bare(other.worst.total.si) : 'not told'}`]));
    return [...(corners.length > 1 ? [`By corners, kPa: ${corners.join('; ')}.`] : []), ...(others.length > 0 ? [`At worst in other line-ups, kPa: ${others.join('; ')}.`] : [])];
}

/** Where the flow has several ways the sum follows one. */
function divided({ boat }: View, { way, flow }: Suction): string[] {
    const named = (which: (share: number) => boolean): string[] => [...new Set(way.filter(({ passed }) => which(Math.abs(passed.flow!) / flow)).map(({ part }) => nameOf(boat, part)))];
    const [less, more] = [named((share) => share < 1 - 1e-6), named((share) => share > 1 + 1e-6)];
    const told = [...(less.length > 0 ? [`through ${listed(less)} only part of this flow comes`] : []), ...(more.length > 0 ? [`through ${listed(more)} more flows than this`] : [])];
    return told.length === 0 ? [] : [`${capital(told.join('; '))}: the sum follows the way by which most comes, with the flows of the network solution (see the balance of flows).`];
}
