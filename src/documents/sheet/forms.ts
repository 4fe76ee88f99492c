/** The sheet in every form. */
import type { Quoted } from '../answers/answer';
import type { Figure } from '../drawing/figure-html';
import type { Document } from '../place';
import { sheetCsv } from './csv';
import { sheetData } from './data';
import { sheetHtml } from './html';
import { sheetPage } from './markdown';
import { printed } from './printed';
import type { Sheet } from './sheet';
import { sheetText } from './text';

const NAME = 'calculation-sheet';

/** `figures` are the drawings of the boat. */
export function sheetForms(sheet: Sheet, quoted: Quoted, figures: readonly Figure[] = []): { readonly text: string; readonly csv: string; readonly data: unknown; readonly pages: readonly Document[] } {
    const all = printed(sheet, quoted);
    const csv = sheetCsv(all);
    return { text: sheetText(all), csv, data: sheetData(all), pages: [{ path: `${NAME}.md`, text: sheetPage(all, figures) }, { path: `${NAME}.html`, text: sheetHtml(all, figures) }, { path: `${NAME}.csv`, text: csv }, ...figures.map(({ file, svg }) => ({ path: file, text: svg }))] };
}
