/** Lines of bleed sequences and of procedures read as steps. */
import type { BleedLine, Id, ProcedureLine } from '../../model/boat';
import type { Step } from '../../model/step';
import type { AnyToken, Line } from '../generated/ast';
import { Cursor, spelling } from '../cursor';
import { isPositionInStep } from '../problems';
import { nearest, synonym } from '../vocabulary';
import { BLEED_VERBS, readBleedStep } from './bleed-steps';
import type { Context } from './context';
import { HAND_VERBS, HandSteps } from './hand-steps';
import { JOB_VERBS } from './jobs';

/** The verbs of the steps of a bleed sequence, each with an example. */
export const STEP_VERBS = BLEED_VERBS;
/** All that a procedure may say, each with an example. */
export const PROCEDURE_STEPS: Readonly<Record<string, string>> = { ...BLEED_VERBS, ...HAND_VERBS };

/** Words that begin a line that is no step. */
export const REMARKS: ReadonlySet<string> = new Set(['heed', 'sign', 'beware', 'taken', 'if', 'note']);

/** Reads each line under its own id. Numbers before the steps are told once and passed over. */
export function readLines<T>(context: Context, id: Id, lines: readonly Line[], read: (tokens: readonly AnyToken[], id: Id) => T): T[] {
    let numbered = false;
    return lines.map((line, i) => {
        const lineId = `${id}/${i + 1}`;
        context.sources.add(lineId, line.$cstNode!);
        const [number, ...step] = line.tokens;
        if (number?.$type !== 'Measure' || !/^\d+$/.test(number.text) || step.length === 0) return read(line.tokens, lineId);
        if (!numbered) context.problem('step', number.$cstNode, `\`${number.text}\` is not needed: a step bears no number. Steps are done in the order in which they stand.`);
        numbered = true;
        return read(step, lineId);
    });
}

/** Names that are not in the boat. */
export const strangersIn = (tokens: readonly AnyToken[]): string[] => tokens.flatMap((token) => token.$type === 'Ref' && token.to && !token.to.ref && !isPositionInStep(token) ? [token.to.$refText] : []);
const wordOf = (token: AnyToken | undefined): string => (token?.$type === 'Word' ? token.text : '');

// ---- bleed sequences

export function bleedLine(tokens: readonly AnyToken[], id: Id, context: Context): BleedLine {
    const strangers = strangersIn(tokens);
    const unread = (message?: string, end?: AnyToken): BleedLine => {
        if (message !== undefined) context.problem('step', tokens[0]?.$cstNode, message, 'error', end?.$cstNode);
        return { id, text: spelling(tokens), strangers, unread: true };
    };
    const verbless = otherwise(tokens);
    if (verbless !== undefined) return unread(verbless, tokens[1]);
    const cursor = new Cursor(tokens);
    const step: Step | undefined = readBleedStep(cursor, (tag) => context.idOf(tag));
    const first = wordOf(tokens[0]);
    // Half a step is worse than none: what is not understood must not be passed over.
    if (step && !cursor.done) context.problem('step', cursor.cst, leftOver(cursor));
    const vent = tokens[1]?.$type === 'Ref' ? tokens[1].to?.$refText : undefined;
    if (step) return { id, text: spelling(tokens), strangers, step };
    if (strangers.length > 0) return unread(); // the linker says that they are not there
    if (first === 'bleed' && vent !== undefined && tokens.length === 2) return unread(byWhat(vent));
    if (Object.hasOwn(STEP_VERBS, first)) return unread(readsLike(STEP_VERBS[first]!));
    if (tokens[0]?.$type === 'Ref') return unread(`A step begins with what is done, like \`bleed BS1 by PR1\` or \`open V1\`. Write remarks as \`note "..."\`.`);
    if (first !== 'caution' && !REMARKS.has(first)) {
        const other = synonym(first) ?? first;
        const meant = Object.hasOwn(STEP_VERBS, other) ? other : nearest(first, Object.keys(STEP_VERBS));
        if (meant !== undefined) return unread(`\`${first}\` is not a step that Orlop knows. Did you mean \`${vent === undefined ? STEP_VERBS[meant]! : `${meant} ${vent}`}\`?`);
    }
    return { id, text: spelling(tokens), strangers };
}

const leftOver = (cursor: Cursor): string => `\`${cursor.cst?.text ?? ''}\` and what follows it is not understood after this step. One line is one step; write remarks as \`note "..."\`.`;
const byWhat = (vent: string): string => `This step does not say by what. Write \`bleed ${vent} by PR1\`, with the pump of your boat, or \`bleed ${vent} by gravity from T1\`.`;
const readsLike = (example: string): string => `This step is not understood. It reads like \`${example}\`.`;

/** What to write for a line like those of a line-up, or for a bleed point opened and closed by itself. */
function otherwise(tokens: readonly AnyToken[]): string | undefined {
    const [first, second] = tokens;
    const verb = (text: string): string => synonym(text) ?? text;
    if (first?.$type === 'Ref' && first.to?.ref) {
        const valve = first.to.$refText;
        if (['open', 'shut'].includes(verb(wordOf(second)))) return `The verb stands first in a step: write \`${verb(wordOf(second))} ${valve}\`.`;
        if (second?.$type === 'Ref' && (first.to.ref.$type === 'Selector' || first.to.ref.$type === 'Changeover')) return `The verb stands first in a step: write \`turn ${valve} to ${second.to?.$refText ?? 'PORT'}\`.`;
    }
    if (second?.$type === 'Ref' && second.to?.ref?.$type === 'BleedPoint' && ['open', 'shut'].includes(verb(wordOf(first)))) {
        const vent = second.to.$refText;
        return `A bleed point is opened, bled and closed in one step: write \`bleed ${vent} by PR1\`, with the pump of your boat, or \`bleed ${vent} by gravity from T1\`.`;
    }
    return undefined;
}

