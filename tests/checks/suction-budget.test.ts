/** SUCTION-BUDGET: what the first pump draws against, at the worst, beside the maker's limit. */
import { describe, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { edit, example, load, said, type Texts } from './boats';
import { DRAWING } from './drawing';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('SUCTION-BUDGET', texts, about);
const limited = (limits: string, text = DRAWING): string => edit(text, 'limits inlet 15 kPa   lift 450 mm', `limits ${limits}   lift 450 mm`);

test('by hand: 13.85 kPa as it is likely, 14.01 at most', async () => {
    expect(await rule(limited('inlet 14.1 kPa'))).toEqual(['pass E1']);
    expect(await rule(limited('inlet 13.9 kPa'))).toEqual(['fail E1, advice: LP1 of E1 must draw against 13.8 kPa (4.1 inHg) at full speed with elements that are to be renewed (upright, T1.P1 just wet, in RUN). That is within the 13.9 kPa (4.1 inHg) that E1 allows, but it may be up to 14 kPa: it is height 3.3, pipes 0.552 and dirty elements 10 kPa.']);
    expect(await rule(limited('inlet 13 kPa'))).toEqual(['fail E1, major: LP1 of E1 must draw against 13.8 kPa (4.1 inHg) at full speed with elements that are to be renewed (upright, T1.P1 just wet, in RUN); E1 allows 13 kPa (3.8 inHg). It is height 3.3, pipes 0.552 and dirty elements 10 kPa, and may be 13.8 to 14 kPa.']);
});
test('with new elements, where the maker has a limit for these', async () => {
    expect(await rule(limited('inlet 15 kPa   clean 5.1 kPa'))).toEqual(['pass E1']);
    expect((await rule(limited('inlet 15 kPa   clean 4.5 kPa')))[0]).toMatch(/^fail E1, major: LP1 of E1 must draw against 4\.85 kPa .* with new elements/);
    expect((await rule(limited('clean 4.5 kPa')))[0]).toMatch(/^fail E1, major: .* with new elements/);
});
test('a check in the line is added', async () => {
    expect((await rule(limited('inlet 13.9 kPa', edit(DRAWING, '  hose S1 ', '  check CV1   at 640 mm   cracks 3 kPa\n  hose S1 '))))[0]).toMatch(/must draw against 16\.8 kPa.*and checks 3 kPa/);
});
test('what nobody stated of an element is taken, and makes the margin thin', async () => {
    // 3.3 + 0.55 + 12 = 15.8, and 20 kPa at most.
    const found = await rule(limited('inlet 17 kPa', edit(DRAWING, 'dirty 10 kPa', '')));
    expect(found[0]).toMatch(/^fail E1, advice: .*against 15\.8 kPa.* but it may be up to 24 kPa/);
});
test('the line-up in which more is guessed counts', async () => {
    // In RUN F1 takes 12 kPa for certain. In OTHER nobody says what F2 takes: as it is likely 12 as well, and 20 at most. 3.3 + 0.55 + 12 = 15.8; 3.3 + 0.72 + 20 = 24.0.
    const two = edit(edit(DRAWING, '  filter F1 primary { clean 1 kPa   dirty 10 kPa   ports at 640 mm   rated 18 L/h }', '  changeover CH1 at 640 mm {\n leg A { filter F1 primary { dirty 12 kPa   ports at 640 mm } }\n leg B { filter F2 primary { ports at 640 mm } }\n position A through A\n position B through B\n }'), 'line-up RUN run is normal', 'line-up RUN run is normal { CH1 A }\nline-up OTHER run from RUN { CH1 B }');
    expect(await rule(limited('inlet 18 kPa', two))).toEqual([expect.stringMatching(/^fail E1, advice: .* against 15\.8 kPa .*T1\.P1 just wet, in RUN\)\. .* but it may be up to 24 kPa in OTHER: /)]);
    expect(await rule(limited('inlet 25 kPa', two))).toEqual(['pass E1']);
});
test('two filters on line at once are to be renewed when each takes as much, not half', async () => {
    // 3.3 + 0.55 + 10 as through one: its 10 kPa are at the flow that it then has, half of what is drawn.
    const both = edit(edit(DRAWING, '  filter F1 primary { clean 1 kPa   dirty 10 kPa   ports at 640 mm   rated 18 L/h }', '  changeover CH1 at 640 mm {\n leg A { filter F1 primary { dirty 10 kPa   ports at 640 mm } }\n leg B { filter F2 primary { dirty 10 kPa   ports at 640 mm } }\n position A through A\n position BOTH through A, B\n }'), 'line-up RUN run is normal', 'line-up RUN run is normal { CH1 BOTH }');
    expect((await rule(limited('inlet 13 kPa', both)))[0]).toMatch(/^fail E1, major: LP1 of E1 must draw against 13\.8 kPa .* dirty elements 10 kPa/);
    // A branch with a filter of its own takes nothing off.
    const branch = `${edit(DRAWING, '  filter F1 primary {', '  tee J1 at 640 mm\n  filter F1 primary {')}heater HE1 { burns 0.1 L/h at 1500 rpm   draws 0.1 L/h at 1500 rpm }\nsupply course Warm from J1 to HE1 { hose S9   bore 6 mm   length 1 m   filter F9 { dirty 1 kPa } }\n`;
    expect((await rule(limited('inlet 13 kPa', branch), 'E1'))[0]).toMatch(/^fail E1, major: .* dirty elements 10 kPa/);
});
test('the worked vessel, within 20 kPa as it is likely', async () => {
    // 6.18 + 1.34 + 12 + 0.2 with fuel of 5.5 mm²/s, worked out in tests/analysis/flow/boat-steady.test.ts.
    const texts = example('ottilwake') as Record<string, string>;
    const boat = edit(texts['boat.orlop']!, '  envelope heel 25 deg   trim 3 deg   level 5 to 95 %   fuel 5 to 45 degC', '  fuel density 840 kg/m3   viscosity 5.5 mm2/s at 15 degC, 2.9 mm2/s at 40 degC\n  envelope heel 25 deg   trim 3 deg   level 5 to 95 %   fuel 15 to 45 degC');
    expect((await rule({ ...texts, 'boat.orlop': boat }))[0]).toMatch(/^fail E1, advice: LP1 of E1 must draw against 19\.7 kPa \(5\.8 inHg\) .*\(heeled 25° to starboard, bow 3° up, T1\.P1 just wet, in RUN\)\..* it is height 6\.18, pipes 1\.34, dirty elements 12 and checks 0\.2 kPa\.$/);
    // Left to its grade and to 5 °C it is thicker, and still within.
    expect((await rule(texts))[0]).toMatch(/^fail E1, advice: LP1 of E1 must draw against 19\.9 kPa/);
});

