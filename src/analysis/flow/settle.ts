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

/** A node that hangs on one strand alone, once those that hang on it are taken off: what it draws must come by that strand, whatever the heads. */
interface Leaf {
    readonly node: number;
    readonly strand: number;
    /** At the other end. */
    readonly stem: number;
}

/** What strands join, worked out once for all that is asked of them. */
export interface Layout {
    readonly strands: readonly Strand[];
    readonly fixed: readonly (number | undefined)[];
    /** The outermost first. Most of a boat's lines are such; only what is left is settled step by step. */
    readonly leaves: readonly Leaf[];
    /** The strands that are left. */
    readonly core: readonly number[];
    /** Rows of the nodes of the core whose head is sought; -1 for all others. */
    readonly rowOf: Int32Array;
    readonly nodes: readonly number[];
    /** Of the core, by their place in it, the strands between two such nodes. */
    readonly inner: readonly number[];
    readonly mesh: Mesh;
}

/** `fixed` has the head of each node that has one, m. */
export function layoutOf(fixed: readonly (number | undefined)[], strands: readonly Strand[]): Layout {
    const { leaves, isLeaf } = leavesOf(fixed, strands);
    const rowOf = new Int32Array(fixed.length).fill(-1);
    const nodes: number[] = [];
    const [core, inner]: [number[], number[]] = [[], []];
    const pairs: (readonly [number, number])[] = [];
    for (let i = 0; i < strands.length; i++) {
        if (isLeaf[i] === 1) continue;
        const { from, to } = strands[i]!;
        if (fixed[from] === undefined && rowOf[from]! < 0) rowOf[from] = nodes.push(from) - 1;
        if (fixed[to] === undefined && rowOf[to]! < 0) rowOf[to] = nodes.push(to) - 1;
        if (rowOf[from]! >= 0 && rowOf[to]! >= 0) { inner.push(core.length); pairs.push([rowOf[from]!, rowOf[to]!]); }
        core.push(i);
    }
    return { strands, fixed, leaves, core, rowOf, nodes, inner, mesh: meshOf(nodes.length, pairs) };
}

/** A check or a pump stays in the core: whether it passes anything depends on the heads. */
function leavesOf(fixed: readonly (number | undefined)[], strands: readonly Strand[]): { leaves: readonly Leaf[]; isLeaf: Uint8Array } {
    // Of a node with one strand left, the sum of what was there less what was taken off is that strand.
    const [degree, sum] = [new Int32Array(fixed.length), new Float64Array(fixed.length)];
    strands.forEach(({ from, to }, i) => { degree[from]!++; degree[to]!++; sum[from]! += i; sum[to]! += i; });
    const isLeaf = new Uint8Array(strands.length);
    const leaves: Leaf[] = [];
    for (let start = 0; start < fixed.length; start++) {
        for (let node = start; degree[node] === 1 && fixed[node] === undefined;) {
            const strand = sum[node]!;
            const { from, to, law } = strands[strand]!;
            if (law.opens !== undefined) break;
            const stem = from === node ? to : from;
            isLeaf[strand] = 1;
            leaves.push({ node, strand, stem });
            degree[node] = 0;
            degree[stem]!--;
            sum[stem]! -= strand;
            // Those that were passed while they still had more are taken up from here.
            node = stem;
        }
    }
    return { leaves, isLeaf };
}

/** A head of nought is given to a tied node by so easy a way, m³/s for each m, that what passes it is all that is over there. */
const TIE = 1;

/**
 * `drawn` is what each node gives away, m³/s; `first` the flows to begin with; strands that are `out` pass nothing. Every node must be joined to a
 * fixed head or to one of those in `tied`, by strands that are not out.
 */
export function settle(layout: Layout, drawn: Float64Array, first: Float64Array, out: Uint8Array, tied: readonly number[]): Settled {
    const { strands, fixed, leaves } = layout;
    const own = drawn.slice();
    const flows = new Float64Array(strands.length);
    for (const { node, strand, stem } of leaves) {
        if (out[strand] === 1) continue;
        flows[strand] = strands[strand]!.to === node ? own[node]! : -own[node]!;
        own[stem]! += own[node]!;
    }
    // What hangs on a leaf is tied where its stem begins.
    const stems = new Map(tied.length === 0 ? [] : leaves.map(({ node, stem }) => [node, stem]));
    const rootOf = (node: number): number => { let at = node; for (let next = stems.get(at); next !== undefined; next = stems.get(at)) at = next; return at; };
    const settled = settleCore(layout, own, first, out, tied.map(rootOf));
    layout.core.forEach((strand, i) => { flows[strand] = settled.flows[i]!; });
    const { heads } = settled;
    const law: Law[] = leaves.map(({ strand }) => strands[strand]!.law);
    const { heads: lost } = takenBy(law, floats(leaves.length, (i) => flows[leaves[i]!.strand]!), roomFor(leaves.length));
    for (let i = leaves.length - 1; i >= 0; i--) {
        const { node, strand, stem } = leaves[i]!;
        if (fixed[node] === undefined) heads[node] = heads[stem]! + (strands[strand]!.to === node ? -lost[i]! : lost[i]!);
    }
    return { ...settled, flows, done: settled.done && heads.every(Number.isFinite) };
}

