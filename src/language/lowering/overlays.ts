/** Surveys and refits: what they change, as data, and gathered for one view of the boat while it is read. */
import type { CstNode } from 'langium';
import type { Answer, Change, Disposition, Id, Overlay as OverlayModel, View } from '../../model/boat';
import { GRADES, type Evidence, type Grade } from '../../model/measure';
import { UNITS, toSI } from '../../model/units';
import { INSPECTED } from '../../checks/inspected';
import { RULES } from '../../checks/rules';
import { Cursor, spelling } from '../cursor';
import type { Alteration, AnyToken, Insertion, Overlay, Part, Ref, Token } from '../generated/ast';
import { splitQuantity, unquote } from '../quantity';
import { nearest } from '../vocabulary';
import type { Context } from './context';
import { isDate } from './lines';
import { optional } from './vessel';

type Tokens = readonly (Token | AnyToken)[];

/** How far a thing is moved, metres. */
export interface Move {
    readonly up?: number;
    readonly fwd?: number;
    readonly stbd?: number;
}

/** What is laid over the boat while it is read. */
export interface Effects {
    /** Facts that take the place of those of a thing, the latest first. */
    factsOf(id: Id): readonly { readonly tokens: Tokens }[];
    moveOf(id: Id): Move;
    isRemoved(id: Id): boolean;
    /** What is put between two points that are joined, once. */
    between(from: string, to: string): Inserted | undefined;
    /** Where a course ends, when that is not where it is drawn. */
    endOf(course: Id, side: 'from' | 'to'): Ref | undefined;
    positionOf(id: Id): 'open' | 'shut' | undefined;
}

/** A part that a refit inserts or a survey found, with the tokens that are facts of it. */
export interface Inserted {
    readonly part: Part;
    readonly tokens: Tokens;
}

export const NO_EFFECTS: Effects = { factsOf: () => [], moveOf: () => ({}), isRemoved: () => false, between: () => undefined, endOf: () => undefined, positionOf: () => undefined };

/** One line of an overlay, with what it does to the boat. */
interface Line {
    readonly change: Change;
    readonly facts?: { readonly tokens: Tokens };
    readonly move?: Move;
    readonly inserted?: Inserted & { readonly between: readonly [Id, Id]; readonly lost: boolean };
    /** What the line says nothing else of: its thing could not be reached. */
    readonly unreached?: true;
    readonly cst: CstNode | undefined;
    readonly end?: { readonly side: 'from' | 'to'; readonly ref: Ref };
    readonly position?: 'open' | 'shut';
}

/** An overlay as read: its data, and the lines behind them. */
export interface ReadOverlay {
    readonly model: OverlayModel;
    readonly lines: readonly Line[];
    readonly answers: readonly Answer[];
    readonly node: Overlay;
}

export const DISPOSITIONS: readonly Disposition[] = ['accept found', 'drawing error', 'defect A', 'defect B', 'defect C', 'open'];
export const KEPT = new Set(['drawn', 'limits', 'test', 'sample', 'retest', 'note']);
export const VERBS = { survey: ['found', 'missing', 'unreached', 'answer', ...KEPT], refit: ['insert', 'set', 'move', 'remove', ...KEPT] } as const;

