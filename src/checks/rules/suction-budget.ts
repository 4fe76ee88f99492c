/**
 * Division: LIFT-STATIC judges the height alone, by another limit; PICKUP-HEEL whether the pickup is wet at all, which is taken for granted here.
 * Where one pump pushes to another, the engine's own is pushed and its limit is not asked for.
 */
import type { Boat, Consumer, Id, Part } from '../../model/boat';
import type { Measure } from '../../model/measure';
import type { Ground, Verdict } from '../../model/finding';
import { estimateOf, most } from '../../analysis/estimate';
import { boreSteps } from '../../analysis/flow/bore-steps';
import { grossFlow } from '../../analysis/flow/demand';
import { fluidOf } from '../../analysis/flow/fluid';
import { liftsOf, worstSuction, type Suction, type Worst } from '../../analysis/flow/suction';
import { grossOf } from '../../analysis/tanks/liquid';
import { fromSI } from '../../model/units';
import { capital, figure, kPa, listed, litresAnHour } from '../../model/words';
import { burnsFuel, nameOf, nothing, type Check, type View } from '../check';
import { FITTINGS, bare, fedIn, heightsNeeded, lowWords, marginOf, nearer, pumpName, sumWords, unfed, type Fed } from '../margin';
import { distinct, drawsMissing, flowMissing, limitMissing } from '../../analysis/missing';

export const suctionBudget: Check = {
    code: 'SUCTION-BUDGET', severity: 'major', slow: true,
    statement: 'At full speed, with the coldest fuel and the tank as low as it can be drawn from, at every heel and trim of the envelope, what the first pump of a consumer draws against stays within the maker\'s limit: height, pipes, elements that are to be renewed, and checks; with new elements within the limit for these, where it is stated. A pump that draws alone gives at least what the consumer draws.',
    prevents: 'An engine that loses power as its filters load, and vapour in the line.',
    facts: 'limits of the consumer; what it draws; what its pump gives; heights and places; bores and lengths; what elements take and checks open at; fuel; envelope; line-ups for running',
    source: 'makers of engines state a greatest suction at the inlet (from secondary sources); losses by Darcy and Weisbach',
    judge: (view) => {
        const consumers = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer));
        return consumers.length === 0 ? [nothing('nothing on board burns fuel')] : consumers.flatMap((consumer) => judge(view, consumer));
    },
};

interface Asked {
    readonly elements: 'dirty' | 'clean';
    readonly fact: 'limits inlet' | 'limits clean';
    readonly limit: Measure;
}

