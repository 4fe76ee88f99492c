/**
 * The page as a topic of DITA 1.2, a strict task: hazards as statements before the command, sections of steps between the steps, signs as
 * the results of steps. A map holds the topics of a boat together.
 */
import { CURRENT, LABELS, OTHER_VALVES } from './catalogue';
import { drawingFile } from './drawing';
import { effectivityRows } from './effectivity-rows';
import { valveCells, valveHead } from './valve-table';
import { escapeXml as safe, xmlId } from './safe';
import type { Hazard, Page, PageStep } from './tree';

const HEAD = '<?xml version="1.0" encoding="UTF-8"?>';

/** With `drawn`, the SVG file of its drawing stands beside it. */
export function pageDita(page: Page, drawn = false): string {
    const L = LABELS;
    const { issued } = page.effectivity;
    const before = [
        ...headed(L.faults, page.faults ?? []), ...headed(L.drains, page.drains), ...headed(L.tools, page.tools),
        ...table(L.parts, [L.count, L.what, L.where], page.parts.map(({ count, what, where }) => [count, what, where])),
        ...table(L.valves, valveHead(page.valves), page.valves.map((row) => valveCells(row, page.valves)), OTHER_VALVES),
        ...(page.drawing && drawn ? [`<fig><title>${safe(page.drawing.title)}</title><image href="${safe(encodeURI(drawingFile(page)))}" placement="break"><alt>${safe(page.drawing.title)}</alt></image></fig>`] : []),
    ];
    const context = [...(page.byHand ? [`<p>${L.byHand}.</p>`] : []), `<p>${safe(page.deferral)}</p>`, ...headed(L.summary, page.summary.map(({ label, value }) => `${label}: ${value}`))];
    const steps = page.sections.flatMap(({ heading, steps: all }) => [`<stepsection>${safe(heading)}</stepsection>`, ...all.map(stepDita)]);
    const after = [...headed(L.log, page.log), ...headed(L.after, page.after), ...headed(L.places, (page.places ?? []).map(({ label, value }) => `${label}: ${value}`)), ...headed(L.taken, page.taken), `<p>${CURRENT}</p>`];
    return [
        HEAD, '<!DOCTYPE task PUBLIC "-//OASIS//DTD DITA 1.2 Task//EN" "task.dtd">',
        `<task id="${xmlId(page.id)}" xml:lang="en">`, `<title>${safe(page.title)}</title>`, `<shortdesc>${safe(page.purpose)}</shortdesc>`,
        '<prolog>', ...(issued === undefined ? [] : [`<critdates><created date="${safe(issued)}"/></critdates>`]),
        '<metadata>', ...effectivityRows(page).map(({ label, value }) => `<othermeta name="${safe(label)}" content="${safe(value)}"/>`), '</metadata>', '</prolog>',
        '<taskbody>', ...element('prereq', before), ...element('context', context), ...element('steps', steps),
        ...element('result', headed(L.acceptance, page.acceptance.map(({ label, value }) => (label === '' ? value : `${label}: ${value}`)))), ...element('postreq', after),
        '</taskbody>', '</task>', '',
    ].join('\n');
}

const element = (name: string, lines: readonly string[]): string[] => (lines.length === 0 ? [] : [`<${name}>`, ...lines, `</${name}>`]);
const list = (items: readonly string[]): string[] => element('ul', items.map((item) => `<li>${safe(item)}</li>`));
const headed = (heading: string, items: readonly string[]): string[] => (items.length === 0 ? [] : [`<p><b>${heading}</b></p>`, ...list(items)]);

function table(heading: string, head: readonly string[], rows: readonly (readonly string[])[], below = ''): string[] {
    if (rows.length === 0) return [];
    const cells = (all: readonly string[]): string => all.map((cell) => `<stentry>${safe(cell)}</stentry>`).join('');
    return [`<p><b>${heading}</b></p>`, '<simpletable>', `<sthead>${cells(head)}</sthead>`, ...rows.map((row) => `<strow>${cells(row)}</strow>`), '</simpletable>', ...(below === '' ? [] : [`<p>${below}</p>`])];
}

function stepDita({ number, cautions, action, does = [], signs, notes }: PageStep): string {
    return [
        `<step id="step-${number}">`, ...cautions.map(hazardDita), `<cmd>${safe(action)}</cmd>`,
        ...element('substeps', does.map((one) => `<substep><cmd>${safe(one)}</cmd></substep>`)),
        ...element('info', list(notes)), ...element('stepresult', list(signs)), '</step>',
    ].join('\n');
}

const hazardDita = ({ signal, hazard, consequence, avoid }: Hazard): string =>
    `<hazardstatement type="${signal.toLowerCase()}"><messagepanel><typeofhazard>${safe(hazard)}</typeofhazard>${consequence === '' ? '' : `<consequence>${safe(consequence)}</consequence>`}<howtoavoid>${safe(avoid)}</howtoavoid></messagepanel></hazardstatement>`;

/** Topics by the names of their files. */
export function mapDita(title: string, topics: readonly { readonly file: string; readonly title: string }[]): string {
    return [
        HEAD, '<!DOCTYPE map PUBLIC "-//OASIS//DTD DITA 1.2 Map//EN" "map.dtd">', '<map xml:lang="en">', `<title>${safe(title)}</title>`,
        ...topics.map(({ file, title: words }) => `<topicref href="${safe(encodeURI(file))}" type="task" navtitle="${safe(words)}"/>`), '</map>', '',
    ].join('\n');
}
