/** A schematic as SVG: blocks that were placed, filled with signs, tags and figures, and the lines between them. */
import type { Boat, Id, Service, Vent } from '../../../model/boat';
import { lineUpsOf, normalLineUp } from '../../../analysis/topology/line-ups';
import type { Positions } from '../../../analysis/topology/network';
import { legend } from '../legend';
import { SERVICE_WORDS, lineStyle, weightOf, type Weight } from '../line-styles';
import { LOOK_WORDS, OFF, roomFor, said, sampleOf, shapes, underlay, type Box } from '../marks';
import type { Look, Mark } from '../markup';
import type { Laid } from '../plan';
import type { Sheet } from '../sheet';
import { inked, n, svg, thing, widthOf, words, type Point } from '../svg';
import { titleBlock } from '../title-block';
import { wrapTo } from '../wrap';
import { ABOVE, BELOW, BOUNDARY, ROW, SMALL, figuresOf, isPipe, type Boundary } from './cells';
import { drawFixture } from './fixtures';
import type { PlacedCell, RunBlock, Schematic } from './place';
import { HALF, TALL, arrow, bleedPoint, drain, signOf } from './symbols';

const MARGIN = 30;

/** What is drawn by many hands: where valves stand, what is marked, and what the legend has to explain. */
export interface Drawing {
    readonly boat: Boat;
    readonly positions: Positions;
    readonly marks: ReadonlyMap<Id, readonly Mark[]>;
    readonly services: Set<Service>;
    /** Samples of signs by their name. */
    readonly signs: Map<string, string>;
}

export const marksOf = ({ marks }: Drawing, id: Id): readonly Mark[] => marks.get(id) ?? [];

export function drawSchematic(schematic: Schematic, laid: Laid, sheet: Sheet): string {
    const { boat } = schematic;
    const lineUps = lineUpsOf(boat);
    const lineUp = lineUps.find(({ id }) => id === sheet.lineUp) ?? normalLineUp(boat, lineUps);
    const marks = new Map<Id, Mark[]>();
    for (const mark of sheet.markup?.marks ?? []) { const known = marks.get(mark.about); if (known) known.push(mark); else marks.set(mark.about, [mark]); }
    const drawing: Drawing = { boat, positions: sheet.markup?.positions ?? lineUp?.positions ?? new Map(), marks: new Map([...marks].map(([id, own]) => [id, gathered(own)])), services: new Set(), signs: new Map() };

    const [left, top] = [MARGIN, MARGIN + 26];
    const under: string[] = [];
    const lines: string[] = [];
    const things: string[] = [];
    for (const { id } of schematic.plan.links) lines.push(drawLink(drawing, schematic, id, laid));
    for (const [id, block] of schematic.blocks) {
        const { x, y, width, height } = laid.blocks.get(id)!;
        if ('run' in block) drawRun(drawing, block, [x, y + ABOVE], under, lines, things);
        else things.push(drawFixture(drawing, block.fixture, { x, y, width, height }, laid, under));
    }
    const body = `<g transform="translate(${n(left)} ${n(top)})">\n${[...under, ...lines, ...things].join('')}</g>\n`;

    const foot = top + laid.height + 24;
    const block = titleBlock([
        { name: boat.title ?? boat.name, value: 'Schematic' }, { name: 'Showing', value: sheet.markup?.title ?? 'the boat as written' }, { name: 'Line-up', value: lineUp?.id ?? '' },
        { name: 'Heights from', value: boat.vessel.datum ?? '' }, { name: 'Revision', value: sheet.revision ?? '' }, { name: 'Date', value: sheet.date ?? '' },
    ]);
    const width = Math.max(laid.width + 2 * MARGIN, 640, block.width + 2 * MARGIN);
    const notes = [...(sheet.markup?.notes ?? []), ...boundaryNote(schematic)].flatMap((note) => wrapTo(note, width - 2 * MARGIN));
    const key = legend(entries(drawing), Math.max(200, width - 3 * MARGIN - block.width));
    const noted = notes.map((line, i) => words(line, { x: MARGIN, y: foot + 10 + i * 15 })).join('\n');
    const below = foot + notes.length * 15 + (notes.length > 0 ? 20 : 0);
    const height = below + Math.max(key.height, block.height) + MARGIN;
    return svg({
        width, height, title: `${boat.title ?? boat.name}: schematic${sheet.markup ? `, ${sheet.markup.title}` : ''}`,
        body: words(`${boat.title ?? boat.name}: schematic${sheet.markup ? `. ${sheet.markup.title}` : ''}`, { x: MARGIN, y: MARGIN, size: 15, bold: true }) + '\n' + body + noted
            + `<g transform="translate(${n(MARGIN)} ${n(below)})">${key.body}</g>\n<g transform="translate(${n(width - MARGIN - block.width)} ${n(below)})">${block.body}</g>\n`,
    });
}

