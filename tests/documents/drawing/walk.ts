/**
 * Follows the lines of a schematic as a finger does, from port to port, by their geometry alone: two ends that meet are joined, lines that cross are not, and more than two
 * join only at a dot. What a line is joined to is told by the thing whose sign it touches.
 */
import { apply, boxOf, matrixOf, shapesOf, type Box, type Point, type Shape } from './shapes';
import { above, elements, wordsOf, type Element } from './xml';

/** Ends of lines that are joined with one another. */
export interface Net {
    /** The things whose signs they touch: `V1`, `T1.P1`, `SV1:port`, `E1`, `E1.coolant-in`; a thing that is touched twice stands twice. Sorted. */
    readonly touches: readonly string[];
    /** The dashes of the lines in it, none for a line that is drawn through. Sorted. */
    readonly dashes: readonly string[];
}

export interface Walked {
    readonly nets: readonly Net[];
    /** Of what stands in a line: what its left end and its right end are joined to. */
    readonly sides: ReadonlyMap<string, { readonly left?: Net; readonly right?: Net }>;
    /** Where the drawing can be taken in two ways, in words. */
    readonly faults: readonly string[];
    /** Where two lines cross. */
    readonly crossings: readonly Point[];
}

const NEAR = 0.8;
/** Within the black of a dot. */
const DOT = 3 + NEAR;
/** No reach is asked for that is greater. */
const CELL = 4;
const near = (a: Point, b: Point, by = NEAR): boolean => Math.abs(a[0] - b[0]) <= by && Math.abs(a[1] - b[1]) <= by;

const PIPES = ['hose', 'tube'];
const FITTINGS = ['pickup', 'drop', 'vent', 'fill'];
export const CONSUMERS = ['engine', 'generator', 'heater', 'exchanger'];
const VALVES = ['selector', 'changeover'];

interface Piece {
    readonly points: readonly Point[];
    readonly dash?: string;
    /** It belongs to a pipe, which it does not join through. */
    readonly pipe?: string;
    /** Touched at either end. */
    readonly first?: string;
    readonly last?: string;
}

export const kindOf = (element: Element): string => above(element, 'data-kind') ?? '';
export const idOf = (element: Element): string | undefined => above(element, 'data-id') ?? above(element, 'data-of');

/** The part of a sheet that is the drawing: neither title, notes, legend nor title block. */
export const drawingOf = (root: Element): Element => root.children.find((child): child is Element => typeof child !== 'string' && [...elements(child)].some((element) => element.attributes.has('data-id')))!;

