/** Line-ups, intervals, log lines and bleed blocks: lines that name parts and say what is done with them. */
import { logUntil } from '../../analysis/upkeep/hours';
import type { BleedBlock, BleedLine, Id, Interval, Job, LineUp as LineUpModel, LogEntry, Part as PartModel } from '../../model/boat';
import type { Driver, Expectation, Step } from '../../model/step';
import { UNITS, toSI } from '../../model/units';
import type { AnyToken, Bleed, Line, LineUp, Log, Tend } from '../generated/ast';
import { splitQuantity } from '../quantity';
import { Cursor, spelling } from '../cursor';
import { isPositionInStep } from '../problems';
import { nearest, synonym } from '../vocabulary';
import type { Context } from './context';
import { OFTEN, isTime, readTime } from './times';
import { optional } from './vessel';

export const USES = ['run', 'service', 'laid up', 'transfer', 'polish', 'emergency'] as const;
export const JOB_VERBS: Readonly<Record<string, string>> = {
    renew: 'renewed', refit: 'refitted', look: 'looked', test: 'tested', drain: 'drained', clean: 'cleaned', work: 'worked', bleed: 'bled', grease: 'greased',
};
/** What people also call a job. */
const OTHER_VERBS: Readonly<Record<string, string>> = {
    replace: 'renew', change: 'renew', swap: 'renew', fit: 'renew', inspect: 'look', check: 'look', examine: 'look', lubricate: 'grease', empty: 'drain', turn: 'work', operate: 'work', exercise: 'work',
};
const PAST = new Map(Object.entries(JOB_VERBS).map(([verb, past]) => [past, verb]));

export function lowerLineUp(context: Context, lineUp: LineUp, parts: ReadonlyMap<Id, PartModel>): LineUpModel {
    const id = context.claim(lineUp.name, lineUp.$cstNode);
    const cursor = new Cursor(lineUp.tokens);
    let use: LineUpModel['use'];
    let normal = false;
    let base: Id | undefined;
    while (!cursor.done) {
        const found = USES.find((word) => cursor.words(word));
        if (found) { use = found; continue; }
        if (cursor.words('is normal')) { normal = true; continue; }
        if (cursor.words('from')) { base = cursor.ref()?.to.$refText; continue; }
        const token = cursor.take()!;
        const state = cursor.peek();
        if (token.$type === 'Ref' && state && state.$type !== 'Comma') {
            context.problem('line-up', token.$cstNode, `Settings stand between braces: write \`{ ${token.to.$refText} ${state.$cstNode?.text ?? ''} }\`.`);
            while (!cursor.done) cursor.take();
            continue;
        }
        context.problem('line-up', token.$cstNode, `\`${token.$cstNode?.text}\` is not a word for a line-up. It is \`${USES.join('`, `')}\`, then \`is normal\` or \`from\` another line-up.`);
    }
    const settings = lineUp.settings.flatMap((setting, i) => {
        const part = setting.part?.$refText;
        if (part === undefined || setting.state === undefined || !setting.part.ref) return [];
        const partId = context.idOf(part);
        // Found missing, or taken out: what was written of it is void.
        if (!parts.has(partId) && context.overlays.isRemoved(partId)) return [];
        context.sources.addFact(id, `setting ${partId}`, setting.$cstNode!, setting.$cstNode!);
        const allowed = setting.part.ref.$type === 'Consumer' ? STATES : positionsOf(parts.get(partId));
        if (!allowed.includes(setting.state)) {
            const other = synonym(setting.state);
            const meant = other !== undefined && allowed.includes(other) ? other : setting.state === 'off' || setting.state === 'shut' ? allowed.find((name) => name === 'stopped') : nearest(setting.state, allowed);
            context.problem('position', lineUp.settings[i]!.$cstNode, allowed.length === 0
                ? `${part} is not a valve: it has no positions.`
                : `${part} cannot be \`${setting.state}\`; it can be ${allowed.map((name) => `\`${name}\``).join(', ')}.` + (meant ? ` Did you mean \`${meant}\`?` : ''));
            return [];
        }
        return [{ part: partId, position: setting.state }];
    });
    return { id, use, normal, ...optional('base', base), settings };
}

/** What a line-up may say of an engine. Nothing said, it runs. */
export const STATES = ['running', 'stopped'] as const;

const positionsOf = (part: PartModel | undefined): readonly string[] =>
    part === undefined ? [] : part.kind === 'shutoff' ? ['open', 'shut'] : part.positions.map((position) => position.name);

