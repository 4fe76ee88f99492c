/** A designer redoes every line of the sheet from what is printed, by test code that shares no arithmetic with the program. */
import { describe, expect, test } from 'vitest';
import { EXAMPLES, exampleTexts, formsOf } from './boats';
import { redo, redone } from './redo';

describe('the evaluator itself, against sums in the head', () => {
    const known = new Map([['D', 0.008], ['L', 2.5], ['φ', Math.PI / 6], ['z₁', 3], ['z', 1]]);
    test.each([
        ['V = π × D² × L / 4', Math.PI * 64e-6 * 2.5 / 4], ['h = max(0, z₁ − z) × 2', 4], ['h = max(0, z − z₁)', 0], ['s = |z − z₁| / 4', 0.5], ['s = |sin φ| × L', 1.25],
        ['p = z₁ × cos φ − L × sin φ', 3 * Math.sqrt(3) / 2 - 1.25], ['w = arctan((z₁ − z) / |−2|)', Math.PI / 4], ['d = ∛(2 × z₁ + 2 × z)', 2], ['d = √(z₁ + z)', 2], ['c = (z₁³ − (z₁ − z)³) / (6 × z)', 19 / 6], ['Z = 10^(10^(log(log(10 × z₁³))))', 270], ['c = exp(−z₁)', 1 / Math.E ** 3], ['t = ln(exp(z) × exp(z₁)) / 2', 2], ['e = exp(−z₁ × (z + z₁)) / L^2', Math.exp(-12) / 6.25], ['r = 5.74 / z₁^0.9', 5.74 / Math.exp(0.9 * Math.log(3))], ['d = −z₁^2', -9],
    ])('%s', (formula, value) => expect(redo(formula, known)).toBeCloseTo(value, 12));
    test.each(['V = D × Q', 'V = D L', 'what lies below', 'V = (D', 'V = below D'])('turns away %s', (formula) => expect(() => redo(formula, known)).toThrow());
    test('sees a figure that is wrong in its last digits, and one found by trial that does not prove', () => {
        const one = { id: 'x', formula: 'V = L × D', inputs: [{ symbol: 'L', value: 2, unit: 'm' }, { symbol: 'D', value: 300, unit: 'mm' }], steps: [], byMesh: false, verdict: 'no limit' };
        expect(redone({ ...one, result: { symbol: 'V', value: 0.6, unit: 'm2' } })).toEqual([]);
        expect(redone({ ...one, result: { symbol: 'V', value: 0.663, unit: 'm2' } })).toHaveLength(1);
        const trial = (d: number) => redone({ ...one, formula: 'S = d + D', inputs: [{ symbol: 'V', value: 4, unit: 'm' }, { symbol: 'D', value: 0, unit: 'm' }], steps: [{ symbol: 'd', value: d, unit: 'm', formula: 'by trial, until C below comes to V' }, { symbol: 'C', value: d * d, unit: 'm', formula: 'C = d²' }], result: { symbol: 'S', value: d, unit: 'm' } });
        expect([trial(2), trial(3).length]).toEqual([[], 1]);
    });
});

test.each(EXAMPLES)('%s: every formula comes out as printed', async (name) => {
    const { data } = await formsOf(exampleTexts(name));
    expect(data.computations.length).toBeGreaterThan(20);
    expect(data.computations.filter(({ result, byMesh }) => result && !byMesh).length).toBeGreaterThan(15);
    expect(data.computations.flatMap(redone)).toEqual([]);
});

/** A tank by sections: 600 mm long, of 200 x 300 mm aft and 300 x 300 mm forward. */
const SECTIONS = `vessel Wedgewake { heights from "keel"   envelope heel 10 deg   trim 2 deg   level 10 to 95 % }
tank T1 {
  section at 1000 mm fwd   corners 100 mm up 0 mm stbd, 100 mm up 200 mm stbd, 400 mm up 200 mm stbd, 400 mm up 0 mm stbd
  section at 1600 mm fwd   corners 100 mm up 0 mm stbd, 100 mm up 300 mm stbd, 400 mm up 300 mm stbd, 400 mm up 0 mm stbd
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 420 mm up, 1300 mm fwd, 100 mm stbd
  vent
  fill
}
engine E1 { inlet at 700 mm }
supply course Feed from T1.P1 to E1 { hose S1   bore 8 mm   length 1 m }
line-up RUN run is normal
`;

