/** Line-ups, intervals and log lines: lines that name parts and say what is done with them. */
import { logUntil } from '../../analysis/upkeep/hours';
import type { Id, Interval, Job, LineUp as LineUpModel, LogEntry, LogReading, Part as PartModel } from '../../model/boat';
import type { Measure } from '../../model/measure';
import { UNITS, toSI } from '../../model/units';
import type { Line, LineUp, Log, Tend } from '../generated/ast';
import { splitQuantity } from '../quantity';
import { Cursor } from '../cursor';
import { nearest, synonym } from '../vocabulary';
import type { Context } from './context';
import { JOB_ENDS, JOB_VERBS, OTHER_VERBS, PAST, nearestSaid, readJobs, type SaidJob } from './jobs';
import { quantityOf, readMeasure, readReading } from './readings';
import { OFTEN, isTime, readTime } from './times';
import { optional } from './vessel';

export const USES = ['run', 'service', 'laid up', 'transfer', 'polish', 'emergency'] as const;
const LINE_UP_WORDS = new Set([...USES.map((use) => use.split(' ')[0]!), 'is', 'from', 'moves']);

export function lowerLineUp(context: Context, lineUp: LineUp, parts: ReadonlyMap<Id, PartModel>): LineUpModel {
    const id = context.claim(lineUp.name, lineUp.$cstNode);
    const cursor = new Cursor(lineUp.tokens);
    let use: LineUpModel['use'];
    let normal = false;
    let base: Id | undefined;
    let moves: Measure | undefined;
    while (!cursor.done) {
        const found = USES.find((word) => cursor.words(word));
        if (found) { use = found; continue; }
        if (cursor.words('is normal')) { normal = true; continue; }
        if (cursor.words('from')) { base = cursor.ref()?.to.$refText; continue; }
        if (cursor.words('moves')) { moves = readMeasure(context, cursor, 'moves', 'volume', '60 L', LINE_UP_WORDS) ?? moves; continue; }
        const token = cursor.take()!;
        const state = cursor.peek();
        if (token.$type === 'Ref' && state && state.$type !== 'Comma') {
            context.problem('line-up', token.$cstNode, `Settings stand between braces: write \`{ ${token.to.$refText} ${state.$cstNode?.text ?? ''} }\`.`);
            while (!cursor.done) cursor.take();
            continue;
        }
        context.problem('line-up', token.$cstNode, `\`${token.$cstNode?.text}\` is not a word for a line-up. It is \`${USES.join('`, `')}\`, then \`is normal\`, \`from\` another line-up, or \`moves 60 L\`.`);
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
    return { id, use, normal, ...optional('base', base), ...optional('moves', moves), settings };
}

/** What a line-up may say of an engine. Nothing said, it runs. */
export const STATES = ['running', 'stopped'] as const;

const positionsOf = (part: PartModel | undefined): readonly string[] =>
    part === undefined ? [] : part.kind === 'shutoff' ? ['open', 'shut'] : part.positions.map((position) => position.name);

// ---- intervals

/** Every interval of the boat, in the order of the lines. */
export function lowerTends(context: Context, tends: readonly Tend[]): Interval[] {
    return nearestSaid(tends.flatMap(({ lines }) => lines).flatMap((line, i) => lowerIntervals(context, line, `tend/${i + 1}`)));
}

/** One line of `tend`: an interval for every part that it names. */
function lowerIntervals(context: Context, line: Line, id: Id): (SaidJob & { interval: Interval })[] {
    const cursor = new Cursor(line.tokens);
    context.sources.add(id, line.$cstNode!);
    const head = cursor.cst;
    const verb = cursor.word();
    if (verb === undefined || !Object.hasOwn(JOB_VERBS, verb)) {
        const meant = verb === undefined ? undefined : Object.hasOwn(OTHER_VERBS, verb) ? OTHER_VERBS[verb] : nearest(verb, Object.keys(JOB_VERBS));
        context.problem('verb', head, `${verb === undefined ? '' : `\`${verb}\` is no job that Orlop counts. `}A line of \`tend\` begins with what is done: ${Object.keys(JOB_VERBS).join(', ')}.` + (meant ? ` Did you mean \`${meant}\`?` : ''));
        return [];
    }
    const jobs = readJobs(context, cursor, verb, 'tend');
    pieceFirst(context, cursor, line, jobs);
    let told = false;
    let hours: number | undefined;
    let months: number | undefined;
    let days: number | undefined;
    let everyStart = false;
    let seals: string[] = [];
    let source: string | undefined;
    let refitUnder: number | undefined;
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
        if (cursor.words('refit if clean under')) {
            const token = cursor.peek();
            const time = cursor.measure();
            refitUnder = time === undefined ? undefined : quantityOf(time, 'time');
            if (refitUnder === undefined || refitUnder <= 0) { refitUnder = undefined; context.problem('interval', token?.$cstNode ?? here, 'Under how many running hours? Write `refit if clean under 250 h`.'); }
            continue;
        }
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
        if (told) return [];
        const often = line.tokens.find((token) => token.$type === 'Word' && Object.hasOwn(OFTEN, token.text));
        if (often?.$type === 'Word') {
            context.problem('interval', often.$cstNode, `\`${often.text}\` is written \`${OFTEN[often.text]!}\`.`);
            return [];
        }
        context.problem('interval', head, 'How often? Write it like `every 250 h or 12 months`.');
        return [];
    }
    const often = { everyStart, seals, ...optional('hours', hours), ...optional('months', months), ...optional('days', days), ...optional('refitUnder', refitUnder), ...optional('source', source) };
    return jobs.map(({ job, rank }, i) => {
        const own = jobs.length === 1 ? id : `${id}/${i + 1}`;
        context.sources.add(own, line.$cstNode!);
        return { job, rank, interval: { id: own, job, ...often } };
    });
}

