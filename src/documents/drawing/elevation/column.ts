/** One stop of a run, standing in a column of its own: a part with its ports, lid, drain and bleed points, a pipe, or an open end. */
import type { Consumer, Id, Part, Service } from '../../../model/boat';
import { openingsOf } from '../../../analysis/opening/openings';
import type { Place } from '../../../model/measure';
import { lineStyle, weightOf } from '../line-styles';
import { isClouded, OFF, shapes, underlay, underline, type Box } from '../marks';
import type { Mark } from '../markup';
import { inked, n, points, type Point } from '../svg';
import { above, below, drawLabel, joined, label, leader, stackedDown, stackedUp, strong, type Label, type Placed } from './labels';
import { endsOf, isUnknown, portsOf, spotsOf } from './places';
import { HALF, symbol, symbolOf, type Symbol } from './symbols';
import { heightIn, mm, openedWords, type View } from './view';

export interface Frame {
    readonly x: number;
    readonly width: number;
    /** Where a height (m) is on the sheet. */
    readonly y: (height: number) => number;
    /** Where lines cross the whole column. */
    readonly lines: readonly number[];
}

/** Something drawn of a thing; all of one thing go into one group of the sheet. */
export interface Fragment {
    readonly id: Id;
    readonly body: string;
}

export interface Drawn {
    readonly fragments: readonly Fragment[];
    readonly top: number;
    readonly bottom: number;
}

export interface Column {
    readonly id: Id;
    readonly width: number;
    /** Heights that are drawn in it, m. */
    readonly heights: readonly number[];
    /** The height of the line at its left and right edge, m. */
    readonly into?: number;
    readonly out?: number;
    /** Said at the foot of the strip, below all heights. */
    readonly foot?: Label;
    readonly draw: (frame: Frame) => Drawn;
}

export interface Told {
    readonly view: View;
    readonly service: Service;
    readonly marksOf: (id: Id) => readonly Mark[];
    /** Whether a line comes from the left, and goes on to the right. */
    readonly from: boolean;
    readonly on: boolean;
    /** Whether the tank is drawn here with all its heights. */
    readonly full?: boolean;
}

/** What is said of a thing that cannot be placed: its height, or, as she leans, its place across the boat. */
export const notStated = (place: Place | undefined): string => (place?.up ? 'place athwart not stated' : 'height not stated');
/** The widest line at the foot of a column. */
export const FOOT = 84;
/** Where the symbol stands in its column, and where its labels begin. */
const [MIDDLE, BESIDE, PAD] = [18, 14, 8] as const;

export const extents = (...parts: readonly { readonly top: number; readonly bottom: number }[]): { top: number; bottom: number } =>
    ({ top: Math.min(...parts.map(({ top }) => top)), bottom: Math.max(...parts.map(({ bottom }) => bottom)) });
export const ofLabel = ({ top, label: { height } }: Placed): { top: number; bottom: number } => ({ top, bottom: top + height });
export const ofPoint = (y: number, reach = HALF): { top: number; bottom: number } => ({ top: y - reach, bottom: y + reach });
export const some = <T>(items: readonly (T | undefined)[]): T[] => items.filter((item): item is T => item !== undefined);
const about = (x: number, y: number, half = HALF): Box => ({ x: x - half, y: y - half, width: 2 * half, height: 2 * half });

/** What stands on the sheet for a thing: its tag, or what it is. */
export const tagOf = (of: Part | Consumer): string => ('ports' in of ? of.tag ?? (of.kind === 'tee' ? '' : of.kind) : of.id);

