/** How often: the times of intervals, and what people write for them. */
import type { Word } from '../generated/ast';
import { UNITS, toSI } from '../../model/units';
import type { Cursor } from '../cursor';
import { splitQuantity } from '../quantity';
import { nearest } from '../vocabulary';
import type { Context } from './context';

/** What people also say for how often. */
export const OFTEN: Readonly<Record<string, string>> = {
    yearly: 'every 12 months', annually: 'every 12 months', monthly: 'every 1 month', weekly: 'every week', daily: 'every day', quarterly: 'every 3 months', seasonally: 'every 12 months',
};
/** A hundred years in months; hours are counted at a hundred a month. */
const LONGEST = 1200;

/** A time behind `every` or `or`; what is wrong with it is told. */
export function readTime(context: Context, cursor: Cursor, ends: ReadonlySet<string>): { hours?: number; months?: number; days?: number } | undefined {
    const here = cursor.cst;
    const text = cursor.measure();
    const { numbers, unit } = text === undefined ? { numbers: [], unit: undefined } : splitQuantity(text);
    const found = unit === undefined ? undefined : UNITS[unit];
    if (text !== undefined && unit === undefined && numbers[0] !== undefined) {
        const first = cursor.peek();
        const hyphen = first?.$type === 'Measure' && first.text.startsWith('-') ? cursor.measure() : undefined;
        const words = hyphen === undefined ? timeWords(cursor, ends) : [];
        if (words.length > 0) {
            const said = words.map(({ text }) => text).join(' ');
            context.problem('unit', words[0]!.$cstNode, `\`${said}\` is not a unit. Did you mean \`${text} ${timeUnit(said)}\`?`, 'error', words.at(-1)!.$cstNode);
        } else context.problem('interval', here, hyphen === undefined
            ? `\`${text}\` is not a time: a unit is missing. Write it like 250 h or 12 months.`
            : `An interval is one time: write \`every ${text} ${splitQuantity(hyphen).unit ?? 'h'}\`.`);
        return undefined;
    }
    if (text === undefined) {
        const first = cursor.peek();
        const words: string[] = [];
        for (let token = first; token?.$type === 'Word' && token.text !== 'or' && !ends.has(token.text); token = cursor.peek()) { words.push(token.text); cursor.take(); }
        const each = words.length === 1 ? EACH[words[0]!] : undefined;
        context.problem('interval', here, each !== undefined ? `\`${words[0]}\` is written with a figure: \`every ${each}\`.`
            : words.length > 0 ? `\`${words.join(' ')}\` is not a time: write figures, like 250 h or 12 months.` : 'A time is missing here. Write it like 250 h or 12 months.');
        return undefined;
    }
    if (!found || (found.dimension !== 'time' && found.dimension !== 'calendar') || !(numbers[0]! > 0)) {
        context.problem('interval', here, `\`${text}\` is not a time. Write it like 250 h or 12 months.`);
        return undefined;
    }
    const whole = found.dimension === 'calendar' || unit!.startsWith('day') || unit!.startsWith('week');
    const size = toSI(numbers[0]!, unit!) / (found.dimension === 'calendar' ? 1 : unit!.startsWith('h') ? 3600 * 100 : 86400 * 30);
    if ((whole && !Number.isInteger(numbers[0]!)) || size > LONGEST) {
        context.problem('interval', here, `\`${text}\` is no interval that can be planned: ${size > LONGEST ? 'it is longer than a hundred years' : 'days and months are whole numbers'}.`);
        return undefined;
    }
    if (found.dimension === 'calendar') return { months: toSI(numbers[0]!, unit!) };
    return unit === 'day' || unit === 'days' || unit === 'week' || unit === 'weeks' ? { days: toSI(numbers[0]!, unit) / 86400 } : { hours: toSI(numbers[0]!, unit!) };
}

export const isTime = (text: string): boolean => ['time', 'calendar'].includes(UNITS[splitQuantity(text).unit ?? '']?.dimension ?? '');
const EACH: Readonly<Partial<Record<string, string>>> = { year: '12 months', season: '12 months', month: '1 month', quarter: '3 months', hour: '1 h', trip: 'start', passage: 'start' };

/** The words that someone wrote for the unit of a time: `hrs`, `engine hours`. */
function timeWords(cursor: Cursor, ends: ReadonlySet<string>): Word[] {
    const found: Word[] = [];
    for (let token = cursor.peek(); token?.$type === 'Word' && (found.length > 0 || !ends.has(token.text)) && token.text !== 'or' && found.length < 2; token = cursor.peek()) {
        if (found.length > 0 && !['hours', 'hour', 'hrs', 'h'].includes(token.text)) break;
        found.push(token);
        cursor.take();
    }
    return found;
}

const timeUnit = (said: string): string => /h(?:ou)?rs?$|^h/.test(said) ? 'h' : /^mo?n?ths?|^mos?$/.test(said) ? 'months' : nearest(said, ['h', 'hours', 'days', 'weeks', 'months', 'years']) ?? 'h';
