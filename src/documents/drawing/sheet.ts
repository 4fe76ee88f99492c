/** What every drawing is asked for, and what it gives. */
import type { Boat, Id } from '../../model/boat';
import { lineUpsOf, normalLineUp, type ResolvedLineUp } from '../../analysis/topology/line-ups';
import type { Positions } from '../../analysis/topology/network';
import type { Mark, Markup } from './markup';

/** On every drawing. */
export const DEFERRAL = 'Drawn from what is written of the boat. The maker\'s book, local codes and licensed practice come before this sheet.';

export interface Sheet {
    /** The line-up that valves are drawn in; the normal one, when none is said. */
    readonly lineUp?: Id;
    /** What tanks hold, a share of their gross volume from 0 to 1. Only the elevation draws it. */
    readonly level?: number;
    /** How she leans, rad, positive with the starboard side down. Without it the elevation draws her upright and on both tacks. */
    readonly heel?: number;
    readonly markup?: Markup;
    /** For the title block, as they are to be printed; blank when they are not said. */
    readonly revision?: string;
    /** ISO date. */
    readonly date?: string;
}

export interface Picture {
    /** A whole SVG file, black on white. */
    readonly svg: string;
    /** The same told downstream in plain lines, for whoever does not see it. */
    readonly words: readonly Said[];
}

/** A line of the text alternative, and the thing that it tells of. */
export interface Said {
    readonly text: string;
    readonly about?: Id;
    /** 0 for a heading, 1 for a line under it, and so on. */
    readonly depth: number;
}

/** The line-up that a sheet is drawn in: the one that was asked for, where the boat has it, else the normal one. */
export function drawnLineUp(boat: Boat, asked: Id | undefined): ResolvedLineUp | undefined {
    const lineUps = lineUpsOf(boat);
    return lineUps.find(({ id }) => id === asked) ?? normalLineUp(boat, lineUps);
}

/** The marks at each thing. */
export function marksById(markup: Markup | undefined): ReadonlyMap<Id, readonly Mark[]> {
    const marks = new Map<Id, Mark[]>();
    for (const mark of markup?.marks ?? []) { const known = marks.get(mark.about); if (known) known.push(mark); else marks.set(mark.about, [mark]); }
    return marks;
}

/** A line-up for the title block, and whether valves are drawn otherwise. */
export function lineUpWords(boat: Boat, id: Id | undefined, positions: Positions): string {
    const normal = lineUpsOf(boat).find((lineUp) => lineUp.id === id)?.positions;
    return `${id ?? 'none'}${[...positions].some(([valve, position]) => normal?.get(valve) !== position) ? ', with valves turned' : ''}`;
}
