/** Flow: what flows through each part, how fast, and the pressure at each port, running and stopped side by side. */
import type { Boat, Id } from '../../model/boat';
import { fromSI } from '../../model/units';
import { regimeOf } from '../../analysis/flow/pipe';
import { demandAt } from '../../analysis/flow/demand';
import { flowIn, movingIn, type Asked } from '../../analysis/flow/states';
import type { Group, Steady } from '../../analysis/flow/steady';
import { isTold, suctionAt } from '../../analysis/flow/suction';
import { gaugeTold } from '../../analysis/flow/told';
import { fittingOf } from '../../analysis/topology/joints';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { networkOf, type Network } from '../../analysis/topology/network';
import { inOrder, running } from '../../analysis/topology/paths';
import { nameOf } from '../../checks/check';
import { distinct, steadyMissing } from '../../analysis/missing';
import { capital, figure, listed } from '../../model/words';
import { kPa } from '../figures';
import type { Answer, Table } from './answer';
import { drawsWords, flowDefaults, flowGrounds, inInHg, inKPa, inLitresPerHour, inletIn, isReckoned, levelIn, litresPerHour, lyingWords, pressureWords, sideOf, speedData, speedIn, speedWords, unreckonedWords, untoldWords } from './flowing';
import type { Question } from './question';
import { round } from './open';
import type { State } from './state';

type Way = Extract<Question, { readonly ask: 'flow' }>['way'];

/** Parts in the order in which the liquid meets them. */
interface Strand {
    readonly of: string;
    readonly parts: readonly Id[];
}