function judge(view: View, consumer: Consumer): Verdict[] {
    const about = consumer.id;
    const { fed, missing } = fedIn(view, consumer);
    if (fed.length === 0) return [missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'not applicable', about, why: unfed(view, consumer) }];
    const own = fed.filter(({ inlet }) => inlet.feeds === undefined);
    const { pump, feeds } = fed[0]!.inlet;
    if (own.length === 0) return [{ outcome: 'not applicable', about, why: `${nameOf(view.boat, pump!)} pushes to ${nameOf(view.boat, feeds!)}, so ${about} does not draw by itself` }];
    const drawn = grossFlow(consumer).least;
    const weak = own.flatMap(({ inlet }) => view.network.parts.get(inlet.pump ?? '') ?? []).find(({ rate }) => rate !== undefined && most(rate) < drawn * (1 - NEAR));
    if (weak) return [tooWeak(consumer, weak, drawn)];
    const { inlet, clean } = consumer.limits;
    const asked: Asked[] = [...(inlet ? [{ elements: 'dirty', fact: 'limits inlet', limit: inlet } as const] : []), ...(clean ? [{ elements: 'clean', fact: 'limits clean', limit: clean } as const] : [])];
    if (asked.length === 0) return [{ outcome: 'cannot tell', about, missing: [limitMissing(consumer, 'inlet')] }];
    if (consumer.draws.length === 0) return [{ outcome: 'cannot tell', about, missing: [drawsMissing(consumer)] }];

    const found = asked.map((one) => ({ ...one, ...worstSuction(view.network, consumer, own.map(({ lineUp }) => lineUp), { speed: 'full', elements: one.elements }) }));
    const heights = heightsNeeded(view, consumer, own);
    const failed = found.flatMap(({ worst, ...one }) => {
        const margin = worst && hasShape(view, worst) ? marginOf(worst.total, one.limit) : 'within';
        return margin === 'within' ? [] : [{ ...one, worst: worst!, margin }];
    });
    const first = failed.find(({ margin }) => margin === 'over') ?? failed[0];
    const rests: Ground[] = [...asked.map(({ fact }) => ({ about, fact })), { about, fact: 'draws' }, ...heights.rests, ...fluidOf(view.boat.vessel).facts.map((word) => ({ about: 'vessel', fact: word })), ...found.flatMap(({ worst }) => (worst ? partGrounds(worst.suction) : []))];
    if (first?.margin === 'over') return [fails(view, consumer, own, first, rests)];
    // A thin margin where all is known says nothing of the corners where it is not.
    const thin = first ? [fails(view, consumer, own, first, rests)] : [];
    const lacks = distinct([...missing, ...heights.missing, ...found.flatMap(({ untold }) => untold.flatMap((one) => flowMissing(view.boat, consumer, one)))]);
    return lacks.length > 0 ? [...thin, { outcome: 'cannot tell', about, missing: lacks }] : first ? thin : [{ outcome: 'pass', about, rests }];
}

/** Flows that differ by less are the same. */
const NEAR = 1e-9;

/** What it cannot move, no suction tells of. */
function tooWeak({ id }: Consumer, pump: Part, drawn: number): Verdict {
    return {
        outcome: 'fail', about: id, fact: 'draws', rests: [{ about: id, fact: 'draws' }, { about: pump.id, fact: 'gives' }],
        message: `${capital(pump.name)} gives ${litresAnHour(most(pump.rate!))} at most, and ${id} draws up to ${litresAnHour(drawn)}, all of it through ${pump.name}.`,
        reason: `${id} starves at full speed, whatever the suction.`,
        advice: `Fit a pump that gives ${litresAnHour(drawn)} or more in the place of ${pump.name}.`, see: [{ id: pump.id, why: 'gives too little' }],
    };
}

/** How low the surface of a tank without a shape can lie within the envelope is not known. */
const hasShape = ({ boat }: View, { suction }: Worst): boolean => boat.tanks.every((tank) => grossOf(tank) !== undefined || !tank.fittings.some(({ id }) => id === suction.from));

const partGrounds = ({ way, steady: { taken, state } }: Suction): Ground[] => way.flatMap(({ part, by }) => (taken.has(part) ? [] : (by === 'friction' ? ['bore', 'length'] : [by === 'element' ? state.elements : 'cracks']).map((fact) => ({ about: part, fact }))));

