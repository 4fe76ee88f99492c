/** Air in lines: strokes, Boyle, and what the laws of bubbles at crests say. Each number beside its formula or its source. */
import { describe, expect, test } from 'vitest';
import { fluidOf } from '../../../src/analysis/flow/fluid';
import { NO_VESSEL } from '../../../src/language/lowering/vessel';
import { GRAVITY } from '../../../src/analysis/flow/pipe';
import { ATMOSPHERE, airAt, secondsToFlush, strokesToFlush, strokesToLift } from '../../../src/analysis/air/strokes';
import { secondsByGravity } from '../../../src/analysis/air/gravity';
import { boreWithoutRise, kalinske, sweep, viana, wisner } from '../../../src/analysis/air/sweeping';

const COLD = fluidOf(NO_VESSEL);
const HALF = Math.PI / 4;

describe('strokes', () => {
    // ⌈1.25 · 883.37 / (0.8 · 5)⌉ = ⌈276.05⌉ = 277, the trade's rule.
    test('to flush', () => expect(strokesToFlush(883.37e-6, 5e-6)).toBe(277));
    test('seconds to flush: 1.25 · 0.4 L / (60 L/h) = 30 s', () => expect(secondsToFlush(0.4e-3, 1e-3 / 60)).toBe(30));
    test('never less than one', () => expect([strokesToFlush(0, 1e-6), secondsToFlush(0, 1)]).toEqual([1, 1]));
    // ln(101.325/96.325)/ln(310/300) = 0.050606/0.032790 = 1.543; ln(101.325/91.325)/0.032790 = 3.169.
    test.each([[5e3, 1.543], [10e3, 3.169]])('to thin 300 mL by 10 mL strokes by %d Pa: %d', (drop, expected) => expect(strokesToLift(300e-6, 10e-6, drop)).toBeCloseTo(expected, 3));
    test('agree with pumping stroke by stroke', () => {
        // Each stroke the air spreads into the pump as well, and what is there leaves.
        for (const [volume, stroke] of [[300, 10], [120, 15], [40, 20]] as const) {
            let pressure = ATMOSPHERE;
            for (let n = 0; n < 7; n++) pressure *= volume / (volume + stroke);
            expect(strokesToLift(volume * 1e-6, stroke * 1e-6, ATMOSPHERE - pressure)).toBeCloseTo(7, 9);
        }
    });
    test('none against no lift, none with no air, and no answer for a vacuum that cannot be', () => {
        expect(strokesToLift(1e-4, 1e-5, 0)).toBe(0);
        expect(strokesToLift(0, 1e-5, 5e3)).toBe(0);
        expect(strokesToLift(1e-4, 1e-5, ATMOSPHERE)).toBeUndefined();
        expect(strokesToLift(1e-4, 0, 5e3)).toBeUndefined();
    });
});

// Boyle: 100 mL at 101.325 kPa; at -30 kPa, +200 kPa and 25 inHg of vacuum (84.6597 kPa) by gauge.
test.each([[-30e3, 142.06], [200e3, 33.63], [-25 * 3386.388640341, 608.0]])('100 mL of air at %d Pa by gauge', (gauge, expected) => {
    expect(Math.abs(airAt(100, ATMOSPHERE, ATMOSPHERE + gauge)! / expected - 1)).toBeLessThan(2e-4);
});
test('air at no pressure has no volume', () => expect(airAt(1, ATMOSPHERE, 0)).toBeUndefined());

