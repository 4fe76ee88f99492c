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

/** `pairs` are the ends of the links; a pair may come more than once. */
export function meshOf(size: number, pairs: readonly (readonly [number, number])[]): Mesh {
    const beside = Array.from({ length: size }, () => new Map<number, number>());
    let count = 0;
    const slotOf = (a: number, b: number): number => {
        const known = beside[a]!.get(b);
        if (known !== undefined) return known;
        beside[a]!.set(b, count);
        beside[b]!.set(a, count);
        return count++;
    };
    const slots = pairs.map(([a, b]) => slotOf(a, b));
    const left = new Set(Array.from({ length: size }, (_, node) => node));
    const steps: { node: number; beside: readonly number[]; slots: readonly number[]; made: Int32Array }[] = [];
    while (left.size > 0) {
        let node = -1;
        for (const other of left) if (node < 0 || beside[other]!.size < beside[node]!.size) node = other;
        left.delete(node);
        const neighbours = [...beside[node]!.keys()];
        for (const other of neighbours) beside[other]!.delete(node);
        const made = new Int32Array(neighbours.length * (neighbours.length - 1) / 2);
        let i = 0;
        for (let a = 1; a < neighbours.length; a++) for (let b = 0; b < a; b++) made[i++] = slotOf(neighbours[a]!, neighbours[b]!);
        steps.push({ node, beside: neighbours, slots: [...beside[node]!.values()], made });
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
            for (const step of steps.toReversed()) {
                let sum = flow[step.node]!;
                for (let a = 0; a < step.beside.length; a++) sum += link[step.slots[a]!]! * heads[step.beside[a]!]!;
                heads[step.node] = sum / whole[step.node]!;
            }
            return heads;
        },
    };
}
