/**
 * The file beside a boat that keeps where a person put things on its schematic: a name and how far down a line, sorted, so that a diff shows
 * what was moved.
 */
import type { Id } from '../../model/boat';
import { listed } from '../../model/words';
import { printable } from '../procedures/safe';
import type { Laid, Rows } from './plan';
import type { Schematic } from './schematic/place';

export const PLACES_FILE = 'schematic.places';

const HEAD = '-- Where things stand on the schematic, put there by hand: how far down. Without its line a thing goes where there is room.';

/** How far down, by the name of the thing. */
export type Places = ReadonlyMap<Id, number>;

/** A line without its remark. */
const sayingOf = (line: string): string => line.replace(/--.*$/, '').trim();

function placeOf(line: string): { readonly id: Id; readonly down: number } | undefined {
    const [, id, down] = /^(\S+)\s+down\s+(-?\d+(?:\.\d+)?)$/.exec(sayingOf(line)) ?? [];
    return id === undefined ? undefined : { id, down: Math.round(Number(down)) };
}

/** Reads the file; a line that is not understood is told and left out. */
export function readPlaces(text: string): { readonly places: Places; readonly problems: readonly string[] } {
    const places = new Map<Id, number>();
    const problems: string[] = [];
    for (const [i, line] of text.split(/\r\n|\r|\n/).entries()) {
        const said = sayingOf(line);
        if (said === '') continue;
        const place = placeOf(line);
        if (place) places.set(place.id, place.down);
        else problems.push(`${PLACES_FILE} line ${i + 1}: "${printable(said)}" is no place. Write a name, the word down and a number, such as: E1 down 240.`);
    }
    return { places, problems };
}

/** The block in which each thing of a schematic stands. */
export function blockOf({ blocks }: Schematic, id: Id): string | undefined {
    for (const [block, { ...made }] of blocks) {
        if ('run' in made ? made.cells.some(({ part }) => part.id === id || part.vents.some((vent) => vent.id === id)) : block === id || made.fixture.part?.id === id || made.fixture.outlets.some(({ point }) => point === id) || made.fixture.consumer?.vents.some((vent) => vent.id === id)) return block;
    }
    return undefined;
}

/** Rows for the library. Of two things in one line the first by name counts. Names that are on the sheet no more are told. */
export function rowsOf(schematic: Schematic, places: Places): { readonly rows: Rows; readonly strangers: readonly Id[] } {
    const rows = new Map<string, number>();
    const strangers: Id[] = [];
    for (const [id, down] of [...places].toSorted(([a], [b]) => (a < b ? -1 : 1))) {
        const block = blockOf(schematic, id);
        if (block === undefined) strangers.push(id); else if (!rows.has(block)) rows.set(block, down);
    }
    return { rows, strangers };
}

/** A thing that could not be put where the file says. */
export interface Elsewhere {
    readonly id: Id;
    /** How far below that it stands; less than 0 is above. */
    readonly by: number;
}

/** Where something else stands already, or two names of one line are given two rows, a thing goes to the next free place. */
export function elsewhere(schematic: Schematic, laid: Laid, places: Places): Elsewhere[] {
    return [...places].toSorted(([a], [b]) => (a < b ? -1 : 1)).flatMap(([id, down]): Elsewhere[] => {
        const at = laid.blocks.get(blockOf(schematic, id) ?? '');
        const by = at === undefined ? 0 : Math.round(at.y - at.top) - down;
        return by === 0 ? [] : [{ id, by }];
    });
}

/** In a sentence; nothing when all stands where it was put. */
export function elsewhereTold(things: readonly Elsewhere[]): string[] {
    if (things.length === 0) return [];
    const one = things.length === 1;
    return [`${PLACES_FILE}: ${listed(things.map(({ id, by }) => `${id} stands ${Math.abs(by)} ${by > 0 ? 'lower' : 'higher'}`))} than it says: what stands there or in the same row was put first. Write ${one ? 'a place' : 'places'} where there is room, or take ${one ? 'that line' : 'those lines'} out.`];
}

/**
 * The text of the file after a thing was moved up or down the sheet or, without `by`, given back to the library. Only the line of the thing,
 * and those of others in its row, are touched: remarks stay, and so do lines that were not understood.
 */
export function movedIn(text: string, schematic: Schematic, laid: Laid, id: Id, by?: number): string {
    const block = blockOf(schematic, id);
    if (block === undefined) return text;
    const kept = (text === '' ? HEAD : text.replace(/(\r\n|\r|\n)$/, '')).split(/\r\n|\r|\n/).filter((line) => { const said = placeOf(line); return said === undefined || blockOf(schematic, said.id) !== block; });
    if (by !== undefined) {
        const { y, top } = laid.blocks.get(block)!;
        const after = kept.findIndex((line) => { const said = placeOf(line); return said !== undefined && said.id > id; });
        kept.splice(after < 0 ? kept.length : after, 0, `${id} down ${Math.round(y - top + by)}`);
    }
    return kept.every((line) => line === HEAD || line.trim() === '') ? '' : `${kept.join('\n')}\n`;
}
