/** A tank written by its sections: what the boat then knows of its shape. The figures are worked by hand beside each. */
import { beforeAll, describe, expect, test } from 'vitest';
import { grossOf, span, surfaceAt } from '../../src/analysis/tanks/liquid';
import { leastToWet } from '../../src/analysis/tanks/pickups';
import { canStandAbove } from '../../src/analysis/tanks/surface';
import { judge } from '../../src/checks/judge';
import { loadBoat } from '../../src/language/load';
import type { Boat, Tank } from '../../src/model/boat';

const load = async (text: string, as?: Parameters<typeof loadBoat>[1]): Promise<Boat> => {
    const { boat, problems } = await loadBoat({ 'boat.orlop': text }, as);
    expect(problems.map(({ message }) => message)).toEqual([]);
    return boat;
};
const litres = (tank: Tank | undefined): number => grossOf(tank!)! * 1e3;
const tank = (boat: Boat, id: string): Tank => boat.tanks.find((other) => other.id === id)!;

/** The same tank as a box and by sections, the corners of the second in other words and another order. */
const BOX = 'tank T1 { box 800 x 600 x 420 mm   low aft inner corner at 200 mm up, 2200 mm fwd, 550 mm stbd\n pickup P1   mouth at 25 mm off bottom   top at 650 mm up, 2350 mm fwd, 700 mm stbd\n vent }\n';
const SECTIONS = BOX.replace('T1', 'T2').replace(/box.*stbd\n/, `section at 3000 mm fwd   corners 550 mm stbd, 200 mm up, 1150 mm stbd, 200 mm up, 1150 mm stbd, 620 mm up, 550 mm stbd, 620 mm up
 section at 2200 mm fwd   corners 200 mm up 550 mm stbd, 200 mm up 1150 mm stbd,
   620 mm up 1150 mm stbd, 620 mm up 550 mm stbd measured\n`);
// A wedge: 1 m long, 0.4 m broad, 0.3 m deep aft and pointed forward, where a corner is written twice.
// 0.4 x 0.3 / 2 = 0.06 m² aft; 0.4 x 0.15 / 2 = 0.03 m² forward; midway 0.4 x 0.225 / 2 = 0.045: 0.045 m³.
const WEDGE = 'section at 1000 mm fwd   corners 100 mm up 200 mm stbd, 400 mm up 600 mm stbd, 400 mm up 200 mm stbd\n section at 2000 mm fwd   corners 250 mm up 200 mm stbd, 400 mm up 600 mm stbd, 400 mm up 200 mm stbd\n';

describe('a box by its sections', () => {
    let boat: Boat;
    beforeAll(async () => { boat = await load(`vessel Testwake { envelope heel 25 deg   trim 3 deg   level 5 to 95 % }\n${BOX}${SECTIONS}`); });

    test('is the box', () => {
        expect(tank(boat, 'T2').box).toBeUndefined();
        expect(tank(boat, 'T2').sections?.map(({ fwd }) => fwd)).toEqual([2.2, 3]);
        expect(litres(tank(boat, 'T2'))).toBeCloseTo(201.6, 9); // 0.8 x 0.6 x 0.42 m
        const lean = { heel: 0.35, trim: -0.05 };
        expect(surfaceAt(tank(boat, 'T2'), 0.06, lean)).toBeCloseTo(surfaceAt(tank(boat, 'T1'), 0.06, lean)!, 9);
        expect(leastToWet(tank(boat, 'T2'), tank(boat, 'T2').fittings[0]!.mouth, lean)).toBeCloseTo(leastToWet(tank(boat, 'T1'), tank(boat, 'T1').fittings[0]!.mouth, lean)!, 9);
    });

    test('the bottom is its lowest corner', () => {
        expect(tank(boat, 'T2').fittings[0]!.mouth?.up?.si).toBeCloseTo(0.225, 9);
    });

    test('is judged alike', () => {
        for (const [up, stbd] of [[0.3, 0.6], [0.7, -0.3], [1.2, -0.3], [2, 0]] as const) {
            const place = { up: { si: up }, stbd: { si: stbd }, fwd: { si: 2.5 } };
            expect(canStandAbove(boat, tank(boat, 'T2'), place)).toBe(canStandAbove(boat, tank(boat, 'T1'), place));
        }
        expect(canStandAbove(boat, tank(boat, 'T2'), { up: { si: 0.3 } })).toBe('yes');
        expect(canStandAbove(boat, tank(boat, 'T2'), { up: { si: 2 }, stbd: { si: 0 }, fwd: { si: 2.5 } })).toBe('no');
    });

    test('how well it is known is by its weakest section', () => {
        expect(boat.evidence.get('T2 section')?.grade ?? 'told').toBe('told'); // one section has no mark
    });
});

