/**
 * What flows through one thing in a few words, each figure at the fact that it comes from: for hover and in the text. All of it running at full in the
 * normal line-up, upright, the tanks at their lowest, elements that are to be renewed; only the worst suction is over her envelope and all line-ups for running.
 */
import type { Boat, Consumer, Id, Part } from '../../model/boat';
import { demandAt } from '../../analysis/flow/demand';
import { GRAVITY, headLost } from '../../analysis/flow/pipe';
import { flowIn, type Asked } from '../../analysis/flow/states';
import type { Steady } from '../../analysis/flow/steady';
import { inletOf, isTold, suctionAt, worstSuction } from '../../analysis/flow/suction';
import { gaugeTold } from '../../analysis/flow/told';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { lineUpsOf, normalLineUp, runLineUps } from '../../analysis/topology/line-ups';
import { isPipe, isPump, networkOf, type Network } from '../../analysis/topology/network';
import { partsAfter, partsBefore, running } from '../../analysis/topology/paths';
import { nameOf } from '../../checks/check';
import { fromSI } from '../../model/units';
import { figure } from '../../model/words';
import { inLitresPerHour, litresPerHour, pressureWords } from '../answers/flowing';
import { kPa, speed } from '../figures';
import type { Brief } from '../heights/brief';

interface Running {
    readonly network: Network;
    readonly asked: Asked;
    readonly steady: Steady;
}

/** Undefined where nothing runs in the normal line-up. */
function runningFull(boat: Boat): Running | undefined {
    const lineUp = normalLineUp(boat, lineUpsOf(boat));
    if (!lineUp) return undefined;
    const network = networkOf(boat);
    const asked: Asked = { lineUp, attitude: UPRIGHT, level: 'low', speed: 'full', elements: 'dirty' };
    const steady = flowIn(network, asked);
    return steady.state.demands.size > 0 || steady.state.pumps.size > 0 ? { network, asked, steady } : undefined;
}

/** m³/s: what is less counts as none. */
const LEAST = 0.01 / 3.6e6;

/** What is not known is left out. */
export function flowBriefsOf(boat: Boat, id: Id): readonly Brief[] {
    const part = boat.parts.find((other) => other.id === id);
    if (part) {
        const found = isPipe(part) ? runningFull(boat) : undefined;
        const passed = found && passedIn(found, id);
        return passed && Math.abs(passed.flow) >= LEAST && passed.speed !== undefined ? [{ fact: 'bore', words: `${speed(passed.speed)} at full, takes ${kPaOnly(passed.loss)}` }] : [];
    }
    const consumer = boat.consumers.find((other) => other.id === id);
    if (!consumer || consumer.kind === 'exchanger') return [];
    const { draws, returns } = demandAt(consumer, 'full') ?? {};
    return [
        ...(draws ? [{ fact: 'draws', words: `${litresPerHour(draws.si)} at full${draws.most - draws.least < LEAST ? '' : ` (${inLitresPerHour(draws.least)} to ${inLitresPerHour(draws.most)})`}${returns ? `, ${litresPerHour(returns.si)} of it back` : ''}` }] : []),
        ...limitBriefs(boat, consumer),
    ];
}

function limitBriefs(boat: Boat, consumer: Consumer): Brief[] {
    const limit = consumer.limits.inlet;
    const { worst } = limit ? worstSuction(networkOf(boat), consumer, runLineUps(lineUpsOf(boat))) : {};
    if (!worst || worst.suction.inlet.feeds !== undefined) return [];
    const { si, least, most } = worst.total;
    return [{ fact: 'limits inlet', words: `suction at worst ${kPaOnly(si)} of ${kPaOnly(limit!.si)}${most - least < 1 ? '' : ` (${figure(fromSI(least, 'kPa'))} to ${figure(fromSI(most, 'kPa'))})`}` }];
}