// ---- intervals

/** Words that end the piece of a job. */
const JOB_ENDS = new Set(['every', 'with', 'common', 'source', 'refit', 'by', 'corrects', 'and', 'note', 'at', ...PAST.keys()]);

export function lowerTend(context: Context, tend: Tend, from: number): Interval[] {
    return tend.lines.flatMap((line, i) => lowerInterval(context, line, `tend/${from + i + 1}`) ?? []);
}

function lowerInterval(context: Context, line: Line, id: Id): Interval | undefined {
    const cursor = new Cursor(line.tokens);
    context.sources.add(id, line.$cstNode!);
    const head = cursor.cst;
    const verb = cursor.word();
    if (verb === undefined || !Object.hasOwn(JOB_VERBS, verb)) {
        const meant = verb === undefined ? undefined : Object.hasOwn(OTHER_VERBS, verb) ? OTHER_VERBS[verb] : nearest(verb, Object.keys(JOB_VERBS));
        context.problem('verb', head, `${verb === undefined ? '' : `\`${verb}\` is no job that Orlop counts. `}A line of \`tend\` begins with what is done: ${Object.keys(JOB_VERBS).join(', ')}.` + (meant ? ` Did you mean \`${meant}\`?` : ''));
        return undefined;
    }
    const job = readJob(cursor, verb, context);
    const late = job.part === undefined && job.piece !== '' ? cursor.peek() : undefined;
    if (late?.$type === 'Ref') {
        context.problem('order', line.tokens[1]?.$cstNode, `Name the part first, then its piece: \`${verb} ${late.to.$refText} ${job.piece}\`.`);
        cursor.take();
    }
    let told = false;
    let hours: number | undefined;
    let months: number | undefined;
    let days: number | undefined;
    let everyStart = false;
    let seals: string[] = [];
    let source: string | undefined;
    while (!cursor.done) {
        const here = cursor.cst;
        if (cursor.words('every start')) { everyStart = true; continue; }
        if (cursor.words('every day')) { days = 1; continue; }
        if (cursor.words('every week')) { days = 7; continue; }
        if (cursor.words('every') || cursor.words('or')) {
            const time = readTime(context, cursor, JOB_ENDS);
            told ||= time === undefined;
            if (time?.hours !== undefined) hours = time.hours;
            if (time?.months !== undefined) months = time.months;
            if (time?.days !== undefined) days = time.days;
            continue;
        }
        if (cursor.words('with')) { seals = readPieces(cursor); continue; }
        if (cursor.words('common practice')) { source = 'common practice'; continue; }
        if (cursor.words('source')) { source = cursor.quoted(); continue; }
        if (cursor.words('refit if clean under')) { cursor.measure(); continue; }
        if (cursor.words('note')) { cursor.quoted(); continue; }
        const token = cursor.take()!;
        const next = cursor.peek();
        const time = [token, next].find((one) => one?.$type === 'Measure' && isTime(one.text));
        if (time) {
            if (time === next) cursor.take();
            context.problem('interval', time.$cstNode, `\`every\` is missing: write \`every ${(time as { text: string }).text}\`.`);
            told = true;
            continue;
        }
        if (told) continue;
        told = true;
        context.problem('interval', here, `\`${token.$cstNode?.text}\` is not understood here. An interval reads: \`renew F1 element every 250 h or 12 months\`.`);
    }
    if (hours === undefined && months === undefined && days === undefined && !everyStart) {
        if (told) return undefined;
        const often = line.tokens.find((token) => token.$type === 'Word' && Object.hasOwn(OFTEN, token.text));
        if (often?.$type === 'Word') {
            context.problem('interval', often.$cstNode, `\`${often.text}\` is written \`${OFTEN[often.text]!}\`.`);
            return undefined;
        }
        context.problem('interval', head, 'How often? Write it like `every 250 h or 12 months`.');
        return undefined;
    }
    return { id, job, everyStart, seals, ...optional('hours', hours), ...optional('months', months), ...optional('days', days), ...optional('source', source) };
}

function readJob(cursor: Cursor, verb: string, context: Context): Job {
    const ref = cursor.ref();
    const piece = cursor.wordsUntil(JOB_ENDS);
    const part = ref?.to.ref ? context.idOf(ref.to.$refText) : undefined;
    return { verb, piece: ref && !part ? `${ref.to.$refText} ${piece}`.trim() : piece, ...optional('part', part) };
}

