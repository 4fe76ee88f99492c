/** Figures as the sheet prints them: results as a reader wants them, what a result is redone from with two digits more, what was written as it was written. */
import { UNITS, type Unit } from '../../model/units';

/** Units that the sheet prints and nobody writes: the nautical mile of 1852 m, and differences of temperatures. */
const OWN: Readonly<Record<string, Unit>> = { nmi: { dimension: 'length', size: 1852 }, K: { dimension: 'temperature', size: 1 } };
export const unitOf = (unit: string): Unit | undefined => OWN[unit] ?? UNITS[unit];
/** The unit in which a difference of two figures is told. */
export const differenceUnit = (unit: string): string => (unit === 'degC' ? 'K' : unit);

/** Decimals of a result in each unit; a small one gets more, until it has three digits that count. */
const DECIMALS: Readonly<Record<string, number>> = { mm: 0, m: 3, L: 1, mL: 1, m3: 4, mm2: 1, m2: 4, deg: 1, kPa: 2, '%': 1, 'L/h': 1, 'L/min': 2, h: 1, min: 1, s: 0, 'kg/m3': 0, 'mm2/s': 2, 'm/s': 3, nmi: 0, degC: 1, K: 1, rpm: 0, kn: 1 };
const [DIGITS, GUARD] = [3, 2];
/** A height or an angle is no more exact for being near its nought. */
const FROM_A_NOUGHT: ReadonlySet<string> = new Set(['mm', 'deg', 'degC', 'K']);

/** Digits that a figure keeps when it is shown as it was written. */
const WRITTEN = 7;

export function shownIn(si: number, unit: string): number {
    if (unit === '1') return si;
    const { size, offset = 0 } = unitOf(unit)!;
    return (si - offset) / size;
}

/** A result: 201.6 */
export const resultFigure = (si: number, unit: string, remains = false): string => fixed(shownIn(si, unit), DECIMALS[unit] ?? 0, remains || FROM_A_NOUGHT.has(unit) ? 0 : DIGITS);
/** The difference of two results, to the decimals of the one that is printed. */
export const marginFigure = (si: number, unit: string, beside: string): string => nought(shownIn(si, unit).toFixed(beside.split('.')[1]?.length ?? 0));
const nought = (figure: string): string => figure.replace(/^-(?=[0.]*$)/, '');

/** What a result is redone from: 201.600 */
export const stepFigure = (si: number, unit: string): string => fixed(shownIn(si, unit), (DECIMALS[unit] ?? 0) + GUARD, DIGITS + GUARD);
/** What was written: 8, 2.6 */
export function writtenFigure(si: number, unit: string): string {
    const value = Number(shownIn(si, unit).toPrecision(WRITTEN));
    if (Math.abs(value) < NOUGHT) return '0';
    return Math.abs(value) < 1e-6 || Math.abs(value) >= 1e15 ? stepFigure(si, unit) : String(value + 0);
}

/** What is this near to nought is nought. */
const NOUGHT = 1e-12;

function fixed(value: number, decimals: number, digits: number): string {
    if (Math.abs(value) < NOUGHT) return (0).toFixed(decimals);
    const places = digits === 0 ? decimals : Math.min(Math.max(decimals, digits - 1 - Math.floor(Math.log10(Math.abs(value)))), 15);
    return nought(value.toFixed(places));
}

/** A unit as it is printed beside a figure. */
export const unitWords = (unit: string): string => (unit === '1' ? '' : unit === 'deg' ? '°' : unit === 'degC' ? '°C' : unit.replace(/2(?=\/|$)/, '²').replace(/3(?=\/|$)/, '³'));

/** With a minus sign, for readers; machines keep the hyphen. */
export const signed = (figure: string): string => figure.replace(/^-/, '−');
