/** The groups of time and filters on an invented boat, against sums by hand, each beside its figure; and every formula redone from what is printed. */
import { beforeAll, describe, expect, test } from 'vitest';
import { edit } from '../../checks/boats';
import { formsOf, type Data } from './boats';
import { PLOVERWAKE } from './ploverwake';
import { redone } from './redo';

const sheetOf = async (text: string): Promise<Data> => (await formsOf({ 'boat.orlop': text })).data;
const of = (data: Data, id: string): Data['computations'][number] => data.computations.find((one) => one.id === id)!;
let sheet: Data;
beforeAll(async () => { sheet = await sheetOf(PLOVERWAKE); });

test('every formula comes out as printed', () => expect(sheet.computations.flatMap(redone)).toEqual([]));

test.each([
    // T1 and T2: 190 - 12.5 = 177.5 L each, DT 47.5 - 5 = 42.5 L: 397.5 L, three quarters of it 298.125 L.
    ['endurance E1, 2000 rpm', 59.6, 'h'], // / 5 L/h = 59.625
    ['range, 2000 rpm', 358, 'nmi'], // x 6 kn = 357.75
    ['endurance G2, full speed', 88.8, 'h'], // 355 x 0.75 / 3 = 88.75: DT does not feed it, T2 does by the crossover
    ['endurance E1 and G2, full speed', 37.3, 'h'], // 298.125 / 8 = 37.27: no group is short sooner
    ['burns E1, 1500 rpm', 3.5, 'L/h'], // midway between 2 and 5
    ['passage Islands', 126, 'L'], // 3.5 x 30 x 1.2
    ['rise T1, RUN', -13, 'L/h'], // G2 draws 13
    ['rise T2, RUN', 10, 'L/h'], // and returns 13 - 3
    ['overflow T2, RUN', 9.5, 'h'], // from 52.5 %: 95 L of room / 10
    ['dry T1.P1, RUN', 7.12, 'h'], // 105 - 12.5 = 92.5 L / 13 = 7.115
    ['room for LIFT by TP1', 42.5, 'L'], // 85 % of 50
    ['time for LIFT by TP1', 27, 'min'], // 45 / 100 h
    ['polish T1, POLISH', 2.85, 'h'], // 3 x 190 / 200
    ['unfiltered T1, POLISH', 4.98, '%'], // e^-3 = 0.04979
    ['warmth DT', 37.5, 'degC'], // 17.5 + 5 x 20 / 5
    // From 30 °C, 20 K more in the end when topped up; alone 47.5 / 5 x (1 - e^-1.5) = 9.5 x 0.77687 = 7.380 h.
    ['time to limit DT, not topped up', 7.38, 'h'],
    ['cranking E1', 30, 's'], // 6 L / (60 x 200 / 2000 = 6 L/min) = 60 s, half of it
    // 100 + 450 + 220 mL, π/4 x 10² x 3 m = 235.62 mL: 1005.62 mL / 25 L/h = 2.4135 min.
    ['run-on E1, RUN', 2.41, 'min'],
    // 0.5 L/s / 153.94 mm² = 3.248 m/s: 0.6 x 3.248² = 6.330 Pa a velocity head. Re 3031; f between 64/2000 = 0.032 and 0.0407 at 4000, by the cubic 0.0335: 0.0335 x 2 / 0.014 + 3 = 7.785 heads: 49.3 Pa.
    ['pressure T1 by T1.fill', 0.0493, 'kPa'],
    // 0.00084379 a kelvin: 5 °C 1.0084162, 30 °C exp(-0.0126569 x 1.0101255) = 0.9872962: 2.1392 %.
    ['growth of the fuel', 2.14, '%'],
    ['warmed T1', 194.1, 'L'], // 190 x 1.021392 = 194.06
    ['flow F1', 25, 'L/h'], ['oversize F1', 2.4, '1'],
    // 30 000 mg / (10 mg/kg x 0.84 kg/L x 74/75) = 3619.7 L: / 25 = 144.8 h, / 5 = 723.9 h.
    ['life F1, returned dirty', 144.8, 'h'], ['life F1, returned clean', 723.9, 'h'],
    // 2500, 640 and 80 in a millilitre at most; F2 counts from 4 µm on, F1 from 10: / 75, / 75, / 5625.
    ['behind the filters of E1, 4 µm', 33.3, '1'], ['behind the filters of E1, 6 µm', 8.53, '1'], ['behind the filters of E1, 14 µm', 0.0142, '1'],
    // 840 x 9.80665 = 8237.586 Pa/m. The surface at 900 + 300 mm stands 200 mm over the gauge: 1000 + 1647.52 Pa; 100 mm with 200 mm of dip: 3823.76 + 823.76.
    ['reading G1, 2026-01-10', 2.65, 'kPa'], ['reading G1, 2026-03-10', 4.65, 'kPa'],
    ['rise G1', 2, 'kPa'],
    // 20 Pa an hour; at 12 000 Pa less half of 0 to 2647.52: a rise of 10 676.24 Pa takes 533.8 h from 1000.
    ['due G1', 1533.8, 'h'],
])('%s is %d %s', (id, value, unit) => expect([id, of(sheet, id)?.result]).toMatchObject([id, { value, unit }]));

