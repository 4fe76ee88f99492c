/** Suction: what a consumer's first pump draws against, part by part, against its maker's limit, and what the next bore of each pipe would buy. */
import type { Boat, Id } from '../../model/boat';
import { estimateOf } from '../../analysis/estimate';
import { boreSteps, type BoreStep } from '../../analysis/flow/bore-steps';
import { worstSuction, type Suction, type Worst } from '../../analysis/flow/suction';
import { networkOf } from '../../analysis/topology/network';
import { nameOf } from '../../checks/check';
import { fromSI } from '../../model/units';
import { attitudeWords, capital, figure } from '../../model/words';
import { kPa } from '../figures';
import type { Answer, Table } from './answer';
import { bandData, bandWords, drawsWords, flowDefaults, flowGrounds, inKPa, isReckoned, levelIn, limitWords, litresPerHour, lyingWords, ownSpeedSentences, partlySentences, partsTo, pressureData, speedData, speedIn, speedWords, unreckonedWords, untoldMissing, untoldWords } from './flowing';
import { round } from './open';
import type { State } from './state';

/** Of the sum: what a wider pipe has to take off to be worth its work. Our own measure. */
const WORTH = 0.1;

export function answerSuction(boat: Boat, id: Id, state: State): Answer {
    const network = networkOf(boat);
    const consumer = network.consumers.get(id)!;
    const speed = speedIn(state, consumer);
    const elements = state.said.elements ?? 'dirty';
    const how = { speed, level: levelIn(state, 'low'), attitudes: state.attitudes };
    const { worst, untold } = worstSuction(network, consumer, state.runs, { ...how, elements });
    const title = `What ${id} draws against ${speedWords(speed)}, elements ${elements}`;
    if (!worst) return {
        title, body: [isReckoned(consumer) ? untoldWords(id, untold) : unreckonedWords(id)], data: { ask: 'suction', consumer: id, speed: speedData(speed), elements, budget: [], bores: [] },
        used: [], defaults: [], missing: isReckoned(consumer) ? untoldMissing(boat, untold) : [],
    };
    const { suction, total } = worst;
    const { lineUp, attitude } = suction.asked;
    const other = elements === 'dirty' ? 'clean' : 'dirty';
    const beside = worstSuction(network, consumer, state.runs, { ...how, elements: other }).worst;
    const steps = [...boreSteps(network, suction)].sort((a, b) => b.gain - a.gain || (a.part < b.part ? -1 : 1));
    const before = partsTo(network, lineUp, suction.inlet);
    return {
        title,
        body: [
            `${capital(drawsWords(boat, id, suction.inlet))} draws ${litresPerHour(suction.flow)} ${total.si < 0 ? `and is pushed by ${bandWords({ si: -total.si, least: -total.most, most: -total.least })}` : `against a suction of ${bandWords(total)}`} in ${lineUp.id}, ${lyingWords(boat, state, attitude)}.`,
            ...weakSentences(boat, suction),
            ...ownSpeedSentences(state, consumer),
            ...limitSentences(id, suction, elements, { [elements]: worst, ...(beside && { [other]: beside }) }, consumer.limits),
            ...partlySentences(untold),
            budgetTable(boat, suction),
            ...(beside ? [`With ${other === 'clean' ? 'new elements' : 'elements that are to be renewed'}: ${bandWords(beside.total)}.`] : []),
            ...boreSentences(boat, suction, steps),
        ],
        data: {
            ask: 'suction', consumer: id, speed: speedData(speed), elements, lineUp: lineUp.id, attitude: attitudeWords(attitude), at: suction.inlet.point, litresPerHour: round(fromSI(suction.flow, 'L/h')),
            total: bandData(total), ...(beside && { [other]: bandData(beside.total) }),
            budget: [{ of: 'height', ...pressureData(suction.height) }, ...suction.way.map(({ part, by, loss }) => ({ part, of: by, ...pressureData(loss) }))],
            ...(consumer.limits.inlet && { limitDirtyKPa: inKPa(consumer.limits.inlet.si) }), ...(consumer.limits.clean && { limitCleanKPa: inKPa(consumer.limits.clean.si) }),
            bores: steps.map(({ part, from, to, gain }) => ({ part, fromMm: round(fromSI(from, 'mm')), toMm: round(fromSI(to, 'mm')), gainKPa: inKPa(gain), worth: isWorth(suction, gain) })),
        },
        used: flowGrounds(boat, before, [id]),
        defaults: flowDefaults(boat, [suction.steady, ...(beside ? [beside.suction.steady] : [])], before, [consumer], speed),
        missing: untoldMissing(boat, untold),
    };
}

