/** LIFT-STATIC: the height of the first pump over the lowest surface, at every lean. */
import { describe, expect, test } from 'vitest';
import { edit, example, said, type Texts } from './boats';
import { DRAWING } from './drawing';

const rule = (texts: Texts): Promise<string[]> => said('LIFT-STATIC', texts);
const lift = (most: string, text = DRAWING): string => edit(text, 'lift 450 mm', `lift ${most}`);

test('LP1 at 625 mm over the mouth of P1 at 225 mm: 400 mm', async () => {
    expect(await rule(lift('401 mm'))).toEqual(['pass E1']);
    expect(await rule(lift('399 mm'))).toEqual(['fail E1, major: LP1 of E1 can stand 400 mm above the surface that it draws from (upright, T1.P1 just wet, in RUN); 399 mm is what E1 allows.']);
});
test('not below the lowest level of the envelope', async () => {
    // 25 % of 400 mm is 100 mm above the bottom, at 300 mm: 325 mm up to LP1.
    const kept = edit(DRAWING, 'level 0 to 95 %', 'level 25 to 95 %');
    expect(await rule(lift('327 mm', kept))).toEqual(['pass E1']);
    expect((await rule(lift('320 mm', kept)))[0]).toMatch(/can stand 32[56] mm above .*T1 at 25 %, in RUN\)/); // 1.2 mm more as the surface leans 0.1° over 500 mm and 150 mm
});
test('at the worst corner', async () => {
    // LP1 500 mm to port of P1, heeled 20° to starboard: 400 cos 20° + 500 sin 20° = 375.9 + 171.0 = 546.9 mm.
    const leaning = edit(edit(DRAWING, 'heel 0.1 deg', 'heel 20 deg'), 'LP1 at 625 mm up, 2350 mm fwd, 700 mm stbd', 'LP1 at 625 mm up, 2350 mm fwd, 200 mm stbd');
    expect(await rule(lift('548 mm', leaning))).toEqual(['pass E1']);
    expect((await rule(lift('540 mm', leaning)))[0]).toMatch(/can stand 547 mm above .*\(heeled 20° to starboard, /);
});
test('an electric pump goes by what it lifts, also where it pushes another', async () => {
    const electric = (facts: string): string => edit(DRAWING, '  lift pump LP1', `  electric pump EP1   gives 60 L/h   ${facts}at 725 mm up, 2350 mm fwd, 700 mm stbd   when off passes\n  lift pump LP1`);
    expect(await rule(electric('lifts 501 mm   '))).toEqual(['pass E1']);
    expect(await rule(electric('lifts 450 mm   '))).toEqual(['fail EP1, major: EP1 of E1 can stand 500 mm above the surface that it draws from (upright, T1.P1 just wet, in RUN); 450 mm is what it lifts.']);
    expect(await rule(electric(''))).toEqual(['not applicable E1: its own pump is pushed, and nothing says what the pump before it lifts']);
});
// Worked vessel: 750 mm (6.18 kPa / 840 / g) at the corner, of 900.
test('the worked vessel', async () => {
    expect(await rule(example('ottilwake'))).toEqual(['pass E1']);
    const lines = example('ottilwake') as Record<string, string>;
    expect((await rule({ ...lines, 'boat.orlop': edit(lines['boat.orlop']!, 'lift 900 mm', 'lift 749 mm') }))[0]).toMatch(/^fail E1, major: LP1 of E1 can stand 750 mm above .*\(heeled 25° to starboard, bow 3° up, T1\.P1 just wet, in RUN\)/);
});

describe('cannot tell, or nothing to tell', () => {
    test('what is allowed', async () => {
        expect(await rule(edit(DRAWING, 'limits inlet 15 kPa   lift 450 mm   return 6 kPa', ''))).toEqual(["cannot tell E1: the maker's limits of E1: suction, lift, and back-pressure in the return"]);
        expect(await rule(edit(DRAWING, 'lift 450 mm', ''))).toEqual(['not applicable E1: no lift is stated; the suction that is allowed has the height in it (see SUCTION-BUDGET)']);
    });
    test('a height, a place, a shape, a lean', async () => {
        expect(await rule(edit(DRAWING, 'LP1 at 625 mm up, 2350 mm fwd, 700 mm stbd', 'LP1'))).toEqual(['cannot tell E1: the height of the ports of LP1']);
        expect(await rule(edit(DRAWING, 'LP1 at 625 mm up, 2350 mm fwd, 700 mm stbd', 'LP1 at 625 mm'))).toEqual(['cannot tell E1: where LP1 stands along and across the boat']);
        expect(await rule(edit(DRAWING, '  box 1000 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 550 mm stbd\n', ''))).toEqual(['cannot tell E1: the size and height of T1']);
        expect(await rule(edit(DRAWING, 'envelope heel 0.1 deg   trim 0.1 deg   level 0 to 95 %   fuel 15 to 40 degC', ''))).toEqual(['cannot tell E1: the heel and trim that she must work in']);
    });
    test('nothing feeds it', async () => expect(await rule(edit(DRAWING, 'normally open', 'normally shut'))).toEqual(['not applicable E1: no tank feeds it in a line-up for running (see PATH-ONE)']));
});