export function readOverlay(context: Context, node: Overlay): ReadOverlay {
    const id = node.name;
    const head = new Cursor(node.tokens);
    let on: string | undefined;
    let by: string | undefined;
    while (!head.done) {
        const here = head.cst;
        if (head.words('on')) {
            on = head.day();
            if (on === undefined || !isDate(on)) { context.problem('overlay', here, `After \`on\` comes the day of the ${node.kind}, like \`on 2026-03-02\`: of two surveys the later counts.`); on = undefined; }
        } else if (head.words('by') || head.words('reason')) {
            const words = head.quoted();
            if (words === undefined) context.problem('overlay', here, `After \`${here?.text}\` come words between quotes.`);
            if (here?.text === 'by') by = words;
        } else if (!head.words('afloat') && !head.words('ashore')) {
            head.rest();
            context.problem('overlay', here, `\`${here?.text}\` is not understood here. A ${node.kind} begins like \`${node.kind} ${id} on 2026-03-02 by "${node.kind === 'survey' ? 'surveyor' : 'owner'}" {\`.`);
        }
    }
    const lines: Line[] = [];
    const answers: Answer[] = [];
    node.changes.forEach((change, i) => {
        const lineId = `${id}/${i + 1}`;
        if (change.$type === 'Insertion') { const line = insertion(context, change, lineId, node.kind); if (line) lines.push(line); return; }
        const read = alteration(context, change, lineId, node.kind);
        if (read && 'rule' in read) answers.push({ ...read, survey: id, ...optional('on', on) });
        else if (read) lines.push(read);
    });
    return {
        node, lines, answers,
        model: { id, kind: node.kind, ...optional('title', node.title && unquote(node.title)), ...optional('on', on), ...optional('by', by), changes: lines.map(({ change }) => change) },
    };
}

/** `found tee J9 between S1 and PR1, not drawn touched defect B`, `insert shutoff V2 at 620 mm between S2 and LP1`. */
function insertion(context: Context, { part, verb, $cstNode }: Insertion, id: Id, kind: Overlay['kind']): Line | undefined {
    if (!part) return undefined;
    if ((verb === 'found') !== (kind === 'survey')) {
        context.problem('overlay', $cstNode, kind === 'survey' ? 'A survey puts nothing in; it says what stands there: write `found`. What is proposed stands in a `refit`.' : 'A refit finds nothing; it says what is to be put in: write `insert`. What was found stands in a `survey`.');
        return undefined;
    }
    const at = part.tokens.findIndex((token) => token.$type === 'Word' && token.text === 'between');
    const tail = new Cursor(at < 0 ? [] : part.tokens.slice(at + 1));
    const from = tail.ref();
    tail.comma();
    const to = tail.words('and') ? tail.ref() : undefined;
    if (!from || !to) {
        context.problem('overlay', part.$cstNode, `Between what? Say it like \`${part.name ?? 'shutoff V2'} between S2 and LP1\`, in the order of flow.`);
        return undefined;
    }
    if (part.name === undefined) { context.problem('overlay', part.$cstNode, 'What is put in needs a name, like V2.'); return undefined; }
    const { marks, late, evidence, disposition } = readTail(context, tail, 'what is said of it stands before `between`');
    const between = [fullName(from), fullName(to)] as const;
    return {
        change: { id, do: 'insert', about: part.name, words: spelling([...part.tokens]), ...optional('evidence', evidence), ...optional('disposition', disposition) },
        // Marks at the head of a line speak for the whole part.
        inserted: { part, tokens: [...marks, ...(at < 0 ? part.tokens : part.tokens.slice(0, at)), ...late], between, lost: [from, to].some((ref) => ref.to.error !== undefined) },
        cst: part.$cstNode,
    };
}

