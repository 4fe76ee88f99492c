/**
 * Tanks that level out through an open pipe: against the closed forms for equal boxes, turbulent and laminar, and against a second implementation that
 * goes on by tiny steps of time and shares no code.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { UPRIGHT } from '../../../src/analysis/tanks/attitude';
import { crossovers, levelling, type Side } from '../../../src/analysis/time/crossover';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import { networkOf } from '../../../src/analysis/topology/network';
import { boxTank, DEG, place, sectionTank } from '../tanks-shapes';
import { boatOf } from './boats';

const G = 9.80665;
const OIL = { density: 840, viscosity: 3.5e-6, tension: 0.027 };
const named = (id: string, tank: Side['tank']): Side['tank'] => ({ ...tank, id });
/** 1000 x 500 x 600 mm each, their inner sides 900 mm off the centreline, so their middles 2 x 1150 = 2300 mm apart. */
const PORT = named('T1', boxTank(1000, 500, 600, place(300, 2600, -900), -1));
const STBD = named('T2', boxTank(1000, 500, 600, place(300, 2600, 900), 1));

describe('equal boxes by the closed form', () => {
    /*
     * Half full, heeled 5°: on the port side the surface stands 2.3 x sin 5° higher. Level is when each has changed by Δy tanφ/2 across its own bottom:
     * 2.3 x 0.0874887/2 = 0.100612 m, times 1.0 x 0.5 m² = 50.306 L.
     */
    const [phi, area, apart] = [5 * DEG, 0.5, 2.3];
    const moved = area * apart * Math.tan(phi) / 2;
    test('heeled: ΔV = A Δy tanφ / 2 = 50.306 L', () => {
        expect(moved * 1e3).toBeCloseTo(50.306, 3);
        // Of pure minor losses Q = a √(2 g Δh/K): the flow falls in proportion with the time, so on average it is half of the first, t = 2 ΔV/Q₀.
        const bore = 0.025;
        const q0 = Math.PI * bore ** 2 / 4 * Math.sqrt(2 * G * apart * Math.sin(phi) / 2.5);
        const found = levelling({ tank: PORT, volume: 0.15 }, { tank: STBD, volume: 0.15 }, [{ bore, length: 0 }], OIL, { heel: phi, trim: 0 }, 2.5, 1e-10)!;
        expect(found).toMatchObject({ from: 'T1', ends: 'level' });
        expect(found.moved).toBeCloseTo(moved, 9);
        expect(found.first / q0).toBeCloseTo(1, 9);
        // The head is followed down to 1e-10 of 0.2 m: the rest would take √(1e-10/0.2) = 2e-5 of the time.
        expect(found.seconds / (2 * moved / q0)).toBeCloseTo(1, 4);
    });
    /*
     * Laminar: Q = g π D⁴ h/(128 ν L), and dh/dt = -2 Q/A, so h = h₀ e^(-t/τ) with τ = A 128 ν L/(2 g π D⁴). 8 mm x 5 m, from 300 mm down to 1 mm: Re stays
     * below 2000 while v < 0.875 m/s; Poiseuille gives at most g D² h/(32 ν L) = 0.336 m/s.
     */
    test('upright, laminar: t = τ ln(h₀/h)', () => {
        const [bore, length] = [0.008, 5];
        const tau = 0.5 * 128 * OIL.viscosity * length / (2 * G * Math.PI * bore ** 4);
        const found = levelling({ tank: PORT, volume: 0.25 }, { tank: STBD, volume: 0.1 }, [{ bore, length }], OIL, UPRIGHT, 0)!;
        expect(found.moved).toBeCloseTo(0.075, 9);
        expect(found.seconds / (tau * Math.log(300))).toBeCloseTo(1, 6);
        expect(found.height).toBeCloseTo(0.3 + 0.35, 6); // 175 L of 500 L/m: 350 mm over the bottom at 300 mm
    });
    // A derived vector: 0.5 m², 0.4 m deep, through a 10 mm hole with C_d 0.6 (K = 1/0.36), pouring out freely: 2 A √h/(C_d a √(2g)) = 3030.5 s.
    test('a tank that runs empty through a hole in 3030.5 s', () => {
        const high = named('HI', boxTank(1000, 500, 500, place(1000, 0, 0)));
        const low = named('LO', boxTank(1000, 1000, 500, place(0, 0, 0)));
        const found = levelling({ tank: high, volume: 0.2 }, { tank: low, volume: 0, mouth: place(1000, 0, 0) }, [{ bore: 0.01, length: 0 }], OIL, UPRIGHT, 1 / 0.36, 1e-11)!;
        expect(found.moved).toBeCloseTo(0.2, 6);
        expect(found.seconds).toBeCloseTo(3030.5, 0);
    });
});

