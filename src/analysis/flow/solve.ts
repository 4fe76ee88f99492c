/**
 * Steady flow in any network of nodes and links: the flow in each link, the head and the gauge pressure at each node. The liquid fills
 * everything, does not boil and takes no air; whether that holds is for who asks to judge by the pressures. Deterministic, never throws.
 */
import { faultsOf, type Circuit, type Fault, type FlowLink } from './circuit';
import { lawOf, roomFor, takenBy } from './law';
import { GRAVITY, areaOf, reynolds } from './pipe';
import { floats, layoutOf, settle, type Settled, type Strand } from './settle';

/**
 * `converged`: every flow and every head is told. `singular`: every flow is told, but the heads of the parts in `loose` are not, since
 * nothing there has a fixed head. `unbalanced`: no flows satisfy everything; where `loose` has a part with something over, what is
 * imposed there has no way and the rest is told without it; without such a part no answer was found and none is told. `unusable`: see `faults`; nothing is told.
 */
export type Status = 'converged' | 'singular' | 'unbalanced' | 'unusable';

export interface Solution {
    readonly status: Status;
    readonly faults: readonly Fault[];
    /** Parts without a fixed head, cut off by closed links, shut checks or pumps that hold. */
    readonly loose: readonly Loose[];
    readonly nodes: ReadonlyMap<string, NodeResult>;
    readonly links: ReadonlyMap<string, LinkResult>;
    readonly ledger: Ledger;
    /** The worst of the links that pass something: the head between its ends less what its flow takes, m. Absent where no answer was found. */
    readonly worstHead?: number;
    readonly steps: number;
}

export interface Loose {
    readonly nodes: readonly string[];
    /** m³/s that are drawn there and cannot come; negative: put in and cannot leave. 0 where all of it balances. */
    readonly over: number;
}

export interface NodeResult {
    /** m; absent where no fixed head settles it. Behind a check or a pump at which nothing flows it is the least that can stand there. */
    readonly head?: number;
    /** Pa above the surroundings, at the node's height. */
    readonly gauge?: number;
    /** What comes less what leaves and is drawn, m³/s; for a fixed head, what it takes in. Absent where the flows are. */
    readonly left?: number;
}

export interface LinkResult {
    /** m³/s, positive from `from` to `to`; absent where what is imposed has no way. */
    readonly flow?: number;
    /** m/s and its Reynolds number in the narrowest of the pipes, whichever way it flows. */
    readonly speed?: number;
    readonly reynolds?: number;
    /** The head at `from` less the head at `to`, m. A pump's is negative where it lifts. */
    readonly lost?: number;
    /** A check, or a pump by its curve, that is held shut. */
    readonly shut: boolean;
}

/** All in m³/s. `given` and `taken` are those of the fixed heads, `drawn` and `returned` those imposed; `error` is what is left over of all four. */
export interface Ledger {
    readonly given: number;
    readonly taken: number;
    readonly drawn: number;
    readonly returned: number;
    readonly error: number;
    /** The most that is left at any node without a fixed head. */
    readonly worst: number;
}

const NOTHING: Ledger = { given: 0, taken: 0, drawn: 0, returned: 0, error: 0, worst: 0 };

/** m: by so much less than what would open it a check must be pressed to count as held shut. */
const HELD = 1e-6;

/** Of what is imposed: sums that differ by less are the same. */
const SAME = 1e-9;

interface Piece extends Strand {
    readonly link: FlowLink;
}

export function solve(circuit: Circuit): Solution {
    const faults = faultsOf(circuit);
    if (faults.length > 0) return { status: 'unusable', faults, loose: [], nodes: new Map(), links: new Map(), ledger: NOTHING, steps: 0 };
    const { nodes, links, fluid } = circuit;
    const number = new Map(nodes.map(({ id }, i) => [id, i]));
    const pieces = links.filter(({ closed, pump }) => !closed && !(pump && 'flow' in pump))
        .map((link): Piece => ({ link, from: number.get(link.from)!, to: number.get(link.to)!, law: lawOf(link, fluid) }));

    // What is found to be held shut is taken out, so that nothing leaks; then what is imposed may have no way left. Where it has none, the
    // heads ran away and may have shut off others: those are asked again without that part. Each turn takes out more or is the last.
    const layout = layoutOf(nodes.map(({ head }) => head), pieces);
    const dead = new Map<number, Loose>();
    const firsts = floats(pieces.length, (i) => pieces[i]!.law.first);
    let flows: Float64Array = firsts;
    for (let shut = new Set<Piece>(), steps = 0; ;) {
        const drawn = drawnAt(circuit, number, dead);
        const out = new Uint8Array(pieces.length);
        pieces.forEach((piece, i) => { if (dead.has(piece.from) || dead.has(piece.to) || shut.has(piece)) out[i] = 1; });
        const live = pieces.filter((_, i) => out[i] === 0);
        const loose = looseParts(circuit, live, dead, drawn);
        const over = loose.filter((part) => part.over !== 0);
        if (over.length > 0) {
            const certain = over.filter((part) => !hasWay(circuit, pieces, number, dead, drawn, part));
            for (const part of certain.length > 0 ? certain : over) for (const id of part.nodes) dead.set(number.get(id)!, part);
            flows = firsts;
            shut = new Set();
            continue;
        }
        // Heads of a part that has none fixed are reckoned from its first node, and not told.
        const settled = settle(layout, drawn, flows, out, [...loose.map((part) => number.get(part.nodes[0]!)!), ...dead.keys()]);
        steps += settled.steps;
        flows = settled.flows;
        const held = settled.done ? live.filter((piece) => pressed(piece, settled) > HELD) : [];
        if (held.length === 0) return told(circuit, number, { live, shut, loose, dead, settled: { ...settled, steps, flows: flows.filter((_, i) => out[i] === 0) } });
        for (const piece of held) shut.add(piece);
    }
}