export function partColumn(of: Part | Consumer, { view, service, marksOf, from, on }: Told): Column {
    const { network, positions } = view.state;
    const place = portsOf(network, of);
    const height = heightIn(view, place);
    const isPart = network.parts.has(of.id);
    const marks = marksOf(of.id);
    const position = isPart && (of.kind === 'shutoff' || of.kind === 'selector' || of.kind === 'changeover') ? positions.get(of.id) : undefined;
    const own = !isPart || (of as Part).at?.up !== undefined;
    const tag = tagOf(of);
    const named = tag === '' ? undefined : { text: tag, id: of.id };
    const stands = position === undefined || position === 'open' ? [] : [label(undefined, position === 'shut' ? 'shut' : `at ${position}`)];
    const port = joined([label(named, height === undefined || !own ? '' : `${mm(height)}`, marks), ...stands]);
    const spots = spotsOf(of).flatMap((spot) => { const at = heightIn(view, spot.place); return at === undefined ? [] : [{ ...spot, at, label: label(spot.tag === undefined ? undefined : { text: spot.tag, id: spot.about }, spot.tag === undefined ? `${spot.name} ${mm(at)}` : `${mm(at)}`, spot.tag === undefined ? [] : marksOf(spot.about)) }]; });
    const openable = of.kind !== 'tee' && openingsOf(view.state.boat).has(of.id) ? openedWords(view, of.id).map((words) => (/\bfloods\b/.test(words) ? strong(words, FOOT) : label(undefined, words, [], FOOT))) : [];
    const foot = [...(height === undefined ? [label({ text: tag === '' ? of.kind : tag, id: of.id }, notStated(place), marks, FOOT), ...stands] : []), ...openable];
    const beside = [...spots.map((spot) => spot.label), ...(height === undefined ? [] : [port])];
    const weight = weightOf(marks);
    const kind = symbolOf(of);
    return {
        id: of.id, heights: [...some([height]), ...spots.map(({ at }) => at)], ...(height !== undefined && { into: height, out: height }), ...(foot.length > 0 && { foot: joined(foot) }),
        width: Math.max(MIDDLE * 2, beside.length === 0 ? 0 : MIDDLE + BESIDE + Math.max(...beside.map(({ width }) => width)) + PAD, foot.length === 0 ? 0 : joined(foot).width + 2 * PAD),
        draw: ({ x, width, y, lines }) => {
            const [cx, at] = [x + MIDDLE, height === undefined ? undefined : y(height)];
            const labelX = cx + BESIDE;
            const crossing = at === undefined ? lines : [...lines, at];
            const wanted = spots.map((spot) => ({ ...spot, y: y(spot.at) }));
            const up = wanted.filter((spot) => at === undefined || spot.y <= at);
            const first = at === undefined || port.lines.length === 0 ? [] : stackedUp([{ y: at, label: port }], at - 2, crossing);
            const limit = Math.min(at ?? Infinity, ...first.map(({ top }) => top));
            const placed = [...stackedUp(up, limit, crossing), ...stackedDown(wanted.filter((spot) => !up.includes(spot)), at === undefined ? 0 : at + 2, crossing)] as (Placed & (typeof wanted)[number])[];
            const box = at === undefined ? undefined : about(cx, at);
            const stem = wanted.length === 0 || at === undefined ? '' : `<path ${inked('thin')} d="M${n(cx)} ${n(Math.min(at, ...wanted.map((spot) => spot.y)))}V${n(Math.max(at, ...wanted.map((spot) => spot.y)))}"/>`;
            const flat = at === undefined ? '' : `<path ${lineStyle(service, weight)} d="M${n(from ? x : cx)} ${n(at)}H${n(on ? x + width : cx)}"/>`;
            const body = [
                box ? underlay(box, marks) : '', flat, stem,
                at === undefined ? '' : symbol(kind, cx, at, { shut: position === 'shut', dead: weight === 'dead', live: weight === 'live', reversed: 'reversed' in of && of.reversed === true }),
                ...first.map((one) => drawLabel(one.label, labelX, one.top)), box ? shapes(box, marks) : '',
            ].join('');
            const spotBodies = placed.map((spot): Fragment => {
                const round = spot.tag === undefined ? [] : marksOf(spot.about);
                const ring = about(cx, spot.y, 4);
                return { id: spot.about, body: underlay(ring, round) + symbol(spot.symbol, cx, spot.y) + leader([cx + (spot.symbol === 'lid' ? 6 : 4), spot.y], labelX - 3, spot) + drawLabel(spot.label, labelX, spot.top) + shapes(ring, round, 'top') };
            });
            return {
                fragments: [...(body === '' ? [] : [{ id: of.id, body }]), ...spotBodies],
                ...extents(...placed.map(ofLabel), ...first.map(ofLabel), ...wanted.map((spot) => ofPoint(spot.y, 6)), ...(at === undefined ? [] : [ofPoint(at, 14 + OFF)]), { top: Infinity, bottom: -Infinity }),
            };
        },
    };
}

