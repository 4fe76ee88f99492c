/** Steady flow beside EPANET in WASM on the same circuits, turn about: from the circuit in memory to all heads and flows in memory. */
import { solve } from '../../src/analysis/flow/solve';
import { drawnCircuit } from '../analysis/flow/drawn-circuits';
import { byEpanet } from '../analysis/flow/epanet';
import type { Row } from './table';

const WARM_UP = 60;

/** Circuits of so many links, each another one; a run that EPANET does not balance counts for neither. */
export async function hydraulics(sizes: readonly number[], samples: number): Promise<Row[]> {
    const rows: Row[] = [];
    for (const links of sizes) {
        const [ours, theirs]: [number[], number[]] = [[], []];
        for (let run = -WARM_UP; ours.length < samples && run < 10 * samples; run++) {
            const circuit = drawnCircuit(1000 + run, links);
            const before = performance.now();
            const other = await byEpanet(circuit);
            const between = performance.now();
            const { status } = solve(circuit);
            const after = performance.now();
            if (run < 0 || !other || status === 'unbalanced' || status === 'unusable') continue;
            theirs.push(between - before);
            ours.push(after - between);
        }
        rows.push({ what: 'steady flow by EPANET', boat: `${links} links`, samples: theirs }, { what: 'steady flow', boat: `${links} links`, samples: ours, against: theirs });
    }
    return rows;
}