function readPieces(cursor: Cursor): string[] {
    const found: string[] = [];
    const stops = new Set(['common', 'source', 'note', 'refit']);
    for (let piece = cursor.wordsUntil(stops); piece !== ''; piece = cursor.wordsUntil(stops)) { found.push(piece); if (!cursor.comma()) break; }
    return found;
}

// ---- log

/** What people also write when they have renewed something. */
const RENEWED = new Set(['changed', 'replaced', 'swapped', 'fitted', 'installed']);
const LOG_WORDS = new Set([...PAST.keys(), 'corrects', 'dipped', 'water', 'by', 'at', 'strokes', 'note', 'photo', 'seen', 'measured', 'level', 'and', 'with']);

export function lowerLog(context: Context, log: Log, from: number): LogEntry[] {
    return log.lines.flatMap((line, i) => lowerEntry(context, line, `log/${from + i + 1}`) ?? []);
}

function lowerEntry(context: Context, line: Line, id: Id): LogEntry | undefined {
    const cursor = new Cursor(line.tokens);
    context.sources.add(id, line.$cstNode!);
    const date = cursor.day();
    if (date === undefined || !isDate(date)) {
        context.problem('date', line.tokens[0]?.$cstNode, date === undefined || !/^\d{4}-/.test(date) ? 'A line of the log begins with a date, like 2025-03-12.' : `\`${date}\` is not a day of the calendar. Write the day on which it was done, like 2025-03-12.`);
        return undefined;
    }
    const hours: { engine: Id; reading: number }[] = [];
    const jobs: Job[] = [];
    let corrects: string | undefined;
    while (!cursor.done) {
        const ref = cursor.ref();
        if (ref) {
            const text = cursor.peek()?.$type === 'Measure' ? (cursor.peek() as { text: string }).text : undefined;
            const { numbers, unit } = text === undefined ? { numbers: [], unit: undefined } : splitQuantity(text);
            if (ref.to.ref?.$type === 'Consumer' && unit !== undefined && UNITS[unit]!.dimension === 'time' && numbers[0]! >= 0) hours.push({ engine: context.idOf(ref.to.$refText), reading: toSI(numbers[0]!, unit) });
            continue;
        }
        const here = cursor.cst;
        const word = cursor.word();
        if (word === undefined) { cursor.take(); continue; }
        if (word === 'corrects') {
            const day = cursor.day();
            if (day !== undefined && isDate(day)) corrects = day;
            else context.problem('date', here, 'After `corrects` comes the date of the line that it corrects, like 2025-03-12.');
        }
        const verb = PAST.get(word);
        if (verb !== undefined) do jobs.push(readJob(cursor, verb, context)); while (cursor.words('and'));
        else if (!LOG_WORDS.has(word)) {
            // A misspelt job would go unlogged and fall due for ever; other words are the writer's own.
            const meant = Object.hasOwn(JOB_VERBS, word) ? JOB_VERBS[word] : RENEWED.has(word) ? 'renewed' : nearest(word, PAST.keys());
            if (meant) context.problem('log', here, `\`${word}\` is not a job that the log counts. Did you mean \`${meant}\`?`, 'warning');
        }
    }
    return { id, date, hours, jobs, ...optional('corrects', corrects) };
}

/** An hour meter does not run back: of two readings that say so, one is wrong, or the meter was renewed. */
export function fallingHours(context: Context, log: readonly LogEntry[]): void {
    const latest = new Map<Id, { reading: number; date: string }>();
    for (const entry of logUntil(log, '9999').sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))) for (const { engine, reading } of entry.hours) {
        const before = latest.get(engine);
        if (before && reading < before.reading) {
            context.problem('hours', context.sources.find(entry.id)?.node.$cstNode,
                `${engine} reads ${hoursOf(reading)} h here and ${hoursOf(before.reading)} h on ${before.date}: an hour meter does not run back. If one was misread, add a line that says \`corrects\`, its date and the right hours.`, 'warning');
        }
        latest.set(engine, { reading, date: entry.date });
    }
}

const hoursOf = (seconds: number): number => Number((seconds / 3600).toFixed(1));

/** A day that the calendar has. */
export function isDate(text: string): boolean {
    const [year, month, day] = text.split('-').map(Number);
    if (day === undefined) return false;
    const date = new Date(Date.UTC(year!, month! - 1, day));
    return date.getUTCMonth() === month! - 1 && date.getUTCDate() === day;
}

// ---- bleed blocks

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
