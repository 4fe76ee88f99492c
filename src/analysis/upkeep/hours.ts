/** The hour meters as the log tells them. */
import { Temporal } from 'temporal-polyfill';
import type { Boat, Id, LogEntry } from '../../model/boat';

export interface Reading {
    readonly date: string;
    /** Hours, as on the meter. */
    readonly hours: number;
}

/** Readings of one engine by date, corrections applied: an entry that `corrects` a date replaces the reading of that date. */
export function readingsOf(boat: Boat, engine: Id): Reading[] {
    const byDate = new Map<string, number>();
    const take = (entry: LogEntry, date: string): void => {
        for (const { engine: other, reading } of entry.hours) if (other === engine) byDate.set(date, reading / 3600);
    };
    for (const entry of boat.log) if (entry.corrects === undefined) take(entry, entry.date);
    for (const entry of boat.log) if (entry.corrects !== undefined) take(entry, entry.corrects);
    return [...byDate].map(([date, hours]) => ({ date, hours })).sort((a, b) => (a.date < b.date ? -1 : 1));
}

/** Hours a day from the readings of the last twelve months before the latest; undefined with fewer than two. */
export function rateOf(readings: readonly Reading[]): number | undefined {
    const latest = readings.at(-1);
    if (!latest) return undefined;
    const from = Temporal.PlainDate.from(latest.date).subtract({ months: 12 }).toString();
    const first = readings.find((reading) => reading.date >= from)!;
    const days = daysBetween(first.date, latest.date);
    return days > 0 && latest.hours >= first.hours ? (latest.hours - first.hours) / days : undefined;
}

export function daysBetween(from: string, to: string): number {
    return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'day' }).days;
}

export const addDays = (date: string, days: number): string => Temporal.PlainDate.from(date).add({ days }).toString();
/** Calendar months, to the last day of a shorter month. */
export const addMonths = (date: string, months: number): string => Temporal.PlainDate.from(date).add({ months }).toString();
