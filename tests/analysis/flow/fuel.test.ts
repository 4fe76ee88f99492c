/** Viscosity and density of liquids by temperature. Each number beside its source or its sum. */
import { describe, expect, test } from 'vitest';
import { densityAt, volumeAt, volumeCorrection } from '../../../src/analysis/flow/density';
import { fluidAt, fluidOf } from '../../../src/analysis/flow/fluid';
import { GRADES } from '../../../src/analysis/flow/grades';
import { ofZ, throughOne, throughTwo, viscosityAt, zOf, type Walther } from '../../../src/analysis/flow/viscosity';
import { glycolDensity, glycolViscosity } from '../../../src/analysis/flow/water';
import { NO_VESSEL } from '../../../src/language/lowering/vessel';
import type { Fuel, Vessel } from '../../../src/model/boat';
import type { CurvePoint, Measure } from '../../../src/model/measure';
import { load } from '../../checks/boats';

const KELVIN = 273.15;
const point = (mm2: number, celsius: number): { viscosity: number; kelvin: number } => ({ viscosity: mm2 * 1e-6, kelvin: celsius + KELVIN });
const at = (line: Walther | undefined, celsius: number): number => viscosityAt(line!, celsius + KELVIN)! * 1e6;

describe('Walther\'s line', () => {
    // A worked example in a textbook of lubrication: 32 mm²/s at 40 °C, 5.4 at 100 °C, T = t + 273: A 9.5259, B 3.7449, 8.5 mm²/s at 80 °C.
    test('the published example', () => {
        const line = throughTwo({ viscosity: 32e-6, kelvin: 313 }, { viscosity: 5.4e-6, kelvin: 373 })!;
        expect(line.a).toBeCloseTo(9.5259, 4);
        expect(line.b).toBeCloseTo(3.7449, 4);
        expect(viscosityAt(line, 353)! * 1e6).toBeCloseTo(8.5, 1);
    });

    // Reckoned outside with Z = ν + 0.7, log log Z = A - B log T: 4.0 at 20 °C and 2.6 at 40 °C give A 9.5255387, B 3.9309902.
    test.each([[-10, 9.9514], [0, 7.0143], [5, 6.0024], [10, 5.1931], [15, 4.5375], [25, 3.5547]])('a diesel of 4.0 at 20 °C and 2.6 at 40 °C, at %d °C: %d', (celsius, expected) => {
        const line = throughTwo(point(4, 20), point(2.6, 40))!;
        expect(line.a).toBeCloseTo(9.5255387, 6);
        expect(line.b).toBeCloseTo(3.9309902, 6);
        expect(at(line, celsius)).toBeCloseTo(expected, 4);
        expect(at(throughOne(point(2.6, 40), 3.9309902), celsius)).toBeCloseTo(expected, 4);
    });
    // The same way, by 1.8498 with the simple Z at 60 °C: the whole form takes exp(-0.7487 - 3.295 x 1.8498 + 0.6119 x 3.4218 - 0.3193 x 6.3296) = exp(-6.7711) = 0.00115 off: 1.84865.
    test('below 2 mm²/s Z is more than 0.7 more', () => expect(at(throughTwo(point(4, 20), point(2.6, 40)), 60)).toBeCloseTo(1.84865, 4));

    // Z of 1.2 is 1.9 + exp(-1.47 - 2.208 - 0.7344) = 1.912126. log log 3.7 - log log 1.912126 = -0.245497 + 0.550496 = 0.304999; log(373.15/313.15) = 0.076131: B 4.00623.
    test('through a point below and one above 2 mm²/s it goes through both', () => {
        const line = throughTwo(point(3, 40), point(1.2, 100));
        expect(line!.b).toBeCloseTo(4.00623, 4);
        expect(at(line, 40)).toBeCloseTo(3, 9);
        expect(at(line, 100)).toBeCloseTo(1.2, 3);
    });

    // Reckoned outside from the two published formulas.
    test.each([[0.5, 0.50005], [1, 0.99995], [2, 2], [5, 5], [40, 40]])('there and back: %d becomes %d', (nu, expected) => expect(ofZ(zOf(nu))).toBeCloseTo(expected, 5));
    // exp(-1.47 - 1.84 - 0.51) = exp(-3.82) = 0.021928.
    test('Z of 1 mm²/s is 1.721928, of 3 it is 3.7', () => expect([zOf(1), zOf(3)].map((z) => Number(z.toFixed(6)))).toEqual([1.721928, 3.7]));
    test('thinner with warmth, everywhere', () => {
        const line = throughTwo(point(4, 20), point(2.6, 40));
        for (let celsius = -40; celsius < 120; celsius += 0.5) expect(at(line, celsius + 0.5)).toBeLessThan(at(line, celsius));
    });
    test('no line through what is no point, and no number that is none', () => {
        expect(throughTwo(point(4, 20), point(2.6, 20))).toBeUndefined();
        for (const nu of [0, -1, 0.1, NaN, Infinity]) expect([throughOne(point(nu, 40), 4), throughTwo(point(nu, 40), point(3, 20))]).toEqual([undefined, undefined]);
        expect(throughOne(point(3, -300), 4)).toBeUndefined();
        expect(viscosityAt({ a: 1e3, b: 4 }, 300)).toBeUndefined();
        expect(viscosityAt({ a: 9.5, b: 3.9 }, 0)).toBeUndefined();
    });
});

