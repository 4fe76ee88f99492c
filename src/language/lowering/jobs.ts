/**
 * Jobs: what is done to which part and which piece of it. A line may name several parts, or with `each` a kind or a pattern;
 * every part then has a job of its own, as if it had been written out.
 */
import type { CstNode } from 'langium';
import type { Id, Interval, Job } from '../../model/boat';
import { RECIPES } from '../../procedures/service/recipes';
import { listed } from '../../model/words';
import type { Cursor } from '../cursor';
import { isPattern, type Ref } from '../generated/ast';
import { EACH_KINDS, EITHER, nearest, synonym } from '../vocabulary';
import type { Context } from './context';
import { optional } from './vessel';

export const JOB_VERBS: Readonly<Record<string, string>> = {
    renew: 'renewed', refit: 'refitted', look: 'looked', test: 'tested', drain: 'drained', clean: 'cleaned', work: 'worked', bleed: 'bled', grease: 'greased',
};
/** What procedures are for: jobs, and what a recipe answers besides; of `lay up` the verb is `lay`. */
export const PROCEDURE_VERBS: readonly string[] = [...new Set([...Object.keys(JOB_VERBS), ...RECIPES.map(({ verb }) => verb.split(' ')[0]!)])];
/** What people also call a job. */
export const OTHER_VERBS: Readonly<Record<string, string>> = {
    replace: 'renew', change: 'renew', swap: 'renew', fit: 'renew', inspect: 'look', check: 'look', examine: 'look', lubricate: 'grease', empty: 'drain', turn: 'work', operate: 'work', exercise: 'work',
};
export const PAST = new Map(Object.entries(JOB_VERBS).map(([verb, past]) => [past, verb]));
/** Words that end the piece of a job. */
export const JOB_ENDS = new Set(['every', 'with', 'common', 'source', 'refit', 'by', 'corrects', 'and', 'note', 'at', 'each', ...PAST.keys()]);

/** Words that end the piece of a job in the head of a procedure. */
export const HEAD_ENDS = new Set([...JOB_ENDS, 'starts', 'ends', 'kept', 'one', 'two', 'three', 'four', 'person', 'people']);

const KIND_WORDS = Object.keys(EACH_KINDS);

/** A job with how near it was said: 0 by name, then by the nearest pattern, and last by kind. */
export interface SaidJob {
    readonly job: Job;
    readonly rank: number;
}
type Where = 'tend' | 'log' | 'procedure';
/** Why no `each` stands there. */
const NO_EACH = { log: 'The log says which parts it was done to, and `each` would change with the boat. Name them', procedure: 'A procedure is for the parts that it names, step by step. Name them' } as const;

/** The jobs that stand here behind their verb: `FA, FB element`, `each shutoff`, `F1 element and F2 element`. */
export function readJobs(context: Context, cursor: Cursor, verb: string, where: Where): SaidJob[] {
    const found: SaidJob[] = [];
    do {
        const { said, parts } = readParts(context, cursor, where);
        const piece = where === 'procedure' ? cursor.wordsUntil(HEAD_ENDS, true) : cursor.wordsUntil(JOB_ENDS);
        // Something that is only named, such as an impeller.
        if (!said) found.push({ job: { verb, piece }, rank: 0 });
        for (const { part, name, rank } of parts) found.push({ job: { verb, piece: part === undefined ? `${name} ${piece}`.trim() : piece, ...optional('part', part) }, rank });
    } while (goesOn(cursor, where));
    return found;
}

/** Another job of the same verb: behind a comma or `and` another part, and in the log behind `and` also something only named. */
function goesOn(cursor: Cursor, where: Where): boolean {
    if (namesNext(cursor, where)) { cursor.take(); return true; }
    const next = cursor.peek(1);
    return where === 'log' && next?.$type === 'Word' && !JOB_ENDS.has(next.text) && cursor.words('and');
}

