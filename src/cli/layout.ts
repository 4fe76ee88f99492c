/** Where schematics are laid out: in a thread, by the script that is built beside the program. It is read when the first plan comes. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { PLACES_FILE, readPlaces, type Places } from '../documents/drawing/places';
import type { Layouter } from '../documents/drawing/plan';
import { layoutThread } from '../layout/thread';
import { Told, readBeside } from './files';
import { tell } from './shell';

export async function withLayout<T>(use: (layouter: Layouter) => Promise<T>): Promise<T> {
    const script = join(__dirname, 'layout.cjs');
    const thread = layoutThread(script);
    const layouter: Layouter = async (plan, rows) => {
        if (!existsSync(script)) throw new Told(`${script} is not there, and without it no schematic is laid out. It belongs beside the program: put Orlop there again, as a whole.`);
        try { return await thread.layouter(plan, rows); } catch (error) { throw new Told(`The schematic could not be laid out: ${(error as Error).message}`); }
    };
    try { return await use(layouter); } finally { await thread.stop(); }
}

/** What was put in its place by hand, in the file beside the boat. */
export function placesOf(path: string): Places {
    const text = readBeside(path, PLACES_FILE);
    if (text === undefined) return new Map();
    const { places, problems } = readPlaces(text);
    for (const problem of problems) tell(`${problem}\n`);
    return places;
}
