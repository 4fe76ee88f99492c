/** Gauge: what it should read now with new elements and with old ones, when to act, and what the log says that it read. */
import type { Boat, Id, LogReading, Part } from '../../model/boat';
import { fromSI, toSI } from '../../model/units';
import type { Estimate } from '../../analysis/estimate';
import type { Guess } from '../../analysis/flow/guess';
import { flowIn, type Asked } from '../../analysis/flow/states';
import type { Steady } from '../../analysis/flow/steady';
import { isTold, suctionAt } from '../../analysis/flow/suction';
import { gaugeTold } from '../../analysis/flow/told';
import { UPRIGHT, heightOf } from '../../analysis/tanks/attitude';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { networkOf, type Network } from '../../analysis/topology/network';
import { placeOf } from '../../analysis/flow/plumbed';
import { logUntil } from '../../analysis/upkeep/hours';
import { figure, listed, mm } from '../../model/words';
import { kPa } from '../figures';
import type { Answer, Table } from './answer';
import { bandData, flowDefaults, flowGrounds, inKPa, inletIn, levelIn, lyingWords, partsTo, pressureData, pressureWords, rpm, sideOf, speedData, speedIn, speedWords, untoldMissing, untoldWords, waysOf } from './flowing';
import { round } from './open';
import type { State } from './state';

/** What a new element often adds, and how much more than when it was new means that it is to be renewed: common practice, one boating column. No standard was found. */
const NEW = [toSI(1, 'inHg'), toSI(2, 'inHg')] as const;
const ACT = [toSI(3, 'inHg'), toSI(4, 'inHg')] as const;

export function answerGauge(boat: Boat, id: Id, state: State): Answer {
    const network = networkOf(boat);
    const gauge = network.parts.get(id)!;
    const { lineUp, said } = state;
    const attitude = said.heel === undefined && said.trim === undefined ? UPRIGHT : state.attitudes[0]!;
    const speed = speedIn(state);
    const asked: Asked = { lineUp, attitude, speed, level: levelIn(state, 'low') };
    const supplied = boat.consumers.filter((consumer) => waysOf(network, lineUp, consumer.id, 'to').has(id));
    const returned = boat.consumers.filter((consumer) => waysOf(network, lineUp, consumer.id, 'from').has(id));
    const [clean, dirty] = (['clean', 'dirty'] as const).map((elements) => gaugeAt(network, id, { ...asked, elements })) as [Gauged, Gauged];
    const steady = dirty.steady;
    const parts = new Set([...supplied.flatMap((consumer) => [...supplyTo(network, lineUp, consumer.id, id)]), ...returned.flatMap((consumer) => [...waysOf(network, lineUp, consumer.id, 'from')])]);
    const logged = logUntil(boat.log, LAST_DAY).flatMap(({ date, readings }) => readings.filter(({ about, of }) => about === id && of === 'gauge').map(({ value, speed: at }) => ({ date, value, at, dips: readings.filter(({ of }) => of === 'dip') })));
    const untold = clean.band && dirty.band ? [] : [untoldAt(network, gauge, steady, parts, attitude)];
    const limits = supplied.flatMap((consumer) => limitAt(network, consumer.id, id, { ...asked, elements: 'dirty' }));
    const runs = [...steady.state.demands.keys()].some((consumer) => parts.has(consumer) || supplied.some((other) => other.id === consumer) || returned.some((other) => other.id === consumer));
    const where = `${speedWords(speed)} in ${lineUp.id}, ${lyingWords(boat, state, attitude)}`;
    // Where no element stands before it, or none takes anything, it tells nothing of them.
    const shows = clean.band !== undefined && dirty.band !== undefined && Math.abs(clean.band.si - dirty.band.si) > 1;
    const suction = shows && sideOf(clean.band.si) === 'suction' && supplied.length > 0;
    return {
        title: `What ${id} should read ${speedWords(speed)} in ${lineUp.id}`,
        body: clean.band && dirty.band ? [
            `${id} should show ${pressureWords(clean.band.si)} with new elements and ${pressureWords(dirty.band.si)} with elements that are to be renewed, ${where}.${runs ? '' : ' Nothing runs there.'}`,
            { head: ['elements', 'kPa', 'inHg', 'between, kPa'], rows: [row('new', clean.band), row('to be renewed', dirty.band)] },
            ...(gauge.reads === 'vacuum' && (sideOf(clean.band.si) === 'pressure' || sideOf(dirty.band.si) === 'pressure') ? [`${id} reads suction: while the liquid is pushed there it stays at nought.`] : gauge.reads === 'pressure' && (sideOf(clean.band.si) === 'suction' || sideOf(dirty.band.si) === 'suction') ? [`${id} reads pressure: while the liquid is drawn there it stays at nought.`] : []),
            ...(runs && !shows ? [`No element stands before ${id}, as seen from the tank: it tells nothing of how dirty one is.`] : []),
            ...(suction ? [`A new element often adds about ${inHg(NEW)}; act when it reads ${inHg(ACT)} more than when it was new: here ${betweenWords(clean.band, ACT)}. Both are common practice by one boating column; no standard was found. The engine maker's limit governs.`] : []),
            ...limits.map(({ consumer, limit, reading }) => `${consumer}'s limit of ${kPa(limit)} is reached when ${id} shows ${pressureWords(reading)}${suction && reading > clean.band!.si - ACT[0] ? ', which comes before that' : ''}.`),
            ...loggedBody(id, logged, speed),
        ] : [untoldWords(listed([...supplied, ...returned].map((consumer) => consumer.id)) || id, untold), ...loggedBody(id, logged, speed)],
        data: {
            ask: 'gauge', gauge: id, lineUp: lineUp.id, speed: speedData(speed),
            ...(clean.band && { clean: { ...(bandData(clean.band) as object), is: sideOf(clean.band.si) } }), ...(dirty.band && { dirty: { ...(bandData(dirty.band) as object), is: sideOf(dirty.band.si) } }),
            ...(suction && { actAt: ACT.map((more) => pressureData(clean.band!.si - more)) }),
            limits: limits.map(({ consumer, limit, reading }) => ({ consumer, limitKPa: inKPa(limit), reachedAt: pressureData(reading) })),
            logged: logged.map(({ date, value, at }) => ({ date, ...pressureData(value), ...(at !== undefined && { rpm: round(fromSI(at, 'rpm')) }) })),
        },
        used: flowGrounds(boat, parts, [...supplied, ...returned].map((consumer) => consumer.id)),
        defaults: flowDefaults(boat, [clean.steady, dirty.steady], parts, [...supplied, ...returned].filter((consumer) => steady.state.demands.has(consumer.id)), speed),
        missing: untoldMissing(boat, untold),
    };
}

