import { loadBoat } from '/work/main/src/language/load';
import { judge } from '/work/main/src/checks/judge';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'vitest';
test('parse', async () => {
    const dir='/work/main/examples/ottilwake/';
    const t = Object.fromEntries(readdirSync(dir).map((f) => [f, readFileSync(dir+f,'utf8')]));
    const l = await loadBoat(t);
    console.log(JSON.stringify(l.problems));
    judge(l.boat);
    const t0=performance.now();
    const j = judge(l.boat);
    console.log(performance.now()-t0);
    for (const {check,verdict} of j.verdicts) console.log(check.code, verdict.outcome, verdict.about, 'message' in verdict ? verdict.message : 'missing' in verdict ? JSON.stringify(verdict.missing): '');
    const small = await loadBoat({'small.orlop': `vessel Ottilwake

tank T1      { pickup P1   drop R1   vent   fill }
engine E1

supply course Feed from T1.P1 to E1 {
  shutoff V1
  hose
  filter F1 primary
  hose
  lift pump LP1
  filter F2 final
}
return course Back from E1 to T1.R1 { hose }
`});
    console.log(JSON.stringify(small.problems));
    for (const {check,verdict} of judge(small.boat).verdicts) console.log(check.code, verdict.outcome, verdict.about, 'message' in verdict ? verdict.message : 'missing' in verdict ? JSON.stringify(verdict.missing): '');
});
