/** From a typed character to the diagnostics of its file, through the bundled server, as an editor talks to it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { openTypist, type Typist } from '../editor/typist';
import type { Row } from './table';

export const PLAIN = 'out/bench/plain-server.cjs';
export const OURS = 'out/server.cjs';
const WARM_UP = 20;
/** Between two keys, ms: the server's answers for the other files of the boat are through by then. */
const REST = 30;

/** The two servers are typed to turn about, so that a busy moment of the machine falls on both. */
export async function keystrokes(name: string, folder: string, file: string, samples: number): Promise<Row[]> {
    const typists = [await opened(PLAIN, folder, file), await opened(OURS, folder, file)];
    const times = await typeInTurn(typists.map((typist) => ({ typist, file: join(folder, file) })), samples);
    for (const typist of typists) await typist.close();
    return [
        { what: 'keystroke to diagnostics, plain', boat: name, samples: times[0]! },
        { what: 'keystroke to diagnostics', boat: name, samples: times[1]!, against: times[0]! },
    ];
}

async function opened(server: string, folder: string, file: string): Promise<Typist> {
    const typist = await openTypist(server, folder);
    await openFile(typist, join(folder, file));
    return typist;
}

export async function openFile(typist: Typist, file: string): Promise<void> {
    await typist.open(pathToFileURL(file).href, readFileSync(file, 'utf8'));
    await typist.quiet(200);
}

interface Place {
    readonly typist: Typist;
    /** The file that is typed into, and the one whose diagnostics are waited for when that is another. */
    readonly file: string;
    readonly heard?: string;
}

/** One character over another in the middle of a line, at each place in turn; ms to the diagnostics. */
export async function typeInTurn(places: readonly Place[], samples: number, rest = REST, warmUp = WARM_UP): Promise<number[][]> {
    const times = places.map((): number[] => []);
    for (let run = -warmUp; run < samples; run++) {
        for (const [i, { typist, file, heard }] of places.entries()) {
            const uri = pathToFileURL(file).href;
            const keys = { offset: digit(typist.text(uri)), length: 1, text: String((run + warmUp) % 9 + 1) };
            const time = await typist.type(uri, keys, heard && pathToFileURL(heard).href);
            if (run >= 0) times[i]!.push(time);
            await (rest > REST ? typist.quiet(rest) : pause(rest));
        }
    }
    return times;
}

/** The last digit of the first length in a course, `hose S1 bore 8 mm length 2.60 m`, or of the first volume in a pattern. */
function digit(text: string): number {
    const upToDigit = /^\s+(?:hose|tube)\b.* length \d+\.\d*(?=\d m)/m.exec(text) ?? /\bholds \d*(?=\d mL)/.exec(text);
    if (!upToDigit) throw new Error('There is no length in this file to type at.');
    return upToDigit.index + upToDigit[0].length;
}
