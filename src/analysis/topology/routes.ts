/**
 * Which passages lie on some way from the starts to the ends that meets no point twice. A stub beside the way can be
 * entered and left again, but no liquid flows through it; plain reachability cannot tell the two apart.
 *
 * A passage lies on such a way when, with one edge added between start and end, it is in the same two-connected block as
 * that edge (Hopcroft and Tarjan 1973, biconnected components).
 */
import { NONE, reach, type LinedUp, type Reached } from './network';

export function routes(linedUp: LinedUp, starts: Iterable<number>, ends: Iterable<number>, without: ReadonlySet<number> = NONE): ReadonlySet<number> {
    const { network, ways, back } = linedUp;
    const [first, last] = [[...new Set(starts)], [...new Set(ends)]];
    // From the fewer of the two, so that of a boat with many tanks only the lines of this one are walked.
    let forward: Reached;
    let backward: Reached;
    if (first.length <= last.length) {
        forward = reach(linedUp, ways, first, without);
        backward = reach(linedUp, back, last.filter((point) => forward.has(point)), without);
    } else {
        backward = reach(linedUp, back, last, without);
        forward = reach(linedUp, ways, first.filter((point) => backward.has(point)), without);
    }
    const usable = new Set<number>();
    const edges: Edge[] = [];
    for (const at of [...forward].sort((a, b) => a - b)) {
        for (const { to: next, passage } of ways[at]!) {
            if (without.has(passage) || !backward.has(next) || usable.has(passage)) continue;
            usable.add(passage);
            edges.push({ a: at, b: next, passage });
        }
    }
    const [source, target] = [network.points.length, network.points.length + 1];
    for (const point of first) if (forward.has(point) && backward.has(point)) edges.push({ a: source, b: point, passage: -1 });
    for (const point of last) if (forward.has(point) && backward.has(point)) edges.push({ a: point, b: target, passage: -1 });
    edges.push({ a: source, b: target, passage: -2 });
    return blockOf(edges, source);
}

interface Edge {
    readonly a: number;
    readonly b: number;
    readonly passage: number;
}

/** The passages in the block of the edge marked -2. Iterative, so that a long line cannot exhaust the stack. */
function blockOf(edges: readonly Edge[], root: number): ReadonlySet<number> {
    const incident = new Map<number, number[]>();
    const touch = (point: number, edge: number): void => { const known = incident.get(point); if (known) known.push(edge); else incident.set(point, [edge]); };
    edges.forEach(({ a, b }, i) => { touch(a, i); touch(b, i); });
    const order = new Map<number, number>();
    const low = new Map<number, number>();
    const enter = (point: number): void => { low.set(point, order.size); order.set(point, order.size); };
    const stack: number[] = [];
    const walk: { at: number; by: number; next: number }[] = [{ at: root, by: -1, next: 0 }];
    enter(root);
    while (walk.length > 0) {
        const frame = walk.at(-1)!;
        const edge = incident.get(frame.at)![frame.next++];
        if (edge !== undefined) {
            if (edge === frame.by) continue;
            const { a, b } = edges[edge]!;
            const other = a === frame.at ? b : a;
            const met = order.get(other);
            if (met === undefined) {
                stack.push(edge);
                enter(other);
                walk.push({ at: other, by: edge, next: 0 });
            } else if (met < order.get(frame.at)!) {
                stack.push(edge);
                low.set(frame.at, Math.min(low.get(frame.at)!, met));
            }
            continue;
        }
        walk.pop();
        const parent = walk.at(-1);
        if (!parent) break;
        low.set(parent.at, Math.min(low.get(parent.at)!, low.get(frame.at)!));
        if (low.get(frame.at)! < order.get(parent.at)!) continue;
        const block = stack.splice(stack.lastIndexOf(frame.by)).map((i) => edges[i]!.passage);
        if (block.includes(-2)) return new Set(block.filter((passage) => passage >= 0));
    }
    return new Set();
}
