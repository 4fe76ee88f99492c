/**
 * Where fuel goes in a line-up: for each tank what draws from it and what comes back, how fast it rises or falls, and when it is full or a
 * pickup stands dry. Flows are steady. What runs by itself between tanks at different levels is not in it (`crossover.ts`).
 */
import type { Boat, Consumer, Id, Part, Tank } from '../../model/boat';
import { estimateOf, exactly, minus, plus, scaled, sound, type Estimate } from '../estimate';
import { demandAt } from '../flow/demand';
import { heightOf, UPRIGHT, type Attitude } from '../tanks/attitude';
import { grossOf } from '../tanks/liquid';
import { FULL, leastToWet } from '../tanks/pickups';
import type { ResolvedLineUp } from '../topology/line-ups';
import { networkOf, reach, type LinedUp, type Network } from '../topology/network';
import { levelTanks } from '../tanks/level';
import { running, tanksAfter, tanksBefore } from '../topology/paths';
import { routes } from '../topology/routes';
import { atFull, barredFor, burnersOf, runsIn, type SpeedOf } from './burners';
import { eachLackOnce, type TimeLack, type When } from './lack';

/** A flow out of a tank or into it, m³/s, of a consumer or of a pump. Where several tanks could give or take, it is all or nothing. */
export interface Flow {
    readonly by: Id;
    /** Undefined when a curve or a rate is lacking. */
    readonly flow?: Estimate;
    /** Other tanks could give or take it as well. */
    readonly shared: boolean;
}

export interface Ledger {
    readonly tank: Id;
    readonly gives: readonly Flow[];
    readonly takes: readonly Flow[];
    /** How fast it rises, m³/s; below nothing when it falls. Of what is known; see the lacks. */
    readonly net: Estimate;
    /** Other tanks that an open line joins to it: they rise and fall together, more or less. */
    readonly joined: readonly Id[];
    readonly lacks: readonly TimeLack[];
}

/**
 * The ledger of every tank that something draws from or returns to. Consumers run unless the line-up stops them; electric pumps between tanks run in
 * line-ups for transfer and polishing. What is returned to nowhere, or into the consumer's own supply, is drawn again.
 */
export function ledgersOf(boat: Boat, lineUp: ResolvedLineUp, speedOf: SpeedOf = atFull): readonly Ledger[] {
    const network = networkOf(boat);
    const linedUp = running(network, lineUp.positions);
    const books = new Map<Id, Book>();
    const book = (tank: Id): Book => { let found = books.get(tank); if (!found) { found = { gives: [], takes: [], net: exactly(0), lacks: [] }; books.set(tank, found); } return found; };
    for (const consumer of burnersOf(network)) if (runsIn(lineUp, consumer.id)) enter(linedUp, consumer, speedOf, book);
    if (lineUp.use === 'transfer' || lineUp.use === 'polish') for (const pump of movers(network, linedUp)) enterPump(linedUp, pump, book);
    const groups = levelTanks(network, lineUp.positions);
    return boat.tanks.filter(({ id }) => books.has(id)).map(({ id }) => {
        const { lacks, ...entries } = books.get(id)!;
        return { tank: id, ...entries, joined: (groups.find((group) => group.includes(id)) ?? []).filter((other) => other !== id).sort(), lacks: eachLackOnce(lacks) };
    });
}

interface Book {
    gives: Flow[];
    takes: Flow[];
    net: Estimate;
    lacks: TimeLack[];
}

function enter(linedUp: LinedUp, consumer: Consumer, speedOf: SpeedOf, book: (tank: Id) => Book): void {
    const { network } = linedUp;
    const own = new Set([...network.consumers.keys()].flatMap((id) => network.through.get(id) ?? []));
    const from = tanksBefore(linedUp, `${consumer.id}:in`, own);
    if (from.length === 0) return;
    const to = tanksAfter(linedUp, `${consumer.id}:out`, own);
    const demand = demandAt(consumer, speedOf(consumer));
    const { draws, burns, returns } = demand ?? {};
    const again = to.length === 0 ? 'all' : reach(linedUp, linedUp.ways, [network.index.get(`${consumer.id}:out`)!], own).has(network.index.get(`${consumer.id}:in`)!) ? 'some' : 'none';
    const taken = again === 'all' ? burns : again === 'some' ? draws && { ...draws, least: burns?.least ?? 0 } : draws;
    const given = again === 'all' ? exactly(0) : again === 'some' ? returns && { ...returns, least: 0 } : returns;
    // The only tank that gives is the only one that takes: whatever goes round, what is burnt is gone.
    const alone = from.length === 1 && to.length <= 1 && (to[0] ?? from[0]) === from[0];
    for (const tank of from) {
        book(tank).gives.push(flowOf(consumer.id, taken, from.length));
        if (!alone) settle(book(tank), taken && scaled(shared(taken, from.length), -1), { about: consumer.id, of: again === 'all' ? 'burns' : 'draws' });
    }
    for (const tank of to) {
        book(tank).takes.push(flowOf(consumer.id, given, to.length));
        if (!alone) settle(book(tank), given && shared(given, to.length), { about: consumer.id, of: burns ? 'draws' : 'burns' });
    }
    if (alone) settle(book(from[0]!), burns && scaled(burns, -1), { about: consumer.id, of: 'burns' });
}

