/** The index of all procedures of a boat as a page. */
import { DEFERRAL } from './catalogue';
import { document, kindOf } from './html';
import type { Entry } from './pages';
import { escapeXml as safe } from './safe';

export function indexHtml(boat: string, entries: readonly Entry[]): string {
    const title = `Procedures of ${boat}`;
    const row = ({ about, words, page, blank }: Entry): string => `<tr><th scope="row"${kindOf(about)}>${safe(about)}</th><td${kindOf(words)}>${safe(words)}</td><td${kindOf(page?.title ?? blank ?? '', 'why')}>${page ? `<a href="${safe(encodeURI(page.id))}.html">${safe(page.title)}</a>${page.byHand ? ' (written by hand)' : ''}` : safe(blank ?? '')}</td></tr>`;
    return document({ title, foot: title }, `<header>
<h1>${safe(title)}</h1>
<p>${safe(DEFERRAL)}</p>
</header>
<main>
<table class="index">
<thead><tr><th scope="col">Part</th><th scope="col">Job</th><th class="why" scope="col">Procedure, or why there is none</th></tr></thead>
<tbody>
${entries.map(row).join('\n')}
</tbody>
</table>
</main>`);
}