test('tanks that level out: the step by step sum is what the closed form gives', () => {
    // 380 - 40 = 340 mm. ν by the sheet n = 6.002 mm²/s: a = 128 x 6.002416e-6 x 4 / 4.096e-9 / (π x 9.80665) = 24 354; c = 8 x 1.5 / (π² x 9.80665 x 4.096e-9) = 3.027e7;
    // Q = 0.68 / (24 354 + √(24 354² + 4 x 3.027e7 x 0.34)) = 0.68 / (24 354 + 25 185) = 1.3727e-5 m³/s = 0.8236 L/min.
    expect(of(sheet, 'first flow T1 to T2, LEVEL').result).toMatchObject({ value: 0.824, unit: 'L/min' });
    // A = 0.25 m², q = 0.002 / (24 354 + 24 356) = 4.1059e-8: 0.25 x (24 354 x ln(334.3) + 6.054e7 x 1.3686e-5) = 0.25 x (24 354 x 5.8121 + 829) = 35 594 s = 9.887 h.
    expect(of(sheet, 'levelling T1 to T2, LEVEL')).toMatchObject({ result: { value: 9.89, unit: 'h' }, bySteps: false });
});

test('verdicts', () => {
    expect(of(sheet, 'passage Islands')).toMatchObject({ limit: { value: 298.1, sense: 'at most' }, verdict: 'within', rule: 'RESERVE' });
    expect(of(sheet, 'overflow T2, RUN')).toMatchObject({ limit: { value: 10 }, verdict: 'beyond', rule: 'RETURN-OVERFLOW' });
    expect(of(sheet, 'room for LIFT by TP1')).toMatchObject({ limit: { value: 45, sense: 'at least' }, margin: { value: -2.5 }, verdict: 'beyond', rule: 'XFER-ULLAGE' });
    expect(of(sheet, 'polish T1, POLISH')).toMatchObject({ limit: { value: 24 }, verdict: 'within', rule: 'POLISH-TURNOVER' });
    // In kelvin, whatever degrees are counted from; no percentage of a temperature.
    expect(of(sheet, 'warmth DT')).toMatchObject({ result: { least: 25, most: 50 }, limit: { value: 60, unit: 'degC' }, margin: { value: 22.5, unit: 'K' }, verdict: 'within', rule: 'DAYTANK-HEAT' });
    expect(of(sheet, 'warmth DT')).not.toHaveProperty('margin.percent');
    expect(of(sheet, 'pressure T1 by T1.fill')).toMatchObject({ limit: { value: 16, unit: 'kPa' }, verdict: 'within', rule: 'VENT-AREA' });
    expect(of(sheet, 'warmed T1')).toMatchObject({ limit: { value: 200 }, verdict: 'within', rule: 'EXPANSION' });
    expect(of(sheet, 'flow F2')).toMatchObject({ limit: { value: 20 }, verdict: 'beyond', rule: 'FILTER-FLOW' });
    expect(of(sheet, 'oversize F1')).toMatchObject({ limit: { value: 5 }, verdict: 'within', rule: 'FILTER-OVERSIZE' });
    // 12 000 Pa when dirty, less 0 to 2647.5.
    expect(of(sheet, 'rise G1')).toMatchObject({ limit: { least: 9.35, most: 12 }, verdict: 'within' });
});

