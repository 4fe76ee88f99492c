/** What a tank carries, as it flows: its density and viscosity, and which of them were taken because nothing is said. */
import type { Carries } from '../../model/boat';

export interface Fluid {
    /** kg/m³. */
    readonly density: number;
    /** Kinematic, m²/s. */
    readonly viscosity: number;
    /** Against air, N/m. */
    readonly tension: number;
    /** What was taken, and from where: one sentence without its full stop, as a list of defaults has it. */
    readonly taken: string;
}

/** Cold liquid is thick and fills slowly; warm liquid is thin and runs out fast. Ask for what errs on the safe side. */
export type Warmth = 'cold' | 'warm';

/**
 * Diesel: 840 kg/m³ lies within the 820 to 845 of EN 590 at 15 °C. Cold, 5.5 mm²/s is common practice: what a diesel of 4.0 at 20 °C
 * and 2.6 at 40 °C has at 8 °C by ASTM D341. Warm, 2.0 mm²/s is the least that EN 590 allows at 40 °C, arctic grades left out.
 * Surface tension from memory.
 */
const DIESEL: Readonly<Record<Warmth, Fluid>> = {
    cold: { density: 840, viscosity: 5.5e-6, tension: 0.027, taken: 'cold diesel is taken as 840 kg/m³ and 5.5 mm²/s (common practice)' },
    warm: { density: 840, viscosity: 2.0e-6, tension: 0.027, taken: 'warm diesel is taken as 840 kg/m³ and 2.0 mm²/s (the thinnest that EN 590 allows at 40 °C)' },
};

/** Everything else is taken as water; the values at 20 °C and at 70 °C are the handbooks', rounded, from memory. */
const WATER: Readonly<Record<Warmth, Omit<Fluid, 'taken'>>> = {
    cold: { density: 1000, viscosity: 1.0e-6, tension: 0.073 },
    warm: { density: 980, viscosity: 0.41e-6, tension: 0.064 },
};

/** What is not said carries diesel, as everywhere. Grades and temperatures are not read yet. */
export function fluidOf(carries: Carries = 'diesel', warmth: Warmth = 'cold'): Fluid {
    if (carries === 'diesel') return DIESEL[warmth];
    const thicker = carries === 'coolant' ? '; antifreeze makes it thicker' : '';
    return { ...WATER[warmth], taken: `${carries} is taken as water at ${warmth === 'cold' ? 20 : 70} °C (handbook value${thicker})` };
}
