/** The page in Markdown. */
import { CURRENT, LABELS, OTHER_VALVES } from './catalogue';
import { drawingFile } from './drawing';
import { hazardWords } from './hazards';
import { escapeMarkdown as safe } from './safe';
import { valveCells, valveHead } from './valve-table';
import { effectivityRows } from './effectivity-rows';
import type { Page, PageStep } from './tree';

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
const section = (heading: string, lines: readonly string[]): string[] => (lines.length === 0 ? [] : [`## ${heading}`, '', ...lines, '']);
const list = (items: readonly string[]): string[] => items.map((item) => `- ${safe(item)}`);

/** With `drawn`, the SVG file of its drawing stands beside it. */
export function pageMarkdown(page: Page, drawn = false): string {
    const L = LABELS;
    const table = (head: readonly string[], rows: readonly (readonly string[])[]): string[] => (rows.length === 0 ? [] : [row(head), row(head.map(() => '---')), ...rows.map((cells) => row(cells.map(safe)))]);
    return [
        `# ${safe(page.title)}`, '', `${safe(page.boat)}. ${safe(page.purpose)}`, '', safe(page.deferral), '',
        ...section(L.faults, list(page.faults ?? [])),
        ...section(L.drains, list(page.drains)),
        ...section(L.summary, page.summary.map(({ label, value }) => `- ${safe(label)}: ${safe(value)}`)),
        ...section(L.tools, list(page.tools)),
        ...section(L.parts, table([L.count, L.what, L.where], page.parts.map(({ count, what, where }) => [count, what, where]))),
        ...section(L.valves, page.valves.length === 0 ? [] : [...table(valveHead(page.valves), page.valves.map((row) => valveCells(row, page.valves))), '', OTHER_VALVES]),
        ...section(L.drawing, page.drawing && drawn ? [`![${safe(page.drawing.title)}](${encodeURI(drawingFile(page))})`] : []),
        ...page.sections.flatMap(({ heading, steps }) => section(safe(heading), steps.flatMap(stepMarkdown))),
        ...section(L.acceptance, page.acceptance.map(({ label, value }) => `- ${label === '' ? '' : `${safe(label)}: `}${safe(value)}`)),
        ...section(L.log, page.log.map((field) => `- ${safe(field)}: ______________`)),
        ...section(L.after, list(page.after)),
        ...section(L.places, (page.places ?? []).map(({ label, value }) => `- ${safe(label)}: ${safe(value)}`)),
        ...section(L.taken, list(page.taken)),
        ...section(L.effectivity, [...effectivityRows(page).map(({ label, value }) => `- ${safe(label)}: ${safe(value)}`), '', CURRENT]),
    ].join('\n');
}

function stepMarkdown({ number, cautions, tag, action, does = [], signs, notes }: PageStep): string[] {
    const indent = ' '.repeat(String(number).length + 2);
    return [
        ...cautions.flatMap((hazard) => [`> **${hazard.signal}** ${safe(hazardWords(hazard))}`, '']),
        `${number}. [ ] ${tag === undefined ? '' : `**${safe(tag)}** `}${safe(action)}`,
        ...does.map((one, i) => `${indent}${i + 1}. ${safe(one)}`),
        ...signs.map((sign) => `${indent}- ${safe(sign)}`), ...notes.map((note) => `${indent}- Note: ${safe(note)}`), '',
    ];
}
