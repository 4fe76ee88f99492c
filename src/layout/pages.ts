/** The drawings that stand in pages, laid out and drawn. */
import type { Boat } from '../model/boat';
import { drawElevation } from '../documents/drawing/elevation/elevation';
import { stateOf, viewsOf } from '../documents/drawing/elevation/view';
import type { Figure } from '../documents/drawing/figure-html';
import type { Places } from '../documents/drawing/places';
import type { Layouter } from '../documents/drawing/plan';
import { drawn } from '../documents/procedures/drawing';
import { safeName } from '../documents/procedures/safe';
import type { Page } from '../documents/procedures/tree';
import { laidOut, pictureOf } from './schematic';

/** SVG by the id of its page; the title block bears the codes of the page. */
export async function pageDrawings(boat: Boat, pages: readonly Page[], layouter: Layouter, places: Places): Promise<ReadonlyMap<string, string>> {
    const found = new Map<string, string>();
    for (const { id, drawing, effectivity: { revision, issued } } of pages) {
        if (!drawing) continue;
        const { boat: part, sheet } = drawn(boat, drawing);
        found.set(id, pictureOf(await laidOut(part, layouter, places), { ...sheet, revision, ...(issued !== undefined && { date: issued }) }).svg);
    }
    return found;
}

/** Of the calculation sheet: the whole boat, and each way that she leans by itself, so that it stands on one sheet of paper. */
export async function sheetDrawings(boat: Boat, layouter: Layouter, places: Places): Promise<Figure[]> {
    const leaning = viewsOf(stateOf(boat, {}), {}).map(({ title, attitude: { heel } }): Figure => ({ file: `${safeName(`elevation ${title.toLowerCase()}`)}.svg`, title: `Elevation: ${title.toLowerCase()}`, ...drawElevation(boat, { heel }) }));
    return [{ file: 'schematic.svg', title: 'Schematic', ...pictureOf(await laidOut(boat, layouter, places), {}) }, ...leaning];
}