export function answerFlow(boat: Boat, part: Id | undefined, way: Way, state: State): Answer {
    const network = networkOf(boat);
    const { lineUp, said } = state;
    const attitude = said.heel === undefined && said.trim === undefined ? UPRIGHT : state.attitudes[0]!;
    const speed = speedIn(state);
    const elements = said.elements ?? 'dirty';
    const asked: Asked = { lineUp, attitude, speed, elements, level: levelIn(state, 'low') };
    const [runs, rests] = [flowIn(network, asked), flowIn(network, { ...asked, speed: 'stopped' })];
    const askedOf = network.consumers.get(part ?? (way === undefined ? '' : 'to' in way ? way.to : way.from));
    const strands = strandsOf(network, runs, state, part, way);
    const parts = new Set(strands.flatMap((strand) => strand.parts));
    const consumers = boat.consumers.filter(({ id }) => runs.state.demands.has(id) && (part === undefined ? way === undefined || id === ('to' in way ? way.to : way.from) : part === id || onWay(network, state, id, part)));
    const told = strands.map((strand) => ({ strand, ports: portsOf(network, runs, rests, strand.parts) }));
    const points = told.flatMap(({ ports }) => ports.map(({ point }) => point));
    const groups = [...new Set(points.flatMap((point) => [runs.groupAt(point), rests.groupAt(point)].flatMap((group) => group ?? [])))];
    const left = leftOver(groups);
    const unfed = consumers.some(({ id }) => inletIn(boat, lineUp, id) === undefined);
    const status = unfed ? 'cannot flow' : statusOf(points.flatMap((point) => runs.groupAt(point) ?? []));
    const lacks = [...runs.lacks, ...rests.lacks].filter(({ about }) => parts.has(about) || [...parts].some((id) => id.startsWith(`${about}.`)));
    const blind = [...new Set(lacks.filter(({ of }) => of === 'bore' || of === 'length' || of === 'mouth').map(({ about }) => about))];
    const demands = missingDemands(boat, runs, consumers.map(({ id }) => id), part, way, state);
    const unmoved = runs.state.demands.size === 0 && runs.state.pumps.size === 0;
    // What draws an unknown flow is not idle.
    const idle = unmoved && demands.length === 0;
    const unsettled = points.some((point) => runs.headAt(point) === undefined && runs.groupAt(point)?.status === 'singular');
    const checks = [...parts].some((id) => CHECKS.includes(network.parts.get(id)?.kind ?? ''));
    const still = [...parts].filter((id) => Math.abs(rests.flowIn(id) ?? 0) > LEAST);
    return {
        title: `${part !== undefined ? `Flow through ${part}` : way === undefined ? 'What flows' : 'to' in way ? `What flows to ${way.to}` : `What flows back from ${way.from}`} in ${lineUp.id}, ${idle ? 'nothing running' : speedWords(speed)}, elements ${elements}, ${lyingWords(boat, state, attitude)}`,
        body: [
            ...(askedOf && !isReckoned(askedOf) ? [unreckonedWords(askedOf.id)] : []),
            ...(idle ? [`Nothing runs in ${lineUp.id}.`] : unmoved ? ['What is drawn is not known: the flows and pressures below are those with nothing running.'] : []),
            ...STATUS[status](network, runs, points, parts),
            ...(part !== undefined && !network.consumers.has(part) ? partSentences(boat, part, runs) : consumers.flatMap(({ id }) => consumerSentences(boat, network, id, asked, runs, way))),
            ...told.flatMap(({ strand, ports }) => [...(strands.length > 1 ? [`${strand.of}:`] : []), tableOf(boat, ports)]),
            ...(strands.length === 0 ? ['No line is open between a tank and what is asked about.'] : []),
            ...(unsettled && status === 'settled' ? ['Behind a pump `?` stands for the pressure that it makes, which nothing states.'] : []),
            ...(blind.length > 0 ? [`Of ${listed(blind.map((id) => nameOf(boat, id)))} it is not known what it takes: pressures beyond are \`?\`, and how legs side by side share the flow is not certain.`] : []),
            ...(checks ? ['Stopped, behind a check that is shut it is the least that can stand there.'] : []),
            ...(still.length > 0 ? [`Stopped, liquid still runs through ${listed(still.map((id) => nameOf(boat, id)))}: up to ${litresPerHour(Math.max(...still.map((id) => Math.abs(rests.flowIn(id)!))))}.`] : []),
            ...(left === undefined ? [] : [`Left over when all is added up: ${below(left.flow, 'L/h')} of the flows and ${below(left.head, 'mm')} of the heads.`]),
        ],
        data: {
            ask: 'flow', ...(part !== undefined && { part }), ...(way !== undefined && ('to' in way ? { to: way.to } : { from: way.from })), lineUp: lineUp.id, speed: speedData(speed), elements,
            status, liquids: [...new Map(groups.map(({ carries = 'diesel', fluid }) => [carries, { carries, densityKgPerM3: round(fluid.density), viscosityMm2PerS: round(fluid.viscosity * 1e6) }])).values()],
            strands: told.map(({ strand, ports }) => ({ of: strand.of, ports: ports.map(({ point, part: owner, running: run, stopped }) => ({ port: point, part: owner, running: readingData(run), stopped: readingData(stopped) })) })),
            ...(left && { leftOver: { litresPerHour: round(left.flow), headMm: round(left.head) } }),
        },
        used: flowGrounds(boat, parts, consumers.map(({ id }) => id)),
        defaults: flowDefaults(boat, [runs], parts, consumers, speed),
        missing: distinct([...lacks.map((lack) => steadyMissing(boat, lack)), ...demands]),
    };
}

/** Kinds that let nothing back. */
const CHECKS = ['check', 'hand primer', 'lift pump'];

/** m³/s: what is less runs only in the arithmetic. */
const LEAST = 0.01 / 3.6e6;

const onWay = (network: Network, { lineUp }: State, consumer: Id, part: Id): boolean => (['to', 'from'] as const).some((side) => inOrder(running(network, lineUp.positions), consumer, side).includes(part));

function strandsOf(network: Network, runs: Steady, { lineUp }: State, part: Id | undefined, way: Way): Strand[] {
    const linedUp = running(network, lineUp.positions);
    const strand = (consumer: Id, side: 'to' | 'from'): Strand[] => {
        const parts = inOrder(linedUp, consumer, side);
        return parts.length === 0 ? [] : [{ of: side === 'to' ? `To ${consumer}` : `Back from ${consumer}`, parts }];
    };
    if (part !== undefined) return network.consumers.has(part) || network.through.has(part) ? [{ of: part, parts: [part] }] : [];
    if (way !== undefined) return 'to' in way ? strand(way.to, 'to') : strand(way.from, 'from');
    const pumped = [...movingIn(network, lineUp).keys()].map((pump): Strand => {
        const parts = [...runs.wayTo(`${pump}:in`), ...runs.wayFrom(`${pump}:in`)].flatMap(({ passage }) => network.passages[passage]!.part ?? []);
        return { of: `By ${pump}`, parts: [...new Set(parts)] };
    });
    return [...network.boat.consumers.filter(({ kind }) => kind !== 'exchanger').flatMap(({ id }) => [...strand(id, 'to'), ...strand(id, 'from')]), ...pumped.filter(({ parts }) => parts.length > 0)];
}

