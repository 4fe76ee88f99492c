/** POLISH-TURNOVER: three turns of the tank in 24 h of pumping, from one end to the other. */
import { describe, expect, test } from 'vitest';
import { edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('POLISH-TURNOVER', texts);
/** T1 holds 1.0 x 0.8 x 0.5 m = 400 L, 380 L full: 3 turns are 1140 L, 47.5 L/h for 24 h. The places along it are from 2000 to 3000 mm fwd. */
const loop = (pump = 'electric pump EP1   gives 48 L/h', back = 2800): string => `vessel V { envelope level 10 to 95 % }
tank T1 { box 1000 x 800 x 500 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 0 mm stbd
  pickup P1
  pickup P2   mouth at 10 mm up, 2100 mm fwd, 400 mm stbd
  drop R1
  drop R2     mouth at 10 mm up, ${back} mm fwd, 400 mm stbd
}
engine E1
supply course Feed from T1.P1 to E1 { hose S1 }
return course Back from E1 to T1.R1 { hose B1 }
transfer course Polish from T1.P2 to T1.R2 { shutoff VP normally shut   hose H1   ${pump}   filter FP   hose H2 }
line-up RUN run is normal
line-up POLISH polish from RUN { VP open }
`;

test('48 L/h, and 47', async () => {
    expect(await rule(loop())).toEqual(['pass POLISH']);
    // 1140 / 47 = 24.26 h.
    expect(await rule(loop('electric pump EP1   gives 47 L/h'))).toEqual(['fail POLISH, advice: In POLISH EP1 moves 47 L/h: it takes 24.3 h to turn the 380 L of T1 over 3 times.']);
});
test('half of the length apart, 500 mm, and less', async () => {
    expect(await rule(loop(undefined, 2600))).toEqual(['pass POLISH']);
    expect(await rule(loop(undefined, 2590))).toEqual(['fail POLISH, advice: In POLISH the suction T1.P2 and discharge T1.R2 stand 49 % of the length of T1 apart.']);
    expect(await rule(loop('electric pump EP1   gives 47 L/h', 2200))).toEqual([expect.stringMatching(/24\.3 h .* Its suction T1\.P2 and its discharge T1\.R2 stand 10 % of the length of T1 apart\.$/)]);
});
test('of two pumps in a row the weaker counts', async () => {
    expect(await rule(loop('electric pump EP1   gives 90 L/h\n electric pump EP2   gives 47 L/h\n'))).toEqual([expect.stringContaining('In POLISH EP2 moves 47 L/h')]);
});
test('figures that are not exact: about 50 L/h may be 45: 1140 / 45 = 25.3 h', async () => {
    expect(await rule(loop('electric pump EP1   gives 50 L/h about'))).toEqual(['fail POLISH, advice: In POLISH EP1 moves 45 L/h: it takes 25.3 h to turn the 380 L of T1 over 3 times, if it moves as little as it may.']);
    expect(await rule(loop('electric pump EP1   gives 53 L/h about'))).toEqual(['pass POLISH']);
});
test('a tank by sections: from 2000 to 3000 mm fwd', async () => {
    const corners = 'corners 0 mm up 0 mm stbd, 0 mm up 800 mm stbd, 500 mm up 800 mm stbd, 500 mm up 0 mm stbd';
    const text = (back: number): string => edit(loop(undefined, back), 'box 1000 x 800 x 500 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 0 mm stbd', `\n  section at 2000 mm fwd   ${corners}\n  section at 3000 mm fwd   ${corners}`);
    expect(await rule(text(2600))).toEqual(['pass POLISH']);
    expect(await rule(text(2590))).toEqual([expect.stringMatching(/^fail POLISH, advice/)]);
});
describe('cannot tell', () => {
    test('what the pump gives', async () => expect(await rule(loop('electric pump EP1'))).toEqual(['cannot tell POLISH: what EP1 delivers']));
    test('the size', async () => expect(await rule(edit(loop(), 'box 1000 x 800 x 500 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 0 mm stbd', ''))).toEqual(['cannot tell POLISH: the size and height of T1']));
    test('where the fittings are', async () => expect(await rule(edit(loop(), 'drop R2     mouth at 10 mm up, 2800 mm fwd, 400 mm stbd', 'drop R2'))).toEqual(['cannot tell POLISH: where T1.R2 stands along and across the boat']));
});
describe('not applicable', () => {
    test('no such line-up', async () => expect(await rule(edit(loop(), 'POLISH polish', 'POLISH transfer'))).toEqual(['not applicable vessel: no line-up is for polishing']));
    test('the return of an engine polishes nothing', async () => {
        expect(await rule(edit(loop(), '{ VP open }', ''))).toEqual(['not applicable POLISH: no pump brings fuel back to the tank that it draws from, past all consumers']);
    });
});
