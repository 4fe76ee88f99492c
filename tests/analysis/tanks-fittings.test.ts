/** Pickups, soundings and vents, against figures that were worked out by hand for the worked vessel; the arithmetic stands beside each. */
import { describe, expect, test } from 'vitest';
import { drawing, leastToWet, mostToWet, unusable, usable } from '../../src/analysis/tanks/pickups';
import { bottomUnder, soundings } from '../../src/analysis/tanks/sounding';
import { immersedAt } from '../../src/analysis/tanks/vents';
import { networkOf } from '../../src/analysis/topology/network';
import { running } from '../../src/analysis/topology/paths';
import { loadBoat } from '../../src/language/load';
import { litresByColumns } from './tanks-by-columns';
import { boxTank, DEG, MOUTH, place, sectionTank, WORKED } from './tanks-shapes';

const litres = (m3: number | undefined): number => m3! * 1e3;
const lean = (heel: number, trim = 0): { heel: number; trim: number } => ({ heel: heel * DEG, trim: trim * DEG });
const envelope = (heel: number, trim: number): { heel: { si: number }; trim: { si: number } } => ({ heel: { si: heel * DEG }, trim: { si: trim * DEG } });

describe('a pickup 25 mm off the bottom, 450 mm from the outer side of the tank and 150 mm from the inner one', () => {
    // The surface through the mouth meets the bottom w = (way to the low side) + 25 / tan φ from the low side, and the low side at
    // w tan φ over the bottom: while w is less than 600 and w tan φ less than 420 it is a wedge, w² tan φ / 2 x 800 mm.
    test.each([
        [10, 24.7], // tan 0.17633: w 450 + 141.8 = 591.8; 591.8² x 0.17633 / 2 x 800
        [15, 31.6], // tan 0.26795: w 450 + 93.3 = 543.3
        [20, 39.2], // tan 0.36397: w 450 + 68.7 = 518.7
        [25, 47.3], // tan 0.46631: w 450 + 53.6 = 503.6
        [-20, 7.0], // to port: w 150 + 68.7 = 218.7
        [0, 12.0], // 25 mm x 0.48 L
    ])('at heel %s it needs %s L', (heel, needed) => {
        expect(litres(leastToWet(WORKED, MOUTH, lean(heel)))).toBeCloseTo(needed, 1);
    });

    // Bow down, θ = 3 degrees: along the boat the surface rises by tan θ / cos φ. Measured across, w grows forward by k = tan θ / (cos φ tan φ) =
    // tan θ / sin φ a mm. From 150 mm aft of the mouth to 650 mm forward of it w goes from w1 to w2, and the volume is tan φ / 2 x (w2³ - w1³) / 3k, less
    // the same of (w2 - 600)³ where w passes the inner side.
    test.each([
        // tan 3 = 0.052408, sin 20 = 0.342020: k 0.15323. w1 518.69 - 22.98 = 495.70, w2 518.69 + 99.60 = 618.29.
        // (236358000 - 121805000) / 0.45969 x 0.18199 = 45.35 L, less 18.29³ / 0.45969 x 0.18199 = 0.002 L
        [20, 45.35],
        // sin 25 = 0.422618: k 0.12401. w1 503.61 - 18.60 = 485.01, w2 503.61 + 80.61 = 584.22.
        // (199402000 - 114093000) / 0.37203 x 0.23315 = 53.46 L
        [25, 53.46],
    ])('at heel %s and 3 degrees by the bow %s L', (heel, needed) => {
        expect(Math.abs(litres(leastToWet(WORKED, MOUTH, lean(heel, -3))) - needed)).toBeLessThan(0.02);
    });

    test('the worst of the envelope is its corner with starboard and the bow down', () => {
        const worst = mostToWet([WORKED], MOUTH, envelope(25, 3))!;
        expect(litres(worst.volume)).toBeCloseTo(53.5, 1);
        expect(worst.attitude.heel / DEG).toBeCloseTo(25, 9);
        expect(worst.attitude.trim / DEG).toBeCloseTo(-3, 9);
    });

    // 20 mm under the top, 200 mm from the inner side and 400 from the outer one. Heeled to starboard, t = tan φ, beyond t = 20 / 400 the liquid gains 400 x 20 - 20² / 2t
    // on the low side and loses 200² t / 2 on the other: 8000 - 200 / t - 20000 t mm², most at t = 0.1. At 25 degrees, t = 0.46631, that is -1755; at 6.25,
    // t = 0.10952, it is 3984: 400 x 600 + 3984 = 243984 mm² x 800 mm = 195.19 L. Upright 192.0, at 25 degrees 190.6, to port less.
    test('a high mouth is worst between upright and the corner of the envelope', () => {
        const mouth = place(600, 2600, 750);
        const worst = mostToWet([WORKED], mouth, envelope(25, 0))!;
        expect(litres(worst.volume)).toBeCloseTo(195.19, 2);
        expect(worst.attitude.heel / DEG).toBeCloseTo(6.25, 9);
        expect(litres(leastToWet(WORKED, mouth, lean(25)))).toBeCloseTo(190.6, 1);
    });

    // In the middle of the tank across, 20 mm under its top: upright 400 mm x 0.48 L. Heeled by 10 degrees (tan 0.17633) the surface meets the top 20 / 0.17633 = 113.4 mm
    // out: on the low side there are 300 x 20 - 113.4 x 20 / 2 = 4866 mm² more, on the other 300 x 52.9 / 2 = 7935 mm² less.
    test('a mouth near the top amidships needs most upright', () => {
        const mouth = place(600, 2600, 850);
        expect(litres(leastToWet(WORKED, mouth, lean(0)))).toBeCloseTo(192, 9);
        expect(litres(leastToWet(WORKED, mouth, lean(10)))).toBeCloseTo(800 * (240_000 + 4866 - 7935) / 1e6, 1);
    });

    test('a mouth under the bottom needs nothing, one over the top the whole', () => {
        expect(leastToWet(WORKED, place(150, 2350, 700), lean(0))).toBe(0);
        expect(litres(leastToWet(WORKED, place(700, 2350, 700), lean(0)))).toBeCloseTo(201.6, 9);
    });

    // 25 mm x 0.48 L = 12.0 L; 0.95 x 201.6 - 12.0 = 179.5 L
    test('12.0 L are unusable and 179.5 L usable', () => {
        expect(litres(unusable(WORKED, [MOUTH]))).toBeCloseTo(12.0, 9);
        expect(litres(usable(WORKED, [MOUTH]))).toBeCloseTo(179.52, 9);
        expect(litres(unusable(WORKED, [place(260, 2400, 800), MOUTH]))).toBeCloseTo(12.0, 9); // the lowest of two
    });

    test('what is not known is not told', () => {
        expect(leastToWet(WORKED, { up: { si: 0.225 } }, lean(10))).toBeUndefined();
        expect(leastToWet(WORKED, undefined, lean(0))).toBeUndefined();
        expect([unusable(WORKED, []), unusable(WORKED, [MOUTH, undefined]), usable(WORKED, [undefined])]).toEqual([undefined, undefined, undefined]);
        expect(mostToWet([WORKED], MOUTH, { heel: { si: 0.3 } })).toBeUndefined();
    });
});

