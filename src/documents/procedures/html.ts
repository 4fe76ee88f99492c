/** The page as one file for paper (A4) and for a telephone in one hand: style and script inside, nothing is fetched, and it works without the script. */
import { CLEAR, CURRENT, KEPT, LABELS, OTHER_VALVES } from './catalogue';
import { figureHtml } from '../drawing/figure-html';
import { drawingFile } from './drawing';
import { effectivityRows } from './effectivity-rows';
import { hazardWords } from './hazards';
import { escapeXml as safe, plain } from './safe';
import { sha256 } from './sha256';
import { SCRIPT, STYLE } from './style';
import { valveCells, valveHead } from './valve-table';
import type { Hazard, Page, PageSection, PageStep, Row } from './tree';

/** As a Content-Security-Policy names what may run. */
const policyHash = (text: string): string => `'sha256-${btoa(String.fromCharCode(...sha256(text).match(/../g)!.map((byte) => parseInt(byte, 16))))}'`;
/** A text in a style: every sign that could end it is written by its number. */
const styled = (text: string): string => `"${plain(text).replace(/[^\p{L}\p{N} .,:()-]/gu, (sign) => `\\${sign.codePointAt(0)!.toString(16)} `)}"`;
/** Under each sheet of paper, so that one that got loose still tells what it belongs to, and of how many it is. */
const footOf = (words: string): string => `@page { @bottom-left { content: ${styled(words)}; font: 8.5pt system-ui, sans-serif; } @bottom-right { content: counter(page) " of " counter(pages); font: 8.5pt system-ui, sans-serif; } }\n`;

const SCRIPT_POLICY = ` script-src ${policyHash(SCRIPT)};`;
/** Reckoned once: what differs from page to page stands in a style of its own. */
const STYLE_POLICY = policyHash(STYLE);

/**
 * A page around its body; `foot` is what each sheet says at its foot when it is printed. With a key goes the script that keeps by it
 * what is ticked and filled in.
 */
export function document({ title, key, foot }: { readonly title: string; readonly key?: string; readonly foot: string }, body: string): string {
    const own = footOf(foot);
    return `<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" lang="en"${key === undefined ? '' : ` data-key="${safe(key)}"`}>
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src ${STYLE_POLICY} ${policyHash(own)};${key === undefined ? '' : SCRIPT_POLICY} base-uri 'none'; form-action 'none'"/>
<meta name="color-scheme" content="light dark"/>
<meta name="referrer" content="no-referrer"/>
<title>${safe(title)}</title>
<style>${STYLE}</style>
<style>${own}</style>
</head>
<body>
${body}
${key === undefined ? '' : `<script>${SCRIPT}</script>\n`}</body>
</html>
`;
}

/** `svg` is its drawing. */
export function pageHtml(page: Page, svg?: string): string {
    const L = LABELS;
    // Ticks of another boat, another page or other facts are not this page's.
    const key = `orlop ${page.boat} ${page.id} ${page.effectivity.facts}`;
    const title = `${page.title}: ${page.boat}`;
    return document({ title, key, foot: `${title} (${page.effectivity.facts})` }, `<form method="dialog" autocomplete="off">
<header>
<h1>${safe(page.title)}</h1>
<p class="boat">${safe(page.boat)}${page.byHand ? `. ${L.byHand}` : ''}</p>
<p>${safe(page.purpose)}</p>
<p>${safe(page.deferral)}</p>
<div class="ruled" id="kept" hidden="hidden"><p>${KEPT}</p><button type="reset">${CLEAR}</button></div>
</header>
<main>
${boxed(L.faults, page.faults ?? [], 'faults ')}${boxed(L.drains, page.drains)}${rows(L.summary, page.summary)}${listed(L.tools, page.tools)}${table(L.parts, page.parts.length === 0 ? '' : `<thead><tr><th class="count" scope="col">${L.count}</th><th scope="col">${L.what}</th><th scope="col">${L.where}</th></tr></thead>
<tbody>
${page.parts.map(({ count, what, where }) => `<tr><td class="count">${safe(count)}</td>${cell(what)}${cell(where, 'place')}</tr>`).join('\n')}
</tbody>`)}${table(L.valves, page.valves.length === 0 ? '' : `<thead><tr><th scope="col">${L.valve}</th>${valveHead(page.valves).slice(2).map((head) => `<th class="state" scope="col">${head}</th>`).join('')}</tr></thead>
<tbody>
${page.valves.map((row) => [row, valveCells(row, page.valves).slice(2)] as const).map(([{ valve, place }, positions]) => `<tr><th scope="row"${kindOf(`${valve} ${place}`)}>${safe(valve)}${place === '' ? '' : ` <span class="place">${safe(place)}</span>`}</th>${positions.map((position) => cell(position)).join('')}</tr>`).join('\n')}
</tbody>`, OTHER_VALVES)}${page.drawing && svg !== undefined ? figureHtml(L.drawing, { ...page.drawing, svg, file: drawingFile(page) }) : ''}<h2>${L.steps}</h2>
${page.sections.map(sectionHtml).join('\n')}
${page.acceptance.some(({ label }) => label !== '') ? rows(L.acceptance, page.acceptance) : listed(L.acceptance, page.acceptance.map(({ value }) => value))}<h2>${L.log}</h2>
<div class="fields">
${page.log.map((field, i) => `<p class="field"><label for="f${i + 1}">${safe(field)}</label><input type="text" id="f${i + 1}"/></p>`).join('\n')}
</div>
${listed(L.after, page.after)}${rows(L.places, page.places ?? [])}${listed(L.taken, page.taken)}<button type="reset">${CLEAR}</button>
</main>
<footer>
${rows(L.effectivity, effectivityRows(page))}<p>${CURRENT}</p>
</footer>
</form>`);
}

