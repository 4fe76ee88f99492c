/** The sheet in every form. */
import type { Quoted } from '../answers/answer';
import type { Document } from '../place';
import { sheetCsv } from './csv';
import { sheetData } from './data';
import { sheetHtml } from './html';
import { sheetPage } from './markdown';
import { printed } from './printed';
import type { Sheet } from './sheet';
import { sheetText } from './text';

const NAME = 'calculation-sheet';

export function sheetForms(sheet: Sheet, quoted: Quoted): { readonly text: string; readonly csv: string; readonly data: unknown; readonly pages: readonly Document[] } {
    const all = printed(sheet, quoted);
    const csv = sheetCsv(all);
    return { text: sheetText(all), csv, data: sheetData(all), pages: [{ path: `${NAME}.md`, text: sheetPage(all) }, { path: `${NAME}.html`, text: sheetHtml(all) }, { path: `${NAME}.csv`, text: csv }] };
}
