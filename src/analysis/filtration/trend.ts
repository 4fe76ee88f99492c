/**
 * The vacuum of a gauge as the log has it, told for one level of the tank and one speed of the engine, so that readings can be compared; what it has risen
 * since an element was last renewed; and when it comes to where the element is to be renewed, if the readings bear that out.
 *
 * A gauge that reads suction s shows the lift and the friction before it: s = ρ g (gauge - surface) + friction. Friction in laminar flow and in a paper
 * element goes with the flow, and that with the speed of the engine, so at the speed of reference it is friction × reference / speed. Everything is upright,
 * and the tank is vented.
 */
import type { Boat, Id, LogEntry, Part, Tank } from '../../model/boat';
import { toSI } from '../../model/units';
import { estimateOf, exactly, minus, most, type Estimate } from '../estimate';
import { GRAVITY } from '../flow/pipe';
import { UPRIGHT } from '../tanks/attitude';
import { span } from '../tanks/liquid';
import { meshOf } from '../tanks/mesh';
import { dippedSurface } from '../tanks/sounding';
import { addDays, daysBetween, logUntil, rateOf, readingsOf, type Reading } from '../upkeep/hours';
import { gaugePlace } from './gauge-place';
import { lineThrough, type Line, type Point } from './least-squares';

export interface TrendRequest {
    readonly gauge: Id;
    /** ISO date; later lines of the log are not read. */
    readonly today: string;
    /** Of the fuel, kg/m³. */
    readonly density: number;
    /** The speed of reference, rev/s: the speed at which she cruises. By default the highest at which the gauge was read since the renewal. */
    readonly speed?: number;
    /** Whose speed and hours count, where several draw past the gauge. */
    readonly engine?: Id;
}

/** What is not known without which there is no trend. */
export interface TrendLack {
    readonly about: Id;
    /** `kind`: whether the gauge reads vacuum. `lines`: no tank or no element before it, or no engine behind it. `tanks`, `engines`: several, and the log does not say which. `renewal`: none in the log. `readings`: none since then with a speed. */
    readonly of: 'density' | 'kind' | 'height' | 'shape' | 'tank place' | 'lines' | 'tanks' | 'engines' | 'renewal' | 'readings';
}

/** One reading as it would be at the speed of reference with the lift taken out, Pa of friction; a least and a most where the level is not known for certain. */
export interface Normalised {
    /** The line of the log. */
    readonly entry: Id;
    readonly date: string;
    /** As read, Pa of suction, at rev/s. */
    readonly suction: number;
    readonly speed: number;
    readonly friction: Estimate;
    /** The height of the surface that was counted with, m. */
    readonly surface: Estimate;
    /** The day of the dip that the level is from. Absent: none within `NEAR` days, and the friction is between that of a full and of an empty tank. */
    readonly dipped?: string;
    /** On the meter, that day. */
    readonly hours?: number;
}

export interface LeftOut {
    readonly entry: Id;
    readonly date: string;
    /** From everything, or only from the line that is drawn on. */
    readonly from: 'trend' | 'line';
    /** `slow`: read at less than half of the speed of reference. `before`: that day, before the element was renewed, as it seems. */
    readonly why: 'no speed' | 'slow' | 'before' | 'no dip' | 'no hours';
}

/** Rise over the first reading after the renewal, Pa. */
export interface Limit extends Estimate {
    /** The element that states what it takes when it is dirty; absent for common practice. */
    readonly element?: Id;
}

export interface Projection {
    /** On the meter, never before the latest reading; the most is absent when that is out of sight. */
    readonly hours: { readonly si: number; readonly least: number; readonly most?: number };
    /** ISO dates at the rate of the last twelve months; absent without a rate, or past a hundred years. */
    readonly date?: { readonly likely: string; readonly earliest: string; readonly latest?: string };
    /** Pa an hour, and how far off either way. */
    readonly slope: number;
    readonly off: number;
}

/** `few`: fewer than three readings with a dip, a speed and hours, on three counts of the meter. `back`: the hours run back. `falling`, `unsure`: no rise, or none that stands out from the scatter. */
export type NoProjection = 'few' | 'back' | 'falling' | 'unsure';

