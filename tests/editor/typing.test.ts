/** After many keys, most of them typed before the answer to the last was there, a server says what a fresh one says of the same text. */
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { lots } from '../oracle/random-boats';
import { EXAMPLES, textsOf } from './editor';
import { everythingSaid, typeOnce, urisOf } from './long-typing';
import { openTypist, type Typist } from './typist';

const SERVER = fileURLToPath(new URL('../../out/server.cjs', import.meta.url));
const EDITS = 60;

test.each(['ottilwake', 'marrenwake'])('%s: nothing stale is left of what was typed', async (boat) => {
    const folder = fileURLToPath(new URL(boat, EXAMPLES));
    const texts = textsOf(boat);
    const uris = urisOf(folder, Object.keys(texts));
    const opened = async (current: (file: string) => string): Promise<Typist> => {
        const typist = await openTypist(SERVER, folder);
        for (const [file, uri] of Object.entries(uris)) await typist.open(uri, current(file));
        await typist.quiet(500);
        return typist;
    };
    const typist = await opened((file) => texts[file]!);
    const [lot, slips] = [lots(7), new Map<string, number>()];
    for (let i = 0; i < EDITS; i++) await typeOnce(typist, uris, texts, slips, lot);
    await typist.quiet(1000);
    // Some of it must be wrong by now, or nothing was tried.
    expect(Object.entries(uris).some(([file, uri]) => typist.text(uri) !== texts[file])).toBe(true);
    const fresh = await opened((file) => typist.text(uris[file]!));
    expect(await everythingSaid(typist, uris, lots(8))).toEqual(await everythingSaid(fresh, uris, lots(8)));
    await typist.close();
    await fresh.close();
}, 120_000);
