/** The fuel as it flows, at the coldest and at the warmest of the envelope: its density, and its viscosity by Walther's line. */
import type { CurvePoint } from '../../../model/measure';
import { estimateOf, exactly } from '../../../analysis/estimate';
import { BASE, expansivityOf } from '../../../analysis/flow/density';
import { fluidAt, fuelTemperature, viscosityBasis, type Warmth } from '../../../analysis/flow/fluid';
import { GRADES, MEASURED_AT } from '../../../analysis/flow/grades';
import { LEAST, zOf } from '../../../analysis/flow/viscosity';
import { burnsFuel, type View } from '../../../checks/check';
import { fromSI } from '../../../model/units';
import { figure } from '../../../model/words';
import { input, type Input, type Step, type Working } from '../working';
import { sub } from './tanks';

export const fuelWorkings = (view: View): Working[] => (view.boat.consumers.some((consumer) => burnsFuel(view, consumer)) ? (['cold', 'warm'] as const).flatMap((warmth) => [densityWorking(view, warmth), viscosityWorking(view, warmth)]) : []);

const WORDS: Readonly<Record<Warmth, string>> = { cold: 'coldest', warm: 'warmest' };
const degC = (kelvin: number): string => `${Number(fromSI(kelvin, 'degC').toFixed(1))} °C`;

function temperature({ boat: { vessel } }: View, warmth: Warmth): { readonly kelvin: number; readonly input: Input } {
    const { kelvin, taken } = fuelTemperature(vessel, warmth);
    return { kelvin, input: { symbol: 'T', what: `temperature of the fuel, the ${WORDS[warmth]}`, value: exactly(kelvin), unit: 'degC', from: taken === undefined ? { about: 'vessel', fact: 'envelope fuel' } : { taken } } };
}

const gradeOf = ({ boat: { vessel } }: View): (typeof GRADES)[keyof typeof GRADES] => GRADES[vessel.fuel.grade ?? 'diesel'];

export function densityWorking(view: View, warmth: Warmth = 'cold'): Working {
    const { kelvin, input: warm } = temperature(view, warmth);
    const { density, lightest, heaviest } = fluidAt(view.boat.vessel, 'diesel', kelvin);
    const { density: stated } = view.boat.vessel.fuel;
    const grade = gradeOf(view);
    const at15 = stated ? stated.si : grade.density.si;
    const by = expansivityOf(at15);
    const base = input('ρ₀', 'density at 15 °C', stated ?? at15, 'kg/m3', stated ? { about: 'vessel', fact: 'fuel density' } : { taken: `${grade.density.si} kg/m³, an ordinary ${grade.name} (${grade.standard}: ${grade.density.least} to ${grade.density.most} kg/m³)` });
    const shared = { id: `density, ${WORDS[warmth]}`, about: 'vessel', what: `The density of the fuel at ${degC(kelvin)}`, result: { symbol: 'ρ', value: { si: density, least: lightest, most: heaviest }, unit: 'kg/m3' }, missing: [] };
    const own = { ...base, value: stated ? base.value : grade.density };
    if (!by) return { ...shared, formula: 'ρ = ρ₀', source: 'no constants are known for a product as light or as heavy', inputs: [own], steps: [], notes: ['How it swells is left out.'] };
    const { a, k1, k0 } = by;
    const terms = [...(a === 0 ? [] : [`−${-a}`]), ...(k1 === 0 ? [] : [`${k1} / ρ₀`]), `${k0} / ρ₀²`];
    const alpha = a + k1 / at15 + k0 / at15 ** 2;
    const swell = alpha * (kelvin - BASE);
    return {
        ...shared, formula: 'ρ = ρ₀ × VCF', source: 'volume correction of API MPMS 11.1 / ASTM D1250, by the constants that public programs have; the text was not read', inputs: [own, warm],
        steps: [
            { symbol: 'α', what: 'swelling at 15 °C, in 1/K', formula: `α = ${terms.join(' + ')}`, value: alpha, unit: '1' },
            { symbol: 'Δ', what: 'K over 15 °C', formula: 'Δ = T − 288.15', value: kelvin - BASE, unit: '1' },
            { symbol: 'VCF', what: 'what a litre at this temperature has at 15 °C, in litres', formula: 'VCF = exp(−α × Δ × (1 + 0.8 × α × Δ))', value: Math.exp(-swell * (1 + 0.8 * swell)), unit: '1' },
        ],
        notes: [],
    };
}

const WALTHER = 'Walther\'s line, as ASTM D341 has it; the text was not read';
const LOG_LOG = (z: number): number => Math.log10(Math.log10(z));
/** Z is a little more than ν + 0.7 below this, mm²/s. */
const SIMPLE = 2;