function fails(view: View, consumer: Consumer, fed: readonly Fed[], { worst, limit, fact, elements, margin }: Asked & { readonly worst: Worst; readonly margin: 'over' | 'thin' | 'within' }, rests: readonly Ground[]): Verdict {
    const { boat, network } = view;
    const about = consumer.id;
    const { suction, total } = worst;
    const lift = fed.filter(({ lineUp }) => lineUp.id === suction.asked.lineUp.id).flatMap(({ lineUp, inlet }) => liftsOf(network, lineUp, inlet)).find(({ fitting, attitude }) => fitting.id === suction.from && attitude.heel === suction.asked.attitude.heel && attitude.trim === suction.asked.attitude.trim);
    const where = lift ? lowWords(boat, lift) : `in ${suction.asked.lineUp.id}`;
    const sum = sumWords([['height', suction.height], ['pipes', suction.friction], [elements === 'dirty' ? 'dirty elements' : 'new elements', suction.elements], ['checks', suction.checks]]);
    const draws = `${capital(pumpName(boat, about, suction.inlet))} must draw against ${kPa(total.si)} at full speed with ${elements === 'dirty' ? 'elements that are to be renewed' : 'new elements'} (${where})`;
    const fluid = fluidOf(boat.vessel, lift?.tank.carries);
    const elsewhere = worst.most.asked.lineUp === suction.asked.lineUp ? '' : ` in ${worst.most.asked.lineUp.id}`;
    const spread = [...spreadOf(boat, consumer, worst), ...fluid.taken];
    return {
        outcome: 'fail', about, fact, rests, ...(margin === 'thin' && { severity: 'advice' }),
        message: margin === 'over' ? `${draws}; ${about} allows ${kPa(limit.si)}. It is ${sum}, and may be ${bare(total.least)} to ${bare(total.most)} kPa.`
            : `${draws}. That is within the ${kPa(limit.si)} that ${about} allows, but it may be up to ${bare(total.most)} kPa${elsewhere}: it is ${sum}.`,
        reason: `Beyond the limit ${about} loses power, at full speed first, and vapour comes out of the fuel.${spread.length > 0 ? ` What makes the sum uncertain: ${spread.join('; ')}.` : ''}`,
        advice: adviceFor(view, worst, (margin === 'over' ? total.si - estimateOf(limit).si : total.most - estimateOf(limit).least), margin === 'thin'),
        see: [...suction.way].filter(({ loss }) => loss >= 100).sort((a, b) => b.loss - a.loss).slice(0, 4).map(({ part, loss }) => ({ id: part, why: `takes ${bare(loss)} kPa` })),
    };
}

/** What the guesses are that matter here, by what each adds at most. */
function spreadOf(boat: Boat, { id }: Consumer, { suction, most }: Worst): string[] {
    const more = (of: 'elements' | 'checks' | 'friction'): boolean => most[of] - suction[of] > 50;
    const taken = (by: 'element' | 'check'): Id[] => most.way.filter((one) => one.by === by && most.steady.taken.has(one.part)).map(({ part }) => part);
    const says = (parts: readonly Id[]): string[] => parts.map((part) => `${nameOf(boat, part)} ${most.steady.taken.get(part)!}`);
    return [
        ...(more('elements') ? says(taken('element')) : []),
        ...(more('checks') ? says(taken('check')) : []),
        ...(more('friction') ? [FITTINGS] : []),
        ...(most.flow > suction.flow * 1.001 ? [`what ${id} draws at full speed`] : []),
    ];
}

function adviceFor({ boat, network }: View, { suction, most: atMost }: Worst, over: number, thin: boolean): string {
    const best = boreSteps(network, suction).reduce<ReturnType<typeof boreSteps>[number] | undefined>((most, step) => (most && most.gain >= step.gain ? most : step), undefined);
    const step = best && best.gain > 10 ? `fit ${figure(fromSI(best.to, 'mm'))} mm in place of the ${figure(fromSI(best.from, 'mm'))} mm of ${nameOf(boat, best.part)}, which takes ${bare(best.gain)} kPa off` : undefined;
    const unsaid = atMost.way.filter(({ by, part }) => by === 'element' && atMost.steady.taken.has(part)).map(({ part }) => nameOf(boat, part));
    if (thin) {
        const state = unsaid.length > 0 ? `Write at what loss ${listed(unsaid)} ${unsaid.length > 1 ? 'are' : 'is'} renewed, like \`dirty 10 kPa\`; and take` : 'Take';
        return `${state} the reading of a vacuum gauge at full speed with the tank low.${step ? ` If it is too much, ${step}.` : ''}`;
    }
    if (step && best!.gain >= over) return `${capital(step)}: that is enough.`;
    const sooner = suction.elements > over ? [`renew the elements when they take ${bare(suction.elements - over)} kPa together`] : [];
    return `${listed([nearer(boat, suction.inlet, suction.from ?? 'the tank'), ...sooner], 'or')}. ${step ? `Of the bores, this buys most: ${step}.` : 'A larger bore does not help.'}`;
}