describe('what to do', () => {
    const advice = async (text: string): Promise<string[]> => judge((await load(text)).boat).findings.filter(({ rule: { code } }) => code === 'SUCTION-BUDGET').map((finding) => finding.advice);
    // By S1 with 10 mm: 459.6 x (1 - 0.8⁴) = 271 Pa, of 13.85 kPa.
    test('the bore that buys most, where that is enough', async () => {
        expect(await advice(limited('inlet 13.6 kPa'))).toEqual(['Fit 10 mm in place of the 8 mm of S1, which takes 0.271 kPa off: that is enough.']);
        expect(await advice(limited('inlet 13 kPa'))).toEqual(['Put LP1 lower or nearer to T1.P1 or renew the elements when they take 9.15 kPa together. Of the bores, this buys most: fit 10 mm in place of the 8 mm of S1, which takes 0.271 kPa off.']);
    });
    test('where the margin is thin, to find out', async () => {
        expect(await advice(limited('inlet 13.9 kPa'))).toEqual(['Take the reading of a vacuum gauge at full speed with the tank low. If it is too much, fit 10 mm in place of the 8 mm of S1, which takes 0.271 kPa off.']);
        expect((await advice(limited('inlet 17 kPa', edit(DRAWING, 'dirty 10 kPa', ''))))[0]).toMatch(/^Write at what loss F1 is renewed, like `dirty 10 kPa`; and take the reading/);
    });
});

