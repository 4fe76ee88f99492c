/** Small symbols about a point, for parts that are drawn at their height; the schematic has larger ones. */
import type { Consumer, Part } from '../../../model/boat';
import { inked, n, points } from '../svg';

/** How far a symbol reaches either side of its point. */
export const HALF = 8;

export type Symbol = 'valve' | 'check' | 'tee' | 'filter' | 'strainer' | 'gauge' | 'radiator' | 'hand pump' | 'pump' | 'selector' | 'consumer' | 'bleed point' | 'drain' | 'lid' | 'open end' | 'plate';

export const SYMBOL_WORDS: Readonly<Record<Symbol, string>> = {
    valve: 'valve; filled when it is shut', check: 'check, the bar stops what comes back', tee: 'tee', filter: 'filter', strainer: 'strainer', gauge: 'gauge', radiator: 'radiator', 'hand pump': 'hand primer or lift pump', pump: 'electric pump',
    selector: 'selector or changeover', consumer: 'consumer, at its inlet', 'bleed point': 'bleed point', drain: 'drain', lid: 'lid', 'open end': 'open end of a vent', plate: 'deck plate',
};

export function symbolOf(of: Part | Consumer): Symbol {
    switch (of.kind) {
        case 'engine': case 'generator': case 'heater': case 'exchanger': return 'consumer';
        case 'shutoff': return 'valve';
        case 'check': case 'tee': case 'filter': case 'strainer': case 'gauge': case 'radiator': return of.kind;
        case 'hand primer': case 'lift pump': return 'hand pump';
        case 'electric primer': case 'electric pump': return 'pump';
        case 'selector': case 'changeover': return 'selector';
        case 'hose': case 'tube': return 'tee';
    }
}

/** `shut`: a valve that nothing passes; `dead`: nothing moves in it; `reversed`: turned end for end, so that it passes against its line. */
export function symbol(kind: Symbol, x: number, y: number, { shut, dead, live, reversed }: { readonly shut?: boolean; readonly dead?: boolean; readonly live?: boolean; readonly reversed?: boolean } = {}): string {
    const outline = `${inked('outline', live ? 2.4 : dead ? 0.7 : 1)}${dead ? ' stroke-dasharray="3 2"' : ''}`;
    const at = (dx: number, dy: number): readonly [number, number] => [x + (reversed ? -dx : dx), y + dy];
    const polygon = (list: readonly (readonly [number, number])[], ink = outline): string => `<polygon ${ink} points="${points(list)}"/>`;
    const circle = (r: number, ink = outline): string => `<circle ${ink} cx="${n(x)}" cy="${n(y)}" r="${n(r)}"/>`;
    const rect = (w: number, h: number): string => `<rect ${outline} x="${n(x - w)}" y="${n(y - h)}" width="${n(2 * w)}" height="${n(2 * h)}"/>`;
    const strokes = (...moves: readonly (readonly [number, number, number, number])[]): string => `<path ${inked('thin')} d="${moves.map(([a, b, c, d]) => `M${n(x + a)} ${n(y + b)}L${n(x + c)} ${n(y + d)}`).join('')}"/>`;
    const bow = (ink: string): string => polygon([at(-8, -5), at(-8, 5), at(0, 0)], ink) + polygon([at(8, -5), at(8, 5), at(0, 0)], ink);
    switch (kind) {
        case 'valve': return bow(shut ? inked('solid') : outline);
        case 'check': return polygon([at(-6, -5), at(-6, 5), at(5, 0)]) + `<path ${inked('line')} d="M${n(at(6, 0)[0])} ${n(y - 6)}V${n(y + 6)}"/>`;
        case 'tee': return circle(2.5, inked('solid'));
        case 'filter': return rect(7, 8) + `<path ${inked('thin')} stroke-dasharray="3 2" d="M${n(x)} ${n(y - 8)}V${n(y + 8)}"/>`;
        case 'strainer': return rect(7, 8) + strokes([-7, 8, 7, -8]);
        case 'gauge': return circle(7) + strokes([0, 0, 4, -4]);
        case 'radiator': return rect(8, 8) + strokes([-4, -8, -4, 8], [0, -8, 0, 8], [4, -8, 4, 8]);
        case 'hand pump': return circle(7) + polygon([at(-4, -4.5), at(-4, 4.5), at(6, 0)]) + strokes([0, -7, 5, -12]);
        case 'pump': return circle(7) + polygon([at(-4, -4.5), at(-4, 4.5), at(6, 0)], inked('solid'));
        case 'selector': return polygon([at(-8, 0), at(0, -8), at(8, 0), at(0, 8)]) + circle(1.5, inked('solid'));
        case 'consumer': return rect(8, 8) + strokes([-8, -8, 8, 8], [-8, 8, 8, -8]);
        case 'bleed point': return circle(3);
        case 'drain': return polygon([at(-4, -3), at(4, -3), at(0, 4)]);
        case 'lid': return `<path ${inked('line')} d="M${n(x - 6)} ${n(y)}H${n(x + 6)}"/>`;
        case 'open end': return `<path ${inked('line')} d="M${n(x)} ${n(y - 6)}V${n(y + 6)}M${n(x + 4)} ${n(y - 6)}A6 6 0 0 1 ${n(x + 4)} ${n(y + 6)}"/>`;
        case 'plate': return `<path ${inked('line')} d="M${n(x - 8)} ${n(y)}H${n(x + 8)}M${n(x - 4)} ${n(y - 4)}H${n(x + 4)}"/>`;
    }
}