/** Where along a pipe its lowest point and its crest are drawn, shares of its column: how far along they lie is not said. */
const [FIRST, SECOND, ALONE] = [0.34, 0.67, 0.5] as const;

/** Whether one place is surely met before another on the way from a start: by how far they lie from it along and across the boat. Without all of these places the lowest is drawn first. */
function isNearer(start: Place | undefined, one: Place | undefined, other: Place | undefined): boolean {
    const far = (place: Place | undefined): number | undefined => {
        const [along, across] = [[start?.fwd, place?.fwd], [start?.stbd, place?.stbd]].map(([a, b]) => (a && b ? b.si - a.si : undefined));
        return along === undefined || across === undefined ? undefined : Math.hypot(along, across);
    };
    const [a, b] = [far(one), far(other)];
    return a !== undefined && b !== undefined && a < b;
}

export function pipeColumn(pipe: Part, { view, service, marksOf }: Told): Column {
    const ends = endsOf(view.state.network, pipe);
    const [into, out, low, crest] = [ends[0], ends[1], pipe.low, pipe.crest].map((place) => heightIn(view, place));
    const marks = marksOf(pipe.id);
    const { boat } = view.state;
    const [hasLow, hasCrest] = [pipe.low !== undefined || isUnknown(boat, pipe.id, 'low'), pipe.crest !== undefined || isUnknown(boat, pipe.id, 'crest')];
    const known = some([into, out, low, crest]);
    const tag = { text: tagOf(pipe), id: pipe.id };
    const head = label(tag, crest === undefined ? '' : `crest ${mm(crest)}`, marks);
    const under = low === undefined ? undefined : label(undefined, `low ${mm(low)}`);
    const foot = known.length === 0 ? label(tag, notStated(some(ends)[0] ?? pipe.low ?? pipe.crest), marks, FOOT) : undefined;
    return {
        id: pipe.id, heights: known, ...(into !== undefined && { into }), ...(out !== undefined && { out }), ...(foot && { foot }),
        width: Math.max(52, (foot ?? head).width + 2 * PAD, (under?.width ?? 0) + 2 * PAD),
        draw: ({ x, width, y, lines }) => {
            if (known.length === 0) return { fragments: [], top: Infinity, bottom: -Infinity };
            const both = hasLow && hasCrest;
            const crestFirst = both && isNearer(ends[0], pipe.crest, pipe.low);
            const between = [
                ...(hasLow ? [low === undefined ? 'unknown' as const : [x + width * (both ? (crestFirst ? SECOND : FIRST) : ALONE), y(low)] as const] : []),
                ...(hasCrest ? [crest === undefined ? 'unknown' as const : [x + width * (both ? (crestFirst ? FIRST : SECOND) : ALONE), y(crest)] as const] : []),
            ];
            // In the order in which they are met, with the places where something is that cannot be drawn.
            const met: (Point | 'unknown')[] = [into === undefined ? 'unknown' : [x, y(into)], ...(crestFirst ? between.toReversed() : between), out === undefined ? 'unknown' : [x + width, y(out)]];
            const paths = brokenAt(met);
            const ys = paths.flatMap(({ path }) => path.map(([, at]) => at));
            const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
            const box: Box = { x: x + 6, y: top - 3, width: width - 12, height: bottom - top + 6 };
            const [headX, underX] = [x + (width - head.width) / 2, x + (width - (under?.width ?? 0)) / 2];
            const clouded = isClouded(marks);
            // Scallops stand out a little further than their box.
            const [over, beneath] = clouded ? [box.y - OFF - 3, box.y + box.height + OFF + 3] : [Infinity, -Infinity];
            const headTop = above(Math.min(over, ...within(paths, headX, headX + head.width, bottom)) - 4, head.height, lines);
            const underTop = under && below(Math.max(beneath, ...within(paths, underX, underX + under.width, top)) + 4, under.height, lines);
            const weight = weightOf(marks);
            const lined = (attributes: string): string => paths.map(({ path }) => `<polyline ${attributes} points="${points(path)}"/>`).join('');
            const body = [
                underline(lined, marks), lined(lineStyle(service, weight)),
                ...paths.flatMap(({ breaks }) => breaks).map(broken),
                drawLabel(head, headX, headTop), under ? drawLabel(under, underX, underTop!) : '', clouded ? shapes(box, marks.filter(({ as }) => as !== 'about')) : '',
            ].join('');
            return { fragments: [{ id: pipe.id, body }], top: Math.min(top, headTop) - 2 * OFF, bottom: Math.max(bottom + 2 * OFF, under ? underTop! + under.height : bottom) };
        },
    };
}

