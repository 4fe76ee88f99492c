/**
 * What a row of pipes takes from a head, and what flows through it by a head: Darcy and Weisbach, h = (f L/D + K) v²/2g.
 * The liquid fills the pipes and flows steadily.
 */
import type { Fluid } from './fluid';

/** m/s², the standard value (third CGPM, 1901). */
export const GRAVITY = 9.80665;

/** Roughness of drawn tubing, m: the textbooks' 0.0015 mm. Hoses are counted as smooth as that. */
export const DRAWN = 1.5e-6;

/** Below the first a flow is laminar, above the second turbulent: the bounds of the EPANET manual. */
export const LAMINAR = 2000;
export const TURBULENT = 4000;

export interface Pipe {
    /** m. */
    readonly bore: number;
    /** m; 0 for a mouth that is only passed. */
    readonly length: number;
}

export const areaOf = (bore: number): number => (Math.PI * bore ** 2) / 4;

/** Re = v D / ν. */
export const reynolds = (speed: number, bore: number, viscosity: number): number => (speed * bore) / viscosity;

export type Regime = 'at rest' | 'laminar' | 'between laminar and turbulent' | 'turbulent';

export const regimeOf = (re: number): Regime => (!(re > 0) ? 'at rest' : re <= LAMINAR ? 'laminar' : re < TURBULENT ? 'between laminar and turbulent' : 'turbulent');

/**
 * Darcy's friction factor: 64/Re when laminar, Swamee and Jain (1976) when turbulent, Dunlop's cubic (1991) between them.
 * `rough` is the roughness over the bore. The EPANET manual prints the cubic's slope with the wrong sign; its engine, and this, has
 * FB = FA (2 - 0.00514215 / (Y2 Y3)), with which the cubic meets both neighbours. 0 for liquid at rest.
 */
export function frictionFactor(re: number, rough: number): number {
    if (!(re > 0)) return 0;
    if (re <= LAMINAR) return 64 / re;
    if (re >= TURBULENT) return 0.25 / Math.log10(rough / 3.7 + 5.74 / re ** 0.9) ** 2;
    const { fa, fb } = cubicOf(rough);
    const r = re / LAMINAR;
    return 7 * fa - fb + r * (0.128 - 17 * fa + 2.5 * fb + r * (-0.128 + 13 * fa - 2 * fb + r * (0.032 - 3 * fa + 0.5 * fb)));
}

/** What Dunlop's cubic is made of: value and slope where the flow turns turbulent. */
export function cubicOf(rough: number): { readonly y2: number; readonly y3: number; readonly fa: number; readonly fb: number } {
    const y2 = rough / 3.7 + 5.74 / TURBULENT ** 0.9;
    const y3 = -2 * Math.log10(y2);
    const fa = y3 ** -2;
    return { y2, y3, fa, fb: fa * (2 - 0.00514215 / (y2 * y3)) };
}

/**
 * The head that a flow (m³/s) takes through pipes one after the other, m. `k` is the sum of the minor losses, at the speed in the widest
 * of them: so they are never counted for more than they take. (In laminar flow they take more than their usual values say.)
 */
export function headLost(pipes: readonly Pipe[], flow: number, { viscosity }: Pick<Fluid, 'viscosity'>, k = 0): number {
    let [friction, widest] = [0, 0];
    for (const { bore, length } of pipes) {
        const speed = flow / areaOf(bore);
        const f = frictionFactor(reynolds(speed, bore, viscosity), DRAWN / bore);
        friction += (f * length / bore) * speed ** 2 / (2 * GRAVITY);
        if (bore > widest) widest = bore;
    }
    return friction + (widest > 0 ? k * (flow / areaOf(widest)) ** 2 / (2 * GRAVITY) : 0);
}

/**
 * The flow that a head (m) drives through pipes one after the other, m³/s, to 1e-12 of itself. 0 without a head; undefined where nothing
 * hinders it, for then it has no bound. The head lost grows with the flow, so there is one answer and halving finds it.
 */
export function flowByHead(pipes: readonly Pipe[], head: number, fluid: Fluid, k = 0): number | undefined {
    if (!(head > 0)) return Number.isNaN(head) ? undefined : 0;
    if (pipes.length === 0 || pipes.some(({ bore, length }) => !(bore > 0) || !(length >= 0)) || !Number.isFinite(head)) return undefined;
    if (k <= 0 && pipes.every(({ length }) => length === 0)) return undefined;
    let [low, high] = [0, areaOf(Math.max(...pipes.map(({ bore }) => bore)))];
    for (let i = 0; headLost(pipes, high, fluid, k) < head; i++) { if (i > 200) return undefined; low = high; high *= 2; }
    for (let i = 0; i < 200 && high - low > 1e-12 * high; i++) {
        const middle = (low + high) / 2;
        if (headLost(pipes, middle, fluid, k) < head) low = middle; else high = middle;
    }
    return (low + high) / 2;
}
