/** SIPHON-BREAK: a check at the tank that stands in for a shutoff must hold the head. */
import { describe, expect, test } from 'vitest';
import { after, edit, said, without, type Texts } from './boats';
import { DAY_TANK } from './day-tank-boat';
import { HALF } from './half-full';

const rule = (texts: Texts, part = 'S1'): Promise<string[]> => said('SIPHON-BREAK', texts, part);
/** T1 of SLOOP, half full, and an engine level with its fitting, both well above it; S1 runs down between them. */
const run = (low: string, first: string): string => `
vessel V { envelope heel 20 deg   trim 5 deg   level 50 % }
tank T1 {
  box 800 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd
  pickup P1   mouth at 225 mm up, 2400 mm fwd, 600 mm stbd   top at 900 mm up, 2400 mm fwd, 600 mm stbd
  vent
}
engine E1 { inlet at 900 mm up, 2400 mm fwd, 600 mm stbd }
supply course Feed from T1.P1 to E1 {
  ${first}hose S1   low at ${low}
}
line-up RUN run is normal
`;
const LOW = '240 mm up, 2400 mm fwd, 600 mm stbd';

/*
 * The low point is in the middle of the tank's length and breadth, 400 - 240 = 160 mm under the middle of the surface. Upright that is 160 mm; heeled
 * 160 cos 20 cos 5 = 150 mm. The heaviest fuel of EN 590, 845 kg/m3, is 849.94 at 8 °C (tests/analysis/flow/fuel.test.ts), and 849.94 x 9.80665 x 0.160 m = 1334 Pa.
 */
test('an anti-siphon check holds 160 mm of fuel or it does not', async () => {
    expect(await rule(run(LOW, 'check CV1   cracks 1.34 kPa\n  '), 'CV1')).toEqual(['pass CV1']);
    // 1.15 kPa hold 138.0 mm; 22.0 mm are left, more than counts as level.
    expect(await rule(run(LOW, 'check CV1   cracks 1.15 kPa\n  '), 'CV1')).toEqual(['fail CV1, major: CV1 holds back too little to stop a siphon: S1 lies up to 160 mm below what T1 can hold (upright, T1 at 50 %, in RUN), which takes 1.34 kPa, and what stands between opens at 1.15 kPa.']);
});
test('behind the low point it holds nothing', async () => {
    expect(await rule(after(run(LOW, ''), `hose S1 low at ${LOW}`, '  check CV1   at 900 mm up, 2400 mm fwd, 600 mm stbd   cracks 5 kPa'))).toEqual(['fail S1, major: Nothing at the fitting of T1 stops a siphon: S1 lies up to 160 mm below what T1 can hold (upright, T1 at 50 %, in RUN).']);
});
test('a shutoff at the tank', async () => expect(await rule(run(LOW, 'shutoff V1   normally open\n  '), 'V1')).toEqual(['pass V1']));
test('no shutoff and no check is SHUT-AT-TANK\'s', async () => {
    expect(await rule(run(LOW, ''))).toEqual(['not applicable S1: no shutoff stands at the tank (see SHUT-AT-TANK)']);
    expect((await said('SHUT-AT-TANK', run(LOW, ''), 'S1'))[0]).toMatch(/^fail S1/);
});

describe('a transfer line has no other rule', () => {
    /** A second tank far above, filled from T1 by a line that runs below its surface, or well above it. */
    const line = (low: string, first: string): string => `${edit(HALF, '  drop R1     bore 8 mm', '  drop R1     bore 8 mm\n  pickup P2   mouth at 225 mm up, 2400 mm fwd, 600 mm stbd   top at 900 mm up, 2400 mm fwd, 600 mm stbd')}
tank T2 {
  drop R1   top at 900 mm up, 2400 mm fwd, 600 mm stbd
  vent
}
supply course Transfer from T1.P2 to T2.R1 {
  ${first}hose X1   low at ${low}
}
`.replace('supply course Transfer', 'transfer course Transfer');
    test('below the surface, and above', async () => {
        expect(await rule(line(LOW, ''), 'X1')).toEqual(['fail X1, major: Nothing at the fitting of T1 stops a siphon: X1 lies up to 160 mm below what T1 can hold (upright, T1 at 50 %, in RUN).']);
        expect(await rule(line(LOW, 'shutoff V7   normally open\n  '), 'V7')).toEqual(['pass V7']);
        expect(await rule(line('800 mm up, 2400 mm fwd, 600 mm stbd', ''), 'X1')).toEqual(['pass X1']);
    });
    test('cannot tell', async () => expect(await rule(line('800 mm', ''), 'X1')).toEqual(['cannot tell X1: where the ends and the lowest point of X1 stand along and across the boat']));
});
describe('cannot tell', () => {
    test('what the check opens at', async () => expect(await rule(run(LOW, 'check CV1\n  '), 'CV1')).toEqual(['cannot tell CV1: the pressure at which CV1 opens']));
    test('heights', async () => expect(await rule(edit(HALF, 'shutoff V1   normally open', 'check CV1   cracks 5 kPa'), 'CV1')).toContainEqual(expect.stringMatching(/^cannot tell CV1: the heights of S1/)));
});
test('not applicable: what is no fuel', async () => expect(await said('SIPHON-BREAK', without(edit(HALF, 'tank T1 {', 'tank T1 carries raw water {'), 'shutoff V1 normally open'))).toEqual([]));

test('the overflow of a day tank is asked for no valve, since OVERFLOW-CAP allows none', async () => {
    const found = await said('SIPHON-BREAK', DAY_TANK);
    expect(found).toContain('not applicable O1: it is the overflow of DT, which nothing may shut (see OVERFLOW-CAP)');
    expect(found.filter((one) => one.startsWith('fail O1'))).toEqual([]);
});