test('a section not taken square to the sides, worked by hand', async () => {
    const boat = await load(`tank T1 { ${WEDGE} vent }\n`);
    expect(litres(tank(boat, 'T1'))).toBeCloseTo(45, 9);
    expect(span(tank(boat, 'T1'), { heel: 0, trim: 0 })).toMatchObject({ low: 0.1, high: 0.4 });
});

test('a pointed end: a corner written twice', async () => {
    // Aft 0.4 x 0.4 = 0.16 m², forward a triangle of 0.08 m², midway (0.4 + 0.2) / 2 x 0.4 = 0.12 m²: (0.16 + 4 x 0.12 + 0.08) / 6 x 0.9 m = 0.108 m³.
    const boat = await load('tank T1 { section at 0 mm fwd   corners 0 mm up 0 mm stbd, 0 mm up 400 mm stbd, 400 mm up 400 mm stbd, 400 mm up 0 mm stbd\n section at 900 mm fwd   corners 0 mm up 0 mm stbd, 0 mm up 400 mm stbd, 400 mm up 0 mm stbd, 400 mm up 0 mm stbd\n vent }\n');
    expect(litres(tank(boat, 'T1'))).toBeCloseTo(108, 9);
});

describe('likeness', () => {
    test('a tank like it, mirrored, has its sections on the other side', async () => {
        const boat = await load(`tank T1 { ${WEDGE} pickup P1   mouth at 30 mm off bottom\n vent }\ntank T2 like T1 mirrored\n`);
        expect(tank(boat, 'T2').sections?.map(({ corners }) => corners.map(({ up, stbd }) => [up, -stbd]))).toEqual(tank(boat, 'T1').sections?.map(({ corners }) => corners.map(({ up, stbd }) => [up, stbd])));
        expect(litres(tank(boat, 'T2'))).toBeCloseTo(45, 9);
        expect(tank(boat, 'T2').fittings[0]!.mouth?.up?.si).toBeCloseTo(0.13, 9);
        expect(surfaceAt(tank(boat, 'T2'), 0.02, { heel: 0.3, trim: 0.05 })).toBeCloseTo(surfaceAt(tank(boat, 'T1'), 0.02, { heel: -0.3, trim: 0.05 })!, 9);
    });

    test('what a tank says of its own shape counts: a box over sections, sections over a box', async () => {
        const boat = await load(`tank T1 { ${WEDGE} vent }\n${BOX.replace('T1', 'T2')}tank T3 like T1 { box 100 x 100 x 100 mm }\ntank T4 like T2 { ${WEDGE} }\n`);
        expect([tank(boat, 'T3').sections, tank(boat, 'T4').box]).toEqual([undefined, undefined]);
        expect([litres(tank(boat, 'T3')), litres(tank(boat, 'T4'))].map((value) => Math.round(value * 1e6) / 1e6)).toEqual([1, 45]);
    });

    test('a slip in sections is told where it is written, once', async () => {
        const { problems } = await loadBoat({ 'boat.orlop': `tank T1 { ${WEDGE.split('\n')[0]}\n vent }\ntank T2 like T1\n` });
        expect(problems.map(({ message }) => message.split('.')[0])).toEqual(['T1 has one section only']);
    });
});

