/** PICKUP-RANK: the engine has the lowest pickup; generator 40 mm higher (common practice), heater higher than that. */
import { describe, expect, test } from 'vitest';
import { edit, said, without, type Texts } from './boats';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('PICKUP-RANK', texts, about);
/** The bottom of T1 is at 200 mm: mouths at 225, 265 and 280 mm. */
const RANKED = `vessel Rankwake
tank T1 {
  box 800 x 600 x 400 mm   low aft inner corner at 200 mm
  pickup P1   mouth at 25 mm off bottom
  pickup P2   mouth at 65 mm off bottom
  pickup P3   mouth at 80 mm off bottom
  vent
}
engine E1
generator GN
heater HE
supply course Feed from T1.P1 to E1 { shutoff V1   normally open }
supply course GenFeed from T1.P2 to GN { electric pump EP1   when off blocks }
supply course HeatFeed from T1.P3 to HE { shutoff V3   normally open }
line-up RUN run is normal
`;
const mouths = (...heights: number[]): string => RANKED.replace(/at \d+ mm off bottom/g, () => `at ${heights.shift()!} mm off bottom`);

test('engine, generator, heater, from below', async () => {
    expect(await rule(RANKED)).toEqual(['pass T1.P2', 'pass T1.P3']);
    expect(await rule(mouths(25, 64, 80))).toEqual(['fail T1.P2, minor: The mouth of T1.P2, from which GN draws, is 39 mm higher than T1.P1, from which E1 draws in RUN; it should be at least 40 mm higher.', 'pass T1.P3']);
    expect((await rule(mouths(65, 65, 80)))[0]).toMatch(/^fail T1.P2, minor: The mouth of T1.P2, from which GN draws, is as low as T1.P1/);
    expect((await rule(mouths(65, 25, 80)))[0]).toMatch(/is 40 mm lower than T1.P1/);
});
test('a heater stands higher than the generator', async () => {
    expect(await rule(mouths(25, 65, 65), 'T1.P3')).toEqual(['fail T1.P3, minor: The mouth of T1.P3, from which HE draws, is as low as T1.P2, from which GN draws in RUN; it should be higher.']);
    expect(await rule(mouths(25, 65, 66), 'T1.P3')).toEqual(['pass T1.P3']);
});
test('a heater without a generator stands higher than the engine', async () => {
    const two = (heater: number): string => edit(edit(mouths(25, 65, heater), 'generator GN', ''), 'supply course GenFeed from T1.P2 to GN { electric pump EP1   when off blocks }', '');
    expect(await rule(two(25))).toEqual(['fail T1.P3, minor: The mouth of T1.P3, from which HE draws, is as low as T1.P1, from which E1 draws in RUN; it should be higher.']);
    expect(await rule(two(26))).toEqual(['pass T1.P3']);
});
test('one pickup for both', async () => {
    expect(await rule(edit(RANKED, 'GenFeed from T1.P2 to GN {', 'GenFeed from J1 to GN {').replace('E1 { shutoff V1   normally open }', 'E1 {\n  shutoff V1   normally open\n  tee J1\n}'), 'T1.P1'))
        .toEqual(['fail T1.P1, minor: GN draws from the same pickup as E1, T1.P1 (in RUN).']);
});
test('another tank is another matter, unless an open line joins them', async () => {
    const apart = (vx: string): string => `${edit(mouths(25, 45, 80), 'Feed from T1.P1 to E1', 'Feed from T2.P1 to E1')}tank T2 {
  box 800 x 600 x 400 mm   low aft inner corner at 200 mm
  pickup P1   mouth at 25 mm off bottom
  pickup P4
  vent
}
transfer course Cross from T1.P1 to T2.P4 { shutoff VX   normally ${vx} }
`;
    expect(await rule(apart('shut'), 'T1.P2')).toEqual([]);
    expect((await rule(apart('open'), 'T1.P2'))[0]).toMatch(/^fail T1.P2, minor: The mouth of T1.P2, from which GN draws, is 20 mm higher than T2.P1/);
    // An overflow near the top of the engine's tank cannot empty it below the engine's mouth.
    expect(await rule(edit(apart('open'), 'pickup P4', 'pickup P4   mouth at 390 mm off bottom'), 'T1.P2')).toEqual([]);
});
test('only what draws in a line-up for running', async () => expect(await rule(edit(mouths(25, 45, 80), 'supply course GenFeed from T1.P2 to GN {', 'supply course GenFeed from T1.P2 to GN { shutoff V2   normally shut\n'), 'T1.P2')).toEqual([]));

describe('cannot tell', () => {
    test('a mouth', async () => expect(await rule(edit(RANKED, '   mouth at 65 mm off bottom', ''))).toEqual(['cannot tell T1.P2: the height of the mouth of T1.P2', 'cannot tell T1.P3: the height of the mouth of T1.P2']));
    test('the tank that `off bottom` counts from', async () => {
        expect((await rule(without(RANKED, 'box 800 x 600 x 400 mm low aft inner corner at 200 mm')))[0]).toBe('cannot tell T1.P2: the height of the mouth of T1.P2; the height of the mouth of T1.P1');
    });
    test('but what is too low for one is too low', async () => {
        expect((await rule(edit(mouths(25, 65, 20), '   mouth at 65 mm off bottom', ''), 'T1.P3'))[0]).toMatch(/^fail T1.P3, minor: .* is 5 mm lower than T1.P1/);
    });
});
test('not applicable: engines alone', async () => {
    expect(await rule(RANKED.replace(/generator GN\nheater HE\n/, '').replace(/supply course (Gen|Heat)Feed.*\n/g, ''))).toEqual(['not applicable vessel: no generator or heater draws from a tank that an engine, or a generator, draws from too']);
    expect(await rule(edit(RANKED, 'tank T1 {', 'tank T1 carries coolant {'))).toHaveLength(1);
});
