/** For which boat a page holds, as rows. */
import type { Page, Row } from './tree';

export function effectivityRows({ boat, id, effectivity: { revision, facts, view, issued } }: Page): Row[] {
    return [
        { label: 'Boat', value: boat }, { label: 'Page', value: id }, { label: 'Read as', value: view }, { label: 'Boat as written', value: revision }, { label: 'Facts of this page', value: facts },
        ...(issued === undefined ? [] : [{ label: 'Issued', value: issued }]),
    ].filter(({ value }) => value !== '');
}