export function walk(root: Element): Walked {
    const drawing = drawingOf(root);
    const shapes = shapesOf(drawing);
    const groups = [...elements(drawing)].filter(({ attributes }) => attributes.has('data-id') || attributes.has('data-of'));
    const pieces: Piece[] = shapes.filter(isLine).flatMap(piecesOf);
    const dots = shapes.filter(({ element }) => kindOf(element) === 'tee' && element.name === 'circle').map(({ element, matrix }) => ({ id: idOf(element)!, at: apply(matrix, [Number(element.attributes.get('cx')), Number(element.attributes.get('cy'))]) }));
    const ends = groups.filter((group) => kindOf(group) === 'end').map((group) => ({ id: idOf(group)!, at: apply(matrixOf(signIn(group)!), [0, 0]) }));
    const signs = groups.filter((group) => inLine(group)).map((group) => {
        const sign = signIn(group)!;
        return { id: idOf(group)!, y: apply(matrixOf(sign), [0, 0])[1], box: boxOf(shapesOf(sign).flatMap(({ strokes }) => strokes.flat())) };
    });
    // A line that passes beneath a sign, as beneath that of a gauge, ends at it and begins anew.
    const cut = pieces.flatMap((piece): Piece[] => {
        if (piece.pipe !== undefined || piece.points.length !== 2) return [piece];
        const [a, b] = [...piece.points].sort((p, q) => p[0] - q[0]) as [Point, Point];
        const through = signs.find(({ y, box }) => Math.abs(a[1] - y) < NEAR && Math.abs(b[1] - y) < NEAR && a[0] < box.left - NEAR && b[0] > box.right + NEAR);
        return through ? [{ ...piece, points: [a, [through.box.left, a[1]]] }, { ...piece, points: [[through.box.right, a[1]], b] }] : [piece];
    });

    const nodes: { at: Point; piece: Piece; touches: string[] }[] = [];
    const parent: number[] = [];
    const root_ = (i: number): number => { let at = i; while (parent[at] !== at) at = parent[at]!; return at; };
    const join = (i: number, j: number): void => { parent[root_(i)] = root_(j); };
    const node = (at: Point, piece: Piece, touched: string | undefined): number => {
        const own = signs.filter(({ y, box }) => Math.abs(at[1] - y) < NEAR && (Math.abs(at[0] - box.left) < NEAR || Math.abs(at[0] - box.right) < NEAR)).map(({ id }) => id);
        nodes.push({ at, piece, touches: [...(touched === undefined ? [] : [touched]), ...own, ...ends.filter((end) => near(end.at, at)).map(({ id }) => id)] });
        parent.push(nodes.length - 1);
        return nodes.length - 1;
    };
    for (const piece of cut) {
        const [first, last] = [node(piece.points[0]!, piece, piece.pipe ?? piece.first), node(piece.points.at(-1)!, piece, piece.pipe ?? piece.last)];
        if (piece.pipe === undefined) join(first, last);
    }
    const spans = cut.map((piece) => ({ piece, segments: segmentsOf(piece), box: boxOf(piece.points) })).toSorted((a, b) => a.box.left - b.box.left);
    const [nodesBy, dotsBy] = [placesOf(nodes), placesOf(dots)];
    const isDotted = (at: Point): boolean => dotsBy(at, DOT).length > 0;
    const faults: string[] = [];
    const said = ([x, y]: Point): string => `at ${x.toFixed(1)}, ${y.toFixed(1)}`;
    nodes.forEach(({ at }, i) => { for (const j of nodesBy(at, NEAR)) join(i, j); });
    const dotted: { id: string; node: number }[] = [];
    for (const dot of dots) {
        // A line that ends at it, and one that bends or passes beneath it.
        const beneath = new Set(spans.filter(({ piece, segments }) => piece.points.some((corner) => near(corner, dot.at)) || segments.some((segment) => on(dot.at, segment))).map(({ piece }) => piece));
        const met = nodes.flatMap(({ at, piece }, i) => (near(at, dot.at, DOT) || beneath.has(piece) ? [i] : []));
        for (const i of met.slice(1)) join(met[0]!, i);
        if (met.length > 0) dotted.push({ id: dot.id, node: met[0]! });
        if (met.length === 0) faults.push(`the dot ${dot.id} touches no line`);
    }
    nodes.forEach(({ at, piece }, i) => {
        const meet = nodesBy(at, NEAR);
        if (meet.length > 2 && meet[0] === i && !isDotted(at)) faults.push(`${meet.length} lines meet without a dot ${said(at)}`);
        const [spot, ending] = [{ left: at[0], right: at[0], top: at[1], bottom: at[1] }, new Set(meet.map((j) => nodes[j]!.piece))];
        for (const other of spans) if (other.piece !== piece && reach(other.box, spot) && !ending.has(other.piece) && other.segments.some((segment) => on(at, segment)) && !isDotted(at)) faults.push(`a line ends on another ${said(at)}`);
    });
    const crossings: Point[] = [];
    for (const [i, one] of spans.entries()) for (let j = i + 1; j < spans.length && spans[j]!.box.left <= one.box.right + NEAR; j++) {
        const other = spans[j]!;
        if (!reach(one.box, other.box)) continue;
        const isCorner = (at: Point, from: number, to?: number): boolean => [one, other].some(({ piece }) => piece.points.slice(from, to).some((corner) => near(corner, at)));
        for (const a of one.segments) for (const b of other.segments) {
            if (overlap(a, b) > 1) faults.push(`two lines lie on one another ${said(a[0])}`);
            const at = crossing(a, b);
            if (at && !isCorner(at, 0)) crossings.push(at);
            else if (at && isCorner(at, 1, -1) && !isDotted(at)) faults.push(`a line bends on another ${said(at)}`);
        }
    }

    const byRoot = new Map<number, { touches: string[]; dashes: Set<string> }>();
    nodes.forEach(({ touches, piece }, i) => {
        const net = byRoot.get(root_(i)) ?? { touches: [], dashes: new Set<string>() };
        byRoot.set(root_(i), net);
        net.touches.push(...touches);
        if (piece.dash !== undefined) net.dashes.add(piece.dash);
    });
    // Where lines part one after the other a tee has several dots, and is one thing all the same.
    for (const [root, id] of new Map(dotted.map(({ id, node: at }) => [`${root_(at)} ${id}`, [root_(at), id] as const])).values()) byRoot.get(root)!.touches.push(id);
    const nets = new Map([...byRoot].map(([i, { touches, dashes }]) => [i, { touches: touches.toSorted(), dashes: [...dashes].toSorted() }] as const));
    const sides = new Map<string, { left?: Net; right?: Net }>();
    for (const id of [...signs.map((sign) => sign.id), ...cut.flatMap(({ pipe }) => pipe ?? [])]) {
        const own = nodes.flatMap(({ at, touches }, i) => (touches.includes(id) ? [{ x: at[0], net: nets.get(root_(i))! }] : [])).toSorted((a, b) => a.x - b.x);
        const middle = (own[0]?.x ?? 0) / 2 + (own.at(-1)?.x ?? 0) / 2;
        const sign = signs.find((other) => other.id === id);
        const centre = sign ? (sign.box.left + sign.box.right) / 2 : middle;
        const [left, right] = [own.find(({ x }) => x < centre)?.net, own.findLast(({ x }) => x > centre)?.net];
        sides.set(id, { ...(left && { left }), ...(right && { right }) });
    }
    return { nets: [...nets.values()], sides, faults: [...new Set(faults)], crossings };
}

