/** Steady flow beside EPANET in WASM on the same circuits, turn about: from the circuit in memory to all heads and flows in memory. */
import type { Circuit } from '../../src/analysis/flow/circuit';
import { solve } from '../../src/analysis/flow/solve';
import { drawnCircuit } from '../analysis/flow/drawn-circuits';
import { byEpanet } from '../analysis/flow/epanet';
import type { Row } from './table';

const WARM_UP = 20;

/** Links in a sample: small circuits are asked several at a time, since a clock cannot time one. */
const LINKS = 1000;

/** Circuits of so many links, each another one; those that EPANET does not balance are left out. */
export async function hydraulics(sizes: readonly number[], samples: number): Promise<Row[]> {
    const rows: Row[] = [];
    for (const links of sizes) {
        const [ours, theirs]: [number[], number[]] = [[], []];
        const batch = Math.max(1, Math.round(LINKS / links));
        for (let run = -WARM_UP, seed = 1000; run < samples; run++) {
            const circuits: Circuit[] = [];
            for (; circuits.length < batch; seed++) {
                const circuit = drawnCircuit(seed, links);
                if (['converged', 'singular'].includes(solve(circuit).status) && await byEpanet(circuit)) circuits.push(circuit);
            }
            const before = performance.now();
            for (const circuit of circuits) await byEpanet(circuit);
            const between = performance.now();
            for (const circuit of circuits) solve(circuit);
            const after = performance.now();
            if (run < 0) continue;
            theirs.push((between - before) / batch);
            ours.push((after - between) / batch);
        }
        rows.push({ what: 'steady flow by EPANET', boat: `${links} links`, samples: theirs }, { what: 'steady flow', boat: `${links} links`, samples: ours, against: theirs });
    }
    return rows;
}
