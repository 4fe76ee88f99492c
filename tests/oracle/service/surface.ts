/** Where the surface of a box tank stands when she leans, by columns of the box. */
import type { At, PlainTank } from './boat';

/** Starboard down and bow up are positive, rad. */
export interface Lean { readonly heel: number; readonly trim: number }

/** z' = z cos φ - y sin φ, z'' = z' cos θ + x sin θ (trade practice). Undefined where she leans and the place is not known. */
export function heightOf(at: At | undefined, { heel, trim }: Lean): number | undefined {
    if (!at || (heel !== 0 && at.stbd === undefined) || (trim !== 0 && at.fwd === undefined)) return undefined;
    return (at.up * Math.cos(heel) - (at.stbd ?? 0) * Math.sin(heel)) * Math.cos(trim) + (at.fwd ?? 0) * Math.sin(trim);
}

const COLUMNS = 24;

/** Height of the surface, m, with the tank filled to a fraction of what it holds. */
export function surfaceOf(tank: PlainTank, fraction: number, lean: Lean): number | undefined {
    if (!tank.box) return undefined;
    const { fwd, stbd, up } = tank.box;
    const middle = ([low, high]: readonly [number, number], i: number): number => low + (high - low) * (i + 0.5) / COLUMNS;
    // Each column stands on the floor: its foot is so high, and for each metre of the leaned vertical it is 1/lift metres long.
    const lift = Math.cos(lean.heel) * Math.cos(lean.trim);
    const feet: number[] = [];
    for (let i = 0; i < COLUMNS; i++) for (let j = 0; j < COLUMNS; j++) feet.push(heightOf({ up: up[0], fwd: middle(fwd, i), stbd: middle(stbd, j) }, lean)!);
    const tall = up[1] - up[0];
    const filled = (surface: number): number => feet.reduce((sum, foot) => sum + Math.min(tall, Math.max(0, (surface - foot) / lift)), 0) / feet.length / tall;
    let [low, high] = [Math.min(...feet), Math.max(...feet) + tall * lift];
    for (let i = 0; i < 40; i++) {
        const half = (low + high) / 2;
        if (filled(half) < fraction) low = half; else high = half;
    }
    return (low + high) / 2;
}

export const UPRIGHT: Lean = { heel: 0, trim: 0 };

/** Leans of the envelope, its corners among them. */
export function leansOf({ heel, trim }: { readonly heel: number; readonly trim: number }): Lean[] {
    const spread = (most: number, steps: number): number[] => (most === 0 ? [0] : Array.from({ length: 2 * steps + 1 }, (_, i) => most * (i - steps) / steps));
    return spread(heel, 5).flatMap((h) => spread(trim, 2).map((t) => ({ heel: h, trim: t })));
}
