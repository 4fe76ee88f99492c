/** The hour meters as the log tells them. */
import { Temporal } from 'temporal-polyfill';
import type { Id, LogEntry, LogReading } from '../../model/boat';

export interface Reading {
    readonly date: string;
    /** Hours, as on the meter. */
    readonly hours: number;
}

/** The log up to a day, corrections worked in: what a correction says of hours, jobs, gauges or dips replaces what that date said. */
export function logUntil(log: readonly LogEntry[], today: string): LogEntry[] {
    const entries = log.filter((entry) => entry.date <= today);
    const corrections = entries.filter((entry) => entry.corrects !== undefined);
    const kept = entries.filter((entry) => entry.corrects === undefined);
    return kept.map((entry) => corrections.filter((other) => other.corrects === entry.date).reduce((corrected, { hours, jobs, readings }) => ({
        ...corrected,
        hours: [...corrected.hours.filter((old) => !hours.some((other) => other.engine === old.engine)), ...hours],
        jobs: jobs.length > 0 ? jobs : corrected.jobs,
        // Where that date has several lines, a reading stands once, on the line that told it before.
        readings: [
            ...corrected.readings.filter((old) => !readings.some((other) => isSame(other, old))),
            ...readings.filter((added) => lineTold(kept.filter(({ date }) => date === entry.date), added) === entry),
        ],
    }), entry));
}

const isSame = (one: LogReading, other: LogReading): boolean => one.about === other.about && one.of === other.of;
const lineTold = (lines: readonly LogEntry[], reading: LogReading): LogEntry | undefined => lines.find(({ readings }) => readings.some((old) => isSame(old, reading))) ?? lines[0];

/** Readings of one engine by date. */
export function readingsOf(log: readonly LogEntry[], engine: Id): Reading[] {
    const byDate = new Map<string, number>();
    for (const entry of log) for (const { engine: other, reading } of entry.hours) if (other === engine) byDate.set(entry.date, reading / 3600);
    return [...byDate].map(([date, hours]) => ({ date, hours })).sort((a, b) => (a.date < b.date ? -1 : 1));
}

/** Hours a day from the readings of the last twelve months before the latest; undefined with fewer than two. */
export function rateOf(readings: readonly Reading[]): number | undefined {
    const latest = readings.at(-1);
    if (!latest) return undefined;
    const from = Temporal.PlainDate.from(latest.date).subtract({ months: 12 }).toString();
    const within = readings.find((reading) => reading.date >= from)!;
    // With one reading a year there is none other in the window: the one before it must serve.
    const first = within === latest ? readings.at(-2) ?? within : within;
    const days = daysBetween(first.date, latest.date);
    return days > 0 && latest.hours >= first.hours ? (latest.hours - first.hours) / days : undefined;
}

export function daysBetween(from: string, to: string): number {
    return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'day' }).days;
}

export const addDays = (date: string, days: number): string => Temporal.PlainDate.from(date).add({ days }).toString();
/** Calendar months, to the last day of a shorter month. */
export const addMonths = (date: string, months: number): string => Temporal.PlainDate.from(date).add({ months }).toString();
