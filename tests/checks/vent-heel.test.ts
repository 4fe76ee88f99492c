/**
 * VENT-HEEL: vents stay dry at the greatest heel. A place z above the waterline and y off the centreline is under at tan φ = z / y on its own side.
 */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, example, load, said, without, type Texts } from './boats';
import { judge } from '../../src/checks/judge';

const rule = (texts: Texts): Promise<string[]> => said('VENT-HEEL', texts);
const WET = edit(SLOOP, 'heights from "top of the keel"', 'heights from "top of the keel"\n  waterline at 500 mm');
const vent = (facts: string, text = WET): string => edit(text, 'hose VH1     bore 16 mm', `hose VH1     bore 16 mm   ${facts}`);
const survive = (heel: string): string => edit(WET, 'waterline at 500 mm', `waterline at 500 mm\n  survival heel ${heel}`);
const asked = (heel: string): string => `it must stay dry to ${heel}`;

// 700 mm above the waterline, 1000 mm off: tan φ = 0.7, φ = 34.99 degrees.
test('the heel at which it goes under, against that of the envelope and her survival heel', async () => {
    expect(await rule(vent('outlet at 1200 mm up, 1000 mm stbd'))).toEqual(['pass VH1']); // the envelope ends at 20
    expect(await rule(vent('outlet at 1200 mm up, 1000 mm stbd', survive('34 deg')))).toEqual(['pass VH1']);
    expect(await rule(vent('outlet at 1200 mm up, 1000 mm stbd', survive('36 deg')))).toEqual([`fail VH1, major: The outlet of VH1, the vent of T1, goes under when she is heeled 35° to starboard; ${asked('36°')}, her survival heel.`]);
    expect((await rule(vent('outlet at 1200 mm up, 1000 mm port', survive('36 deg'))))[0]).toMatch(/35° to port/);
    // tan 20 = 0.36397: 300 mm above and 1000 mm off is under at 16.7 degrees; a smaller survival heel takes nothing away.
    expect(await rule(vent('outlet at 800 mm up, 1000 mm stbd', survive('10 deg')))).toEqual([`fail VH1, major: The outlet of VH1, the vent of T1, goes under when she is heeled 16.7° to starboard; ${asked('20°')}, the heel of the envelope.`]);
});
test('the crest that goes under with it, and where both would be dry', async () => {
    // The crest: 900 / 1000, 41.99 degrees. At 45 degrees tan is 1: dry as far out as high above the water, 500 + 1000 = 1500 mm.
    const text = vent('crest at 1400 mm up, 1000 mm stbd   outlet at 1200 mm up, 1000 mm stbd', survive('45 deg'));
    const { findings } = judge((await load(text)).boat);
    const { message, advice, reason } = findings.find(({ rule: { code } }) => code === 'VENT-HEEL')!;
    expect(message).toBe(`The outlet of VH1, the vent of T1, goes under when she is heeled 35° to starboard, and its crest at 42°; ${asked('45°')}, her survival heel.`);
    expect(advice).toBe('Lead the outlet inboard to 700 mm from the centreline, or up to 1500 mm, and the crest inboard to 900 mm from the centreline, or up to 1500 mm.');
    expect(reason).toBe('Salt water then runs into T1.');
});
test('what comes of it: water over the crest, water shut out by it, or it is not known which', async () => {
    const reasons = async (crest: string): Promise<string[]> => judge((await load(vent(`${crest}   outlet at 1200 mm up, 1000 mm stbd`, survive('45 deg')))).boat).findings.filter(({ rule: { code } }) => code === 'VENT-HEEL').map(({ reason }) => reason);
    expect(await reasons('crest at 1600 mm up, 1000 mm stbd')).toEqual(['The water shuts the vent, so that T1 draws no air, and what is thrown over the crest runs into the fuel.']); // 1100 / 1000: 47.7 degrees
    expect(await reasons('crest at 1600 mm')).toEqual(['Salt water then stands in the vent and may run into T1.']);
});
test('only the crest: less, since nothing comes in while the outlet is dry', async () => {
    expect(await rule(vent('crest at 1300 mm up, 1500 mm stbd   outlet at 1200 mm up, 0 mm stbd', survive('30 deg')))) // 800 / 1500: 28.07 degrees
        .toEqual(['fail VH1, minor: The crest of VH1, the vent of T1, goes under when she is heeled 28.1° to starboard, although its outlet stays dry to 30°.']);
});
test('a crest whose place across is not known is not asked for while the outlet is dry', async () => expect(await rule(vent('crest at 1300 mm   outlet at 1200 mm up, 1000 mm stbd'))).toEqual(['pass VH1']));
test('on the centreline it is never under; below the waterline always', async () => {
    expect(await rule(vent('outlet at 600 mm up, 0 mm stbd', survive('85 deg')))).toEqual(['pass VH1']);
    expect(await rule(vent('outlet at 400 mm up, 900 mm stbd'))).toEqual([`fail VH1, major: The outlet of VH1, the vent of T1, is below the waterline; ${asked('20°')}, the heel of the envelope.`]);
    expect(await rule(without(vent('outlet at 400 mm'), 'envelope heel 20 deg trim 5 deg level 10 to 95 %'))).toEqual(['fail VH1, major: The outlet of VH1, the vent of T1, is below the waterline.']);
});
// 300 mm above and 1000 off: 16.7 degrees. Common practice asks 20 of any boat.
test('dry in the envelope, and wet before the 20 degrees of common practice', async () => {
    expect(await rule(vent('outlet at 800 mm up, 1000 mm stbd', edit(WET, 'heel 20 deg', 'heel 15 deg')))).toEqual([
        'fail VH1, advice: The outlet of VH1, the vent of T1, goes under when she is heeled 16.7° to starboard. That is more than the 15° of the envelope, but common practice keeps vents dry to 20° under power, 40° under sail.',
    ]);
});
/** The vents of two tanks meet at J9, and from there three lines lead out. */
const MEETING = edit(vent('outlet at 1200 mm up, 1000 mm stbd'), 'vent course Breather from T1 to air {', `tank T2 {
  vent
}
vent course One from T1 to air {
  hose VH2
  tee J9
  hose VH5   outlet at 1200 mm up, 0 mm stbd
}
vent course Two from T2 to J9 {
  hose VH3
}
vent course Other from J9 to air {
  hose VH4   outlet at 800 mm up, 1000 mm port
}
vent course Breather from J9 to air {`);
// VH4: 300 mm above, 1000 off: 16.7 degrees.
test('a vent is judged at each of its open ends, and an open end for each tank that breathes by it', async () => {
    const under = (tank: string): string => `fail VH4, major: The outlet of VH4, the vent of ${tank}, goes under when she is heeled 16.7° to port; ${asked('20°')}, the heel of the envelope.`;
    expect((await rule(MEETING)).toSorted()).toEqual([under('T1'), under('T2'), 'pass VH1', 'pass VH1', 'pass VH5', 'pass VH5']);
});

