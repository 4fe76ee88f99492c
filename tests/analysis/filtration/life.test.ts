/** How long an element lasts, against worked figures. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lifeOf } from '../../../src/analysis/filtration/life';

const L = 1e-3;
const H = 3600;
/** 30 g, 0.84 kg/L, 60 L/h. */
const FUEL = { drawn: { si: 60 * L / H }, density: { si: 840 } };

describe('the life of an element', () => {
    test('by what is taken: 24 mg/kg and 95 %', () => {
        // 30 000 mg / (24 mg/kg x 0.84 kg/L x 0.95) = 30 000 / 19.152 = 1566.4 L; / 60 L/h = 26.1 h.
        const life = lifeOf({ capacity: { si: 0.03 } }, FUEL)!;
        expect(life.volume.si / L).toBeCloseTo(1566.4, 1);
        expect(life.shortest.si / H).toBeCloseTo(26.1, 1);
        // Dirtiest 24 mg/kg, all held: 30 000 / (24 x 0.84) = 1488.1 L; cleanest 10 mg/kg, 80 % held: 30 000 / (10 x 0.84 x 0.8) = 4464.3 L.
        expect([life.volume.least / L, life.volume.most / L].map((value) => Number(value.toFixed(1)))).toEqual([1488.1, 4464.3]);
        expect(life.longest).toBeUndefined();
        expect(life.taken).toHaveLength(3);
        expect(life.taken.join()).toMatch(/24 mg\/kg.*EN 590.*95 %.*comes back/);
    });

    // 30 000 / (10 x 0.84 x 0.95) = 30 000 / 7.98 = 3759.4 L.
    test('10 mg/kg', () => {
        const life = lifeOf({ capacity: { si: 0.03 } }, { ...FUEL, dirt: { si: 10e-6 } })!;
        expect(life.volume.si / L).toBeCloseTo(3759.4, 1);
        expect(life.taken.join()).not.toMatch(/24 mg/);
    });

    test('only what is burnt brings new dirt: so much longer as more is drawn than burnt', () => {
        // 1566.4 L / 15 L/h = 104.4 h.
        const life = lifeOf({ capacity: { si: 0.03 } }, { ...FUEL, burnt: { si: 15 * L / H } })!;
        expect(life.longest!.si / H).toBeCloseTo(104.4, 1);
    });
    test('more burnt than drawn is a slip, and tells nothing', () => expect(lifeOf({ capacity: { si: 0.03 } }, { ...FUEL, burnt: { si: 70 * L / H } })!.longest).toBeUndefined());

    test('beta 200 holds 99.5 %', () => {
        // 30 000 / (24 x 0.84 x 0.995) = 30 000 / 20.0592 = 1495.6 L.
        const life = lifeOf({ capacity: { si: 0.03 }, beta: 200 }, FUEL)!;
        expect(life.volume.si / L).toBeCloseTo(1495.6, 1);
        expect(life.taken.join()).toMatch(/beta/);
    });

    // About 30 g is 27 to 33 g: 27 000 / (24 x 0.84 x 1) = 1339.3 L at the least, with 24 mg/kg stated.
    test('about is a tenth either way', () => expect(lifeOf({ capacity: { si: 0.03, about: true } }, { ...FUEL, dirt: { si: 24e-6 } })!.volume.least / L).toBeCloseTo(1339.3, 1));

    test('behind another filter it lasts longer, and that is told', () => expect(lifeOf({ capacity: { si: 0.03 }, follows: true }, FUEL)!.taken.at(-1)).toMatch(/filters before it/));

    test('figures that are none give none', () => {
        const any = fc.record({ si: fc.oneof(fc.double(), fc.constantFrom(0, -1, NaN, Infinity, 1e-320, 1e308)) });
        fc.assert(fc.property(any, any, any, any, fc.option(fc.double(), { nil: undefined }), (capacity, drawn, dirt, density, beta) => {
            const life = lifeOf({ capacity, ...(beta !== undefined && { beta }) }, { drawn, dirt, density, burnt: drawn });
            for (const span of life ? [life.volume, life.shortest, ...(life.longest ? [life.longest] : [])] : []) for (const value of Object.values(span)) expect(Number.isFinite(value) && value > 0).toBe(true);
        }));
        expect(lifeOf({ capacity: { si: 0.03 }, beta: 1 }, FUEL)).toBeUndefined();
        expect(lifeOf({ capacity: { si: 0 } }, FUEL)).toBeUndefined();
    });
});
