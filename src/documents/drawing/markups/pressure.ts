/** Suction and pressure at each part, running or stopped: the figures of `ask flow`, each at its place. */
import type { Boat, Id } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { distinct, steadyMissing } from '../../../analysis/missing';
import { flowIn, type Asked } from '../../../analysis/flow/states';
import type { Steady } from '../../../analysis/flow/steady';
import { gaugeTold } from '../../../analysis/flow/told';
import { GRAVITY } from '../../../analysis/flow/pipe';
import { placeOf } from '../../../analysis/flow/plumbed';
import { UPRIGHT, heightOf } from '../../../analysis/tanks/attitude';
import { isPipe, networkOf, reach, type Network } from '../../../analysis/topology/network';
import { eitherWay, running } from '../../../analysis/topology/paths';
import { nameOf } from '../../../checks/check';
import { listed } from '../../../model/words';
import { kPa } from '../../figures';
import { consumerSentences, missingDemands, unsettledSentences } from '../../answers/flow';
import { flowDefaults, isReckoned, levelIn, sideOf, speedWords, unreckonedWords } from '../../answers/flowing';
import type { State } from '../../answers/state';
import type { Mark, Markup } from '../markup';
import { liveIn, unsaidNotes } from './line-up';
import type { Refused, Shown } from './markup';
import { shownState, takenNote } from './state';
import { onLines } from './things';

export function pressureMarkup(of: Shown, speed: Asked['speed']): Markup | Refused {
    const { boat } = of;
    const state = shownState(of, 'low', typeof speed === 'number' ? speed : undefined);
    if ('refused' in state) return state;
    const { lineUp, said } = state;
    const network = networkOf(boat);
    const asked: Asked = { lineUp, attitude: said.heel === undefined ? UPRIGHT : state.attitudes[0]!, speed, elements: 'dirty', level: levelIn(state, 'low') };
    const steady = flowIn(network, asked);
    const ids = [...onLines(boat), ...boat.consumers.map(({ id }) => id)];
    const unknown = speed === 'stopped' ? new Map<Id, string>() : unreckoned(network, state, steady, ids);
    const told = ids.map((id) => ({ id, at: unknown.has(id) ? [] : gaugesAt(network, steady, id) }));
    const atParts = new Map(told.filter(({ id }) => !isTee(network, id) && !isPipe(network.parts.get(id))).flatMap(({ at }) => at.map(({ point, gauge }) => [point, figureOf(gauge)] as const)));
    const dark = told.filter(({ at }) => at.length === 0).map(({ id }) => id);
    const reckoned = boat.consumers.filter(({ id }) => steady.state.demands.has(id));
    const parts = new Set(ids);
    // An element takes nothing while nothing flows.
    const taking = new Set(ids.filter((id) => speed !== 'stopped' || network.parts.get(id)?.kind !== 'filter'));
    return {
        title: `${speed === 'stopped' ? 'Pressures at rest' : `Pressures ${speedWords(speed)}`}, ${lineUp.id}`,
        reckoned: { level: state.levelSaid ? of.level : boat.vessel.envelope.level?.low, heel: asked.attitude.heel },
        marks: told.flatMap(({ id, at }) => { const marks = marksFor(network, steady, id, at); return isTee(network, id) && isToldBeside(boat, atParts, id, at) ? marks.map(({ about, as }) => ({ about, as })) : marks; }),
        notes: [
            ...reckoned.flatMap(({ id }) => consumerSentences(boat, network, id, asked, steady, undefined)),
            ...new Set(unknown.values()),
            ...unsettledSentences(network, steady, ids.flatMap((id) => pointsOf(network, id)), parts),
            ...(dark.length > 0 ? [`Not told at ${listed(dark.map((id) => nameOf(boat, id)))}.`] : []),
            ...(behindPump(network, steady, ids, unknown) ? ['Behind a pump nothing states the pressure that it makes.'] : []),
            ...missingFor(boat, network, steady, state, speed, dark).map(({ fact, how }) => `Missing: ${fact} (${how}).`),
            ...(speed === 'stopped' && boat.parts.some(({ kind }) => kind === 'check' || kind === 'hand primer' || kind === 'lift pump') ? ['Behind a check that is shut it is the least that can stand there.'] : []),
            ...unsaidNotes(lineUp),
            ...takenNote(state, [...(state.levelSaid ? [] : ['low'] as const), 'upright', 'lineUp', ...(speed === 'full' ? ['speed'] as const : []), ...(speed === 'stopped' ? [] : ['elements'] as const)], flowDefaults(boat, [steady], taking, reckoned, speed)),
        ],
    };
}

/** What hangs together by liquid with something that runs, where what that moves is not known: what is reckoned there is not so. With the reason. */
function unreckoned(network: Network, { lineUp }: State, steady: Steady, ids: readonly Id[]): ReadonlyMap<Id, string> {
    const { boat } = network;
    const { runs } = liveIn(network, lineUp);
    const linedUp = running(network, lineUp.positions);
    const found = new Map<Id, string>();
    for (const unknown of runs.filter((id) => !steady.state.demands.has(id) && !steady.state.pumps.has(id))) {
        const consumer = network.consumers.get(unknown);
        const why = consumer && !isReckoned(consumer) ? unreckonedWords(unknown) : `What ${nameOf(boat, unknown)} ${consumer ? 'draws' : 'moves'} is not known: nothing is told of its lines.`;
        const met = reach(linedUp, eitherWay(linedUp), pointsOf(network, unknown).map((point) => network.index.get(point)!));
        for (const id of ids) if (pointsOf(network, id).some((point) => met.has(network.index.get(point)!))) found.set(id, why);
    }
    return found;
}

