/** The sheet of the worked vessel against sums by hand from its drawing, shown beside each; and verdicts, guesses and what is missing on small boats. */
import { beforeAll, describe, expect, test } from 'vitest';
import { exampleTexts, formsOf, type Data } from './boats';

let sheet: Data;
const of = (data: Data, id: string): Data['computations'][number] => data.computations.find((one) => one.id === id)!;
beforeAll(async () => { sheet = (await formsOf(exampleTexts('ottilwake'))).data; });

test.each([
    ['gross T1', 201.6, 'L'], // 8 x 6 x 4.2 dm
    ['full T1', 191.5, 'L'], // 0.95 x 201.6 = 191.52
    ['unusable T1', 12, 'L'], // 8 x 6 x 0.25 dm
    ['usable T1', 179.5, 'L'], // 191.52 - 12
    ['lowest T1', 10.1, 'L'], // 0.05 x 201.6 = 10.08
    ['surface T1, upright', 221, 'mm'], // 200 + 10.08 / 0.48
    ['heel VH1 outlet', 33.2, 'deg'], // arctan (1500 - 520) / 1500 = arctan 0.6533
    ['heel VH1 crest', 35.6, 'deg'], // arctan (1560 - 520) / 1450 = arctan 0.7172
    ['area T1.vent', 201.1, 'mm2'], // π/4 x 16²
    ['area T1.fill', 1134.1, 'mm2'], // π/4 x 38²
    ['volume T1.P1', 21.4, 'mL'], // π/4 x 8² = 50.265 mm², x 0.425 m
    ['volume S1', 130.7, 'mL'], // x 2.60
    ['volume S1b', 12.6, 'mL'], // x 0.25
    ['volume S2', 70.4, 'mL'], // x 1.40
    ['volume S3', 17, 'mL'], // π/4 x 6² = 28.274 mm², x 0.60
    ['volume S4', 9.9, 'mL'], // x 0.35
    ['volume R', 96.1, 'mL'], // x 3.40
    ['volume E1 supply, RUN', 1036.9, 'mL'], // 21.363 + 130.690 + 20 + 12.566 + 450 + 70.372 + 25 + 16.965 + 220 + 9.896 + 60 = 1036.85
    ['head LP1 from T1, upright', 395, 'mm'], // the mouth, at 200 + 25, stands over the surface, at 221: 620 - 225
    // 25° to starboard, bow 3° down: the lowest corner is forward and outside, the mouth 650 mm aft of it, 450 mm inside and 25 mm up: d = 650 x 0.05234 + 450 x 0.42204 + 25 x 0.90507 = 246.56 mm;
    // d³ - (d - 800 x 0.05234)³ = 14 989 600 - 8 576 800 = 6 412 800; / (6 x 0.05234 x 0.42204 x 0.90507 = 0.119947) = 53.46 million mm³.
    ['least T1.P1', 53.5, 'L'],
    ['endurance E1, 2400 rpm', 59.8, 'h'], // 179.52 x 0.8 / 2.4 = 59.84
    ['range, 2400 rpm', 329, 'nmi'], // x 5.5 = 329.12
    ['endurance E1, full speed', 23, 'h'], // 143.616 / 6.25 = 22.98
    ['cranking E1', 43.2, 's'], // 25 x 200 / 3600 = 1.3889 L/min; 2 L in 86.4 s, half of it
    // At 3600 rpm it draws as a best guess 15 x 3600 / 2400 = 22.5 L/h. Behind V1: 1036.85 less the tube of T1.P1, 21.363 = 1015.49 mL; / 22.5 L/h = 2.708 min.
    ['run-on E1, RUN', 2.71, 'min'],
    ['flow F1', 15, 'L/h'], ['oversize F1', 4, '1'], // 60 / 15
    // α = 186.9696 / 840² + 0.4862 / 840 = 0.00026498 + 0.00057881 = 0.00084379; 5 °C: exp(0.0084379 x (1 - 0.0067503)) = 1.0084162; 45 °C: exp(-0.0253137 x 1.0202510) = 0.9745045; 3.4798 %.
    ['growth of the fuel', 3.48, '%'],
    ['warmed T1', 198.2, 'L'], // 191.52 x 1.034798 = 198.18
])('%s is %d %s', (id, value, unit) => expect([id, of(sheet, id).result]).toMatchObject([id, { value, unit }]));

