/** When each job falls due: by hours or by months, whichever is first, projected at the rate of the log. */
import type { Boat, Id, Interval, Job, LogEntry } from '../../model/boat';
import { networkOf } from '../topology/network';
import { partsBefore, running } from '../topology/paths';
import { addDays, addMonths, daysBetween, logUntil, rateOf, readingsOf, type Reading } from './hours';

export type DueState = 'overdue' | 'due' | 'soon' | 'later' | 'unknown' | 'each time';

export interface Due {
    readonly interval: Interval;
    readonly job: Job;
    readonly state: DueState;
    /** The day it falls due; absent when that cannot be said. */
    readonly due?: string;
    readonly by?: 'hours' | 'months' | 'days';
    /** The meter reading at which it falls due by hours. */
    readonly atHours?: number;
    readonly engine?: Id;
    readonly last?: { readonly date: string; readonly hours?: number };
    /** Why there is no date, or what the date does not take into account. */
    readonly because?: string;
    /** A job due soon before this one that opens the same lines: done with it, one isolation and one bleed serve both. */
    readonly with?: Job;
}

/** Dates further off are not told. */
const MOST_DAYS = 36_525;
/** Within this many days, or a tenth of the interval, a job is called soon: common practice. */
const SOON_DAYS = 30;
const SOON_SHARE = 0.1;
/** A job is worth doing early with another when it falls due within this many days, or a fifth of its interval: common practice. */
const TOGETHER_DAYS = 60;
const TOGETHER_SHARE = 0.2;
/** Jobs that open the fuel lines, so that they want isolating and bleeding. */
const OPENS = new Set(['renew', 'refit', 'clean']);

/** Every interval with its date, in order of date; what has none comes last. `today` is an ISO date; later log lines are not read. */
export function duePlan(boat: Boat, today: string): Due[] {
    const serves = enginesOf(boat);
    const log = logUntil(boat.log, today);
    const plans = boat.intervals.map((interval) => earliest(enginesFor(boat, interval.job, serves).map((engine) => dueOf(log, interval, today, engine))));
    const order = (due: Due): string => due.due ?? (due.state === 'unknown' ? '9998' : '9999');
    const sorted = plans.map((due, i) => ({ due, i })).sort((a, b) => (order(a.due) < order(b.due) ? -1 : order(a.due) > order(b.due) ? 1 : a.i - b.i)).map(({ due }) => due);
    return sorted.map((due) => together(due, sorted, serves));
}

/** Of the dates by several engines the first counts. */
const earliest = (plans: readonly Due[]): Due => plans.reduce((first, due) => (due.due !== undefined && (first.due === undefined || due.due < first.due) ? due : first));

function dueOf(log: readonly LogEntry[], interval: Interval, today: string, engine: Id | undefined): Due {
    const { job } = interval;
    if (interval.everyStart) return { interval, job, state: 'each time' };
    const done = lastDone(log, job);
    const readings = engine === undefined ? [] : readingsOf(log, engine);
    const base = { interval, job, ...(engine !== undefined && { engine }) };
    if (!done) return { ...base, state: 'unknown', because: 'the log does not say when it was last done' };
    const hours = readings.find((reading) => reading.date === done.date)?.hours;
    const last = { date: done.date, ...(hours !== undefined && { hours }) };

    const dates: { date: string; by: 'hours' | 'months' | 'days' }[] = [];
    if (interval.months !== undefined) dates.push({ date: addMonths(done.date, interval.months), by: 'months' });
    if (interval.days !== undefined) dates.push({ date: addDays(done.date, interval.days), by: 'days' });
    let because: string | undefined;
    let atHours: number | undefined;
    if (interval.hours !== undefined) {
        const byHours = hoursDate(interval.hours / 3600, last.hours, readings);
        if (typeof byHours === 'string') because = byHours;
        else { atHours = byHours.atHours; if (byHours.date !== undefined) dates.push({ date: byHours.date, by: 'hours' }); else because = byHours.because; }
    }
    const first = dates.sort((a, b) => (a.date < b.date ? -1 : 1))[0];
    const extra = { ...base, last, ...(atHours !== undefined && { atHours }), ...(because !== undefined && { because }) };
    if (!first) return { ...extra, state: 'unknown', because: because ?? 'no interval is stated' };
    return { ...extra, due: first.date, by: first.by, state: stateOf(interval, first, last.date, today, atHours, readings) };
}