/** By a loop: most circuits are small, and `Float64Array.from` takes longer than what is done with them. */
export function floats(count: number, of: (i: number) => number): Float64Array {
    const found = new Float64Array(count);
    for (let i = 0; i < count; i++) found[i] = of(i);
    return found;
}

/** The core alone; its flows in its own order. */
function settleCore({ strands, fixed, core, rowOf, nodes, inner, mesh }: Layout, drawn: Float64Array, first: Float64Array, isOut: Uint8Array, tied: readonly number[]): Settled {
    const count = core.length;
    const heads = floats(fixed.length, (i) => fixed[i] ?? 0);
    if (count === 0) return { heads, flows: new Float64Array(0), steps: 0, done: true };
    const laws = core.map((i) => strands[i]!.law);
    const [out, fromOf, toOf] = [new Uint8Array(count), new Int32Array(count), new Int32Array(count)];
    for (let i = 0; i < count; i++) { const strand = core[i]!; out[i] = isOut[strand]!; fromOf[i] = strands[strand]!.from; toOf[i] = strands[strand]!.to; }
    const ties = tied.map((node) => rowOf[node]!).filter((row) => row >= 0);

    const begun = floats(count, (i) => (out[i] === 1 ? 0 : first[core[i]!]!));
    let { flows, taken }: Along = { flows: begun, taken: takenBy(laws, begun, roomFor(count), out), slope: 0 };
    // Three rooms suffice: where it stands, the end of the step, and a place between.
    const rooms = Array.from({ length: 3 }, () => ({ flows: new Float64Array(count), taken: roomFor(count) }));
    const [still, change, eases, between] = [new Float64Array(count), new Float64Array(count), new Float64Array(count), new Float64Array(inner.length)];
    const [ground, given] = [new Float64Array(nodes.length), new Float64Array(nodes.length)];
    const limit = 100 + 4 * laws.filter(({ opens }) => opens !== undefined).length;
    for (let steps = 1; steps <= limit; steps++) {
        // Each link as a straight line: what it would pass without a head between its ends, and so much more for each metre.
        ground.fill(0);
        for (const row of ties) ground[row] = TIE;
        for (let row = 0; row < nodes.length; row++) given[row] = -drawn[nodes[row]!]!;
        for (let i = 0; i < count; i++) {
            const [from, to] = [fromOf[i]!, toOf[i]!];
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
            const [before, after] = [heads[fromOf[i]!]!, heads[toOf[i]!]!];
            change[i] = still[i]! + eases[i]! * (before - after) - flows[i]!;
            const short = taken.heads[i]! - (before - after);
            begin += short * change[i]!;
            const share = Math.abs(short) / Math.max(1, Math.abs(before), Math.abs(after));
            // A figure that is none must not be passed over.
            if (!(share <= off)) off = share;
        }
        if (!Number.isFinite(off)) return { heads, flows, steps, done: false };
        const at = (part: number, kept?: Along): Along => {
            const { flows: there, taken: heres } = rooms.find((room) => room.flows !== flows && room.flows !== kept?.flows)!;
            for (let i = 0; i < count; i++) there[i] = flows[i]! + part * change[i]!;
            takenBy(laws, there, heres, out);
            let slope = 0;
            for (let i = 0; i < count; i++) if (out[i] === 0) slope += (heres.heads[i]! - (heads[fromOf[i]!]! - heads[toOf[i]!]!)) * change[i]!;
            return { flows: there, taken: heres, slope };
        };
        if (off <= CLOSE) return { heads, flows: at(1).flows, steps, done: true };
        // The first flows do not balance at the nodes; the first step makes them do so, and must be whole.
        ({ flows, taken } = steps === 1 ? at(1) : stepAlong(begin, at));
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
