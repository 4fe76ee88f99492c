/** Where a consumer's liquid comes from and goes to, pumps counted as running. */
import type { Id } from '../../model/boat';
import { routes } from './routes';
import { lineUpNetwork, NONE, reach, type LinedUp, type Network, type Passage, type Points, type Positions, type Reached, type Way } from './network';

/** The network in a line-up as it is when everything runs: pumps pass forward. */
export function running(network: Network, positions: Positions, assume?: 'all open'): LinedUp {
    const linedUp = lineUpNetwork(network, positions, assume);
    const known = runningKnown.get(linedUp);
    if (known) return known;
    const [ways, back] = [linedUp.ways.slice(), linedUp.back.slice()];
    network.passages.forEach((passage, i) => {
        if (passage.kind !== 'pump' || passage.passesAtRest) return;
        ways[passage.from] = [...ways[passage.from]!, { to: passage.to, passage: i }];
        back[passage.to] = [...back[passage.to]!, { to: passage.from, passage: i }];
    });
    const found = { network, ways, back };
    runningKnown.set(linedUp, found);
    return found;
}

const runningKnown = new WeakMap<LinedUp, LinedUp>();

/** The ways from each point with the flow and against it, worked out once for a network in a line-up. */
export function eitherWay(linedUp: LinedUp): readonly (readonly Way[])[] {
    const ways = eitherWayKnown.get(linedUp) ?? linedUp.ways.map((list, at) => [...list, ...linedUp.back[at]!]);
    eitherWayKnown.set(linedUp, ways);
    return ways;
}

const eitherWayKnown = new WeakMap<LinedUp, readonly (readonly Way[])[]>();

/** Passages of these parts. */
export function passagesOf(network: Network, parts: Iterable<Id>): ReadonlySet<number> {
    return new Set([...parts].flatMap((id) => network.through.get(id) ?? []));
}

/** Tanks from which liquid comes to a point, through none of the `without` passages. */
export function tanksBefore(linedUp: LinedUp, point: string, without: ReadonlySet<number> = new Set()): readonly Id[] {
    return tanksIn(linedUp, linedUp.back, point, without);
}

/** Tanks that liquid from a point runs into. */
export function tanksAfter(linedUp: LinedUp, point: string, without: ReadonlySet<number> = new Set()): readonly Id[] {
    return tanksIn(linedUp, linedUp.ways, point, without);
}

function tanksIn(linedUp: LinedUp, ways: LinedUp['ways'], point: string, without: ReadonlySet<number>): readonly Id[] {
    if (without.size > 0) return findTanks(linedUp, ways, point, without);
    const known = tanksKnown.get(ways) ?? { answers: new Map<string, readonly Id[]>() };
    tanksKnown.set(ways, known);
    let found = known.answers.get(point);
    if (!found) { found = known.answers.size < linedUp.network.tanks.size ? findTanks(linedUp, ways, point, without) : lookUpTanks(linedUp, ways, point, known); known.answers.set(point, found); }
    return found;
}

interface TanksKnown {
    readonly answers: Map<string, readonly Id[]>;
    /** What is reached from each tank, the other way. */
    fromTanks?: readonly (readonly [Id, Points])[];
}

/** By the ways that are followed; asked by nearly every rule. */
const tanksKnown = new WeakMap<LinedUp['ways'], TanksKnown>();

/** Whoever asks at more points than there are tanks is answered from the tanks. */
function lookUpTanks(linedUp: LinedUp, ways: LinedUp['ways'], point: string, known: TanksKnown): Id[] {
    const { index, tanks } = linedUp.network;
    const other = ways === linedUp.back ? linedUp.ways : linedUp.back;
    known.fromTanks ??= [...tanks].map(([id, at]) => [id, reach(linedUp, other, [at])] as const);
    const at = index.get(point);
    return at === undefined ? [] : known.fromTanks.filter(([, reached]) => reached.has(at)).map(([id]) => id);
}

