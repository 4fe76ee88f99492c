/** Circuits drawn by a seed. In all of them what is imposed has a way: every node hangs on a tank by links that let it through. */
import type { Circuit, FlowLink, FlowNode } from '../../../src/analysis/flow/circuit';

export const LITRE_AN_HOUR = 1e-3 / 3600;

/** mulberry32, a small public-domain generator. */
export function random(seed: number): () => number {
    let state = seed >>> 0;
    return () => {
        state = (state + 0x6d2b79f5) >>> 0;
        let t = Math.imul(state ^ (state >>> 15), state | 1);
        t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
        return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
    };
}

/** `links` of them, or as near as a tree allows. Flows from a few L/h to some m³/h, so all regimes come; less would be lost in what EPANET leaks through closed pipes. */
export function drawnCircuit(seed: number, links: number): Circuit {
    const dice = random(seed);
    const between = (low: number, high: number): number => low + dice() * (high - low);
    const pick = (count: number): number => Math.floor(dice() * count);
    const size = 10 ** between(-0.5, 1);
    const tanks = 1 + pick(Math.min(4, links));
    const inner = Math.max(1, Math.min(links, Math.round(links / between(1, 1.8))));
    const nodes: FlowNode[] = [];
    const made: FlowLink[] = [];
    for (let i = 0; i < tanks; i++) nodes.push({ id: `T${i}`, up: 0, head: between(0, 1.5) });

    const row = (): Pick<FlowLink, 'pipes' | 'k'> => ({
        pipes: Array.from({ length: dice() < 0.2 ? 2 : 1 }, () => ({ bore: between(0.005, 0.02) * (1 + size) ** 0.25, length: between(0.2, 6) })),
        k: dice() < 0.5 ? between(0, 12) : 0,
    });
    const back = new Map<string, boolean>(nodes.map(({ id }) => [id, true]));
    for (let i = 0; i < inner; i++) {
        const from = nodes[i < 1 ? 0 : pick(nodes.length)]!.id;
        const [id, isCheck] = [`M${i}`, dice() < 0.15];
        // What is returned must get out by the tree; below a check only what is drawn is imposed.
        back.set(id, back.get(from)! && !isCheck);
        const drawn = dice() < 0.4 ? between(5, 150) * size * LITRE_AN_HOUR * (back.get(id)! && dice() < 0.3 ? -0.7 : 1) : 0;
        nodes.push({ id, up: between(-0.5, 1), ...(drawn === 0 ? {} : { drawn }) });
        const turned = !isCheck && dice() < 0.5;
        made.push({ id: `L${made.length}`, from: turned ? id : from, to: turned ? from : id, ...row(), ...(isCheck ? { check: { opens: 0 } } : {}) });
    }
    while (made.length < links) {
        const [a, b] = [nodes[pick(nodes.length)]!.id, nodes[pick(nodes.length)]!.id];
        if (a === b || (a.startsWith('T') && b.startsWith('T'))) continue;
        const [id, kind] = [`L${made.length}`, dice()];
        if (kind < 0.07) {
            const [top, most] = [between(0.5, 4), between(100, 400) * size * LITRE_AN_HOUR];
            const curve = [[0, 1], [0.3, 0.9], [0.6, 0.7], [0.8, 0.45], [1, 0]].map(([flow, head]) => ({ flow: flow! * most, head: head! * top }));
            made.push({ id, from: a, to: b, pump: { curve } });
        } else made.push({ id, from: a, to: b, ...row(), ...(kind < 0.3 ? { check: { opens: 0 } } : kind < 0.35 ? { closed: true } : {}) });
    }
    return { nodes, links: made, fluid: { density: 840, viscosity: between(2e-6, 6e-6) } };
}
