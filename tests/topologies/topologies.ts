/** A small invented boat for each usual arrangement of a fuel system, for whatever is to be tried on all of them. */
import { readFileSync, readdirSync } from 'node:fs';

export interface Topology {
    /** The file, without its ending: `07-polishing-loop`. */
    readonly name: string;
    readonly file: string;
    readonly text: string;
}

const FOLDER = new URL('./', import.meta.url);

/** All of them, by file name. */
export const TOPOLOGIES: readonly Topology[] = readdirSync(FOLDER).filter((file) => file.endsWith('.orlop')).sort()
    .map((file) => ({ name: file.replace(/\.orlop$/, ''), file, text: readFileSync(new URL(file, FOLDER), 'utf8') }));

/** One by its number or by its whole name. */
export function topology(name: number | string): Topology {
    const found = TOPOLOGIES.find((other) => other.name === name || other.name.startsWith(`${String(name).padStart(2, '0')}-`));
    if (!found) throw new Error(`There is no boat ${name} in tests/topologies`);
    return found;
}
