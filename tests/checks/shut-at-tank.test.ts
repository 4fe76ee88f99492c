/** SHUT-AT-TANK: every supply line has a manual shutoff at the tank fitting (46 CFR 182.455(b)(4)); 150 mm of pipe is still at it. */
import { expect, test } from 'vitest';
import { SLOOP, TWIN, after, before, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('SHUT-AT-TANK', texts);
const V1 = 'shutoff V1 normally open';

test('V1 is first after the fitting; without its line there is none', async () => {
    expect(await rule(SLOOP)).toEqual(['pass Feed']);
    expect(await rule(without(SLOOP, V1))).toEqual(['fail S1, critical: There is no shutoff at the fitting of T1: Feed has no shutoff at all.']);
});

test('every line from a tank has its own', async () => {
    expect(await rule(TWIN)).toEqual(['pass FromPort', 'pass FromStbd']);
    expect(await rule(edit(TWIN, 'shutoff V2   normally open', 'hose S2'))).toEqual([
        'pass FromPort', 'fail S2, critical: There is no shutoff at the fitting of T2: FromStbd has no shutoff at all.',
    ]);
});

test.each([
    ['hose S0   length 150 mm', 'pass Feed'],
    ['hose S0   length 151 mm', 'fail S0, critical: There is no shutoff at the fitting of T1: the first shutoff of Feed, V1, stands behind S0.'],
    ['hose S0', 'cannot tell Feed: the length of S0'],
    // 100 + 60 = 160 mm
    ['hose S0   length 100 mm\nhose S00   length 60 mm', 'fail S0, critical: There is no shutoff at the fitting of T1: the first shutoff of Feed, V1, stands behind S0 and S00.'],
    // 160 mm already, whatever S00 adds
    ['hose S0   length 160 mm\nhose S00', 'fail S0, critical: There is no shutoff at the fitting of T1: the first shutoff of Feed, V1, stands behind S0 and S00.'],
    ['filter F0', 'fail F0, critical: There is no shutoff at the fitting of T1: the first shutoff of Feed, V1, stands behind F0.'],
])('before V1 stands: %s', async (line, verdict) => expect(await rule(before(SLOOP, V1, line))).toEqual([verdict]));

test.each(['solenoid', 'locked open'])('a shutoff that is %s is no manual one', async (word) => {
    expect(await rule(edit(SLOOP, 'shutoff V1   normally open', `shutoff V1   normally open   ${word}`))).toEqual([
        'fail V1, critical: There is no shutoff at the fitting of T1: Feed has no shutoff at all.',
    ]);
});

test('a selector on a short pipe counts when it has an off position', async () => {
    const selector = `selector SV3 {
  ports tank, out
  position ON joins tank, out
  position OFF joins nothing
}
supply course Tap from T1.P1 to SV3.tank { hose S0   length 100 mm }`;
    const tapped = after(edit(edit(SLOOP, 'from T1.P1 to E1', 'from SV3.out to E1'), 'RUN run is normal', 'RUN run is normal { SV3 ON }'), 'line-up RUN run is normal { SV3 ON }', selector);
    expect(await rule(without(tapped, 'position OFF joins nothing'))).toEqual(['fail S0, critical: There is no shutoff at the fitting of T1: Tap has no shutoff at all.']);
    expect(await rule(tapped)).toEqual(['pass Tap']);
});

test('a line that carries no fuel is not spoken of', async () => {
    expect(await rule(edit(SLOOP, 'tank T1 {', 'tank T1 carries heating water {'))).toEqual([]);
});
