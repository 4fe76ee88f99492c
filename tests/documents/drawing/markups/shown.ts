/** What the tests of markups share: boats from text, and marks told as words. */
import { expect } from 'vitest';
import { markupFor, type Shown } from '../../../../src/documents/drawing/markups/markup';
import type { Look, Markup } from '../../../../src/documents/drawing/markup';
import { readShow } from '../../../../src/language/ask/show';
import { loadBoat } from '../../../../src/language/load';
import type { Boat, View } from '../../../../src/model/boat';
import { example, load } from '../../../checks/boats';

export const EXAMPLES = ['ottilwake', 'ottilwake-mended', 'brackenwake', 'brackenwake-mended', 'marrenwake'] as const;

const known = new Map<string, Promise<Boat>>();

/** Read once for all tests: what an analysis knows of a boat is kept with it. */
export async function boatOf(name: (typeof EXAMPLES)[number]): Promise<Boat> {
    const boat = known.get(name) ?? load(example(name)).then((loaded) => loaded.boat);
    known.set(name, boat);
    return boat;
}

/** A boat of the test's own; its text must be without slips. */
export async function boatFrom(text: string, view?: View): Promise<Boat> {
    const { boat, problems } = await loadBoat({ 'boat.orlop': text }, view === undefined ? {} : { view });
    expect(problems.map(({ message }) => message)).toEqual([]);
    return boat;
}

/** The markup for some words; it must not be refused. */
export function shown(words: string, of: Shown): Markup {
    const found = markupFor(readShow(words, of.boat), of);
    if ('refused' in found) throw new Error(found.refused);
    return found;
}

export function refused(words: string, of: Shown): string {
    const found = markupFor(readShow(words, of.boat), of);
    return 'refused' in found ? found.refused : `not refused: ${found.title}`;
}

/** The things of one look, each with its words. */
export const marked = ({ marks }: Markup, look: Look): string[] => marks.filter(({ as }) => as === look).map(({ about, words }) => (words === undefined ? about : `${about} ${words}`));
export const idsOf = ({ marks }: Markup, look: Look): string[] => marks.filter(({ as }) => as === look).map(({ about }) => about);
