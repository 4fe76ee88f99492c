import { loadBoat } from '/work/main/src/language/load';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'vitest';
test('parse', async () => {
    const dir='/work/main/examples/ottilwake/';
    const t = Object.fromEntries(readdirSync(dir).map((f) => [f, readFileSync(dir+f,'utf8')]));
    const l = await loadBoat(t);
    console.log(JSON.stringify(l.problems,null,0));
    console.log(JSON.stringify(l.boat,null,1).slice(0,9000));
});