test('what draws from each pickup, an electric pump that blocks when off counted as running', async () => {
    const { boat, problems } = await loadBoat({ 'boat.orlop': `vessel Testwake
tank T1 { pickup P1   pickup P2   pickup P3   vent   fill }
engine E1
heater H1
supply course Feed from T1.P1 to E1 { shutoff V1   electric pump EP1   when off blocks }
supply course Warm from T1.P2 to H1 { shutoff V2 }
` });
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    const open = running(networkOf(boat), new Map(), 'all open');
    expect(boat.tanks[0]!.fittings.slice(0, 3).map(({ id }) => [id, ...drawing(open, id).map((consumer) => consumer.id)])).toEqual([['T1.P1', 'E1'], ['T1.P2', 'H1'], ['T1.P3']]);
});

describe('soundings', () => {
    test('a box upright: 0.48 L a millimetre, and its top although it is no whole step', () => {
        const { rows } = soundings(WORKED, 0.1)!;
        expect(rows.map(({ dip }) => Math.round(dip * 1e3))).toEqual([0, 100, 200, 300, 400, 420]);
        rows.forEach(({ dip, volumes }) => expect(litres(volumes[0])).toBeCloseTo(dip * 480, 9));
    });

    // Dip 50 mm in the middle, 300 mm from each side, heel 20 degrees (tan 0.36397): a wedge w = 300 + 50 / 0.36397 = 437.4 mm, 437.4² x 0.36397 / 2 x 800 = 27.85 L, to either side.
    // Dip 210 mm: the plane through the middle of a box halves it, 100.8 L at any heel. Dip 370 mm is dip 50 mm upside down: 201.6 - 27.85.
    test('a box at 20 degrees to either side', () => {
        const { rows } = soundings(WORKED, 0.01, [lean(20), lean(-20)])!;
        for (const [dip, expected] of [[50, 27.85], [210, 100.8], [370, 173.75]] as const) {
            rows[dip / 10]!.volumes.forEach((volume) => expect(litres(volume)).toBeCloseTo(expected, 1));
        }
    });

    test('a dip at a stated place reads otherwise only when she leans', () => {
        const [middle, side] = [soundings(WORKED, 0.05, [lean(0), lean(10)])!, soundings(WORKED, 0.05, [lean(0), lean(10)], { fwd: 2.6, stbd: 1.0 })!];
        expect(side.rows[2]!.volumes[0]).toBeCloseTo(middle.rows[2]!.volumes[0]!, 12);
        // 150 mm nearer to the low side the same dip is less: by 150 x 0.17633 = 26.4 mm of level, 12.7 L, where the surface meets both sides.
        expect(litres(middle.rows[4]!.volumes[1]) - litres(side.rows[4]!.volumes[1])).toBeCloseTo(12.7, 1);
    });

    test('a tank by sections is dipped from its bottom at that place', () => {
        const corners = [[100, 0], [200, 600], [600, 600], [600, 0]] as const;
        const tank = sectionTank([1000, corners], [1800, corners]);
        const { rows } = soundings(tank, 0.05)!;
        // In the middle the bottom lies at 150 mm, so that a dry stick still leaves 50 x 300 / 2 x 800 mm³ = 6.0 L.
        expect(litres(rows[0]!.volumes[0])).toBeCloseTo(6.0, 9);
        expect(rows.at(-1)!.dip).toBeCloseTo(0.45, 9);
        const slices = [1000, 1800].map((fwd) => ({ fwd, corners }));
        rows.forEach(({ dip, volumes }) => expect(litres(volumes[0])).toBeCloseTo(litresByColumns(slices, 150 + dip * 1e3, 0, 0, 300), 1));
    });

    test('the bottom under a place: of a box everywhere the same, of another tank only where it is known to be', () => {
        expect(bottomUnder(WORKED, { up: { si: 0.225 } })).toBeCloseTo(0.2, 12);
        const corners = [[100, 0], [200, 600], [600, 600], [600, 0]] as const;
        const tank = sectionTank([1000, corners], [1800, corners]);
        expect(bottomUnder(tank, place(175, 1400, 300))).toBeCloseTo(0.15, 9); // half way from 100 to 200 mm
        expect([bottomUnder(tank, { up: { si: 0.175 } }), bottomUnder(tank, place(175, 1400, 900)), bottomUnder(boxTank(800, 600, 420, {}), place(175, 0, 0))]).toEqual([undefined, undefined, undefined]);
    });

    test('where the tank stands does not count, unless the place of the dip is stated', () => {
        const tank = boxTank(800, 600, 420, {});
        expect(litres(soundings(tank, 0.01, [lean(20)])!.rows[5]!.volumes[0])).toBeCloseTo(27.85, 1);
        expect(soundings(tank, 0.01, [lean(0)], { fwd: 2.6, stbd: 1 })).toBeUndefined();
        expect(soundings(WORKED, 0.01, [lean(0)], { fwd: 9, stbd: 1 })).toBeUndefined();
        expect([soundings(WORKED, 0), soundings(WORKED, NaN), soundings(WORKED, 1e-6)]).toEqual([undefined, undefined, undefined]);
    });
});

describe('openings that heel into the water', () => {
    const waterline = place(520, 0, 0);
    // atan((1500 - 520) / 1500) = atan 0.65333 = 33.16; atan((1560 - 520) / 1450) = atan 0.71724 = 35.65
    test.each([['the outlet', place(1500, 1800, 1500), 33.16], ['the crest', place(1560, 1800, 1450), 35.65], ['an outlet to port', place(1500, 1800, -1500), -33.16]] as const)('%s', (_, at, degrees) => {
        expect((immersedAt(at, waterline) as number) / DEG).toBeCloseTo(degrees, 2);
    });
    test('on the centreline never; below the waterline at once; unknown, not told', () => {
        expect(immersedAt(place(1500, 0, 0), waterline)).toBe('never');
        expect(immersedAt(place(500, 0, 900), waterline)).toBe(0);
        expect([immersedAt({ up: { si: 1.5 } }, waterline), immersedAt(place(1500, 0, 900), undefined), immersedAt(undefined, waterline)]).toEqual([undefined, undefined, undefined]);
    });
});