/** A small reach may be asked for at any place: what stands within it, by index and in order. */
function placesOf(things: readonly { readonly at: Point }[]): (at: Point, by: number) => number[] {
    const cells = new Map<string, number[]>();
    const [cell, key] = [(value: number): number => Math.floor(value / CELL), (x: number, y: number): string => `${x} ${y}`];
    for (const [i, { at: [x, y] }] of things.entries()) { const own = key(cell(x), cell(y)); const known = cells.get(own); if (known) known.push(i); else cells.set(own, [i]); }
    return ([x, y], by) => [-1, 0, 1].flatMap((dx) => [-1, 0, 1].flatMap((dy) => cells.get(key(cell(x) + dx, cell(y) + dy)) ?? [])).filter((i) => near(things[i]!.at, [x, y], by)).toSorted((a, b) => a - b);
}

/** The group in which the sign of a thing is drawn about its own point. */
export const signIn = (group: Element): Element | undefined => group.children.find((child): child is Element => typeof child !== 'string' && child.name === 'g' && child.attributes.has('transform'));

export const inLine = (group: Element): boolean => group.attributes.has('data-id') && ![...PIPES, ...FITTINGS, ...CONSUMERS, ...VALVES, 'tank', 'tee', 'end', 'bleed point'].includes(kindOf(group));

/** A short stroke across a line, which is the sign of a joint and no line itself. */
export const isJoint = (element: Element): boolean => idOf(element) === undefined && above(element, 'data-course') === undefined && /^M[\d.]+ [\d.]+V[\d.]+$/.test(element.attributes.get('d') ?? '');

