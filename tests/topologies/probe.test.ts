import { test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { planBleed } from '../../src/procedures/bleed';
import { TOPOLOGIES } from './topologies';
test('probe', async () => {
    for (const { name, text } of TOPOLOGIES) {
        const { boat } = await loadBoat({ 'b.orlop': text });
        for (const engine of boat.consumers) {
            const prim = boat.parts.filter((p) => p.kind === 'filter').map((p) => p.id);
            for (const opened of [...prim.map((p) => [p]), 'dry' as const]) {
                const t = performance.now();
                const plan = planBleed(boat, opened === 'dry' ? { engine: engine.id, opened: [], ranDry: true } : { engine: engine.id, opened });
                const took = Math.round(performance.now() - t);
                if ('refused' in plan && plan.refused.includes('is not on the lines')) continue;
                console.log(name, engine.id, String(opened), took > 200 ? took + 'ms' : '', 'refused' in plan ? `REFUSED ${plan.refused} ${plan.missing.map((m) => m.fact).join('; ')}` : `${plan.starts}->${plan.ends}: ` + plan.steps.map(({ step }) => JSON.stringify(step).replace(/"/g, '').replace(/kind:|do:/g, '')).join(' | '));
            }
        }
    }
});
