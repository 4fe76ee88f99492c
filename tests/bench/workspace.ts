/** What a workspace of many boats costs, and what an edit costs in it: a boat should not wait for the others. */
import { rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { openTypist, type Memory } from '../editor/typist';
import { fleet } from './fleet';
import { OURS, PLAIN, openFile, typeInTurn } from './keystroke';
import { MEASURED, megabytes } from './soak';
import type { Row } from './table';
import { written } from './written';

export async function workspaces(counts: readonly [number, number], samples: number): Promise<Row[]> {
    const rows: Row[] = [];
    let alone: readonly (readonly number[])[] | undefined;
    for (const count of counts) {
        const folder = resolve(`out/bench/fleet-${count}`);
        rmSync(folder, { recursive: true, force: true });
        const texts = fleet(count);
        written(folder, texts);
        const files = Object.keys(texts).length;
        const name = `${count} ${count === 1 ? 'boat' : 'boats'}`;
        const plain = await openTypist(PLAIN, folder, files, MEASURED);
        const ours = await openTypist(OURS, folder, files, MEASURED);
        for (const [what, { rss, heap }] of [['plain', await plain.memory()], ['ours', await ours.memory()]] as readonly (readonly [string, Memory])[]) console.log(`memory with ${name}, ${what}: ${megabytes(rss)} in all, ${megabytes(heap)} in use`);
        rows.push({ what: 'start to all diagnostics, plain', boat: name, samples: [plain.started] }, { what: 'start to all diagnostics', boat: name, samples: [ours.started], against: [plain.started] });
        const [own, patterns] = [join(folder, 'boat-001/lines.orlop'), join(folder, 'shared/patterns.orlop')];
        for (const typist of [plain, ours]) { await openFile(typist, own); await openFile(typist, patterns); }
        const [plainOwn, inOwn] = await typeInTurn([{ typist: plain, file: own }, { typist: ours, file: own }], samples, undefined, 10) as [number[], number[]];
        // The other boats are still judged while it is quiet.
        const [inShared] = await typeInTurn([{ typist: ours, file: patterns, heard: own }], Math.ceil(samples / 4), 200, 3) as [number[]];
        rows.push(
            { what: 'keystroke in one boat, plain', boat: name, samples: plainOwn },
            { what: 'keystroke in one boat', boat: name, samples: inOwn, against: plainOwn },
            ...(alone ? [{ what: 'keystroke in one boat, beside a boat alone', boat: name, samples: inOwn, against: alone[0]! }] : []),
            { what: 'keystroke in shared patterns to an open boat', boat: name, samples: inShared, ...(alone && { against: alone[1]! }) },
        );
        alone ??= [inOwn, inShared];
        await plain.close();
        await ours.close();
    }
    return rows;
}
