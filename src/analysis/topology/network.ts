/**
 * The boat as a directed network of points joined by passages. Everything later (rules, bleeding, isolation, flow)
 * looks at the boat through this one picture; no code here knows any arrangement by name.
 *
 * A point is a port or a tank. A passage is a way through one part, or a joint between two ports.
 */
import type { Boat, Consumer, Id, Part } from '../../model/boat';

export interface Passage {
    /** The part, fitting or consumer that liquid passes here; absent for a joint. */
    readonly part?: Id;
    readonly from: number;
    readonly to: number;
    readonly kind: 'joint' | 'plain' | 'one-way' | 'pump' | 'valve' | 'consumer';
    /** For a pump: whether liquid passes it forward while it rests. */
    readonly passesAtRest?: boolean;
    /** For a valve: the positions in which this way is open. */
    readonly openIn?: ReadonlySet<string>;
    /** Holds liquid whose kind matters when bleeding. */
    readonly segment: boolean;
}

export interface Network {
    readonly boat: Boat;
    readonly points: readonly string[];
    readonly index: ReadonlyMap<string, number>;
    readonly passages: readonly Passage[];
    /** The point of each tank. */
    readonly tanks: ReadonlyMap<Id, number>;
    readonly tankPoints: ReadonlySet<number>;
    readonly parts: ReadonlyMap<Id, Part>;
    readonly consumers: ReadonlyMap<Id, Consumer>;
    /** Passages by the part that they belong to. */
    readonly through: ReadonlyMap<Id, readonly number[]>;
}

const SEGMENTS: ReadonlySet<Part['kind']> = new Set(['hose', 'tube', 'filter', 'strainer', 'radiator', 'hand primer', 'electric primer', 'lift pump', 'electric pump']);

export const isPump = (part: Part): boolean => part.kind.endsWith('primer') || part.kind.endsWith('pump');
export const isPipe = (of: { readonly kind: string } | undefined): boolean => of?.kind === 'hose' || of?.kind === 'tube';
export const isValve = (part: Part): boolean => part.kind === 'shutoff' || part.kind === 'selector' || part.kind === 'changeover';

export function networkOf(boat: Boat): Network {
    let found = networks.get(boat);
    if (!found) { found = build(boat); networks.set(boat, found); }
    return found;
}

/** A boat does not change; the judge, the sequences and the dates all ask for its network. */
const networks = new WeakMap<Boat, Network>();

function build(boat: Boat): Network {
    const points: string[] = [];
    const index = new Map<string, number>();
    const passages: Passage[] = [];
    const through = new Map<Id, number[]>();
    const point = (name: string): number => {
        let at = index.get(name);
        if (at === undefined) { at = points.length; points.push(name); index.set(name, at); }
        return at;
    };
    const passage = (added: Passage): void => {
        if (added.part !== undefined) {
            const own = through.get(added.part);
            if (own) own.push(passages.length); else through.set(added.part, [passages.length]);
        }
        passages.push(added);
    };

    const tanks = new Map<Id, number>();
    for (const tank of boat.tanks) {
        tanks.set(tank.id, point(tank.id));
        for (const fitting of tank.fittings) {
            const inward = fitting.kind === 'drop' || fitting.kind === 'fill';
            const [hub, port] = [point(tank.id), point(fitting.id)];
            passage({ part: fitting.id, from: inward ? port : hub, to: inward ? hub : port, kind: 'plain', segment: fitting.kind === 'pickup' });
        }
    }
    for (const part of boat.parts) for (const added of waysThrough(part, point)) passage(added);
    for (const consumer of boat.consumers) {
        passage({ part: consumer.id, from: point(`${consumer.id}:in`), to: point(`${consumer.id}:out`), kind: 'consumer', segment: true });
    }
    for (const joint of boat.joints) passage({ from: point(joint.from), to: point(joint.to), kind: 'joint', segment: false });
    for (const consumer of boat.consumers) for (const circuit of circuits(consumer.id, points)) {
        passage({ part: consumer.id, from: point(`${consumer.id}.${circuit}-in`), to: point(`${consumer.id}.${circuit}-out`), kind: 'plain', segment: false });
    }
    return {
        boat, points, index, passages, tanks, tankPoints: new Set(tanks.values()), through,
        parts: new Map(boat.parts.map((part) => [part.id, part])), consumers: new Map(boat.consumers.map((consumer) => [consumer.id, consumer])),
    };
}

/** A consumer's own circuits: `coolant` when both E1.coolant-in and E1.coolant-out are used. */
function circuits(consumer: Id, points: readonly string[]): string[] {
    const outs = points.filter((name) => name.startsWith(`${consumer}.`) && name.endsWith('-out')).map((name) => name.slice(consumer.length + 1, -4));
    return outs.filter((circuit) => points.includes(`${consumer}.${circuit}-in`));
}

function* waysThrough(part: Part, point: (name: string) => number): Generator<Passage> {
    if (part.kind === 'tee') { point(part.id); return; }
    if (part.kind === 'selector' || part.kind === 'changeover') {
        for (const port of part.ports) point(`${part.id}:${port}`);
        for (const [i, a] of part.ports.entries()) for (const b of part.ports.slice(i + 1)) {
            const openIn = part.positions.filter((position) => position.joins.some((group) => group.includes(a) && group.includes(b))).map((position) => position.name);
            if (openIn.length > 0) yield { part: part.id, from: point(`${part.id}:${a}`), to: point(`${part.id}:${b}`), kind: 'valve', openIn: new Set(openIn), segment: false };
        }
        return;
    }
    const [into, out] = [point(`${part.id}:in`), point(`${part.id}:out`)];
    const [from, to] = part.reversed ? [out, into] : [into, out];
    const way = { part: part.id, from, to, segment: SEGMENTS.has(part.kind) };
    if (part.kind === 'shutoff') yield { ...way, kind: 'valve', openIn: new Set(['open']) };
    else if (part.kind === 'check') yield { ...way, kind: 'one-way' };
    else if (isPump(part)) yield { ...way, kind: 'pump', passesAtRest: part.kind === 'hand primer' || part.kind === 'lift pump' || part.whenOff === 'passes' };
    else yield { ...way, kind: 'plain' };
}

