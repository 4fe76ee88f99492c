/** Bleed blocks: their heads, and their lines read as steps. */
import type { BleedBlock, BleedLine, Id } from '../../model/boat';
import type { Driver, Expectation, Step } from '../../model/step';
import type { AnyToken, Bleed } from '../generated/ast';
import { splitQuantity } from '../quantity';
import { Cursor, spelling } from '../cursor';
import { isPositionInStep } from '../problems';
import { nearest, synonym } from '../vocabulary';
import type { Context } from './context';
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
    let numbered = false;
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
        lines: bleed.lines.map((line, i) => {
            const lineId = `${id}/${i + 1}`;
            context.sources.add(lineId, line.$cstNode!);
            const [number, ...step] = line.tokens;
            if (number?.$type !== 'Measure' || !/^\d+$/.test(number.text) || step.length === 0) return bleedLine(line.tokens, lineId, context);
            if (!numbered) context.problem('step', number.$cstNode, `\`${number.text}\` is not needed: a step bears no number. Steps are done in the order in which they stand.`);
            numbered = true;
            return bleedLine(step, lineId, context);
        }),
    };
}

/** The verbs of steps, each with an example. */
export const STEP_VERBS: Readonly<Record<string, string>> = {
    open: 'open V1', shut: 'shut V1', turn: 'turn SV1 to PORT', prefill: 'prefill F1', bleed: 'bleed BS1 by PR1', prove: 'prove LP1 at BS2 by lever 10 strokes',
    start: 'start E1 at most 2 times 10 s',
};

/** Words that begin a line that is no step. */
const REMARKS = new Set(['heed', 'caution', 'sign', 'if', 'note']);

function bleedLine(tokens: readonly AnyToken[], id: Id, context: Context): BleedLine {
    const strangers = tokens.flatMap((token) => token.$type === 'Ref' && token.to && !token.to.ref && !isPositionInStep(token) ? [token.to.$refText] : []);
    const unread = (message?: string, end?: AnyToken): BleedLine => {
        if (message !== undefined) context.problem('step', tokens[0]?.$cstNode, message, 'error', end?.$cstNode);
        return { id, text: spelling(tokens), strangers, unread: true };
    };
    const verbless = otherwise(tokens);
    if (verbless !== undefined) return unread(verbless, tokens[1]);
    const cursor = new Cursor(tokens);
    const step = readStep(cursor, (tag) => context.idOf(tag));
    const first = tokens[0]?.$type === 'Word' ? tokens[0].text : '';
    // Half a step is worse than none: what is not understood must not be passed over.
    if (step && !cursor.done) context.problem('step', cursor.cst, `\`${cursor.cst?.text ?? ''}\` and what follows it is not understood after this step. One line is one step; write remarks as \`note "..."\`.`);
    const vent = tokens[1]?.$type === 'Ref' ? tokens[1].to?.$refText : undefined;
    if (step) return { id, text: spelling(tokens), strangers, step };
    if (strangers.length > 0) return unread(); // the linker says that they are not there
    if (first === 'bleed' && vent !== undefined && tokens.length === 2) return unread(`This step does not say by what. Write \`bleed ${vent} by PR1\`, with the pump of your boat, or \`bleed ${vent} by gravity from T1\`.`);
    if (Object.hasOwn(STEP_VERBS, first)) return unread(`This step is not understood. It reads like \`${STEP_VERBS[first]}\`.`);
    if (tokens[0]?.$type === 'Ref') return unread(`A step begins with what is done, like \`bleed BS1 by PR1\` or \`open V1\`. Write remarks as \`note "..."\`.`);
    if (!REMARKS.has(first)) {
        const other = synonym(first) ?? first;
        const meant = Object.hasOwn(STEP_VERBS, other) ? other : nearest(first, Object.keys(STEP_VERBS));
        if (meant !== undefined) return unread(`\`${first}\` is not a step that Orlop knows. Did you mean \`${vent === undefined ? STEP_VERBS[meant]! : `${meant} ${vent}`}\`?`);
    }
    return { id, text: spelling(tokens), strangers };
}

