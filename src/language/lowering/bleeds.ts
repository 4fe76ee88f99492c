/** Bleed blocks: their heads, and their lines read as steps. */
import type { BleedBlock, Id } from '../../model/boat';
import type { Bleed } from '../generated/ast';
import { Cursor } from '../cursor';
import type { Context } from './context';
import { bleedLine, readLines } from './steps';
import { optional } from './vessel';

/** The words of the head of a bleed block. */
const BLEED_WORDS = new Set(['after', 'prefilled', 'from', 'starts', 'ends', 'kept']);

export function lowerBleed(context: Context, bleed: Bleed, index: number): BleedBlock {
    const id = `bleed/${index + 1}`;
    context.sources.add(id, bleed.$cstNode!, bleed.engine?.$refNode ?? bleed.$cstNode!);
    const cursor = new Cursor(bleed.tokens);
    const ids = (): Id[] => cursor.refs().filter((ref) => ref.to.ref).map((ref) => context.idOf(ref.to.$refText));
    let opened: Id[] = [];
    let prefilled: Id[] = [];
    let ranDry = false;
    let kept = false;
    let from: Id | undefined;
    let starts: Id | undefined;
    let ends: Id | undefined;
    while (!cursor.done) {
        const bare = cursor.cst;
        if (cursor.words('after opening')) opened = ids();
        else if (cursor.words('opened') || cursor.words('opening')) {
            opened = ids();
            context.problem('bleed', bare, `\`${bare?.text}\` is written \`after opening${opened.length > 0 ? ` ${opened.join(', ')}` : ' F1, F2'}\`.`);
        }
        else if (cursor.words('after running dry')) ranDry = true;
        else if (cursor.words('prefilled')) prefilled = ids();
        else if (cursor.words('from')) {
            const ref = cursor.peek();
            const [named] = ids();
            if (ref?.$type !== 'Ref' || ref.to.ref?.$type !== 'LineUp') { from = named; continue; }
            starts = named;
            context.problem('bleed', bare, `After \`from\` comes the tank to bleed from. The line-up in which it begins is written \`starts ${named}\`.`, 'error', ref.$cstNode);
        }
        else if (cursor.words('starts')) starts = ids()[0];
        else if (cursor.words('ends')) ends = ids()[0];
        else if (cursor.words('kept')) kept = true;
        else if (!cursor.comma()) {
            const token = cursor.take()!;
            if (token.$type === 'Word' && token.text === 'each') {
                context.problem('each', token.$cstNode, '`each` has its place in `tend`. A sequence names what was opened: `after opening F1, F2`.');
                for (let next = cursor.peek(); next?.$type === 'Ref' || (next?.$type === 'Word' && !BLEED_WORDS.has(next.text)); next = cursor.peek()) cursor.take();
                continue;
            }
            context.problem('bleed', token.$cstNode, `\`${token.$cstNode?.text}\` is not understood here. A bleed block reads: \`bleed E1 after opening F1, F2 starts SERVICE ends RUN kept { ... }\`.`);
        }
    }
    return {
        id, engine: context.idOf(bleed.engine?.$refText ?? ''), opened, ranDry, prefilled, kept,
        ...optional('from', from), ...optional('starts', starts), ...optional('ends', ends),
        lines: readLines(context, id, bleed.lines, (tokens, lineId) => bleedLine(tokens, lineId, context)),
    };
}
