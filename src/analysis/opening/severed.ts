/**
 * What comes out of a line that is cut through: from both sides of the cut, by the height of the tanks while everything is stopped, and
 * besides by what pumps deliver while everything runs.
 *
 * 33 CFR 183.558 asks of petrol hoses on a boat at rest and full that no more than 5 oz come in 2 1/2 minutes. It does not apply
 * to diesel; its time and its amount are borrowed here by analogy, and asked wherever she may lean, at the highest level of her
 * envelope.
 *
 * Every figure is an upper bound: lines are full and hold as a siphon over every crest, liquid is warm and thin, checks that state no
 * cracking pressure hold nothing of what flows with them, and only pipes that no way leads round hinder the flow: filters, valves, pumps and bends do not.
 * Two things are not in it: what stands in the lines themselves, some hundred millilitres, which comes besides; and what comes back
 * through a check that is worn, unless checks are asked as leaky.
 */
import type { Boat, Id, Part } from '../../model/boat';
import type { Place } from '../../model/measure';
import { endPlace } from '../air/heights';
import { MOUTHS } from '../air/gravity';
import { fluidOf } from '../flow/fluid';
import { flowByHead } from '../flow/pipe';
import { rowOf } from '../flow/row';
import { heightOf, UPRIGHT, type Attitude } from '../tanks/attitude';
import { surfaceAt, volumeBelow } from '../tanks/liquid';
import { fittingOf } from '../topology/joints';
import { handPositions, type ResolvedLineUp } from '../topology/line-ups';
import { isValve, networkOf, reach, type Network } from '../topology/network';
import { partsAfter, partsBefore, running, tanksBefore } from '../topology/paths';
import { atLevel, attitudesOf, highLevel } from './condition';
import { heldHead } from './open';
import { emptiesWith, plumbing, type Plumbing } from './plumbing';
import { onlyThrough, waysTo, type Coming } from './ways';

/** s, and m³: 2 1/2 minutes and 5 US fluid ounces. */
export const TIME = 150;
export const LIMIT = 5 * 29.5735295625e-6;

export interface LineLack {
    /** The line, another pipe on the way, a tank, a consumer or a pump. */
    readonly about: Id;
    readonly of: 'heights' | 'place' | 'bore' | 'length' | 'shape' | 'tank place' | 'draws' | 'rate';
}

/** A way by which liquid of a tank comes to one side of the cut. */
export interface Source extends Coming {
    /** The side: what comes to the line's inlet, read downstream, or back to its outlet. */
    readonly end: 'in' | 'out';
    /** What all that comes by the fitting passes. */
    readonly always: ReadonlySet<Id>;
    /** The first of these that a hand can shut; absent when there is none. */
    readonly stop?: { readonly valve: Id; readonly position: string };
}

/** What is delivered into the line while it runs: by a consumer's own pumps (its gross flow), or by an electric pump. */
export interface Pushed {
    readonly by: Id;
    /** m³/s; undefined when it is not stated. */
    readonly rate: number | undefined;
    readonly tanks: readonly Id[];
}

export interface Severed {
    readonly line: Id;
    readonly state: 'stopped' | 'running';
    readonly sources: readonly Source[];
    readonly pushed: readonly Pushed[];
    /**
     * At most, where it comes fastest: m³/s, what that is in TIME (no more than the tanks can give), and how she lies then. With
     * lacks it is the worst of the attitudes that could be reckoned, and another may be worse; absent when none could.
     */
    readonly fastest?: { readonly rate: number; readonly inTime: number; readonly attitude: Attitude };
    /** At most, if nobody shuts anything: m³ until no tank can give more, and how she lies then. */
    readonly all?: { readonly volume: number; readonly attitude: Attitude };
    readonly lacks: readonly LineLack[];
}

/** Every hose and tube of every supply, return and transfer course, or one of them, stopped and running, in the order of the parts. */
export function severed(boat: Boat, lineUp: ResolvedLineUp, checks: Plumbing['checks'] = 'tight', only?: Id): Severed[] {
    const network = networkOf(boat);
    const at = plumbing(network, lineUp.positions, checks);
    const courses = new Set(boat.courses.filter(({ service }) => service === 'supply' || service === 'return' || service === 'transfer').map(({ id }) => id));
    const lines = boat.parts.filter((part) => (part.kind === 'hose' || part.kind === 'tube') && part.course !== undefined && courses.has(part.course) && (only === undefined || part.id === only));
    return lines.flatMap((line) => [
        outpour(at, line, 'stopped', sourcesOf(at, line.id, 'stopped'), []),
        outpour(at, line, 'running', sourcesOf(at, line.id, 'running'), pushesInto(network, lineUp, line.id)),
    ]);
}

/**
 * To each side by itself: with the other side closed off, since the line is cut between them. Liquid passes an electric pump that runs.
 */