/** Marks of one look at one thing say what they say in one line. */
function gathered(marks: readonly Mark[]): Mark[] {
    const looks = [...new Set(marks.map(({ as }) => as))];
    return looks.map((as) => {
        const own = marks.filter((mark) => mark.as === as);
        const said = own.flatMap((mark) => mark.words ?? []);
        return { about: own[0]!.about, as, ...(said.length > 0 && { words: said.join(', ') }) };
    });
}

/** For a blank at which no line is broken: both systems of one figure stay together. */
const JOINED = '\u0001';

/**
 * Words of marks broken to a width, in no more lines than there is room for: what is left out stands in the notes and in the text. A look
 * that rings a number stays on its line.
 */
export function fitted(marks: readonly Mark[], width: number, lines: number): Mark[] {
    const all = marks.flatMap((mark): Mark[] => mark.words === undefined || mark.as === 'number' || mark.as === 'finding' ? [mark] : wrapTo(mark.words.replace(/\([^)]*\)/g, (inner) => inner.replaceAll(' ', JOINED)), width, SMALL).map((line) => ({ ...mark, words: line.replaceAll(JOINED, ' ') })));
    const worded = all.filter(({ words: own }) => own !== undefined);
    const last = worded[lines - 1];
    return worded.length <= lines ? all : all.filter((mark) => mark.words === undefined || worded.indexOf(mark) < lines).map((mark) => (mark === last && mark.as !== 'number' && mark.as !== 'finding' ? { ...mark, words: `${mark.words}…` } : mark));
}

const weight = (drawing: Drawing, id: Id): Weight | undefined => weightOf(marksOf(drawing, id));

function drawLink(drawing: Drawing, { links }: Schematic, id: string, laid: Laid): string {
    const run = links.get(id)!;
    const line = laid.links.get(id)!;
    drawing.services.add(run.service);
    // It bears the weight of the pipe that it leads to.
    const cell = id.endsWith(' first') ? run.cells[0] : run.cells.at(-1);
    const style = lineStyle(run.service, cell && weight(drawing, cell.part.id));
    const [from, to] = [line[0]!, line.at(-1)!];
    const head = run.cells.length === 0 ? arrowAt(run.right ? to : from, run.right) : '';
    return `<g data-course="${escape(run.course)}"><path ${style} d="${d(line)}"/>${head}</g>\n`;
}

const escape = (text: string): string => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
export const d = (line: readonly Point[]): string => line.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('');
const arrowAt = ([x, y]: Point, right: boolean): string => `<g transform="translate(${n(x)} ${n(y)})">${arrow(right)}</g>`;

/** A row of parts. `y` is where the line runs. */
function drawRun(drawing: Drawing, { run, cells, width, after }: RunBlock, [x, y]: Point, under: string[], lines: string[], things: string[]): void {
    drawing.services.add(run.service);
    for (const [i, cell] of cells.entries()) {
        if (cell.before) things.push(boundary(drawing, cell.before, x + cell.x - BOUNDARY / 2, y));
        drawCell(drawing, run.service, cell, { start: x + (i === 0 ? 0 : cell.x - (cell.before ? BOUNDARY : 0)), end: x + cell.x + cell.width + (i === cells.length - 1 ? width - cell.x - cell.width : 0), middle: x + cell.x + cell.width / 2, y }, under, lines, things);
        const next = cells[i + 1];
        if (next && isPipe(cell.part) && isPipe(next.part)) lines.push(`<path ${inked('line')} d="M${n(x + cell.x + cell.width)} ${n(y - 5)}V${n(y + 5)}"/>`);
    }
    if (after) things.push(boundary(drawing, after, x + width - BOUNDARY / 2, y));
    if (run.from === undefined) lines.push(loose(drawing, x, y));
    if (run.to === undefined) lines.push(loose(drawing, x + width, y));
}

function loose(drawing: Drawing, x: number, y: number): string {
    const body = `<path ${inked('line')} d="M${n(x - 4)} ${n(y - 5)}L${n(x + 4)} ${n(y + 5)}M${n(x - 4)} ${n(y + 5)}L${n(x + 4)} ${n(y - 5)}"/>`;
    drawing.signs.set('end that is joined to nothing', `<path ${inked('line')} d="M10 -5L18 5M10 5L18 -5"/>`);
    return body;
}

