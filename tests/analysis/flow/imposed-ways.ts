/** Whether all that is imposed can come and go at all, checks and pumps passed their own way only, however great the heads: by the greatest flow (Edmonds and Karp). */
import type { Circuit } from '../../../src/analysis/flow/circuit';

/** What is returned starts at S, what is drawn ends at E; the tanks (O) may give all that is drawn and take all that is returned. */
export function hasWays({ nodes, links }: Circuit): boolean {
    const room = new Map<string, Map<string, number>>();
    const add = (from: string, to: string, most: number): void => {
        for (const [a, b, value] of [[from, to, most], [to, from, 0]] as const) {
            if (!room.has(a)) room.set(a, new Map());
            room.get(a)!.set(b, (room.get(a)!.get(b) ?? 0) + value);
        }
    };
    const net = new Map(nodes.map(({ id, drawn = 0 }) => [id, drawn]));
    for (const { from, to, closed, check, pump } of links) {
        if (closed) continue;
        if (pump && 'flow' in pump) { net.set(from, net.get(from)! + pump.flow); net.set(to, net.get(to)! - pump.flow); continue; }
        add(from, to, Infinity);
        if (!check && !pump) add(to, from, Infinity);
    }
    let [drawn, returned] = [0, 0];
    for (const { id, head } of nodes) {
        const flow = net.get(id)!;
        if (head !== undefined) { add('O', id, Infinity); add(id, 'O', Infinity); continue; }
        if (flow > 0) { drawn += flow; add(id, 'E', flow); } else if (flow < 0) { returned -= flow; add('S', id, -flow); }
    }
    add('S', 'O', drawn);
    add('O', 'E', returned);
    let left = drawn + returned;
    const little = 1e-9 * left;
    for (;;) {
        const before = new Map<string, string>([['S', '']]);
        for (const [at] of before) for (const [next, value] of room.get(at) ?? []) if (value > little && !before.has(next)) before.set(next, at);
        if (!before.has('E')) return left <= 10 * little;
        let most = Infinity;
        for (let at = 'E'; at !== 'S'; at = before.get(at)!) most = Math.min(most, room.get(before.get(at)!)!.get(at)!);
        for (let at = 'E'; at !== 'S'; at = before.get(at)!) add(before.get(at)!, at, -most), add(at, before.get(at)!, most);
        left -= most;
    }
}
