/** Reading a boat's folder and writing documents: the only file access of the terminal program. */
import { existsSync, mkdirSync, readFileSync, readdirSync, renameSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import type { Document } from '../documents/place';

/** What went wrong, said to a person. */
export class Told extends Error {}

/**
 * The `.orlop` files of a folder by their absolute paths, and those of the folder `shared` beside it; a file stands for the
 * folder it is in.
 */
export function readBoat(path: string): { folder: string; texts: Record<string, string>; shared: Record<string, string> } {
    let folder = resolve(path);
    try {
        if (!statSync(folder).isDirectory()) folder = dirname(folder);
    } catch {
        throw new Told(`There is no folder or file called ${path}.`);
    }
    const texts = textsIn(folder);
    if (Object.keys(texts).length === 0) throw new Told(`${path} holds no .orlop files. A boat is a folder with at least one.`);
    const shared = join(dirname(folder), 'shared');
    return { folder, texts, shared: shared !== folder && existsSync(shared) ? textsIn(shared) : {} };
}

function textsIn(folder: string): Record<string, string> {
    const names = readdirSync(folder).filter((name) => name.endsWith('.orlop')).sort();
    return Object.fromEntries(names.map((name) => [join(folder, name), readFileSync(join(folder, name), 'utf8')]));
}

/** Writes each document whole or not at all: to a file beside it first, which then takes its name. */
export function writeDocuments(folder: string, documents: readonly Document[]): string[] {
    return documents.map(({ path, text }) => {
        const target = join(resolve(folder), path);
        const beside = join(dirname(target), `.${basename(target)}.${process.pid}`);
        try {
            mkdirSync(dirname(target), { recursive: true });
            writeFileSync(beside, text);
            renameSync(beside, target);
        } catch (error) {
            try { unlinkSync(beside); } catch { /* it was never made */ }
            throw new Told(`${target} could not be written: ${(error as Error).message}.`);
        }
        return target;
    });
}
