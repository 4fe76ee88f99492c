/** A row of parts between two fixtures, drawn on the line on which they stand. */
import type { Id, Service } from '../../../model/boat';
import { isPipe } from '../../../analysis/topology/network';
import { escapeXml } from '../../procedures/safe';
import { lineStyle } from '../line-styles';
import { OFF, roomFor, said, shapes, underlay, type Box } from '../marks';
import type { Mark } from '../markup';
import { inked, n, thing, widthOf, words, type Point } from '../svg';
import { ABOVE, BELOW, BOUNDARY, SMALL, figuresOf, type Boundary } from './cells';
import { arrowAt, bleeds, explain, fitted, loose, marksOf, tagged, weight, type Drawing } from './drawing';
import type { PlacedCell, RunBlock } from './place';
import { HALF, TALL, drain, signOf } from './symbols';

/** What is drawn beneath all, then lines, then things. */
export interface Layers {
    readonly under: string[];
    readonly lines: string[];
    readonly things: string[];
}

/** A row of parts. `y` is where the line runs. */
export function drawRun(drawing: Drawing, { run, cells, width, after }: RunBlock, [x, y]: Point, layers: Layers): void {
    const { lines, things } = layers;
    drawing.services.add(run.service);
    for (const [i, cell] of cells.entries()) {
        if (cell.before) things.push(boundary(drawing, cell.before, x + cell.x - BOUNDARY / 2, y));
        drawCell(drawing, run.service, cell, { start: x + (i === 0 ? 0 : cell.x - (cell.before ? BOUNDARY : 0)), end: x + cell.x + cell.width + (i === cells.length - 1 ? width - cell.x - cell.width : 0), middle: x + cell.x + cell.width / 2, y }, layers);
        const next = cells[i + 1];
        if (next && isPipe(cell.part) && isPipe(next.part)) {
            lines.push(`<path ${inked('line')} d="M${n(x + cell.x + cell.width)} ${n(y - 5)}V${n(y + 5)}"/>`);
            explain(drawing, 'joint of two pipes', `<path ${inked('line')} d="M5 0H35"/><path ${inked('line')} d="M20 -5V5"/>`);
        }
    }
    if (after) things.push(boundary(drawing, after, x + width - BOUNDARY / 2, y));
    if (run.from === undefined) lines.push(loose(drawing, x, y));
    if (run.to === undefined) lines.push(loose(drawing, x + width, y));
}

/** The size of the names of spaces. */
const SPACE = 8;

/** A name as far as there is room above the line; whole in the title of the boundary. */
function cut(name: string): string {
    if (widthOf(name, SPACE) <= ABOVE - 12) return name;
    let short = '';
    for (const sign of name) { if (widthOf(`${short}${sign}…`, SPACE) > ABOVE - 12) break; short += sign; }
    return `${short}…`;
}

/** The bulkhead between two spaces, with their names on either side. */
function boundary(drawing: Drawing, { from, to }: Boundary, x: number, y: number): string {
    const line = `<path ${inked('thin')} stroke-dasharray="10 3 2 3" d="M${n(x)} ${n(y - ABOVE + 2)}V${n(y + BELOW - 2)}"/>`;
    explain(drawing, 'line passes into another space', `<path ${inked('thin')} stroke-dasharray="10 3 2 3" d="M20 -12V12"/>`);
    const upright = (name: string, at: number): string => `<g transform="rotate(-90 ${n(at)} ${n(y - 8)})">${words(cut(name), { x: at, y: y - 8, size: SPACE })}</g>`;
    return `<g data-boundary="${escapeXml(`${from} ${to}`)}"><title>${escapeXml(`between ${from} and ${to}`)}</title>${line}${upright(from, x - 3.5)}${upright(to, x + 10)}</g>\n`;
}

interface At { readonly start: number; readonly end: number; readonly middle: number; readonly y: number }