function sourcesOf(at: Plumbing, line: Id, state: Severed['state']): Source[] {
    const { index, parts, passages } = at.linedUp.network;
    const passed = passages.flatMap(({ kind, part, from, to, passesAtRest }, passage) =>
        (kind === 'pump' && !passesAtRest && state === 'running' && parts.get(part!)!.whenOff === 'blocks' ? [{ at: to, way: { to: from, passage } }] : []));
    return (['in', 'out'] as const).flatMap((end) => {
        const other = index.get(`${line}:${end === 'in' ? 'out' : 'in'}`)!;
        const back = at.linedUp.back.map((ways, point) => (point === other ? [] : [...ways, ...passed.flatMap((added) => (added.at === point ? [added.way] : []))]));
        const own = { ...at, linedUp: { ...at.linedUp, back } };
        return waysTo(own, line).map((coming) => { const always = onlyThrough(own, line, coming.fitting); return { ...coming, end, always, ...stopOf(at.linedUp.network, coming, always) }; });
    });
}

/** A valve that something leads round stops nothing. */
function stopOf(network: Network, { through }: Coming, always: ReadonlySet<Id>): Pick<Source, 'stop'> {
    for (const id of through.filter((other) => always.has(other))) {
        const part = network.parts.get(id);
        const position = part && isValve(part) ? shutIn(part) : undefined;
        if (position !== undefined) return { stop: { valve: id, position } };
    }
    return {};
}

/** The position in which a hand stops all flow through a valve: of a selector one that joins nothing. */
function shutIn(part: Part): string | undefined {
    const joins = new Map(part.positions.map(({ name, joins: groups }) => [name, groups.some((group) => group.length > 1)]));
    return handPositions(part).find((position) => (part.kind === 'shutoff' ? position === 'shut' : joins.get(position) === false));
}

/** By every consumer whose running pumps deliver through the line, or whose return it is; and by electric pumps before it. */
function pushesInto(network: Network, { positions }: ResolvedLineUp, line: Id): Pushed[] {
    const { boat } = network;
    const linedUp = running(network, positions);
    const inlet = network.index.get(`${line}:in`)!;
    const behind = (pump: Part): boolean => {
        const own = network.through.get(pump.id)!;
        const consumers = [...network.consumers.keys()].flatMap((id) => network.through.get(id)!);
        return reach(linedUp, linedUp.ways, own.map((i) => network.passages[i]!.to), new Set([...own, ...consumers])).has(inlet);
    };
    const pumps = boat.parts.filter((part) => (part.kind === 'lift pump' || part.kind === 'electric pump') && behind(part));
    const found: Pushed[] = [];
    for (const consumer of boat.consumers) {
        const before = partsBefore(linedUp, `${consumer.id}:in`);
        const tanks = tanksBefore(linedUp, `${consumer.id}:in`);
        const delivered = before.has(line) && pumps.some(({ id }) => before.has(id));
        if (tanks.length === 0 || (!delivered && !partsAfter(linedUp, `${consumer.id}:out`).has(line))) continue;
        // An exchanger that states nothing may well be a coil: what a pump sends through it is counted there.
        if (consumer.draws.length === 0 && consumer.kind === 'exchanger') continue;
        const highest = [...consumer.draws].sort((a, b) => b.at.si - a.at.si)[0];
        found.push({ by: consumer.id, rate: highest === undefined ? undefined : highest.value.high ?? highest.value.si, tanks });
    }
    for (const pump of pumps.filter(({ kind }) => kind === 'electric pump')) {
        // Where a consumer's gross flow is told, a pump that does not state its own is that consumer's.
        if (!pump.rate && found.some(({ rate }) => rate !== undefined)) continue;
        const tanks = tanksBefore(linedUp, `${pump.id}:in`);
        if (tanks.length > 0) found.push({ by: pump.id, rate: pump.rate?.high ?? pump.rate?.si, tanks });
    }
    return found;
}

function outpour(at: Plumbing, line: Part, state: Severed['state'], sources: readonly Source[], pushed: readonly Pushed[]): Severed {
    const { boat } = at.linedUp.network;
    const lacks: LineLack[] = pushed.filter(({ rate }) => rate === undefined).map(({ by }) => ({ about: by, of: boat.parts.some(({ id }) => id === by) ? 'rate' : 'draws' }));
    const rows = sources.map((source) => rowOf(at.linedUp.network, [source.fitting, ...source.through.filter((id) => source.always.has(id))]));
    if (sources.length > 0) lacks.push(...rowOf(at.linedUp.network, [line.id]).lacks, ...rows.flatMap((row) => row.lacks));
    let fastest: Severed['fastest'];
    let all: Severed['all'];
    // Without its pipes no attitude can be reckoned; what is not stated of places may matter in some only.
    if (lacks.length === 0) for (const attitude of attitudesOf(boat)) for (const cut of cutsOf(at.linedUp.network, line)) {
        const { rate, volume, ...found } = cutThrough(at, line, { sources, rows, pushed, attitude, cut });
        lacks.push(...found.lacks);
        if (rate !== undefined && (!fastest || rate > fastest.rate * (1 + 1e-9))) fastest = { rate, inTime: Math.min(rate * TIME, volume ?? Infinity), attitude };
        if (volume !== undefined && (!all || volume > all.volume * (1 + 1e-9))) all = { volume, attitude };
    }
    return {
        line: line.id, state, sources, pushed, ...(fastest && { fastest }), ...(all && { all }),
        lacks: lacks.filter((lack, i) => lacks.findIndex((other) => other.about === lack.about && other.of === lack.of) === i),
    };
}