/** The ports of a part, in the order of flow. The inner ones of a changeover are those of its filters. */
function pointsOf(network: Network, id: Id): string[] {
    const own = network.through.get(id) ?? [];
    const points = own.length === 0 ? [id] : own.flatMap((i) => [network.passages[i]!.from, network.passages[i]!.to]).map((at) => network.points[at]!);
    const isOuter = (point: string): boolean => network.parts.get(id)?.kind !== 'changeover' || order(point) !== 1;
    return [...new Set(points)].filter((point) => !network.tanks.has(point) && isOuter(point)).sort((a, b) => order(a) - order(b));
}
const order = (point: string): number => (point.endsWith(':in') ? 0 : point.endsWith(':out') ? 2 : 1);

interface At { readonly point: string; readonly gauge: number }

function gaugesAt(network: Network, steady: Steady, id: Id): At[] {
    return pointsOf(network, id).filter((point) => isJoined(network, steady, id, point)).flatMap((point) => { const gauge = gaugeTold(steady, point); return gauge === undefined ? [] : [{ point, gauge }]; });
}

/** Of what is turned, a port counts that its position joins. */
function isJoined(network: Network, steady: Steady, id: Id, point: string): boolean {
    const kind = network.parts.get(id)?.kind;
    return (kind !== 'selector' && kind !== 'changeover') || (network.through.get(id) ?? []).map((i) => network.passages[i]!)
        .some(({ from, to, openIn }) => [from, to].includes(network.index.get(point)!) && openIn?.has(steady.state.positions.get(id) ?? '') === true);
}

/** A pipe has the figures of what it joins; it is only told where its crest is in suction and neither end is. */
function marksFor(network: Network, steady: Steady, id: Id, at: readonly At[]): Mark[] {
    if (at.length === 0) return [];
    const sides = (['suction', 'pressure'] as const).flatMap((side) => { const here = at.filter(({ gauge }) => sideOf(gauge) === side); return here.length === 0 ? [] : [{ side, here }]; });
    if (isPipe(network.parts.get(id))) {
        const crest = crestGauge(network, steady, id);
        if (crest !== undefined && sideOf(crest) === 'suction' && !sides.some(({ side }) => side === 'suction')) return [{ about: id, as: 'suction', words: `${kPa(-crest)} at its crest` }];
        // Air comes in wherever there is suction at all.
        return sides.slice(0, 1).map(({ side }) => ({ about: id, as: side }));
    }
    // One figure stands for the whole part only where all of it is told.
    const isOne = sides.length === 1 && at.length === pointsOf(network, id).filter((point) => isJoined(network, steady, id, point)).length && new Set(at.map(({ gauge }) => figureOf(gauge))).size === 1;
    return sides.map(({ side, here }) => ({
        about: id, as: side,
        words: isOne ? figureOf(here[0]!.gauge) : here.map(({ point, gauge }) => `${point.slice(point.lastIndexOf(':') + 1)} ${figureOf(gauge)}`).join(', '),
    }));
}

const isTee = ({ parts }: Network, id: Id): boolean => parts.get(id)?.kind === 'tee';

/** Whether the figure of a tee stands at the port of a part that is made fast to it already: close to it there is no room for both. */
function isToldBeside({ joints }: Boat, atParts: ReadonlyMap<string, string>, id: Id, at: readonly At[]): boolean {
    const beside = new Set(joints.flatMap(({ from, to }) => (from === id ? [atParts.get(to)] : to === id ? [atParts.get(from)] : [])));
    return at.every(({ gauge }) => beside.has(figureOf(gauge)));
}

const figureOf = (gauge: number): string => kPa(Math.abs(gauge));

/** Pa above the surroundings at the crest of a pipe, with the lower of the heads of its ends: it is no less there. */
function crestGauge(network: Network, steady: Steady, id: Id): number | undefined {
    const [gauges, heights] = [['in', 'out'].map((end) => gaugeTold(steady, `${id}:${end}`)), ['in', 'out'].map((end) => heightOf(placeOf(network, `${id}:${end}`), steady.state.attitude))];
    const crest = heightOf(network.parts.get(id)?.crest, steady.state.attitude);
    const [into, out] = gauges;
    if (crest === undefined || into === undefined || out === undefined || heights.some((height) => height === undefined)) return undefined;
    const lower = steady.headAt(`${id}:in`)! <= steady.headAt(`${id}:out`)! ? 0 : 1;
    const weight = steady.groupAt(`${id}:in`)!.fluid.density * GRAVITY;
    return gauges[lower]! - (crest - heights[lower]!) * weight;
}

const behindPump = (network: Network, steady: Steady, ids: readonly Id[], unknown: ReadonlyMap<Id, string>): boolean =>
    ids.some((id) => !unknown.has(id) && pointsOf(network, id).some((point) => steady.headAt(point) === undefined && steady.groupAt(point)?.status === 'singular'));

/** What would have to be known for what is not told. */
function missingFor(boat: Boat, network: Network, steady: Steady, state: State, speed: Asked['speed'], dark: readonly Id[]): MissingFact[] {
    const unplaced = dark.filter((id) => pointsOf(network, id).some((point) => steady.headAt(point) !== undefined && heightOf(placeOf(network, point), steady.state.attitude) === undefined));
    return distinct([
        ...(dark.length === 0 ? [] : steady.lacks.map((lack) => steadyMissing(boat, lack))),
        ...(speed === 'stopped' ? [] : missingDemands(boat, steady, [], undefined, undefined, state)),
        ...unplaced.filter((id) => network.parts.has(id) || network.consumers.has(id)).map((about) => steadyMissing(boat, { about, of: 'place' })),
    ]);
}
