/**
 * Flows and heads that suit one another, by the global gradient method (Todini and Pilati 1988): Newton's, on flows and heads at once.
 * The flows are those of the least content (the sum of each link's head over its flow), which is convex; so each step goes along its
 * direction no further than where the content is least. Checks need no cases then: backwards they are only very steep.
 */
import type { Law } from './law';
import { meshOf } from './star-mesh';

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

/**
 * `fixed` has the head of each node that has one; `drawn` what each gives away, m³/s; `first` the flows to begin with. Every strand must
 * be joined to a fixed head.
 */
export function settle(fixed: readonly (number | undefined)[], drawn: Float64Array, strands: readonly Strand[], first: readonly number[]): Settled {
    const heads = Float64Array.from(fixed, (head) => head ?? 0);
    let flows = Float64Array.from(first);
    const rows = new Map<number, number>();
    for (const { from, to } of strands) for (const node of [from, to]) if (fixed[node] === undefined && !rows.has(node)) rows.set(node, rows.size);
    const inner = strands.flatMap(({ from, to }, i) => rows.has(from) && rows.has(to) ? [{ i, pair: [rows.get(from)!, rows.get(to)!] as const }] : []);
    const mesh = meshOf(rows.size, inner.map(({ pair }) => pair));
    const between = (i: number): number => heads[strands[i]!.from]! - heads[strands[i]!.to]!;

    const limit = 100 + 4 * strands.filter(({ law }) => law.opens !== undefined).length;
    for (let steps = 1; steps <= limit; steps++) {
        const taken = flows.map((flow, i) => strands[i]!.law.at(flow));
        const eases = flows.map((flow, i) => 1 / strands[i]!.law.slope(flow));
        // Each link as a straight line: what it would pass without a head between its ends, and so much more for each metre.
        const still = flows.map((flow, i) => flow - taken[i]! * eases[i]!);
        const [ground, given] = [new Float64Array(rows.size), new Float64Array(rows.size)];
        for (const [node, row] of rows) given[row]! -= drawn[node]!;
        strands.forEach(({ from, to }, i) => {
            for (const [node, other, sign] of [[from, to, -1], [to, from, 1]] as const) {
                const row = rows.get(node);
                if (row === undefined) continue;
                given[row]! += sign * still[i]!;
                if (fixed[other] !== undefined) { ground[row]! += eases[i]!; given[row]! += eases[i]! * heads[other]!; }
            }
        });
        const solved = mesh.heads(Float64Array.from(inner, ({ i }) => eases[i]!), ground, given);
        for (const [node, row] of rows) heads[node] = solved[row]!;

        const change = flows.map((flow, i) => still[i]! + eases[i]! * between(i) - flow);
        const off = taken.reduce((most, head, i) => {
            const { from, to } = strands[i]!;
            return Math.max(most, Math.abs(between(i) - head) / Math.max(1, Math.abs(heads[from]!), Math.abs(heads[to]!)));
        }, 0);
        if (!heads.every(Number.isFinite) || !Number.isFinite(off)) return { heads, flows, steps, done: false };
        // The first flows do not balance at the nodes; the first step makes them do so, and must be whole.
        const share = steps === 1 || off <= CLOSE ? 1 : stepAlong((part) => change.reduce(
            (sum, more, i) => sum + (strands[i]!.law.at(flows[i]! + part * more) - between(i)) * more, 0));
        flows = flows.map((flow, i) => flow + share * change[i]!);
        if (steps > 1 && off <= CLOSE) return { heads, flows, steps, done: true };
    }
    return { heads, flows, steps: limit, done: false };
}

/** How much of a step to take: all of it, unless the slope of the content, which only rises along it, is steep again at its end. Then to where it is about level. */
function stepAlong(slope: (part: number) => number): number {
    const begin = slope(0);
    let [low, high, below, above] = [0, 1, begin, slope(1)];
    if (!(above > 0.5 * Math.abs(begin))) return 1;
    for (let i = 0; i < 60; i++) {
        // By the chord, and by halves in turn where one end stays: checks make it bend sharply.
        const part = i % 2 === 0 ? low + (high - low) * below / (below - above) : (low + high) / 2;
        const here = slope(part);
        if (Math.abs(here) <= 0.1 * Math.abs(begin)) return part;
        if (here < 0) [low, below] = [part, here]; else [high, above] = [part, here];
    }
    return high;
}