/** Whether a comma or `and` stands here with a part behind it. In the log a name may also have a reading: `E2 903 h`, `T1 dipped 210 mm`. */
function namesNext(cursor: Cursor, where: Where): boolean {
    const [here, next, then, last] = [cursor.peek(), cursor.peek(1), cursor.peek(2), cursor.peek(3)];
    if (here?.$type !== 'Comma' && !(here?.$type === 'Word' && here.text === 'and')) return false;
    if (next?.$type === 'Word') return next.text === 'each';
    return next?.$type === 'Ref' && next.to !== undefined && (where !== 'log' || (then?.$type !== 'Measure' && !(then?.$type === 'Word' && last?.$type === 'Measure')));
}

interface SaidPart {
    /** Absent for a name that is not on the boat. */
    readonly part?: Id;
    readonly name?: string;
    readonly rank: number;
}

/** The parts that a job names; none said when it begins with its piece. */
function readParts(context: Context, cursor: Cursor, where: Where): { said: boolean; parts: SaidPart[] } {
    const parts: SaidPart[] = [];
    for (let first = true; ; first = false) {
        const here = cursor.cst;
        const ref = cursor.ref();
        if (ref) parts.push(partOf(context, ref));
        else if (cursor.words('each') || (where === 'tend' && otherEach(context, cursor))) {
            const each = readEach(context, cursor, here, where === 'tend' ? (node, message, severity) => context.problem('each', node, message, severity) : () => {});
            if (where === 'tend') parts.push(...each);
            // What was done stays done to the same parts, whatever comes on board later.
            else context.problem('each', here, `${NO_EACH[where]}${each.length === 0 ? '' : `: \`${each.map(({ part }) => part).join(', ')}\``}.`);
        } else return { said: !first, parts };
        const kind = where === 'tend' && cursor.peek()?.$type === 'Comma' ? kindAt(cursor, 1) : undefined;
        if (kind !== undefined) {
            context.problem('each', cursor.peek(1)?.$cstNode, `\`${kind}\` is a kind and no name: write \`each ${kind}\`.`);
            cursor.take();
            for (const _ of kind.split(' ')) cursor.take();
        }
        if (!namesNext(cursor, where)) return { said: true, parts };
        cursor.take();
    }
}

function partOf(context: Context, ref: Ref): SaidPart {
    const name = ref.to.$refText;
    if (isPattern(ref.to.ref)) {
        context.problem('each', ref.$cstNode, `${name} is a pattern and not on the boat. All that is like it is \`each ${name}\`.`);
        return { name, rank: 0 };
    }
    return { name, rank: 0, ...(ref.to.ref && { part: context.idOf(name) }) };
}

type Tell = (node: CstNode | undefined, message: string, severity?: 'warning') => void;

/** What stands behind `each`, and what on the boat is of that kind or like that pattern; what is wrong with it is told. */
function readEach(context: Context, cursor: Cursor, each: CstNode | undefined, tell: Tell): SaidPart[] {
    const here = cursor.peek()?.$cstNode;
    const things = [...context.things];
    const ref = cursor.ref();
    const name = ref?.to.$refText;
    const target = ref?.to.ref;
    if (ref && !target) return []; // the linker says that it is not there
    if (target && !isPattern(target)) { tell(here, `${name} is a single thing: write \`${name}\` without \`each\`. Behind \`each\` comes a kind, like \`shutoff\`, or a pattern.`); return []; }
    if (target) {
        const { part } = target;
        if (!part) { tell(here, `${name} is a pattern of a whole course, and a job is done to a part. Write \`each\` with a pattern of a part or a kind, like \`each shutoff\`.`); return []; }
        const like = things.flatMap(([id, { line }]): SaidPart[] => { const rank = line.indexOf(part); return rank < 0 ? [] : [{ part: id, rank }]; });
        if (like.length === 0) tell(here, `Nothing on this boat is like ${name}, ${FOR_NOTHING}`, 'warning');
        return withTags(context, like, (count) => tell(here, leftOut(name!, count), 'warning'));
    }
    const kind = kindAt(cursor, 0, each?.text !== 'each');
    if (kind === undefined) { noKind(context, cursor, each, tell); return []; }
    for (const _ of kind.split(' ')) cursor.take();
    const same = things.flatMap(([id, thing]): SaidPart[] => (thing.kind === EACH_KINDS[kind] ? [{ part: id, rank: Infinity }] : []));
    if (same.length === 0) tell(here, `There is no ${kind} on this boat, ${FOR_NOTHING}`, 'warning');
    return withTags(context, same, (count) => tell(here, leftOut(kind, count), 'warning'));
}

