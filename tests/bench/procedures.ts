/** Service procedures of one boat: made and proven, carried out again, printed; and what a step costs in a long one. */
import { allForms } from '../../src/documents/procedures/forms';
import { checkProcedures } from '../../src/documents/procedures/check';
import { entriesOf } from '../../src/documents/procedures/pages';
import { loadBoat } from '../../src/language/load';
import type { ServiceStep } from '../../src/model/step';
import { execute } from '../../src/procedures/service/execute';
import { procedureTable, programOf } from '../../src/procedures/service/generate';
import { isBlank } from '../../src/procedures/service/plan';
import type { Row } from './table';

/** A boat is read anew for every sample: what is known of a boat is kept with it, and an editor has a new one after each key. */
export async function procedures(name: string, texts: Readonly<Record<string, string>>, samples: number): Promise<Row[]> {
    const made: number[] = [];
    const again: number[] = [];
    const printed: number[] = [];
    const whole: number[] = [];
    for (let run = -3; run < samples; run++) {
        const { boat } = await loadBoat(texts);
        const before = performance.now();
        const table = procedureTable(boat);
        const between = performance.now();
        allForms(name, entriesOf(boat, table.map(({ job, made: found }) => ({ jobs: [job], made: found })), undefined));
        const after = performance.now();
        for (const { made: plan } of table) if (!isBlank(plan)) execute(plan.on ?? boat, programOf(plan));
        const end = performance.now();
        if (run >= 0) { made.push(between - before); printed.push(after - between); again.push(end - after); whole.push(after - before); }
    }
    return [
        { what: 'all procedures made and proven', boat: name, samples: made, against: whole },
        { what: 'printed in every form', boat: name, samples: printed, against: whole },
        { what: 'both', boat: name, samples: whole },
        { what: 'carried out again', boat: name, samples: again, against: whole },
    ];
}

/** The procedures of the text, judged on a boat that is new, as after a key. */
export async function handWritten(name: string, texts: Readonly<Record<string, string>>, samples: number): Promise<Row[]> {
    const times: number[] = [];
    for (let run = -3; run < samples; run++) {
        const { boat } = await loadBoat(texts);
        const before = performance.now();
        checkProcedures(boat);
        if (run >= 0) times.push(performance.now() - before);
    }
    return [{ what: 'a procedure by hand, judged', boat: name, samples: times }];
}

/** So many steps of looking and of working a valve: what a step costs must not grow with what went before. */
export async function longOnes(texts: Readonly<Record<string, string>>, valve: string, counts: readonly number[], samples: number): Promise<Row[]> {
    const { boat } = await loadBoat(texts);
    const lineUp = boat.lineUps.find(({ normal }) => normal)!.id;
    const rows: Row[] = [];
    for (const count of counts) {
        const row: ServiceStep[] = Array.from({ length: count }, (_, i): ServiceStep => (i % 3 === 2 ? { do: 'look', piece: 'all joints' } : { do: 'set', part: valve, position: i % 3 === 0 ? 'shut' : 'open' }));
        const times: number[] = [];
        for (let run = -3; run < samples; run++) {
            const before = performance.now();
            execute(boat, { jobs: [], starts: lineUp, ends: lineUp, steps: row });
            if (run >= 0) times.push(performance.now() - before);
        }
        rows.push({ what: `${count} steps carried out`, boat: boat.name, samples: times, ...(rows[0] && { against: rows[0].samples }) });
    }
    return rows;
}
