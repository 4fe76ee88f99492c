/**
 * How the viscosity of a petroleum liquid changes with its temperature: Walther's line, as ASTM D341 has it, log₁₀ log₁₀ Z = a - b log₁₀ T
 * with T in K. The text of D341 was not read: the formulas stand in many public places, and agree there.
 */

/** Kinematic viscosity (m²/s) at a temperature (K). */
export interface ViscosityPoint {
    readonly viscosity: number;
    readonly kelvin: number;
}

/** A line on the chart of D341. The slope `b` of diesel fuels lies near 4. */
export interface Walther {
    readonly a: number;
    readonly b: number;
}

const MM2 = 1e-6;

/** Z for a viscosity and the viscosity for Z: from here on, mm²/s, Z is 0.7 more; below it is a little more than that. */
const SIMPLE = 2;

/** Below this, m²/s, the formula does not hold (log log Z comes to its end); D341 begins here too, from memory. */
export const LEAST = 0.21e-6;

/** Z of a viscosity in mm²/s: ν + 0.7 for ν ≥ 2, ν + 0.7 + exp(-1.47 - 1.84 ν - 0.51 ν²) below. */
export const zOf = (nu: number): number => nu + 0.7 + (nu >= SIMPLE ? 0 : Math.exp(-1.47 - 1.84 * nu - 0.51 * nu ** 2));

/** The viscosity in mm²/s of Z; below 2 mm²/s by the published inverse, which is good to 2 parts in 10 000. */
export function ofZ(z: number): number {
    const nu = z - 0.7;
    // What comes back from two logarithms is not the 2 that went in.
    return nu >= SIMPLE - 1e-9 ? nu : nu - Math.exp(-0.7487 - 3.295 * nu + 0.6119 * nu ** 2 - 0.3193 * nu ** 3);
}

const logLog = (viscosity: number): number => Math.log10(Math.log10(zOf(viscosity / MM2)));

const isPoint = ({ viscosity, kelvin }: ViscosityPoint): boolean => Number.isFinite(viscosity) && viscosity >= LEAST && Number.isFinite(kelvin) && kelvin > 0;

/** The line through two points. Undefined where they are at one temperature, or one of them is below 0.21 mm²/s. */
export function throughTwo(one: ViscosityPoint, other: ViscosityPoint): Walther | undefined {
    if (!isPoint(one) || !isPoint(other) || one.kelvin === other.kelvin) return undefined;
    return throughOne(one, (logLog(one.viscosity) - logLog(other.viscosity)) / (Math.log10(other.kelvin) - Math.log10(one.kelvin)));
}

/** The line of a given slope through one point. Undefined where the point is below 0.21 mm²/s. */
export function throughOne(point: ViscosityPoint, b: number): Walther | undefined {
    return isPoint(point) && Number.isFinite(b) ? { a: logLog(point.viscosity) + b * Math.log10(point.kelvin), b } : undefined;
}

/** m²/s at a temperature (K). Undefined where the line has left every number behind. */
export function viscosityAt({ a, b }: Walther, kelvin: number): number | undefined {
    const viscosity = ofZ(10 ** 10 ** (a - b * Math.log10(kelvin))) * MM2;
    return kelvin > 0 && Number.isFinite(viscosity) ? viscosity : undefined;
}
