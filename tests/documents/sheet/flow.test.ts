/** The groups of flow: the worked vessel by sums by hand, shown beside each; then regimes, fuels that are stated, flow that divides, and what is missing. */
import { beforeAll, describe, expect, test } from 'vitest';
import { exampleTexts, formsOf, type Data } from './boats';
import { redone } from './redo';

type Computation = Data['computations'][number];
const of = (data: Data, id: string): Computation => data.computations.find((one) => one.id === id)!;
const sheetOf = async (text: string): Promise<Data> => { const { data } = await formsOf({ 'a.orlop': text }); expect(data.computations.flatMap(redone)).toEqual([]); return data; };

describe('the worked vessel', () => {
    let sheet: Data;
    beforeAll(async () => { sheet = (await formsOf(exampleTexts('ottilwake'))).data; });

    test.each([
        // Nothing is stated, so a diesel of 840 kg/m³ and 2.6 mm²/s at 40 °C. α = 0.4862/840 + 186.9696/840² = 0.00057881 + 0.00026498; αΔ = -0.0084379 at 5 °C; exp(0.0084379 x 0.99325) = 1.008416.
        ['density, coldest', 847, 'kg/m3'],
        // log log 3.3 = -0.285240; log 313.15 - log 278.15 = 2.495753 - 2.444279 = 0.051474, x 3.9309902 = 0.202344; 10^-0.082896 = 0.826236; 10^0.826236 = 6.7025; less 0.7.
        ['viscosity, coldest', 6, 'mm2/s'],
        ['burns E1', 6.25, 'L/h'],
        ['draws E1', 22.5, 'L/h'], // 15 x 3600 / 2400
        ['returns E1', 16.3, 'L/h'], // 22.5 - 6.25 = 16.25
        // v = 22.5 L/h / 50.265 mm² = 0.12434 m/s; Re = 0.12434 x 8 / 6.0024 = 165.7; f = 64 / Re = 0.38619; 0.38619 x 2600 / 8 x 847.07 x 0.01546 / 2 = 821.9 Pa.
        ['friction S1', 0.822, 'kPa'],
        ['friction T1.P1', 0.134, 'kPa'], // x 0.425 / 2.6
        ['friction S1b', 0.079, 'kPa'], // x 0.25 / 2.6
        ['friction S2', 0.443, 'kPa'], // x 1.4 / 2.6
        // 16.25 L/h in 6 mm: v = 4.51389 / 28.2743 = 0.159647 m/s; Re = 159.58; f = 0.40105; 0.40105 x 3400 / 6 x 847.07 x 0.025487 / 2 = 2453 Pa.
        ['friction R', 2.45, 'kPa'],
        // 847.07 x 9.80665 x 0.75025 = 6232 Pa; 821.9 x 4.675 / 2.6 = 1478; 12 000; 2 x 100: 19 910.
        ['suction E1', 19.91, 'kPa'],
        ['bores E1', 0.485, 'kPa'], // S1 with 10 mm: 0.8219 x (1 - 0.8⁴) = 0.8219 x 0.5904
        ['surface T1, half full, upright', 410, 'mm'], // 200 + 420 / 2
        // (660 - 410) mm: 2077 Pa; at 15 of 22.5 L/h two thirds of 134 + 822 + 79 = 690; 200; and 1000 or 12 000.
        ['gauge G1, new elements', 3.97, 'kPa'],
        ['gauge G1, elements to be renewed', 14.97, 'kPa'],
        ['return E1', 1.04, 'kPa'], // over the top of the drop at 650 mm, from 820: -1412 Pa, + 2453
        // 10.08 L of air stand in the highest corner as the lowest level does in the lowest, 118.3 mm deep. That corner, bow down, heeled to port, at x 2200, y 1150, z 620: 561.14 + 485.35 - 115.14 = 931.35.
        ['surface T1, highest level, heeled 25° to port, bow 3° down', 813, 'mm'],
        // The pump: 561.14 - 63.31 - 157.01 = 340.82; 847.07 x 9.80665 x 0.47222 = 3923 Pa, less the checks of the primer.
        ['at rest E1', 3.72, 'kPa'],
        ['starves E1, RUN', 26.5, '%'], // 53.46 / 201.6
    ])('%s is %d %s', (id, value, unit) => expect([id, of(sheet, id).result]).toMatchObject([id, { value, unit }]));

    test('the speed in 8 mm, as it stands in the computation', () => expect(of(sheet, 'friction S1').steps.find(({ symbol }) => symbol === 'v')).toMatchObject({ value: 0.12434, unit: 'm/s' }));
    test('the suction is within its limit as it is likely, but not at the worst of the guesses', () =>
        expect(of(sheet, 'suction E1')).toMatchObject({ verdict: 'thin', limit: { sense: 'at most', value: 20 }, margin: { value: 0.09 }, rule: 'SUCTION-BUDGET', where: expect.stringContaining('heeled 25° to starboard, bow 3° up') }));
    test('a corner that is not known keeps the return from being within its limit', () => expect(of(sheet, 'return E1')).toMatchObject({ verdict: 'cannot tell', missing: [{ fact: 'where E1 stands along and across the boat' }] }));
    test('nothing divides, so there is nothing to balance', () => expect(sheet.computations.filter(({ id }) => id.startsWith('balance'))).toEqual([]));

    test('with the 840 kg/m³ and 5.5 mm²/s of the reference drawing: static 6.18, friction 1.34, element 12, checks 0.2: 19.7 kPa', async () => {
        const texts = exampleTexts('ottilwake');
        const file = Object.keys(texts).find((name) => texts[name]!.includes('fuel 5 to 45 degC'))!;
        const { data } = await formsOf({ ...texts, [file]: texts[file]!.replace('fuel 5 to 45 degC', 'fuel 15 to 45 degC').replace('speed 5.5 kn', 'fuel density 840 kg/m3   viscosity 5.5 mm2/s at 15 degC\n  speed 5.5 kn') });
        const budget = of(data, 'suction E1');
        expect(budget.notes[0]).toBe('Of it height 6.18, pipes 1.34, elements 12.00 and checks 0.20 kPa.');
        expect(budget.result).toMatchObject({ value: 19.72 });
    });
});

