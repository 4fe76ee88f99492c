/** The scale of heights at the left of a row: ticks at even steps, in mm above the datum. */
import { inked, n, words } from '../svg';

interface Axis {
    readonly x: number;
    readonly top: number;
    readonly bottom: number;
    /** Where the datum is on the sheet, and how many units of it are a metre. */
    readonly zero: number;
    readonly units: number;
    /** mm */
    readonly step: number;
    /** Further axes to the right, with ticks alone. */
    readonly also: readonly number[];
}

/** mm from tick to tick: 1, 2 or 5 and noughts, wide enough for figures. */
export function tickStep(units: number): number {
    for (let power = 1; ; power *= 10) for (const each of [1, 2, 5]) if (each * power >= 10 && (each * power / 1000) * units >= 22) return each * power;
}

export function axis({ x, top, bottom, zero, units, step, also }: Axis): string {
    const [from, to] = [top, bottom].map((at) => (zero - at) / units * 1000) as [number, number];
    const y = (height: number): number => zero - height * units;
    const first = Math.ceil(to / step);
    const ticks = Array.from({ length: Math.max(0, Math.floor(from / step) - first + 1) }, (_, i) => (first + i) * step + 0);
    const ruled = (at: number): string => `<path ${inked('thin')} d="M${n(at)} ${n(top)}V${n(bottom)}${ticks.map((tick) => `M${n(at - 4)} ${n(y(tick / 1000))}H${n(at)}`).join('')}"/>`;
    return `<g data-axis="mm">${[x, ...also].map(ruled).join('')}${ticks.map((tick) => words(String(tick), { x: x - 8, y: y(tick / 1000) + 3.5, size: 10, anchor: 'end' })).join('')}</g>`;
}