/** One or two sentences; nothing for what has to do with no flow. */
export function flowWords(boat: Boat, id: Id): string | undefined {
    const part = boat.parts.find((other) => other.id === id);
    const consumer = boat.consumers.find((other) => other.id === id);
    if (!(part && (isPipe(part) || isPump(part) || part.kind === 'filter' || part.kind === 'gauge')) && !consumer) return undefined;
    const found = runningFull(boat);
    const words = found && (consumer ? consumerWords(boat, found, consumer) : partWords(found, part!));
    if (words === undefined) return undefined;
    const { network, asked, steady } = found!;
    const at = consumer ? inletOf(network, asked.lineUp, id)?.point : `${id}:in`;
    const before = at === undefined || !words.includes('suction') && !words.includes('pressure') ? [] : steady.wayTo(at).flatMap(({ passage }) => network.passages[passage]!.part ?? []);
    const guesses = [...new Set([...before, ...(part?.kind === 'filter' ? [id] : [])])].filter((other) => steady.taken.has(other));
    const told = [...drawnByGuess(found!, id).map((other) => `what ${other} draws at full`), ...guesses.map((other) => `what ${nameOf(boat, other)} takes`)];
    return `Running at full in ${asked.lineUp.id}, upright, tanks at their lowest: ${words}.${told.length > 0 ? ` Guessed: ${told.join(', ')}.` : ''}`;
}

/** Consumers that draw through it, or return through it, more than their stated curve tells. */
function drawnByGuess({ network, asked, steady }: Running, id: Id): Id[] {
    const linedUp = running(network, asked.lineUp.positions);
    return network.boat.consumers.filter((consumer) => steady.state.demands.has(consumer.id) && demandAt(consumer, 'full')?.carriedOn
        && (consumer.id === id || partsBefore(linedUp, `${consumer.id}:in`).has(id) || partsAfter(linedUp, `${consumer.id}:out`).has(id))).map((consumer) => consumer.id);
}

function partWords(found: Running, { id, kind, reads }: Part): string | undefined {
    const { network, asked, steady } = found;
    const [into, out] = [gaugeTold(steady, `${id}:in`), gaugeTold(steady, `${id}:out`)];
    const passed = passedIn(found, id);
    const flow = passed?.flow ?? steady.flowIn(id);
    if (kind === 'gauge') {
        const clean = gaugeTold(flowIn(network, { ...asked, elements: 'clean' }), `${id}:in`);
        if (into === undefined || clean === undefined) return undefined;
        return `${pressureWords(clean)} with new elements, ${pressureWords(into)} with those that are to be renewed${reads === 'vacuum' && into > 0 ? ', which it does not show' : ''}`;
    }
    if (flow === undefined || Math.abs(flow) < LEAST) return undefined;
    const litres = litresPerHour(Math.abs(flow));
    if (kind === 'filter') return `${litres}${into === undefined || out === undefined ? '' : `; ${pressureWords(into)} before it and ${pressureWords(out)} behind, its element to be renewed`}`;
    if (kind === 'hose' || kind === 'tube') return `${litres}${passed?.speed === undefined ? '' : ` at ${speed(passed.speed)}, which takes ${kPa(passed.loss)}`}${out === undefined ? '' : `; at its end ${pressureWords(out)}`}`;
    return `${litres}${into === undefined ? '' : `; at its inlet ${pressureWords(into)}`}`;
}

function consumerWords(boat: Boat, { network, asked, steady }: Running, consumer: Consumer): string | undefined {
    const demand = steady.state.demands.get(consumer.id);
    const inlet = inletOf(network, asked.lineUp, consumer.id);
    if (!demand || !inlet) return undefined;
    const told = suctionAt(network, consumer, inlet, asked);
    const limit = consumer.limits.inlet;
    const draws = `it draws ${litresPerHour(demand.drawn)} and gives back ${litresPerHour(demand.returned)}`;
    if (!isTold(told)) return draws;
    const against = told.total < 0 ? `is pushed by a pressure of ${kPa(-told.total)}` : `draws against a suction of ${kPa(told.total)}`;
    return `${draws}; ${inlet.pump === undefined ? 'it' : nameOf(boat, inlet.pump)} ${against}${limit && inlet.feeds === undefined ? `, limit ${kPa(limit.si)}` : ''}`;
}

const kPaOnly = (si: number): string => `${figure(fromSI(si, 'kPa'))} kPa`;

/** What flows through a part, m³/s, how fast in a pipe, and what the pipe takes, Pa. */
function passedIn({ network, steady }: Running, id: Id): { readonly flow: number; readonly speed: number | undefined; readonly loss: number } | undefined {
    const passed = (network.through.get(id) ?? []).flatMap((passage) => steady.linkAt(passage) ?? [])[0];
    const fluid = steady.groupAt(`${id}:in`)?.fluid;
    if (passed?.flow === undefined || !fluid) return undefined;
    // Behind a pump no pressure is known, but what a pipe takes is.
    return { flow: passed.flow, speed: passed.speed === undefined ? undefined : Math.abs(passed.speed), loss: headLost(passed.link.pipes ?? [], Math.abs(passed.flow), fluid) * fluid.density * GRAVITY };
}
