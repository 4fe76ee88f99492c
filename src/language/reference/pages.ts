/** The pages of the reference by their names, in the order in which they are read. */
import type { Document } from '../../documents/place';
import { guidePage } from './guide';
import { languagePage } from './language';
import { rulesPage } from './rules';
import { unitsPage } from './units';

const PAGES: Readonly<Record<string, () => string | Promise<string>>> = { guide: guidePage, language: languagePage, units: unitsPage, rules: rulesPage };

export const PAGE_NAMES = Object.keys(PAGES);

/** The page of that name, or all of them; nothing when there is none of that name. */
export async function referencePages(name?: string): Promise<Document[]> {
    const names = PAGE_NAMES.filter((other) => name === undefined || other === name);
    const pages: Document[] = [];
    for (const one of names) pages.push({ path: `${one}.md`, text: await PAGES[one]!() });
    return pages;
}
