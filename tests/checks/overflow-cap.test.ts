/** OVERFLOW-CAP: what the pump gives too much runs back before it runs out of the vent. */
import { describe, expect, test } from 'vitest';
import { edit, said, type Texts } from './boats';
import { DAY_TANK } from './day-tank-boat';

const rule = (texts: Texts): Promise<string[]> => said('OVERFLOW-CAP', texts);
const over = (facts: string): string => edit(DAY_TANK, 'hose O1   bore 15 mm   length 2 m', facts);

test('twice the area of the line that fills it', async () => {
    // 15² = 225 is more than 2 x 10² = 200; nothing else has to be known then.
    expect(await rule(over('hose O1   bore 15 mm'))).toEqual(['pass DT']);
});
test('or what the pump gives, by the head from its mouth to the lid', async () => {
    // 300 L/h = 8.33e-5 m³/s through 12 mm, 1.131e-4 m²: 0.737 m/s, Re 0.737 x 0.012 / 5.5e-6 = 1608, laminar: 32 x 5.5e-6 x 2 x 0.737 / (0.012² x 9.80665) = 0.184 m, and 100 mm are there.
    expect((await rule(over('hose O1   bore 12 mm   length 2 m')))[0]).toMatch(/^fail DT, major: The overflow of DT, 12 mm wide, carries \d+ L\/h when DT is full to the lid, and TP1 gives 300 L\/h\.$/);
    // Through 0.5 m: 0.046 m, and 1.5 x 0.737² / 19.6 = 0.042 m for its mouths: 0.088 m.
    expect(await rule(over('hose O1   bore 12 mm   length 0.5 m'))).toEqual(['pass DT']);
});
test('none, one with a valve, one over the lid', async () => {
    expect(await rule(edit(DAY_TANK, 'transfer course Over from DT.OV to T1.R1 { hose O1   bore 15 mm   length 2 m }\n', ''))).toEqual(['fail DT, major: TP1 fills DT, and no overflow leads from it to another tank.']);
    expect(await rule(over('shutoff VO   normally open\n hose O1   bore 15 mm   length 2 m'))).toEqual(['fail DT, major: TP1 fills DT, and its way back to another tank can be shut by VO.']);
    expect(await rule(over('hose O1   bore 15 mm   length 2 m   crest at 1950 mm').replace('pickup OV   mouth at 1800 mm', 'pickup OV   mouth at 1800 mm   top at 1820 mm').replace('drop R1\n  vent\n  fill', 'drop R1   top at 410 mm\n  vent\n  fill'))).toEqual(['fail DT, major: The overflow of DT is as high as its lid at O1 (1950 mm; the lid is at 1900 mm): fuel rises in the vent before it runs over.']);
    expect((await rule(edit(DAY_TANK, 'mouth at 1800 mm', 'mouth at 1900 mm')))[0]).toMatch(/^fail DT, major: The overflow of DT is as high as its lid at DT\.OV/);
});
test('a way back through another pump is none', async () => {
    expect((await rule(over('electric pump EP2   when off passes\n hose O1   bore 15 mm')))[0]).toMatch(/no overflow leads from it/);
});
describe('cannot tell', () => {
    test('mouth, lid, bores', async () => {
        expect(await rule(edit(DAY_TANK, 'pickup OV   mouth at 1800 mm', 'pickup OV'))).toEqual(['cannot tell DT: the height of the mouth of DT.OV']);
        expect(await rule(edit(DAY_TANK, 'tank DT { box 500 x 400 x 400 mm   low aft inner corner at 1500 mm up, 3000 mm fwd, 100 mm stbd', 'tank DT {'))).toEqual(['cannot tell DT: the size and height of DT']);
        expect(await rule(over('hose O1'))).toEqual(['cannot tell DT: the bore of O1']);
        expect(await rule(edit(over('hose O1   bore 12 mm'), 'hose L1   bore 10 mm', 'hose L1'))).toEqual(['cannot tell DT: the bore of L1; the length of O1']);
        expect(await rule(edit(over('hose O1   bore 12 mm   length 0.5 m'), 'gives 300 L/h   ', ''))).toEqual(['cannot tell DT: what TP1 delivers']);
    });
});
test('a tank that is filled from deck is no day tank', async () => {
    const found = await rule(edit(DAY_TANK, 'fill course Filler from deck to T1', 'fill course Top from deck to DT { hose FD   bore 38 mm }\nfill course Filler from deck to T1'));
    expect(found).toEqual(['not applicable vessel: a pump fills no tank that is not filled from deck']);
});
