/** A schematic as SVG: blocks that were placed, filled with signs, tags and figures, and the lines between them. */
import type { Id } from '../../../model/boat';
import { lineUpsOf, normalLineUp } from '../../../analysis/topology/line-ups';

import { escapeXml } from '../../procedures/safe';
import { legend } from '../legend';
import { lineStyle } from '../line-styles';
import type { Mark } from '../markup';
import type { Laid } from '../plan';
import { DEFERRAL, type Sheet } from '../sheet';
import { n, svg, words } from '../svg';
import { titleBlock } from '../title-block';
import { wrapTo } from '../wrap';
import { ABOVE } from './cells';
import { arrowAt, d, gathered, weight, type Drawing } from './drawing';
import { drawFixture } from './fixtures';
import type { Schematic } from './place';
import { drawRun } from './row';
import { entries } from './signs';

const MARGIN = 30;

export function drawSchematic(schematic: Schematic, laid: Laid, sheet: Sheet): string {
    const { boat } = schematic;
    const lineUps = lineUpsOf(boat);
    const lineUp = lineUps.find(({ id }) => id === sheet.lineUp) ?? normalLineUp(boat, lineUps);
    const marks = new Map<Id, Mark[]>();
    for (const mark of sheet.markup?.marks ?? []) { const known = marks.get(mark.about); if (known) known.push(mark); else marks.set(mark.about, [mark]); }
    const drawing: Drawing = { boat, positions: sheet.markup?.positions ?? lineUp?.positions ?? new Map(), marks: new Map([...marks].map(([id, own]) => [id, gathered(own)])), services: new Set(), signs: new Map() };

    const [left, top] = [MARGIN, MARGIN + 26];
    const { under, lines, things } = { under: [] as string[], lines: [] as string[], things: [] as string[] };
    for (const { id } of schematic.plan.links) lines.push(drawLink(drawing, schematic, id, laid));
    for (const [id, block] of schematic.blocks) {
        const { x, y, width, height } = laid.blocks.get(id)!;
        if ('run' in block) drawRun(drawing, block, [x, y + ABOVE], { under, lines, things });
        else things.push(drawFixture(drawing, block.fixture, { x, y, width, height }, laid, under));
    }
    const body = `<g transform="translate(${n(left)} ${n(top)})">\n${[...under, ...lines, ...things].join('')}</g>\n`;

    const foot = top + laid.height + 24;
    const block = titleBlock([
        { name: boat.title ?? boat.name, value: 'Schematic' }, { name: 'Showing', value: sheet.markup?.title ?? 'the boat as written' }, { name: 'Line-up', value: lineUp?.id ?? '' },
        { name: 'Heights from', value: boat.vessel.datum ?? '' }, { name: 'Revision', value: sheet.revision ?? '' }, { name: 'Date', value: sheet.date ?? '' },
    ]);
    const width = Math.max(laid.width + 2 * MARGIN, 640, block.width + 2 * MARGIN);
    const notes = [...(sheet.markup?.notes ?? []), ...boundaryNote(schematic), DEFERRAL].flatMap((note) => wrapTo(note, width - 2 * MARGIN));
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

function drawLink(drawing: Drawing, { links, at }: Schematic, id: string, laid: Laid): string {
    const run = links.get(id)!;
    const line = laid.links.get(id)!;
    drawing.services.add(run.service);
    // It bears the weight of what it leads to; where it leads from one fixture to another, of both.
    const cell = id.endsWith(' first') ? run.cells[0] : run.cells.at(-1);
    const ends = [run.from, run.to].map((point) => point === undefined ? undefined : at.get(point)?.part?.id ?? point);
    const style = lineStyle(run.service, cell ? weight(drawing, cell.part.id) : ends.every((end) => end !== undefined && weight(drawing, end) === 'live') ? 'live' : ends.some((end) => end !== undefined && weight(drawing, end) === 'dead') ? 'dead' : undefined);
    const [from, to] = [line[0]!, line.at(-1)!];
    const head = run.cells.length === 0 ? arrowAt(run.right ? to : from, run.right) : '';
    return `<g data-course="${escapeXml(run.course)}"><path ${style} d="${d(line)}"/>${head}</g>\n`;
}

/** A bulkhead stands where the first part beyond it is known to be; where on the line it is may not be said. */
function boundaryNote({ blocks }: Schematic): string[] {
    const crossed = [...blocks.values()].some((block) => 'run' in block && (block.after !== undefined || block.cells.some(({ before }) => before !== undefined)));
    return crossed ? ['A line passes from one space into the next before the first part that is known to stand there: where exactly, was not written.'] : [];
}