test('the worst corner for the pump, by a sum of its own', () => {
    // A wedge that grows forward or aft: V = ((d³ - (d - aL)³) / 6abc with a = sin 3° = 0.05234, b = sin 25° cos 3° = 0.42204, c = cos 25° cos 3° = 0.90507.
    // d = 118.3: 118.3³ - 76.43³ = 1 655 595 - 446 490 = 1 209 105; / (6 x 0.05234 x 0.42204 x 0.90507 = 0.119947) = 10.08 million mm³: the lowest level.
    // The lowest corner, bow up, at x 2200, y 1150, z 200: 200 x 0.90507 - 1150 x 0.42204 + 2200 x 0.05234 = 181.01 - 485.35 + 115.14 = -189.19; surface -70.89.
    expect(of(sheet, 'surface T1, heeled 25° to starboard, bow 3° up').result).toMatchObject({ value: -71, unit: 'mm' });
    // The mouth of the pickup stands above that, and draws only while it is wet. At x 2350, y 700, z 225: 203.64 - 295.43 + 122.99 = 31.20.
    // The pump at x 3000, y -150, z 620: 561.14 + 63.31 + 157.01 = 781.46; 781.46 - 31.20 = 750.26.
    expect(of(sheet, 'head LP1 from T1, worst')).toMatchObject({ result: { value: 750, unit: 'mm' }, limit: { sense: 'at most', value: 900 }, margin: { value: 150, percent: 17 }, rule: 'LIFT-STATIC', verdict: 'within', where: expect.stringContaining('heeled 25° to starboard, bow 3° up') });
});

test('limits, margins and verdicts', () => {
    // The survival heel of 40° is missed by 40 - 33.2; what the envelope leaves is 5 % of 201.6.
    expect(of(sheet, 'heel VH1 outlet')).toMatchObject({ limit: { sense: 'at least', value: 40 }, margin: { value: -6.8 }, verdict: 'beyond', rule: 'VENT-HEEL' });
    expect(of(sheet, 'least T1.P1')).toMatchObject({ limit: { sense: 'at most', value: 10.1 }, margin: { value: -43.4 }, verdict: 'beyond', rule: 'PICKUP-HEEL' });
    expect(sheet.missing.map(({ fact }) => fact)).toEqual(['how fast T1.fill is filled', 'the length of VH1', 'the rated flow of F2', 'where E1 stands along and across the boat', 'where the fill pipe of T1 ends']);
    // 201.1 mm² is enough for a fill that ends at the top (158.4), not for one that ends in the tank (234.3); nobody said which.
    expect(of(sheet, 'area T1.vent')).toMatchObject({ verdict: 'thin', limit: { least: 156.1, most: 234.3 } });
    expect(of(sheet, 'gross T1').verdict).toBe('no limit');
});

test('a reserve that nobody stated: 20 to 33 %', () => {
    // 179.52 x 0.67 / 2.4 = 50.1 h; x 5.5 = 276 miles.
    expect(of(sheet, 'endurance E1, 2400 rpm').result).toMatchObject({ least: 50.1, most: 59.8 });
    expect(of(sheet, 'range, 2400 rpm').result).toMatchObject({ least: 276, most: 329 });
    expect(sheet.taken).toContain('share that is kept back: 20 %, of the 20 to 33 % that the trade keeps back (common practice)');
});

test('each input names its source: a fact in its own words with its grade, what was taken, or another computation', () => {
    expect(of(sheet, 'gross T1').inputs.map(({ from }) => from)).toEqual(Array.from({ length: 3 }, () => ({ kind: 'fact', words: 'T1: box 800 x 600 x 420 mm', grade: 'told' })));
    expect(of(sheet, 'full T1').inputs.map(({ from }) => from.kind)).toEqual(['computation', 'taken']);
    expect(sheet.taken).toContain('share to which it is filled: 95 %, trade practice');
    for (const { inputs } of sheet.computations) for (const { from } of inputs) expect(from.words).not.toBe('');
    // Every computation that another rests on is on the sheet.
    const ids = new Set(sheet.computations.map(({ id }) => id));
    expect(ids.size).toBe(sheet.computations.length);
    for (const { inputs } of sheet.computations) for (const { from } of inputs) if (from.kind === 'computation') expect(ids).toContain(from.id);
});