export interface Trend {
    readonly gauge: Id;
    readonly tank: Id;
    readonly engine: Id;
    /** Of reference, rev/s. */
    readonly speed: number;
    readonly renewed: { readonly date: string; readonly parts: readonly Id[] };
    /** Since the renewal, in the order of time; the first is the baseline, the last how it stands. */
    readonly readings: readonly Normalised[];
    /** The last over the first, Pa. */
    readonly rise: Estimate;
    readonly limit: Limit;
    readonly projection: Projection | NoProjection;
    readonly leftOut: readonly LeftOut[];
    /** What was taken: sentences without their full stop. */
    readonly taken: readonly string[];
}

/** A dip of another day serves when it is not further off: ours, for it is told each time how far off it could be. */
const NEAR = 3;
/** Half an inch of mercury: a gauge is not read closer (common practice). */
const CLOSE = toSI(0.5, 'inHg');
const between = (least: number, most: number): Limit => ({ si: (least + most) / 2, least, most });
/** A rise of 3 to 4 inches of mercury at cruising speed: common practice, as a boating column has it. */
const PRACTICE: Limit = between(toSI(3, 'inHg'), toSI(4, 'inHg'));
const MOST_DAYS = 36_525;

export function trendOf(boat: Boat, { gauge: id, today, density, speed: asked, engine: chosen }: TrendRequest): Trend | { readonly lacks: readonly TrendLack[] } {
    const gauge = boat.parts.find((part) => part.id === id && part.kind === 'gauge');
    const place = gauge && gaugePlace(boat, id);
    const lacks = density > 0 && Number.isFinite(density) ? lacksOf(boat, id, gauge, place, chosen) : [{ about: 'vessel', of: 'density' as const }];
    if (lacks.length > 0 || !gauge || !place) return { lacks };
    const tank = boat.tanks.find((other) => other.id === place.tanks[0])!;
    const engine = chosen ?? place.drawn[0]!;

    const log = logUntil(boat.log, today).sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
    const last = log.findLastIndex((entry) => renewedIn(entry, place.elements).length > 0);
    if (last < 0) return { lacks: [{ about: id, of: 'renewal' }] };
    const renewed = { date: log[last]!.date, parts: renewedIn(log[last]!, place.elements) };

    const leftOut: LeftOut[] = [];
    const out = (entry: LogEntry, why: LeftOut['why'], from: LeftOut['from'] = 'trend'): void => { leftOut.push({ entry: entry.id, date: entry.date, from, why }); };
    const read = log.slice(last).flatMap((entry) => entry.readings.filter(({ of, about }) => of === 'gauge' && about === id).map(({ value, speed }) => ({ entry, suction: -value, speed: speed ?? 0 })));
    const reference = asked !== undefined && asked > 0 ? asked : Math.max(0, ...read.map(({ speed }) => speed));
    const meter = readingsOf(log, engine);
    const level = levels(log, tank);
    const normalised = read.flatMap(({ entry, suction, speed }): Normalised[] => {
        if (!(speed > 0)) { out(entry, 'no speed'); return []; }
        if (speed * 2 < reference) { out(entry, 'slow'); return []; }
        const surface = level(entry.date);
        const friction = (height: number): number => (suction - density * GRAVITY * (gauge.at!.up!.si - height)) * (reference / speed);
        const hours = meter.find(({ date }) => date === entry.date)?.hours;
        return [{
            entry: entry.id, date: entry.date, suction, speed, friction: { si: friction(surface.si), least: friction(surface.least), most: friction(surface.most) }, surface: { si: surface.si, least: surface.least, most: surface.most },
            ...(surface.dipped !== undefined && { dipped: surface.dipped }), ...(hours !== undefined && { hours }),
        }];
    });
    const readings = sinceRenewal(normalised, log[last]!, () => out(log[last]!, 'before'));
    const [first, latest] = [readings[0], readings.at(-1)];
    if (!first || !latest) return { lacks: [{ about: id, of: 'readings' }] };

    const onLine = readings.filter((reading) => {
        const why = reading.dipped === undefined ? 'no dip' : reading.hours === undefined ? 'no hours' : undefined;
        if (why) leftOut.push({ entry: reading.entry, date: reading.date, from: 'line', why });
        return !why;
    });
    const limit = limitOf(boat, place.elements, first);
    const rise = first === latest ? exactly(0) : minus(latest.friction, first.friction);
    return {
        gauge: id, tank: tank.id, engine, speed: reference, renewed, readings, rise, limit, leftOut,
        projection: project(onLine.map(({ hours, friction }) => ({ x: hours!, y: friction.si })), first, limit, meter),
        taken: [
            'friction is taken to go with the flow, and the flow with the speed of the engine',
            'all is taken at one temperature of the fuel: cold fuel is thicker and reads like dirt',
            'an element is taken to clog evenly; towards its end it clogs faster, so it may come sooner',
            ...(renewed.date === first.date ? [`the reading of ${renewed.date} is taken as made after the element was renewed`] : []),
            ...(place.oneOfSeveral ? [`every reading is taken as made in the line-up ${place.lineUp.id}`] : []),
            ...new Set(readings.flatMap(({ date, dipped }) => (dipped === undefined ? [`no dip is logged near ${date}: that reading lies between a full and an empty tank`]
                : dipped === date ? [] : [`the level on ${date} is taken as that of ${dipped}`]))),
            ...(limit.element === undefined ? ['a rise of 3 to 4 inHg at cruising speed is taken as the end of an element (common practice)']
                : [`what ${limit.element} takes when it is dirty is taken at the speed of reference, and what it took when new as no more than all that the gauge showed then`]),
        ],
    };
}