/** Where a line is broken off; the legend looks for it. */
export const BREAK = 'data-sign="break"';
export const broken = ([x, y]: Point): string => `<path ${BREAK} ${inked('thin')} d="M${n(x - 3)} ${n(y + 5)}L${n(x + 1)} ${n(y - 5)}M${n(x)} ${n(y + 5)}L${n(x + 4)} ${n(y - 5)}"/>`;

interface Broken {
    readonly path: readonly Point[];
    readonly breaks: readonly Point[];
}

/** How far a line goes on towards what is not known. */
const STUB = 12;

/** The known stretches of a pipe, each broken off a little beyond its last known point. */
function brokenAt(met: readonly (Point | 'unknown')[]): Broken[] {
    const found: { path: Point[]; breaks: Point[] }[] = [];
    met.forEach((point, i) => {
        if (point === 'unknown') return;
        const [before, after] = [met[i - 1], met[i + 1]];
        if (before === undefined || before === 'unknown') found.push({ path: [], breaks: [] });
        const { path, breaks } = found.at(-1)!;
        if (before === 'unknown') { const end: Point = [point[0] - STUB, point[1]]; path.push(end); breaks.push(end); }
        path.push(point);
        if (after === 'unknown') { const end: Point = [point[0] + STUB, point[1]]; path.push(end); breaks.push(end); }
    });
    return found;
}

/** The highest and lowest that a line and where it is broken off are between two places; `otherwise` where neither is there. */
function within(paths: readonly Broken[], from: number, to: number, otherwise: number): number[] {
    const found = paths.flatMap(({ path, breaks }) => [...breaks.flatMap(([x, y]) => (x + 4 < from - 3 || x - 3 > to + 3 ? [] : [y - 5, y + 5])), ...path.slice(1).flatMap(([bx, by], i) => {
        const [ax, ay] = path[i]!;
        const [left, right] = [Math.max(from - 3, Math.min(ax, bx)), Math.min(to + 3, Math.max(ax, bx))];
        if (left > right) return [];
        const at = (x: number): number => (ax === bx ? ay : ay + (by - ay) * (x - ax) / (bx - ax));
        return ax === bx ? [ay, by] : [at(left), at(right)];
    })]);
    return found.length === 0 ? [otherwise] : found;
}

/** The open end of a line: to the air, on deck, in the sea. What is drawn of it belongs to its pipe. */
export function outsideColumn(end: string, pipe: Id, place: Place | undefined, { view, service, from, on }: Told): Column {
    const height = heightIn(view, place);
    const kind: Symbol = end.endsWith(':air') ? 'open end' : 'plate';
    const named = end.endsWith(':air') ? 'open end' : end.endsWith(':sea') ? 'to the sea' : 'deck plate';
    const said = height === undefined ? label(undefined, `${named}: ${notStated(place)}`, [], FOOT) : label(undefined, `${named} ${mm(height)}`);
    return {
        id: pipe, heights: some([height]), ...(height === undefined ? { foot: said } : { into: height, out: height }), width: MIDDLE + BESIDE + said.width + PAD,
        draw: ({ x, width, y, lines }) => {
            if (height === undefined) return { fragments: [], top: Infinity, bottom: -Infinity };
            const [cx, at] = [x + MIDDLE, y(height)];
            const top = above(at - 2, said.height, [...lines, at]);
            const line = from || on ? `<path ${lineStyle(service)} d="M${n(from ? x : cx)} ${n(at)}H${n(from ? cx : x + width)}"/>` : '';
            return { fragments: [{ id: pipe, body: line + symbol(kind, cx, at) + drawLabel(said, cx + BESIDE, top) }], ...extents({ top, bottom: top + said.height }, ofPoint(at)) };
        },
    };
}
