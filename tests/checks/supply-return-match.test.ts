/** SUPPLY-RETURN-MATCH: in each line-up for running the return goes to the tank that is drawn from. */
import { expect, test } from 'vitest';
import { SLOOP, TWIN, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('SUPPLY-RETURN-MATCH', texts);
const CROSSED = edit(TWIN, '{ SV1 STBD   SV2 STBD }', '{ SV1 STBD   SV2 PORT }');
const fails = 'fail E1, major: In line-up RUN-STBD E1 draws from T2 and returns to T1.';

test('two selectors set alike, and one left behind', async () => {
    expect(await rule(TWIN)).toEqual(['pass E1', 'pass E1']);
    expect(await rule(CROSSED)).toEqual(['pass E1', fails]);
});
test('a line-up that is a transfer is not judged', async () => expect(await rule(edit(CROSSED, 'line-up RUN-STBD run', 'line-up RUN-STBD transfer'))).toEqual(['pass E1']));
test('tanks joined by an open line are one', async () => {
    const joined = (state: string): string => `${CROSSED.replace('tank T1 {', 'tank T1 {\n  pickup X1').replace('tank T2 {', 'tank T2 {\n  pickup X2')}transfer course Level from T1.X1 to T2.X2 { shutoff VX normally ${state} }\n`;
    expect(await rule(joined('open'))).toEqual(['pass E1', 'pass E1']);
    expect(await rule(joined('shut'))).toEqual(['pass E1', fails]);
});
test('cannot tell: a position is missing', async () => expect((await rule(edit(TWIN, '{ SV1 PORT   SV2 PORT }', '{ SV1 PORT }')))[0]).toBe('cannot tell E1: the position of SV2 in line-up RUN-PORT'));
test('not applicable: no return; none or two tanks, which PATH-ONE tells', async () => {
    expect(await rule(without(SLOOP, 'drop R1 bore 8 mm').replace(/return course[^]*?\n\}\n/, ''))).toEqual(['not applicable E1: no return course begins at it']);
    const shut = edit(SLOOP, 'run is normal', 'run is normal { V1 shut }');
    expect(await rule(shut)).toEqual(['not applicable E1: it does not draw from one tank and return to one in line-up RUN (see PATH-ONE)']);
    expect((await said('PATH-ONE', shut))[0]).toMatch(/^fail E1, critical/);
});
