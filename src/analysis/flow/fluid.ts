/** What a tank carries, as it flows at a temperature: by what is stated of it, else by its grade; and what was taken because nothing is said. */
import type { Carries, Vessel } from '../../model/boat';
import type { CurvePoint } from '../../model/measure';
import { fromSI } from '../../model/units';
import { figure } from '../../model/words';
import { estimateOf, type Estimate } from '../estimate';
import { densityAt } from './density';
import { GRADES, MEASURED_AT, type Grade } from './grades';
import { LEAST, throughOne, throughTwo, viscosityAt, type ViscosityPoint } from './viscosity';
import { glycolDensity, glycolViscosity, waterDensity, waterTension, waterViscosity } from './water';

export interface Fluid {
    /** kg/m³. */
    readonly density: number;
    /** Kinematic, m²/s. */
    readonly viscosity: number;
    /** Against air, N/m. */
    readonly tension: number;
}

/** A liquid at a temperature, and how far off it could be. */
export interface KnownFluid extends Fluid {
    /** The ends of the band in which the viscosity lies, m²/s. */
    readonly thinnest: number;
    readonly thickest: number;
    /** The ends of the band in which the density lies, kg/m³. */
    readonly lightest: number;
    readonly heaviest: number;
    /** What was taken, and from where: sentences without their full stop, as a list of defaults has them. */
    readonly taken: readonly string[];
    /** The facts of the vessel that it rests on where they are stated, in the words of the vocabulary. */
    readonly facts: readonly string[];
}

/** Cold liquid is thick and fills slowly; warm liquid is thin and runs out fast. Ask for what errs on the safe side. */
export type Warmth = 'cold' | 'warm';

/** K, common practice: fuel in a boat that lies in the sea, and fuel warmed by an engine; everything else as it stands and as it runs. */
const FUEL: Readonly<Record<Warmth, number>> = { cold: 281.15, warm: 313.15 };
const OTHERS: Readonly<Record<Warmth, number>> = { cold: 293.15, warm: 343.15 };

/** N/m, from memory: fuels, and half water, half glycol. */
const FUEL_TENSION = 0.027;
const GLYCOL_TENSION = 0.057;

/** A viscosity that was measured once is good to so much either way, at other temperatures too: common practice. */
const ONE_POINT = 0.05;
/** Between these a line through two points is one of a fuel; by any other the points contradict each other. Common practice. */
const SLOPES: readonly [number, number] = [2, 8];

/**
 * At the coldest of the envelope, as an ordinary fuel of its kind; at the warmest, which is asked for where much may run out, as thin and as heavy as
 * it may be. Where the envelope states no temperature of the fuel, 8 °C and 40 °C. What is not said carries diesel.
 */
export function fluidOf(vessel: Vessel, carries: Carries = 'diesel', warmth: Warmth = 'cold'): KnownFluid {
    if (carries !== 'diesel') return liquid(vessel, carries, OTHERS[warmth], warmth === 'warm');
    const { kelvin, taken } = fuelTemperature(vessel, warmth);
    const fluid = liquid(vessel, carries, kelvin, warmth === 'warm');
    return { ...fluid, facts: [...fluid.facts, 'envelope fuel'], taken: [...fluid.taken, ...(taken === undefined ? [] : [taken])] };
}

/** The coldest or the warmest of the envelope, K; and what was taken where it states none. */
export function fuelTemperature({ envelope: { fuel: stated } }: Vessel, warmth: Warmth): { readonly kelvin: number; readonly taken?: string } {
    if (stated) return { kelvin: (warmth === 'cold' ? stated.low : stated.high) ?? stated.si };
    return { kelvin: FUEL[warmth], taken: `the ${warmth}est fuel is taken as ${degC(FUEL[warmth])} (common practice)` };
}

/** At one temperature (K), as an ordinary fuel of its kind. */
export const fluidAt = (vessel: Vessel, carries: Carries = 'diesel', kelvin: number): KnownFluid => liquid(vessel, carries, kelvin, false);

function liquid(vessel: Vessel, carries: Carries, kelvin: number, worst: boolean): KnownFluid {
    return carries === 'diesel' ? fuel(vessel, kelvin, worst) : water(carries, kelvin, worst);
}

function fuel({ fuel: { grade, density, viscosity } }: Vessel, kelvin: number, worst: boolean): KnownFluid {
    const by = GRADES[grade ?? 'diesel'];
    const weight = density ? estimateOf(density) : by.density;
    const at = (base: number): number => densityAt(base, kelvin) ?? base;
    const { si, least, most, source } = flowing(viscosity, by, kelvin);
    const [heavy, thin] = worst ? [weight.most, least] : [weight.si, si];
    const why = (end: string): string => (worst ? `the ${end} that it may be` : 'common practice');
    return {
        density: at(heavy), lightest: at(weight.least), heaviest: at(weight.most), viscosity: thin, thinnest: least, thickest: most, tension: FUEL_TENSION, facts: ['runs on', 'fuel density', 'fuel viscosity'],
        taken: [
            ...(density ? [] : [`${by.name} is taken as ${figure(heavy)} kg/m³ at 15 °C (${why('heaviest')}; ${by.standard}: ${by.density.least} to ${by.density.most})`]),
            ...(source === undefined ? [] : [`${by.name} at ${degC(kelvin)} is taken as ${mm2(thin)} (${why('thinnest')}; ${source})`]),
        ],
    };
}

