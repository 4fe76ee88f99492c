import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { execute, withCautions, wayBack } from '../../src/procedures/service/execute';
import { cautionAt } from '../../src/procedures/service/warnings';
import { GOLD } from './gold';
const load = async (name: string) => { const folder = new URL(`../../examples/${name}/`, import.meta.url); return (await loadBoat(Object.fromEntries(readdirSync(folder).filter((n) => n.endsWith('.orlop')).map((n) => [n, readFileSync(new URL(n, folder), 'utf8')])))).boat; };
test('try', async () => {
    for (const name of ['ottilwake', 'ottilwake-mended']) {
        const boat = await load(name);
        let t = performance.now();
        const done = execute(boat, GOLD);
        console.log(name, performance.now() - t);
        t = performance.now(); execute({ ...boat }, GOLD); console.log('again', performance.now() - t);
        done.broken.forEach((laws, i) => { if (laws.length) console.log(i, JSON.stringify(GOLD.steps[i]), JSON.stringify(laws)); });
        console.log(JSON.stringify(done.atEnd));
        GOLD.steps.forEach((s, i) => { if (s.do === 'caution' && s.topic === 'flood') console.log(cautionAt(boat, GOLD, i, done.states)!.text); });
        console.log(JSON.stringify(wayBack(boat, GOLD, done.states[20]!)));
        const bare = { ...GOLD, steps: GOLD.steps.filter((s) => s.do !== 'caution') };
        const w = withCautions(boat, bare);
        console.log(w.steps.map((s) => s.do === 'caution' ? `!${s.topic} ${s.part ?? ''}` : s.do).join(', '));
        console.log(JSON.stringify(execute(boat, w).broken.flat()));
    }
});