// ---- procedures

/** What people also say for a step. */
const OTHER_STEPS: Readonly<Record<string, string>> = {
    close: 'shut', loosen: 'open', crack: 'open', unscrew: 'open', tighten: 'shut', isolate: 'shut', check: 'look', inspect: 'look', examine: 'look', observe: 'look', verify: 'look',
    take: 'remove', extract: 'remove', disconnect: 'remove', install: 'fit', insert: 'fit', mount: 'fit', put: 'place', lay: 'place', switch: 'set', wipe: 'clean', wash: 'clean', rinse: 'clean',
    fill: 'prefill', pump: 'bleed', vent: 'bleed', purge: 'bleed', crank: 'start', idle: 'run', halt: 'stop', record: 'log', enter: 'log', warn: 'caution', pause: 'wait', test: 'prove', measure: 'read',
};
/** Jobs, and what is said for them, that are more than one step. */
const TAKEN_APART = new Set(['renew', 'replace', 'change', 'swap', 'exchange']);

/** `judged`: until here every line was understood, and so the steps could be judged. */
export function procedureLine(tokens: readonly AnyToken[], id: Id, context: Context, openingsOf: (part: Id) => readonly string[], judged: boolean): ProcedureLine {
    const strangers = strangersIn(tokens);
    const line = { id, text: spelling(tokens), strangers };
    const unread = (message: string, at: AnyToken | undefined = tokens[0], end: AnyToken | undefined = undefined): ProcedureLine => {
        context.problem('step', at?.$cstNode, judged ? `${message} ${NOT_JUDGED}` : message, 'error', end?.$cstNode);
        return { ...line, steps: [], unread: true };
    };
    const first = wordOf(tokens[0]);
    if (REMARKS.has(first)) return { ...line, steps: [] };
    const cursor = new Cursor(tokens);
    const hands = new HandSteps(context, cursor, openingsOf);
    const steps = Object.hasOwn(PROCEDURE_STEPS, first) ? hands.read() : undefined;
    if (hands.slip) return unread(hands.slip.message, hands.slip.at, hands.slip.end);
    if (steps && cursor.done) return { ...line, steps };
    // The linker says that a name is not there; what was to be done with it is not known.
    if (strangers.length > 0 && !steps) return { ...line, steps: [], unread: true };
    if (steps) return unread(leftOver(cursor), cursor.peek());
    const [, second] = tokens;
    if (first === 'bleed' && second?.$type === 'Ref' && tokens.length === 2) return unread(byWhat(second.to.$refText));
    if (Object.hasOwn(PROCEDURE_STEPS, first)) return unread(readsLike(PROCEDURE_STEPS[first]!));
    return unread(instead(tokens));
}

const NOT_JUDGED = 'Until then the steps of this procedure are not judged from here on.';

/** What to write for a line that begins with no step. */
function instead(tokens: readonly AnyToken[]): string {
    const first = wordOf(tokens[0]);
    const rest = spelling(tokens.slice(1));
    const as = (verb: string, what: string): string => (what === '' ? PROCEDURE_STEPS[verb]! : `${verb} ${what}`);
    if (first === '') {
        const at = tokens.findIndex((token) => meantBy(wordOf(token)) !== undefined);
        if (at < 0) return `A step begins with what is done, like \`open F1 lid\` or \`remove F1 element\`. Write remarks as \`note "..."\`.`;
        return `The verb stands first in a step: write \`${as(meantBy(wordOf(tokens[at]))!, spelling(tokens.filter((_, i) => i !== at)))}\`.`;
    }
    if (TAKEN_APART.has(first)) return `\`${first}\` is more than one step: write \`${as('remove', rest)}\` and, further on, \`${as('fit', rest)}\`.`;
    if (first === 'drain') return `\`drain\` is two steps: write \`open ${rest === '' ? 'F1' : rest} drain\` and, when it has run out, \`shut ${rest === '' ? 'F1' : rest} drain\`.`;
    if (first === 'work') return `\`work\` is two steps: write \`${as('shut', rest)}\` and \`${as('open', rest)}\`.`;
    const meant = meantBy(first);
    if (meant !== undefined) return `\`${first}\` is written \`${meant}\` here: \`${as(meant, rest)}\`.`;
    return `\`${first}\` is not a step that Orlop knows. Steps begin with ${Object.keys(PROCEDURE_STEPS).slice(0, 6).join(', ')} and so on; write remarks as \`note "..."\`.`;
}

/** The verb that a word stands for. */
function meantBy(word: string): string | undefined {
    if (word === '') return undefined;
    if (Object.hasOwn(PROCEDURE_STEPS, word)) return word;
    if (Object.hasOwn(OTHER_STEPS, word)) return OTHER_STEPS[word];
    const other = synonym(word);
    if (other !== undefined) return Object.hasOwn(PROCEDURE_STEPS, other) ? other : undefined;
    return Object.hasOwn(JOB_VERBS, word) ? undefined : nearest(word, Object.keys(PROCEDURE_STEPS));
}
