/** The page for the terminal: 80 columns. */
import { tableText } from '../answers/answer';
import { wrap } from '../figures';
import { CURRENT, LABELS, OTHER_VALVES } from './catalogue';
import { drawingFile } from './drawing';
import { effectivityRows } from './effectivity-rows';
import { hazardWords } from './hazards';
import { plain } from './safe';
import { valveCells, valveHead } from './valve-table';
import type { Page, PageStep, Row } from './tree';

const WIDTH = 80;
const part = (heading: string, lines: readonly string[]): string[] => (lines.length === 0 ? [] : [heading, '', ...lines, '']);
const list = (items: readonly string[]): string[] => items.map((item) => wrap(plain(item), WIDTH, '    ', '  - '));

/** Labels in a column. */
function rows(found: readonly Row[]): string[] {
    const width = Math.max(0, ...found.map(({ label }) => label.length));
    return found.map(({ label, value }) => wrap(plain(value), WIDTH, ' '.repeat(width + 5), `  ${plain(label).padEnd(width)}   `));
}

export function pageText(page: Page): string {
    const L = LABELS;
    const table = (head: string[], cells: string[][]): string[] => (cells.length === 0 ? [] : [tableText({ head, rows: cells.map((line) => line.map(plain)) })]);
    return `${[
        wrap(`${plain(page.boat)}: ${plain(page.title)}`, WIDTH), '', wrap(plain(page.purpose), WIDTH), '', wrap(plain(page.deferral), WIDTH), '',
        ...part(L.faults, list(page.faults ?? [])), ...part(L.drains, list(page.drains)), ...part(L.summary, rows(page.summary)), ...part(L.tools, list(page.tools)),
        ...part(L.parts, table([L.count, L.what, L.where], page.parts.map(({ count, what, where }) => [count, what, where]))),
        ...part(L.valves, page.valves.length === 0 ? [] : [...table(valveHead(page.valves), page.valves.map((row) => valveCells(row, page.valves))), OTHER_VALVES]),
        ...part(L.drawing, page.drawing ? [wrap(`${drawingFile(page)}, which --write puts beside the page.`, WIDTH, '  ')] : []),
        ...page.sections.flatMap(({ heading, steps }) => [plain(heading), '', ...steps.flatMap(stepText)]),
        ...part(L.acceptance, list(page.acceptance.map(({ label, value }) => (label === '' ? value : `${label}: ${value}`)))),
        ...part(L.log, list(page.log)), ...part(L.after, list(page.after)), ...part(L.places, rows(page.places ?? [])), ...part(L.taken, list(page.taken)), ...part(L.effectivity, [...rows(effectivityRows(page)), '', wrap(CURRENT, WIDTH)]),
    ].join('\n').trimEnd()}\n`;
}

function stepText({ number, cautions, action, does = [], signs, notes }: PageStep): string[] {
    const head = `${String(number).padStart(3)}. `;
    return [
        ...cautions.map((hazard) => wrap(`${hazard.signal}: ${plain(hazardWords(hazard))}`, WIDTH, '       ', '     ')),
        wrap(plain(action), WIDTH, '     ', head),
        ...does.map((one, i) => wrap(plain(one), WIDTH, '        ', `     ${i + 1}. `)),
        ...signs.map((sign) => wrap(plain(sign), WIDTH, '       ', '     - ')), ...notes.map((note) => wrap(`Note: ${plain(note)}`, WIDTH, '       ', '     - ')), '',
    ];
}