function drawCell(drawing: Drawing, service: Service, { part, right, width }: PlacedCell, { start, end, middle, y }: At, { under, lines, things }: Layers): void {
    const marks = marksOf(drawing, part.id);
    const style = lineStyle(service, weight(drawing, part.id));
    const shut = drawing.positions.get(part.id) === 'shut';
    const says = `${part.name}${part.title === undefined ? '' : `, ${part.title}`}: ${part.kind}`;
    if (isPipe(part)) {
        const wave = part.kind === 'hose' ? `M${n(start)} ${n(y)}H${n(middle - 18)}q3 -6 6 0t6 0t6 0t6 0t6 0t6 0H${n(end)}` : `M${n(start)} ${n(y)}H${n(end)}`;
        if (part.kind === 'hose') explain(drawing, 'hose; a pipe without waves is rigid', `<path ${inked('line')} d="M2 0q3 -6 6 0t6 0t6 0t6 0t6 0t6 0"/>`);
        const box: Box = { x: middle - 20, y: y - 7, width: 40, height: 14 };
        under.push(underlay(box, marks));
        things.push(thing(part.id, part.kind, says, `<path ${style} d="${wave}"/>${arrowAt([middle + (right ? 38 : -38), y], right)}${labels(part.tag, part.id, figuresOf(part), middle, y + 20)}${shapes(box, marks)}${saidOver(fitted(drawing, marks, width - 4, 3), middle, y - 9)}`));
        return;
    }
    const sign = signOf(part, shut);
    const flip = right === !part.reversed;
    const body = turned(sign.body, flip);
    explain(drawing, sign.name, `<g transform="translate(20 ${n((sign.above - TALL) / 2)})">${sign.body}</g>`, sign.above + TALL);
    // The bar of a check stands before the end of its sign.
    const short = part.kind === 'check' ? 4 : 0;
    lines.push(sign.through ? `<path ${style} d="M${n(start)} ${n(y)}H${n(end)}"/>` : `<path ${style} d="M${n(start)} ${n(y)}H${n(middle - HALF + (flip ? 0 : short))}M${n(middle + HALF - (flip ? short : 0))} ${n(y)}H${n(end)}"/>`);
    const box: Box = { x: middle - HALF, y: y - Math.max(TALL, sign.above), width: 2 * HALF, height: Math.max(TALL, sign.above) + TALL };
    under.push(underlay(box, marks));
    const drained = part.drain ? `<g transform="translate(${n(middle)} ${n(y + HALF)})">${drain(part.plugged === true)}</g>` : '';
    if (part.drain) explain(drawing, part.plugged ? 'drain with a cap' : 'drain', `<g transform="translate(20 -6)">${drain(part.plugged === true)}</g>`);
    const foot = y + (part.drain ? 44 : 32);
    // Above its bleed points and what is said of them.
    const told = part.vents.some((vent) => roomFor(marksOf(drawing, vent.id)).height > 0);
    const bled = part.vents.length === 0 ? 0 : told ? 38 : 15;
    const own = fitted(drawing, marks, width - 8, told ? 1 : bled > 0 ? 2 : 4);
    const top = y - Math.max(TALL, sign.above) - OFF - 2 - bled - (marks.some(({ as }) => as === 'turned' || as === 'open') ? 9 : 0);
    things.push(thing(part.id, part.kind, says, `<g transform="translate(${n(middle)} ${n(y)})">${body}</g>${drained}${labels(part.tag, part.id, figuresOf(part), middle, foot)}${shapes(box, marks)}${saidOver(own, middle, top)}`));
    things.push(bleeds(drawing, part.vents, middle, y - sign.above, under));
}

/** A sign is drawn for flow to the right; letters in it are never turned over. */
function turned(body: string, right: boolean): string {
    if (right) return body;
    const texts = [...body.matchAll(/<text[\s\S]*?<\/text>/g)].map(([text]) => text);
    return `<g transform="scale(-1 1)">${texts.reduce((rest, text) => rest.replace(text, ''), body)}</g>${texts.join('')}`;
}

/** The words of marks in the middle over a part. */
const saidOver = (marks: readonly Mark[], middle: number, y: number): string => said(marks, { x: middle - roomFor(marks).width / 2, y });

function labels(tag: string | undefined, id: Id, figures: readonly string[], x: number, y: number): string {
    const first = tag === undefined ? [] : [words(tag, { x, y, anchor: 'middle', bold: true, also: tagged(id) })];
    return [...first, ...figures.map((line, i) => words(line, { x, y: y + (tag === undefined ? 0 : 13) + i * 12, size: SMALL, anchor: 'middle' }))].join('');
}

