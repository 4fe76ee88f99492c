/** The air in the vent line while a tank is filled, by hand from the formula of Darcy and Weisbach. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fillingsOf, MOUTH_K, ventPressure } from '../../../src/analysis/time/filling';
import { edit, SLOOP } from '../../checks/boats';
import { boatOf } from './boats';

/** 12 US gal/min = 12 x 3.785411784 L/60 s = 0.757082 L/s: a derived vector, as much air as fuel. */
const RATE = 12 * 3.785411784e-3 / 60;

describe('ventPressure', () => {
    /*
     * 16 mm: A = 201.062 mm², v = 3.76542 m/s, Re = v D/ν = 4016.4, just turbulent: Swamee and Jain with ε/D = 1.5e-6/0.016: 0.25/log₁₀(2.534e-5 + 5.74/4016.4^0.9)² =
     * 0.25/log₁₀(0.0033021)² = 0.25/2.48121² = 0.040608. 2 m: f L/D = 5.0760. ρv²/2 = 0.6 x 14.1784 = 8.5070 Pa. (5.0760 + 1.5 + 1.5) x 8.5070 = 68.70 Pa.
     */
    test('16 mm x 2 m with a crest: 68.7 Pa', () => expect(ventPressure([{ bore: 0.016, length: 2 }], RATE, MOUTH_K + 1.5)).toBeCloseTo(68.7, 1));
    // 9.525 mm: v = 10.6248 m/s, ρv²/2 = 67.732 Pa; the mouths alone 1.5 x 67.732 = 101.60 Pa.
    test('mouths alone', () => expect(ventPressure([{ bore: 0.009525, length: 0 }], RATE, MOUTH_K)).toBeCloseTo(101.6, 1));
    // Laminar at a hundredth of it: v = 0.0376542, Re 40.164, f = 1.59346, f L/D = 199.18; ρv²/2 = 8.5070e-4: (199.18 + 1.5) x 8.5070e-4 = 0.17072 Pa.
    test('slowly', () => expect(ventPressure([{ bore: 0.016, length: 2 }], RATE / 100, MOUTH_K)).toBeCloseTo(0.1707, 4));
    test('one after the other, and a narrow fitting', () => {
        const [one, other] = [{ bore: 0.016, length: 2 }, { bore: 0.012, length: 1 }];
        expect(ventPressure([one, other], RATE, 0)).toBeCloseTo(ventPressure([one], RATE, 0)! + ventPressure([other], RATE, 0)!, 9);
        // The mouths count in the narrowest: (16/8)⁴ = 16 times.
        expect(ventPressure([one, { bore: 0.008, length: 0 }], RATE, 1.5)! - ventPressure([one], RATE, 0)!).toBeCloseTo(16 * 1.5 * 8.507, 1);
    });
    test('no pipe, no figure', () => {
        expect(ventPressure([], RATE, 1.5)).toBeUndefined();
        fc.assert(fc.property(fc.double(), fc.double(), fc.double(), fc.double(), (bore, length, rate, k) => { const found = ventPressure([{ bore, length }], rate, k); if (found !== undefined) expect(Number.isFinite(found)).toBe(true); }), { numRuns: 2000 });
    });
});

describe('of a boat', () => {
    const filled = (takes = 'takes 45 L/min', hose = 'bore 16 mm   length 2 m   crest at 1500 mm', tested = 'tested 25 kPa on 2019'): string =>
        edit(edit(edit(SLOOP, 'fill        ends at the top', `fill        ends at the top   ${takes}`), 'hose VH1     bore 16 mm', `hose VH1   ${hose}`), 'pickup P1   bore 8 mm', `${tested}\n  pickup P1   bore 8 mm`);
    test('80 % of 25 kPa are 20 kPa; 45 L/min of air take 67.5 Pa', async () => {
        const [found] = fillingsOf(await boatOf(filled()));
        expect(found).toMatchObject({ tank: 'T1', parts: ['VH1'], lacks: [] });
        expect(found!.allowed).toBeCloseTo(20_000, 6);
        // (45/45.4249)² of 68.70 is 67.42; f goes with about Re^-0.25, 0.24 % up, of which friction's 43.2 Pa make 0.10: 67.52.
        expect(found!.pressure!.si).toBeCloseTo(67.52, 1);
    });
    test('what is lacking', async () => {
        expect(fillingsOf(await boatOf(filled('', 'bore 16 mm', '')))[0]!.lacks).toEqual([{ about: 'T1.fill', of: 'takes' }, { about: 'T1', of: 'tested' }, { about: 'VH1', of: 'length' }]);
        expect(fillingsOf(await boatOf(edit(filled(), 'vent course Breather from T1 to air {\n  hose VH1   bore 16 mm   length 2 m   crest at 1500 mm\n}\n', '')))[0]!.lacks).toEqual([{ about: 'T1', of: 'line' }]);
    });
});
