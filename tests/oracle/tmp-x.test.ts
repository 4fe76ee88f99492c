import { it } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { procedureFor } from '../../src/procedures/service/generate';
import { execute } from '../../src/procedures/service/execute';
import { plainBoat, plainJobs, plainSteps } from './service/convert';
import { dressOf, randomCase, toText } from './random-boats';
import { Boatyard, run } from './service/simulate';
it('x', async () => {
    for (const [seed, part] of JSON.parse(process.env.CASES!)) {
    const drawn = randomCase(seed).boat;
    const text = toText(drawn, dressOf(drawn, seed));
    console.log(text);
    const { boat } = await loadBoat({ 'b.orlop': text });
    const made = procedureFor(boat, { jobs: [{ verb: 'renew', part, piece: part.startsWith('F') ? 'element' : '' }] }) as any;
    if (made.blank) { console.log(made.blank); continue; }
    const steps = made.steps.map((s: any) => s.step);
    const ex = execute(boat, { jobs: made.jobs, starts: made.starts, ends: made.ends, steps });
    const yard = new Boatyard(plainBoat(boat)); const sim = run(yard, { jobs: plainJobs(made.jobs), starts: made.starts, ends: made.ends, steps: plainSteps(boat, yard.boat, steps, made)! });
    steps.forEach((s: any, i: number) => {
        const gas = [...ex.states[i + 1]!.gas].map(([k, v]) => `${k}:${v}`).join(' ');
        console.log(i + 1, JSON.stringify(s), '| gas', gas, ...sim.faults[i]!.map((f) => `\n     !! ${f.law} ${f.why}`));
    });
    console.log(sim.atEnd.map((f) => f.why));
    }
});
