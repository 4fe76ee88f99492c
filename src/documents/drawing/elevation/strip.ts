/** A run as a strip of columns, in every view alike, and rows of strips that share one scale of heights. */
import { isPipe } from '../../../analysis/topology/network';
import type { Id, Tank } from '../../../model/boat';
import { fittingOf } from '../../../analysis/topology/joints';
import type { Mark } from '../markup';
import { inked, n, words } from '../svg';
import { wrapTo } from '../wrap';
import { broken, extents, outsideColumn, partColumn, pipeColumn, type Column, type Drawn, type Fragment, type Frame, type Told } from './column';
import { drawLabel, label, leader, SIZE, stackedDown, stackedUp, type Label, type Placed } from './labels';
import { outsidePlace } from './places';
import type { Run } from './runs';
import { lineStyle } from '../line-styles';
import { tankColumn } from './tank-column';
import { mm, tankIn, tanksAt, waterlineIn, type View } from './view';

export interface Strip {
    readonly width: number;
    readonly heading: readonly { readonly text: string; readonly bold: boolean }[];
    readonly run: Run;
    /** For each view the columns, and the surfaces of tanks that are drawn across. */
    readonly views: readonly StripView[];
}

interface StripView {
    readonly view: View;
    readonly columns: readonly Column[];
    readonly surfaces: readonly Surface[];
}

interface Surface {
    readonly tank: Tank;
    readonly height: number;
    /** For a tank that is not drawn in the strip. */
    readonly label?: Label;
}

const HEAD_LINE = 14;
/** Beyond the last column, for surfaces of tanks that are not in the strip. */
const [MARGIN, PAD] = [6, 8] as const;

export const nameOf = (view: View, id: Id): string => {
    const { boat, network } = view.state;
    const [, end] = /:(air|deck|sea)$/.exec(id) ?? [];
    return end === undefined ? network.parts.get(id)?.name ?? fittingOf(boat, id)?.id ?? id : end === 'air' ? 'the open air' : end === 'deck' ? 'the deck' : 'the sea';
};

/** `first`: whether a tank was not met before on the sheet. No strip is wider than `most`, unless one column is. */
export function stripsOf(run: Run, views: readonly View[], marksOf: (id: Id) => readonly Mark[], first: (tank: Id) => boolean, most: number): Strip[] {
    const columns = columnsOf(run, views, marksOf, first);
    const widths = columns.map((each) => Math.max(...each.map(({ width }) => width)));
    const tanks = run.loose ? [] : tanksAt(views[0]!.state, run.stops.flatMap(({ into, out }) => [into, out].filter((point) => point !== undefined)));
    const pieces: number[][] = [];
    for (const i of run.stops.keys()) {
        const piece = pieces.at(-1);
        const wide = piece?.reduce((sum, k) => sum + widths[k]!, 0) ?? 0;
        if (!piece || (piece.length > 1 && wide + widths[i]! > most)) pieces.push(piece && !run.loose && piece.at(-1)! > piece[0]! ? [piece.at(-1)!, i] : [i]); else piece.push(i);
    }
    return pieces.map((piece, part): Strip => {
        const title = run.course ? run.course.title ?? run.course.id : 'Joined to nothing';
        const says = `${run.course ? `${run.course.title === undefined ? '' : `${run.course.id}, `}${run.service}, ` : ''}${run.loose ? '' : `${nameOf(views[0]!, run.stops[piece[0]!]!.id)} to ${nameOf(views[0]!, run.stops[piece.at(-1)!]!.id)}`}${part === 0 ? '' : ' (continued)'}`;
        const here = new Set(piece.flatMap((i) => columns[i]!.map(({ id }) => id)));
        const drawn = views.map((view, v): StripView => ({
            view, columns: piece.map((i) => columns[i]![v]!),
            surfaces: tanks.flatMap((tank): Surface[] => { const height = tankIn(view, tank)?.shown; return height === undefined ? [] : [{ tank, height, ...(!here.has(tank.id) && { label: label({ text: tank.id, id: tank.id }, `${mm(height)}`) }) }]; }),
        }));
        const margin = Math.max(0, ...drawn.flatMap(({ surfaces }) => surfaces.flatMap((surface) => (surface.label ? [surface.label.width + PAD] : []))));
        const width = Math.max(piece.reduce((sum, i) => sum + widths[i]!, 0) + MARGIN + margin, 110);
        return { width, heading: [...wrapTo(title, width, SIZE + 1, true).map((text) => ({ text, bold: true })), ...wrapTo(says, width, SIZE).map((text) => ({ text, bold: false }))], run, views: drawn };
    });
}