/** A word of usual length is never broken in a table: `op` over `en` is no position. A name without end may be. */
export const kindOf = (words: string, kind = ''): string => {
    const kinds = [kind, /\S{15}/.test(words) ? 'long' : ''].filter((name) => name !== '').join(' ');
    return kinds === '' ? '' : ` class="${kinds}"`;
};
const cell = (words: string, kind = ''): string => `<td${kindOf(words, kind)}>${safe(words)}</td>`;
/** Short things stand side by side where there is room. */
const items = (all: readonly string[]): string => `<ul${all.every((item) => item.length <= 30) ? ' class="short"' : ''}>\n${all.map((item) => `<li>${safe(item)}</li>`).join('\n')}\n</ul>\n`;
const listed = (heading: string, all: readonly string[]): string => (all.length === 0 ? '' : `<h2>${heading}</h2>\n${items(all)}`);
const boxed = (heading: string, all: readonly string[], kind = ''): string => (all.length === 0 ? '' : `<section class="${kind}ruled">\n<h2>${heading}</h2>\n${items(all)}</section>\n`);
const rows = (heading: string, all: readonly Row[]): string => (all.length === 0 ? '' : `<h2>${heading}</h2>\n<dl>\n${all.map(({ label, value }) => `<dt>${safe(label)}</dt><dd>${safe(value)}</dd>`).join('\n')}\n</dl>\n`);
const table = (heading: string, body: string, below = ''): string => (body === '' ? '' : `<h2>${heading}</h2>\n<table>\n${body}\n</table>\n${below === '' ? '' : `<p>${below}</p>\n`}`);

const sectionHtml = ({ heading, steps }: PageSection): string => `<section>
<h3>${safe(heading)}</h3>
<ol class="steps" role="list">
${steps.map(stepHtml).join('\n')}
</ol>
</section>`;

function stepHtml({ number, cautions, tag, action, does = [], signs, notes }: PageStep): string {
    const remarks = [...signs.map((sign) => `<li>${safe(sign)}</li>`), ...notes.map((note) => `<li class="note">${safe(note)}</li>`)];
    return `<li class="step">
${cautions.map(cautionHtml).join('')}<div class="do">
<div class="margin"><span class="number">${number}</span>${tag === undefined ? '' : `<span class="tag">${safe(tag)}</span>`}<input class="box" type="checkbox" id="s${number}"/></div>
<div>
<label class="action" for="s${number}">${safe(action)}</label>
${does.length === 0 ? '' : `<ol class="does" role="list">\n${does.map((one) => `<li>${safe(one)}</li>`).join('\n')}\n</ol>\n`}${remarks.length === 0 ? '' : `<ul class="signs" role="list">\n${remarks.join('\n')}\n</ul>\n`}</div>
</div>
</li>`;
}

const cautionHtml = (hazard: Hazard): string => `<div class="caution ${hazard.signal}" role="note"><p><span class="word">${hazard.signal}</span> ${safe(hazardWords(hazard))}</p></div>\n`;