interface Reading {
    readonly flow?: number;
    readonly speed?: number;
    readonly reynolds?: number;
    readonly gauge?: number;
}

interface Port {
    readonly point: string;
    readonly part: Id;
    readonly running: Reading;
    readonly stopped: Reading;
}

/**
 * Each port once: what is joined to one that was told already is the same place. Of a selector those that its position joins; a changeover is met
 * on both sides of its filters, so their own ports are told instead.
 */
function portsOf(network: Network, runs: Steady, rests: Steady, parts: readonly Id[]): Port[] {
    const seen = new Set<string>();
    const owned = ownPoints(network);
    const order = (point: string): number => (point.endsWith(':in') ? 0 : point.endsWith(':out') ? 2 : 1);
    const isOpen = (part: Id, point: string): boolean => !isTurned(network, part) || (network.through.get(part) ?? []).map((passage) => network.passages[passage]!)
        .some(({ from, to, openIn }) => [from, to].includes(network.index.get(point)!) && openIn?.has(runs.state.positions.get(part) ?? '') === true);
    const isOthers = (part: Id, point: string): boolean => network.parts.get(part)?.kind === 'changeover' && [...joinedWith(network, point)].some((other) => parts.includes(ownerOf(other)) && ownerOf(other) !== part);
    return parts.flatMap((part) => (owned.get(part) ?? []).filter((point) => isOpen(part, point) && !isOthers(part, point)).sort((a, b) => order(a) - order(b) || (a < b ? -1 : 1)).flatMap((point) => {
        if (seen.has(point)) return [];
        for (const other of joinedWith(network, point)) seen.add(other);
        return [{ point, part, running: readingAt(network, runs, part, point), stopped: readingAt(network, rests, part, point) }];
    }));
}

const isTurned = ({ parts }: Network, id: Id): boolean => { const kind = parts.get(id)?.kind; return kind === 'selector' || kind === 'changeover'; };
const ownerOf = (point: string): Id => point.split(':')[0]!;

function ownPoints(network: Network): ReadonlyMap<Id, readonly string[]> {
    const found = new Map<Id, string[]>();
    for (const point of network.points) { const owner = ownerOf(point); found.set(owner, [...(found.get(owner) ?? []), point]); }
    return found;
}

/** All points that are one with this one. */
function joinedWith({ points, passages, index }: Network, point: string): ReadonlySet<string> {
    const found = new Set([index.get(point)!]);
    for (const at of found) for (const { kind, from, to } of passages) if (kind === 'joint') { if (from === at) found.add(to); if (to === at) found.add(from); }
    return new Set([...found].map((at) => points[at]!));
}

/** m³/s: what arithmetic leaves of no flow. */
const DUST = 1e-15;

function readingAt(network: Network, steady: Steady, part: Id, point: string): Reading {
    const [through, gauge] = [steady.flowIn(part), gaugeTold(steady, point)];
    // What turns has no direction of its own.
    const flow = through === undefined ? undefined : Math.abs(through) < DUST ? 0 : isTurned(network, part) ? Math.abs(through) : through;
    const passed = (network.through.get(part) ?? []).flatMap((passage) => steady.linkAt(passage) ?? []).find((each) => each.reynolds !== undefined);
    if (flow === 0) return { flow, ...(passed?.reynolds !== undefined && { speed: 0, reynolds: 0 }), ...(gauge !== undefined && { gauge }) };
    return { ...(flow !== undefined && { flow }), ...(passed?.speed !== undefined && { speed: Math.abs(passed.speed) }), ...(passed?.reynolds !== undefined && { reynolds: passed.reynolds }), ...(gauge !== undefined && { gauge }) };
}