function columnsOf({ stops, service, loose }: Run, views: readonly View[], marksOf: (id: Id) => readonly Mark[], first: (tank: Id) => boolean): Column[][] {
    return stops.map((stop, i) => {
        const fitting = fittingOf(views[0]!.state.boat, stop.id);
        const tank = views[0]!.state.boat.tanks.find(({ id }) => id === (fitting?.tank ?? stop.id));
        const full = tank && first(tank.id);
        return views.map((view): Column => {
            const { network } = view.state;
            const told: Told = { view, service, marksOf, from: !loose && i > 0, on: !loose && i + 1 < stops.length, ...(full !== undefined && { full }) };
            const part = network.parts.get(stop.id) ?? network.consumers.get(stop.id);
            if (tank) return tankColumn(tank, fitting, i > 0 && !loose, told);
            if (!part) { const beside = stops[i - 1] ?? stops[i + 1]; return outsideColumn(stop.id, beside?.id ?? stop.id, outsidePlace(network, stop, beside), told); }
            const pipe = network.parts.get(stop.id);
            return pipe && isPipe(pipe) ? pipeColumn(pipe, told) : partColumn(part, told);
        });
    });
}

export const headHeight = ({ heading }: Strip): number => heading.length * HEAD_LINE;
export const footHeight = ({ views }: Strip, v: number): number => Math.max(0, ...views[v]!.columns.map(({ foot }) => foot?.height ?? 0));
export const heightsOf = ({ views }: Strip, v: number): readonly number[] => views[v]!.columns.flatMap(({ heights }) => heights);
/** The same with the lines that are drawn across. */
export function reachOf(strip: Strip, v: number): readonly number[] {
    const { view, surfaces } = strip.views[v]!;
    const water = waterlineIn(view);
    return [...heightsOf(strip, v), ...surfaces.map(({ height }) => height), ...(water === undefined ? [] : [water])];
}

export const drawHeading = ({ heading }: Strip, x: number, y: number): string =>
    heading.map(({ text, bold }, i) => words(text, { x, y: y + (i + 1) * HEAD_LINE - 3, size: bold ? SIZE + 1 : SIZE, bold })).join('');

export interface Place {
    readonly x: number;
    readonly y: (height: number) => number;
    /** Where the foot begins, when that is known already. */
    readonly foot: number;
}

/** The plot of a strip, and what is said at its foot. */
export function drawStrip(strip: Strip, v: number, { x, y, foot }: Place): Drawn {
    const { view, columns, surfaces } = strip.views[v]!;
    const widths = columns.map((_, i) => Math.max(...strip.views.map((other) => other.columns[i]!.width)));
    const starts = widths.map((_, i) => x + widths.slice(0, i).reduce((sum, width) => sum + width, 0));
    const end = x + widths.reduce((sum, width) => sum + width, 0);
    const water = waterlineIn(view);
    const lines = [...surfaces.map(({ height }) => y(height)), ...(water === undefined ? [] : [y(water)])];
    const drawn = columns.map((column, i): Drawn => {
        const frame: Frame = { x: starts[i]!, width: widths[i]!, y, lines };
        const found = column.draw(frame);
        return column.foot ? { ...found, fragments: [...found.fragments, { id: column.id, body: drawLabel(column.foot, starts[i]! + PAD, foot) }] } : found;
    });
    // Two parts screwed to one another at different heights: the line rises or falls between them. Beside one that cannot be placed it breaks off.
    const steps = columns.flatMap((column, i): Fragment[] => {
        const [before, at] = [columns[i - 1], starts[i]!];
        if (strip.run.loose || !before) return [];
        const [from, to] = [before.out, column.into];
        if (from === undefined || to === undefined) return from !== undefined ? [{ id: before.id, body: broken([at - 4, y(from)]) }] : to !== undefined ? [{ id: column.id, body: broken([at + 4, y(to)]) }] : [];
        return Math.abs(from - to) < 5e-4 ? [] : [{ id: column.id, body: `<path ${lineStyle(strip.run.service)} d="M${n(at)} ${n(y(from))}V${n(y(to))}"/>` }];
    });
    const isTank = (column: Column | undefined): column is Column & { edge: number } => column !== undefined && 'edge' in column;
    const [head, tail] = [columns[0], columns.length > 1 ? columns.at(-1) : undefined];
    const from = isTank(head) && !strip.run.loose ? starts[0]! + head.edge : x;
    const to = isTank(tail) && !strip.run.loose ? end - tail.edge : end;
    const levels = surfaces.map(({ tank, height }): Fragment => ({ id: tank.id, body: `<path ${inked('thin')} d="M${n(from)} ${n(y(height))}H${n(to)}"/>` }));
    const wanted = surfaces.flatMap((surface) => (surface.label ? [{ y: y(surface.height), label: surface.label, tank: surface.tank.id }] : []));
    const [sea, first] = [water === undefined ? [] : [y(water)], wanted[0]?.y ?? 0];
    // Away from the waterline, so that neither is taken for the other.
    const placed = (sea[0] !== undefined && sea[0] <= first ? stackedDown(wanted, -Infinity, sea) : stackedUp(wanted, Infinity, sea)) as (Placed & (typeof wanted)[number])[];
    const sides = placed.map((one): Fragment => ({ id: one.tank, body: leader([to, one.y], end + PAD - 2, one) + drawLabel(one.label, end + PAD, one.top) }));
    return {
        fragments: [...levels, ...drawn.flatMap(({ fragments }) => fragments), ...steps, ...sides],
        ...extents(...drawn, ...lines.map((line) => ({ top: line - 2, bottom: line + 2 })), ...placed.map(({ top, label: { height } }) => ({ top, bottom: top + height }))),
    };
}

