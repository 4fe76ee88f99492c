/** Quantities outside of the tables of facts: what a gauge read, how deep a dip was, what is planned. */
import type { LogReading } from '../../model/boat';
import type { Measure } from '../../model/measure';
import { UNITS, toSI, type Dimension } from '../../model/units';
import type { Ref } from '../generated/ast';
import type { Cursor } from '../cursor';
import { splitQuantity } from '../quantity';
import type { Context } from './context';

/** The quantity behind a word; what is wrong with it is told. */
export function readMeasure(context: Context, cursor: Cursor, word: string, dimension: Dimension, like: string): Measure | undefined {
    const here = cursor.cst;
    const text = cursor.measure();
    const si = text === undefined ? undefined : quantityOf(text, dimension);
    if (si === undefined || si < 0) { context.problem('wants', here, `\`${word}\` needs a figure and its unit, like \`${word} ${like}\`.`); return undefined; }
    return { si };
}

function quantityOf(text: string, dimension: Dimension): number | undefined {
    const { numbers, unit } = splitQuantity(text);
    return numbers.length === 1 && unit !== undefined && UNITS[unit]?.dimension === dimension ? toSI(numbers[0]!, unit) : undefined;
}

/** Behind a name in the log: `0.9 inHg at 2400 rpm`, `dipped 210 mm`. Other words are the writer's own, and left to him. */
export function readReading(context: Context, cursor: Cursor, ref: Ref): LogReading[] {
    const node = ref.to.ref;
    const about = context.idOf(ref.to.$refText);
    if (node?.$type === 'Part' && node.kind === 'gauge') {
        const token = cursor.peek();
        const value = token?.$type === 'Measure' ? quantityOf(token.text, 'pressure') : undefined;
        if (value === undefined) return [];
        cursor.take();
        const next = cursor.peek(1);
        const speed = cursor.peek()?.$type === 'Word' && (cursor.peek() as { text: string }).text === 'at' && next?.$type === 'Measure' ? quantityOf(next.text, 'rotation') : undefined;
        if (speed !== undefined) { cursor.take(); cursor.take(); }
        // Nobody writes the sign of a vacuum.
        const vacuum = context.facts.get(about)?.has('vacuum') === true;
        return [{ about, of: 'gauge', value: vacuum ? -Math.abs(value) : value, ...(speed !== undefined && { speed }) }];
    }
    if (node?.$type !== 'Tank' || !cursor.words('dipped')) return [];
    const depth = cursor.peek()?.$type === 'Measure' ? quantityOf((cursor.peek() as { text: string }).text, 'length') : undefined;
    if (depth === undefined) return [];
    cursor.take();
    return [{ about, of: 'dip', value: depth }];
}