const BOAT = ({ draws = '60 L/h', vessel = '', line = 'hose S1   bore 8 mm   length 1 m', lineUps = '' } = {}): string => `vessel Flowwake { envelope heel 10 deg   trim 2 deg   level 10 to 95 %   fuel 10 to 40 degC   ${vessel} }
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 0 mm stbd
  pickup P1   bore 20 mm   mouth at 20 mm off bottom   top at 420 mm up, 1500 mm fwd, 250 mm stbd
  vent }
engine E1 { burns 20 L/h at 2000 rpm   draws ${draws} at 2000 rpm   inlet at 500 mm up, 2000 mm fwd, 0 mm stbd   limits inlet 20 kPa   clean 10 kPa   head 5 kPa }
supply course Feed from T1.P1 to E1 { ${line}
  lift pump LP1 at 450 mm up, 2000 mm fwd, 0 mm stbd }
${lineUps}`;

describe('regimes of flow', () => {
    // At 10 °C some 5.19 mm²/s; Re = 4 Q / (π D ν): in 8 mm 8.514 for each L/h.
    test.each([['60 L/h', 511, '64 / Re'], ['350 L/h', 2980, '7 × A − B'], ['800 L/h', 6811, '0.25 / (log']])('%s in 8 mm: Re %d', async (draws, re, formula) => {
        const friction = of(await sheetOf(BOAT({ draws })), 'friction S1');
        expect(Math.round(friction.steps.find(({ symbol }) => symbol === 'Re')!.value)).toBeCloseTo(re, -1);
        expect(friction.steps.find(({ symbol }) => symbol === 'f')!.formula).toContain(formula);
    });
    test('a larger bore in turbulent flow is computed anew, not by the fourth power', async () => {
        const data = await sheetOf(BOAT({ draws: '800 L/h' }));
        expect(of(data, 'friction S1 with 10 mm').result!.value).toBeLessThan(of(data, 'friction S1').result!.value);
        expect(of(data, 'bores E1').steps.map(({ formula }) => formula)).toContain('G₁ = F₁ − W₁');
    });
});

