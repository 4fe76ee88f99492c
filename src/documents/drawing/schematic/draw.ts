/** A schematic as SVG: blocks that were placed, filled with signs, tags and figures, and the lines between them. */
import type { Boat } from '../../../model/boat';
import { capital, listed } from '../../../model/words';
import { escapeXml } from '../../procedures/safe';
import { legend } from '../legend';
import { lineStyle, type Weight } from '../line-styles';
import { unsaidNotes } from '../markups/line-up';
import type { Laid } from '../plan';
import { DEFERRAL, drawnLineUp, lineUpWords, marksById, type Sheet } from '../sheet';
import { n, svg, words, type Point } from '../svg';
import { titleBlock } from '../title-block';
import { wrapTo } from '../wrap';
import { ABOVE } from './cells';
import { arrowAt, d, gathered, weight, type Drawing } from './drawing';
import { drawFixture } from './fixtures';
import { parted } from './parting';
import type { Schematic } from './place';
import { drawRun } from './row';
import { entries } from './signs';

const MARGIN = 30;

export function drawSchematic(schematic: Schematic, laid: Laid, sheet: Sheet): string {
    const { boat } = schematic;
    const lineUp = drawnLineUp(boat, sheet.lineUp);
    const drawing: Drawing = { boat, positions: sheet.markup?.positions ?? lineUp?.positions ?? new Map(), marks: new Map([...marksById(sheet.markup)].map(([id, own]) => [id, gathered(own)])), services: new Set(), signs: new Map(), cut: [] };

    const [left, top] = [MARGIN, MARGIN + 26];
    const { under, lines, things } = { under: [] as string[], lines: [] as string[], things: [] as string[] };
    // What runs together is drawn with the weight of what weighs most.
    const way = parted(schematic, laid, (id) => WEIGHTS.indexOf(linkWeight(drawing, schematic, id)));
    for (const { id } of schematic.plan.links) lines.push(drawLink(drawing, schematic, id, way.lines.get(id)!));
    for (const [id, block] of schematic.blocks) {
        const { x, y, width, height } = laid.blocks.get(id)!;
        if ('run' in block) drawRun(drawing, block, [x, y + ABOVE], { under, lines, things });
        else things.push(drawFixture(drawing, block.fixture, { x, y, width, height }, { laid, dots: way.dots.get(id) }, under));
    }
    const body = `<g transform="translate(${n(left)} ${n(top)})">\n${[...under, ...lines, ...things].filter((piece) => piece !== '').map((piece) => piece.trimEnd()).join('\n')}\n</g>\n`;

    const foot = top + laid.height + 24;
    const block = titleBlock([
        { name: 'Boat', value: boat.title ?? boat.name }, { name: 'Sheet', value: 'Schematic' }, { name: 'Showing', value: sheet.markup?.title ?? 'the boat as written' }, { name: 'Line-up', value: lineUpWords(boat, sheet.markup?.lineUp ?? lineUp?.id, drawing.positions) },
        { name: 'Heights from', value: boat.vessel.datum ?? '' }, { name: 'Revision', value: sheet.revision ?? '' }, { name: 'Date', value: sheet.date ?? '' },
    ]);
    const width = Math.max(laid.width + 2 * MARGIN, 640, block.width + 2 * MARGIN);
    const notes = [...new Set([...(sheet.markup?.notes ?? []), ...(lineUp ? unsaidNotes(lineUp) : [])]), ...drawing.cut, ...boundaryNote(schematic), ...mediumNote(boat), DEFERRAL].flatMap((note) => wrapTo(note, width - 2 * MARGIN));
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

const WEIGHTS: readonly (Weight | undefined)[] = ['live', undefined, 'dead'];

/** That of what it leads to; where it leads from one fixture to another, of both. */
function linkWeight(drawing: Drawing, { links, at }: Schematic, id: string): Weight | undefined {
    const run = links.get(id)!;
    const cell = id.endsWith(' first') ? run.cells[0] : run.cells.at(-1);
    if (cell) return weight(drawing, cell.part.id);
    const ends = [run.from, run.to].map((point) => {
        const fixture = point === undefined ? undefined : at.get(point);
        return fixture && weight(drawing, fixture.part?.id ?? fixture.consumer?.id ?? point!);
    });
    return ends.every((end) => end === 'live') ? 'live' : ends.find((end) => end === 'dead');
}

function drawLink(drawing: Drawing, schematic: Schematic, id: string, line: readonly Point[]): string {
    const run = schematic.links.get(id)!;
    drawing.services.add(run.service);
    const end = run.right ? run.to : run.from;
    // Where it comes back to a tank it points into it.
    if (run.turns && !id.endsWith(' first')) return `<g data-course="${escapeXml(run.course)}"><path ${lineStyle(run.service, linkWeight(drawing, schematic, id))} d="${d(line)}"/>${arrowAt([line[0]![0] + 1, line[0]![1]], false)}</g>`;
    const head = run.cells.length === 0 && schematic.at.get(end ?? '')?.kind !== 'tee' ? arrowAt(run.right ? line.at(-1)! : line[0]!, run.right) : '';
    return `<g data-course="${escapeXml(run.course)}"><path ${lineStyle(run.service, linkWeight(drawing, schematic, id))} d="${d(line)}"/>${head}</g>`;
}

/** A bulkhead stands beside the nearest part that is known to be beyond it. */
function boundaryNote({ blocks }: Schematic): string[] {
    const crossed = [...blocks.values()].some((block) => 'run' in block && (block.after !== undefined || block.cells.some(({ before }) => before !== undefined)));
    return crossed ? ['Where a line passes from one space into the next was not written: its mark stands beside the nearest part that is known to be beyond it.'] : [];
}

/** Lines of other liquids are drawn like those of fuel; whose they are is said. */
function mediumNote(boat: Boat): string[] {
    const others = boat.tanks.filter(({ carries }) => carries !== undefined && carries !== 'diesel').map(({ id, carries }) => `${id} and its lines carry ${carries}`);
    const sea = boat.courses.some(({ from }) => from.outside === 'sea') ? ['what comes from the sea is raw water'] : [];
    return others.length + sea.length === 0 ? [] : [`${capital(listed([...others, ...sea]))}; lines are told apart by what they do, not by what is in them.`];
}
