/** EXPANSION: filled to 95 %, so that fuel can grow warm. */
import { expect, test } from 'vitest';
import { growth } from '../../src/checks/rules/expansion';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('EXPANSION', texts);
const level = (words: string): string => edit(SLOOP, 'level 10 to 95 %', words);

/*
 * API MPMS 11.1 for 840 kg/m³ at 15 °C: α = 186.9696 / 840² + 0.4862 / 840 = 0.00026498 + 0.00057881 = 0.00084379 in a kelvin. From 15 to 40 °C: α ΔT = 0.0210947,
 * exp(0.0210947 x (1 + 0.8 x 0.0210947)) = exp(0.0214507) = 1.02168: 1000 L become 1021.68 L, the table's own figure. By 20 K: 0.0168758 x 1.0135006 = 0.0171036, 1.01725.
 */
test('1000 L at 15 °C are 1021.68 L at 40 °C', () => {
    expect(1000 * (1 + growth(25))).toBeCloseTo(1021.68, 2);
    expect(growth(20)).toBeCloseTo(0.01725, 5);
    expect(growth(0)).toBe(0);
});
/* T1 holds 0.8 x 0.6 x 0.4 m = 192 L. At 96 % 184.32 L grow by 3.18 L, with 7.68 L of room; at 99 % 190.08 L grow by 3.28 L, with 1.92 L: 1.36 L come out. */
test('95 %, and more', async () => {
    expect(await rule(SLOOP)).toEqual(['pass vessel']);
    expect(await rule(level('level 10 to 96 %'))).toEqual(['fail vessel, advice: The envelope lets T1 be filled to 96 %. Warmed by 20 degrees fuel grows by about 1.7 %: 3.2 L more in T1, which has room for 7.7 L.']);
    expect(await rule(level('level 10 to 99 %'))).toEqual(['fail vessel, advice: The envelope lets T1 be filled to 99 %. Warmed by 20 degrees fuel grows by about 1.7 %: 1.4 L come out of T1.']);
});
test('from the coldest fuel of the envelope to the warmest, where it says so', async () => {
    // 0 to 45 °C: α x 15 = 0.0126568, exp(0.0126568 x (1 - 0.8 x 0.0126568)) = 1.012608; α x 30 = 0.0253137, exp(0.0253137 x (1 + 0.8 x 0.0253137)) = 1.026163. 1.012608 x 1.026163 = 1.0391.
    // At 98 % 188.16 L grow by 7.36 L, with 3.84 L of room: 3.52 L come out. Of 20 degrees it would be 3.2 L, and all would fit.
    expect(await rule(level('level 10 to 98 %   fuel 0 to 45 degC'))).toEqual(['fail vessel, advice: The envelope lets T1 be filled to 98 %. From the coldest fuel of the envelope, 0 °C, to the warmest, 45 °C, it grows by about 3.9 %: 3.5 L come out of T1.']);
});
test('one level is one finding, whatever the tanks', async () => {
    expect(await rule(`${level('level 10 to 98 %')}tank T2 { vent }\ntank WT carries heating water { vent }\n`)).toEqual([expect.stringMatching(/^fail vessel, advice: The envelope lets T1 and T2 be filled to 98 %\./)]);
    expect(await rule('vessel V { envelope level 10 to 98 % }\ntank T1 { vent }\n')).toEqual(['fail vessel, advice: The envelope lets T1 be filled to 98 %. Warmed by 20 degrees fuel grows by about 1.7 %: 2 % of room is left.']);
});
test('cannot tell', async () => expect(await rule(level(''))).toEqual(['cannot tell vessel: the highest tank level']));
test('not applicable', async () => expect(await rule('tank T1 carries heating water { vent }\n')).toEqual(['not applicable vessel: no tank for fuel is written']));
