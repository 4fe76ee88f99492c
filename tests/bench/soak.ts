/** Thousands of keys in one boat: the server must not grow, and must end up saying what a fresh one says of the same text. */
import { isDeepStrictEqual } from 'node:util';
import { resolve } from 'node:path';
import { everythingSaid, typeOnce, urisOf } from '../editor/long-typing';
import { openTypist, type Typist } from '../editor/typist';
import { lots } from '../oracle/random-boats';
import { OURS } from './keystroke';
import { printTable } from './table';

/** Words for Node.js with which a server tells its memory. */
export const MEASURED = ['--expose-gc', '--require', resolve('out/bench/memory.cjs')];
export const megabytes = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(1)} MB`;
const TENTHS = 10;

export async function soak(name: string, folder: string, texts: Readonly<Record<string, string>>, edits: number): Promise<void> {
    const uris = urisOf(folder, Object.keys(texts));
    const opened = async (current: (file: string) => string, node: readonly string[]): Promise<Typist> => {
        const typist = await openTypist(OURS, folder, 1, node);
        for (const [file, uri] of Object.entries(uris)) await typist.open(uri, current(file));
        await typist.quiet(500);
        return typist;
    };
    const typist = await opened((file) => texts[file]!, MEASURED);
    const [lot, slips] = [lots(1), new Map<string, number>()];
    const body: string[][] = [];
    for (let tenth = 0; tenth <= TENTHS; tenth++) {
        const before = performance.now();
        for (let i = 0; tenth > 0 && i < edits / TENTHS; i++) await typeOnce(typist, uris, texts, slips, lot);
        const each = (performance.now() - before) / (edits / TENTHS);
        await typist.quiet(500);
        const { rss, heap } = await typist.memory();
        body.push([`${Math.round((edits * tenth) / TENTHS)} edits`, name, tenth === 0 ? '' : each.toFixed(1), megabytes(rss), megabytes(heap)]);
    }
    printTable(['soak', 'boat', 'ms an edit', 'memory in all', 'in use'], body);
    const fresh = await opened((file) => typist.text(uris[file]!), []);
    const same = isDeepStrictEqual(await everythingSaid(typist, uris, lots(2)), await everythingSaid(fresh, uris, lots(2)));
    console.log(`after ${edits} edits the server says ${same ? 'what a fresh one says' : 'SOMETHING ELSE THAN A FRESH ONE'}`);
    await typist.close();
    await fresh.close();
}