test('a tank by sections: areas by their corners, the volume by Simpson, and what only the mesh tells says so', async () => {
    const { data } = await formsOf({ 'a.orlop': SECTIONS });
    expect(data.computations.flatMap(redone)).toEqual([]);
    const of = (id: string): number | undefined => data.computations.find((one) => one.id === id)?.result?.value;
    // 0.2 x 0.3 = 0.06 m², 0.3 x 0.3 = 0.09, between them 0.25 x 0.3 = 0.075; 0.6 x (0.06 + 0.3 + 0.09) / 6 = 0.045 m³.
    expect([of('section T1 at 1000 mm'), of('section T1 at 1300 mm, midway'), of('section T1 at 1600 mm'), of('gross T1')]).toEqual([0.06, 0.075, 0.09, 45]);
    // Upright sides: 25 of 300 mm, 45 x 25 / 300 = 3.75 L.
    expect([of('unusable T1'), of('usable T1')]).toEqual([3.75, 39]);
    expect(data.computations.filter(({ byMesh }) => byMesh).map(({ id }) => id.split(',')[0])).toEqual(['unusable T1', ...Array.from({ length: 5 }, () => 'surface T1'), 'least T1.P1']);
});

/** The same draws every time. */
function* lots(seed: number): Generator<number> {
    for (let x = seed; ;) { x = (x * 48271) % 2147483647; yield x / 2147483647; }
}

test('boxes drawn by lot: wherever the plane cuts them, each formula holds', async () => {
    const lot = lots(7);
    const draw = (least: number, most: number): number => Math.round(least + (most - least) * lot.next().value!);
    const cases = new Set<string>();
    for (let i = 0; i < 60; i++) {
        const [length, breadth, height] = [draw(300, 1500), draw(200, 1200), draw(200, 1000)];
        const side = draw(0, 1) === 0 ? 'port' : 'stbd';
        const [heel, trim, low] = [draw(0, 4) === 0 ? 0 : draw(1, 45), draw(0, 3) === 0 ? 0 : draw(1, 12), draw(1, 60)];
        const text = `vessel Lotwake { envelope ${heel === 0 ? '' : `heel ${heel} deg   `}${trim === 0 ? '' : `trim ${trim} deg   `}level ${low} to 95 % }
tank T1 { box ${length} x ${breadth} x ${height} mm   low aft inner corner at ${draw(-300, 600)} mm up, ${draw(0, 5000)} mm fwd, ${draw(0, 1500)} mm ${side}
  pickup P1   bore 8 mm   mouth at ${draw(5, 60)} mm off bottom   top at 2000 mm up, ${draw(0, 5000)} mm fwd, ${draw(0, 1500)} mm ${side} }
engine E1 { inlet at ${draw(0, 900)} mm up, ${draw(0, 3000)} mm fwd, ${draw(0, 300)} mm port }
supply course Feed from T1.P1 to E1 { hose S1   bore 8 mm   length 1 m }
`;
        const { data } = await formsOf({ 'a.orlop': text });
        expect([text, data.computations.flatMap(redone)]).toEqual([text, []]);
        for (const { notes, steps } of data.computations) cases.add(`${notes[0]?.split(/[:.]/)[0]} ${steps.some(({ formula }) => formula!.startsWith('by trial')) ? 'by trial' : ''}`);
    }
    // Wedges, pyramids, the level across the middle, further corners, and searches: all were met.
    for (const seen of ['A wedge ', 'A pyramid ', 'The surface cuts neither floor nor lid ', 'Upright ']) expect([...cases]).toContain(seen);
    expect([...cases].some((seen) => seen.includes('more corners'))).toBe(true);
    expect([...cases].some((seen) => seen.endsWith('by trial'))).toBe(true);
}, 120_000);
