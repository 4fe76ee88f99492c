/** Volumes and surfaces under heel and trim: against columns that were added up, against figures worked by hand, and against their own laws. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { grossOf, span, surfaceAt, volumeBelow } from '../../src/analysis/tanks/liquid';
import type { Tank } from '../../src/model/boat';
import { litresByColumns, type Slice } from './tanks-by-columns';
import { boxTank, DEG, place, sectionTank, WORKED } from './tanks-shapes';

const litres = (m3: number | undefined): number => m3! * 1e3;
const lean = (heel: number, trim = 0): { heel: number; trim: number } => ({ heel: heel * DEG, trim: trim * DEG });

describe('against columns added up', () => {
    const box: readonly Slice[] = [2200, 3000].map((fwd) => ({ fwd, corners: [[200, 550], [200, 1150], [620, 1150], [620, 550]] }));
    // A tank under a quarter berth: the outer side follows the hull, the bottom rises aft.
    const wing: readonly Slice[] = [
        { fwd: 1800, corners: [[320, 500], [380, 900], [640, 1050], [640, 500]] },
        { fwd: 3000, corners: [[200, 450], [240, 1000], [640, 1250], [640, 450]] },
    ];
    // A tank over a keel: hollow below, and narrower forward in two steps.
    const saddle: readonly Slice[] = [
        { fwd: 4000, corners: [[100, -600], [150, -200], [300, 0], [150, 200], [100, 600], [500, 700], [500, -700]] },
        { fwd: 4500, corners: [[120, -500], [170, -150], [320, 0], [170, 150], [120, 500], [500, 600], [500, -600]] },
        { fwd: 5200, corners: [[220, -250], [240, -80], [350, 0], [240, 80], [220, 250], [480, 320], [480, -320]] },
    ];
    const bySections = (slices: readonly Slice[]): Tank => sectionTank(...slices.map(({ fwd, corners }) => [fwd, corners] as const));
    const shapes: readonly [string, readonly Slice[], Tank][] = [['a box', box, WORKED], ['a wing tank', wing, bySections(wing)], ['a saddle tank', saddle, bySections(saddle)]];
    const leans = [-45, -20, 0, 7, 45];

    test.each(shapes)('%s, at heels and trims of up to 45 degrees and levels from nearly empty to nearly full, to a thousandth of the whole', (_, slices, tank) => {
        const all = slices.flatMap(({ fwd, corners }) => corners.map(([up, stbd]) => ({ fwd, up, stbd })));
        const gross = litresByColumns(slices, 1e6, 0, 0, 400);
        expect(Math.abs(litres(grossOf(tank)) - gross) / gross).toBeLessThan(0.001);
        for (const heel of leans) for (const trim of leans) {
            const [h, t] = [heel * DEG, trim * DEG];
            const heights = all.map(({ fwd, up, stbd }) => (up * Math.cos(h) - stbd * Math.sin(h)) * Math.cos(t) + fwd * Math.sin(t));
            const [low, high] = [Math.min(...heights), Math.max(...heights)];
            expect(span(tank, lean(heel, trim))!.low * 1e3).toBeCloseTo(low, 6);
            expect(span(tank, lean(heel, trim))!.high * 1e3).toBeCloseTo(high, 6);
            for (const share of [0.04, 0.2, 0.5, 0.8, 0.97]) {
                const height = low + share * (high - low);
                const counted = litresByColumns(slices, height, h, t, 80);
                const computed = litres(volumeBelow(tank, height / 1e3, lean(heel, trim)));
                expect(Math.abs(computed - counted) / gross, `heel ${heel}, trim ${trim}, ${share} of the height`).toBeLessThan(0.001);
            }
        }
    });
});

describe('by hand', () => {
    // Worked example: 0.8 x 0.6 x 0.42 m = 0.2016 m³; 0.8 x 0.6 m = 0.48 m², so 0.48 L a millimetre.
    test('the worked tank holds 201.6 L, 0.48 L a millimetre upright', () => {
        expect(litres(grossOf(WORKED))).toBeCloseTo(201.6, 9);
        expect(litres(volumeBelow(WORKED, 0.301, lean(0))) - litres(volumeBelow(WORKED, 0.300, lean(0)))).toBeCloseTo(0.48, 9);
    });

    // Half full, the surface of a box passes through its middle, 410 mm up and 850 mm to starboard, while it cuts the two sides or the
    // two ends: 410 cos φ - 850 sin φ.
    test.each([
        [0, 410],
        [-10, 551.4], // 410 x 0.98481 + 850 x 0.17365 = 403.77 + 147.60
        [-20, 676.0], // 410 x 0.93969 + 850 x 0.34202 = 385.27 + 290.72
        [20, 94.6], // 385.27 - 290.72
    ])('half full at heel %s the surface stands at %s mm', (heel, mm) => {
        expect(surfaceAt(WORKED, 0.1008, lean(heel))! * 1e3).toBeCloseTo(mm, 1);
    });

    // Port 20 degrees, the plane through a lid 700 mm up, 300 mm to port: 700 x 0.93969 - 300 x 0.34202 = 555.18 mm. At the inner side of the
    // tank (550 mm) it stands 555.18 / 0.93969 - 550 x 0.36397 = 390.6 mm up in the boat, 190.6 over the bottom: a wedge 190.6 / 0.36397 =
    // 523.7 mm wide, 190.6 x 523.7 / 2 x 800 = 39.9 L.
    test('what stays in the tank below an open lid on the low side', () => {
        expect(litres(volumeBelow(WORKED, 0.55518, lean(-20)))).toBeCloseTo(39.9, 1);
    });

    // Frustum of a pyramid: 1 m long, 0.4 x 0.4 m at one end and 0.2 x 0.2 m at the other: (0.16 + 0.04 + 0.08) / 3 = 0.09333 m³.
    test('a tapering tank, its corners told either way round, its sections from either end', () => {
        const square = (side: number): [number, number][] => [[0, 0], [0, side], [side, side], [side, 0]];
        const back = (side: number): [number, number][] => square(side).reverse();
        for (const tank of [sectionTank([0, square(400)], [1000, square(200)]), sectionTank([0, back(400)], [1000, back(200)]), sectionTank([1000, square(200)], [0, square(400)])]) {
            expect(litres(grossOf(tank))).toBeCloseTo(93.3333, 3);
        }
    });

    // A side that is not flat. With corners on straight lines the area of the cross-section is quadratic in length, so (A0 + 4 Am + A1) / 6 is exact.
    // A0 = 400 x 300. A1: corners (up, stbd) 0,0; 100,400; 300,400; 300,0, that is 400 x 300 - 100 x 400 / 2 = 100000. Am: corners 0,0; 50,400;
    // 300,400; 300,0 = 120000 - 10000. (120000 + 440000 + 100000) / 6 x 1000 mm = 110 L.
    test('a twisted bottom', () => {
        const tank = sectionTank([0, [[0, 0], [0, 400], [300, 400], [300, 0]]], [1000, [[0, 0], [100, 400], [300, 400], [300, 0]]]);
        expect(litres(grossOf(tank))).toBeCloseTo(110, 9);
    });
});

describe('what is not known is not told', () => {
    const tank = boxTank(800, 600, 420, { up: { si: 0.2 } });
    test('a box of which only the height is known: upright alone', () => {
        expect(litres(grossOf(tank))).toBeCloseTo(201.6, 9);
        expect(surfaceAt(tank, 0.1008, lean(0))).toBeCloseTo(0.41, 9);
        expect(surfaceAt(tank, 0.1008, lean(5))).toBeUndefined();
        expect(volumeBelow(tank, 0.4, lean(0, 2))).toBeUndefined();
    });
    test('with its place across, heel; with its place along, trim', () => {
        expect(span(boxTank(800, 600, 420, { up: { si: 0.2 }, stbd: { si: 0.55 } }), lean(10))).toBeDefined();
        expect(span(boxTank(800, 600, 420, { up: { si: 0.2 }, stbd: { si: 0.55 } }), lean(10, 1))).toBeUndefined();
        expect(span(boxTank(800, 600, 420, { up: { si: 0.2 }, fwd: { si: 2.2 } }), lean(0, 1))).toBeDefined();
    });
    test('no shape, no volume, no number', () => {
        const square: [number, number][] = [[0, 0], [0, 400], [400, 400], [400, 0]];
        for (const none of [
            { id: 'T1', fittings: [] }, sectionTank([0, square]), sectionTank([0, square], [0, square]), sectionTank([0, square], [500, square.slice(1)]),
            sectionTank([0, [[0, 0], [100, 100], [200, 200]]], [500, [[0, 0], [100, 100], [200, 200]]]), boxTank(800, 0, 420, place(0, 0, 0)), boxTank(NaN, 600, 420, place(0, 0, 0)),
        ] as Tank[]) {
            expect([grossOf(none), span(none, lean(3)), surfaceAt(none, 0.1, lean(3)), volumeBelow(none, 0.1, lean(3))]).toEqual([undefined, undefined, undefined, undefined]);
        }
        expect([surfaceAt(WORKED, NaN, lean(0)), volumeBelow(WORKED, NaN, lean(0)), surfaceAt(WORKED, 0.1, lean(NaN))]).toEqual([undefined, undefined, undefined]);
    });
});

describe('laws', () => {
    const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
    const boxes = fc.tuple(number(100, 3000), number(100, 3000), number(100, 2000), number(-500, 2000), number(0, 15_000), number(-2500, 2500), fc.constantFrom(1 as const, -1 as const))
        .map(([l, b, h, up, fwd, stbd, outboard]) => boxTank(l, b, h, place(up, fwd, stbd), outboard));
    // Corners at growing angles about a middle: no section crosses itself.
    const bySections = fc.integer({ min: 3, max: 7 }).chain((corners) => fc.tuple(
        number(0, 15_000), number(-2000, 2000), fc.array(fc.tuple(number(200, 1500), fc.array(number(150, 800), { minLength: corners, maxLength: corners })), { minLength: 2, maxLength: 4 }),
    )).map(([start, across, sections]) => {
        let fwd = start;
        return sectionTank(...sections.map(([length, radii]) => [fwd += length, radii.map((radius, i) => [
            500 + radius * Math.sin(2 * Math.PI * i / radii.length), across + radius * Math.cos(2 * Math.PI * i / radii.length),
        ] as [number, number])] as const));
    });
    const tanks = fc.oneof(boxes, bySections);
    const attitudes = fc.tuple(number(-60, 60), number(-45, 45)).map(([heel, trim]) => lean(heel, trim));

    test('the surface of the volume below a height is at that height, and the other way about', () => {
        fc.assert(fc.property(tanks, attitudes, number(0.001, 0.999), (tank, attitude, share) => {
            const gross = grossOf(tank)!;
            const surface = surfaceAt(tank, share * gross, attitude)!;
            expect(Math.abs(volumeBelow(tank, surface, attitude)! - share * gross) / gross).toBeLessThan(1e-9);
        }));
    });

    test('higher is more', () => {
        fc.assert(fc.property(tanks, attitudes, number(-0.1, 1.1), number(-0.1, 1.1), (tank, attitude, one, other) => {
            const { low, high } = span(tank, attitude)!;
            const at = (share: number): number => volumeBelow(tank, low + share * (high - low), attitude)!;
            expect(at(Math.max(one, other)) - at(Math.min(one, other))).toBeGreaterThanOrEqual(-1e-12 * grossOf(tank)!);
        }));
    });

    // Upside down what was above lies below: heel φ + π and trim -θ turn the vertical round.
    test('what is below and what is above are the whole', () => {
        fc.assert(fc.property(tanks, attitudes, number(0, 1), (tank, attitude, share) => {
            const { low, high } = span(tank, attitude)!;
            const height = low + share * (high - low);
            const above = volumeBelow(tank, -height, { heel: attitude.heel + Math.PI, trim: -attitude.trim })!;
            expect(Math.abs(volumeBelow(tank, height, attitude)! + above - grossOf(tank)!) / grossOf(tank)!).toBeLessThan(1e-9);
        }));
    });

    test('a tank mirrored and the heel turned about: nothing changes', () => {
        const mirrored = ({ box, sections, ...rest }: Tank): Tank => ({
            ...rest,
            ...(box && { box: { ...box, corner: { ...box.corner, stbd: { si: -box.corner.stbd!.si } }, outboard: box.outboard === 1 ? -1 : 1 } }),
            ...(sections && { sections: sections.map(({ fwd, corners }) => ({ fwd, corners: corners.map(({ up, stbd }) => ({ up, stbd: -stbd })) })) }),
        });
        fc.assert(fc.property(tanks, attitudes, number(0, 1), (tank, { heel, trim }, share) => {
            const volume = share * grossOf(tank)!;
            expect(grossOf(mirrored(tank))! / grossOf(tank)!).toBeCloseTo(1, 9);
            // By the volume below it: in the tip of a spike the last digit of a volume is microns of height.
            const surface = surfaceAt(mirrored(tank), volume, { heel: -heel, trim })!;
            expect(volumeBelow(tank, surface, { heel, trim })! / grossOf(tank)!).toBeCloseTo(share, 9);
        }));
    });
});
