/**
 * Heads in a network of linear links, by taking out one node after the other: its star becomes a mesh between its neighbours, which is
 * Gauss's elimination without a subtraction. So links may differ by many powers of ten, as an open hose and a shut check do, and a part
 * that hangs on a shut check alone is still solved to the last digits. Nodes with few neighbours go first, which keeps the meshes small.
 */

export interface Mesh {
    /**
     * Heads at which each node passes on what it is given: `between` are the conductances of the pairs, `ground` of each node to a head
     * of zero, `given` what flows into it. Every node must have a way to the ground. Takes the order of time of the links made. The answer
     * holds until the next is asked for.
     */
    heads(between: Float64Array, ground: Float64Array, given: Float64Array): Float64Array;
}

/** From this share of all that are left on, and from so many neighbours on, nodes are taken as joined each to each. */
const CROWDED = 0.6;
const FEW = 8;

/** `pairs` are the ends of the links; a pair may come more than once. */
export function meshOf(size: number, pairs: readonly (readonly [number, number])[]): Mesh {
    if (size === 0) return { heads: () => new Float64Array(0) };
    // Of each node, the nodes beside it and the slots of the links to them. What has been taken out stays in the lists and is passed over.
    const beside = Array.from({ length: size }, (): number[] => []);
    const slotsOf = Array.from({ length: size }, (): number[] => []);
    const degree = new Int32Array(size);
    const done = new Uint8Array(size);
    let count = 0;
    const join = (a: number, b: number): number => {
        beside[a]!.push(b); slotsOf[a]!.push(count); degree[a]!++;
        beside[b]!.push(a); slotsOf[b]!.push(count); degree[b]!++;
        return count++;
    };
    // The slot of the link from one node to each other, as long as `marked` says that it is of this node.
    const [marked, slotTo] = [new Int32Array(size).fill(-1), new Int32Array(size)];
    let mark = -1;
    const look = (a: number): void => {
        mark++;
        const [near, nearSlots] = [beside[a]!, slotsOf[a]!];
        for (let i = 0; i < near.length; i++) { marked[near[i]!] = mark; slotTo[near[i]!] = nearSlots[i]!; }
    };
    const slots = new Int32Array(pairs.length);
    pairs.forEach(([a, b], i) => {
        const known = beside[a]!.indexOf(b);
        slots[i] = known < 0 ? join(a, b) : slotsOf[a]![known]!;
    });
    // Nodes by the count of their neighbours. What a node has now decides; where it was put before is passed over.
    const queues: number[][] = [];
    const put = (node: number): void => { (queues[degree[node]!] ??= []).push(node); };
    for (let node = size - 1; node >= 0; node--) put(node);
    // The steps one behind the other: of each its node, the nodes beside it with the slots of their links, and the slots of the links made.
    const [order, counts, besides, owns, mades]: [number[], number[], number[], number[], number[]] = [[], [], [], [], []];
    for (let fewest = 0; fewest < queues.length;) {
        const node = queues[fewest]?.pop();
        if (node === undefined) { fewest++; continue; }
        if (done[node] === 1 || degree[node] !== fewest) continue;
        // From here on nearly every node is joined to every other: a table is quicker than lists.
        if (fewest > FEW && fewest > CROWDED * (size - order.length)) break;
        done[node] = 1;
        order.push(node);
        counts.push(fewest);
        const begin = besides.length;
        const [near, nearSlots] = [beside[node]!, slotsOf[node]!];
        for (let i = 0; i < near.length; i++) if (done[near[i]!] === 0) { besides.push(near[i]!); owns.push(nearSlots[i]!); degree[near[i]!]!--; }
        for (let a = begin + 1; a < besides.length; a++) {
            look(besides[a]!);
            for (let b = begin; b < a; b++) mades.push(marked[besides[b]!] === mark ? slotTo[besides[b]!]! : join(besides[a]!, besides[b]!));
        }
        for (let i = begin; i < besides.length; i++) { put(besides[i]!); fewest = Math.min(fewest, degree[besides[i]!]!); }
    }
    const crowd: number[] = [];
    if (order.length < size) for (let node = 0; node < size; node++) if (done[node] === 0) crowd.push(node);
    const placeOf = new Map(crowd.map((node, i) => [node, i]));
    // Slots that lead into the table: at row i, column j > i.
    const [crowdSlots, cells]: [number[], number[]] = [[], []];
    crowd.forEach((node, i) => beside[node]!.forEach((other, k) => {
        const j = placeOf.get(other);
        if (j !== undefined && j > i) { crowdSlots.push(slotsOf[node]![k]!); cells.push(i * crowd.length + j); }
    }));
    const [table, rowGround, rowFlow] = [new Float64Array(crowd.length ** 2), new Float64Array(crowd.length), new Float64Array(crowd.length)];
    const [at, own, made] = [Int32Array.from(besides), Int32Array.from(owns), Int32Array.from(mades)];
    const [link, toGround, flow, whole, heads] = [new Float64Array(count), new Float64Array(size), new Float64Array(size), new Float64Array(size), new Float64Array(size)];
    return {
        heads: (between, ground, given) => {
            link.fill(0);
            for (let i = 0; i < slots.length; i++) link[slots[i]!]! += between[i]!;
            toGround.set(ground);
            flow.set(given);
            let [first, next] = [0, 0];
            for (let step = 0; step < order.length; step++) {
                const [node, end] = [order[step]!, first + counts[step]!];
                let sum = toGround[node]!;
                for (let a = first; a < end; a++) sum += link[own[a]!]!;
                whole[node] = sum;
                const [down, gives] = [toGround[node]!, flow[node]!];
                for (let a = first; a < end; a++) {
                    const share = link[own[a]!]! / sum;
                    for (let b = first; b < a; b++) link[made[next++]!]! += share * link[own[b]!]!;
                    toGround[at[a]!]! += share * down;
                    flow[at[a]!]! += share * gives;
                }
                first = end;
            }
            if (crowd.length > 0) {
                table.fill(0);
                for (let i = 0; i < cells.length; i++) table[cells[i]!]! += link[crowdSlots[i]!]!;
                crowd.forEach((node, i) => { rowGround[i] = toGround[node]!; rowFlow[i] = flow[node]!; });
                solveCrowd(table, rowGround, rowFlow);
                crowd.forEach((node, i) => { heads[node] = rowFlow[i]!; });
            }
            for (let step = order.length - 1; step >= 0; step--) {
                const begin = first - counts[step]!;
                let sum = flow[order[step]!]!;
                for (let a = begin; a < first; a++) sum += link[own[a]!]! * heads[at[a]!]!;
                heads[order[step]!] = sum / whole[order[step]!]!;
                first = begin;
            }
            return heads;
        },
    };
}

/** The same for nodes of which nearly each is joined to each: `table` has the conductances at row i, column j > i. The heads come in the place of `flow`. */
function solveCrowd(table: Float64Array, ground: Float64Array, flow: Float64Array): void {
    const size = ground.length;
    const whole = new Float64Array(size);
    for (let k = 0; k < size; k++) {
        const row = k * size;
        let sum = ground[k]!;
        for (let j = k + 1; j < size; j++) sum += table[row + j]!;
        whole[k] = sum;
        for (let i = k + 1; i < size; i++) {
            const share = table[row + i]! / sum;
            if (share === 0) continue;
            const other = i * size;
            for (let j = i + 1; j < size; j++) table[other + j]! += share * table[row + j]!;
            ground[i]! += share * ground[k]!;
            flow[i]! += share * flow[k]!;
        }
    }
    for (let k = size - 1; k >= 0; k--) {
        let sum = flow[k]!;
        for (let j = k + 1; j < size; j++) sum += table[k * size + j]! * flow[j]!;
        flow[k] = sum / whole[k]!;
    }
}