describe('a fuel that is stated', () => {
    test('by two points: the line runs through both', async () => {
        const data = await sheetOf(BOAT({ vessel: 'fuel density 830 to 835 kg/m3   viscosity 5 mm2/s at 10 degC, 2.4 mm2/s at 40 degC' }));
        expect([of(data, 'viscosity, coldest').result!.value, of(data, 'viscosity, warmest').result!.value]).toEqual([5, 2.4]);
        // 594.5418 / 830² x 5 K = 0.0043152: 830 x 1.00431 = 833.6; 835 x 1.00426 = 838.6.
        expect(of(data, 'density, coldest').result).toMatchObject({ least: 834, most: 839 });
        expect(data.taken.filter((words) => /diesel/.test(words))).toEqual([]);
    });
    test('a thin one, below 2 mm²/s', async () => {
        const data = await sheetOf(BOAT({ vessel: 'fuel viscosity 1.5 mm2/s at 40 degC' }));
        expect(of(data, 'viscosity, warmest').result).toMatchObject({ value: 1.5 });
    });
    test.each(['winter diesel', 'renewable diesel', 'biodiesel blend'])('%s, by its grade', async (grade) => { expect(of(await sheetOf(BOAT({ vessel: `runs on ${grade}` })), 'viscosity, coldest').formula).toContain('ν = '); });
});

test('with new elements against the limit for these, and at rest against what the maker allows', async () => {
    const data = await sheetOf(BOAT({ line: 'hose S1   bore 8 mm   length 1 m   filter F1 primary   ports at 400 mm   clean 2 kPa   dirty 9 kPa   rated 120 L/h   stands 1 kPa' }));
    // 2 kPa at 120 L/h is 1 kPa at 60.
    expect(of(data, 'suction E1, new elements').steps.find(({ symbol }) => symbol === 'E₁')).toMatchObject({ value: 1, unit: 'kPa' });
    expect(of(data, 'suction E1, new elements').limit).toMatchObject({ value: 10 });
    expect(of(data, 'suction E1').result!.value - of(data, 'suction E1, new elements').result!.value).toBeCloseTo(8, 1);
    expect(of(data, 'at rest E1').limit).toMatchObject({ value: 5 });
    expect(of(data, 'at rest F1').limit).toMatchObject({ value: 1 });
});

test('at rest, what stands there when no check holds is told', async () => {
    // 847.07 x 9.80665 x (813.05 - 340.83) mm = 3.92 kPa, of which the primer holds back 2 x 0.1.
    const { data } = await formsOf(exampleTexts('ottilwake'));
    expect(of(data, 'at rest E1').notes.join(' ')).toContain('with none that holds, 3.92 kPa stand there');
});

