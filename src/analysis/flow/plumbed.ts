/**
 * A boat as circuits: what stands for what when its steady flow is reckoned. Every part that liquid passes is a link; what hinders it next to
 * nothing (an open valve, a tee, a gauge) has a loss that no gauge shows, so that its flow is told too. Lines for air and filling are left out.
 * What runs, and how the tanks stand, is said by the state; nothing is looked up here.
 */
import type { Carries, Fitting, Id, Part, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import { endPlace, pointPlace } from '../air/heights';
import { surfaceIn, type Condition } from '../opening/condition';
import { heightOf } from '../tanks/attitude';
import { fittingOf } from '../topology/joints';
import { partsOnEveryWayTo } from '../topology/every-way';
import type { LinedUp, Network, Passage, Positions } from '../topology/network';
import { follows, partsAfter, partsBefore, running, tanksAfter } from '../topology/paths';
import { returnIsBlocked } from '../topology/isolation';
import type { Circuit, FlowLink, FlowNode } from './circuit';
import { guessOf, guessed, type Default, type Guess } from './guess';

/** What runs, and what it meets: all but how the tanks stand. */
export interface Running {
    readonly positions: Positions;
    /** m³/s that each running consumer draws, and gives back. */
    readonly demands: ReadonlyMap<Id, Demand>;
    /** What pumps move that run by themselves, as for a transfer, m³/s. What a consumer draws is moved by the pumps before it. */
    readonly pumps: ReadonlyMap<Id, number>;
    readonly elements: 'clean' | 'dirty';
    readonly guess: Guess;
    readonly fluid: (carries: Carries | undefined) => Circuit['fluid'];
}

/** How she lies and what is in her tanks. */
export interface Standing {
    readonly condition: Condition;
    /** A pickup whose mouth the liquid does not reach counts as just reached: the lowest level at which it draws at all. */
    readonly down: boolean;
}

export interface FlowState extends Running, Condition {
    readonly down: boolean;
}

export interface Demand {
    readonly drawn: number;
    readonly returned: number;
}

/** A fact without which a part's loss, or a tank's head, is not known. It is then left out. */
export interface FlowLack {
    readonly about: Id;
    readonly of: 'bore' | 'length' | 'mouth' | 'surface' | 'when off';
}

export interface Plumbed {
    /** The node at which each point of the network stands; none for lines of air and filling. */
    readonly nodeOf: readonly (string | undefined)[];
    /** By its passage. */
    readonly linkOf: ReadonlyMap<number, FlowLink>;
    /** Those of the tanks without their heads. */
    readonly nodes: ReadonlyMap<string, FlowNode>;
    /** Where tanks are joined on. */
    readonly mouths: readonly Mouth[];
    readonly lacks: readonly FlowLack[];
    /** What was taken for parts because nothing is stated, by part. */
    readonly taken: ReadonlyMap<Id, string>;
    /** What each tank carries, at the nodes of its fittings. */
    readonly carries: ReadonlyMap<string, Carries | undefined>;
}

/** A fitting of a tank, between the tank's own node for it and the line. */
export interface Mouth {
    readonly passage: number;
    readonly fitting: Fitting;
    readonly tank: Tank;
    readonly hub: string;
    readonly link: FlowLink;
}

/** What a mouth does as she lies: it is open, lets liquid only out into the tank, or stands in air. */
export interface Head {
    readonly does: 'open' | 'out' | 'none';
    /** m. */
    readonly head?: number;
    readonly lacks: readonly FlowLack[];
}

/** 1 Pa at 360 L/h: what an open valve is counted as. */
const NEXT_TO_NOTHING = { drop: 1, at: 1e-4, turbulent: 0 };

/** Each end of a pipe counts as a fitting of so many bores in length, at most: the trade's 10 to 30 for elbows, tails and valves; none at best, and for what is likely. */
export const FITTING: Readonly<Record<Guess, number>> = { likely: 0, least: 0, most: 30 };

/** The same pipe with another bore, m: its fittings grow with it. */
export function rebored(network: Network, link: FlowLink, bore: number, guess: Guess): FlowLink {
    const ends = fittingOf(network.boat, network.passages[Number(link.id)]!.part!) ? 1 : 2;
    return { ...link, ...(link.pipes && { pipes: link.pipes.map((pipe) => ({ bore, length: pipe.length + ends * FITTING[guess] * (bore - pipe.bore) })) }) };
}

/** Pa. Common practice, no published source. */
export const CLEAN: Default = { si: 1000, least: 300, most: 2000, taken: 'takes 1 kPa (0.3 to 2) with a new element, common practice' };
export const DIRTY: Default = { si: 12_000, least: 10_000, most: 20_000, taken: 'takes 12 kPa (10 to 20) with an element that is to be renewed, common practice' };
export const CHECK: Default = { si: 500, least: 0, most: 5000, taken: 'opens at 0.5 kPa (0 to 5), common practice' };
export const PRIMER: Default = { si: 100, least: 0, most: 1000, taken: 'has checks that open at 0.1 kPa (0 to 1), common practice' };

export function plumbed(network: Network, state: Running): Plumbed {
    const { boat, passages } = network;
    const nodeOf = nodesIn(network);
    const nodes = new Map<string, FlowNode>();
    const carries = new Map<string, Carries | undefined>();
    const linkOf = new Map<number, FlowLink>();
    const mouths: Mouth[] = [];
    const lacks: FlowLack[] = [];
    const taken = new Map<Id, string>();
    const imposed = imposedBy(network, state);
    const drawn = new Map<string, number>();
    const draw = (node: string, flow: number): void => { if (flow !== 0) drawn.set(node, (drawn.get(node) ?? 0) + flow); };
    for (const node of nodeOf) if (node !== undefined) nodes.set(node, { id: node, up: 0 });

    passages.forEach((passage, i) => {
        const { part: id, kind } = passage;
        if (id === undefined || kind === 'joint' || kind === 'consumer') return;
        const fitting = fittingOf(boat, id);
        if (fitting) {
            if (fitting.kind === 'vent' || fitting.kind === 'fill') return;
            const port = nodeOf[passage.from] ?? nodeOf[passage.to];
            if (port === undefined) return;
            const [hub, tank] = [`${id} in ${fitting.tank}`, boat.tanks.find((other) => other.id === fitting.tank)!];
            nodes.set(hub, { id: hub, up: 0 });
            carries.set(hub, tank.carries);
            const inward = network.tankPoints.has(passage.to);
            const link = { ...pipeOf(fitting, state, lacks), id: String(i), from: inward ? port : hub, to: inward ? hub : port };
            linkOf.set(i, link);
            mouths.push({ passage: i, fitting, tank, hub, link });
            return;
        }
        const [from, to] = [nodeOf[passage.from], nodeOf[passage.to]];
        if (from === undefined || to === undefined || from === to) return;
        const part = network.parts.get(id);
        const losses = part ? lossesOf(part, passage, state, { network, imposed, lacks, taken }) : {};
        if (losses) linkOf.set(i, { ...(losses.pipes || losses.pump ? {} : { element: NEXT_TO_NOTHING }), ...losses, id: String(i), from, to });
    });
    for (const [id, demand] of state.demands) {
        const [into, out] = [network.index.get(`${id}:in`), network.index.get(`${id}:out`)];
        if (into !== undefined && nodeOf[into] !== undefined) draw(nodeOf[into], demand.drawn);
        if (out !== undefined && nodeOf[out] !== undefined) draw(nodeOf[out], -demand.returned);
    }
    for (const [node, flow] of drawn) nodes.set(node, { ...nodes.get(node)!, drawn: flow });
    return { nodeOf, linkOf, nodes, mouths, lacks, taken, carries };
}

/** The node of each point: what is made fast to one another is one. Worked out once for a network. */
function nodesIn(network: Network): Plumbed['nodeOf'] {
    const known = nodesKnown.get(network);
    if (known) return known;
    const { points, passages } = network;
    const joined = points.map((_, i) => i);
    const rootOf = (point: number): number => {
        let at = point;
        while (joined[at] !== at) { joined[at] = joined[joined[at]!]!; at = joined[at]!; }
        return at;
    };
    // By the name that comes first, so that no order of declaration shows.
    const before = (a: number, b: number): boolean => points[a]! < points[b]!;
    for (const { kind, from, to } of passages) if (kind === 'joint') { const [a, b] = [rootOf(from), rootOf(to)]; if (before(a, b)) joined[b] = a; else joined[a] = b; }
    const aside = asideOf(network);
    const found = points.map((_, i) => (aside.has(i) || network.tankPoints.has(i) ? undefined : points[rootOf(i)]!));
    nodesKnown.set(network, found);
    return found;
}

const nodesKnown = new WeakMap<Network, Plumbed['nodeOf']>();

/** Points of lines that carry air or take fuel from the deck. */
function asideOf(network: Network): ReadonlySet<number> {
    const found = new Set<number>();
    const { boat, index } = network;
    const courses = new Set(boat.courses.filter(({ service }) => service === 'vent' || service === 'fill').map(({ id }) => id));
    const add = (point: string): void => { const at = index.get(point); if (at !== undefined) found.add(at); };
    for (const { from, to, course } of boat.joints) if (courses.has(course)) { add(from); add(to); }
    for (const { id, course } of boat.parts) if (course !== undefined && courses.has(course)) { add(`${id}:in`); add(`${id}:out`); add(id); }
    return found;
}

/** The pipe in the tank. */
function pipeOf(fitting: Fitting, { guess }: Running, lacks: FlowLack[]): Pick<FlowLink, 'pipes' | 'element'> {
    const [top, bottom] = [fitting.top?.up, fitting.mouth?.up];
    const length = top && bottom ? Math.abs(top.si - bottom.si) : undefined;
    if (!fitting.bore) lacks.push({ about: fitting.id, of: 'bore' });
    const bore = fitting.bore && guessed(fitting.bore, guess, 'less');
    // A mouth as high as the top is a hole, and no pipe.
    const run = bore !== undefined && length !== undefined ? length + FITTING[guess] * bore : 0;
    return bore !== undefined && run > 0 ? { pipes: [{ bore, length: run }] } : { element: NEXT_TO_NOTHING };
}

/** The head at a mouth. Nothing where it stands in air and draws. */
export function headAt({ fitting, tank }: Mouth, { condition, down }: Standing): Head {
    const surface = surfaceIn(condition, tank);
    const mouth = heightOf(fitting.mouth, condition.attitude);
    const lacks: readonly FlowLack[] = mouth === undefined ? [{ about: fitting.id, of: 'mouth' }] : [];
    if (surface === undefined && !(down && mouth !== undefined)) return { does: 'none', lacks: [...lacks, { about: tank.id, of: 'surface' }] };
    if (surface !== undefined && (mouth === undefined || surface >= mouth)) return { does: 'open', head: surface, lacks };
    // What comes out above the surface falls; nothing comes back.
    if (fitting.kind === 'drop') return { does: 'out', head: mouth!, lacks };
    return down ? { does: 'open', head: mouth!, lacks } : { does: 'none', lacks };
}

interface Out {
    readonly network: Network;
    readonly imposed: ReadonlyMap<Id, number>;
    readonly lacks: FlowLack[];
    readonly taken: Map<Id, string>;
}

/** What a part takes from the flow; undefined where nothing passes it. */
function lossesOf(part: Part, passage: Passage, state: Running, out: Out): Omit<FlowLink, 'id' | 'from' | 'to'> | undefined {
    const { guess, elements } = state;
    const orDefault = (stated: Part['clean'], fallback: Default): number => {
        if (stated) return guessed(stated, guess, 'more');
        out.taken.set(part.id, fallback.taken);
        return guessOf(fallback, guess);
    };
    switch (part.kind) {
        case 'hose': case 'tube': {
            if (!part.bore) out.lacks.push({ about: part.id, of: 'bore' });
            if (!part.length) out.lacks.push({ about: part.id, of: 'length' });
            const bore = part.bore && guessed(part.bore, guess, 'less');
            return bore !== undefined && part.length ? { pipes: [{ bore, length: guessed(part.length, guess, 'more') + 2 * FITTING[guess] * bore }] } : {};
        }
        case 'filter': {
            const drop = elements === 'clean' ? orDefault(part.clean, CLEAN) : orDefault(part.dirty, DIRTY);
            // A new element is measured at the rated flow; one that is to be renewed at the flow that it then has.
            const flow = elements === 'clean' && part.clean && part.rated ? part.rated.si : through(out.network, state, part.id, elements === 'dirty');
            return { element: { drop, at: flow, turbulent: 0 } };
        }
        case 'check': return { check: { opens: orDefault(part.cracks, CHECK) } };
        // It has one check before and one behind the piston.
        case 'hand primer': return { check: { opens: 2 * orDefault(part.cracks, PRIMER) } };
        case 'electric primer': case 'electric pump': case 'lift pump': {
            const flow = out.imposed.get(part.id);
            if (flow !== undefined && flow > 0) return { pump: { flow } };
            if (part.kind !== 'lift pump' && part.whenOff === undefined) out.lacks.push({ about: part.id, of: 'when off' });
            return part.kind === 'lift pump' || part.whenOff === 'passes' ? { check: { opens: 0 } } : undefined;
        }
        case 'shutoff': case 'selector': case 'changeover': return passage.openIn?.has(state.positions.get(part.id) ?? '') ? {} : undefined;
        default: return {};
    }
}

/**
 * m³/s that each pump moves: what it moves by itself, or what those draw that draw through nothing else. One beside which there is
 * another way stands still and passes what it will.
 */
function imposedBy(network: Network, { positions, demands, pumps }: Running): ReadonlyMap<Id, number> {
    const linedUp = running(network, positions);
    const found = new Map(pumps);
    for (const [id, demand] of demands) {
        for (const part of partsOnEveryWayTo(linedUp, `${id}:in`)) {
            const model = network.parts.get(part);
            const drawn = drawnThrough(linedUp, id, demand, part);
            if (drawn > 0 && (model?.kind === 'lift pump' || model?.kind === 'electric pump') && !pumps.has(part)) found.set(part, (found.get(part) ?? 0) + drawn);
        }
    }
    return found;
}

/** m³/s that a consumer draws through a part before it: of a return that leads into its supply behind the part, only what is burnt comes by the part. */
function drawnThrough(linedUp: LinedUp, consumer: Id, { drawn, returned }: Demand, part: Id): number {
    const goesRound = tanksAfter(linedUp, `${consumer}:out`).length === 0 && !returnIsBlocked(linedUp, consumer) && !partsAfter(linedUp, `${consumer}:out`).has(part);
    return goesRound ? Math.max(0, drawn - returned) : drawn;
}

/** m³/s that is drawn through a part by what runs, or its share of that: the flow at which an element is said to take its drop. */
function through(network: Network, { positions, demands, pumps }: Running, part: Id, isShare: boolean): number {
    const linedUp = running(network, positions);
    const consumers = [...demands].filter(([id]) => partsBefore(linedUp, `${id}:in`).has(part)).map(([id, demand]) => drawnThrough(linedUp, id, demand, part));
    const moved = [...pumps].filter(([id]) => (partsBefore(linedUp, `${id}:in`).has(part) || partsAfter(linedUp, `${id}:out`).has(part))).map(([, flow]) => flow);
    const flow = [...consumers, ...moved].reduce((sum, value) => sum + value, 0);
    return flow > 0 ? flow / (isShare ? 1 + besides(linedUp, part) : 1) : NEXT_TO_NOTHING.at;
}

/** The other filters that share a flow with one, each on a way of its own from where the line divides; they count as taking as much each. */
function besides(linedUp: LinedUp, part: Id): number {
    const before = partsBefore(linedUp, `${part}:in`);
    const beside = [...linedUp.network.parts.values()].filter(({ id, kind }) => kind === 'filter' && id !== part && !follows(linedUp, part, id) && !follows(linedUp, id, part)).map(({ id }) => id)
        .filter((id) => [...partsBefore(linedUp, `${id}:in`)].some((other) => before.has(other)) && meets(linedUp, part, id));
    return beside.filter((id) => !beside.some((other) => other !== id && follows(linedUp, other, id))).length;
}

/** Whether the ways on from two parts come together again: a branch to another consumer divides the flow for good. */
function meets(linedUp: LinedUp, part: Id, other: Id): boolean {
    return [...linedUp.network.consumers.keys()].some((id) => { const before = partsBefore(linedUp, `${id}:in`); return before.has(part) && before.has(other); });
}

/** Where a point stands; looked up once for a network. */
export function placeOf(network: Network, point: string): Place | undefined {
    const answers = placesKnown.get(network) ?? new Map<string, Place | undefined>();
    placesKnown.set(network, answers);
    if (!answers.has(point)) answers.set(point, pointPlace(network, point) ?? endPlace(network, point));
    return answers.get(point);
}

const placesKnown = new WeakMap<Network, Map<string, Place | undefined>>();
