/**
 * Heads in a network of linear links, by taking out one node after the other: its star becomes a mesh between its neighbours, which is
 * Gauss's elimination without a subtraction. So links may differ by many powers of ten, as an open hose and a shut check do, and a part
 * that hangs on a shut check alone is still solved to the last digits. Nodes with few neighbours go first, which keeps the meshes small.
 */

export interface Mesh {
    /**
     * Heads at which each node passes on what it is given: `between` are the conductances of the pairs, `ground` of each node to a head
     * of zero, `given` what flows into it. Every node must have a way to the ground. Takes the order of time of the links made.
     */
    heads(between: Float64Array, ground: Float64Array, given: Float64Array): Float64Array;
}

interface Step {
    readonly node: number;
    readonly beside: Int32Array;
    readonly slots: Int32Array;
    readonly made: Int32Array;
}

/** `pairs` are the ends of the links; a pair may come more than once. */
export function meshOf(size: number, pairs: readonly (readonly [number, number])[]): Mesh {
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
        beside[a]!.forEach((b, i) => { if (done[b] === 0) { marked[b] = mark; slotTo[b] = slotsOf[a]![i]!; } });
    };
    const slots = new Int32Array(pairs.length);
    const first = new Map<number, number>();
    pairs.forEach(([a, b], i) => {
        const key = Math.min(a, b) * size + Math.max(a, b);
        const known = first.get(key);
        slots[i] = known ?? join(a, b);
        if (known === undefined) first.set(key, slots[i]!);
    });
    // Nodes by the count of their neighbours. What a node has now decides; where it was put before is passed over.
    const queues: number[][] = [];
    const put = (node: number): void => { (queues[degree[node]!] ??= []).push(node); };
    for (let node = size - 1; node >= 0; node--) put(node);
    const steps: Step[] = [];
    for (let fewest = 0; fewest < queues.length;) {
        const node = queues[fewest]?.pop();
        if (node === undefined) { fewest++; continue; }
        if (done[node] === 1 || degree[node] !== fewest) continue;
        done[node] = 1;
        const [neighbours, own] = [new Int32Array(fewest), new Int32Array(fewest)];
        let at = 0;
        beside[node]!.forEach((other, i) => { if (done[other] === 0) { neighbours[at] = other; own[at++] = slotsOf[node]![i]!; degree[other]!--; } });
        const made = new Int32Array(fewest * (fewest - 1) / 2);
        let i = 0;
        for (let a = 1; a < fewest; a++) {
            look(neighbours[a]!);
            for (let b = 0; b < a; b++) made[i++] = marked[neighbours[b]!] === mark ? slotTo[neighbours[b]!]! : join(neighbours[a]!, neighbours[b]!);
        }
        steps.push({ node, beside: neighbours, slots: own, made });
        for (const other of neighbours) { put(other); fewest = Math.min(fewest, degree[other]!); }
    }
    return {
        heads: (between, ground, given) => {
            const link = new Float64Array(count);
            slots.forEach((slot, i) => { link[slot]! += between[i]!; });
            const [toGround, flow, whole] = [Float64Array.from(ground), Float64Array.from(given), new Float64Array(size)];
            for (const step of steps) {
                let sum = toGround[step.node]!;
                for (const slot of step.slots) sum += link[slot]!;
                whole[step.node] = sum;
                let i = 0;
                for (let a = 0; a < step.beside.length; a++) {
                    const share = link[step.slots[a]!]! / sum;
                    for (let b = 0; b < a; b++) link[step.made[i++]!]! += share * link[step.slots[b]!]!;
                    toGround[step.beside[a]!]! += share * toGround[step.node]!;
                    flow[step.beside[a]!]! += share * flow[step.node]!;
                }
            }
            const heads = new Float64Array(size);
            for (let at = steps.length - 1; at >= 0; at--) {
                const step = steps[at]!;
                let sum = flow[step.node]!;
                for (let a = 0; a < step.beside.length; a++) sum += link[step.slots[a]!]! * heads[step.beside[a]!]!;
                heads[step.node] = sum / whole[step.node]!;
            }
            return heads;
        },
    };
}
