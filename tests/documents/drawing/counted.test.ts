/**
 * Schematics read back from the file: every thing and every line of the boat is on the sheet once, joined as in the text, the way it flows, its valves as they stand. What
 * reads the file (xml.ts, shapes.ts, walk.ts) shares nothing with what draws it.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { pictureOf, type LaidOut } from '../../../src/layout/schematic';
import { drawElevation } from '../../../src/documents/drawing/elevation/elevation';
import type { Boat, Id, Joint, Part } from '../../../src/model/boat';
import { BOATS, drawn } from './all-boats';
import { apply, boxOf, matrixOf, shapesOf, type Box, type Point, type Shape } from './shapes';
import { CONSUMERS, drawingOf, idOf, inLine, isJoint, kindOf, signIn, walk, type Net, type Walked } from './walk';
import { above, elements, readXml, wordsOf, type Element } from './xml';

const GEOMETRY = ['d', 'points', 'x', 'y', 'x1', 'y1', 'x2', 'y2', 'cx', 'cy', 'r', 'rx', 'ry', 'width', 'height', 'viewBox', 'font-size', 'transform'];

describe.each(BOATS)('$name', ({ texts }) => {
    let boat: Boat;
    let laid: LaidOut;
    let root: Element;
    let walked: Walked;
    const sheets = new Map<Id | undefined, Element>();
    const sheet = (lineUp?: Id): Element => { const known = sheets.get(lineUp) ?? readXml(pictureOf(laid, lineUp === undefined ? {} : { lineUp }).svg); sheets.set(lineUp, known); return known; };
    beforeAll(async () => {
        ({ boat, laid } = await drawn(texts));
        root = sheet();
        walked = walk(root);
    });

    test('every file is well-formed, with nothing in it that is no figure, and with tenths at the finest', () => {
        for (const one of [...lineUps(boat).map(sheet), readXml(drawElevation(boat, {}).svg)]) expect(faultsOf(one)).toEqual([]);
    });

    test('every thing is one group, and nothing else is', () => {
        const things = [...elements(root)].filter(({ attributes }) => attributes.has('data-id')).map((element) => [element.attributes.get('data-id')!, kindOf(element)]);
        const own = things.filter(([, kind]) => kind !== 'end' && kind !== 'tee').map(([id]) => id!);
        expect(own.toSorted()).toEqual(taggedThings(boat).map(({ id }) => id).concat(boat.parts.filter(({ tag, kind }) => tag === undefined && kind !== 'tee').map(({ id }) => id)).filter((id) => partOf(boat, id)?.kind !== 'tee').toSorted());
        const tees = things.filter(([, kind]) => kind === 'tee').map(([id]) => id!);
        expect(new Set(tees).size).toBe(tees.length);
        expect(boat.parts.filter(({ kind, id }) => kind === 'tee' && !tees.includes(id))).toEqual([]);
        expect(things.filter(([, kind]) => kind === 'end').map(([id]) => id).toSorted()).toEqual([...new Set(boat.joints.flatMap(({ from, to }) => [from, to]).filter((point) => /:(air|deck|sea)$/.test(point)))].toSorted());
    });

    test('every tag stands there once', () => {
        const said = [...elements(root)].filter(({ name, attributes }) => name === 'text' && attributes.has('data-tag')).map((element) => `${element.attributes.get('data-tag')}: ${wordsOf(element)}`);
        expect(said.toSorted()).toEqual(taggedThings(boat).map(({ id, tag }) => `${id}: ${tag}`).toSorted());
    });

    test('no line can be taken in two ways: none lies on another, and where lines part there is a dot', () => expect(walked.faults).toEqual([]));

    test('its lines join what the text joins, each once, in the style of their service', () => {
        const style = dashesBySaid(root);
        expect(walked.nets.map((net) => told(boat, net)).filter(({ touches }) => touches.length > 1).map(({ touches, dashes }) => `${touches.join(' ')} | ${dashes.join(' ')}`).toSorted())
            .toEqual(netsOf(boat).map(({ touches, services }) => `${touches.join(' ')} | ${services.map((service) => style.get(service) ?? `no ${service} in the legend`).toSorted().join(' ')}`).toSorted());
    });

    test('arrows, checks and pumps point the way it flows', () => {
        const found: string[] = [];
        let count = 0;
        for (const group of elements(root)) {
            const id = group.attributes.get('data-id');
            const part = id === undefined ? undefined : partOf(boat, id);
            const points = part && directionOf(group, part);
            if (points === undefined) continue;
            count++;
            const [ahead, behind] = points === 'right' ? ['right', 'left'] as const : ['left', 'right'] as const;
            const [into, out] = part!.reversed ? ['out', 'in'] as const : ['in', 'out'] as const;
            for (const [side, end] of [[ahead, out], [behind, into]] as const) {
                const [net, meant] = [walked.sides.get(id!)?.[side], netsOf(boat).find(({ points: all }) => all.includes(`${id}:${end}`))];
                const touches = net === undefined ? '' : told(boat, net).touches.join(' ');
                if (meant !== undefined && touches !== meant.touches.join(' ')) found.push(`${id} points ${points}, and its ${side} end is joined to ${touches}: not to ${meant.touches.join(' ')}`);
            }
        }
        expect(found).toEqual([]);
        expect(count).toBe(boat.parts.filter(({ kind }) => /hose|tube|check|primer|pump/.test(kind)).length);
    });

    test('every line without a pipe has its arrow too, but for those that lead into a tee; and so has each that comes back to a tank', () => {
        const stands = (point: string): boolean => { const part = partOf(boat, point.split(':')[0]!); return part !== undefined && point.includes(':') && part.ports.length === 0 && boat.joints.filter(({ from, to }) => from === point || to === point).length < 2; };
        const parts = (point: string): boolean => partOf(boat, point)?.kind === 'tee' || partOf(boat, point.split(':')[0]!)?.ports.length === 0 && !stands(point);
        const comesBack = ({ course, to }: Joint): boolean => !['return', 'vent'].includes(boat.courses.find(({ id }) => id === course)!.service) && boat.tanks.some(({ fittings }) => fittings.some(({ id, kind }) => id === to && kind !== 'fill'));
        const bare = boat.joints.filter((joint) => comesBack(joint) || !stands(joint.from) && !stands(joint.to) && !parts(joint.to));
        const arrows = shapesOf(drawingOf(root)).filter((shape) => isArrow(shape) && above(shape.element, 'data-course') !== undefined);
        const courseOf = ({ element }: Shape): string => above(element, 'data-course')!;
        expect(arrows.map(courseOf).toSorted()).toEqual(bare.map(({ course }) => course).toSorted());
        for (const arrow of arrows) {
            const [tip, b, c] = arrow.strokes[0]! as [Point, Point, Point];
            const tail: Point = [(b[0] + c[0]) / 2, (b[1] + c[1]) / 2];
            const leads = bare.some(({ course, to }) => course === courseOf(arrow) && farFrom(root, to, tip) < 4 && farFrom(root, to, tail) > 5);
            expect(leads, `an arrow of ${courseOf(arrow)} at ${tip} points at what it leads to`).toBe(true);
        }
    });

    test('valves are black where they are shut, in every line-up', () => {
        for (const lineUp of lineUps(boat)) {
            const found = new Map<string, string>();
            for (const group of elements(sheet(lineUp))) {
                const part = partOf(boat, idOf(group) ?? '');
                if (!group.attributes.has('data-id') && !group.attributes.has('data-of')) continue;
                if (part?.kind === 'shutoff') found.set(part.id, [...new Set(shapesOf(signIn(group)!).filter(({ element }) => element.name === 'polygon').map(({ filled }) => (filled ? 'shut' : 'open')))].join());
                if (part?.kind === 'selector' || part?.kind === 'changeover') for (const [port, shut] of waysOf(group)) found.set(`${part.id}:${port}`, shut ? 'shut' : 'open');
            }
            expect([...found].toSorted(), lineUp).toEqual(standing(boat, lineUp).toSorted());
        }
    });

    test('the legend has every sign that is drawn, and no other', () => {
        const legend = legendOf(root);
        const said = legend.map(({ says }) => says);
        expect(new Set(said).size).toBe(said.length);
        const [there, onSheet] = [new Set(legend.flatMap(({ sign }) => (sign === undefined ? [] : [sign]))), new Set(signsOf(root))];
        expect([...onSheet].filter((sign) => !there.has(sign)), 'drawn, and not in the legend').toEqual([]);
        // A box with stubs stands for whatever uses what comes, which has its name in it and is no sign of the sheet.
        expect([...there].filter((sign) => !onSheet.has(sign)), 'in the legend, and not drawn').toEqual([]);
        for (const [sign, size] of sizesOf(root)) expect(near(legend.find((entry) => entry.sign === sign)!.size!, size), `${sign} is as large in the legend as on the sheet`).toBe(true);
        const samples = legend.flatMap(({ says: words, box }) => (box ? [{ words, box }] : []));
        expect(samples.flatMap((one, i) => samples.slice(i + 1).filter((other) => overlap(one.box, other.box)).map((other) => `${one.words} on ${other.words}`))).toEqual([]);
        const dashes = new Set(shapesOf(drawingOf(root)).filter(({ element }) => above(element, 'data-course') !== undefined && element.name === 'path').map(({ element }) => element.attributes.get('stroke-dasharray') ?? ''));
        expect([...dashesBySaid(root).values()].toSorted()).toEqual([...dashes].toSorted());
        const letters = ['NO', 'NC', 'LO'].filter((sign) => [...elements(drawingOf(root))].some((element) => element.name === 'text' && wordsOf(element) === sign));
        expect(['NO', 'NC', 'LO'].filter((sign) => legend.some(({ letters: own }) => own === sign))).toEqual(letters);
    });
});

const near = ([a, b]: readonly [number, number], [c, d]: readonly [number, number]): boolean => Math.abs(a - c) < 0.2 && Math.abs(b - d) < 0.2;

test('the same text is the same bytes, whatever was drawn in between', async () => {
    for (const { texts } of BOATS.filter((_, i) => i % 6 === 2)) {
        const [one, other] = [await drawn(texts), await drawn(texts)];
        for (const lineUp of lineUps(one.boat)) expect(pictureOf(other.laid, { lineUp }).svg).toBe(pictureOf(one.laid, { lineUp }).svg);
        expect(drawElevation(other.boat, {}).svg).toBe(drawElevation(one.boat, {}).svg);
    }
});

/** From a point of the sheet to the thing of a point of the boat. */
function farFrom(root: Element, point: string, [x, y]: Point): number {
    const ids = [point, point.split(':')[0]];
    const groups = [...elements(drawingOf(root))].filter(({ attributes }) => ids.includes(attributes.get('data-id')) || ids.includes(attributes.get('data-of')));
    return Math.min(...groups.map((group) => { const { left, right, top, bottom } = boxOf(shapesOf(group).flatMap(({ strokes }) => strokes.flat())); return Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom)); }));
}