/** What to write for a line like those of a line-up, or for a bleed point opened and closed by itself. */
function otherwise(tokens: readonly AnyToken[]): string | undefined {
    const [first, second] = tokens;
    const word = (token: AnyToken | undefined): string => (token?.$type === 'Word' ? token.text : '');
    const verb = (text: string): string => synonym(text) ?? text;
    if (first?.$type === 'Ref' && first.to?.ref) {
        const valve = first.to.$refText;
        if (['open', 'shut'].includes(verb(word(second)))) return `The verb stands first in a step: write \`${verb(word(second))} ${valve}\`.`;
        if (second?.$type === 'Ref' && (first.to.ref.$type === 'Selector' || first.to.ref.$type === 'Changeover')) return `The verb stands first in a step: write \`turn ${valve} to ${second.to?.$refText ?? 'PORT'}\`.`;
    }
    if (second?.$type === 'Ref' && second.to?.ref?.$type === 'BleedPoint' && ['open', 'shut'].includes(verb(word(first)))) {
        const vent = second.to.$refText;
        return `A bleed point is opened, bled and closed in one step: write \`bleed ${vent} by PR1\`, with the pump of your boat, or \`bleed ${vent} by gravity from T1\`.`;
    }
    return undefined;
}

/** A step as it is written, or nothing for a line that is no step. */
function readStep(cursor: Cursor, idOf: (tag: string) => Id): Step | undefined {
    const ref = (): Id | undefined => { const found = cursor.ref(); return found && idOf(found.to.$refText); };
    const verb = cursor.word();
    switch (verb) {
        case 'open': case 'shut': { const part = ref(); return part === undefined ? undefined : { do: 'set', part, position: verb }; }
        case 'turn': {
            const part = ref();
            const position = cursor.words('to') ? cursor.ref()?.to.$refText ?? cursor.word() : undefined;
            return part === undefined || position === undefined ? undefined : { do: 'set', part, position };
        }
        case 'prefill': { const part = ref(); return part === undefined ? undefined : { do: 'prefill', part }; }
        case 'bleed': {
            const vent = ref();
            const driver = cursor.words('by') ? readDriver(cursor, ref) : undefined;
            return vent === undefined || driver === undefined ? undefined : { do: 'bleed', vent, driver, ...optional('expect', readExpectation(cursor)) };
        }
        case 'prove': {
            const part = ref();
            const vent = cursor.words('at') ? ref() : undefined;
            cursor.words('by lever');
            const strokes = Number(cursor.measure() ?? NaN);
            cursor.words('strokes');
            return part === undefined || vent === undefined || Number.isNaN(strokes) ? undefined : { do: 'prove', part, vent, strokes };
        }
        case 'start': return readStart(cursor, ref());
        default: return undefined;
    }
}

function readDriver(cursor: Cursor, ref: () => Id | undefined): Driver | undefined {
    const gravity = cursor.words('gravity from');
    const part = ref();
    if (part === undefined) return undefined;
    const by = gravity ? 'gravity' : cursor.words('lever') ? 'lever' : cursor.words('running') ? 'electric' : 'hand';
    return { by, part };
}

function readExpectation(cursor: Cursor): Expectation | undefined {
    if (!cursor.words('expect')) return undefined;
    const number = (): { value: number; unit: 'strokes' | 's' } | undefined => {
        const text = cursor.measure();
        if (text === undefined) return undefined;
        const { numbers, unit } = splitQuantity(text);
        cursor.words('strokes');
        return numbers[0] === undefined ? undefined : { value: numbers[0], unit: unit === 's' ? 's' : 'strokes' };
    };
    // expect 23 to 31 strokes stop and think at 46
    const likely = number();
    const most = cursor.words('to') ? number() : likely;
    const think = cursor.words('stop and think at') ? number() : undefined;
    return likely && most && think && { in: most.unit, likely: likely.value, most: most.value, think: think.value };
}

function readStart(cursor: Cursor, engine: Id | undefined): Step | undefined {
    if (engine === undefined || !cursor.words('at most')) return undefined;
    const tries = Number(cursor.measure() ?? NaN);
    cursor.words('times');
    const seconds = splitQuantity(cursor.measure() ?? '').numbers[0];
    if (Number.isNaN(tries) || seconds === undefined) return undefined;
    const seacock = cursor.words('seacock open');
    const budget = cursor.words('budget') ? splitQuantity(cursor.measure() ?? '').numbers[0] : undefined;
    return { do: 'start', engine, tries, seconds, ...(seacock && { seacock: 'open' as const }), ...optional('budget', budget) };
}