describe('cannot tell', () => {
    test('what the maker allows', async () => {
        expect(await rule(edit(DRAWING, 'limits inlet 15 kPa   lift 450 mm   return 6 kPa', ''))).toEqual(["cannot tell E1: the maker's limits of E1: suction, lift, and back-pressure in the return"]);
        expect(await rule(edit(DRAWING, 'limits inlet 15 kPa   lift', 'limits lift'))).toEqual(['cannot tell E1: the greatest suction at the inlet of E1']);
    });
    test('what it draws', async () => expect(await rule(edit(DRAWING, 'draws 18 L/h at 3000 rpm', ''))).toEqual(['cannot tell E1: the gross flow of E1']));
    test('a bore, a length, a height', async () => {
        expect(await rule(edit(DRAWING, 'bore 8 mm   length 2 m', 'length 2 m'))).toEqual(['cannot tell E1: the bore of S1']);
        expect(await rule(edit(DRAWING, 'bore 8 mm   length 2 m', 'bore 8 mm'))).toEqual(['cannot tell E1: the length of S1']);
        expect(await rule(edit(DRAWING, 'lift pump LP1 at 625 mm up, 2350 mm fwd, 700 mm stbd', 'lift pump LP1'))).toEqual(['cannot tell E1: the height of the ports of LP1']);
    });
    const LEANING = edit(edit(DRAWING, 'heel 0.1 deg   trim 0.1 deg', 'heel 20 deg   trim 3 deg'), 'LP1 at 625 mm up, 2350 mm fwd, 700 mm stbd', 'LP1 at 625 mm');
    test('a corner, though upright is well', async () => expect(await rule(limited('inlet 20 kPa', LEANING))).toEqual(['cannot tell E1: where LP1 stands along and across the boat']));
    test('but what is too much upright is too much', async () => expect((await rule(limited('inlet 13 kPa', LEANING)))[0]).toMatch(/^fail E1, major/));
    test('a thin margin upright leaves the corners open', async () => {
        expect((await rule(limited('inlet 13.9 kPa', LEANING))).map((line) => line.slice(0, 17))).toEqual(['fail E1, advice: ', 'cannot tell E1: w']);
    });
    test('a selector that nobody placed', async () => {
        const text = edit(edit(DRAWING, 'supply course Feed from T1.P1 to E1 {', 'selector SV { ports a, out\n position A joins a, out\n position OFF joins nothing }\nsupply course Up from T1.P1 to SV.a { hose S0   bore 8 mm   length 1 m }\nsupply course Feed from SV.out to E1 {'), 'line-up RUN run is normal', 'line-up RUN run is normal');
        expect(await rule(text)).toEqual(['cannot tell E1: the position of SV in line-up RUN']);
    });
});

describe('not applicable', () => {
    test('one pump pushes to the next', async () => {
        expect(await rule(edit(DRAWING, '  lift pump LP1', '  electric pump EP1   gives 60 L/h   at 630 mm   when off passes\n  lift pump LP1'))).toEqual(['not applicable E1: EP1 pushes to LP1, so E1 does not draw by itself']);
    });
    test('nothing feeds it', async () => expect(await rule(edit(DRAWING, 'normally open', 'normally shut'))).toEqual(['not applicable E1: no tank feeds it in a line-up for running (see PATH-ONE)']));
    test('nothing burns fuel', async () => expect(await rule(edit(DRAWING, 'tank T1 {', 'tank T1 carries coolant {'))).toEqual(['not applicable vessel: nothing on board burns fuel']));
});
test('a pump that draws alone and gives less than the engine draws', async () => {
    // DRAWING's engine with an electric pump in the place of its lift pump; it draws up to 18 L/h.
    const electric = (facts: string): string => edit(limited('inlet 25 kPa'), 'lift pump LP1', `electric pump LP1   ${facts}   when off blocks`);
    expect(await rule(electric('gives 18 L/h'))).toEqual(['pass E1']);
    expect(await rule(electric('gives 12 L/h'))).toEqual(['fail E1, major: LP1 gives 12 L/h at most, and E1 draws up to 18 L/h, all of it through LP1.']);
    // Of a range that reaches up to it nothing is certain.
    expect(await rule(electric('gives 12 to 20 L/h'))).toEqual(['pass E1']);
});
