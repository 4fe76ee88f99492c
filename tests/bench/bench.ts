/** How long things take, side by side with plain Langium in one run. The numbers are told, never asserted: they are this machine's. */
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import { join, resolve } from 'node:path';
import { loadBoat } from '../../src/language/load';
import { coldRuns } from './cold';
import { keystrokes } from './keystroke';
import { bleedPlans, textToJudgement } from './in-process';
import { print, type Row } from './table';
import { tenEngines } from './ten-engines';

interface BenchBoat {
    readonly folder: string;
    readonly texts: Readonly<Record<string, string>>;
    /** A file with a course, and what is opened on it. */
    readonly lines: string;
    readonly opened: readonly string[];
}

const small = boatIn(resolve('examples/ottilwake'), 'lines.orlop', ['F1', 'F2']);
const large = boatIn(written(resolve('out/bench/ten-engines'), tenEngines()), 'lines-05.orlop', ['F101', 'F102']);

function boatIn(folder: string, lines: string, opened: readonly string[]): BenchBoat {
    const names = readdirSync(folder).filter((name) => name.endsWith('.orlop')).sort();
    return { folder, lines, opened, texts: Object.fromEntries(names.map((name) => [join(folder, name), readFileSync(join(folder, name), 'utf8')])) };
}

function written(folder: string, texts: Readonly<Record<string, string>>): string {
    mkdirSync(folder, { recursive: true });
    for (const [name, text] of Object.entries(texts)) writeFileSync(join(folder, name), text);
    return folder;
}

async function main(): Promise<void> {
    const load = (): string => loadavg().map((value) => value.toFixed(2)).join(' ');
    console.log(`Node.js ${process.version}, ${availableParallelism()} cores, load average ${load()} at the start`);
    const rows: Row[] = [];
    for (const [name, boat, samples] of [['ottilwake', small, 40], ['ten engines', large, 15]] as const) {
        const loaded = await loadBoat(boat.texts);
        const engine = loaded.boat.consumers[0]!.id;
        const parts = loaded.boat.parts.length + loaded.boat.tanks.length + loaded.boat.consumers.length;
        console.log(`${name}: ${parts} parts, ${loaded.boat.tags.size} tags, ${Object.values(boat.texts).join('').split('\n').length} lines in ${Object.keys(boat.texts).length} files, ${loaded.problems.length} slips`);
        rows.push(...await textToJudgement(name, boat.texts, samples));
        rows.push(...await keystrokes(name, boat.folder, boat.lines, 40));
        rows.push(bleedPlans(name, loaded.boat, engine, boat.opened, samples));
    }
    rows.push(...coldRuns('ottilwake', small.folder, 15));
    print(rows);
    console.log(`load average ${load()} at the end`);
}

void main();
