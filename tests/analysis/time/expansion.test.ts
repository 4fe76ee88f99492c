/** Warming, against the table of volume correction factors of the API for 840 kg/m³ at 15 °C: 1 at 15, 0.978778 at 40 °C. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { expansionOf, growth, warmed } from '../../../src/analysis/time/expansion';
import { boxTank, place } from '../tanks-shapes';

const VCF = (kelvin: number): number | undefined => new Map([[288.15, 1], [293.15, 0.995776], [313.15, 0.978778]]).get(kelvin);

// 1000 L / 0.978778 = 1021.68 L.
test('a full tank of 1000 L from 15 to 40 °C: 21.68 L run out', () => {
    const found = warmed(1, 1, growth(VCF, 288.15, 313.15)!)!;
    expect([found.volume, found.over, found.room].map((volume) => Number((volume * 1e3).toFixed(2)))).toEqual([1021.68, 21.68, 0]);
    // Filled to 0.978778 of it, it is then full to the lid.
    expect(found.fillTo).toBeCloseTo(0.978778, 6);
});
// At 95 %: 950 x 1.0216821 = 970.60 L, 29.40 L of room. From 20 °C: 950 x 0.995776/0.978778 = 966.50 L, 33.50 L.
test('filled to 95 % nothing does', () => {
    const tank = boxTank(2000, 1000, 500, place(0, 0, 0));
    expect(expansionOf(tank, 0.95, 288.15, 313.15, VCF)!.room * 1e3).toBeCloseTo(29.4, 2);
    expect(expansionOf(tank, 0.95, 293.15, 313.15, VCF)!.room * 1e3).toBeCloseTo(33.5, 2);
});
test('cooled it makes room', () => expect(warmed(1, 1, growth(VCF, 313.15, 288.15)!)).toMatchObject({ over: 0, room: expect.closeTo(0.021222, 6), fillTo: 1 }));
test('outside the tables, or of no tank, nothing', () => {
    expect(growth(VCF, 288.15, 300)).toBeUndefined();
    expect(warmed(0, 0, 1.02)).toBeUndefined();
    expect(warmed(1, 2, 1.02)).toBeUndefined();
    expect(expansionOf({ id: 'T1', fittings: [] }, 0.95, 288.15, 313.15, VCF)).toBeUndefined();
    fc.assert(fc.property(fc.double(), fc.double(), fc.double(), (gross, volume, by) => { for (const value of Object.values(warmed(gross, volume, by) ?? {})) expect(Number.isFinite(value)).toBe(true); }));
    fc.assert(fc.property(fc.double(), fc.double(), (a, b) => { const found = growth((kelvin) => (kelvin < 0 ? a : b), -1, 1); if (found !== undefined) expect(Number.isFinite(found)).toBe(true); }));
});
