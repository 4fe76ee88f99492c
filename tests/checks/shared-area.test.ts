/** SHARED-AREA: areas go by the squares of the bores, so a leg of d mm takes branches of a and b mm when d² is no less than a² + b². */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('SHARED-AREA', texts);
/** One pickup and one hose, then a tee, a hose of 6 mm to the engine and one of `b` to the generator. */
const manifold = (leg: string, a: string, b: string, more = ''): string => `tank T1 { pickup P1 bore 12 mm }\nengine E1\ngenerator GN
supply course Main from T1.P1 to E1 { shutoff V1 normally open   hose S1 ${leg}   tee J1   shutoff V2 normally open   hose S2 ${a} }
supply course Gen from J1 to GN { hose G1 ${b} }
line-up RUN run is normal${more}\n`;

// 10² = 6² + 8² = 100. 9.9² = 98.01. Areas: π/4 x 98.01 = 76.98 mm², π/4 x 100 = 78.54 mm².
test('10 mm feed 6 and 8 mm; 9.9 mm do not', async () => {
    expect(await rule(manifold('bore 10 mm', 'bore 6 mm', 'bore 8 mm'))).toEqual(['pass S1']);
    expect(await rule(manifold('bore 9.9 mm', 'bore 6 mm', 'bore 8 mm'))).toEqual(['fail S1, minor: E1 and GN draw through S1 together in RUN: its 9.9 mm bore has 77 mm², and the branches to E1 (S2, 6 mm) and to GN (G1, 8 mm) 78.5 mm².']);
});
test('the smallest pipe of a leg and of a branch counts', async () => {
    expect(await rule(edit(manifold('bore 10 mm', 'bore 6 mm', 'bore 8 mm'), 'tee J1', 'tube S1b bore 9 mm   tee J1'))).toEqual([expect.stringMatching(/^fail S1b, minor: .* its 9 mm bore/)]);
    // 9² = 81 takes 6² + 6.7² = 80.89.
    expect(await rule(edit(manifold('bore 9 mm', 'bore 6 mm', 'bore 8 mm'), 'hose G1 bore 8 mm', 'hose G1 bore 8 mm   hose G2 bore 6.7 mm'))).toEqual(['pass S1']);
});
test('only those that run together', async () => {
    const text = manifold('bore 9 mm', 'bore 6 mm', 'bore 8 mm', ' { GN stopped }\nline-up NIGHT run { E1 stopped }');
    expect(await rule(text)).toEqual(['not applicable vessel: no two consumers draw through one leg at the same time']);
    expect(await rule(`${text}line-up BOTH run\n`)).toEqual([expect.stringMatching(/^fail S1, minor: E1 and GN draw through S1 together in BOTH/)]);
});
test('a shared pickup counts where no pipe is shared: 8 mm against 6 and 6, 64 < 72; 9 mm, 81', async () => {
    const text = (bore: string): string => `tank T1 { pickup P1 bore ${bore} }\nengine E1\ngenerator GN\nsupply course Main from T1.P1 to E1 { tee J1   hose S2 bore 6 mm }\nsupply course Gen from J1 to GN { hose G1 bore 6 mm }\n`;
    expect(await rule(text('9 mm'))).toEqual(['pass T1.P1']);
    expect(await rule(text('8 mm'))).toEqual([expect.stringMatching(/^fail T1.P1, minor: E1 and GN draw through T1.P1 together in RUN/)]);
});
test('three of them: the leg of all, and the leg of two', async () => {
    // 14² = 196 < 10² + 8² + 6² = 200; 11² = 121 > 8² + 6² = 100. π/4 x 196 = 153.9 mm², π/4 x 200 = 157.1 mm².
    const text = `tank T1 { pickup P1 bore 16 mm }\nengine E1\ngenerator GN\nheater HE1
supply course Main from T1.P1 to E1 { hose S1 bore 14 mm   tee J1   hose S2 bore 10 mm }
supply course Small from J1 to GN { hose S3 bore 11 mm   tee J2   hose G1 bore 8 mm }
supply course Heat from J2 to HE1 { hose H1 bore 6 mm }\n`;
    expect(await rule(text)).toEqual([expect.stringMatching(/^fail S1, minor: E1, GN and HE1 draw .* 154 mm², and the branches .* 157 mm²\.$/), 'pass S3']);
});
test('figures that are not exact: about 10.5 mm may be 9.45 mm', async () => {
    expect(await rule(manifold('bore 10.5 mm about', 'bore 6 mm', 'bore 8 mm'))).toEqual([expect.stringMatching(/^fail S1, advice: .*, and not all of these bores are exact\.$/)]);
    expect(await rule(manifold('bore 11.2 mm about', 'bore 6 mm', 'bore 8 mm'))).toEqual(['pass S1']);
});
test('cannot tell', async () => expect(await rule(manifold('', 'bore 6 mm', ''))).toEqual(['cannot tell S1: the bore of S1; the bore of G1']));
describe('not applicable', () => {
    test('one consumer, and two with supplies of their own', async () => {
        for (const text of [SLOOP, `${SLOOP}tank T2 { pickup P1 }\ngenerator GN\nsupply course Gen from T2.P1 to GN { hose G1 }\n`]) expect(await rule(text)).toEqual(['not applicable vessel: no two consumers draw through one leg at the same time']);
    });
});
