/** `passage Islands leaves 2026-09-10  motors 90 h at 2400 rpm  margin 25 %`. */
import type { Passage as PassageModel } from '../../model/boat';
import { Cursor } from '../cursor';
import type { Passage } from '../generated/ast';
import type { Context } from './context';
import { isDate } from './lines';
import { readMeasure } from './readings';
import { optional } from './vessel';

export function lowerPassage(context: Context, passage: Passage): PassageModel {
    const id = context.claim(passage.name, passage.$cstNode);
    const cursor = new Cursor(passage.tokens);
    let found: Omit<PassageModel, 'id'> = {};
    while (!cursor.done) {
        const here = cursor.cst;
        if (cursor.words('leaves')) {
            const day = cursor.day();
            if (day !== undefined && isDate(day)) found = { ...found, leaves: day };
            else context.problem('date', here, 'After `leaves` comes the day, like 2026-09-10.');
        } else if (cursor.words('motors')) {
            found = { ...found, ...optional('motors', readMeasure(context, cursor, 'motors', 'time', '90 h')) };
            if (cursor.words('at')) found = { ...found, ...optional('speed', readMeasure(context, cursor, 'at', 'rotation', '2400 rpm')) };
        } else if (cursor.words('margin')) found = { ...found, ...optional('margin', readMeasure(context, cursor, 'margin', 'ratio', '25 %')) };
        else if (cursor.words('note')) cursor.quoted();
        else if (cursor.peek()?.$type === 'Quoted' || cursor.comma()) cursor.quoted();
        else { cursor.take(); context.problem('passage', here, `\`${here?.text ?? ''}\` is not understood here. A passage reads: \`passage ${passage.name} leaves 2026-09-10 motors 90 h at 2400 rpm margin 25 %\`.`); break; }
    }
    return { id, ...found };
}