describe('the volume correction', () => {
    // Reckoned outside by exp(-α Δ (1 + 0.8 α Δ)), the constants of Table 54B in several public programs: α in 1/K, then the factor at each temperature.
    test.each([
        [820, [1.021952, 1.013209, 1.008818, 0.995573, 0.991135, 0.977755, 0.959775]], [835, [1.021176, 1.012740, 1.008505, 0.995731, 0.991451, 0.978552, 0.961221]],
        [840, [1.020955, 1.012607, 1.008416, 0.995776, 0.991541, 0.978778, 0.961632]], [845, [1.020794, 1.012510, 1.008351, 0.995809, 0.991607, 0.978943, 0.961932]],
    ])('of %d kg/m³', (density, expected) => [-10, 0, 5, 20, 25, 40, 60].forEach((celsius, i) => expect(volumeCorrection(density, celsius + KELVIN)).toBeCloseTo(expected[i]!, 6)));

    // The same source; 845 at 8 °C: 0.00083724 x 7 = 0.0058607, exp(0.0058607 x (1 - 0.8 x 0.0058607)) = 1.0058502, 849.943; 840: 0.00084379, 1.0058959, 844.953.
    test.each([[840, 20, 836.452], [840, 25, 832.895], [840, 40, 822.173], [840, 15, 840], [845, 8, 849.943], [840, 8, 844.953]])('%d kg/m³ at %d °C are %d', (density, celsius, expected) => expect(densityAt(density, celsius + KELVIN)).toBeCloseTo(expected, 3));

    test('1000 L at 15 °C are 1021.68 L at 40 °C, and back', () => {
        const warm = volumeAt(1, 840, 15 + KELVIN, 40 + KELVIN)!;
        expect(warm * 1e3).toBeCloseTo(1021.68, 2);
        expect(volumeAt(warm, 840, 40 + KELVIN, 15 + KELVIN)).toBeCloseTo(1, 12);
        // 0.991541/0.978778 = 1.013040.
        expect(volumeAt(1, 840, 25 + KELVIN, 40 + KELVIN)).toBeCloseTo(1.01304, 5);
    });

    // 594.5418/838.5² = 0.000845623 and 186.9696/838.5² + 0.4862/838.5 = 0.000845772, which at 60 °C are 7e-6 apart, as the public programs have it.
    test('at the edge of 838.5 kg/m³ the bands differ by less than 1 part in 100 000 at 60 °C', () => {
        const [below, above] = [838.4999999, 838.5].map((density) => volumeCorrection(density, 60 + KELVIN)!) as [number, number];
        expect(below - above).toBeGreaterThan(5e-6);
        expect(below - above).toBeLessThan(1e-5);
    });
    // 346.4228/770² + 0.4388/770 = 0.00115416; 2680.3206/770² - 0.00336312 = 0.00115758; 2680.3206/787.5² - 0.00336312 = 0.00095891; 594.5418/787.5² = 0.00095869.
    test.each([[769.999999, 0.00115416], [770, 0.00115758], [787.499999, 0.00095891], [787.5, 0.00095869]])('%d kg/m³ swells by %d a kelvin', (density, expected) => {
        expect(-Math.log(volumeCorrection(density, 288.16)!) / 0.01).toBeCloseTo(expected, 7);
    });
    test('nothing for what is no product', () => expect([volumeCorrection(0, 300), volumeCorrection(2000, 300), volumeCorrection(NaN, 300), densityAt(840, Infinity), volumeAt(1, -5, 280, 300)]).toEqual(Array(5).fill(undefined)));
});