/** The bulkhead between two spaces, with their names on either side. */
const SPACE = 8;

/** A name as far as there is room above the line; whole in the title of the boundary. */
function cut(name: string): string {
    if (widthOf(name, SPACE) <= ABOVE - 12) return name;
    let short = '';
    for (const sign of name) { if (widthOf(`${short}${sign}…`, SPACE) > ABOVE - 12) break; short += sign; }
    return `${short}…`;
}

function boundary(drawing: Drawing, { from, to }: Boundary, x: number, y: number): string {
    const line = `<path ${inked('thin')} stroke-dasharray="10 3 2 3" d="M${n(x)} ${n(y - ABOVE + 2)}V${n(y + BELOW - 2)}"/>`;
    drawing.signs.set('line passes into another space', `<path ${inked('thin')} stroke-dasharray="6 2 2 2" d="M14 -10V10"/>`);
    const upright = (name: string, at: number): string => `<g transform="rotate(-90 ${n(at)} ${n(y - 8)})">${words(cut(name), { x: at, y: y - 8, size: SPACE })}</g>`;
    return `<g data-boundary="${escape(`${from} ${to}`)}"><title>${escape(`from ${from} into ${to}`)}</title>${line}${upright(from, x - 3.5)}${upright(to, x + 10)}</g>\n`;
}

interface At { readonly start: number; readonly end: number; readonly middle: number; readonly y: number }

function drawCell(drawing: Drawing, service: Service, { part, right, width }: PlacedCell, { start, end, middle, y }: At, under: string[], lines: string[], things: string[]): void {
    const marks = marksOf(drawing, part.id);
    const style = lineStyle(service, weight(drawing, part.id));
    const shut = drawing.positions.get(part.id) === 'shut';
    const says = `${part.name}${part.title === undefined ? '' : `, ${part.title}`}: ${part.kind}`;
    if (isPipe(part)) {
        const wave = part.kind === 'hose' ? `M${n(start)} ${n(y)}H${n(middle - 18)}q3 -6 6 0t6 0t6 0t6 0t6 0t6 0H${n(end)}` : `M${n(start)} ${n(y)}H${n(end)}`;
        // Two sides of one bore.
        if (part.kind === 'hose') drawing.signs.set('hose', `<path ${inked('line')} d="M0 0q2.5 -6 5 0t5 0t5 0t5 0t5 0t5 0"/>`);
        else drawing.signs.set('rigid pipe', `<path ${inked('line')} d="M0 0H30"/>`);
        const box: Box = { x: middle - 20, y: y - 7, width: 40, height: 14 };
        under.push(underlay(box, marks));
        things.push(thing(part.id, part.kind, says, `<path ${style} d="${wave}"/>${arrowAt([middle + (right ? 38 : -38), y], right)}${labels(part.tag, part.id, figuresOf(part), middle, y + 20)}${shapes(box, marks)}${said(fitted(marks, width, 3), { x: middle - width / 2 + 4, y: y - 9 })}`));
        return;
    }
    const sign = signOf(part, shut);
    const flip = right === !part.reversed;
    const body = turned(sign.body, flip);
    drawing.signs.set(sign.name, `<g transform="translate(15 ${n(sign.above > 16 ? 6 : 0)}) scale(${sign.above > 20 ? 0.6 : 0.75})">${sign.body}</g>`);
    lines.push(sign.through ? `<path ${style} d="M${n(start)} ${n(y)}H${n(end)}"/>` : `<path ${style} d="M${n(start)} ${n(y)}H${n(middle - HALF)}M${n(middle + HALF - (part.kind === 'check' ? 4 : 0) * (flip ? 1 : 0))} ${n(y)}H${n(end)}"/>`);
    const box: Box = { x: middle - HALF, y: y - Math.max(TALL, sign.above), width: 2 * HALF, height: Math.max(TALL, sign.above) + TALL };
    under.push(underlay(box, marks));
    const drained = part.drain ? `<g transform="translate(${n(middle)} ${n(y + HALF)})">${drain(part.plugged === true)}</g>` : '';
    if (part.drain) drawing.signs.set(part.plugged ? 'drain with a cap' : 'drain', `<g transform="translate(15 -6)">${drain(part.plugged === true)}</g>`);
    const foot = y + (part.drain ? 44 : 32);
    // Above its bleed points and what is said of them.
    const bled = part.vents.length === 0 ? 0 : 15 + Math.max(...part.vents.map((vent) => roomFor(marksOf(drawing, vent.id)).height));
    const own = fitted(marks, width - 8, bled > 15 ? 1 : bled > 0 ? 2 : 3);
    const top = y - Math.max(TALL, sign.above) - OFF - 2 - bled - (marks.some(({ as }) => as === 'turned' || as === 'open') ? 9 : 0);
    things.push(thing(part.id, part.kind, says, `<g transform="translate(${n(middle)} ${n(y)})">${body}</g>${drained}${labels(part.tag, part.id, figuresOf(part), middle, foot)}${shapes(box, marks)}${said(own, { x: middle - width / 2 + 4, y: top })}`));
    things.push(bleeds(drawing, part.vents, middle, y - sign.above, under));
}