function enterPump(linedUp: LinedUp, pump: Part, book: (tank: Id) => Book): void {
    const barred = barredFor(linedUp.network).any;
    const [from, to] = [tanksBefore(linedUp, `${pump.id}:in`, barred), tanksAfter(linedUp, `${pump.id}:out`, barred)];
    const rate = pump.rate && sound(estimateOf(pump.rate));
    const lack: TimeLack = { about: pump.id, of: 'rate' };
    // A tank that is polished is pumped round.
    const round = from.length === 1 && to.length === 1 && from[0] === to[0];
    for (const [tanks, sign] of [[from, -1], [to, 1]] as const) for (const tank of tanks) {
        (sign < 0 ? book(tank).gives : book(tank).takes).push(flowOf(pump.id, rate, tanks.length));
        if (!round) settle(book(tank), rate && scaled(shared(rate, tanks.length), sign), lack);
    }
}

function settle(book: Book, flow: Estimate | undefined, lack: TimeLack): void {
    if (flow) book.net = plus(book.net, flow); else book.lacks.push(lack);
}

const flowOf = (by: Id, flow: Estimate | undefined, tanks: number): Flow => ({ by, ...(flow && { flow: shared(flow, tanks) }), shared: tanks > 1 });

/** As a best guess they share alike. */
const shared = (flow: Estimate, tanks: number): Estimate => (tanks > 1 ? { si: flow.si / tanks, least: 0, most: flow.most } : flow);

/** Electric pumps that draw from a tank and deliver to one, through no consumer. */
export function movers(network: Network, linedUp: LinedUp): readonly Part[] {
    const barred = barredFor(network).any;
    return network.boat.parts.filter(({ id, kind }) => kind === 'electric pump' && tanksBefore(linedUp, `${id}:in`, barred).length > 0 && tanksAfter(linedUp, `${id}:out`, barred).length > 0);
}

/** t = room / net, s. Undefined when it never comes, or the volumes are no numbers; at once where there is no room. */
export function fullAfter(room: number, net: Estimate): When | undefined {
    if (!Number.isFinite(room) || !sound(net)) return undefined;
    if (room <= 0) return { soonest: 0, si: 0, latest: 0 };
    if (!(net.most > 0) || !Number.isFinite(room / net.most)) return undefined;
    const at = (rate: number): number | undefined => (rate > 0 && Number.isFinite(room / rate) ? room / rate : undefined);
    const [si, latest] = [at(net.si), at(net.least)];
    return { soonest: room / net.most, ...(si !== undefined && { si }), ...(latest !== undefined && { latest }) };
}

export interface TankFills {
    /** s until it stands at 95 %, and until it is full to the lid and runs out of its vent. */
    readonly to95?: When;
    readonly toGross?: When;
    readonly lacks: readonly TimeLack[];
}

/**
 * From a volume in it, m³. Where an open line joins another tank to it that stands as high, that one takes a share: it may come later, or
 * never. Nothing with lacks.
 */
export function fills(tank: Tank, volume: number, { net, joined, lacks }: Pick<Ledger, 'net' | 'joined' | 'lacks'>): TankFills {
    const gross = grossOf(tank);
    if (gross === undefined) return { lacks: [...lacks, { about: tank.id, of: 'shape' }] };
    if (lacks.length > 0) return { lacks };
    const when = (full: number): When | undefined => unlessJoined(fullAfter(full - volume, net), joined);
    const [to95, toGross] = [when(FULL * gross), when(gross)];
    return { ...(to95 && { to95 }), ...(toGross && { toGross }), lacks };
}

const unlessJoined = (when: When | undefined, joined: readonly Id[]): When | undefined => (when && joined.length > 0 && when.soonest > 0 ? { soonest: when.soonest, ...(when.si !== undefined && { si: when.si }) } : when);

export interface Uncovers {
    readonly pickup: Id;
    /** m³ at which its mouth comes dry, at the attitude. */
    readonly least?: number;
    /** s. Undefined when it never comes, or with lacks. */
    readonly after?: When;
    readonly lacks: readonly TimeLack[];
}

/** When the pickups of a tank through which something draws in this line-up come dry, from a volume in it. */
export function uncovers(boat: Boat, lineUp: ResolvedLineUp, tank: Tank, volume: number, { net, gives, joined, lacks }: Ledger, attitude: Attitude = UPRIGHT): readonly Uncovers[] {
    const network = networkOf(boat);
    const linedUp = running(network, lineUp.positions);
    const ends = gives.flatMap(({ by }) => network.index.get(`${by}:in`) ?? []);
    const on = routes(linedUp, [network.tanks.get(tank.id)].filter((at) => at !== undefined), ends, barredFor(network).any);
    const through = new Set([...on].flatMap((passage) => network.passages[passage]!.part ?? []));
    return tank.fittings.filter(({ id }) => through.has(id)).map(({ id, mouth }) => {
        const least = leastToWet(tank, mouth, attitude);
        if (least === undefined) return { pickup: id, lacks: [...lacks, heightOf(mouth, attitude) === undefined ? { about: id, of: 'mouth' } : { about: tank.id, of: 'shape' }] };
        const after = lacks.length > 0 ? undefined : unlessJoined(fullAfter(volume - least, minus(exactly(0), net)), joined);
        return { pickup: id, least, ...(after && { after }), lacks };
    });
}