function lacksOf(boat: Boat, id: Id, gauge: Part | undefined, place: ReturnType<typeof gaugePlace>, chosen: Id | undefined): TrendLack[] {
    if (!gauge || !place || place.tanks.length === 0 || place.elements.length === 0 || !(chosen === undefined ? place.drawn.length > 0 : place.drawn.includes(chosen))) return [{ about: id, of: 'lines' }];
    const tank = boat.tanks.find((other) => other.id === place.tanks[0])!;
    const mesh = meshOf(tank);
    return [
        ...(gauge.reads === 'vacuum' ? [] : [{ about: id, of: 'kind' as const }]),
        ...(gauge.at?.up ? [] : [{ about: id, of: 'height' as const }]),
        ...(place.tanks.length > 1 ? [{ about: id, of: 'tanks' as const }] : !mesh ? [{ about: tank.id, of: 'shape' as const }] : mesh.known.up ? [] : [{ about: tank.id, of: 'tank place' as const }]),
        ...(chosen === undefined && place.drawn.length > 1 ? [{ about: id, of: 'engines' as const }] : []),
    ];
}

/** Whose element was renewed on this line; cleaned is as good as new. What is renewed of a filter beside its element changes nothing here. */
const renewedIn = (entry: LogEntry, elements: readonly Id[]): Id[] => [...new Set(entry.jobs.flatMap(({ verb, part, piece }) =>
    (part !== undefined && elements.includes(part) && (verb === 'renew' || verb === 'clean') && (piece === '' || /\belement\b/.test(piece)) ? [part] : [])))].sort();

interface Level extends Estimate {
    readonly dipped?: string;
}

/** The height of the surface on a day, m: by the dip of that day (the last one on it), else by the nearest near it, else midway; never outside of the tank. */
function levels(log: readonly LogEntry[], tank: Tank): (date: string) => Level {
    const { low, high } = span(tank, UPRIGHT)!;
    const byDate = new Map<string, number>();
    for (const { date, readings } of log) for (const { about, of, value } of readings) {
        const surface = of === 'dip' && about === tank.id ? dippedSurface(tank, value) : undefined;
        if (surface !== undefined) byDate.set(date, surface);
    }
    return (date) => {
        const same = byDate.get(date);
        if (same !== undefined) return { ...exactly(same), dipped: date };
        const nearest = [...byDate].map(([dipped, surface]) => ({ dipped, surface, days: Math.abs(daysBetween(dipped, date)) })).filter(({ days }) => days <= NEAR)
            .reduce<{ dipped: string; surface: number; days: number } | undefined>((best, one) => (best && best.days <= one.days ? best : one), undefined);
        return nearest ? { si: nearest.surface, least: low, most: high, dipped: nearest.dipped } : { si: (low + high) / 2, least: low, most: high };
    };
}

