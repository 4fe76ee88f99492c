/**
 * How fuel swells with warmth: the volume correction for petroleum products of API MPMS 11.1 / ASTM D1250, base 15 °C, with the constants of
 * 1980 (Table 54B) and the edges 770, 787.5 and 838.5 kg/m³, as many public programs have them; the text was not read. Other public
 * programs put the edges at 770.9, 788.0 and 838.7 and differ there by 1.4 parts in 100 000 at 60 °C. Paraffinic (renewable) diesel has constants
 * of its own in EN 15940, which were not found: by these it swells some 15 % more than the 0.7 kg/m³ a kelvin that is remembered of it.
 */

/** K, where densities and volumes are told. */
export const BASE = 288.15;

/** Products that the constants were made for, kg/m³ at 15 °C; the lightest from memory. */
const [LIGHTEST, HEAVIEST] = [653, 1075];

/** 1/K at 15 °C, α = A + K1/ρ + K0/ρ² with ρ in kg/m³. */
export interface Expansivity {
    readonly a: number;
    readonly k1: number;
    readonly k0: number;
}

/** The constants for a product: A only between petrol and jet fuel. At an edge the heavier band counts. Undefined where no product is so light or so heavy. */
export function expansivityOf(density: number): Expansivity | undefined {
    if (!(density >= LIGHTEST && density <= HEAVIEST)) return undefined;
    if (density < 770) return { a: 0, k1: 0.4388, k0: 346.4228 };
    if (density < 787.5) return { a: -0.00336312, k1: 0, k0: 2680.3206 };
    return density < 838.5 ? { a: 0, k1: 0, k0: 594.5418 } : { a: 0, k1: 0.4862, k0: 186.9696 };
}

/**
 * The volume that a litre has at 15 °C if it is one litre at a temperature (K): exp(-α Δ (1 + 0.8 α Δ)) with Δ = T - 288.15. `density` in
 * kg/m³ at 15 °C; undefined where no product is so light or so heavy.
 */
export function volumeCorrection(density: number, kelvin: number): number | undefined {
    const by = expansivityOf(density);
    if (!by || !Number.isFinite(kelvin)) return undefined;
    const swelling = (by.a + by.k1 / density + by.k0 / density ** 2) * (kelvin - BASE);
    return Math.exp(-swelling * (1 + 0.8 * swelling));
}

/** kg/m³ at a temperature (K), of what has `density` at 15 °C. */
export function densityAt(density: number, kelvin: number): number | undefined {
    const correction = volumeCorrection(density, kelvin);
    return correction === undefined ? undefined : density * correction;
}

/** What a volume (m³) at one temperature (K) becomes at another, of a product of `density` (kg/m³ at 15 °C). */
export function volumeAt(volume: number, density: number, from: number, to: number): number | undefined {
    const [before, after] = [volumeCorrection(density, from), volumeCorrection(density, to)];
    return before === undefined || after === undefined ? undefined : volume * before / after;
}
