/** `passage Islands leaves 2026-09-10  motors 90 h at 2400 rpm  margin 25 %`. */
import type { Passage as PassageModel } from '../../model/boat';
import { Cursor } from '../cursor';
import type { Passage } from '../generated/ast';
import type { Context } from './context';
import { isDate } from './lines';
import { passOver, readMeasure } from './readings';
import { optional } from './vessel';

export const PASSAGE_WORDS: ReadonlySet<string> = new Set(['leaves', 'motors', 'margin']);
const WORDS = new Set([...PASSAGE_WORDS, 'note']);
/** Behind the hours may follow the speed. */
const BEHIND_HOURS = new Set([...WORDS, 'at']);

export function lowerPassage(context: Context, passage: Passage): PassageModel {
    const id = context.claim(passage.name, passage.$cstNode);
    const cursor = new Cursor(passage.tokens);
    const said = new Set<string>();
    let found: Omit<PassageModel, 'id'> = {};
    while (!cursor.done) {
        const here = cursor.cst;
        const next = cursor.peek();
        if (next?.$type === 'Word' && PASSAGE_WORDS.has(next.text)) {
            if (said.has(next.text)) context.problem('said-twice', here, `\`${next.text}\` is said twice here; the later one is used. Remove the one that is wrong.`, 'warning');
            said.add(next.text);
        }
        if (cursor.words('leaves')) {
            const written = cursor.cst;
            const day = cursor.day();
            if (day !== undefined && isDate(day)) { found = { ...found, leaves: day }; continue; }
            context.problem('date', written, day === undefined || !/^\d{4}-/.test(day) ? 'After `leaves` comes the day, like 2026-09-10.' : `\`${day}\` is not a day of the calendar. Write the day on which she leaves, like 2026-09-10.`);
            passOver(cursor, WORDS);
        } else if (cursor.words('motors')) {
            found = { ...found, ...optional('motors', readMeasure(context, cursor, 'motors', 'time', '90 h', BEHIND_HOURS)) };
            if (cursor.words('at')) found = { ...found, ...optional('speed', readMeasure(context, cursor, 'at', 'rotation', '2400 rpm', WORDS)) };
        } else if (cursor.words('margin')) found = { ...found, ...optional('margin', readMeasure(context, cursor, 'margin', 'ratio', '25 %', WORDS)) };
        else if (!cursor.words('note') && cursor.quoted() === undefined && !cursor.comma()) {
            context.problem('passage', here, `\`${here?.text ?? ''}\` is not understood here. A passage reads: \`passage ${passage.name} leaves 2026-09-10 motors 90 h at 2400 rpm margin 25 %\`.`);
            cursor.take();
            passOver(cursor, WORDS);
        }
    }
    return { id, ...found };
}