const FOR_NOTHING = 'so this line asks for nothing. Leave it out until there is one.';
const leftOut = (what: string, count: number): string => `\`each ${what}\` leaves out ${count} that ${count === 1 ? 'has' : 'have'} no name. Give ${count === 1 ? 'it one' : 'each of them one'}, so that the log can tell of it.`;

/** Leaves out what has no tag, since nobody could log it. */
function withTags(context: Context, found: readonly SaidPart[], leave: (count: number) => void): SaidPart[] {
    const tagged = found.filter(({ part }) => context.things.get(part!)!.tagged);
    if (tagged.length < found.length) leave(found.length - tagged.length);
    return tagged;
}

/** `all shutoffs`, `every shutoff`: what people also say for `each`, where a kind or a pattern follows. */
function otherEach(context: Context, cursor: Cursor): boolean {
    const [token, next] = [cursor.peek(), cursor.peek(1)];
    if (token?.$type !== 'Word' || (token.text !== 'all' && token.text !== 'every')) return false;
    const what = next?.$type === 'Ref' && isPattern(next.to?.ref) ? next.to.$refText : kindAt(cursor, 1, true);
    if (what === undefined) return false;
    context.problem('each', token.$cstNode, `\`${token.text}\` is written \`each\` here: \`each ${what}\`.`);
    cursor.take();
    return true;
}

/** The longest words of a kind that stand so far ahead; `many`: as of several. */
function kindAt(cursor: Cursor, ahead = 0, many = false): string | undefined {
    const [first, second] = [cursor.peek(ahead), cursor.peek(ahead + 1)].map((token) => (token?.$type === 'Word' ? many ? token.text.replace(/s$/, '') : token.text : undefined));
    return [`${first} ${second}`, `${first}`].find((words) => Object.hasOwn(EACH_KINDS, words));
}

function noKind({ patterns }: Context, cursor: Cursor, each: CstNode | undefined, tell: Tell): void {
    const [token, next] = [cursor.peek(), cursor.peek(1)];
    if (token?.$type !== 'Word' || JOB_ENDS.has(token.text)) {
        tell(each, 'Each what? Behind `each` comes a kind, like `each shutoff`, or a pattern, like `each Primary60`.');
        return;
    }
    const word = token.text;
    const other = synonym(word);
    const wider = KIND_WORDS.filter((kind) => kind.split(' ').includes(word));
    const twoWords = next?.$type === 'Word' ? nearest(`${word} ${next.text}`, KIND_WORDS.filter((kind) => kind.includes(' '))) : undefined;
    const meant = wider.length > 0 ? wider : other !== undefined && KIND_WORDS.includes(other) ? [other] : [twoWords ?? nearest(word, [...KIND_WORDS, ...patterns])].filter((found) => found !== undefined);
    const isRole = EITHER[0]!.includes(word);
    tell(token.$cstNode, `\`${word}\` is no kind and no pattern. ${isRole ? 'Write `each filter` or the pattern of these filters, or name them: `renew F1, F2 element`.'
        : meant.length > 0 ? `Did you mean ${listed(meant.map((kind) => `\`each ${kind}\``), 'or')}?` : 'Behind `each` comes a kind, like `each shutoff`, or a pattern, like `each Primary60`.'}`);
}

/** Of what is said of one job, the nearest holds: what names the part before what names a pattern, and that before what names a kind. */
export function nearestSaid(said: readonly (SaidJob & { readonly interval: Interval })[]): Interval[] {
    const key = ({ verb, part, piece }: Job): string => JSON.stringify([verb, part, piece]);
    const ranks = new Map<string, number>();
    for (const { job, rank } of said) ranks.set(key(job), Math.min(rank, ranks.get(key(job)) ?? Infinity));
    return said.filter(({ job, rank }) => rank === ranks.get(key(job))).map(({ interval }) => interval);
}