/** A sign is drawn for flow to the right; letters in it are never turned over. */
function turned(body: string, right: boolean): string {
    if (right) return body;
    const texts = [...body.matchAll(/<text[\s\S]*?<\/text>/g)].map(([text]) => text);
    return `<g transform="scale(-1 1)">${texts.reduce((rest, text) => rest.replace(text, ''), body)}</g>${texts.join('')}`;
}

/** Bleed points side by side over a sign, each with its tag to the right. */
export function bleeds(drawing: Drawing, vents: readonly Vent[], middle: number, y: number, under: string[]): string {
    let x = middle;
    return vents.map((vent) => {
        drawing.signs.set('bleed point', `<g transform="translate(15 5)">${bleedPoint()}</g>`);
        const marks = marksOf(drawing, vent.id);
        const box: Box = { x: x - 4, y: y - 9, width: 8, height: 9 };
        under.push(underlay(box, marks));
        const drawn = thing(vent.id, 'bleed point', `${vent.tag}${vent.title === undefined ? '' : `, ${vent.title}`}: bleed point`,
            `<g transform="translate(${n(x)} ${n(y)})">${bleedPoint()}</g>${words(vent.tag, { x: x + 7, y: y - 3, size: SMALL, also: tagged(vent.id) })}${shapes(box, marks)}${said(fitted(marks, 96, 2), { x: x - 5, y: y - 15 })}`);
        x += widthOf(vent.tag, SMALL) + 18;
        return drawn;
    }).join('');
}

export const tagged = (id: Id): string => `data-tag="${escape(id)}"`;

function labels(tag: string | undefined, id: Id, figures: readonly string[], x: number, y: number): string {
    const first = tag === undefined ? [] : [words(tag, { x, y, anchor: 'middle', bold: true, also: tagged(id) })];
    return [...first, ...figures.map((line, i) => words(line, { x, y: y + (tag === undefined ? 0 : 13) + i * 12, size: SMALL, anchor: 'middle' }))].join('');
}

const ORDER: readonly Service[] = ['supply', 'return', 'transfer', 'vent', 'fill'];

function entries({ services, signs, marks, boat }: Drawing): { sample: string; width: number; says: string }[] {
    const looks = new Set<Look>([...marks.values()].flatMap((own) => own.map(({ as }) => as)));
    const said = new Set(boat.parts.flatMap((part) => part.kind === 'shutoff' ? figuresOf(part) : []));
    const letters = [['NO', 'normally open'], ['NC', 'normally shut'], ['LO', 'locked open']].filter(([sign]) => said.has(sign!));
    return [
        ...ORDER.filter((service) => services.has(service)).map((service) => ({ sample: `<path ${lineStyle(service)} d="M0 0H30"/>`, width: 30, says: SERVICE_WORDS[service] })),
        { sample: `<g transform="translate(20 0)">${arrow(true)}</g>`, width: 30, says: 'direction of flow; the figure under a pipe is its bore' },
        ...[...signs].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([says, sample]) => ({ sample, width: 30, says })),
        ...letters.map(([sign, says]) => ({ sample: words(sign!, { x: 15, y: 4, size: SMALL, anchor: 'middle' }), width: 30, says: says! })),
        ...(Object.keys(LOOK_WORDS) as Look[]).filter((look) => looks.has(look)).map((look) => ({ sample: look === 'live' || look === 'dead' ? `<path ${lineStyle('supply', look)} d="M0 0H30"/>` : sampleOf(look), width: 30, says: LOOK_WORDS[look] })),
    ];
}

/** A bulkhead stands where the first part beyond it is known to be; where on the line it is may not be said. */
function boundaryNote({ blocks }: Schematic): string[] {
    const crossed = [...blocks.values()].some((block) => 'run' in block && (block.after !== undefined || block.cells.some(({ before }) => before !== undefined)));
    return crossed ? ['A line passes from one space into the next before the first part that is known to stand there: where exactly, was not written.'] : [];
}

export { ROW };