function alteration(context: Context, { tokens, $cstNode }: Alteration, id: Id, kind: Overlay['kind']): Line | Omit<Answer, 'survey' | 'on'> | undefined {
    const cursor = new Cursor(tokens);
    const verb = cursor.word();
    const verbs: readonly string[] = VERBS[kind];
    if (verb === undefined || !verbs.includes(verb)) {
        const meant = verb === undefined ? undefined : nearest(verb, verbs);
        context.problem('overlay', tokens[0]?.$cstNode, `A line of a ${kind} begins with ${verbs.slice(0, 4).map((word) => `\`${word}\``).join(', ')} and so on.` + (meant ? ` Did you mean \`${meant}\`?` : ''));
        return undefined;
    }
    if (KEPT.has(verb)) return undefined;
    if (verb === 'answer') return answer(context, cursor, id);
    const ref = cursor.ref();
    if (!ref) { context.problem('overlay', $cstNode, `\`${verb}\` needs the name of what it is about, like \`${verb} S1\`.`); return undefined; }
    const about = fullName(ref);
    const change = (what: Change['do'], tail?: Tail): Change => ({
        id, do: what, about, words: spelling(tokens), ...optional('evidence', tail?.evidence), ...optional('disposition', tail?.disposition),
    });
    const cst = ref.$cstNode;
    if (verb === 'unreached') { const words = cursor.quoted(); const tail = readTail(context, cursor); return { change: { ...change('set', tail), evidence: { grade: 'unreached', ...tail.evidence, ...optional('by', words) } }, unreached: true, cst }; }
    if (verb === 'remove' || verb === 'missing') return { change: change('remove', readTail(context, cursor, 'each thing has a line of its own')), cst };
    if (verb === 'move') { const move = readMove(context, cursor); return move && { change: change('move', readTail(context, cursor)), move, cst }; }
    const side = cursor.words('to') ? 'to' : cursor.words('from') ? 'from' : undefined;
    if (side) {
        const end = cursor.ref();
        if (!end) { context.problem('overlay', cursor.cst, `${about} ${side} what? Name a tank, like \`T2.R1\`.`); return undefined; }
        return { change: change('end', readTail(context, cursor)), end: { side, ref: end }, cst };
    }
    for (const position of ['open', 'shut'] as const) if (verb === 'found' && cursor.words(position)) return { change: change('position', readTail(context, cursor)), position, cst };
    // The facts run to the comma before what was drawn, or to the marks and what is to be done.
    const rest = cursor.rest();
    const cut = factEnd(rest);
    const tail = readTail(context, new Cursor(rest.slice(cut)), 'a fact stands before `, drawn`');
    return { change: change('set', tail), facts: { tokens: [...rest.slice(0, cut), ...tail.marks] }, cst };
}

const isText = (token: Token | AnyToken | undefined, text: string): boolean => token?.$type === 'Word' && token.text === text;

/** `normally open` is a fact; `open` alone says that it is not settled. */
const isOfValve = (before: Token | AnyToken | undefined): boolean => isText(before, 'normally') || isText(before, 'locked');

function factEnd(tokens: Tokens): number {
    const drawn = tokens.findIndex((token, i) => token.$type === 'Comma' && (isText(tokens[i + 1], 'drawn') || isText(tokens[i + 1], 'not')));
    if (drawn >= 0) return drawn;
    const disposition = tokens.findIndex((_, i) => dispositionAt(tokens, i) !== undefined && !isOfValve(tokens[i - 1]));
    return disposition < 0 ? tokens.length : disposition;
}

function dispositionAt(tokens: Tokens, at: number): Disposition | undefined {
    return DISPOSITIONS.find((words) => words.split(' ').every((word, i) => { const token = tokens[at + i]; return isText(token, word) || (token?.$type === 'Ref' && token.to.$refText === word); }));
}

interface Tail {
    readonly marks: Tokens;
    /** Facts that stand too late; told. */
    readonly late: Tokens;
    readonly evidence?: Evidence;
    readonly disposition?: Disposition;
}

