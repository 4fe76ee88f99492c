/** Procedures: their heads, and their lines read as steps. */
import { GrammarUtils } from 'langium';
import type { Id, Job, ProcedureBlock } from '../../model/boat';
import type { AnyToken, Procedure } from '../generated/ast';
import { Cursor } from '../cursor';
import { nearest } from '../vocabulary';
import type { Context } from './context';
import { HEAD_ENDS, OTHER_VERBS, PROCEDURE_VERBS, readJobs } from './jobs';
import { quantityOf } from './readings';
import { procedureLine, readLines, strangersIn } from './steps';
import { optional } from './vessel';

const EXAMPLE = '`procedure renew F1 element "Change the primary element"   starts RUN   ends RUN   45 min   one person { ... }`';
const COUNTS: readonly string[] = ['none', 'one', 'two', 'three', 'four'];

/** `openingsOf` names what of a part can be opened. */
export function lowerProcedure(context: Context, procedure: Procedure, index: number, openingsOf: (part: Id) => readonly string[]): ProcedureBlock {
    const id = `procedure/${index + 1}`;
    const name = procedure.tokens.find((token) => token.$type === 'Ref');
    context.sources.add(id, procedure.$cstNode!, name?.$cstNode ?? GrammarUtils.findNodeForKeyword(procedure.$cstNode, 'procedure'));
    const head = readHead(context, procedure);
    let judged = true;
    const lines = readLines(context, id, procedure.lines, (tokens, lineId) => {
        const line = procedureLine(tokens, lineId, context, openingsOf, judged);
        judged &&= !line.unread;
        return line;
    });
    const strangers = strangersIn(procedure.tokens);
    return { id, ...head, ...(strangers.length > 0 && { strangers }), lines };
}

function readHead(context: Context, { tokens, $cstNode }: Procedure): Omit<ProcedureBlock, 'id' | 'lines'> {
    const cursor = new Cursor(tokens);
    const jobs: Job[] = [];
    let title: string | undefined;
    let starts: Id | undefined;
    let ends: Id | undefined;
    let takes: number | undefined;
    let people: number | undefined;
    let kept = false;
    let told = false;
    let verb: string | undefined;
    const wrong = (token: AnyToken | undefined, message: string): void => {
        // One slip in a head is one message.
        if (!told) context.problem('procedure', token?.$cstNode ?? GrammarUtils.findNodeForKeyword($cstNode, 'procedure'), message);
        told = true;
    };
    const lineUp = (word: string): Id | undefined => {
        const ref = cursor.ref();
        const node = ref?.to.ref;
        if (!ref) wrong(cursor.peek(), `After \`${word}\` comes a line-up: \`${word} RUN\`.`);
        else if (node && node.$type !== 'LineUp') wrong(ref, `${ref.to.$refText} is no line-up. After \`${word}\` comes one, like \`${word} RUN\`.`);
        else return ref.to.$refText;
        return undefined;
    };
    while (!cursor.done) {
        const token = cursor.peek()!;
        if (cursor.comma() || cursor.words('and')) continue;
        if (cursor.words('starts')) { starts = lineUp('starts'); continue; }
        if (cursor.words('ends')) { ends = lineUp('ends'); continue; }
        if (cursor.words('kept')) { kept = true; continue; }
        if (token.$type === 'Quoted') { title = cursor.quoted(); continue; }
        const count = token.$type === 'Word' ? COUNTS.indexOf(token.text) : token.$type === 'Measure' && /^[1-9]\d?$/.test(token.text) ? Number(token.text) : -1;
        if (count > 0 && ['person', 'people'].includes(textOf(cursor.peek(1)))) { people = count; cursor.take(); cursor.take(); continue; }
        if (token.$type === 'Measure') {
            cursor.take();
            takes = quantityOf(token.text, 'time');
            if (takes === undefined || takes <= 0) { takes = undefined; wrong(token, `\`${token.text}\` is no time. How long it takes is written like \`45 min\`.`); }
            continue;
        }
        const job = PROCEDURE_VERBS.find((words) => cursor.words(words));
        if (job !== undefined) {
            verb = job;
            jobs.push(...readJobs(context, cursor, job, 'procedure').map((said) => said.job));
            continue;
        }
        cursor.take();
        wrong(token, notHere(token, cursor));
        while (cursor.peek() && !HEAD_ENDS.has(textOf(cursor.peek())) && cursor.peek()!.$type !== 'Quoted') cursor.take();
    }
    if (jobs.length === 0 && verb === undefined) wrong(undefined, `What is done here? A procedure begins with its job: ${EXAMPLE}.`);
    return { jobs, kept, ...optional('title', title), ...optional('starts', starts), ...optional('ends', ends), ...optional('takes', takes), ...optional('people', people) };
}

function notHere(token: AnyToken, cursor: Cursor): string {
    const word = textOf(token);
    const meant = Object.hasOwn(OTHER_VERBS, word) ? OTHER_VERBS[word] : nearest(word, [...PROCEDURE_VERBS, 'starts', 'ends', 'kept']);
    const next = cursor.peek();
    if (meant !== undefined) return `\`${word}\` is no job that Orlop counts. Did you mean \`${meant}${next?.$type === 'Ref' ? ` ${next.to?.$refText ?? ''}` : ''}\`?`;
    return `\`${token.$cstNode?.text ?? ''}\` is not understood here. A procedure reads: ${EXAMPLE}.`;
}

const textOf = (token: AnyToken | undefined): string => (token?.$type === 'Word' ? token.text : '');