const readingData = ({ flow, speed, reynolds, gauge }: Reading): unknown => ({
    ...(flow !== undefined && { litresPerHour: round(fromSI(flow, 'L/h')) }), ...(speed !== undefined && { metresPerSecond: round(speed) }), ...(reynolds !== undefined && { reynolds: round(reynolds), regime: regimeOf(reynolds) }),
    ...(gauge !== undefined && { kPa: inKPa(gauge), inHg: inInHg(gauge), is: sideOf(gauge) }),
});

const REGIMES = { 'at rest': '', laminar: 'laminar', 'between laminar and turbulent': 'between', turbulent: 'turbulent' } as const;

function tableOf(boat: Boat, ports: readonly Port[]): Table {
    const gaugeWords = (gauge: number | undefined): string => (gauge === undefined ? '?' : sideOf(gauge) === 'none' ? '0' : `${sideOf(gauge)} ${figure(Math.abs(fromSI(gauge, 'kPa')))} (${figure(Math.abs(fromSI(gauge, 'inHg')), 2)})`);
    return {
        head: ['at', 'L/h', 'm/s', 'Reynolds', 'running, kPa (inHg)', 'stopped, kPa (inHg)'],
        rows: ports.map(({ point, part, running: { flow, speed, reynolds, gauge }, stopped }) => [
            `${nameOf(boat, part)}${point === part ? '' : ` ${point.slice(point.indexOf(':') + 1)}`}`, flow === undefined ? '' : inLitresPerHour(flow), speed === undefined ? '' : figure(speed, 2),
            reynolds === undefined ? '' : `${figure(reynolds)} ${REGIMES[regimeOf(reynolds)]}`.trim(), gaugeWords(gauge), gaugeWords(stopped.gauge),
        ]),
    };
}

function partSentences(boat: Boat, part: Id, runs: Steady): string[] {
    const flow = runs.flowIn(part);
    const [into, out] = [gaugeTold(runs, `${part}:in`), gaugeTold(runs, `${part}:out`)];
    if (flow === undefined) return [`What flows through ${nameOf(boat, part)} is not told.`];
    const name = capital(nameOf(boat, part));
    if (Math.abs(flow) < LEAST) return [`Nothing flows through ${nameOf(boat, part)}.`];
    return [`${name} passes ${litresPerHour(Math.abs(flow))}${flow < 0 ? ' against its direction' : ''}${into === undefined || out === undefined ? '' : `; ${pressureWords(into)} where the liquid enters and ${pressureWords(out)} where it leaves`}.`];
}