const measure = (si: number, more: Partial<Measure> = {}): Measure => ({ si, ...more });
const stated = (mm2: number, celsius: number, more: Partial<Measure> = {}): CurvePoint => ({ value: measure(mm2 * 1e-6, more), at: measure(celsius + KELVIN) });
const vessel = (fuel: Partial<Fuel> = {}, from?: number, to?: number): Vessel => ({
    ...NO_VESSEL, fuel: { viscosity: [], ...fuel },
    envelope: from === undefined || to === undefined ? {} : { fuel: { si: (from + to) / 2 + KELVIN, low: from + KELVIN, high: to + KELVIN } },
});
const mm2 = (viscosity: number): number => viscosity * 1e6;

describe('a fuel of which nothing is said', () => {
    test('cold: 5.5 mm²/s at 8 °C, by the line above; 845 kg/m³', () => {
        const fluid = fluidOf(NO_VESSEL);
        // 10^10^(9.5255387 - 3.9309902 log 281.15) - 0.7 = 5.50.
        expect(mm2(fluid.viscosity)).toBeCloseTo(10 ** 10 ** (9.5255387 - 3.9309902 * Math.log10(281.15)) - 0.7, 4);
        expect(mm2(fluid.viscosity)).toBeCloseTo(5.5, 1);
        expect(fluid.density).toBeCloseTo(844.953, 3);
        expect(fluid.taken).toEqual([
            'diesel is taken as 840 kg/m³ at 15 °C (common practice; EN 590: 820 to 845)', 'diesel at 8 °C is taken as 5.5 mm²/s (common practice; EN 590: 2.0 to 4.5 mm²/s at 40 °C)',
            'the coldest fuel is taken as 8 °C (common practice)',
        ]);
    });
    test('warm: as thin and as heavy as EN 590 lets it be at 40 °C', () => {
        const fluid = fluidOf(NO_VESSEL, undefined, 'warm');
        expect(mm2(fluid.viscosity)).toBeCloseTo(2, 9);
        // 845 x 0.978943 (above) = 827.207.
        expect(fluid.density).toBeCloseTo(827.207, 2);
        expect(fluid.taken).toEqual([
            'diesel is taken as 845 kg/m³ at 15 °C (the heaviest that it may be; EN 590: 820 to 845)', 'diesel at 40 °C is taken as 2.0 mm²/s (the thinnest that it may be; EN 590: 2.0 to 4.5 mm²/s at 40 °C)',
            'the warmest fuel is taken as 40 °C (common practice)',
        ]);
    });
    test('the band at 40 °C is that of EN 590, and opens out in the cold', () => {
        const warm = fluidAt(NO_VESSEL, 'diesel', 313.15);
        expect([warm.thinnest, warm.viscosity, warm.thickest].map((nu) => Number(mm2(nu).toFixed(6)))).toEqual([2, 2.6, 4.5]);
        const cold = fluidAt(NO_VESSEL, 'diesel', 273.15);
        expect(cold.thickest - cold.thinnest).toBeGreaterThan(warm.thickest - warm.thinnest);
    });
    test('the temperatures of the envelope count where they are stated', () => {
        // 6.0024 at 5 °C, by the line above.
        expect(mm2(fluidOf(vessel({}, 5, 45)).viscosity)).toBeCloseTo(6.0024, 3);
        expect(fluidOf(vessel({}, 5, 45)).taken).toHaveLength(2);
        // Z of 2.0 is 2.7. log log 2.7 = -0.365156; less 3.9309902 x log(318.15/313.15) = 0.027043: Z 2.542858, ν 1.842858 - exp(-6.7412) = 1.84168.
        expect(mm2(fluidOf(vessel({}, 5, 45), 'diesel', 'warm').viscosity)).toBeCloseTo(1.84168, 4);
        expect(fluidOf({ ...NO_VESSEL, envelope: { fuel: measure(293.15) } }).viscosity * 1e6).toBeCloseTo(4, 4);
    });
});