const partOf = (boat: Boat, id: Id): Part | undefined => boat.parts.find((part) => part.id === id);
const lineUps = (boat: Boat): string[] => boat.lineUps.map(({ id }) => id);

function faultsOf(root: Element): string[] {
    return [...elements(root)].flatMap((element) => [...element.attributes].flatMap(([name, value]) => [
        ...(/NaN|undefined|Infinity|\[object/.test(value) ? [`${element.name} ${name}="${value}"`] : []),
        ...(GEOMETRY.includes(name) && /\d\.\d\d|\de[-+]?\d/.test(value.replace(/scale\([^)]*\)/, '')) ? [`${element.name} ${name}="${value}" is finer than a tenth`] : []),
        ...(['width', 'height', 'r', 'rx', 'ry', 'stroke-width', 'font-size'].includes(name) && !(Number(value) >= 0) ? [`${element.name} ${name}="${value}"`] : []),
    ])).concat(/NaN|undefined|\[object/.test(wordsOf(root)) ? ['a value that is not there has got into the words'] : []);
}

/** All that bears a tag: of a fitting its port. */
function taggedThings(boat: Boat): { readonly id: Id; readonly tag: string }[] {
    return [
        ...boat.tanks.flatMap(({ id, fittings }) => [{ id, tag: id }, ...fittings.map((fitting) => ({ id: fitting.id, tag: fitting.id.slice(id.length + 1) }))]),
        ...boat.consumers.flatMap(({ id, vents }) => [{ id, tag: id }, ...vents]),
        ...boat.parts.flatMap(({ id, tag, vents }) => [...(tag === undefined ? [] : [{ id, tag }]), ...vents]),
    ];
}

/** Points of the boat that are joined with one another, by its joints alone, and the signs that a line to them touches. */
function netsOf(boat: Boat): { readonly points: readonly string[]; readonly touches: readonly string[]; readonly services: readonly string[] }[] {
    const known = nets.get(boat);
    if (known) return known;
    const over = new Map<string, string>();
    const root = (point: string): string => { let at = point; while (over.get(at) !== undefined) at = over.get(at)!; return at; };
    for (const { from, to } of boat.joints) if (root(from) !== root(to)) over.set(root(from), root(to));
    const all = [...new Set(boat.joints.flatMap(({ from, to }) => [from, to]))];
    const services = new Map(boat.courses.map(({ id, service }) => [id, service]));
    const found = [...new Set(all.map(root))].map((head) => {
        const points = all.filter((point) => root(point) === head);
        return {
            points, touches: points.map((point) => touched(boat, point)).toSorted(),
            services: [...new Set(boat.joints.filter(({ from }) => root(from) === head).map(({ course }) => services.get(course)!))],
        };
    }).filter(({ touches }) => touches.length > 1);
    nets.set(boat, found);
    return found;
}
const nets = new WeakMap<Boat, ReturnType<typeof netsOf>>();

/** A port of a part in a line, and the inlet or outlet of an engine, are told by their thing alone. */
function touched(boat: Boat, point: string): string {
    const [owner, port] = point.split(':');
    const part = partOf(boat, owner!);
    return port === undefined || part?.kind === 'selector' || part?.kind === 'changeover' || /^(air|deck|sea)$/.test(port) ? point : owner!;
}

/** A net of the drawing without the dots at which nothing but pipes meet. */
const told = (boat: Boat, { touches, dashes }: Net): Net => ({ touches: touches.filter((touch) => !touch.includes(':') || partOf(boat, touch.split(':')[0]!)?.ports.length !== 0), dashes });

const isArrow = ({ element, strokes }: Shape): boolean => {
    if (element.name !== 'polygon' || element.attributes.get('class') !== 'solid') return false;
    const { left, right, top, bottom } = boxOf(strokes.flat());
    return right - left < 10 && bottom - top < 8 && !['selector', 'changeover', ''].includes(kindOf(element)) || above(element, 'data-course') !== undefined;
};

/** The way that an arrow on a pipe, the bar of a check or the tip in a pump points. */
function directionOf(group: Element, part: Part): 'left' | 'right' | undefined {
    const shapes = shapesOf(group);
    const tip = (shape: Shape | undefined): 'left' | 'right' | undefined => {
        if (!shape) return undefined;
        // A triangle points away from the side at which two of its corners are.
        const [xs, middle] = [shape.strokes[0]!.slice(0, 3).map(([x]) => x), shape.strokes[0]!.slice(0, 3).reduce((sum, [x]) => sum + x / 3, 0)];
        return xs.filter((x) => x > middle).length === 1 ? 'right' : 'left';
    };
    if (part.kind === 'hose' || part.kind === 'tube') return tip(shapes.find(isArrow));
    if (part.kind === 'check') {
        const [bar, body] = [shapes.find(({ element, strokes }) => element.name === 'path' && strokes[0]!.every(([x]) => x === strokes[0]![0]![0])), shapes.find(({ element }) => element.name === 'polygon')];
        const { left, right } = boxOf(body!.strokes.flat());
        const way = bar!.strokes[0]![0]![0] > (left + right) / 2 ? 'right' : 'left';
        return tip(body) === way ? way : undefined;
    }
    return /primer|pump/.test(part.kind) ? tip(shapes.find(({ element, filled }) => element.name === 'polygon' && filled)) : undefined;
}

/** The triangles of a valve with several ways, each with the port that its line comes from. */
function waysOf(group: Element): [string, boolean][] {
    const own = (element: Element): boolean => idOf(element) === idOf(group);
    const all = shapesOf(group).filter(({ element }) => own(element));
    const triangles = all.filter(({ element }) => element.name === 'polygon' && element.attributes.get('points')!.startsWith('0,0'));
    const lines = all.filter(({ element }) => element.name === 'path' && element.attributes.get('class') === 'line' && element.parent === group);
    return lines.map(({ strokes: [line] }) => {
        const end = line!.at(-1)!;
        const base = (shape: Shape): readonly [number, number] => { const [, b, c] = shape.strokes[0]!; return [(b![0] + c![0]) / 2, (b![1] + c![1]) / 2]; };
        const way = triangles.find((shape) => Math.hypot(base(shape)[0] - end[0], base(shape)[1] - end[1]) < 1);
        const word = [...elements(group)].filter(({ name, attributes }) => name === 'text' && attributes.get('font-size') === '9').find((text) => { const [x, y] = apply(matrixOf(text), [Number(text.attributes.get('x')), Number(text.attributes.get('y'))]); return Math.abs(x - line![0]![0]) < 8 && Math.abs(y + 5 - line![0]![1]) < 3; });
        if (!way || !word) throw new Error(`a way of ${idOf(group)} without ${way ? 'its word' : 'its triangle'}`);
        return [wordsOf(word), way.filled];
    });
}

/** How valves stand in a line-up as it is written: there, or in that which it is from, or as they are normally; what is ganged turns with its fellow. */
function standing(boat: Boat, lineUp: string): [string, string][] {
    const chain: (typeof boat.lineUps)[number][] = [];
    for (let at = boat.lineUps.find(({ id }) => id === lineUp); at && !chain.includes(at); at = boat.lineUps.find(({ id }) => id === at!.base)) chain.push(at);
    const gang = (valve: Part): Id[] => [valve.id, ...boat.parts.filter(({ id, gangedWith }) => gangedWith === valve.id || id === valve.gangedWith).map(({ id }) => id)];
    const said = (valve: Part): string | undefined => chain.flatMap(({ settings }) => settings.find(({ part }) => gang(valve).includes(part))?.position ?? [])[0];
    return boat.parts.flatMap((part): [string, string][] => {
        if (part.kind === 'shutoff') return [[part.id, said(part) ?? part.normally ?? 'open']];
        if (part.kind !== 'selector' && part.kind !== 'changeover') return [];
        const position = part.positions.find(({ name }) => name === said(part));
        const open = new Set((position?.joins ?? []).filter((joined) => joined.length > 1).flat());
        return part.ports.map((port) => [`${part.id}:${port}`, said(part) !== undefined && !open.has(port) ? 'shut' : 'open']);
    });
}

const isWords = (child: Element | string): child is Element => typeof child !== 'string' && child.name === 'text';

/** The entries of the legend: words, with the dashes or the sign before them. */
function legendOf(root: Element): { says: string; dash?: string; sign?: string; letters?: string; size?: Size; box?: Box }[] {
    const block = [...elements(root)].find(({ name, children }) => name === 'g' && children.some((child) => isWords(child) && wordsOf(child) === 'Legend'))!;
    const entries: { sample: Element; says: string }[] = [];
    for (const child of block.children) {
        if (typeof child === 'string') continue;
        if (child.name === 'g') entries.push({ sample: child, says: '' });
        else if (entries.length > 0) entries.at(-1)!.says = `${entries.at(-1)!.says} ${wordsOf(child)}`.trim();
    }
    return entries.map(({ sample, says }) => {
        const leaves = shapesOf(sample);
        const isService = leaves.length === 1 && ['supply', 'return', 'vent', 'fill', 'transfer'].includes(says);
        if (isService) return { says, dash: leaves[0]!.element.attributes.get('stroke-dasharray') ?? '' };
        if (leaves.length === 0) return { says, letters: wordsOf(sample) };
        const box = boxOf(leaves.flatMap(({ strokes }) => strokes.flat()));
        return { says, sign: signature(leaves, sample), size: sizeOf(box), box };
    });
}

const dashesBySaid = (root: Element): ReadonlyMap<string, string> => new Map(legendOf(root).flatMap(({ says, dash }) => (dash === undefined ? [] : [[says, dash]])));

type Size = readonly [width: number, height: number];
const sizeOf = ({ left, right, top, bottom }: Box): Size => [right - left, bottom - top];
const overlap = (a: Box, b: Box): boolean => Math.min(a.right, b.right) > Math.max(a.left, b.left) && Math.min(a.bottom, b.bottom) > Math.max(a.top, b.top);

/** How large each sign in a line is drawn. */
function sizesOf(root: Element): ReadonlyMap<string, Size> {
    return new Map([...elements(drawingOf(root))].filter(inLine).map((group) => { const sign = signIn(group)!; const shapes = shapesOf(sign); return [signature(shapes, sign), sizeOf(boxOf(shapes.flatMap(({ strokes }) => strokes.flat())))]; }));
}

/** A sign by its shapes, wherever, however large and whichever way round it is drawn: ink, kind of shape, the commands of a path, the corners of a polygon, letters. */
function signature(leaves: readonly Shape[], within: Element): string {
    const shapes = leaves.map(({ element, filled }) => `${filled ? 'black ' : ''}${element.name} ${(element.attributes.get('d') ?? '').replace(/[^A-Za-z]/g, '')}${element.name === 'polygon' ? element.attributes.get('points')!.split(' ').length : ''}`.trim());
    return [...shapes, ...[...elements(within)].filter(({ name, attributes }) => name === 'text' && !attributes.has('data-tag')).map(wordsOf)].toSorted().join(', ');
}

/** Every sign on the sheet. A tank's vent and fill are told by their tags, and a pipe without waves beside the hose. */
function* signsOf(root: Element): Generator<string> {
    const shapes = shapesOf(drawingOf(root));
    const of = (element: Element): Shape[] => shapes.filter((shape) => [...up(shape.element)].includes(element));
    for (const group of elements(drawingOf(root))) {
        const kind = group.attributes.get('data-kind');
        if (group.attributes.has('data-boundary')) yield signature(of(group), EMPTY);
        else if (kind === undefined && group.attributes.get('data-of') === undefined) continue;
        else if (kind === 'tank') yield signature(of(group).filter(({ element }) => element.name === 'rect'), EMPTY);
        else if (kind === 'hose') yield WAVE;
        else if (kind !== undefined && CONSUMERS.includes(kind)) yield ENGINE;
        else if (kind === 'pickup' || kind === 'drop') yield MOUTH;
        else if (kind === 'tee') yield DOT;
        else if (kind === 'selector' || kind === 'changeover' || kind === undefined) yield WAYS;
        else if (kind === 'end' || kind === 'bleed point') yield signature(of(signIn(group)!), EMPTY);
        else if (inLine(group)) {
            const [sign, second] = group.children.filter((child): child is Element => typeof child !== 'string' && child.name === 'g');
            yield signature(of(sign!), sign!);
            if (second) yield signature(of(second), second);
        }
    }
    if (shapes.some(isArrow)) yield 'black polygon 3';
    for (const { element, strokes } of shapes) if (element.name === 'path' && idOf(element) === undefined && strokes.some((stroke) => stroke.some(([x, y], i) => i > 0 && Math.abs(x - stroke[i - 1]![0]) > 0.1 && Math.abs(y - stroke[i - 1]![1]) > 0.1))) yield signature([{ element, matrix: [1, 0, 0, 1, 0, 0], strokes, filled: false }], EMPTY);
    if (shapes.some(({ element }) => element.parent === drawingOf(root) && isJoint(element))) yield JOINT;
}

const EMPTY: Element = { name: 'g', attributes: new Map(), children: [] };
const WAVE = 'path Mqttttt';
const ENGINE = 'path MHMH, rect';
const MOUTH = 'path MHV';
const JOINT = 'path MH, path MV';
const DOT = 'black circle, path MHMV';
const WAYS = 'black polygon 3, polygon 3, polygon 3';

function* up(element: Element): Generator<Element> { for (let at: Element | undefined = element; at; at = at.parent) yield at; }