/** `renew element F1`: the part comes first. */
function pieceFirst(context: Context, cursor: Cursor, line: Line, [first]: readonly SaidJob[]): void {
    const late = first && first.job.part === undefined && first.job.piece !== '' ? cursor.peek() : undefined;
    const each = late?.$type === 'Word' && late.text === 'each';
    const name = each ? cursor.peek(1) : late;
    if (late?.$type !== 'Ref' && !each) return;
    context.problem('order', line.tokens[1]?.$cstNode, `Name the part first, then its piece: \`${first!.job.verb} ${each ? 'each ' : ''}${name?.$type === 'Ref' ? name.to.$refText : name?.$cstNode?.text ?? ''} ${first!.job.piece}\`.`);
    cursor.take();
    if (each && cursor.peek()?.$type !== 'Measure') cursor.take();
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

/** Every entry of the log, in the order of the lines. */
export function lowerLogs(context: Context, logs: readonly Log[]): LogEntry[] {
    return logs.flatMap(({ lines }) => lines).flatMap((line, i) => lowerEntry(context, line, `log/${i + 1}`) ?? []);
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
    const readings: LogReading[] = [];
    let corrects: string | undefined;
    while (!cursor.done) {
        const ref = cursor.ref();
        if (ref) {
            const text = cursor.peek()?.$type === 'Measure' ? (cursor.peek() as { text: string }).text : undefined;
            const { numbers, unit } = text === undefined ? { numbers: [], unit: undefined } : splitQuantity(text);
            if (ref.to.ref?.$type === 'Consumer' && unit !== undefined && UNITS[unit]!.dimension === 'time' && numbers[0]! >= 0) hours.push({ engine: context.idOf(ref.to.$refText), reading: toSI(numbers[0]!, unit) });
            else readings.push(...readReading(context, cursor, ref));
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
        const [gauge, behind] = [cursor.peek(), cursor.peek(1)];
        // What a gauge read that was looked at is read next.
        if (verb !== undefined && gauge?.$type === 'Ref' && behind?.$type === 'Measure' && gauge.to?.ref?.$type === 'Part' && gauge.to.ref.kind === 'gauge') jobs.push({ verb, part: context.idOf(gauge.to.$refText), piece: '' });
        else if (verb !== undefined) jobs.push(...readJobs(context, cursor, verb, 'log').map(({ job }) => job));
        else if (!LOG_WORDS.has(word)) {
            // A misspelt job would go unlogged and fall due for ever; other words are the writer's own.
            const meant = Object.hasOwn(JOB_VERBS, word) ? JOB_VERBS[word] : RENEWED.has(word) ? 'renewed' : nearest(word, PAST.keys());
            if (meant) context.problem('log', here, `\`${word}\` is not a job that the log counts. Did you mean \`${meant}\`?`, 'warning');
        }
    }
    return { id, date, hours, jobs, readings, ...optional('corrects', corrects) };
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