describe('what is stated of the fuel', () => {
    test('its density, at 15 °C', () => {
        const fluid = fluidAt(vessel({ density: measure(835) }), 'diesel', 313.15);
        // 835 x 0.978552 (above) = 817.091.
        for (const found of [fluid.density, fluid.lightest, fluid.heaviest]) expect(found).toBeCloseTo(817.091, 2);
        expect(fluid.taken.filter((words) => words.includes('kg/m³'))).toEqual([]);
        const range = fluidAt(vessel({ density: measure(835, { low: 830, high: 840 }) }), 'diesel', 288.15);
        expect([range.lightest, range.density, range.heaviest]).toEqual([830, 835, 840]);
        const about = fluidAt(vessel({ density: measure(800, { about: true }) }), 'diesel', 288.15);
        expect([about.lightest, about.heaviest].map(Math.round)).toEqual([720, 880]);
    });
    test('its viscosity at two points: the line through them, and nothing is taken', () => {
        const fluid = fluidAt(vessel({ density: measure(840), viscosity: [stated(2.6, 40), stated(4, 20)] }), 'diesel', 273.15);
        // 7.0143 at 0 °C, by the line above.
        for (const found of [fluid.viscosity, fluid.thinnest, fluid.thickest]) expect(mm2(found)).toBeCloseTo(7.0143, 4);
        expect(fluid.taken).toEqual([]);
    });
    test('at three points: through the two beside the temperature', () => {
        const points = [stated(4, 20), stated(7.5, 0), stated(2.6, 40)];
        const found = (celsius: number): number => mm2(fluidAt(vessel({ viscosity: points }), 'diesel', celsius + KELVIN).viscosity);
        expect(found(25)).toBeCloseTo(3.5547, 4);
        expect(found(50)).toBeCloseTo(at(throughTwo(point(4, 20), point(2.6, 40)), 50), 9);
        expect(found(-5)).toBeCloseTo(at(throughTwo(point(7.5, 0), point(4, 20)), -5), 9);
        expect([found(0), found(20), found(40)].map((nu) => Number(nu.toFixed(6)))).toEqual([7.5, 4, 2.6]);
    });
    test('its viscosity at one point: by the slope of the grade, 5 % either way', () => {
        const fluid = fluidAt(vessel({ viscosity: [stated(3, 40)] }), 'diesel', 313.15);
        expect([fluid.thinnest, fluid.viscosity, fluid.thickest].map((nu) => Number(mm2(nu).toFixed(6)))).toEqual([2.85, 3, 3.15]);
        // log log 3.7 = -0.245497; more by 3.9309902 x log(313.15/273.15) = 0.233309: Z 10^10^-0.012188 = 10^0.972325 = 9.3826, ν 8.6826.
        const cold = fluidAt(vessel({ viscosity: [stated(3, 40)] }), 'diesel', 273.15);
        expect(mm2(cold.viscosity)).toBeCloseTo(8.68, 2);
        expect(cold.taken.at(-1)).toBe('diesel at 0 °C is taken as 8.7 mm²/s (common practice; by 3.0 mm²/s at 40 °C, as steep as diesel, 5 % either way)');
        // A range that is wider counts.
        const range = fluidAt(vessel({ viscosity: [stated(3, 40, { low: 2.5e-6, high: 3.5e-6 })] }), 'diesel', 313.15);
        expect([range.thinnest, range.thickest].map((nu) => Number(mm2(nu).toFixed(6)))).toEqual([2.5, 3.5]);
    });
    test('points that contradict each other: the nearest counts, and it is said', () => {
        const fluid = fluidAt(vessel({ viscosity: [stated(4, 20), stated(6, 40)] }), 'diesel', 294.15);
        expect(fluid.taken.at(-1)).toContain('since the points that are stated contradict each other, as steep as diesel');
        expect(mm2(fluid.viscosity)).toBeCloseTo(at(throughOne(point(4, 20), 3.9309902), 21), 4);
    });
    test('no nonsense becomes a number that is none', () => {
        const odd = [stated(0, 40), stated(0.21, 40), stated(3, 30, { low: -1, high: 9 }), stated(3, 60, { about: true }), stated(-3, 20), stated(1e9, 40), stated(0.0001, -272), { value: measure(3e-6), at: measure(0) }, { value: measure(NaN), at: measure(300) }, stated(3, 40), stated(5, 40)];
        for (const one of odd) for (const other of odd) for (const celsius of [-40, 8, 40, 80]) {
            const { taken: _taken, facts: _facts, ...fluid } = fluidAt(vessel({ viscosity: [one, other], density: measure(celsius === 8 ? 3 : 840) }), 'diesel', celsius + KELVIN);
            expect(Object.values(fluid).filter((value) => !(Number.isFinite(value) && value > 0)), JSON.stringify([one, other])).toEqual([]);
        }
    });
    test('written in a text', async () => {
        const { boat } = await load('vessel Fuelwake {\n  runs on winter diesel\n  envelope fuel 0 to 30 degC\n  fuel density 815 kg/m3\n  fuel viscosity 4 mm2/s at 20 degC, 2.6 mm2/s at 40 degC\n}\ntank T1 carries diesel { }');
        expect(boat.vessel.fuel).toMatchObject({ grade: 'winter diesel', density: { si: 815 } });
        // 815 kg/m³: α = 594.5418/815² = 0.00089509, at 0 °C exp(0.0134263 x (1 - 0.8 x 0.0134263)) = 1.013370.
        expect(fluidOf(boat.vessel)).toMatchObject({ facts: ['runs on', 'fuel density', 'fuel viscosity', 'envelope fuel'], density: expect.closeTo(825.9, 1), viscosity: expect.closeTo(7.0143e-6, 9), taken: [] });
    });
});