function hoursDate(interval: number, lastHours: number | undefined, readings: readonly Reading[]): string | { atHours: number; date?: string; because?: string } {
    const latest = readings.at(-1);
    if (lastHours === undefined || !latest) return 'the log does not give the engine hours when it was last done, so the hours are not counted';
    const atHours = lastHours + interval;
    if (latest.hours >= atHours) return { atHours, date: passed(atHours, readings) };
    const rate = rateOf(readings);
    if (rate === undefined) return { atHours, because: 'the log has too few readings for a rate, so the hours are not counted' };
    if (rate === 0) return { atHours, because: 'the engine has not run in the last twelve months of the log' };
    const days = Math.ceil((atHours - latest.hours) / rate - 1e-9);
    return days > MOST_DAYS ? { atHours, because: 'at the rate of the log the hours are reached in more than a hundred years' } : { atHours, date: addDays(latest.date, days) };
}

/** The day on which the meter passed a reading, evenly between the two that enclose it. */
function passed(atHours: number, readings: readonly Reading[]): string {
    const next = readings.findIndex((reading) => reading.hours >= atHours);
    const [before, after] = [readings[next - 1], readings[next]!];
    if (!before || after.hours === before.hours) return after.date;
    return addDays(before.date, Math.floor((daysBetween(before.date, after.date) * (atHours - before.hours)) / (after.hours - before.hours)));
}

function stateOf(interval: Interval, first: { date: string; by: string }, last: string, today: string, atHours: number | undefined, readings: readonly Reading[]): DueState {
    if (first.date < today) return 'overdue';
    if (first.date === today) return 'due';
    const left = daysBetween(today, first.date);
    const whole = daysBetween(last, first.date);
    const hoursLeft = first.by === 'hours' && interval.hours !== undefined && atHours !== undefined ? (atHours - projected(readings, today)) / (interval.hours / 3600) : 1;
    return left <= SOON_DAYS || left <= SOON_SHARE * whole || hoursLeft <= SOON_SHARE ? 'soon' : 'later';
}

/** The meter today, at the rate of the log. */
function projected(readings: readonly Reading[], today: string): number {
    const latest = readings.at(-1)!;
    return latest.hours + (rateOf(readings) ?? 0) * Math.max(0, daysBetween(latest.date, today));
}

function lastDone(log: readonly LogEntry[], job: Job): LogEntry | undefined {
    return log.filter((entry) => entry.jobs.some((done) => sameJob(done, job))).sort((a, b) => (a.date < b.date ? -1 : 1)).at(-1);
}

/** The same part and piece; renewing something counts as having looked at it. */
function sameJob(done: Job, job: Job): boolean {
    return done.part === job.part && done.piece === job.piece && (done.verb === job.verb || (job.verb === 'look' && done.verb === 'renew'));
}

/** The engines whose hours count for a job: those that the part serves, or the only one there is. */
function enginesFor(boat: Boat, job: Job, serves: ReadonlyMap<Id, readonly Id[]>): readonly (Id | undefined)[] {
    const served = job.part === undefined ? undefined : serves.get(job.part);
    if (served) return served;
    const engines = boat.consumers.filter((consumer) => consumer.kind === 'engine' || consumer.kind === 'generator').map(({ id }) => id);
    return engines.length === 1 ? engines : [undefined];
}

/** The consumers that each part serves: a consumer itself, and all on whose supply it lies. */
function enginesOf(boat: Boat): ReadonlyMap<Id, readonly Id[]> {
    const allOpen = running(networkOf(boat), new Map(), 'all open');
    const found = new Map<Id, Id[]>();
    for (const { id } of boat.consumers) for (const part of [...partsBefore(allOpen, `${id}:in`), id]) found.set(part, [...(found.get(part) ?? []), id]);
    return found;
}

/** Names the job that this one should be done with, when both open the supply of the same engine. */
function together(due: Due, sorted: readonly Due[], serves: ReadonlyMap<Id, readonly Id[]>): Due {
    const { job } = due;
    if (due.due === undefined || job.part === undefined || !OPENS.has(job.verb) || !serves.has(job.part)) return due;
    const whole = daysBetween(due.last!.date, due.due);
    const other = sorted.slice(0, sorted.indexOf(due)).find((earlier) => earlier.due !== undefined && earlier.job.part !== undefined && OPENS.has(earlier.job.verb)
        && serves.get(earlier.job.part)?.some((engine) => serves.get(job.part!)!.includes(engine)) && daysBetween(earlier.due, due.due!) <= Math.max(TOGETHER_DAYS, TOGETHER_SHARE * whole));
    return other ? { ...due, with: other.job } : due;
}
