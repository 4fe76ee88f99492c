/** Quantities outside of the tables of facts: what a gauge read, how deep a dip was, what is planned. */
import type { CstNode } from 'langium';
import type { LogReading } from '../../model/boat';
import type { Measure } from '../../model/measure';
import { UNITS, toSI, type Dimension } from '../../model/units';
import type { Measure as Measured, Ref } from '../generated/ast';
import type { Cursor } from '../cursor';
import { splitQuantity } from '../quantity';
import type { Context } from './context';

/** The quantity behind a word, `90 h`, `80 to 100 h` or `90 h about`. What is wrong with it is told once, and passed over up to one of the words that may follow. */
export function readMeasure(context: Context, cursor: Cursor, word: string, dimension: Dimension, like: string, next: ReadonlySet<string>): Measure | undefined {
    const here = cursor.cst;
    const measure = rangeOf(cursor, dimension);
    if (measure && (measure.low ?? measure.si) >= 0 && (measure.si > 0 || dimension === 'ratio')) return cursor.words('about') ? { ...measure, about: true } : measure;
    context.problem('wants', here, `\`${word}\` needs a figure and its unit, like \`${word} ${like}\`.`);
    passOver(cursor, next);
    return undefined;
}

/** To the next of these words, a name or what stands between quotes: one slip is one message. */
export function passOver(cursor: Cursor, next: ReadonlySet<string>): void {
    for (let token = cursor.peek(); token && token.$type !== 'Ref' && token.$type !== 'Quoted' && !(token.$type === 'Word' && next.has(token.text)); token = cursor.peek()) cursor.take();
}

/** One quantity, or two with `to` between them. */
export function rangeOf(cursor: Cursor, dimension: Dimension): Measure | undefined {
    const first = cursor.measure();
    if (first === undefined) return undefined;
    const second = measureAt(cursor, 1);
    if (!second || !cursor.words('to')) { const si = quantityOf(first, dimension); return si === undefined ? undefined : { si }; }
    cursor.take();
    const unit = splitQuantity(second.text).unit ?? '';
    const ends = [quantityOf(splitQuantity(first).unit === undefined ? `${first} ${unit}` : first, dimension), quantityOf(second.text, dimension)];
    const [low, high] = [Math.min(...ends.map((end) => end ?? NaN)), Math.max(...ends.map((end) => end ?? NaN))];
    return Number.isNaN(low) ? undefined : { si: (low + high) / 2, low, high };
}

/** A quantity of this kind in SI; nothing for any other, or for one without a unit. */
export function quantityOf(text: string, dimension: Dimension): number | undefined {
    const { numbers, unit } = splitQuantity(text);
    return numbers.length === 1 && unit !== undefined && UNITS[unit]?.dimension === dimension ? toSI(numbers[0]!, unit) : undefined;
}

const measureAt = (cursor: Cursor, ahead = 0): Measured | undefined => { const token = cursor.peek(ahead); return token?.$type === 'Measure' ? token : undefined; };

/**
 * Behind a name in the log: `0.9 inHg at 2400 rpm`, `dipped 210 mm`. Other words are the writer's own, and left to him; what was meant for a reading
 * and would be lost is told.
 */
export function readReading(context: Context, cursor: Cursor, ref: Ref): LogReading[] {
    const node = ref.to.ref;
    if (!node) return []; // the linker says that it is not there
    const name = ref.to.$refText;
    if (node.$type === 'Part' && node.kind === 'gauge') return readGauge(context, cursor, name);
    const measure = measureAt(cursor);
    if (node.$type === 'Tank' && measure && (quantityOf(measure.text, 'length') ?? -1) >= 0) tell(context, measure.$cstNode, `If that is how deep it was, write \`${name} dipped ${measure.text}\`.`);
    const here = cursor.cst;
    return cursor.words('dipped') ? readDip(context, cursor, here, name, node.$type === 'Tank') : [];
}

function readGauge(context: Context, cursor: Cursor, name: string): LogReading[] {
    const about = context.idOf(name);
    const measure = measureAt(cursor);
    if (!measure) { notBehind(context, cursor, name); return []; }
    cursor.take();
    const value = quantityOf(measure.text, 'pressure');
    if (value === undefined) { tell(context, measure.$cstNode, `\`${measure.text}\` is no pressure. What a gauge read is written like \`${name} 0.9 inHg at 2400 rpm\`.`); return []; }
    const speed = readSpeed(context, cursor);
    // Nobody writes the sign of a vacuum. Nought has none.
    const vacuum = value !== 0 && context.facts.get(about)?.has('vacuum') === true;
    return [{ about, of: 'gauge', value: vacuum ? -Math.abs(value) : value, ...(speed !== undefined && { speed }) }];
}

function readSpeed(context: Context, cursor: Cursor): number | undefined {
    const measure = measureAt(cursor, 1);
    if (!measure || !cursor.words('at')) return undefined;
    cursor.take();
    const speed = quantityOf(measure.text, 'rotation');
    if (speed !== undefined && speed > 0) return speed;
    tell(context, measure.$cstNode, `\`${measure.text}\` is no speed of an engine. Write it like \`at 2400 rpm\`.`);
    return undefined;
}

/** `G1 showed 0.9 inHg`, `G1 at 2400 rpm 0.9 inHg`: the figure is further on. */
function notBehind(context: Context, cursor: Cursor, name: string): void {
    const isPressure = (token: Measured | undefined): boolean => token !== undefined && quantityOf(token.text, 'pressure') !== undefined;
    let ahead = 0;
    while (cursor.peek(ahead)?.$type === 'Word' || (measureAt(cursor, ahead) && !isPressure(measureAt(cursor, ahead)))) ahead++;
    const measure = measureAt(cursor, ahead);
    if (measure && isPressure(measure)) tell(context, measure.$cstNode, `Write what it read right behind its name: \`${name} ${measure.text}\`, and then the speed, like \`at 2400 rpm\`.`);
}

function readDip(context: Context, cursor: Cursor, here: CstNode | undefined, name: string, tank: boolean): LogReading[] {
    if (!tank) { tell(context, here, `${name} is no tank, and only tanks are dipped.`); return []; }
    const measure = measureAt(cursor);
    if (!measure) { tell(context, here, `How deep? Write it like \`${name} dipped 210 mm\`.`); return []; }
    cursor.take();
    const depth = quantityOf(measure.text, 'length');
    if (depth !== undefined && depth >= 0) return [{ about: context.idOf(name), of: 'dip', value: depth }];
    tell(context, measure.$cstNode, `\`${measure.text}\` is no depth. Write it like \`${name} dipped 210 mm\`.`);
    return [];
}

/** The log is for people first: what it loses is told, and stops nothing. */
const tell = (context: Context, node: CstNode | undefined, message: string): void => context.problem('log', node, message, 'warning');