describe('laws of bubbles', () => {
    // √(g · 8 mm) = 0.28010 m/s.
    const root = Math.sqrt(GRAVITY * 0.008);
    test('Wisner and others: 0.28996 m/s in 8 mm at 45°, 0.30110 straight down', () => {
        expect(wisner(HALF) * root).toBeCloseTo(0.28996, 5);
        expect(wisner(Math.PI / 2) * root).toBeCloseTo(0.30110, 5);
    });
    test('Kalinske and Bliss: Q²/gD⁵ = tan θ/0.71, 0.423 m/s in 8 mm at 45°', () => {
        expect(kalinske(HALF) * root).toBeCloseTo(0.4232, 3);
        const flow = kalinske(0.3) * root * Math.PI * 0.008 ** 2 / 4;
        expect(flow ** 2 / (GRAVITY * 0.008 ** 5)).toBeCloseTo(Math.tan(0.3) / 0.71, 9);
    });
    test('Viana and others come to 0.34 in wide pipes, and are not asked in thick liquids', () => {
        expect(viana(0.2, COLD)).toBeCloseTo(0.34, 4);
        // Eo = 844.95 g (8 mm)²/0.027 = 19.64; 19.64^3.06 = 9059; 0.34/(1 + 3805/9059)^0.58 = 0.34/1.2255 = 0.2774. R = √(D³ g)/ν = 407.
        expect(viana(0.008, COLD)).toBeCloseTo(0.2774, 3);
        expect(viana(0.008, { ...COLD, viscosity: 50e-6 })).toBeUndefined();
    });
    // 2 √(0.842 · 0.027/(844.95 g)) = 3.313 mm.
    test('no bubble rises by itself up to 3.3 mm', () => expect(boreWithoutRise(COLD)).toBeCloseTo(3.313e-3, 5));

    test('a crest keeps its bubble below every law and the trade\'s rule, may keep it otherwise, and is never called clear', () => {
        // 0.2774 · 0.2801 = 0.0777 m/s is the least in 8 mm.
        expect([0.06, 0.077, 0.079, 0.149, 0.3, 1, 100].map((speed) => sweep(0.008, speed, COLD).bubble)).toEqual(['stays', 'stays', ...Array<string>(5).fill('may stay')]);
    });
    test('in a wide pipe the trade\'s rule is the least', () => {
        // 0.34 √(g · 50 mm) = 0.238.
        expect(sweep(0.05, 0.149, COLD).bubble).toBe('stays');
        expect(sweep(0.05, 0.151, COLD).bubble).toBe('may stay');
    });
    // In 4 mm of cold diesel R = √(D³ g)/ν = 144: only laws without surface tension speak, the least of them 0.35 √(g · 4 mm) = 0.0693 m/s.
    test('in a pipe so narrow that surface tension counts nothing is said to stay', () => expect(sweep(0.004, 0.05, COLD)).toMatchObject({ rises: true, bubble: 'may stay' }));
    test('below the bore in which bubbles rise nothing is said to stay', () => expect(sweep(0.003, 0.001, COLD)).toMatchObject({ rises: false, bubble: 'may stay' }));
    test('the laws stand in order, each with a name, a slope and its bores', () => {
        const { laws } = sweep(0.01, 0.2, COLD);
        expect(laws.map(({ speed }) => speed)).toEqual(laws.map(({ speed }) => speed).toSorted((a, b) => a - b));
        expect(laws).toHaveLength(5);
        expect(laws.flatMap(({ name, slope, bores }) => [name, slope, bores]).filter((words) => words === '')).toEqual([]);
        // 0.35 √(g · 10 mm) = 0.1096 m/s.
        expect(laws.find(({ name }) => name.startsWith('Dumitrescu'))!.speed).toBeCloseTo(0.1096, 4);
    });
});

describe('by gravity', () => {
    test('the volume, a quarter more, by the flow; three times that with fittings', () => {
        // 81.858 L/h (a quadratic, by hand, in pipe.test.ts): 1.25 · 0.5 L / 81.858 L/h = 27.49 s, and 82.46 s.
        expect(secondsByGravity(0.5e-3, [{ bore: 0.008, length: 6 }], 0.5, { ...COLD, viscosity: 3.5e-6 })).toEqual({ pipes: 28, fittings: 83 });
    });
    test('nothing without head or pipes', () => {
        expect(secondsByGravity(0.5e-3, [{ bore: 0.008, length: 6 }], 0, COLD)).toBeUndefined();
        expect(secondsByGravity(0.5e-3, [], 0.5, COLD)).toBeUndefined();
    });
});
