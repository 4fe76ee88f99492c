/**
 * VENT-AREA: 46 CFR 182.450(c), edition of 2015. Least area that of a tube, and the tube is named twice:
 *   (c)(1) fill ends at the top:   5/8 in x 0.035 in, bore 0.555 in = 14.097 mm, 156.08 mm²; "16 mm x 0.9 mm", bore 14.2 mm, 158.37 mm²
 *   (c)(2) fill reaches into it:   3/4 in x 0.035 in, bore 0.680 in = 17.272 mm, 234.30 mm²; "19 mm x 0.9 mm", bore 17.2 mm, 232.35 mm²
 *   (c)(3) filled under pressure:  the area of the fill pipe
 */
import { describe, expect, test } from 'vitest';
import { SLOOP, after, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('VENT-AREA', texts);
const vented = (bore: string, text = SLOOP): string => edit(text, 'bore 16 mm', `bore ${bore}`);
const INTO = edit(SLOOP, 'ends at the top', 'ends into the tank');
const UNSAID = edit(SLOOP, 'ends at the top', '');
const PRESSURE = edit(SLOOP, 'ends at the top', 'under pressure');
const small = (bore: string, area: string, asked: string, kind: string): string => `fail T1.vent, major: The vent of T1 has a bore of ${bore} mm, ${area} mm²; 46 CFR 182.450(c) asks ${asked} mm² ${kind}.`;
const [top, into] = ['for a fill pipe that ends at the tank top', 'for a fill pipe that reaches into the tank'];
const reading = 'cannot tell T1: which reading of 46 CFR 182.450(c) applies to T1';

test.each([
    ['14.0 mm', small('14', '153.9', '158.4', top)], // 0.7854 x 14.0² = 153.94
    ['14.1 mm', reading], // 156.15: the inch tube, not the metric words
    ['14.2 mm', 'pass T1'], // 158.37
    ['5/8 in', 'pass T1'], // 15.875 mm, 197.93
])('fill ends at the top, vent of %s', async (bore, verdict) => expect(await rule(vented(bore))).toEqual([verdict]));

test.each([
    ['5/8 in', small('15.9', '197.9', '234.3', into)],
    ['17.1 mm', small('17.1', '229.7', '234.3', into)], // 0.7854 x 17.1² = 229.66
    ['17.2 mm', reading], // 232.35: the metric words, not the inch tube
    ['17.3 mm', 'pass T1'], // 235.06
    ['3/4 in', 'pass T1'], // 19.05 mm, 285.02
])('fill reaches into the tank, vent of %s', async (bore, verdict) => expect(await rule(vented(bore, INTO))).toEqual([verdict]));

test.each([
    ['14.0 mm', small('14', '153.9', '158.4', 'even for a fill pipe that ends at the tank top, and more for one that reaches into it')],
    ['5/8 in', 'cannot tell T1: where the fill pipe of T1 ends'],
    ['3/4 in', 'pass T1'],
])('where the fill ends is not said, vent of %s', async (bore, verdict) => expect(await rule(vented(bore, UNSAID))).toEqual([verdict]));

describe('filled under pressure', () => {
    // 0.7854 x 16² = 201.06; 0.7854 x 38² = 1134.11
    test('the vent against the fill of 38 mm', async () => {
        expect(await rule(vented('38 mm', PRESSURE))).toEqual(['pass T1']);
        expect(await rule(PRESSURE)).toEqual([small('16', '201.1', '1134.1', 'for a tank filled under pressure')]);
    });
    test('the bore of the fill is not known', async () => expect(await rule(edit(PRESSURE, 'bore 38 mm', ''))).toEqual(['cannot tell T1: the bore of the fill of T1']));
    test('the bore is said at the fitting', async () => {
        expect(await rule(vented('38 mm', edit(edit(PRESSURE, 'bore 38 mm', ''), 'under pressure', 'under pressure   bore 38 mm')))).toEqual(['pass T1']);
    });
});

describe('which bore counts', () => {
    test('none is known', async () => expect(await rule(edit(SLOOP, 'bore 16 mm', ''))).toEqual(['cannot tell T1: the bore of VH1']));
    test('the narrowest pipe', async () => expect(await rule(after(SLOOP, 'hose VH1 bore 16 mm', 'hose VH2 bore 14 mm'))).toEqual([small('14', '153.9', '158.4', top)]));
    test('the fitting', async () => expect(await rule(edit(SLOOP, 'vent        at 600 mm', 'vent at 600 mm   bore 14 mm'))).toEqual([small('14', '153.9', '158.4', top)]));
    test('a course written inwards', async () => expect(await rule(edit(SLOOP, 'from T1 to air', 'from air to T1'))).toEqual(['pass T1']));
    test('a fitting without a course', async () => {
        const alone = (bore: string): string => edit(edit(SLOOP, 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}', ''), 'vent        at 600 mm', `vent at 600 mm ${bore}`);
        expect(await rule(alone('bore 16 mm'))).toEqual(['pass T1']);
        expect(await rule(alone(''))).toEqual(['cannot tell T1: the bore of the vent of T1']);
    });
});

describe('not applicable', () => {
    test('no fuel', async () => expect(await rule(edit(SLOOP, 'tank T1 {', 'tank T1 carries heating water {'))).toEqual(['not applicable T1: it carries no fuel']));
    test('no vent', async () => {
        expect(await rule(without(edit(SLOOP, 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}', ''), 'vent at 600 mm'))).toEqual(['not applicable T1: it has no vent (see VENT-EXISTS)']);
    });
    test('no fill', async () => {
        expect(await rule(without(edit(SLOOP, 'fill course Filler from deck to T1 {\n  hose FH1     bore 38 mm\n}', ''), 'fill ends at the top'))).toEqual(['not applicable T1: no fill is written, so nothing can be said of filling it']);
    });
});

describe('the pressure in the tank while it is filled', () => {
    /*
     * 60 L/min = 1e-3 m³/s through 16 mm, 201.1 mm²: 4.974 m/s, and 1.2 x 4.974² / 2 = 14.84 Pa of dynamic pressure. Re 4.974 x 0.016 / 15e-6 = 5305; f by Swamee and Jain 0.25 / log10(5.74 / 5305^0.9
     * + 9.4e-5 / 3.7)² = 0.0370; 10 m: 23.1 + 3 for its mouths and the bend = 26.1 times 14.84: 388 Pa. Ten times as fast: 49.74 m/s, 1484 Pa; Re 53 053, f 0.0209: 13.05 + 3 = 16.05 times: 23.8 kPa.
     */
    const filled = (takes: string, tested: string): string => edit(edit(edit(SLOOP, 'bore 16 mm', 'bore 16 mm   length 10 m'), 'ends at the top', `ends at the top   ${takes}`), 'tank T1 {', `tank T1 {\n ${tested}`);
    test('80 % of the test pressure', async () => {
        expect(await rule(filled('takes 60 L/min', 'tested 20 kPa'))).toEqual(['pass T1']);
        expect(await rule(filled('takes 600 L/min', 'tested 30 kPa'))).toEqual(['pass T1']);
        expect((await rule(filled('takes 600 L/min', 'tested 20 kPa')))[0]).toMatch(/^fail T1\.vent, major: Filled at 600 L\/min, T1 stands under 23\.8 kPa \(7 inHg\): so much the air takes to leave by T1\.vent\. 80 % of its test pressure are 16 kPa \(4\.7 inHg\)\.$/);
    });
    test('what is not stated leaves the first verdict', async () => {
        expect(await rule(filled('', 'tested 20 kPa'))).toEqual(['pass T1']);
        expect(await rule(filled('takes 600 L/min', ''))).toEqual(['pass T1']);
    });
    test('a vent that is too small is told once', async () => expect(await rule(edit(filled('takes 600 L/min', 'tested 20 kPa'), 'bore 16 mm', 'bore 14 mm'))).toEqual([small('14', '153.9', '158.4', top)]));
});
