/**
 * Whether moving liquid takes a long bubble along from a crest. Every law here was measured in pipes much wider than a fuel hose, or
 * worked out for a liquid without friction; so they are advice by name, and none of them ever proves that a crest is clear.
 */
import type { Fluid } from '../flow/fluid';
import { GRAVITY } from '../flow/pipe';

/** Below this a crest keeps its bubble, m/s, in bores of 8 to 10 mm: the trade's rule, no published source. */
export const SWEEP = 0.15;

export interface Law {
    /** As a sentence names it. */
    readonly name: string;
    /** Below this the bubble stays, m/s. */
    readonly speed: number;
    /** For which way down, as a sentence says it. */
    readonly slope: string;
    /** The bores that it comes from. */
    readonly bores: string;
}

interface Source extends Omit<Law, 'speed'> {
    /** v / √(gD), where it holds. */
    readonly froude: (bore: number, fluid: Fluid) => number | undefined;
}

const HALF = Math.PI / 4;

/**
 * The first as handbooks of pump stations print it, the last as its abstract does, the three between from memory. Bores as remembered,
 * where it says so.
 */
const SOURCES: readonly Source[] = [
    { name: 'Wisner, Mohsen and Kouwen (1975)', slope: 'at 45° down', bores: 'a pipe of 244 mm, from memory', froude: () => wisner(HALF) },
    { name: 'Kalinske and Bliss (1943)', slope: 'at 45° down', bores: 'pipes of 102 and 152 mm, from memory', froude: () => kalinske(HALF) },
    { name: 'Benjamin (1968)', slope: 'lying level', bores: 'theory without friction', froude: () => 0.542 },
    { name: 'Dumitrescu (1943), Davies and Taylor (1950)', slope: 'straight down', bores: 'theory, and tubes of 12 to 80 mm, from memory', froude: () => 0.35 },
    { name: 'Viana and others (2003)', slope: 'straight down', bores: '262 published experiments, their formula for a buoyancy Reynolds number above 200', froude: viana },
];

/** 0.825 + 0.25 √sin θ, θ being the slope down, rad. */
export const wisner = (slope: number): number => 0.825 + 0.25 * Math.sqrt(Math.sin(slope));
/** Q²/gD⁵ = tan θ / 0.71, which is v/√(gD) = 1.511 √tan θ: 1.511 = 4 / (π √0.71). */
export const kalinske = (slope: number): number => (4 / Math.PI) * Math.sqrt(Math.tan(slope) / 0.71);

/**
 * Fr = 0.34 / (1 + 3805 / Eo^3.06)^0.58 for R > 200, with Eo = ρ g D²/σ and R = √(D³ g)/ν, the gas being without weight. (Viana, Pardo, Yánez,
 * Trallero and Joseph, J. Fluid Mech. 494, 2003.) For thicker liquids their formula is not used here.
 */
export function viana(bore: number, { density, viscosity, tension }: Fluid): number | undefined {
    const eotvos = density * GRAVITY * bore ** 2 / tension;
    return Math.sqrt(bore ** 3 * GRAVITY) / viscosity > 200 ? 0.34 / (1 + 3805 / eotvos ** 3.06) ** 0.58 : undefined;
}

/** The bore up to which a long bubble does not rise by itself in an upright tube, m: Bretherton (1961), D = 2 √(0.842 σ/(ρ g)), from memory. */
export const boreWithoutRise = ({ density, tension }: Fluid): number => 2 * Math.sqrt(0.842 * tension / (density * GRAVITY));

export interface Sweeping {
    /** Every law that says something of this bore, the least demanding first. */
    readonly laws: readonly Law[];
    /**
     * `stays` below every law and the trade's rule, where the one law that counts surface tension and viscosity speaks too: without it
     * a narrow pipe would be thought to hold what it does not. Else it may stay. That it is gone is never said.
     */
    readonly bubble: 'stays' | 'may stay';
    /** Whether a bubble rises by itself in so wide a tube, for then alone can it go up against the flow. */
    readonly rises: boolean;
}

/** What the laws say of a bubble at a crest of this bore (m) while liquid moves past it at this speed (m/s). */
export function sweep(bore: number, speed: number, fluid: Fluid): Sweeping {
    const laws = SOURCES.flatMap(({ froude, ...source }): Law[] => {
        const ratio = froude(bore, fluid);
        return ratio === undefined ? [] : [{ ...source, speed: ratio * Math.sqrt(GRAVITY * bore) }];
    }).sort((a, b) => a.speed - b.speed);
    const rises = bore > boreWithoutRise(fluid);
    return { laws, rises, bubble: rises && viana(bore, fluid) !== undefined && speed < SWEEP && laws.every((law) => speed < law.speed) ? 'stays' : 'may stay' };
}
