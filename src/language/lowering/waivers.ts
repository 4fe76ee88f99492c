/** `waive HOSE-AGE at S1  until 2027-04-01  by "owner"  because "supple, inspected"`. */
import type { Waiver as WaiverModel } from '../../model/boat';
import { INSPECTED } from '../../checks/inspected';
import { RULES } from '../../checks/rules';
import { Cursor } from '../cursor';
import type { Waiver } from '../generated/ast';
import { nearest } from '../vocabulary';
import type { Context } from './context';
import { isDate } from './lines';

export function lowerWaiver(context: Context, waiver: Waiver, index: number): WaiverModel | undefined {
    const id = `waive/${index + 1}`;
    context.sources.add(id, waiver.$cstNode!);
    const cursor = new Cursor(waiver.tokens);
    const here = waiver.$cstNode;
    const code = cursor.ref()?.to.$refText;
    const codes = [...RULES, ...INSPECTED].map((rule) => rule.code);
    if (code === undefined || !codes.includes(code)) {
        const meant = code === undefined ? undefined : nearest(code, codes);
        context.problem('waive', here, `${code === undefined ? 'Which rule is waived?' : `There is no rule ${code}.`}${meant ? ` Did you mean \`${meant}\`?` : ' Name it by its code, like `waive HOSE-AGE at S1`.'}`);
        return undefined;
    }
    const at: string[] = [];
    let until: string | undefined;
    let by: string | undefined;
    let because: string | undefined;
    while (!cursor.done) {
        const place = cursor.cst;
        if (cursor.words('at')) at.push(...cursor.refs().map((ref) => (ref.port ? `${ref.to.$refText}.${ref.port.$refText}` : context.idOf(ref.to.$refText))));
        else if (cursor.words('until')) until = cursor.day();
        else if (cursor.words('by')) by = cursor.quoted();
        else if (cursor.words('because')) because = cursor.quoted();
        else if (!cursor.comma()) { cursor.take(); context.problem('waive', place, `\`${place?.text ?? ''}\` is not understood here. A waiver reads: \`waive HOSE-AGE at S1 until 2027-04-01 by "owner" because "supple, inspected"\`.`); return undefined; }
    }
    // A waiver with no owner and no end is an excuse for ever.
    const lacks = [until !== undefined && isDate(until) ? '' : 'its last day, like `until 2027-04-01`', by ? '' : 'who waives it, like `by "owner"`', because ? '' : 'why, like `because "supple, inspected"`'].filter((words) => words !== '');
    if (lacks.length > 0 || until === undefined || by === undefined || because === undefined) {
        context.problem('waive', here, `A waiver says ${lacks.join(', and ')}.`);
        return undefined;
    }
    return { id, rule: code, until, by, because, at };
}
