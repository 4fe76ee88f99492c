/** How long things take, side by side with plain Langium in one run. The numbers are told, never asserted: they are this machine's. */
import { readFileSync, readdirSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { loadBoat } from '../../src/language/load';
import { coldRuns } from './cold';
import { engines } from './engines';
import { printGrowth, type Sized } from './growth';
import { hydraulics } from './hydraulics';
import { bleedPlans, textToJudgement } from './in-process';
import { keystrokes } from './keystroke';
import { pictures } from './pictures';
import { handWritten, longOnes, procedures } from './procedures';
import { requests } from './requests';
import { soak } from './soak';
import { print, type Row } from './table';
import { workspaces } from './workspace';
import { written } from './written';

interface BenchBoat {
    readonly name: string;
    readonly folder: string;
    readonly texts: Readonly<Record<string, string>>;
    /** A file with a course, and what is opened on it. */
    readonly lines: string;
    readonly opened: readonly string[];
    readonly samples: number;
}

const small = boatIn('ottilwake', resolve('examples/ottilwake'), 'lines.orlop', ['F1', 'F2'], 40);
const sizes = [withEngines('one engine', 1, 20), withEngines('ten engines', 10, 15), withEngines('33 engines', 33, 7)];
const large = sizes[1]!;

function boatIn(name: string, folder: string, lines: string, opened: readonly string[], samples: number): BenchBoat {
    const names = readdirSync(folder).filter((file) => file.endsWith('.orlop')).sort();
    return { name, folder, lines, opened, samples, texts: Object.fromEntries(names.map((file) => [join(folder, file), readFileSync(join(folder, file), 'utf8')])) };
}

function withEngines(name: string, count: number, samples: number): BenchBoat {
    return boatIn(name, written(resolve(`out/bench/engines-${count}`), engines(count)), 'lines-01.orlop', ['F101', 'F102'], samples);
}

/** What is measured beside the growth of a boat; each can be run by itself, by its name. */
const GROUPS: Readonly<Record<string, () => Promise<Row[]>>> = {
    requests: () => requests(large.name, large.folder, large.texts, 60),
    workspaces: () => workspaces([1, 200], 20),
    hydraulics: () => hydraulics([10, 100, 1000], 30),
    procedures: async () => {
        const [marrenwake, mended] = ['marrenwake', 'ottilwake-mended'].map((name) => boatIn(name, resolve(`examples/${name}`), 'lines.orlop', [], 1).texts) as [BenchBoat['texts'], BenchBoat['texts']];
        return [...await procedures('marrenwake', marrenwake, 15), ...await handWritten('ottilwake-mended', mended, 20), ...await longOnes(mended, 'V1', [30, 100, 300], 20)];
    },
    pictures: () => pictures([30, 100, 300], 20),
    cold: async () => coldRuns('ottilwake', small.folder, 15),
};

async function growth(): Promise<{ readonly rows: Row[]; readonly sized: Sized[] }> {
    const rows: Row[] = [];
    const sized: Sized[] = [];
    for (const boat of [small, ...sizes]) {
        const { name, texts, samples } = boat;
        const loaded = await loadBoat(texts);
        const parts = loaded.boat.parts.length + loaded.boat.tanks.length + loaded.boat.consumers.length;
        console.log(`${name}: ${parts} parts, ${loaded.boat.tags.size} tags, ${Object.values(texts).join('').split('\n').length} lines in ${Object.keys(texts).length} files, ${loaded.problems.length} slips`);
        const times = await textToJudgement(name, texts, samples);
        const bleeding = bleedPlans(name, loaded.boat, loaded.boat.consumers[0]!.id, boat.opened, samples);
        if (boat !== small) sized.push({ parts: loaded.boat.tags.size, rows: [...times, bleeding] });
        rows.push(...times, bleeding);
        if (boat === small || boat === large) rows.push(...await keystrokes(name, boat.folder, boat.lines, 40));
    }
    return { rows, sized };
}

async function main(only: string | undefined): Promise<void> {
    const load = (): string => loadavg().map((value) => value.toFixed(2)).join(' ');
    console.log(`Node.js ${process.version}, ${availableParallelism()} cores, load average ${load()} at the start`);
    if (only !== undefined) print(await GROUPS[only]!());
    else {
        const { rows, sized } = await growth();
        for (const group of Object.values(GROUPS)) rows.push(...await group());
        print(rows);
        printGrowth(sized);
        await soak('ottilwake', small.folder, Object.fromEntries(Object.entries(small.texts).map(([path, text]) => [basename(path), text])), Number(process.env['ORLOP_SOAK'] ?? 300));
    }
    console.log(`load average ${load()} at the end`);
}

const only = process.argv[2];
if (only !== undefined && !(only in GROUPS)) console.error(`There is no group ${only}. The groups are ${Object.keys(GROUPS).join(', ')}.`); else void main(only);
