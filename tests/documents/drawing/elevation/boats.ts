/** The texts of the examples, to be changed by an edit or two. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadBoat } from '../../../../src/language/load';
import { drawElevation } from '../../../../src/documents/drawing/elevation/elevation';
import type { Sheet } from '../../../../src/documents/drawing/sheet';
import type { Boat } from '../../../../src/model/boat';
import { axesOf, read, type Axis, type Read } from './reader';

const EXAMPLES = fileURLToPath(new URL('../../../../examples', import.meta.url));

const known = new Map<string, Promise<Boat>>();

/** Read once for all tests as it is, and anew where it is edited. */
export async function example(name: string, ...edits: readonly (readonly [string, string])[]): Promise<Boat> {
    if (edits.length > 0) return anew(name, edits);
    const boat = known.get(name) ?? anew(name);
    known.set(name, boat);
    return boat;
}

export async function anew(name: string, edits: readonly (readonly [string, string])[] = []): Promise<Boat> {
    const texts = Object.fromEntries(readdirSync(`${EXAMPLES}/${name}`).filter((file) => file.endsWith('.orlop')).toSorted().map((file) => [file, readFileSync(`${EXAMPLES}/${name}/${file}`, 'utf8')]));
    for (const [from, to] of edits) {
        const file = Object.keys(texts).find((key) => texts[key]!.includes(from));
        if (file === undefined) throw new Error(`nothing to edit: ${from}`);
        texts[file] = texts[file]!.replace(from, to);
    }
    return (await loadBoat(texts)).boat;
}

export const written = async (text: string): Promise<Boat> => (await loadBoat({ 'boat.orlop': text })).boat;

export interface Shown extends Read {
    readonly svg: string;
    readonly axes: readonly Axis[];
    readonly said: readonly string[];
    /** Heights, mm by the printed scale, at which anything is drawn of a thing, in the rows of one view. */
    readonly heights: (id: string, rows: readonly number[]) => readonly number[];
}

export function shown(boat: Boat, sheet: Sheet = {}): Shown {
    const { svg, words } = drawElevation(boat, sheet);
    const [found, axes] = [read(svg), axesOf(svg)];
    return {
        ...found, svg, axes, said: words.map(({ text }) => text),
        heights: (id, rows) => rows.flatMap((row) => {
            const axis = axes[row]!;
            const ys = [
                ...found.strokes.filter(({ thing }) => thing === id).flatMap(({ from, to }) => [from[1], to[1]]),
                ...found.shapes.filter(({ thing }) => thing === id).flatMap(({ kind, top, bottom }) => (kind === 'circle' ? [(top + bottom) / 2] : [top, bottom])),
            ].filter((y) => y >= axis.top - 1 && y <= axis.bottom + 1);
            return ys.map(axis.heightAt);
        }),
    };
}