describe('flow that divides', () => {
    const LINE = `hose S1 bore 8 mm length 1 m
  changeover CH1 at 400 mm up, 1800 mm fwd, 0 mm stbd {
    leg A { hose SA bore 6 mm length 0.5 m   filter FA primary   ports at 400 mm   dirty 8 kPa }
    leg B { hose SB bore 8 mm length 1.5 m   filter FB primary   ports at 400 mm   dirty 8 kPa }
    position A through A
    position B through B
    position BOTH through A, B
    turning passes BOTH
  }`;
    test('each way takes the same, and what comes leaves', async () => {
        const data = await sheetOf(BOAT({ line: LINE, vessel: 'fuel density 840 kg/m3   viscosity 5 mm2/s at 10 degC', lineUps: 'line-up RUN run is normal { CH1 BOTH }\n' }));
        // 128 ρ ν L / (π D⁴) with ρ ν = 840 x 1.00420 x 5e-6 = 4.21766e-3: SA 128 x 4.21766e-3 x 0.5 / (π x 1.296e-9) = 66.30e6, SB x 3 x 0.31641 = 62.93e6; an element 8000 / (30 / 3.6e6) = 960e6 Pa s/m³, since each is to be renewed at its half of the flow.
        // SA has 1022.93 / (1026.30 + 1022.93) = 0.49918 of 60 L/h: 29.951.
        const flow = of(data, 'balance RUN, E1').inputs.find(({ value }) => value > 29 && value < 30)!;
        expect(flow.value).toBeCloseTo(29.951, 2);
        expect(of(data, 'balance RUN, E1').result).toMatchObject({ value: 0, unit: '%' });
        const ways = data.computations.filter(({ id }) => id.startsWith('way ')).map(({ result }) => result!.value);
        expect(ways).toHaveLength(2);
        // 1026.30e6 x 29.951 / 3.6e6 = 8539 Pa.
        for (const way of ways) expect(way).toBeCloseTo(8.54, 2);
        expect(of(data, 'suction E1').notes.join(' ')).toContain('the way by which most comes');
    });
    test('from two tanks, one higher as she heels: the ways differ by what one surface stands over the other', async () => {
        const second = `tank T2 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 100 mm port
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at 420 mm up, 1500 mm fwd, 250 mm port
  vent }
supply course Two from T2.P1 to J1 { hose S3   bore 8 mm   length 1 m }
`;
        const data = await sheetOf(BOAT({ draws: '200 L/h', line: 'hose S1   bore 8 mm   length 1 m   tee J1 at 300 mm up, 1800 mm fwd, 0 mm stbd   hose S2   bore 8 mm   length 1 m', lineUps: second }));
        const balance = data.computations.find(({ id }) => id.startsWith('balance'))!;
        expect(balance.formula).toContain('H₁ − K₁');
        expect(balance.result).toMatchObject({ value: 0 });
        const [higher, lower] = ['H₁', 'K₁'].map((symbol) => balance.inputs.find((one) => one.symbol === symbol)!.value) as [number, number];
        expect(Math.abs(higher - lower)).toBeGreaterThan(50);
        // A wider bore there draws more that way: no formula, but what the network solution has.
        expect(of(data, 'bores E1').inputs.some(({ from }) => from.words.startsWith('the network solution with that bore'))).toBe(true);
    });
    test('of two line-ups the worse is told, the other in a line', async () => {
        const data = await sheetOf(BOAT({ line: LINE, lineUps: 'line-up RUN run is normal { CH1 BOTH }\nline-up RUN-A run from RUN { CH1 A }\n' }));
        expect(of(data, 'suction E1')).toMatchObject({ where: expect.stringContaining('line-up RUN-A') });
        expect(of(data, 'suction E1').notes.join(' ')).toMatch(/At worst in other line-ups, kPa: RUN \d/);
    });
});

test('what is not known is named, and no figure stands for it', async () => {
    const data = await sheetOf(BOAT({ line: 'hose S1   length 1 m' }));
    expect(of(data, 'suction E1')).toMatchObject({ verdict: 'cannot tell', missing: [{ fact: 'the bore of S1' }] });
    expect(of(data, 'suction E1').result).toBeUndefined();
    const without = await sheetOf(BOAT().replace('lift pump LP1 at 450 mm up, 2000 mm fwd, 0 mm stbd', 'lift pump LP1'));
    expect(of(without, 'at rest E1')).toMatchObject({ verdict: 'cannot tell', missing: [{ fact: 'the height of the ports of LP1' }] });
    expect(of(without, 'suction E1')).toMatchObject({ verdict: 'cannot tell' });
});