describe('the boat altered', () => {
    test('a wide crossover is turbulent: its flow is found by trial and proven, its time told as a sum of steps', async () => {
        const data = await sheetOf(edit(PLOVERWAKE, 'hose H2   bore 8 mm   length 4 m', 'hose H2   bore 25 mm   length 4 m'));
        expect(data.computations.flatMap(redone)).toEqual([]);
        expect(of(data, 'first flow T1 to T2, LEVEL').steps.map(({ formula }) => formula)).toContain('by trial, until C below comes to h');
        expect(of(data, 'levelling T1 to T2, LEVEL')).toMatchObject({ bySteps: true });
    });
    // Re = 4 Q / (π 0.014 x 1.5e-5): 101 050 for each L/s.
    test.each([['10 L/min', 'laminar'], ['30 L/min', 'between laminar and turbulent'], ['60 L/min', 'turbulent']])('filled at %s the air flows %s', async (rate, regime) => {
        const data = await sheetOf(edit(PLOVERWAKE, 'takes 30 L/min', `takes ${rate}`));
        expect(data.computations.flatMap(redone)).toEqual([]);
        expect(of(data, 'pressure T1 by T1.fill').notes[0]).toContain(`The flow is ${regime}:`);
    });
    test('a day tank that is topped up with hot fuel comes to its limit', async () => {
        const data = await sheetOf(edit(PLOVERWAKE, 'fuel 5 to 30 degC', 'fuel 5 to 45 degC'));
        expect(data.computations.flatMap(redone)).toEqual([]);
        // 45 + 20 = 65 °C in the end: 9.5 h x ln(20 / 5) = 13.17 h. At the best guess 25 + 20 = 45 °C: thin.
        expect(of(data, 'time to limit DT, topped up').result).toMatchObject({ value: 13.2, unit: 'h' });
        expect(of(data, 'warmth DT')).toMatchObject({ result: { value: 45, least: 25, most: 65 }, verdict: 'thin' });
    });
    test('a crossover of several pipes, laminar in one and in the other', async () => {
        const data = await sheetOf(edit(edit(PLOVERWAKE, 'drop X1     bore 8 mm    mouth at 20 mm off bottom', 'drop X1     bore 8 mm    mouth at 20 mm off bottom   top at 420 mm up'), 'hose H2   bore 8 mm   length 4 m', 'hose H2   bore 12 mm   length 4 m'));
        expect(data.computations.flatMap(redone)).toEqual([]);
        expect(of(data, 'first flow T1 to T2, LEVEL').inputs.map(({ symbol }) => symbol)).toEqual(expect.arrayContaining(['D₁', 'L₁', 'D₂', 'L₂']));
    });
    test('two engines on one day tank: their heats add up', async () => {
        const two = `${PLOVERWAKE}engine E3 {\n  burns 5 L/h at 2000 rpm\n  draws 15 L/h at 2000 rpm\n  returns 60 degC at 40 degC\n}\nsupply course Third from J1 to E3 { hose S9 }\nreturn course Thirdback from E3 to DT.R2 { hose B9 }\n`;
        const data = await sheetOf(edit(two, 'shutoff V1   normally open', 'shutoff V1   normally open   tee J1').replace('  drop R1\n  drop L1', '  drop R1\n  drop R2\n  drop L1'));
        expect(data.computations.flatMap(redone)).toEqual([]);
        // (20 x 5 + 10 x 20) / 10 = 30 K over 17.5 °C.
        expect(of(data, 'warmth DT').result).toMatchObject({ value: 47.5 });
    });
    test('drawn from two tanks and returned to one: shared alike as a best guess, all or nothing by the worst', async () => {
        const text = edit(edit(PLOVERWAKE, 'hose S3   bore 10 mm   length 3 m }', 'tee J2   hose S3   bore 10 mm   length 3 m }\nsupply course Other from T2.P2 to J2 { hose S4 }'), 'drop R1\n  drop X2', 'pickup P2   mouth at 25 mm off bottom\n  drop R1\n  drop X2');
        const data = await sheetOf(text);
        expect(data.computations.flatMap(redone)).toEqual([]);
        // T2 gets 10 and gives 6.5, or 0 to 13: +3.5, -3 to +10. From 105 L: 95 / 3.5 = 27.1 h to full, 9.5 at the soonest, or never; and dry (105 - 12.5) / 3 = 30.8 h at the soonest, if at all.
        expect(of(data, 'rise T2, RUN').result).toMatchObject({ value: 3.5, least: -3, most: 10 });
        expect(of(data, 'overflow T2, RUN')).toMatchObject({ result: { value: 27.1, least: 9.5 }, verdict: 'thin', notes: expect.arrayContaining([expect.stringContaining('later or never')]) });
        expect(of(data, 'dry T2.P2, RUN')).toMatchObject({ verdict: 'cannot tell', notes: expect.arrayContaining(['By the best guesses it never comes; it may come after 30.8 h.']) });
    });
    // 780: 2680.3206 / 608 400 - 0.00336312 = 0.00104240. 5 °C: exp(0.010424 x 0.9916608) = 1.0103910; 30 °C: exp(-0.015636 x 1.0125088) = 0.9842928; 2.652 %.
    // 800: 594.5418 / 640 000 = 0.00092897: exp(0.0092897 x 0.9925682) = 1.0092632; exp(-0.0139346 x 1.0111477) = 0.9860087; 2.358 %.
    test.each([[780, 2.65], [800, 2.36]])('fuel of %d kg/m³ grows by %d %%', async (density, percent) => {
        const data = await sheetOf(edit(PLOVERWAKE, 'fuel density 840 kg/m3', `fuel density ${density} kg/m3`));
        expect(data.computations.flatMap(redone)).toEqual([]);
        expect(of(data, 'growth of the fuel').result).toMatchObject({ value: percent });
    });
    test('one reading of a gauge: what is missing, and why nothing is foretold', async () => {
        const data = await sheetOf(PLOVERWAKE.replace(/\n {2}2026-0[23].*/g, ''));
        expect(of(data, 'rise G1')).toMatchObject({ verdict: 'cannot tell', missing: [{ fact: 'a second reading of G1 since 2026-01-10' }] });
        expect(of(data, 'rise G1').notes.join(' ')).toContain('Fewer than three readings');
        expect(of(data, 'due G1')).toBeUndefined();
    });
    test('fuel that is not known, and no temperature: what is taken is told, and what is missing asked', async () => {
        const data = await sheetOf(edit(edit(PLOVERWAKE, '  fuel density 840 kg/m3   dirt 10 mg/kg   cleanliness "18/16/13"\n', ''), '   fuel 5 to 30 degC', ''));
        expect(data.computations.flatMap(redone)).toEqual([]);
        expect(of(data, 'warmed T1')).toMatchObject({ verdict: 'cannot tell', missing: [{ fact: 'how warm the fuel on board is' }] });
        // 30 000 / (24 x 0.84 x 74/75) / 25 = 60.3 h; cleanest and lightest 30 000 / (10 x 0.82 x 74/75) / 25 = 148.3, dirtiest and heaviest, all held, 30 000 / (24 x 0.845) / 25 = 59.2.
        expect(of(data, 'life F1, returned dirty').result).toMatchObject({ value: 60.3, least: 59.2, most: 148.3 });
        expect(data.taken.join(' ')).toContain('EN 590');
        expect(data.computations.filter(({ id }) => id.startsWith('behind the filters'))).toEqual([]);
    });
    test('an engine whose return is gone, and a curve that is carried on', async () => {
        const data = await sheetOf(edit(edit(PLOVERWAKE, 'transfer course Cross from T1.X1 to T2.X2 { shutoff V5   normally shut   hose H2   bore 8 mm   length 4 m   shutoff V6   normally shut }\n', ''), '{ V5 open   V6 open }', ''));
        expect(data.computations.flatMap(redone)).toEqual([]);
        // T2 no longer feeds G2: 177.5 x 0.75 / 13.
        expect(of(data, 'endurance G2, full speed')).toMatchObject({ result: { value: 10.2 }, notes: expect.arrayContaining([expect.stringContaining('counts as gone')]) });
        // Together G2 is short first.
        expect(of(data, 'endurance E1 and G2, full speed').notes.join(' ')).toContain('G2 comes down to the reserve first');
    });
});
