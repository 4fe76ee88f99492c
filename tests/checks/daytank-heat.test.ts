/** DAYTANK-HEAT: how warm a day tank tends to be. */
import { describe, expect, test } from 'vitest';
import { edit, said, type Texts } from './boats';
import { DAY_TANK } from './day-tank-boat';

const rule = (texts: Texts): Promise<string[]> => said('DAYTANK-HEAT', texts);
/*
 * It is topped up with 5 L/h of fuel and takes back 15 L/h that are 15 K warmer: it tends to 15 x 15 / 5 = 45 K above what it is topped up with. From 5 to 20 °C: 50 to 65 °C, 57.5 as
 * it is likely.
 */
test('the steady temperature', async () => {
    expect(await rule(DAY_TANK)).toEqual(['pass DT']);
    expect((await rule(edit(DAY_TANK, 'limits fuel 70 degC', 'limits fuel 60 degC')))[0]).toMatch(/^fail DT, advice: With E1 at full speed DT may grow as warm as 65 °C; E1 allows 60 °C\./);
    expect((await rule(edit(DAY_TANK, 'limits fuel 70 degC', 'limits fuel 55 degC')))[0]).toMatch(/^fail DT, minor: With E1 at full speed DT may grow as warm as 57\.5 °C; E1 allows 55 °C\./);
});
test('the soonest that it may be there: nobody need top it up', async () => {
    // 76 L, 95 % of 80, from 20 °C: 76 / 5 x (1 - e^(-35 / 45)) = 8.22 h. Topped up all the while 76 / 5 x ln(45 / 10) = 22.9 h.
    expect((await rule(edit(DAY_TANK, 'limits fuel 70 degC', 'limits fuel 55 degC')))[0]).toMatch(/It may be there after 8\.2 h\.$/);
});
describe('cannot tell', () => {
    test('each fact', async () => {
        expect(await rule(edit(DAY_TANK, 'returns 55 degC at 40 degC', ''))).toEqual(['cannot tell DT: how warm the return of E1 is']);
        expect(await rule(edit(DAY_TANK, 'limits fuel 70 degC', ''))).toEqual(['cannot tell DT: how warm the fuel of E1 may be']);
        expect(await rule(edit(DAY_TANK, 'burns 5 L/h at 2000 rpm', ''))).toEqual(['cannot tell DT: what E1 burns at that speed']);
        expect(await rule(edit(DAY_TANK, 'draws 20 L/h at 2000 rpm', ''))).toEqual(['cannot tell DT: the gross flow of E1']);
        expect(await rule(edit(DAY_TANK, '   fuel 5 to 20 degC', ''))).toEqual(['cannot tell DT: how warm the fuel on board is']);
    });
});
test('a return to the main tank warms no day tank', async () => {
    expect(await rule(edit(edit(DAY_TANK, 'from E1 to DT.R1', 'from E1 to T1.R3'), '  drop R1\n  vent\n  fill', '  drop R1\n  drop R3\n  vent\n  fill'))).toEqual(['not applicable vessel: no tank that a transfer course fills takes a return']);
});
