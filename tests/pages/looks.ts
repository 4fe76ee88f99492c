/** What is wrong with a sheet as a browser has set its words: given the box of each text in the order of the file, and the file. */
import { boxOf, matrixOf, shapesOf, type Box, type Point, type Shape } from '../documents/drawing/shapes';
import { drawingOf, idOf, inLine, kindOf, signIn, walk } from '../documents/drawing/walk';
import { above, elements, readXml, wordsOf, type Element } from '../documents/drawing/xml';
import type { Drawn } from './sheets';

/** Letters do not fill the height that a font gives its lines: so much of it is left above and below. */
const AIR = 0.17;
const SMALLEST = 8;

export function wrongWith({ svg, kind, crossings, says }: Omit<Drawn, 'name'>, rects: readonly Box[]): string[] {
    const root = readXml(svg);
    const [, , width, height] = root.attributes.get('viewBox')!.split(' ').map(Number) as [number, number, number, number];
    const order = new Map([...elements(root)].map((element, i) => [element, i]));
    const texts = [...elements(root)].filter(({ name }) => name === 'text').map((element, i) => ({ element, words: wordsOf(element), box: inked(rects[i]!, isUpright(element)), at: order.get(element)! })).filter(({ words }) => words.trim() !== '');
    const shapes = shapesOf(root).filter(({ element }) => element.parent !== root);
    const found: string[] = [];
    const tell = (words: string): void => { if (found.length < 200) found.push(words); };

    for (const { element, words } of texts) {
        const [a, b] = matrixOf(element);
        const size = Number(element.attributes.get('font-size')) * Math.hypot(a, b);
        if (size < SMALLEST) tell(`\`${words}\` is ${size.toFixed(1)} px high${where(element)}`);
    }
    for (const [i, one] of texts.entries()) {
        if (one.box.left < 0 || one.box.top < 0 || one.box.right > width || one.box.bottom > height) tell(`\`${short(one.words)}\` stands outside of the sheet`);
        for (const other of texts.slice(i + 1)) if (meet(one.box, other.box)) tell(`\`${short(one.words)}\` and \`${short(other.words)}\` stand on one another${where(one.element)}`);
    }
    for (const { element, strokes } of shapes) for (const [x, y] of strokes.flat()) if (x < -0.1 || y < -0.1 || x > width + 0.1 || y > height + 0.1) { tell(`a ${element.name} of ${idOf(element) ?? 'no thing'} reaches outside of the sheet`); break; }

    if (says !== undefined) {
        const read = bare(texts.filter(({ element }) => idOf(element) === 'T1').map(({ words }) => words).join('')).replace(/^T1/, '');
        // Of a long name as much as there is room for; who points at the thing is told all of it.
        const isBegun = read.endsWith('…') && read.length > 20 && bare(says).startsWith(read.slice(0, -1));
        const whole = [...elements(root)].find(({ attributes }) => attributes.get('data-id') === 'T1')?.children.find((child): child is Element => typeof child !== 'string' && child.name === 'title');
        if (!read.includes(bare(says)) && !isBegun) tell(`T1 is called \`${read}\` in place of \`${says}\``);
        if (!whole || !bare(wordsOf(whole)).includes(bare(says))) tell(`the title of T1 is not \`${says}\``);
    }
    const grounds = shapes.filter(({ element }) => element.name === 'rect' && element.attributes.get('fill') === '#fff').map((shape) => ({ box: boxOf(shape.strokes.flat()), at: order.get(shape.element)! }));
    const strokes = shapes.filter(isStroke);
    for (const { element, strokes: rows } of strokes) {
        const at = order.get(element)!;
        const box = boxOf(rows.flat());
        for (const text of texts) {
            if (!meet(grown(box), text.box)) continue;
            const points = rows.flatMap((row) => sampled(row)).filter((point) => inside(point, text.box));
            // A line that ends at a rect that is white, drawn later and under the words, is not seen beneath them.
            if (points.some((point) => !grounds.some((ground) => ground.at > at && ground.at < text.at && inside(point, ground.box)))) tell(`\`${short(text.words)}\` stands on a line of ${idOf(element) ?? above(element, 'data-course') ?? element.attributes.get('class')}${where(text.element)}`);
        }
    }
    if (kind === 'schematic' && [...elements(root)].some(({ attributes }) => attributes.has('data-id'))) for (const words of ofLines(root, crossings)) tell(words);
    return found;
}