describe('against tiny steps', () => {
    /** Boxes upright, by their areas; the pipe by Poiseuille or by Swamee and Jain, and 1.5 for its mouths. */
    function stepped(area1: number, h1: number, area2: number, h2: number, bore: number, length: number, within: number): number {
        const a = Math.PI * bore ** 2 / 4;
        const speed = (head: number): number => {
            let v = Math.min(1, G * bore ** 2 * head / (32 * OIL.viscosity * length));
            for (let i = 0; i < 200; i++) {
                const re = v * bore / OIL.viscosity;
                const f = re < 2000 ? 64 / re : 0.25 / Math.log10(1.5e-6 / bore / 3.7 + 5.74 / re ** 0.9) ** 2;
                v = (v + Math.sqrt(2 * G * head / (f * length / bore + 1.5))) / 2;
            }
            return v;
        };
        let t = 0;
        for (const dt = 0.5; h1 - h2 > within; t += dt) { const q = a * speed(h1 - h2); h1 -= q * dt / area1; h2 += q * dt / area2; }
        return t;
    }
    const vessels = (h1: number, h2: number): [Side, Side] => [
        { tank: named('A', boxTank(1000, 500, 600, place(0, 0, 0))), volume: 0.5 * h1 }, { tank: named('B', boxTank(500, 400, 600, place(0, 0, 600))), volume: 0.2 * h2 },
    ];
    test.each([[0.45, 0.05, 0.008, 5], [0.3, 0.2, 0.010, 3], [0.5, 0.1, 0.025, 1.5]])('%d m and %d m, bore %d m, %d m long', (h1, h2, bore, length) => {
        const [one, other] = vessels(h1, h2);
        const found = levelling(one, other, [{ bore, length }], OIL)!;
        expect(found.ends).toBe('level');
        // 0.5 m² and 0.2 m²: (h1 - h2) is evened out by ΔV (1/0.5 + 1/0.2).
        expect(found.moved).toBeCloseTo((h1 - h2) / 7, 9);
        // The wide pipe passes through the range between laminar and turbulent, of which the steps know only its ends.
        expect(Math.abs(found.seconds / stepped(0.5, h1, 0.2, h2, bore, length, 1e-3) - 1)).toBeLessThan(bore > 0.02 ? 0.03 : 0.004);
        expect(levelling(other, one, [{ bore, length }], OIL)).toEqual(found);
    });
});

describe('where it ends', () => {
    const pipe = [{ bore: 0.01, length: 2 }];
    const [high, low] = [named('HI', boxTank(1000, 500, 400, place(1000, 0, 0))), named('LO', boxTank(500, 200, 400, place(0, 0, 0)))];
    test('the other is full: it would run out of its vent', () => expect(levelling({ tank: high, volume: 0.2 }, { tank: low, volume: 0.01 }, pipe, OIL)).toMatchObject({ ends: 'other full', moved: expect.closeTo(0.03, 9) }));
    // 100 mm off the bottom: 50 L stay.
    test('its mouth comes dry', () => expect(levelling({ tank: high, volume: 0.06, mouth: place(1100, 0, 0) }, { tank: low, volume: 0 }, pipe, OIL)).toMatchObject({ ends: 'mouth dry', moved: expect.closeTo(0.01, 9) }));
    test('nothing moves', () => {
        expect(levelling({ tank: high, volume: 0.04, mouth: place(1100, 0, 0) }, { tank: low, volume: 0 }, pipe, OIL)).toMatchObject({ moved: 0, seconds: 0 });
        expect(levelling({ tank: PORT, volume: 0.1 }, { tank: STBD, volume: 0.1 }, pipe, OIL)).toMatchObject({ moved: 0, seconds: 0, ends: 'level' });
        expect(levelling({ tank: high, volume: 0 }, { tank: low, volume: 0 }, pipe, OIL)).toMatchObject({ moved: 0, seconds: 0 });
    });
    test('cannot be told', () => {
        expect(levelling({ tank: { id: 'X', fittings: [] }, volume: 0.1 }, { tank: low, volume: 0 }, pipe, OIL)).toBeUndefined();
        expect(levelling({ tank: high, volume: 0.1 }, { tank: low, volume: 0 }, [], OIL)).toBeUndefined();
        expect(levelling({ tank: high, volume: NaN }, { tank: low, volume: 0 }, pipe, OIL)).toBeUndefined();
    });
});

