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
    const folder = folderOf(path);
    const texts = textsIn(folder);
    if (Object.keys(texts).length === 0) throw new Told(`${path} holds no .orlop files. A boat is a folder with at least one.`);
    const shared = join(dirname(folder), 'shared');
    return { folder, texts, shared: shared !== folder && existsSync(shared) ? textsIn(shared) : {} };
}

function folderOf(path: string): string {
    const folder = resolve(path);
    try { return statSync(folder).isDirectory() ? folder : dirname(folder); } catch { throw new Told(`There is no folder or file called ${path}.`); }
}

/** A file beside the texts of a boat; undefined where there is none. */
export function readBeside(path: string, name: string): string | undefined {
    const file = join(folderOf(path), name);
    try { return existsSync(file) ? readFileSync(file, 'utf8') : undefined; } catch (error) { throw new Told(`${file} could not be read: ${(error as Error).message}.`); }
}

function textsIn(folder: string): Record<string, string> {
    const names = readdirSync(folder).filter((name) => name.endsWith('.orlop')).sort();
    return Object.fromEntries(names.map((name) => [join(folder, name), readFileSync(join(folder, name), 'utf8')]));
}

/** Writes documents whole or not at all, and all of them or none: to files beside them first, which then take their names. */
export function writeDocuments(folder: string, documents: readonly Document[]): string[] {
    const pairs = documents.map(({ path, text }) => { const target = join(resolve(folder), path); return { target, text, beside: join(dirname(target), `.${basename(target)}.${process.pid}`) }; });
    for (const { target, text, beside } of pairs) told(target, pairs, () => {
        if (existsSync(target) && statSync(target).isDirectory()) throw new Error('a folder has that name');
        mkdirSync(dirname(target), { recursive: true });
        writeFileSync(beside, text);
    });
    for (const { target, beside } of pairs) told(target, pairs, () => renameSync(beside, target));
    return pairs.map(({ target }) => target);
}

function told(target: string, pairs: readonly { readonly beside: string }[], write: () => void): void {
    try {
        write();
    } catch (error) {
        for (const { beside } of pairs) try { unlinkSync(beside); } catch { /* it was never made, or has its name */ }
        throw new Told(`${target} could not be written: ${(error as Error).message}.`);
    }
}
