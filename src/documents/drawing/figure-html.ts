/** A drawing as a figure of a page in HTML: the picture itself, what it shows, and the same in words. */
import { escapeXml } from '../procedures/safe';
import { saidHtml } from './said';
import type { Picture } from './sheet';

export interface Figure extends Picture {
    /** Of the SVG file, beside the page. */
    readonly file: string;
    /** What it shows. */
    readonly title: string;
}

/** A telephone shows it at its full size, to be moved about; paper turns the sheet on its side. */
export const figureHtml = (heading: string, { svg, title, words }: Figure): string => `<section class="drawing">
<h2>${escapeXml(heading)}</h2>
<figure>
<div class="sheet" role="region" aria-label="${escapeXml(title)}" tabindex="0">
${svg.trimEnd()}
</div>
<figcaption>${escapeXml(title)}</figcaption>
<details>
<summary>In words</summary>
${saidHtml(words)}</details>
</figure>
</section>
`;

/**
 * For the style of a page that has `--ink`. The drawing stays black on white in the dark too: black is what tells a shut valve. Printed it
 * stands on a sheet of its own, turned on its side, so that its words can be read.
 */
export const FIGURE_STYLE = `
figure { margin: 0.5rem 0; }
figcaption { margin: 0.3rem 0; }
.sheet { overflow-x: auto; border: 1px solid var(--ink); background: #fff; }
.sheet svg { display: block; max-width: none; }
summary { padding: 0.5rem 0; }
@page drawing { size: A4 landscape; }
@media print {
  .drawing { page: drawing; }
  .drawing figure { break-inside: avoid; }
  .drawing details { display: none; }
  .sheet { overflow: visible; border: 0; }
  .sheet svg { width: 100%; height: auto; max-height: 150mm; }
}
`;
