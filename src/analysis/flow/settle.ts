/**
 * Flows and heads that suit one another, by the global gradient method (Todini and Pilati 1988): Newton's, on flows and heads at once.
 * The flows are those of the least content (the sum of each link's head over its flow), which is convex; so each step goes along its
 * direction no further than where the content is least. Checks need no cases then: backwards they are only very steep.
 */
import { roomFor, takenBy, type Law, type Taken } from './law';
import { meshOf, type Mesh } from './star-mesh';

/** Node numbers at its ends. */
export interface Strand {
    readonly from: number;
    readonly to: number;
    readonly law: Law;
}

export interface Settled {
    readonly heads: Float64Array;
    readonly flows: Float64Array;
    readonly steps: number;
    /** The head between the ends of every link is what its flow takes, as closely as asked. */
    readonly done: boolean;
}

/** Of the greater head at the link's ends, or of one metre. At the seat of a check the last digits are lost; the step after it makes the rest far closer. */
const CLOSE = 1e-8;

/** What strands join, worked out once for all that is asked of them. */
export interface Layout {
    readonly strands: readonly Strand[];
    readonly fixed: readonly (number | undefined)[];
    /** Rows of the nodes whose head is sought; -1 where it is fixed, or nothing is joined. */
    readonly rowOf: Int32Array;
    readonly nodes: readonly number[];
    /** The strands between two such nodes. */
    readonly inner: readonly number[];
    readonly mesh: Mesh;
}

/** `fixed` has the head of each node that has one, m. */
export function layoutOf(fixed: readonly (number | undefined)[], strands: readonly Strand[]): Layout {
    const rowOf = new Int32Array(fixed.length).fill(-1);
    const nodes: number[] = [];
    for (const { from, to } of strands) for (const node of [from, to]) if (fixed[node] === undefined && rowOf[node]! < 0) rowOf[node] = nodes.push(node) - 1;
    const inner: number[] = [];
    const pairs: (readonly [number, number])[] = [];
    strands.forEach(({ from, to }, i) => { if (rowOf[from]! >= 0 && rowOf[to]! >= 0) { inner.push(i); pairs.push([rowOf[from]!, rowOf[to]!]); } });
    return { strands, fixed, rowOf, nodes, inner, mesh: meshOf(nodes.length, pairs) };
}

/** A head of nought is given to a tied node by so easy a way, m³/s for each m, that what passes it is all that is over there. */
const TIE = 1;

/**
 * `drawn` is what each node gives away, m³/s; `first` the flows to begin with; strands that are `out` pass nothing. Every node must be joined to a
 * fixed head or to one of those in `tied`, by strands that are not out.
 */
export function settle({ strands, fixed, rowOf, nodes, inner, mesh }: Layout, drawn: Float64Array, first: Float64Array, out: Uint8Array, tied: Iterable<number>): Settled {
    const count = strands.length;
    const heads = Float64Array.from(fixed, (head) => head ?? 0);
    const laws = strands.map(({ law }) => law);
    const ties = [...tied].map((node) => rowOf[node]!).filter((row) => row >= 0);

    const begun = Float64Array.from(first, (flow, i) => (out[i] === 1 ? 0 : flow));
    let { flows, taken }: Along = { flows: begun, taken: takenBy(laws, begun, roomFor(count), out), slope: 0 };
    // Three rooms suffice: where it stands, the end of the step, and a place between.
    const rooms = Array.from({ length: 3 }, () => ({ flows: new Float64Array(count), taken: roomFor(count) }));
    const [still, change, eases, between] = [new Float64Array(count), new Float64Array(count), new Float64Array(count), new Float64Array(inner.length)];
    const [ground, given] = [new Float64Array(nodes.length), new Float64Array(nodes.length)];
    const limit = 100 + 4 * strands.filter(({ law }) => law.opens !== undefined).length;
    for (let steps = 1; steps <= limit; steps++) {
        // Each link as a straight line: what it would pass without a head between its ends, and so much more for each metre.
        ground.fill(0);
        for (const row of ties) ground[row] = TIE;
        nodes.forEach((node, row) => { given[row] = -drawn[node]!; });
        for (let i = 0; i < count; i++) {
            const { from, to } = strands[i]!;
            const ease = 1 / taken.slopes[i]!;
            eases[i] = ease;
            still[i] = flows[i]! - taken.heads[i]! * ease;
            const [a, b] = [rowOf[from]!, rowOf[to]!];
            if (a >= 0) { given[a]! -= still[i]!; if (b < 0) { ground[a]! += ease; given[a]! += ease * heads[to]!; } }
            if (b >= 0) { given[b]! += still[i]!; if (a < 0) { ground[b]! += ease; given[b]! += ease * heads[from]!; } }
        }
        for (let at = 0; at < inner.length; at++) between[at] = eases[inner[at]!]!;
        const solved = mesh.heads(between, ground, given);
        for (let row = 0; row < nodes.length; row++) heads[nodes[row]!] = solved[row]!;

        // The slope of the content along the step, at its begin.
        let [off, begin] = [0, 0];
        for (let i = 0; i < count; i++) {
            if (out[i] === 1) continue;
            const { from, to } = strands[i]!;
            const head = heads[from]! - heads[to]!;
            change[i] = still[i]! + eases[i]! * head - flows[i]!;
            const short = taken.heads[i]! - head;
            begin += short * change[i]!;
            off = Math.max(off, Math.abs(short) / Math.max(1, Math.abs(heads[from]!), Math.abs(heads[to]!)));
        }
        if (!Number.isFinite(off) || !heads.every(Number.isFinite)) return { heads, flows, steps, done: false };
        const at = (part: number, kept?: Along): Along => {
            const { flows: there, taken: heres } = rooms.find((room) => room.flows !== flows && room.flows !== kept?.flows)!;
            for (let i = 0; i < count; i++) there[i] = flows[i]! + part * change[i]!;
            takenBy(laws, there, heres, out);
            let slope = 0;
            for (let i = 0; i < count; i++) if (out[i] === 0) { const { from, to } = strands[i]!; slope += (heres.heads[i]! - (heads[from]! - heads[to]!)) * change[i]!; }
            return { flows: there, taken: heres, slope };
        };
        // The first flows do not balance at the nodes; the first step makes them do so, and must be whole.
        ({ flows, taken } = steps === 1 || off <= CLOSE ? at(1) : stepAlong(begin, at));
        if (steps > 1 && off <= CLOSE) return { heads, flows, steps, done: true };
    }
    return { heads, flows, steps: limit, done: false };
}

interface Along {
    readonly flows: Float64Array;
    readonly taken: Taken;
    /** Of the content along the step. */
    readonly slope: number;
}

/** How much of a step to take: all of it, unless the slope of the content, which only rises along it, is steep again at its end. Then to where it is about level. */
function stepAlong(begin: number, at: (part: number, kept?: Along) => Along): Along {
    let end = at(1);
    if (!(end.slope > 0.5 * Math.abs(begin))) return end;
    let [low, high, below] = [0, 1, begin];
    for (let i = 0; i < 60; i++) {
        // By the chord, and by halves in turn where one end stays: checks make it bend sharply.
        const part = i % 2 === 0 ? low + (high - low) * below / (below - end.slope) : (low + high) / 2;
        const here = at(part, end);
        if (Math.abs(here.slope) <= 0.1 * Math.abs(begin)) return here;
        if (here.slope < 0) [low, below] = [part, here.slope]; else [high, end] = [part, here];
    }
    return end;
}