function findTanks(linedUp: LinedUp, ways: readonly (readonly Way[])[], point: string, without: ReadonlySet<number>): Id[] {
    const start = linedUp.network.index.get(point);
    if (start === undefined) return [];
    const found = reach(linedUp, ways, [start], without);
    return [...linedUp.network.tanks].filter(([, at]) => found.has(at)).map(([id]) => id);
}

/** Parts on some way from a tank to a point. */
export const partsBefore = (linedUp: LinedUp, point: string): ReadonlySet<Id> => partsOn(linedUp, point, 'before');
/** Parts on some way from a point to a tank. */
export const partsAfter = (linedUp: LinedUp, point: string): ReadonlySet<Id> => partsOn(linedUp, point, 'after');

/** Asked again and again by many rules of one network that does not change. */
const known = new WeakMap<LinedUp, Map<string, ReadonlySet<Id>>>();

function partsOn(linedUp: LinedUp, point: string, side: 'before' | 'after'): ReadonlySet<Id> {
    const answers = known.get(linedUp) ?? new Map<string, ReadonlySet<Id>>();
    known.set(linedUp, answers);
    const key = `${side} ${point}`;
    const found = answers.get(key) ?? findParts(linedUp, point, side);
    answers.set(key, found);
    return found;
}

function findParts(linedUp: LinedUp, point: string, side: 'before' | 'after'): ReadonlySet<Id> {
    const { network } = linedUp;
    const at = network.index.get(point);
    if (at === undefined) return new Set();
    const found = side === 'before' ? routes(linedUp, network.tankPoints, [at]) : routes(linedUp, [at], network.tankPoints);
    return new Set([...found].flatMap((i) => network.passages[i]!.part ?? []));
}

/**
 * What lies on some way from a tank to a consumer, or from it to a tank, in the order in which liquid meets it: parts, fittings of tanks, and
 * tees with a tag. Where ways part, one follows the other. What the liquid passes only by going through the consumer itself is left out.
 */
export function inOrder(linedUp: LinedUp, consumer: Id, side: 'to' | 'from'): readonly Id[] {
    const { network, ways } = linedUp;
    const at = network.index.get(`${consumer}:${side === 'to' ? 'in' : 'out'}`);
    if (at === undefined) return [];
    const own = new Set(network.through.get(consumer));
    const on = side === 'to' ? routes(linedUp, network.tankPoints, [at], own) : routes(linedUp, [at], network.tankPoints, own);
    const starts = side === 'to' ? [...network.tankPoints] : [at];
    // A pipe between two tanks that feed at once is read downstream, from its own tank.
    const down = reach(linedUp, waysDown(linedUp), starts, own);
    const against = (point: number, { kind, from, to }: Passage): boolean => kind !== 'valve' && to === point && down.has(from);
    const seen = new Set<number>();
    const last: Id[] = [];
    // A walk that keeps each point when all behind it is kept has, read from its end, every point before what follows it.
    const walk: { at: number; by?: number; next: number }[] = [];
    const enter = (point: number, by?: number): void => { seen.add(point); walk.push({ at: point, ...(by !== undefined && { by }), next: 0 }); };
    for (const start of starts.reverse()) {
        if (!seen.has(start)) enter(start);
        while (walk.length > 0) {
            const frame = walk.at(-1)!;
            const way = ways[frame.at]![frame.next++];
            if (way === undefined) {
                walk.pop();
                const [tee, part] = [network.parts.get(network.points[frame.at]!), frame.by === undefined ? undefined : network.passages[frame.by]!.part];
                if (tee?.kind === 'tee' && tee.tag !== undefined) last.push(tee.id);
                if (part !== undefined) last.push(part);
            } else if (on.has(way.passage) && !seen.has(way.to) && !against(frame.at, network.passages[way.passage]!)) enter(way.to, way.passage);
        }
    }
    return [...new Set(last.reverse())];
}

/**
 * Groups of tanks that are joined in a line-up: by a way open in both directions with every pump at rest, on no consumer's
 * supply or return. Two supplies that meet at a tee join nothing; that is two tanks feeding one engine. `without`: parts and fittings that are
 * taken for shut.
 */
