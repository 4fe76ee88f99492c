/** A schematic from the boat to the file: planned, laid out, drawn. */
import type { Boat } from '../model/boat';
import { elsewhere, rowsOf, type Elsewhere, type Places } from '../documents/drawing/places';
import type { Laid, Layouter } from '../documents/drawing/plan';
import type { Picture, Sheet } from '../documents/drawing/sheet';
import { drawSchematic } from '../documents/drawing/schematic/draw';
import { schematicOf, type Schematic } from '../documents/drawing/schematic/place';
import { inWords } from '../documents/drawing/words';

export interface LaidOut {
    readonly schematic: Schematic;
    readonly laid: Laid;
    /** Names in the file of places that are not on the sheet. */
    readonly strangers: readonly string[];
    /** What could not be put where it says. */
    readonly elsewhere: readonly Elsewhere[];
}

/** Where everything stands. Only what changes lines or their labels changes it: the same boat is drawn with any line-up and any marks. */
export async function laidOut(boat: Boat, layouter: Layouter, places: Places = new Map()): Promise<LaidOut> {
    const schematic = schematicOf(boat);
    const { rows, strangers } = rowsOf(schematic, places);
    const laid = await layouter(schematic.plan, rows);
    return { schematic, laid, strangers, elsewhere: elsewhere(schematic, laid, places) };
}

export const pictureOf = ({ schematic, laid }: LaidOut, sheet: Sheet): Picture => ({ svg: drawSchematic(schematic, laid, sheet), words: inWords(schematic.boat, sheet) });