describe('grades', () => {
    test('each lies within its bands, names its standard, and fluids of it say so', () => {
        for (const [name, grade] of Object.entries(GRADES)) {
            for (const { si, least, most } of [grade.density, grade.viscosity]) expect(least < si && si < most).toBe(true);
            expect(grade.name).toBe(name);
            expect(grade.standard).toMatch(/^EN \d+/);
            if (name !== 'diesel') for (const words of fluidAt(vessel({ grade: name as Exclude<typeof grade.name, 'diesel'> }), 'diesel', 300).taken) expect(words).toMatch(new RegExp(`^${name} .*is taken as .*${grade.standard}`));
        }
    });
    // By two data books (VDI Heat Atlas, Viswanath and Natarajan, as the library chemicals 1.5.2 has them) n-hexadecane, a paraffin, has 3.302 or 3.375 mPa·s at 20 °C and 2.226 or 2.251 at 40 °C;
    // its density is 773.4 and 759.6 kg/m³ there (from memory): 4.27 or 4.36 and 2.93 or 2.96 mm²/s.
    test('renewable diesel flows much as the paraffin of which it might be made', () => {
        const nominal = (celsius: number): number => mm2(fluidAt(vessel({ grade: 'renewable diesel' }), 'diesel', celsius + KELVIN).viscosity);
        expect(Math.abs(nominal(40) / nominal(20) / (2.94 / 4.32) - 1)).toBeLessThan(0.03);
    });
    // Arrhenius, ln ν = Σ x ln ν: 75 % of 2.6 and 25 % of 4.5 mm²/s: exp(0.75 x 0.955511 + 0.25 x 1.504077) = 2.98; by volume 0.75 x 840 + 0.25 x 880 = 850 kg/m³.
    test('a blend of a quarter of ester', () => {
        const fluid = fluidAt(vessel({ grade: 'biodiesel blend' }), 'diesel', 313.15);
        expect(mm2(fluid.viscosity)).toBeCloseTo(2.98, 1);
        expect(GRADES['biodiesel blend'].density.si).toBe(850);
    });
    test('winter diesel may be thinner than EN 590 has it in temperate places', () => {
        expect(mm2(fluidAt(vessel({ grade: 'winter diesel' }), 'diesel', 313.15).thinnest)).toBeCloseTo(1.2, 3);
    });
});

