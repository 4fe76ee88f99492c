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
test('heating water is not spoken of', async () => {
    expect(await rule(twin('hose X').replaceAll('{\n pickup P1', 'carries heating water {\n pickup P1'))).toEqual(['not applicable vessel: no line lets fuel run either way between two tanks']);
});