interface Cut {
    readonly place: Place | undefined;
    /** How much of the line stays on either side, as a share of its length. */
    readonly left: { readonly in: number; readonly out: number };
}

/**
 * At either end, and at its lowest known point: how far along that lies is not known, so none of the line counts there. Between them, on
 * a straight fall, no cut pours more than the worse of its two ends.
 */
function cutsOf(network: Network, line: Part): Cut[] {
    const ends: Cut[] = [{ place: endPlace(network, `${line.id}:in`), left: { in: 0, out: 1 } }, { place: endPlace(network, `${line.id}:out`), left: { in: 1, out: 0 } }];
    return line.low ? [...ends, { place: line.low, left: { in: 0, out: 0 } }] : ends;
}

interface Case {
    readonly sources: readonly Source[];
    readonly rows: readonly ReturnType<typeof rowOf>[];
    readonly pushed: readonly Pushed[];
    readonly attitude: Attitude;
    readonly cut: Cut;
}

/** One cut at one attitude: m³/s and m³ from all sides together, each undefined when something that it needs is not known. */
function cutThrough(at: Plumbing, line: Part, { sources, rows, pushed, attitude, cut }: Case): { rate: number | undefined; volume: number | undefined; lacks: LineLack[] } {
    const { network, network: { boat } } = at.linedUp;
    const volumes = atLevel(boat, highLevel(boat));
    const [forRate, forVolume]: [LineLack[], LineLack[]] = [[], []];
    const given = new Map<Id, number>();
    /** What a tank, and those that empty with it, give down to a height. */
    const give = (tank: Id, height: number): void => {
        for (const id of emptiesWith(at, tank)) {
            const [volume, below] = [volumes.get(id), height === -Infinity ? 0 : volumeBelow(tankOf(boat, id), height, attitude)];
            if (volume === undefined || below === undefined) forVolume.push(tankLack(boat, id));
            else given.set(id, Math.max(given.get(id) ?? 0, volume - below));
        }
    };
    let rate = deliveredBy(network, pushed);
    if (rate > 0) for (const tank of new Set(pushed.flatMap(({ tanks }) => tanks))) give(tank, lowestPickup(boat, tank, attitude));
    const place = heightOf(cut.place, attitude);
    if (sources.length > 0 && place === undefined) forRate.push({ about: line.id, of: cut.place?.up ? 'place' : 'heights' });
    sources.forEach((source, i) => {
        const tank = tankOf(boat, source.tank);
        const surface = surfaceAt(tank, volumes.get(tank.id) ?? NaN, attitude);
        if (surface === undefined) forRate.push(tankLack(boat, tank.id));
        if (surface === undefined || place === undefined) return;
        const mouth = heightOf(fittingOf(boat, source.fitting)?.mouth, attitude) ?? -Infinity;
        const stop = place + heldHead(boat, tank.id, source.cracks);
        if (surface <= Math.max(stop, mouth)) return;
        const own = { bore: line.bore!.si, length: line.length!.si * cut.left[source.end] };
        rate += flowByHead([...rows[i]!.pipes, own], surface - stop, fluidOf(boat.vessel, tank.carries, 'warm'), MOUTHS) ?? 0;
        give(tank.id, Math.max(stop, mouth));
    });
    return {
        rate: forRate.length > 0 ? undefined : rate, lacks: [...forRate, ...forVolume],
        volume: forRate.length + forVolume.length > 0 ? undefined : [...given.values()].reduce((sum, volume) => sum + volume, 0),
    };
}

/** What consumers draw comes of each; what electric pumps state is more or less of the same, so the greater counts. */
function deliveredBy({ consumers }: Network, pushed: readonly Pushed[]): number {
    const sum = (of: readonly Pushed[]): number => of.reduce((total, { rate }) => total + (rate ?? 0), 0);
    return Math.max(sum(pushed.filter(({ by }) => consumers.has(by))), sum(pushed.filter(({ by }) => !consumers.has(by))));
}

const tankOf = (boat: Boat, id: Id): Boat['tanks'][number] => boat.tanks.find((tank) => tank.id === id)!;

const tankLack = (boat: Boat, id: Id): LineLack => ({ about: id, of: surfaceAt(tankOf(boat, id), 0, UPRIGHT) === undefined ? 'shape' : 'tank place' });

/** Down to here a pump empties a tank; to its bottom, where the mouth of a pickup is not known. */
function lowestPickup(boat: Boat, tank: Id, attitude: Attitude): number {
    const mouths = tankOf(boat, tank).fittings.filter(({ kind }) => kind === 'pickup').map(({ mouth }) => heightOf(mouth, attitude) ?? -Infinity);
    return mouths.length === 0 ? -Infinity : Math.min(...mouths);
}