export function consumerSentences(boat: Boat, network: Network, id: Id, asked: Asked, runs: Steady, way: Way): string[] {
    const { drawn, returned } = runs.state.demands.get(id)!;
    const consumer = network.consumers.get(id)!;
    const inlet = inletIn(boat, asked.lineUp, id);
    const found = inlet && suctionAt(network, consumer, inlet, asked);
    const limit = consumer.limits.inlet?.si;
    const speed = consumer.kind === 'engine' ? asked.speed : 'full';
    const isBurntKnown = speed === 'stopped' || demandAt(consumer, speed)?.burns !== undefined;
    const drawnWords = `${id} draws ${litresPerHour(drawn)} ${speedWords(speed)} and returns ${isBurntKnown ? litresPerHour(returned) : 'what it does not burn; how much it burns at that speed is not written, and it is reckoned as if all came back'}.`;
    if (way !== undefined && 'from' in way) { const gauge = gaugeTold(runs, `${id}:out`); return [`${drawnWords}${gauge === undefined ? '' : ` At its outlet, full lines: ${pressureWords(gauge)}. \`back-pressure ${id}\` tells the worst.`}`]; }
    if (!found) return [`No tank feeds ${id} in ${asked.lineUp.id}: the ${litresPerHour(drawn)} that it would draw ${speedWords(asked.speed)} cannot come.`];
    if (!isTold(found)) return [found.status === 'unbalanced' ? drawnWords : `${drawnWords} What its pump draws against: ${untoldWords(id, [found])}`];
    return [`${drawnWords} ${capital(drawsWords(boat, id, inlet))} ${found.total < 0 ? `is pushed by ${kPa(-found.total)}` : `draws against ${kPa(found.total)}`}${limit === undefined || inlet.feeds !== undefined ? '' : `; the limit is ${kPa(limit)}`}.`];
}

/** Why part of what is asked about is not told, where no fact is missing. */
export const unsettledSentences = (network: Network, steady: Steady, points: readonly string[], parts: ReadonlySet<Id>): string[] =>
    STATUS[statusOf(points.flatMap((point) => steady.groupAt(point) ?? []))](network, steady, points, parts);

type Status = 'settled' | 'not settled' | 'cannot flow' | 'unusable';

function statusOf(groups: readonly Group[]): Status {
    const is = (status: Group['status']): boolean => groups.some((group) => group.status === status);
    if (is('unusable')) return 'unusable';
    const unbalanced = groups.filter(({ status }) => status === 'unbalanced');
    return unbalanced.some(({ solution }) => solution.loose.some(({ over }) => over !== 0)) ? 'cannot flow' : unbalanced.length > 0 ? 'not settled' : 'settled';
}

const STATUS: Readonly<Record<Status, (network: Network, runs: Steady, points: readonly string[], parts: ReadonlySet<Id>) => string[]>> = {
    settled: () => [],
    'not settled': () => ['No answer was found for part of it: what is not told is `?`.'],
    unusable: (_, runs, points) => [`Part of it cannot be reckoned: ${[...new Set(points.flatMap((point) => runs.groupAt(point)?.solution.faults.map(({ wrong }) => wrong) ?? []))].join('; ')}.`],
    'cannot flow': (network, runs, points, parts) => {
        // What is before a pump comes first; what is behind it lacks the same.
        const over = [...new Set(points.flatMap((point) => runs.groupAt(point) ?? []))].flatMap(({ solution }) => solution.loose.filter((part) => part.over !== 0).slice(0, 1));
        const dry = [...parts].filter((id) => fittingOf(network.boat, id)?.kind === 'pickup' && !runs.lacks.some(({ about }) => id === about || id.startsWith(`${about}.`)) && (network.through.get(id) ?? []).every((passage) => runs.linkAt(passage) === undefined));
        if (dry.length > 0) return [`It cannot flow: ${listed(dry)} ${dry.length > 1 ? 'stand' : 'stands'} dry at this level.`];
        return over.map(({ over: flow, nodes }) => `It cannot flow: ${litresPerHour(Math.abs(flow))} at ${nodes[0]!.replace(':', ' ')} ${flow > 0 ? 'cannot come, since no open way leads there from liquid: a valve is shut, or a pump lets nothing pass' : 'cannot leave, since no open way leads from there to a tank'}.`);
    },
};

function leftOver(groups: readonly Group[]): { readonly flow: number; readonly head: number } | undefined {
    const solved = groups.filter(({ solution }) => solution.worstHead !== undefined);
    if (solved.length === 0) return undefined;
    return {
        flow: fromSI(Math.max(...solved.map(({ solution: { ledger } }) => Math.max(Math.abs(ledger.error), Math.abs(ledger.worst)))), 'L/h'),
        head: fromSI(Math.max(...solved.map(({ solution }) => solution.worstHead!)), 'mm'),
    };
}

const below = (value: number, unit: string): string => (value < 1e-3 ? `less than 0.001 ${unit}` : `${figure(value)} ${unit}`);

/** What consumers draw that run and were asked about. */
export function missingDemands(boat: Boat, runs: Steady, told: readonly Id[], part: Id | undefined, way: Way, { lineUp }: State): ReturnType<typeof steadyMissing>[] {
    if (lineUp.use === 'transfer' || lineUp.use === 'polish' || lineUp.use === 'service' || lineUp.use === 'laid up') return [];
    const asked = way === undefined ? boat.consumers.map(({ id }) => id) : ['to' in way ? way.to : way.from];
    return boat.consumers.filter(({ id, kind }) => kind !== 'exchanger' && asked.includes(id) && !told.includes(id) && !runs.state.demands.has(id) && !lineUp.stopped.includes(id) && (part === undefined || part === id)).map(({ id }) => steadyMissing(boat, { about: id, of: 'draws' }));
}