describe('what is no fuel', () => {
    // Melinder's polynomials at 52.7 % by mass, evaluated outside with the coefficients of a public program: mm²/s, kg/m³.
    test.each([[0, 8.011, 1078.3], [20, 3.723, 1068.3], [40, 2.135, 1056.6], [60, 1.411, 1043.4], [80, 1.002, 1029.2]])('half glycol at %d °C', (celsius, viscosity, density) => {
        expect(Math.abs(mm2(glycolViscosity(celsius + KELVIN)) / viscosity - 1)).toBeLessThan(0.01);
        expect(Math.abs(glycolDensity(celsius + KELVIN) / density - 1)).toBeLessThan(0.003);
    });
    // An engineering table of antifreeze by volume prints 6.5, 2.8, 1.5 mPa·s at 4.4, 26.7 and 48.9 °C, to two figures.
    test.each([[4.4, 6.5], [26.7, 2.8], [48.9, 1.5]])('half glycol at %d °C against another table, %d mPa·s, within a quarter', (celsius, expected) => {
        expect(Math.abs(glycolViscosity(celsius + KELVIN) * glycolDensity(celsius + KELVIN) * 1e3 / expected - 1)).toBeLessThan(0.25);
    });
    test('coolant may be all water: so it is taken where much may run out', () => {
        const [cold, warm] = (['cold', 'warm'] as const).map((warmth) => fluidOf(NO_VESSEL, 'coolant', warmth)) as [ReturnType<typeof fluidOf>, ReturnType<typeof fluidOf>];
        expect([cold.viscosity, warm.viscosity]).toEqual([cold.thickest, warm.thinnest]);
        // Water at 20 °C: 1.0034 mm²/s (chemicals, IAPWS).
        expect(mm2(cold.thinnest)).toBeCloseTo(1.0034, 3);
    });
    test('each says what was taken for it', () => {
        expect(fluidOf(NO_VESSEL, undefined)).toEqual(fluidOf(NO_VESSEL, 'diesel'));
        for (const carries of ['diesel', 'coolant', 'heating water', 'raw water'] as const) for (const warmth of ['cold', 'warm'] as const) for (const words of fluidOf(NO_VESSEL, carries, warmth).taken) expect(words).toMatch(/ taken as .*\(.*\)$/);
        expect(fluidOf(NO_VESSEL, 'heating water').taken).toEqual(['heating water is taken as water at 20 °C (handbook value)']);
    });
});
