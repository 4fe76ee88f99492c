/** VENT-SELF-DRAIN: no stated place on a vent line lies in a pocket. What differs by less than 20 mm counts as level (trade practice). */
import { describe, expect, test } from 'vitest';
import { SLOOP, after, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('VENT-SELF-DRAIN', texts);
/** The vent leaves the tank at 600 mm. */
const line = (facts: string, text = SLOOP): string => edit(text, 'hose VH1     bore 16 mm', `hose VH1     bore 16 mm   ${facts}`);
const pocket = (what: string, mm: number, how = 'upright', about = 'VH1'): string => `fail ${about}, minor: The vent of T1 has a pocket: ${what} lies ${mm} mm lower than the line on both sides of it, ${how}.`;

test('a low below both its neighbours, upright', async () => {
    expect(await rule(line('low at 550 mm   crest at 1300 mm   outlet at 1200 mm'))).toEqual([pocket('the low point of VH1', 50)]);
    expect(await rule(line('low at 579 mm   outlet at 1200 mm'))).toEqual([pocket('the low point of VH1', 21)]);
    expect(await rule(line('low at 581 mm   outlet at 1200 mm'))).toEqual(['pass T1.vent']);
    expect(await rule(line('low at 600 mm   crest at 1300 mm   outlet at 1200 mm'))).toEqual(['pass T1.vent']);
});
test('it drains out where the outlet is lower', async () => expect(await rule(line('low at 550 mm   outlet at 540 mm'))).toEqual(['pass T1.vent']));
test('between two hoses', async () => {
    const two = (facts: string): string => after(line('crest at 1300 mm'), 'hose VH1 bore 16 mm crest at 1300 mm', `hose VH2   ${facts}   outlet at 1200 mm`);
    expect(await rule(two('low at 700 mm'))).toEqual([pocket('the low point of VH2', 500, 'upright', 'VH2')]); // 1200 is the lower side
    expect(await rule(two('low at 1190 mm'))).toEqual(['pass T1.vent']);
});
/*
 * The vent leaves the tank 600 mm to starboard, the outlet is 1000 mm to starboard; the line runs across to port on the way. At 20 degrees, sin 0.34202, cos 0.93969, and 5 of trim,
 * cos 0.99619, all three at one place along the boat. Heeled to port: the tank end 600 x 0.93969 + 600 x 0.34202 = 769.0, the low 650 x 0.93969 - 700 x 0.34202 = 371.4, 397.6 lower, x 0.99619 = 396.1.
 */
const ACROSS = (low: string): string => line(`low at ${low}   outlet at 1200 mm up, 2400 mm fwd, 1000 mm stbd`, edit(SLOOP, 'vent        at 600 mm', 'vent        at 600 mm up, 2400 mm fwd, 600 mm stbd'));
test('at a corner of the envelope', async () => {
    expect(await rule(ACROSS('650 mm up, 2400 mm fwd, 700 mm port'))).toEqual([pocket('the low point of VH1', 396, 'heeled 20° to port, bow 5° down')]);
    expect(await rule(ACROSS('650 mm up, 2400 mm fwd, 600 mm stbd'))).toEqual(['pass T1.vent']);
    // 50 mm under the tank end upright: that is told, however much deeper it is when she leans.
    expect(await rule(ACROSS('550 mm up, 2400 mm fwd, 700 mm port'))).toEqual([pocket('the low point of VH1', 50)]);
    expect(await rule(ACROSS('650 mm'))).toEqual(['pass T1.vent']); // where it is across is not known, and no more is said
});
describe('cannot tell', () => {
    test('an end of a line with a low', async () => {
        expect(await rule(line('low at 550 mm'))).toEqual(['cannot tell T1.vent: where the line of T1.vent ends']);
        expect(await rule(edit(line('low at 550 mm   outlet at 1200 mm'), 'vent        at 600 mm', 'vent'))).toEqual(['cannot tell T1.vent: the height of T1.vent']);
    });
});
test('a crest below its low', async () => expect(await rule(line('low at 1300 mm   crest at 550 mm   outlet at 1200 mm'))).toEqual([pocket('the crest of VH1', 50)]));
test('not applicable', async () => {
    expect(await rule(SLOOP)).toEqual(['not applicable T1.vent: no place on its line is written but its ends']);
    expect(await rule(edit(SLOOP, 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}', ''))).toEqual(['not applicable T1: no vent line of it is written']);
    expect(await rule(without(edit(SLOOP, 'tank T1 {', 'tank T1 carries coolant {'), 'vent at 600 mm'))).toEqual(['not applicable T1: it carries no fuel']);
});
