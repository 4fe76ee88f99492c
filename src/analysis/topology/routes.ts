/**
 * Which passages lie on some way from the starts to the ends that meets no point twice. A stub beside the way can be
 * entered and left again, but no liquid flows through it; plain reachability cannot tell the two apart.
 *
 * A passage lies on such a way when, with one edge added between start and end, it is in the same two-connected block as
 * that edge (Hopcroft and Tarjan 1973, biconnected components).
 */
import { NONE, reach, type LinedUp } from './network';

export function routes(linedUp: LinedUp, starts: Iterable<number>, ends: Iterable<number>, without: ReadonlySet<number> = NONE): ReadonlySet<number> {
    const { network, ways, back } = linedUp;
    const [from, to] = [new Set(starts), new Set(ends)];
    const forward = reach(linedUp, ways, from, without);
    const backward = reach(linedUp, back, to, without);
    const usable = new Set<number>();
    const edges: { a: number; b: number; passage: number }[] = [];
    ways.forEach((list, at) => {
        if (!forward.has(at)) return;
        for (const { to: next, passage } of list) {
            if (without.has(passage) || !backward.has(next) || usable.has(passage)) continue;
            usable.add(passage);
            edges.push({ a: at, b: next, passage });
        }
    });
    const [source, target] = [network.points.length, network.points.length + 1];
    for (const point of from) edges.push({ a: source, b: point, passage: -1 });
    for (const point of to) edges.push({ a: point, b: target, passage: -1 });
    edges.push({ a: source, b: target, passage: -2 });
    return blockOf(edges, network.points.length + 2, source);
}

/** The passages in the block of the edge marked -2. Iterative, so that a long line cannot exhaust the stack. */
function blockOf(edges: readonly { a: number; b: number; passage: number }[], points: number, root: number): ReadonlySet<number> {
    const incident: number[][] = Array.from({ length: points }, () => []);
    edges.forEach(({ a, b }, i) => { incident[a]!.push(i); incident[b]!.push(i); });
    const order = new Array<number>(points).fill(-1);
    const low = new Array<number>(points).fill(0);
    const stack: number[] = [];
    const walk: { at: number; by: number; next: number }[] = [{ at: root, by: -1, next: 0 }];
    let count = 0;
    order[root] = low[root] = count++;
    while (walk.length > 0) {
        const frame = walk.at(-1)!;
        const edge = incident[frame.at]![frame.next++];
        if (edge !== undefined) {
            if (edge === frame.by) continue;
            const { a, b } = edges[edge]!;
            const other = a === frame.at ? b : a;
            if (order[other]! < 0) {
                stack.push(edge);
                order[other] = low[other] = count++;
                walk.push({ at: other, by: edge, next: 0 });
            } else if (order[other]! < order[frame.at]!) {
                stack.push(edge);
                low[frame.at] = Math.min(low[frame.at]!, order[other]!);
            }
            continue;
        }
        walk.pop();
        const parent = walk.at(-1);
        if (!parent) break;
        low[parent.at] = Math.min(low[parent.at]!, low[frame.at]!);
        if (low[frame.at]! < order[parent.at]!) continue;
        const block = stack.splice(stack.lastIndexOf(frame.by)).map((i) => edges[i]!.passage);
        if (block.includes(-2)) return new Set(block.filter((passage) => passage >= 0));
    }
    return new Set();
}