interface Flowing extends Estimate {
    /** What it rests on besides what is stated. */
    readonly source?: string;
}

/** The viscosity at a temperature by the points that are stated, and where there are none by the grade. */
function flowing(points: readonly CurvePoint[], grade: Grade, kelvin: number): Flowing {
    const basis = viscosityBasis(points, kelvin);
    if (basis.length === 2) return byTwo(basis as [CurvePoint, CurvePoint], kelvin);
    const [nearest] = basis;
    const byOne = (viscosity: number, at: number): number => viscosityAt(throughOne({ viscosity, kelvin: at }, grade.slope)!, kelvin) ?? viscosity;
    if (nearest) {
        const { si, least, most } = estimateOf(nearest.value);
        const [thin, thick] = [Math.max(LEAST, Math.min(least, si * (1 - ONE_POINT))), Math.max(most, si * (1 + ONE_POINT))];
        return {
            si: byOne(si, nearest.at.si), least: byOne(thin, nearest.at.si), most: byOne(thick, nearest.at.si),
            source: `by ${mm2(si)} at ${degC(nearest.at.si)}, ${soundOf(points).length > 1 ? 'since the points that are stated contradict each other, ' : ''}as steep as ${grade.name}, ${ONE_POINT * 100} % either way`,
        };
    }
    const { si, least, most } = grade.viscosity;
    return {
        si: byOne(si, MEASURED_AT), least: byOne(least, MEASURED_AT), most: byOne(most, MEASURED_AT),
        source: `${grade.standard}: ${(least * 1e6).toFixed(1)} to ${mm2(most)} at ${degC(MEASURED_AT)}`,
    };
}

/** Points that a line can go through, by their temperatures, each temperature once. */
const soundOf = (points: readonly CurvePoint[]): readonly CurvePoint[] => points.filter(({ value, at }) => throughOne({ viscosity: value.si, kelvin: at.si }, GRADES.diesel.slope))
    .filter(({ at }, i, all) => all.findIndex((other) => other.at.si === at.si) === i).toSorted((a, b) => a.at.si - b.at.si);

/**
 * The points of those stated by which the viscosity at a temperature (K) is told: the two between which it lies, else the two next to it; the nearest alone
 * where there is one, or where they contradict each other; none, where the grade has to tell.
 */
export function viscosityBasis(points: readonly CurvePoint[], kelvin: number): readonly CurvePoint[] {
    const sound = soundOf(points);
    const colder = sound.filter(({ at }) => at.si < kelvin).length;
    const [before, after] = sound.slice(Math.max(0, Math.min(colder - 1, sound.length - 2))) as [CurvePoint?, CurvePoint?];
    const line = before && after && throughTwo({ viscosity: before.value.si, kelvin: before.at.si }, { viscosity: after.value.si, kelvin: after.at.si });
    if (line && line.b >= SLOPES[0] && line.b <= SLOPES[1] && viscosityAt(line, kelvin) !== undefined) return [before, after];
    return sound.toSorted((a, b) => Math.abs(a.at.si - kelvin) - Math.abs(b.at.si - kelvin)).slice(0, 1);
}

function byTwo([before, after]: readonly [CurvePoint, CurvePoint], kelvin: number): Flowing {
    const end = ({ value, at }: CurvePoint, which: keyof Estimate): ViscosityPoint => ({ viscosity: Math.max(LEAST, estimateOf(value)[which]), kelvin: at.si });
    const lines = (['si', 'least', 'most'] as const).map((which) => throughTwo(end(before, which), end(after, which)));
    const [si, ...rest] = lines.flatMap((line) => (line && viscosityAt(line, kelvin)) ?? []) as [number, ...number[]];
    // Beyond the points the ends may cross.
    return { si, least: Math.min(si, ...rest), most: Math.max(si, ...rest) };
}

function water(carries: Exclude<Carries, 'diesel'>, kelvin: number, worst: boolean): KnownFluid {
    const [density, viscosity, tension] = [waterDensity(kelvin), waterViscosity(kelvin), waterTension(kelvin)];
    const pure = { density, viscosity, tension, thinnest: viscosity, thickest: viscosity, lightest: density, heaviest: density, facts: [] };
    if (carries !== 'coolant') return { ...pure, taken: [`${carries} is taken as water at ${degC(kelvin)} (handbook value)`] };
    const [thickest, heaviest] = [glycolViscosity(kelvin), glycolDensity(kelvin)];
    return {
        ...pure, thickest, heaviest, density: heaviest, ...(!worst && { viscosity: thickest, tension: GLYCOL_TENSION }),
        taken: [worst ? `coolant is taken as water at ${degC(kelvin)} (handbook value; antifreeze makes it thicker)` : `coolant is taken as half water, half glycol, at ${degC(kelvin)} (handbook value; less antifreeze makes it thinner)`],
    };
}

const degC = (kelvin: number): string => `${Number(fromSI(kelvin, 'degC').toFixed(1))} °C`;
const mm2 = (viscosity: number): string => `${(viscosity * 1e6).toFixed(1)} mm²/s`;