/** `, drawn 8 mm   measured photo "p14.jpg"   accept found`: what was drawn is for the reader; the marks and the rest count. */
function readTail(context: Context, cursor: Cursor, hint = 'a mark like `measured`, or what is to be done, stands here'): Tail {
    const tokens = cursor.rest();
    const marks: (Token | AnyToken)[] = [];
    let evidence: Evidence = {};
    let disposition: Disposition | undefined;
    const late: (Token | AnyToken)[] = [];
    let isDrawn = false;
    for (let i = 0; i < tokens.length; i++) {
        const token = tokens[i]!;
        const next = tokens[i + 1];
        // Behind `drawn` stands what was; behind `not drawn` nothing is left to say of the drawing.
        if (token.$type === 'Comma' && isText(next, 'not') && isText(tokens[i + 2], 'drawn')) { isDrawn = false; i += 2; continue; }
        if (token.$type === 'Comma') { isDrawn = isText(next, 'drawn'); continue; }
        const grade = token.$type === 'Word' ? (GRADES as readonly string[]).includes(token.text) : false;
        // `drawn open` says how the valve was drawn, not that the finding is open.
        const done = isText(tokens[i - 1], 'drawn') || isOfValve(tokens[i - 1]) ? undefined : dispositionAt(tokens, i);
        if (token.$type === 'Word' && grade) {
            isDrawn = false;
            marks.push(token);
            evidence = { ...evidence, grade: token.text as Grade };
            if (next?.$type === 'Day') { marks.push(next); evidence = { ...evidence, on: next.text }; i++; }
        } else if (token.$type === 'Word' && (token.text === 'photo' || token.text === 'by') && next?.$type === 'Quoted') {
            isDrawn = false;
            marks.push(token, next);
            evidence = { ...evidence, [token.text]: unquote(next.text) };
            i++;
        } else if (done) {
            isDrawn = false;
            disposition = done;
            i += done.split(' ').length - 1;
        } else if (!isDrawn) {
            if (late.length === 0) context.problem('overlay', token.$cstNode, `\`${token.$cstNode?.text ?? ''}\` is not understood here: ${hint}.`);
            late.push(token);
        }
    }
    return { marks, late, ...(marks.length > 0 && { evidence }), ...(disposition && { disposition }) };
}

export const WAYS: Readonly<Record<string, readonly [keyof Move, 1 | -1]>> = { up: ['up', 1], down: ['up', -1], fwd: ['fwd', 1], aft: ['fwd', -1], stbd: ['stbd', 1], port: ['stbd', -1] };

/** `move F1 up 200 mm, aft 50 mm`. */
function readMove(context: Context, cursor: Cursor): Move | undefined {
    let move: Move = {};
    do {
        const here = cursor.cst;
        const word = cursor.word();
        const way = word !== undefined && Object.hasOwn(WAYS, word) ? WAYS[word] : undefined;
        const text = cursor.measure();
        const { numbers, unit } = text === undefined ? { numbers: [], unit: undefined } : splitQuantity(text);
        if (!way || numbers[0] === undefined || unit === undefined || UNITS[unit]!.dimension !== 'length') {
            context.problem('overlay', here, 'Moved which way, and how far? Write it like `move F1 up 200 mm` or `aft 50 mm`.');
            return undefined;
        }
        move = { ...move, [way[0]]: (move[way[0]] ?? 0) + way[1] * toSI(numbers[0], unit) };
    } while (cursor.comma() || Object.hasOwn(WAYS, (cursor.peek() as { text?: string } | undefined)?.text ?? ''));
    return move;
}

/** `answer CHAFE at S2  fail  "no grommet at frame 6"  seen photo "p22.jpg"`. */
function answer(context: Context, cursor: Cursor, id: Id): Omit<Answer, 'survey' | 'on'> | undefined {
    const here = cursor.cst;
    const rule = cursor.ref()?.to.$refText;
    if (rule === undefined || !INSPECTED.some(({ code }) => code === rule)) {
        const computed = RULES.some(({ code }) => code === rule);
        const meant = rule === undefined || computed ? undefined : nearest(rule, INSPECTED.map(({ code }) => code));
        context.problem('overlay', here, computed ? `${rule} is computed from the boat; nobody answers it.` : `\`${rule ?? ''}\` is not a rule that a person answers.${meant ? ` Did you mean \`${meant}\`?` : ` Those are ${INSPECTED.map(({ code }) => code).join(', ')}.`}`);
        return undefined;
    }
    const at = cursor.words('at') ? cursor.ref() : undefined;
    const place = cursor.cst;
    const outcome = (['pass', 'fail', 'cannot tell'] as const).find((words) => cursor.words(words));
    if (!at || !outcome) { context.problem('overlay', place, `An answer reads like \`answer ${rule} at S2 fail "no grommet"\`; it is pass, fail or cannot tell.`); return undefined; }
    const words = cursor.quoted();
    return { id, rule, about: fullName(at), outcome, ...optional('words', words), ...optional('evidence', readTail(context, cursor).evidence) };
}

