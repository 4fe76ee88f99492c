/** Words and figures that sentences are made of; SI in, what a reader measures by out. */
import { fromSI } from './units';

/** a, b and c */
export function listed(items: readonly string[], last: 'and' | 'or' = 'and'): string {
    return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)!}`;
}

export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Rounded to `digits` significant ones, without trailing zeros. */
export function figure(value: number, digits = 3): string {
    if (value === 0) return '0';
    return String(Number(value.toPrecision(digits)));
}

/** To so many significant digits, to the safe side: down for what floods, up for what is needed. */
export function roundedTo(value: number, digits: number, way?: 'up' | 'down'): number {
    if (way === undefined || value === 0) return Number(value.toPrecision(digits));
    const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) + 1 - digits);
    // What is whole but for the last bits of a sum stays what it is.
    const steps = value / step;
    return Number(((way === 'up' ? Math.ceil(steps - 1e-6) : Math.floor(steps + 1e-6)) * step).toPrecision(digits));
}

export const mm = (si: number): string => `${Math.round(fromSI(si, 'mm'))} mm`;
export const kPa = (si: number): string => `${figure(fromSI(si, 'kPa'))} kPa (${figure(fromSI(si, 'inHg'), 2)} inHg)`;
export const litresAnHour = (si: number): string => `${figure(fromSI(si, 'L/h'))} L/h`;
export const degrees = (rad: number): string => `${figure(Math.abs(fromSI(rad, 'deg')), 3)}°`;
/** A lean beyond which something floods: tenths of a degree, rounded down. */
export const leanLimit = (rad: number): string => `${Math.floor(Math.abs(fromSI(rad, 'deg')) * 10 + 1e-6) / 10}°`;
export const litres = (si: number): string => (si < 1e-3 ? `${figure(si * 1e6)} mL` : `${figure(si * 1e3, si < 1e-2 ? 2 : 3)} L`);

/** heeled 10° to port, bow 3° down; heel positive with starboard down, trim positive with bow up, rad. */
export function attitudeWords({ heel, trim }: { readonly heel: number; readonly trim: number }): string {
    const parts = [
        ...(heel === 0 ? [] : [`heeled ${degrees(heel)} to ${heel < 0 ? 'port' : 'starboard'}`]),
        ...(trim === 0 ? [] : [`bow ${degrees(trim)} ${trim < 0 ? 'down' : 'up'}`]),
    ];
    return parts.length === 0 ? 'upright' : parts.join(', ');
}
