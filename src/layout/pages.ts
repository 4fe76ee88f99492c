/** The drawings of procedures' pages, laid out and drawn. Many pages are about the same lines, which are laid out once. */
import type { Boat } from '../model/boat';
import type { Places } from '../documents/drawing/places';
import type { Layouter } from '../documents/drawing/plan';
import { drawn } from '../documents/procedures/drawing';
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