/** A line that liquid could be followed on: level and upright, or the wave of a hose; not within a sign. */
function isLine({ element, strokes, matrix }: Shape): boolean {
    if (element.name !== 'path' || element.attributes.get('class') !== 'line' || isJoint(element)) return false;
    const drawn = matrix;
    const plain = drawn[0] === 1 && drawn[1] === 0 && ![...ancestors(element)].some((other) => idOf(other) !== undefined && other.attributes.has('transform'));
    return plain && (PIPES.includes(kindOf(element)) || strokes.every((stroke) => stroke.slice(1).every(([x, y], i) => Math.abs(x - stroke[i]![0]) < 0.01 || Math.abs(y - stroke[i]![1]) < 0.01)));
}

function* ancestors(element: Element): Generator<Element> { for (let at: Element | undefined = element; at; at = at.parent) yield at; }

function piecesOf({ element, strokes }: Shape): Piece[] {
    const [id, kind, dash] = [idOf(element), kindOf(element), element.attributes.get('stroke-dasharray') ?? ''];
    return strokes.map((points): Piece => {
        // The short line across a tee is joined by its dot alone, as others are.
        if (id === undefined || kind === 'tee') return { points, dash };
        if (PIPES.includes(kind)) return { points, dash, pipe: id };
        if (FITTINGS.includes(kind)) return { points, first: id };
        return { points, first: `${id}${portAt(element, points[0]!, kind)}` };
    });
}

/** A port by the small word beside it. */
function portAt(element: Element, [x, y]: Point, kind: string): string {
    const beside = [...elements(element.parent!)].filter((other) => other.name === 'text' && !other.attributes.has('data-tag') && other.attributes.get('font-size') === '9').filter((other) => {
        const [tx, ty] = apply(matrixOf(other), [Number(other.attributes.get('x')), Number(other.attributes.get('y'))]);
        return Math.abs(tx - x) < 12 && ty - y > -8 && ty - y < 20;
    });
    return beside.length === 0 ? '' : `${CONSUMERS.includes(kind) ? '.' : ':'}${wordsOf(beside[0]!)}`;
}

type Segment = readonly [Point, Point];
const segmentsOf = ({ points }: Piece): Segment[] => points.slice(1).map((point, i) => [points[i]!, point]);

const reach = (a: Box, b: Box): boolean => a.left <= b.right + NEAR && b.left <= a.right + NEAR && a.top <= b.bottom + NEAR && b.top <= a.bottom + NEAR;

/** Inside of a segment, away from its ends. */
function on([x, y]: Point, [[ax, ay], [bx, by]]: Segment): boolean {
    const length = Math.hypot(bx - ax, by - ay);
    if (length < 2 * NEAR) return false;
    const along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length;
    return along > NEAR && along < length - NEAR && Math.abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length < NEAR;
}

/** How far two level or two upright segments lie on one another. */
function overlap([a, b]: Segment, [c, d]: Segment): number {
    for (const [i, j] of [[0, 1], [1, 0]] as const) {
        if (Math.abs(a[j] - b[j]) < 0.01 && Math.abs(c[j] - d[j]) < 0.01 && Math.abs(a[j] - c[j]) < NEAR) return Math.min(Math.max(a[i], b[i]), Math.max(c[i], d[i])) - Math.max(Math.min(a[i], b[i]), Math.min(c[i], d[i]));
    }
    return 0;
}

function crossing([a, b]: Segment, [c, d]: Segment): Point | undefined {
    const [rx, ry, sx, sy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
    const area = rx * sy - ry * sx;
    if (Math.abs(area) < 1e-9) return undefined;
    const t = ((c[0] - a[0]) * sy - (c[1] - a[1]) * sx) / area;
    const u = ((c[0] - a[0]) * ry - (c[1] - a[1]) * rx) / area;
    return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? [a[0] + t * rx, a[1] + t * ry] : undefined;
}