const SMALL = (pump: string, hose: string, lift = '900 mm'): string => `vessel Smallwake { waterline at 500 mm   envelope heel 20 deg   trim 2 deg   level 50 to 95 % }
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 0 mm stbd
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at 420 mm up, 1500 mm fwd, 250 mm stbd
  vent }
engine E1 { limits lift ${lift} }
supply course Feed from T1.P1 to E1 { hose S1   ${hose}   lift pump LP1   ${pump} }
`;

describe('guesses', () => {
    /** The surface stands at 200 mm, half of the tank; the maker's lift of 900 mm about is 810 to 990. */
    const upright = async (pump: string): Promise<Data['computations'][number]> => of((await formsOf({ 'a.orlop': SMALL(`at ${pump}`, 'bore 8 mm   length 1 m', '900 mm about') })).data, 'head LP1 from T1, upright');

    test.each([
        ['1000 mm', 800, 'within'], ['1010 mm', 810, 'within'], // whatever the guess is
        ['1050 mm', 850, 'thin'], // within 900, not within 810
        ['1150 mm', 950, 'thin'], // beyond 900, not beyond 990
        ['1200 mm', 1000, 'beyond'], // whatever it is
    ])('a pump at %s, %d mm up: %s', async (pump, value, verdict) => expect(await upright(pump)).toMatchObject({ result: { value }, limit: { least: 810, most: 990 }, verdict }));
    test('a pump that feeds two engines keeps to the lesser limit, whichever is named first', async () => {
        for (const [one, two] of [[700, 900], [900, 700]]) {
            const text = `${SMALL('at 1000 mm   tee J1   hose', 'bore 8 mm   length 1 m', `${one} mm`)}engine E2 { limits lift ${two} mm }\nsupply course Two from J1 to E2 { hose }\n`;
            expect(of((await formsOf({ 'a.orlop': text })).data, 'head LP1 from T1, upright')).toMatchObject({ result: { value: 800 }, limit: { value: 700 }, verdict: 'beyond' });
        }
    });
    test('a place that is only about right says that this is not reckoned with', async () => {
        const { text } = await formsOf({ 'a.orlop': SMALL('at 1000 mm about', 'bore 8 mm   length 1 m') });
        expect(text.replace(/\s+/g, ' ')).toContain('z is only about right, and how far off that could be is not known: not reckoned with here.');
    });

    test('a hose of which bore and length are guesses: both ends, and the guess is told once', async () => {
        const { data } = await formsOf({ 'a.orlop': SMALL('at 600 mm', 'bore 8 mm about   length 2 m about') });
        // π/4 x 8² x 2000 = 100.5 mL; x 0.9³ = 73.3, x 1.1³ = 133.8.
        expect(of(data, 'volume S1').result).toMatchObject({ value: 100.5, least: 73.3, most: 133.8 });
        expect(data.taken.filter((words) => words.includes('10 %'))).toHaveLength(1);
    });
    test('without a guess nothing is said of one', () => expect(sheet.taken.filter((words) => words.includes('about'))).toEqual([]));
});

describe('what is not known', () => {
    test('is named with what it would settle, and the rest is told', async () => {
        const { data } = await formsOf({ 'a.orlop': SMALL('', 'length 1 m') });
        expect(of(data, 'volume S1')).toMatchObject({ verdict: 'cannot tell', missing: [{ fact: 'the bore of S1' }] });
        expect(of(data, 'volume S1').result).toBeUndefined();
        expect(data.missing.find(({ fact }) => fact === 'the bore of S1')!.settles).toEqual(['volume S1', 'volume E1 supply, RUN']);
        expect(of(data, 'head LP1 from T1, upright')).toMatchObject({ verdict: 'cannot tell', missing: [{ fact: 'the height of the ports of LP1' }] });
        expect(of(data, 'gross T1').result).toMatchObject({ value: 200 });
        for (const { missing, result, notes } of data.computations) if (!result) expect(missing.length + notes.length).toBeGreaterThan(0);
    });
    test('the smallest boat, and one with nothing, still give a sheet', async () => {
        const { data } = await formsOf({ 'a.orlop': 'vessel Barewake\ntank T1 { pickup P1   vent   fill }\nengine E1\nsupply course Feed from T1.P1 to E1 { hose   filter F1 }\n' });
        // But for an ordinary diesel at a temperature that is taken.
        expect(new Set(data.computations.filter(({ id }) => !/^(density|viscosity), /.test(id)).map(({ verdict }) => verdict))).toEqual(new Set(['cannot tell']));
        expect((await formsOf({ 'a.orlop': '' })).data.computations).toEqual([]);
    });
});