/** The head that presses a check or a pump shut, m; negative where it opens it. */
const pressed = ({ from, to, law }: Piece, { heads }: Settled): number => law.opens === undefined ? -Infinity : law.opens - (heads[from]! - heads[to]!);

/** What each node gives away: to consumers, and to pumps that move what is imposed. A pump with a dead end moves nothing. */
function drawnAt({ nodes, links }: Circuit, number: ReadonlyMap<string, number>, dead: ReadonlyMap<number, Loose>): Float64Array {
    const drawn = floats(nodes.length, (i) => nodes[i]!.drawn ?? 0);
    for (const { from, to, flow } of imposed(links)) {
        const [a, b] = [number.get(from)!, number.get(to)!];
        if (dead.has(a) || dead.has(b)) continue;
        drawn[a]! += flow;
        drawn[b]! -= flow;
    }
    return drawn;
}

const imposed = (links: readonly FlowLink[]): readonly { id: string; from: string; to: string; flow: number }[] =>
    links.flatMap(({ id, from, to, closed, pump }) => !closed && pump && 'flow' in pump ? [{ id, from, to, flow: pump.flow }] : []);

/** The parts that no fixed head is joined to, in the order of the nodes; without those that are dead. */
function looseParts({ nodes }: Circuit, pieces: readonly Piece[], dead: ReadonlyMap<number, Loose>, drawn: Float64Array): readonly Loose[] {
    // The first node of each part stands for it.
    const roots = new Int32Array(nodes.length);
    for (let i = 0; i < roots.length; i++) roots[i] = i;
    const rootOf = (node: number): number => {
        let at = node;
        while (roots[at] !== at) { roots[at] = roots[roots[at]!]!; at = roots[at]!; }
        return at;
    };
    for (const { from, to } of pieces) { const [a, b] = [rootOf(from), rootOf(to)]; if (a < b) roots[b] = a; else roots[a] = b; }
    const isHeld = new Uint8Array(nodes.length);
    nodes.forEach(({ head }, i) => { if (head !== undefined) isHeld[rootOf(i)] = 1; });
    const parts = new Map<number, number[]>();
    for (let i = 0; i < nodes.length; i++) {
        const root = rootOf(i);
        if (isHeld[root] === 1 || dead.has(i)) continue;
        const part = parts.get(root);
        if (part) part.push(i); else parts.set(root, [i]);
    }
    return [...parts.values()].map((part) => {
        let [sum, size] = [0, 0];
        for (const node of part) { sum += drawn[node]!; size += Math.abs(drawn[node]!); }
        return { nodes: part.map((node) => nodes[node]!.id), over: Math.abs(sum) > SAME * size ? sum : 0 };
    });
}

/** Whether what is over in a part could come from, or leave to, a fixed head or enough of the opposite, with every check and pump passed its own way. */
function hasWay({ nodes }: Circuit, pieces: readonly Piece[], number: ReadonlyMap<string, number>, dead: ReadonlyMap<number, Loose>, drawn: Float64Array, part: Loose): boolean {
    const beyond = nodes.map((): number[] => []);
    for (const { from, to, law } of pieces) {
        // What is missing is sought against the way the liquid comes.
        const [near, far] = part.over > 0 ? [to, from] : [from, to];
        beyond[near]!.push(far);
        if (law.opens === undefined) beyond[far]!.push(near);
    }
    const reached = new Set(part.nodes.map((id) => number.get(id)!));
    let over = 0;
    for (const node of reached) {
        if (nodes[node]!.head !== undefined) return true;
        over += drawn[node]!;
        for (const other of beyond[node]!) if (!dead.has(other)) reached.add(other);
    }
    return part.over > 0 ? over <= 0 : over >= 0;
}

