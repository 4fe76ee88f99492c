/** VENT-ABOVE-FILL: the open end of a vent is not below the deck plate; 100 mm above is advised (common practice). */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, example, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('VENT-ABOVE-FILL', texts);
const plated = (outlet: string, plate = 'plate at 1400 mm'): string => edit(edit(SLOOP, 'hose VH1     bore 16 mm', `hose VH1     bore 16 mm   ${outlet}`), 'hose FH1     bore 38 mm', `hose FH1     bore 38 mm   ${plate}`);
const BELOW = (mm: number): string => `fail VH1, major: The outlet of VH1, the vent of T1, is ${mm} mm below the deck plate of T1.fill.`;
const ADVICE = (how: string): string => `fail VH1, advice: The outlet of VH1, the vent of T1, is ${how} the deck plate of T1.fill; 100 mm is advised.`;

test.each([
    ['1399', BELOW(1)], ['1400', ADVICE('level with')], ['1401', ADVICE('only 1 mm above')], ['1499', ADVICE('only 99 mm above')], ['1500', 'pass VH1'], ['1800', 'pass VH1'],
])('outlet at %s mm, plate at 1400', async (outlet, verdict) => expect(await rule(plated(`outlet at ${outlet} mm`))).toEqual([verdict]));
// The worked vessel: outlet at 1500, plate at 1420 mm.
test('the worked vessel', async () => expect(await rule(example('ottilwake'))).toEqual([ADVICE('only 80 mm above')]));
test('a higher crest does not replace it', async () => expect(await rule(plated('crest at 1700 mm   outlet at 1350 mm'))).toEqual([BELOW(50)]));
// The tank reaches up to 600 mm.
test('a tank above its own vent', async () => expect(await rule(plated('outlet at 300 mm'))).toEqual([BELOW(1100)]));
test('each fill and each vent of a tank', async () => {
    const second = (plate: string): string => `${edit(plated('outlet at 1500 mm'), 'fill        ends at the top', 'fill        ends at the top\n  fill FB')}fill course Second from deck to T1.FB { hose FH2   ${plate} }\n`.replace('from deck to T1 {', 'from deck to T1.fill {');
    expect(await rule(second('plate at 1600 mm'))).toEqual(['fail VH1, major: The outlet of VH1, the vent of T1, is 100 mm below the deck plate of T1.FB.']);
    expect(await rule(second('plate at 1300 mm'))).toEqual(['pass VH1']);
    expect(await rule(second(''))).toEqual(['cannot tell T1.vent: the height of the deck plate of T1.FB']);
});

/** T2 is filled at 1600 mm, 100 mm above the vent of T1, and a line with VX joins the two. */
const JOINED = (vx: string): string => `${edit(plated('outlet at 1500 mm'), 'drop R1     bore 8 mm', 'drop R1     bore 8 mm\n  pickup P9')}tank T2 { vent   fill   pickup P9 }
fill course Second from deck to T2 { hose FH2   plate at 1600 mm }
vent course Breather2 from T2 to air { hose VH2   outlet at 1800 mm }
transfer course Cross from T1.P9 to T2.P9 { shutoff VX   normally ${vx} }
`;
test('the fill of a tank that an open line joins to it', async () => {
    expect(await rule(JOINED('shut'))).toEqual(['pass VH1', 'pass VH2']);
    expect(await rule(JOINED('open'))).toEqual(['fail VH1, major: The outlet of VH1, the vent of T1, is 100 mm below the deck plate of T2.fill, which T1 is joined to in RUN.', 'pass VH2']);
});

describe('cannot tell', () => {
    test('where the vent ends, how high the plate is', async () => {
        expect(await rule(SLOOP)).toEqual(['cannot tell T1.vent: where the line of T1.vent ends; the height of the deck plate of T1.fill']);
        expect(await rule(plated('outlet at 1500 mm', ''))).toEqual(['cannot tell T1.vent: the height of the deck plate of T1.fill']);
        expect(await rule(edit(plated(''), 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm   \n}', ''))).toEqual(['cannot tell T1.vent: where the line of T1.vent ends']);
    });
});
test('not applicable: no fuel, no vent, no fill', async () => {
    expect(await rule(edit(SLOOP, 'tank T1 {', 'tank T1 carries coolant {'))).toEqual(['not applicable T1: it carries no fuel']);
    const fill = 'fill course Filler from deck to T1 {\n  hose FH1     bore 38 mm\n}';
    expect(await rule(without(edit(SLOOP, fill, ''), 'fill ends at the top'))).toEqual(['not applicable T1: no fill of it is written']);
    expect(await rule(without(edit(SLOOP, 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}', ''), 'vent at 600 mm'))).toEqual(['not applicable T1: it has no vent (see VENT-EXISTS)']);
});
