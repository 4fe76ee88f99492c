import { loadBoat } from '/work/main/src/language/load';
import { planBleed } from '/work/main/src/procedures/bleed';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'vitest';
test('parse', async () => {
    const dir='/work/main/examples/ottilwake/';
    const t = Object.fromEntries(readdirSync(dir).map((f) => [f, readFileSync(dir+f,'utf8')]));
    const l = await loadBoat(t);
    console.log(JSON.stringify(l.problems));
    const t0=performance.now();
    const p = planBleed(l.boat,{engine:'E1',opened:['F1','F2']});
    console.log(performance.now()-t0);
    if('steps' in p){ console.log([...p.air]); for(const s of p.steps) console.log(JSON.stringify(s.step), s.cautions.map(c=>c.topic), JSON.stringify(s.traps)); console.log(p.defaults,p.tainted);} else console.log(p);
    const q = planBleed(l.boat,{engine:'E1',opened:['F1']});
    if('steps' in q){ console.log([...q.air]); for(const s of q.steps) console.log(JSON.stringify(s.step));}else console.log(q);
    const r = planBleed(l.boat,{engine:'E1',opened:[],ranDry:true});
    if('steps' in r){ console.log([...r.air]); for(const s of r.steps) console.log(JSON.stringify(s.step));}else console.log(r);
});