/** Whether a point is the open end of a course: to the air, on deck, in the sea. */
export const isOutside = (point: string): boolean => /:(air|deck|sea)$/.test(point);

/** Whether anything can leave or enter what the passage holds while nobody works it. */
export const passesAtRest = (passage: Passage): boolean => passage.kind !== 'pump' || passage.passesAtRest === true;

/** The position of every valve. */
export type Positions = ReadonlyMap<Id, string>;

/** The network with its valves in certain positions: which passages are open, and which way. */
export interface LinedUp {
    readonly network: Network;
    /** For each point, the ways that liquid can leave it. */
    readonly ways: readonly (readonly Way[])[];
    /** For each point, the ways that liquid can come to it. */
    readonly back: readonly (readonly Way[])[];
}

export interface Way {
    readonly to: number;
    readonly passage: number;
}

/** `assume` overrules the positions: all valves open, to ask what could be reached at all. */
export function lineUpNetwork(network: Network, positions: Positions, assume?: 'all open'): LinedUp {
    const last = lastLinedUp.get(network);
    if (last?.positions === positions && last.assume === assume) return last.linedUp;
    const linedUp = lineUp(network, positions, assume);
    lastLinedUp.set(network, { positions, assume, linedUp });
    return linedUp;
}

/** The last of each network: a rule asks for every engine, filter or tank in the same positions. More would be thousands. */
const lastLinedUp = new WeakMap<Network, { readonly positions: Positions; readonly assume: 'all open' | undefined; readonly linedUp: LinedUp }>();

function lineUp(network: Network, positions: Positions, assume?: 'all open'): LinedUp {
    const open = allOpen(network);
    if (assume === 'all open') return { network, ways: open.ways, back: open.back };
    const isShut = ({ kind, openIn, part }: Passage): boolean => kind === 'valve' && !openIn!.has(positions.get(part!) ?? '');
    const shut = new Set(open.valves.filter((i) => isShut(network.passages[i]!)));
    // Most of a boat is as it was: only the points of what is shut have other ways.
    const [ways, back] = [open.ways.slice(), open.back.slice()];
    for (const i of shut) for (const at of [network.passages[i]!.from, network.passages[i]!.to]) for (const lists of [ways, back]) {
        lists[at] = lists[at]!.filter(({ passage }) => !shut.has(passage));
    }
    return { network, ways, back };
}

interface AllOpen {
    readonly ways: readonly (readonly Way[])[];
    readonly back: readonly (readonly Way[])[];
    /** Passages of valves. */
    readonly valves: readonly number[];
}

/** Every valve open and every pump at rest, worked out once for a network. */
function allOpen(network: Network): AllOpen {
    const known = allOpenKnown.get(network);
    if (known) return known;
    const ways: Way[][] = network.points.map(() => []);
    const back: Way[][] = network.points.map(() => []);
    const valves: number[] = [];
    const add = (from: number, to: number, passage: number): void => {
        ways[from]!.push({ to, passage });
        back[to]!.push({ to: from, passage });
    };
    network.passages.forEach(({ kind, from, to, passesAtRest }, i) => {
        if (kind === 'pump' && !passesAtRest) return;
        if (kind === 'valve') valves.push(i);
        add(from, to, i);
        if (kind === 'joint' || kind === 'plain' || kind === 'valve') add(to, from, i);
    });
    const found = { ways, back, valves };
    allOpenKnown.set(network, found);
    return found;
}

const allOpenKnown = new WeakMap<Network, AllOpen>();

/** Some of the points of a network. */
export interface Points {
    has(point: number): boolean;
}

/** Points that a walk has met, in its order. Asked thousands of times for one judgement: marks in an array cost a fraction of a set. */
export class Reached implements Points, Iterable<number> {
    constructor(private readonly marks: Uint8Array, private readonly met: readonly number[]) {}
    has(point: number): boolean { return this.marks[point] === 1; }
    [Symbol.iterator](): Iterator<number> { return this.met[Symbol.iterator](); }
}

/**
 * Points reached from `start` along `ways` (or against the flow along `back`), never through a passage of `without`.
 * A tank is reached but not passed, unless the walk starts there: what runs into a tank does not run on from it.
 */
export function reach({ network }: LinedUp, ways: readonly (readonly Way[])[], start: Iterable<number>, without: ReadonlySet<number> = NONE): Reached {
    const seen = new Uint8Array(network.points.length);
    const found: number[] = [];
    for (const at of start) if (seen[at] === 0) { seen[at] = 1; found.push(at); }
    const starts = found.length;
    for (let i = 0; i < found.length; i++) {
        const at = found[i]!;
        if (i >= starts && network.tankPoints.has(at)) continue;
        for (const way of ways[at]!) {
            if (seen[way.to] === 1 || without.has(way.passage)) continue;
            seen[way.to] = 1;
            found.push(way.to);
        }
    }
    return new Reached(seen, found);
}

export const NONE: ReadonlySet<number> = new Set<number>();