test('off bottom is off the bottom that the pipe stands over, not off the lowest point of the tank', async () => {
    // A V: the floor rises 400 mm in 600 mm to either side, so at 300 mm off the centreline it stands at 200 mm, and 25 mm off it is 225 mm.
    const vee = 'corners 0 mm up 0 mm stbd, 400 mm up 600 mm stbd, 400 mm up 600 mm port';
    const boat = await load(`tank T1 { section at 2000 mm fwd   ${vee}\n section at 3000 mm fwd   ${vee}\n pickup P1   mouth at 25 mm off bottom, 2500 mm fwd, 300 mm port\n drop R1   mouth at 25 mm off bottom   top at 400 mm up, 2500 mm fwd, 300 mm stbd\n pickup P2   mouth at 25 mm off bottom\n vent }\n`);
    const mouths = tank(boat, 'T1').fittings.flatMap(({ mouth }) => mouth?.up?.si ?? []);
    expect(mouths.map((up) => Math.round(up * 1e6))).toEqual([225_000, 225_000, 25_000]); // of P2 nobody said where it stands: the lowest point
    // 0.225 m of a V that is 2 x 1.5 x 0.225 = 0.675 m wide there: 0.5 x 0.675 x 0.225 x 1 m = 75.9 L, and not the 0.9 L under 25 mm.
    expect(leastToWet(tank(boat, 'T1'), tank(boat, 'T1').fittings[0]!.mouth, { heel: 0, trim: 0 })! * 1e3).toBeCloseTo(75.9375, 6);
});

test('a refit that moves the tank moves its sections, and the mouths in it', async () => {
    const boat = await load(`tank T1 { ${WEDGE} pickup P1   mouth at 30 mm off bottom\n vent }\nrefit Haul26 "higher" { move T1 up 200 mm }\n`, { view: { after: 'Haul26' } });
    expect(span(tank(boat, 'T1'), { heel: 0, trim: 0 })?.low).toBeCloseTo(0.3, 9);
    expect(tank(boat, 'T1').fittings[0]!.mouth?.up?.si).toBeCloseTo(0.33, 9);
});

test('a section that is unknown is a fact to measure, and no slip', async () => {
    const boat = await load('tank T1 { section at 1000 mm fwd   corners unknown\n section at unreached\n vent }\n');
    expect(tank(boat, 'T1').sections).toBeUndefined();
    expect(boat.unknown.map(({ about }) => about)).toEqual(['T1']);
    expect(grossOf(tank(boat, 'T1'))).toBeUndefined();
});

describe('rules read the sections', () => {
    const found = async (text: string, code: string): Promise<string[]> => {
        const boat = await load(text);
        return judge(boat).findings.filter((finding) => finding.rule.code === code).map(({ message }) => message);
    };
    test('a vent below the highest corner', async () => {
        expect((await found(`tank T1 { ${WEDGE} vent at 340 mm\n }\n`, 'VENT-EXISTS')).join()).toContain('60 mm below its highest point');
        expect(await found(`tank T1 { ${WEDGE} vent at 400 mm\n }\n`, 'VENT-EXISTS')).toEqual([]);
    });
    test('a mouth outside, and a tank longer than the hull', async () => {
        expect((await found(`vessel Testwake { length 9 m }\ntank T1 { ${WEDGE} pickup P1   mouth at 30 mm\n }\n`, 'UNIT-OK')).join()).toMatch(/outside T1, which reaches from 100 mm to 400 mm/);
        expect((await found(`vessel Testwake { length 9 m }\ntank T1 { ${WEDGE.replace('2000 mm', '20000 mm')} vent }\n`, 'UNIT-OK')).join()).toContain('A side of T1 is 19 m long');
    });
});