/** T1.P1 with its port, V1 without. */
const fullName = (ref: Ref): Id => (ref.port ? `${ref.to.$refText}.${ref.port.$refText}` : ref.to.$refText);

/** Whether a point is of the thing of that name: V1:out of V1, SV2:in of SV2 and of SV2.in. */
const isAt = (point: string, name: Id): boolean => point === name || point.split(':')[0] === name || point.replace(':', '.') === name;

/** Whether a line counts in a view. What a survey left open is not yet so. */
export function counts(model: OverlayModel, change: Change, view: View): boolean {
    if (view === 'drawn') return false;
    if (model.kind === 'refit') return typeof view === 'object' && view.after === model.id;
    return view === 'found' || change.disposition !== 'open';
}

/** Surveys by their day, then refits, which build on them. */
export const inOrder = (overlays: readonly ReadOverlay[]): ReadOverlay[] => [...overlays].sort((a, b) => rank(a) < rank(b) ? -1 : rank(a) > rank(b) ? 1 : 0);
const rank = ({ model }: ReadOverlay): string => (model.kind === 'refit' ? '9999' : model.on ?? '0000');

/** Answers are about what stands there, so not about a drawing; of two on one thing the later survey's counts. */
export function answersIn(overlays: readonly ReadOverlay[], view: View): Answer[] {
    const latest = new Map(overlays.flatMap(({ answers }) => answers).map((answer) => [`${answer.rule} ${answer.about}`, answer]));
    return view === 'drawn' ? [] : [...latest.values()];
}

export interface ViewEffects extends Effects {
    /** Lines that found nothing to change, afterwards. */
    readonly idle: () => readonly Line[];
    readonly inserted: readonly Part[];
}

/** All that a view lays over the boat; the overlays in their order. */
export function effectsOf(overlays: readonly ReadOverlay[], view: View): ViewEffects {
    // The latest survey or refit overrules; within one, the later line.
    const lines = overlays.flatMap((overlay) => overlay.lines.filter(({ change }) => counts(overlay.model, change, view))).reverse();
    const insertions = lines.filter(({ inserted }) => inserted).reverse();
    const used = new Set<Line>();
    const of = (about: Id, test: (line: Line) => unknown): Line[] => lines.filter((line) => line.change.about === about && test(line)).map((line) => { used.add(line); return line; });
    const none: Move = {};
    return {
        factsOf: (id) => of(id, ({ facts }) => facts).map(({ facts }) => facts!),
        moveOf: (id) => of(id, ({ move }) => move).reduce<Move>((sum, { move }) => ({ up: (sum.up ?? 0) + (move!.up ?? 0), fwd: (sum.fwd ?? 0) + (move!.fwd ?? 0), stbd: (sum.stbd ?? 0) + (move!.stbd ?? 0) }), none),
        isRemoved: (id) => of(id, ({ change }) => change.do === 'remove').length > 0,
        between: (from, to) => {
            const here = insertions.find((line) => !used.has(line) && isAt(from, line.inserted!.between[0]) && isAt(to, line.inserted!.between[1]));
            if (here) used.add(here);
            return here?.inserted;
        },
        endOf: (course, side) => of(course, ({ end }) => end?.side === side)[0]?.end?.ref,
        positionOf: (id) => of(id, ({ position }) => position)[0]?.position,
        idle: () => lines.filter((line) => !used.has(line) && !line.unreached),
        inserted: insertions.map(({ inserted }) => inserted!.part),
    };
}
