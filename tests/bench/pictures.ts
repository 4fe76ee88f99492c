/** Schematics: the whole of one beside the library alone, the first layout of a process, and what an edit costs until it is drawn. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import ELK from 'elkjs/lib/elk.bundled.js';
import type { Plan } from '../../src/documents/drawing/plan';
import { schematicOf } from '../../src/documents/drawing/schematic/place';
import { loadBoat } from '../../src/language/load';
import { elkGraph, layOut, piecesOf } from '../../src/layout/elk';
import { laidOut, pictureOf } from '../../src/layout/schematic';
import { layoutThread } from '../../src/layout/thread';
import { openTypist } from '../editor/typist';
import { manyParts } from '../pages/odd-boats';
import { OURS, openFile } from './keystroke';
import type { Row } from './table';
import { written } from './written';

const FILE = 'many.orlop';
const LAYOUT = resolve('out/layout.cjs');
const WARM_UP = 3;

export async function pictures(sizes: readonly number[], samples: number): Promise<Row[]> {
    const rows: Row[] = [];
    for (const size of sizes) {
        const text = boatOf(size);
        const { boat, problems } = await loadBoat({ [FILE]: text });
        const name = `${boat.parts.length + boat.tanks.length + boat.consumers.length} parts`;
        if (problems.length > 0) throw new Error(problems[0]!.message);
        const few = size > 100 ? Math.ceil(samples / 4) : samples;
        rows.push(...await besideLibrary(name, text, few), firstLayout(name, schematicOf(boat).plan, Math.ceil(few / 2)));
        if (size <= 100) rows.push(...await editsInProcess(name, text, samples), ...await editsInServer(name, text, samples));
    }
    return rows;
}

/** Lines with many branches, which is what a layout takes long over; its valves have heights. */
const boatOf = (parts: number): string => manyParts(parts)[FILE]!.replaceAll('normally open', 'at 600 mm   normally open');

/** A height, which no schematic shows, and a part more at the head of a line, which is another graph each time. */
const EDITS = {
    'an edit of a height': (text: string, n: number) => text.replace('at 600 mm', `at ${601 + n} mm`),
    'an edit that puts a part in': (text: string, n: number) => text.replace('\n  shutoff V1 ', `\n  shutoff VX${n + 1}$&`),
} as const;

/** Boat to SVG, and the library with the same graph, turn about. */
async function besideLibrary(name: string, text: string, samples: number): Promise<Row[]> {
    const library = new ELK();
    const whole: number[] = [];
    const alone: number[] = [];
    for (let run = -WARM_UP; run < samples; run++) {
        const { boat } = await loadBoat({ [FILE]: text });
        const graphs = piecesOf(schematicOf(boat).plan).map(elkGraph);
        const before = performance.now();
        for (const graph of graphs) await library.layout(graph);
        const between = performance.now();
        pictureOf(await laidOut(boat, layOut), {});
        const after = performance.now();
        if (run >= 0) { alone.push(between - before); whole.push(after - between); }
    }
    return [{ what: 'the layout library alone', boat: name, samples: alone }, { what: 'boat to schematic', boat: name, samples: whole, against: alone }];
}

/** Of a process that has laid out nothing yet: the thread is started and the library read. */
function firstLayout(name: string, plan: Plan, samples: number): Row {
    const file = resolve('out/bench/plan.json');
    writeFileSync(file, JSON.stringify(plan));
    const times = Array.from({ length: samples }, () => Number(spawnSync(process.execPath, ['out/bench/first-layout.cjs', LAYOUT, file], { encoding: 'utf8' }).stdout));
    if (times.some((time) => !(time > 0))) throw new Error('The first layout was not told.');
    return { what: 'first layout of a process', boat: name, samples: times };
}

/** Text to SVG, laid out in the thread, which keeps what it laid out. */
async function editsInProcess(name: string, text: string, samples: number): Promise<Row[]> {
    const thread = layoutThread(LAYOUT);
    const draw = async (now: string): Promise<void> => { pictureOf(await laidOut((await loadBoat({ [FILE]: now })).boat, thread.layouter), {}); };
    const rows: Row[] = [];
    for (const [what, edit] of Object.entries(EDITS)) {
        await draw(text);
        const times: number[] = [];
        for (let run = 0; run < samples + WARM_UP; run++) {
            const now = edit(text, run);
            const before = performance.now();
            await draw(now);
            if (run >= WARM_UP) times.push(performance.now() - before);
        }
        rows.push({ what: `${what}, text to SVG`, boat: name, samples: times, ...(rows[0] && { against: rows[0].samples }) });
    }
    await thread.stop();
    return rows;
}

/** From the edit to the answer with its picture, through the bundled server. */
async function editsInServer(name: string, text: string, samples: number): Promise<Row[]> {
    const folder = written(resolve(`out/bench/pictures-${name.replaceAll(' ', '-')}`), { [FILE]: text });
    const typist = await openTypist(OURS, folder);
    const uri = pathToFileURL(join(folder, FILE)).href;
    await openFile(typist, join(folder, FILE));
    const ask = (known?: string) => typist.ask<{ version: string; svg?: string }>('orlop/picture', { textDocument: { uri }, kind: 'schematic', ...(known !== undefined && { known }) });
    const rows: Row[] = [];
    for (const [what, edit] of Object.entries(EDITS)) {
        const times: number[] = [];
        let { version } = await ask();
        for (let run = 0; run < samples + WARM_UP; run++) {
            const before = performance.now();
            typist.send(uri, { offset: 0, length: typist.text(uri).length, text: edit(text, run) });
            const answer = await ask(version);
            if (run >= WARM_UP) times.push(performance.now() - before);
            ({ version } = answer);
            await typist.quiet(60);
        }
        rows.push({ what: `${what}, to its picture by the server`, boat: name, samples: times, ...(rows[0] && { against: rows[0].samples }) });
    }
    await typist.close();
    return rows;
}