test('whatever the shapes, figures are numbers, and nothing runs up', () => {
    const wedge = sectionTank([0, [[0, 0], [400, 600], [400, 0]]], [800, [[100, 0], [400, 500], [400, 0]]]);
    const tanks = [PORT, STBD, named('W', wedge), named('F', boxTank(2000, 1000, 50, place(200, 0, 0)))];
    const tank = fc.integer({ min: 0, max: 3 }).map((i) => tanks[i]!);
    const share = fc.double({ min: 0, max: 0.4, noNaN: true });
    fc.assert(fc.property(tank, tank, share, share, fc.double({ min: -0.5, max: 0.5, noNaN: true }), fc.double({ min: 0.002, max: 0.05, noNaN: true }), (a, b, one, other, heel, bore) => {
        const found = levelling({ tank: a, volume: one }, { tank: b, volume: other }, [{ bore, length: 2 }], OIL, { heel, trim: 0.02 });
        if (!found) return;
        expect([found.moved, found.seconds, found.first, found.height].every((value) => Number.isFinite(value))).toBe(true);
        expect([found.moved, found.seconds, found.first].every((value) => value >= 0)).toBe(true);
    }), { numRuns: 60 });
}, 30_000);

test('supplies that meet at a tee are no crossover, and do not make one two', async () => {
    const boat = await boatOf(`tank T1 {\n pickup P1\n pickup X1\n drop R1\n vent\n}\ntank T2 {\n pickup P1\n pickup X2\n vent\n}\nengine E1
supply course One from T1.P1 to E1 { hose S1   tee J1   filter F1 final }\nsupply course Two from T2.P1 to J1 { hose S2 }\nreturn course Back from E1 to T1.R1 { hose B1 }
transfer course Level from T1.X1 to T2.X2 { shutoff VX   hose X bore 19 mm length 3 m }\nline-up LEVEL run { VX open }\nline-up RUN run { VX shut }\n`);
    expect(lineUpsOf(boat).map(({ positions }) => crossovers(networkOf(boat), positions).map(({ parts, lacks }) => [[...parts].sort(), lacks]))).toEqual([[[['T1.X1', 'T2.X2', 'VX', 'X'], []]], []]);
});

test('of a boat: the pairs that one open line joins', async () => {
    const boat = await boatOf(`tank T1 {\n box 500 x 500 x 400 mm\n pickup X1 mouth at 10 mm up, 1 m fwd, 300 mm port\n vent\n}\ntank T2 {\n box 500 x 500 x 400 mm\n pickup X2 mouth at 20 mm up, 1 m fwd, 300 mm stbd\n vent\n}
transfer course Level from T1.X1 to T2.X2 {\n shutoff VX\n hose X bore 19 mm length 3 m\n tube Y bore 16 mm\n}\nline-up LEVEL transfer { VX open }\nline-up RUN run { VX shut }\n`);
    const [level, run] = lineUpsOf(boat).map(({ positions }) => crossovers(networkOf(boat), positions));
    expect(run).toEqual([]);
    expect(level!.map(({ tanks, mouths, pipes, lacks }) => [tanks.map(({ id }) => id), mouths.map((mouth) => mouth?.up?.si), pipes, lacks])).toEqual([
        [['T1', 'T2'], [0.01, 0.02], [{ bore: 0.019, length: 3 }], [{ about: 'Y', of: 'length' }]],
    ]);
});