/*
 * The worked vessel: waterline 520, outlet 1500 up and 1500 out, crest 1560 up and 1450 out. atan(980 / 1500) = 33.16, atan(1040 / 1450) = 35.65 degrees; her survival heel is 40, tan 0.83910.
 * Dry at 980 / 0.83910 = 1167.9 mm or at 520 + 1500 x 0.83910 = 1778.6, the crest at 1040 / 0.83910 = 1239.4 or at 520 + 1450 x 0.83910 = 1736.7.
 */
test('the worked vessel', async () => {
    const { message, advice } = judge((await load(example('ottilwake'))).boat).findings.find(({ rule: { code } }) => code === 'VENT-HEEL')!;
    expect(message).toBe(`The outlet of VH1, the vent of T1, goes under when she is heeled 33.2° to starboard, and its crest at 35.6°; ${asked('40°')}, her survival heel.`);
    expect(advice).toBe('Lead the outlet inboard to 1167 mm from the centreline, or up to 1779 mm, and the crest inboard to 1239 mm from the centreline, or up to 1737 mm.');
    expect(await rule(example('ottilwake-mended'))).toEqual(['pass VH1']);
});

describe('cannot tell', () => {
    test('where it ends', async () => {
        expect(await rule(WET)).toEqual(['cannot tell T1.vent: where the line of T1.vent ends']);
        expect(await rule(vent('outlet at 1200 mm'))).toEqual(['cannot tell T1.vent: where the line of T1.vent ends']);
        expect(await rule(edit(WET, 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}', ''))).toEqual(['cannot tell T1.vent: where the line of T1.vent ends']);
    });
    test('the waterline, and how far she heels', async () => {
        expect(await rule(vent('outlet at 1200 mm up, 1000 mm stbd', SLOOP))).toEqual(['cannot tell T1.vent: the height of the waterline']);
        expect(await rule(without(vent('outlet at 1200 mm up, 1000 mm stbd'), 'envelope heel 20 deg trim 5 deg level 10 to 95 %'))).toEqual(['cannot tell T1.vent: the heel and trim that she must work in']);
    });
});
describe('not applicable', () => {
    test('no fuel; no vent', async () => {
        expect(await rule(edit(WET, 'tank T1 {', 'tank T1 carries coolant {'))).toEqual(['not applicable T1: it carries no fuel']);
        expect(await rule(edit(without(WET, 'vent at 600 mm'), 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}', ''))).toEqual(['not applicable T1: it has no vent (see VENT-EXISTS)']);
    });
});
