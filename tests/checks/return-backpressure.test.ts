/** RETURN-BACKPRESSURE: what the return pushes against, at the worst. */
import { describe, expect, test } from 'vitest';
import { edit, said, type Texts } from './boats';
import { DRAWING } from './drawing';

const rule = (texts: Texts): Promise<string[]> => said('RETURN-BACKPRESSURE', texts);
const limited = (most: string, text = CRESTED): string => edit(text, 'return 6 kPa', `return ${most}`);

/*
 * Of 18 L/h 6 are burnt: 12 L/h = 3.333e-6 m³/s come back. In 6 mm, 28.27e-6 m², 0.1179 m/s: 32 x 4.62e-3 x 3 m x 0.1179 / 36e-6 = 1452.4 Pa. A crest at 1200 mm stands 400 mm
 * over the outlet at 800 mm: 3295.0 Pa. 4.75 kPa; with 30 bores at each end B1 counts as 3.36 m, 1626.7 Pa: 4.92 kPa.
 */
const CRESTED = edit(DRAWING, 'hose B1   bore 6 mm   length 3 m', 'hose B1   bore 6 mm   length 3 m   crest at 1200 mm up, 2350 mm fwd, 700 mm stbd');
test('over a crest, by hand', async () => {
    expect(await rule(limited('5 kPa'))).toEqual(['pass E1']);
    expect((await rule(limited('4.8 kPa')))[0]).toMatch(/^fail E1, advice: The return of E1 pushes against 4\.75 kPa \(1\.4 inHg\) at full speed, over the top of B1 \(upright, tanks at 95 %, in RUN\)\. .* it may be up to 4\.92 kPa: it is height 3\.3 and pipes 1\.45 kPa\.$/);
    expect((await rule(limited('4 kPa')))[0]).toMatch(/^fail E1, minor: The return of E1 pushes against 4\.75 kPa .*; E1 allows 4 kPa \(1\.2 inHg\)\. It is height 3\.3 and pipes 1\.45 kPa, and may be 4\.75 to 4\.92 kPa\.$/);
});
test('a check is pushed open on top', async () => {
    // The line stands full down to the check, which ends at the outlet's height; 1.45 kPa of pipe and 8 kPa of check over the surface, 220 mm lower: 1452 + 8000 - 1812 + the drop's 61 = 7.70 kPa.
    const text = edit(DRAWING, '{ hose B1   bore 6 mm   length 3 m }', '{\n hose B1   bore 6 mm   length 3 m\n check CV1   cracks 8 kPa   at 625 mm up, 2350 mm fwd, 700 mm stbd\n}');
    expect((await rule(limited('7 kPa', text)))[0]).toMatch(/^fail E1, minor: .*checks 8 kPa/);
    expect(await rule(limited('10 kPa', text))).toEqual(['pass E1']);
});
test('without a crest a full line helps', async () => expect(await rule(limited('1.5 kPa', DRAWING))).toEqual(['pass E1']));

describe('cannot tell', () => {
    test('what the maker allows', async () => expect(await rule(edit(CRESTED, '   return 6 kPa', ''))).toEqual(['cannot tell E1: the greatest back-pressure in the return of E1']));
    // The height of its mouth is written, and is not asked for again.
    test('where its drop stands', async () => expect(await rule(edit(DRAWING, 'mouth at 225 mm up, 2350 mm fwd, 700 mm stbd   top at 625 mm up, 2350 mm fwd, 700 mm stbd\n  vent', 'mouth at 225 mm   top at 625 mm\n  vent'))).toEqual(['cannot tell E1: where T1.R1 stands along and across the boat']));
    test('what it draws, a bore, where the outlet stands', async () => {
        expect(await rule(edit(CRESTED, 'draws 18 L/h at 3000 rpm', ''))).toEqual(['cannot tell E1: the gross flow of E1']);
        expect(await rule(edit(CRESTED, 'hose B1   bore 6 mm', 'hose B1'))).toEqual(['cannot tell E1: the bore of B1']);
        expect(await rule(edit(CRESTED, '  inlet at 800 mm up, 2350 mm fwd, 700 mm stbd\n', ''))).toEqual(['cannot tell E1: the height of the inlet of E1']);
        expect(await rule(edit(CRESTED, 'inlet at 800 mm up, 2350 mm fwd, 700 mm stbd', 'inlet at 800 mm'))).toEqual(['cannot tell E1: where E1 stands along and across the boat']);
    });
});
describe('not applicable', () => {
    test('no return', async () => expect(await rule(edit(CRESTED, CRESTED.split('\n').find((line) => line.startsWith('return course'))!, ''))).toEqual(['not applicable E1: no return course begins at it']));
    test('a shut one', async () => expect(await rule(edit(CRESTED, '{ hose B1', '{ shutoff VR   normally shut\n hose B1'))).toEqual(['not applicable E1: its return leads to no tank in a line-up for running (see PATH-ONE)']));
});
