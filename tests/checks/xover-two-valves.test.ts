/** XOVER-TWO-VALVES: a line that joins two tanks has a shutoff at the fitting of each; 150 mm as at SHUT-AT-TANK. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('XOVER-TWO-VALVES', texts);
const twin = (...line: readonly string[]): string => `tank T1 {\n pickup P1\n pickup X1\n drop R1\n vent\n}\ntank T2 {\n pickup P1\n pickup X2\n vent\n}\nengine E1
supply course Feed from T1.P1 to E1 { shutoff V1 normally open   filter F1 final }
return course Back from E1 to T1.R1 { hose B1 }
supply course Spare from T2.P1 to E1 { shutoff V2 normally shut }
transfer course Level from T1.X1 to T2.X2 {\n${line.map((part) => ` ${part}\n`).join('')}}\n`;
const none = (fitting: string, more = ''): string => `fail ${fitting}, major: The line that joins T1 and T2 has no shutoff at ${fitting}${more}.`;

test('a valve at each end; without its line one is missing', async () => {
    expect(await rule(twin('shutoff VX1', 'hose X', 'shutoff VX2'))).toEqual(['pass T1.X1', 'pass T2.X2']);
    expect(await rule(twin('shutoff VX1', 'hose X'))).toEqual(['pass T1.X1', none('T2.X2', ': VX1 stands further on')]);
    expect(await rule(twin('hose X'))).toEqual([none('T1.X1'), none('T2.X2')]);
    expect(await rule(twin())).toEqual([none('T1.X1'), none('T2.X2')]);
});
test('one that hands cannot shut is none', async () => expect(await rule(twin('shutoff VX1 locked open', 'hose X', 'shutoff VX2 solenoid'))).toEqual([none('T1.X1'), none('T2.X2')]));
test('a short pipe before it', async () => {
    expect(await rule(twin('tube A length 150 mm', 'shutoff VX1', 'hose X', 'shutoff VX2'))).toEqual(['pass T1.X1', 'pass T2.X2']);
    expect(await rule(twin('tube A length 151 mm', 'shutoff VX1', 'hose X', 'shutoff VX2'))).toEqual([none('T1.X1', ': VX1 stands further on'), 'pass T2.X2']);
    expect(await rule(twin('tube A', 'shutoff VX1', 'hose X', 'shutoff VX2'))).toEqual(['cannot tell T1.X1: the length of A', 'pass T2.X2']);
});
test('not applicable: one tank, a pump or a check between, two supplies', async () => {
    const nothing = 'not applicable vessel: no line lets fuel run either way between two tanks';
    for (const text of [SLOOP, twin('hose X', 'electric pump EP1 when off passes'), twin('check CV1')]) expect(await rule(text)).toEqual([nothing]);
    expect(await rule(edit(twin('hose X'), 'transfer course Level from T1.X1 to T2.X2 {\n hose X\n}\n', ''))).toEqual([nothing]);
});
test('the overflow of a tank that a pump fills is none: a valve in it would send the fuel out of the vent', async () => {
    const day = (mouth: string, pump = 'electric pump TP1'): string => `tank T1 {\n box 1000 x 600 x 400 mm   low aft inner corner at 0 mm up\n pickup P1\n drop R1\n vent\n}
tank DT {\n box 500 x 400 x 400 mm   low aft inner corner at 1500 mm up\n pickup P2   mouth at 25 mm off bottom\n drop R2\n drop R3\n pickup OV ${mouth}\n vent\n}\nengine E1
supply course Feed from DT.P2 to E1 { shutoff V1 normally open   filter F1 final }\nreturn course Back from E1 to DT.R2 { hose B1 }
transfer course Lift from T1.P1 to DT.R3 { shutoff V2 normally open   hose H1   ${pump}   hose H2 }\ntransfer course Over from DT.OV to T1.R1 { hose H3 }\n`;
    // The middle of the day tank is 200 mm off its bottom.
    expect(await rule(day('mouth at 390 mm off bottom'))).toEqual(['not applicable DT.OV: it is the overflow of a tank that a pump fills, which nothing may shut']);
    expect(await rule(day(''))).toEqual(['cannot tell DT.OV: the height of the mouth of DT.OV']);
    const both = ['fail T1.R1', 'fail DT.OV'];
    expect((await rule(day('mouth at 190 mm off bottom'))).map((line) => line.split(',')[0])).toEqual(both);
    expect((await rule(day('mouth at 390 mm off bottom', 'check CV1'))).map((line) => line.split(',')[0])).toEqual(both);
});
test('heating water is not spoken of', async () => {
    expect(await rule(twin('hose X').replaceAll('{\n pickup P1', 'carries heating water {\n pickup P1'))).toEqual(['not applicable vessel: no line lets fuel run either way between two tanks']);
});