function ofLines(root: Element, most: number | undefined): string[] {
    const { crossings, faults } = walk(root);
    const found = [...faults];
    if (most !== undefined && crossings.length > most) found.push(`${crossings.length} crossings, and a hand needs ${most}`);
    const drawing = drawingOf(root);
    const lines = shapesOf(drawing).filter(({ element }) => element.name === 'path' && element.attributes.get('class') === 'line' && (above(element, 'data-course') !== undefined || element.parent === drawing || ['hose', 'tube'].includes(kindOf(element))));
    for (const group of elements(drawing)) {
        const kind = group.attributes.get('data-kind');
        if (kind === undefined) continue;
        const own = shapesOf(group);
        const box = inLine(group) ? boxOf(shapesOf(signIn(group)!).flatMap(({ strokes }) => strokes.flat())) : ['tank', 'engine', 'generator', 'heater', 'exchanger'].includes(kind) ? boxOf(own.find(({ element }) => element.name === 'rect')!.strokes.flat()) : kind === 'selector' || kind === 'changeover' ? boxOf(own.filter(({ element }) => element.name === 'polygon').flatMap(({ strokes }) => strokes.flat())) : undefined;
        if (!box) continue;
        const y = inLine(group) ? matrixOf(signIn(group)!)[5] : NaN;
        for (const { element, strokes } of lines) {
            const core = { left: box.left + 1.5, right: box.right - 1.5, top: box.top + 1.5, bottom: box.bottom - 1.5 };
            const through = strokes.filter((row) => meet(grown(boxOf(row)), core)).flatMap(sampled).filter((point) => inside(point, core));
            // The line that a gauge sits on passes beneath it.
            if (through.some((point) => Math.abs(point[1] - y) > 1)) found.push(`a line of ${idOf(element) ?? above(element, 'data-course') ?? 'a row'} passes through ${idOf(group)}`);
        }
    }
    return found;
}

const short = (words: string): string => (words.length > 40 ? `${words.slice(0, 40)}…` : words);
const where = (element: Element): string => { const id = idOf(element); return id === undefined ? '' : ` at ${short(id)}`; };
/** Without blanks, and without signs that turn the order of others, which a sheet leaves out. */
const bare = (words: string): string => words.replace(/[\s\u200b-\u200f\u202a-\u202e\u2066-\u2069]/g, '');
const isUpright = (element: Element): boolean => Math.abs(matrixOf(element)[1]) > 0.5;
const inked = ({ left, top, right, bottom }: Box, upright: boolean): Box => { const air = AIR * (upright ? right - left : bottom - top); return upright ? { left: left + air, right: right - air, top: top + 0.5, bottom: bottom - 0.5 } : { left: left + 0.5, right: right - 0.5, top: top + air, bottom: bottom - air }; };
const meet = (a: Box, b: Box): boolean => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5;
const grown = ({ left, top, right, bottom }: Box): Box => ({ left: left - 1, top: top - 1, right: right + 1, bottom: bottom + 1 });
const inside = ([x, y]: Point, { left, top, right, bottom }: Box): boolean => x > left && x < right && y > top && y < bottom;

/** What is seen as a line: drawn with a stroke, and neither the hatching under a thing nor the ground of its words. */
const isStroke = ({ element }: Shape): boolean => element.attributes.get('stroke') !== 'none' && element.attributes.get('stroke-opacity') !== '0' && !(element.attributes.get('stroke-opacity') !== undefined && element.attributes.get('class') === 'thin');

/** Points every two pixels. */
function sampled(row: readonly Point[]): Point[] {
    return row.slice(1).flatMap(([x, y], i) => {
        const [fromX, fromY] = row[i]!;
        const steps = Math.max(1, Math.ceil(Math.hypot(x - fromX, y - fromY) / 2));
        return Array.from({ length: steps + 1 }, (_, k): Point => [fromX + (x - fromX) * k / steps, fromY + (y - fromY) * k / steps]);
    });
}