/** What has to do with the reading of a gauge in a supply: all up to the first pump where it stands before that, else up to the consumer. */
function supplyTo(network: Network, lineUp: ResolvedLineUp, consumer: Id, gauge: Id): ReadonlySet<Id> {
    const inlet = inletIn(network.boat, lineUp, consumer);
    const before = inlet && partsTo(network, lineUp, inlet);
    return before?.has(gauge) ? before : waysOf(network, lineUp, consumer, 'to');
}

/** Of the log all is told, corrections worked in: no day is asked for. */
const LAST_DAY = '9999-12-31';

interface Gauged {
    readonly steady: Steady;
    /** Pa above the surroundings. */
    readonly band?: Estimate;
}

function gaugeAt(network: Network, id: Id, asked: Asked): Gauged {
    const [steady, ...others] = (['likely', 'least', 'most'] as const).map((guess: Guess) => flowIn(network, { ...asked, guess }));
    const all = [steady!, ...others].map((found) => gaugeTold(found, `${id}:in`));
    return all.some((value) => value === undefined) ? { steady: steady! } : { steady: steady!, band: { si: all[0]!, least: Math.min(...(all as number[])), most: Math.max(...(all as number[])) } };
}

function untoldAt(network: Network, { id }: Part, steady: Steady, parts: ReadonlySet<Id>, attitude: State['attitudes'][number]): Parameters<typeof untoldMissing>[1][number] {
    const lacks = steady.lacks.filter(({ about }) => parts.has(about) || [...parts].some((part) => part.startsWith(`${about}.`)));
    if (heightOf(placeOf(network, `${id}:in`), attitude) === undefined) return { lacks: [...lacks, { about: id, of: 'place' }] };
    if (lacks.length > 0) return { lacks };
    const status = steady.groupAt(`${id}:in`)?.status;
    return { lacks: [], ...(status !== undefined && { status: status === 'converged' ? 'singular' : status }) };
}

/** What the gauge shows when the suction at the consumer's inlet is at its limit: what clogs before both is in both. */
function limitAt(network: Network, id: Id, gauge: Id, asked: Asked): { readonly consumer: Id; readonly limit: number; readonly reading: number }[] {
    const consumer = network.consumers.get(id)!;
    const inlet = inletIn(network.boat, asked.lineUp, id);
    const limit = consumer.limits.inlet?.si;
    if (!inlet || inlet.feeds !== undefined || limit === undefined) return [];
    const found = suctionAt(network, consumer, inlet, asked);
    const reading = gaugeTold(flowIn(network, asked), `${gauge}:in`);
    // A gauge behind the first pump tells nothing of what that draws against.
    if (!isTold(found) || reading === undefined || !partsTo(network, asked.lineUp, inlet).has(gauge)) return [];
    return [{ consumer: id, limit, reading: reading - (limit - found.total) }];
}

const row = (what: string, { si, least, most }: Estimate): string[] => {
    const words = (value: number): string => `${figure(Math.abs(fromSI(value, 'kPa')))}${sideOf(value) === 'none' ? '' : ` ${sideOf(value)}`}`;
    return [what, words(si), figure(Math.abs(fromSI(si, 'inHg')), 2), most - least < 1 ? '' : `${words(most)} and ${words(least)}`];
};

const inHg = ([low, high]: readonly [number, number]): string => `${figure(fromSI(low, 'inHg'), 2)} to ${figure(fromSI(high, 'inHg'), 2)} inHg`;
const betweenWords = ({ si }: Estimate, [low, high]: readonly [number, number]): string => `${pressureWords(si - low)} to ${kPa(high - si)}`;

interface Logged {
    readonly date: string;
    /** Pa. */
    readonly value: number;
    /** rev/s. */
    readonly at: number | undefined;
    /** Of tanks, that day. */
    readonly dips: readonly LogReading[];
}

function loggedBody(id: Id, logged: readonly Logged[], speed: number | 'full'): (string | Table)[] {
    if (logged.length === 0) return [`The log has no reading of ${id}. Write one when the element is new, like \`${id} 0.9 inHg at 2400 rpm\`: it tells more than any reckoning.`];
    return [
        `The log has${speed === 'full' ? '' : ` (asked is ${rpm(speed)})`}:`,
        { head: ['date', 'speed', 'kPa', 'inHg', 'level'], rows: logged.map(({ date, value, at, dips }) => [date, at === undefined ? '?' : rpm(at), `${figure(Math.abs(fromSI(value, 'kPa')))}${sideOf(value) === 'none' ? '' : ` ${sideOf(value)}`}`, figure(Math.abs(fromSI(value, 'inHg')), 2), dips.length === 0 ? '?' : dips.map(({ about, value: depth }) => `${about} ${mm(depth)}`).join(', ')]) },
    ];
}