export function viscosityWorking(view: View, warmth: Warmth = 'cold'): Working {
    const { vessel } = view.boat;
    const { kelvin, input: warm } = temperature(view, warmth);
    const { viscosity, thinnest, thickest } = fluidAt(vessel, 'diesel', kelvin);
    const grade = gradeOf(view);
    const points = viscosityBasis(vessel.fuel.viscosity, kelvin);
    const known = points.length > 0 ? points.map((point, i) => statedInputs(point, i)) : [takenInputs(view)];
    const steps: Step[] = known.flatMap(({ nu }, i) => pointSteps(nu, i));
    const [first, second] = known;
    const w = ({ nu }: { readonly nu: number }): number => LOG_LOG(zOf(nu * 1e6));
    const slope = second ? (w(first!) - w(second)) / (Math.log10(second.kelvin) - Math.log10(first!.kelvin)) : grade.slope;
    if (second) steps.push({ symbol: 'b', what: 'slope of the line', formula: 'b = (W₁ − W₂) / (log(T₂) − log(T₁))', value: slope, unit: '1' });
    const at = w(first!) - slope * (Math.log10(kelvin) - Math.log10(first!.kelvin));
    const n = 10 ** 10 ** at - 0.7;
    steps.push(
        { symbol: 'W', what: 'log log Z at this temperature', formula: 'W = W₁ − b × (log(T) − log(T₁))', value: at, unit: '1' },
        { symbol: 'n', what: 'Z − 0.7, mm²/s', formula: 'n = 10^(10^W) − 0.7', value: n, unit: '1' },
    );
    const isThin = n < SIMPLE - 1e-9;
    return {
        id: `viscosity, ${WORDS[warmth]}`, about: 'vessel', what: `The kinematic viscosity of the fuel at ${degC(kelvin)}`, source: WALTHER, steps, missing: [],
        formula: isThin ? 'ν = (n − exp(−0.7487 − 3.295 × n + 0.6119 × n² − 0.3193 × n³)) / 10^6' : 'ν = n / 10^6',
        inputs: [...known.flatMap(({ inputs }) => inputs), ...(second ? [] : [{ symbol: 'b', what: 'slope of the line', value: exactly(grade.slope), unit: '1', from: { taken: `${figure(grade.slope)}, as steep as ${grade.name}, common practice` } }]), warm],
        result: { symbol: 'ν', value: { si: viscosity, least: thinnest, most: thickest }, unit: 'mm2/s' },
        notes: points.length === 1 && vessel.fuel.viscosity.length > 1 ? ['The other points that are stated contradict it, or say the same.'] : [],
    };
}

interface Known {
    readonly inputs: readonly Input[];
    /** m²/s and K. */
    readonly nu: number;
    readonly kelvin: number;
}

function statedInputs({ value, at }: CurvePoint, i: number): Known {
    const from = { about: 'vessel', fact: 'fuel viscosity' };
    return {
        nu: value.si, kelvin: at.si,
        inputs: [{ symbol: `ν${sub(i + 1)}`, what: 'a viscosity that is stated', value: estimateOf(value), unit: 'mm2/s', from }, { symbol: `T${sub(i + 1)}`, what: 'its temperature', value: exactly(at.si), unit: 'degC', from }],
    };
}

function takenInputs(view: View): Known {
    const { name, standard, viscosity } = gradeOf(view);
    const from = { taken: `${figure(viscosity.si * 1e6)} mm²/s, an ordinary ${name} (${standard}: ${figure(viscosity.least * 1e6)} to ${figure(viscosity.most * 1e6)} mm²/s at 40 °C)` };
    return {
        nu: viscosity.si, kelvin: MEASURED_AT,
        inputs: [{ symbol: 'ν₁', what: 'viscosity at 40 °C', value: viscosity, unit: 'mm2/s', from }, { symbol: 'T₁', what: 'the temperature at which standards limit it', value: exactly(MEASURED_AT), unit: 'degC', from: { cited: standard } }],
    };
}

function pointSteps(nu: number, i: number): Step[] {
    const [n, z] = [Math.max(nu, LEAST) * 1e6, sub(i + 1)];
    const more = n >= SIMPLE ? '' : ` + exp(−1.47 − 1.84 × ν${z} × 10^6 − 0.51 × (ν${z} × 10^6)²)`;
    return [
        { symbol: `Z${z}`, what: 'Z, by the viscosity in mm²/s', formula: `Z${z} = ν${z} × 10^6 + 0.7${more}`, value: zOf(n), unit: '1' },
        { symbol: `W${z}`, what: 'log log Z', formula: `W${z} = log(log(Z${z}))`, value: LOG_LOG(zOf(n)), unit: '1' },
    ];
}
