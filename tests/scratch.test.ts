import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { test } from 'vitest';
import { loadBoat } from '../src/language/load';
import { procedureTable, COLUMNS } from '../src/procedures/service/generate';
import { isBlank, jobWords } from '../src/procedures/service/plan';

const words = (step: any): string => {
    const { do: verb, ...rest } = step;
    return verb + ' ' + Object.entries(rest).map(([k, v]) => `${k}=${typeof v === 'object' ? JSON.stringify(v) : typeof v === 'number' ? Number(v.toPrecision(5)) : v}`).join(' ');
};
test('scratch', async () => {
    const out: string[] = [];
    for (const name of readdirSync('examples')) {
        const texts = Object.fromEntries(readdirSync(`examples/${name}`).filter((f) => f.endsWith('.orlop')).map((f) => [f, readFileSync(`examples/${name}/${f}`, 'utf8')]));
        const { boat } = await loadBoat(texts);
        const t = performance.now();
        const table = procedureTable(boat);
        const took = performance.now() - t;
        console.log(name, table.length, table.filter(({ made }) => !isBlank(made)).length, `${took.toFixed(0)} ms`);
        const t2 = performance.now(); procedureTable(boat); console.log('  again', (performance.now() - t2).toFixed(0));
        out.push(`######## ${name}`);
        for (const { job, made } of table) {
            if (isBlank(made)) { out.push(`== ${jobWords(job)}: BLANK ${made.blank} ${made.missing.map((m) => `[${m.about}: ${m.fact}: ${m.how}]`).join(' ')}`); continue; }
            out.push(`== ${jobWords(job)}: ${made.steps.length} steps, ${made.takes.seconds / 60} min, consumers ${made.consumers}`);
            out.push(`   needs ${JSON.stringify(made.needs)}`, `   drains ${JSON.stringify(made.drainsWhere)}`, `   accept ${JSON.stringify(made.acceptance)}`, `   log ${JSON.stringify(made.log)} after ${JSON.stringify(made.after)}`, `   defaults ${JSON.stringify(made.defaults)}`);
            for (const { step, section, remarks, traps, drawUp } of made.steps) { out.push(`   ${section.padEnd(8)} ${words(step)} ${traps?.length ? 'TRAPS' + JSON.stringify(traps) : ''} ${drawUp ? JSON.stringify(drawUp) : ''}`); for (const r of remarks) out.push(`              - ${r.say} ${'with' in r ? JSON.stringify(r.with) : ''}`); }
        }
    }
    writeFileSync('/tmp/gena/table.txt', out.join('\n'));
    void COLUMNS;
}, 120000);