/** What was read on the line of the renewal may have been read before it: what is clearly higher than the lowest of them, and all of it when a later reading is clearly lower. */
function sinceRenewal(all: readonly Normalised[], renewal: LogEntry, before: () => void): readonly Normalised[] {
    const that = all.filter(({ entry }) => entry === renewal.id);
    const later = all.filter(({ entry }) => entry !== renewal.id);
    const lowest = Math.min(...that.map(({ friction }) => friction.least));
    const clearlyLower = later.some(({ friction }) => friction.most < lowest - CLOSE);
    const kept = clearlyLower ? [] : that.filter(({ friction }) => friction.least <= lowest + CLOSE);
    for (const _ of that.slice(kept.length)) before();
    return [...kept, ...later];
}

/**
 * Of the elements that state what they take when dirty the one that takes least; by common practice where none does. What it took when new was between
 * nothing and what it is said to take clean, and no more than all that the gauge showed then.
 */
function limitOf(boat: Boat, elements: readonly Id[], first: Normalised): Limit {
    const stated = elements.flatMap((id) => { const { dirty, clean } = boat.parts.find((part) => part.id === id)!; return dirty ? [{ id, dirty, clean }] : []; })
        .sort((a, b) => a.dirty.si - b.dirty.si || (a.id < b.id ? -1 : 1))[0];
    if (!stated) return PRACTICE;
    const dirty = estimateOf(stated.dirty);
    const asNew = Math.max(0, Math.min(first.friction.most, stated.clean ? most(stated.clean) : Infinity));
    return { ...between(Math.max(0, dirty.least - asNew), dirty.most), element: stated.id };
}

function project(points: readonly Point[], first: Normalised, limit: Limit, meter: readonly Reading[]): Projection | NoProjection {
    const line = lineThrough(points);
    if (!line) return 'few';
    if (points.some(({ x }, i) => i > 0 && x < points[i - 1]!.x)) return 'back';
    if (!(line.slope > 0)) return 'falling';
    if (!(line.slope > line.off)) return 'unsure';
    const latest = points.at(-1)!.x;
    const { friction } = first;
    const likely = Math.max(latest, crossing(line, line.slope, friction.si + limit.si));
    const corners = [friction.least + limit.least, friction.most + limit.most].flatMap((target) => [line.slope - line.off, line.slope, line.slope + line.off].map((slope) => crossing(line, slope, target)));
    if (!Number.isFinite(likely)) return 'unsure';
    const [low, high] = [Math.max(latest, Math.min(likely, ...corners)), Math.max(likely, ...corners)];
    const hours = { si: likely, least: low, ...(Number.isFinite(high) && { most: high }) };
    const date = { likely: dateAt(hours.si, meter), earliest: dateAt(hours.least, meter), latest: hours.most === undefined ? undefined : dateAt(hours.most, meter) };
    return {
        hours, slope: line.slope, off: line.off,
        ...(date.likely !== undefined && date.earliest !== undefined && { date: { likely: date.likely, earliest: date.earliest, ...(date.latest !== undefined && { latest: date.latest }) } }),
    };
}

/** Where a line of such a slope through the middle comes to a height. */
const crossing = ({ middle }: Line, slope: number, target: number): number => middle.x + (target - middle.y) / slope;

/** The day on which the meter comes to so many hours, at the rate of the log; that of its latest reading where it has. */
function dateAt(hours: number, meter: readonly Reading[]): string | undefined {
    const [latest, rate] = [meter.at(-1), rateOf(meter)];
    if (!latest || !rate) return undefined;
    const days = Math.max(0, Math.floor((hours - latest.hours) / rate));
    return days <= MOST_DAYS ? addDays(latest.date, days) : undefined;
}