interface Found {
    readonly live: readonly Piece[];
    readonly shut: ReadonlySet<Piece>;
    readonly loose: readonly Loose[];
    readonly dead: ReadonlyMap<number, Loose>;
    readonly settled: Settled;
}

function told({ nodes, links, fluid }: Circuit, number: ReadonlyMap<string, number>, { live, shut, loose, dead, settled }: Found): Solution {
    const untold = new Set(loose.flatMap((part) => part.nodes));
    const isTold = (id: string): boolean => !untold.has(id) && !dead.has(number.get(id)!);
    // One that was taken out as shut and would now open: no answer. Only heads beyond all sense could do so.
    const isDone = settled.done && ![...shut].some((piece) => isTold(piece.link.from) && isTold(piece.link.to) && pressed(piece, settled) < -HELD);
    const isDead = ({ from, to }: { from: string; to: string }): boolean => dead.has(number.get(from)!) || dead.has(number.get(to)!);

    const flows = new Map<string, number>(links.filter(({ closed }) => closed).map(({ id }) => [id, 0]));
    for (const pump of imposed(links)) if (!isDead(pump)) flows.set(pump.id, pump.flow);
    let worstHead = 0;
    const taken = takenBy(live.map(({ law }) => law), settled.flows, roomFor(live.length));
    live.forEach(({ link, from, to, law }, i) => {
        // What is left to leak back through a check that is pressed by next to nothing is none, and it takes whatever holds it.
        const leaks = law.opens !== undefined && settled.flows[i]! < 0;
        if (isDone) flows.set(link.id, leaks ? 0 : settled.flows[i]!);
        const head = leaks ? law.opens : taken.heads[i]!;
        worstHead = Math.max(worstHead, Math.abs(settled.heads[from]! - settled.heads[to]! - head));
    });
    if (isDone) for (const { link, from, to } of shut) if (!dead.has(from) && !dead.has(to)) flows.set(link.id, 0);

    const comes = new Float64Array(nodes.length);
    for (const { id, from, to } of links) {
        const flow = flows.get(id) ?? 0;
        comes[number.get(from)!]! -= flow;
        comes[number.get(to)!]! += flow;
    }
    const ledger = { given: 0, taken: 0, drawn: 0, returned: 0, worst: 0 };
    const nodeResults = new Map<string, NodeResult>();
    nodes.forEach(({ id, up, head: fixed, drawn = 0 }, i) => {
        const result: { -readonly [K in keyof NodeResult]: NodeResult[K] } = {};
        nodeResults.set(id, result);
        if (dead.has(i) || !isDone) return;
        const left = comes[i]! - (fixed === undefined ? drawn : 0);
        if (fixed !== undefined) ledger[left < 0 ? 'given' : 'taken'] += Math.abs(left);
        else { ledger[drawn > 0 ? 'drawn' : 'returned'] += Math.abs(drawn); ledger.worst = Math.max(ledger.worst, Math.abs(left)); }
        result.left = left;
        if (untold.has(id)) return;
        const head = settled.heads[i]!;
        result.head = head;
        result.gauge = (head - up) * fluid.density * GRAVITY;
    });
    const shutLinks = new Set([...shut].map(({ link }) => link));
    const linkResults = new Map<string, LinkResult>();
    for (const link of links) {
        const result: { -readonly [K in keyof LinkResult]: LinkResult[K] } = { shut: isDone && shutLinks.has(link) };
        linkResults.set(link.id, result);
        const [flow, before, after] = [flows.get(link.id), nodeResults.get(link.from)!.head, nodeResults.get(link.to)!.head];
        if (before !== undefined && after !== undefined) result.lost = before - after;
        if (flow === undefined) continue;
        result.flow = flow;
        let narrowest = Infinity;
        for (const { bore } of link.pipes ?? []) narrowest = Math.min(narrowest, bore);
        if (!(narrowest > 0 && narrowest < Infinity)) continue;
        result.speed = Math.abs(flow) / areaOf(narrowest);
        result.reynolds = reynolds(result.speed, narrowest, fluid.viscosity);
    }
    const cut = [...new Set(dead.values()), ...loose];
    return {
        status: !isDone || dead.size > 0 ? 'unbalanced' : cut.length > 0 ? 'singular' : 'converged',
        faults: [], loose: cut, nodes: nodeResults, links: linkResults,
        ledger: { ...ledger, error: ledger.given + ledger.returned - ledger.taken - ledger.drawn },
        ...(isDone ? { worstHead } : {}), steps: settled.steps,
    };
}
