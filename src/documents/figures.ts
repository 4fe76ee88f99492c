/** SI back into what a reader holds a tool for: the unit, a sensible count of digits, both systems where it helps. */
import { fromSI } from '../model/units';
import { figure, kPa, mm } from '../model/words';

export { figure, kPa, mm };

export const mL = (si: number): string => (si >= 1e-3 ? `${figure(fromSI(si, 'L'))} L` : `${figure(fromSI(si, 'mL'))} mL`);
export const hours = (seconds: number): string => `${Math.round(seconds / 3600)} h`;
export const speed = (si: number): string => `${si.toFixed(2)} m/s`;

/** Wraps to a width, with an indent for every line and one for the first. */
export function wrap(text: string, width: number, indent = '', first = indent): string {
    const lines: string[] = [];
    let line = first;
    let empty = true;
    for (const word of text.split(/\s+/)) {
        if (!empty && line.length + 1 + word.length > width) { lines.push(line); line = indent; empty = true; }
        line += empty ? word : ` ${word}`;
        empty = false;
    }
    return [...lines, line].join('\n');
}