/** What is reckoned is what is drawn, whether or not the pump can give it. */
function weakSentences(boat: Boat, { inlet: { pump }, flow }: Suction): string[] {
    const rate = boat.parts.find(({ id, kind }) => id === pump && kind === 'electric pump')?.rate;
    const gives = rate && estimateOf(rate);
    return gives && gives.least < flow * (1 - NEAR) ? [`WARNING: ${nameOf(boat, pump!)} gives ${litresPerHour(gives.si)}${gives.least < gives.si ? `, and it may be ${litresPerHour(gives.least)}` : ''}: less than is drawn through it.`] : [];
}

/** A share: a flow that is no less. */
const NEAR = 1e-6;

type Limits = Boat['consumers'][number]['limits'];

/** With dirty elements the limit is `limits inlet`, with new ones `limits clean`; where another pump pushes, neither is about the first. */
function limitSentences(id: Id, { inlet }: Suction, elements: 'clean' | 'dirty', found: Partial<Record<'clean' | 'dirty', Worst>>, limits: Limits): string[] {
    if (inlet.feeds !== undefined) return [`It pushes to ${inlet.feeds}; the limits of ${id} are about that one.`];
    const order = elements === 'dirty' ? (['dirty', 'clean'] as const) : (['clean', 'dirty'] as const);
    const told = order.flatMap((which) => {
        const limit = which === 'dirty' ? limits.inlet : limits.clean;
        const worst = found[which];
        return limit && worst ? [which === elements ? limitWords(worst.total, limit.si, `${id}'s`) : `With ${which === 'clean' ? 'new' : 'dirty'} elements: ${limitWords(worst.total, limit.si, `${id}'s`)}`] : [];
    });
    return told.length > 0 ? told : [`No limit is stated for the inlet of ${id}; the maker's book has it, and it is written \`limits inlet 20 kPa\`.`];
}

function budgetTable(boat: Boat, { height, way, total, friction, elements, checks }: Suction): Table {
    const row = (what: string, of: string, loss: number): string[] => [what, of, figure(fromSI(loss, 'kPa')), figure(fromSI(loss, 'inHg'), 2)];
    const rest = friction - way.filter(({ by }) => by === 'friction').reduce((sum, { loss }) => sum + loss, 0);
    return {
        head: ['', 'takes', 'kPa', 'inHg'],
        rows: [
            row(height < 0 ? 'the liquid stands higher than the inlet' : 'the inlet stands higher than the liquid', 'height', height),
            ...way.map(({ part, by, loss }) => row(nameOf(boat, part), by, loss)),
            ...(Math.abs(rest) > 1 ? [row('valves, joints and the rest', 'friction', rest)] : []),
            row('in all', `height ${kPaOnly(height)}, friction ${kPaOnly(friction)}, elements ${kPaOnly(elements)}, checks ${kPaOnly(checks)}`, total),
        ],
    };
}

const kPaOnly = (si: number): string => figure(fromSI(si, 'kPa'), 2);
const isWorth = ({ total }: Suction, gain: number): boolean => total > 0 && gain >= WORTH * total;

function boreSentences(boat: Boat, suction: Suction, steps: readonly BoreStep[]): (string | Table)[] {
    const best = steps[0];
    if (!best) return [];
    const words = `${nameOf(boat, best.part)} from ${boreWords(best.from)} to ${boreWords(best.to)}`;
    return [
        isWorth(suction, best.gain) ? `One wider pipe is worth doing first: ${words} takes off ${kPa(best.gain)}, ${figure((best.gain / suction.total) * 100, 2)} % of the sum.`
            : `No wider pipe matters: the best, ${words}, takes off ${kPa(Math.max(0, best.gain))}${suction.total > 0 ? `, less than ${WORTH * 100} % of the sum` : ''}.`,
        { head: ['pipe', 'bore', 'next', 'takes off, kPa'], rows: steps.map(({ part, from, to, gain }) => [nameOf(boat, part), boreWords(from), boreWords(to), figure(fromSI(gain, 'kPa'), 2)]) },
        'One pipe at a time, the others as they are. The next bores are the nominal ones of ISO 1307 for hoses, from memory; of a tube take the nearest.',
    ];
}

const boreWords = (si: number): string => `${figure(fromSI(si, 'mm'))} mm`;