export function joinedTanks(network: Network, positions: Positions, without: Iterable<Id> = []): readonly (readonly Id[])[] {
    const atRest = lineUpNetwork(network, positions);
    const served = [...network.consumers.keys()].flatMap((id) => [id, ...partsBefore(atRest, `${id}:in`), ...partsAfter(atRest, `${id}:out`)]);
    const barred = passagesOf(network, [...served, ...without]);
    const groups: Id[][] = [];
    for (const [id, point] of network.tanks) {
        const [out, back] = [reach(atRest, atRest.ways, [point], barred), reach(atRest, atRest.back, [point], barred)];
        const joined = groups.filter((group) => group.some((tank) => { const at = network.tanks.get(tank)!; return out.has(at) && back.has(at); }));
        for (const group of joined) groups.splice(groups.indexOf(group), 1);
        groups.push([...joined.flat(), id]);
    }
    return groups;
}

/** Parts with a way of pipes to the consumer that leads through no tank; valves count as open. */
export function connectedTo(network: Network, consumer: Id): ReadonlySet<Id> {
    const answers = connectedKnown.get(network) ?? new Map<Id, ReadonlySet<Id>>();
    connectedKnown.set(network, answers);
    const found = answers.get(consumer) ?? findConnected(network, consumer);
    answers.set(consumer, found);
    return found;
}

const connectedKnown = new WeakMap<Network, Map<Id, ReadonlySet<Id>>>();

function findConnected(network: Network, consumer: Id): ReadonlySet<Id> {
    const linedUp = lineUpNetwork(network, new Map(), 'all open');
    const both = linedUp.ways.map((ways, i) => [...ways, ...linedUp.back[i]!]);
    network.passages.forEach((passage, i) => {
        if (passage.kind === 'pump') { both[passage.from]!.push({ to: passage.to, passage: i }); both[passage.to]!.push({ to: passage.from, passage: i }); }
    });
    const found = reach(linedUp, both, [network.index.get(`${consumer}:in`)!]);
    return new Set(network.passages.filter((passage) => passage.part !== undefined && (found.has(passage.from) || found.has(passage.to))).map((passage) => passage.part!));
}

/** Points met downstream of a point: pipes one way, selectors either way, through no consumer and no passage of `without`. */
export function downstream(linedUp: LinedUp, start: number, without: ReadonlySet<number> = NONE): Reached {
    return reach(linedUp, waysDown(linedUp), [start], without);
}

const waysDownKnown = new WeakMap<LinedUp, readonly (readonly Way[])[]>();

/** The ways as they are read downstream, worked out once for a network in a line-up. */
function waysDown(linedUp: LinedUp): readonly (readonly Way[])[] {
    const { passages } = linedUp.network;
    const isDown = (at: number, { kind, from }: Passage): boolean => kind !== 'consumer' && (kind === 'valve' || from === at);
    const ways = waysDownKnown.get(linedUp) ?? linedUp.ways.map((list, at) => list.filter(({ passage }) => isDown(at, passages[passage]!)));
    waysDownKnown.set(linedUp, ways);
    return ways;
}

/** Points met after a part, read downstream. Every filter is asked about every other: a bit for each point is kept. */
export function followers(linedUp: LinedUp, part: Id): Points {
    const answers = followersKnown.get(linedUp) ?? new Map<Id, Points>();
    followersKnown.set(linedUp, answers);
    const known = answers.get(part);
    if (known) return known;
    const { index, points } = linedUp.network;
    const marks = new Uint8Array((points.length >> 3) + 1);
    for (const at of downstream(linedUp, index.get(`${part}:out`)!)) marks[at >> 3]! |= 1 << (at & 7);
    const found: Points = { has: (at) => (marks[at >> 3]! & (1 << (at & 7))) !== 0 };
    answers.set(part, found);
    return found;
}

const followersKnown = new WeakMap<LinedUp, Map<Id, Points>>();

/** Whether the second part is met after the first, read downstream. */
export const follows = (linedUp: LinedUp, first: Id, second: Id): boolean => followers(linedUp, first).has(linedUp.network.index.get(`${second}:in`)!);
