/** DEADLEG: no row of pipes stands still in every line-up. */
import { describe, expect, test } from 'vitest';
import { SLOOP, TWIN, edit, example, said, type Texts } from './boats';
import { TWOWAYS } from './crestwake';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('DEADLEG', texts, about);
/** The starboard tank is drawn from in no line-up. */
const idle = (line = 'hose SS   bore 8 mm   length 2.5 m'): string => edit(edit(TWOWAYS, '\nline-up RUN-STBD run from RUN-PORT { SV1 STBD }', ''), 'hose SS   bore 8 mm   length 2.5 m   crest at 720 mm', line);

// 2.5 m are 2500 / 8 = 312.5 bores; ten are 80 mm.
test('a line that no line-up uses', async () => {
    expect(await rule(idle())).toEqual(['fail SS, advice: Nothing flows through SS in any line-up for running, transferring or polishing: 2.5 m stand still at SV1, 310 times the bore.']);
    expect(await rule(idle('hose SS   bore 8 mm   length 80 mm'))).toEqual(['pass SS']);
    expect((await rule(idle('hose SS   bore 8 mm   length 81 mm')))[0]).toMatch(/^fail SS, advice: /);
    expect(await rule(TWOWAYS)).toEqual(['not applicable vessel: no pipe of a fuel line stands still in every line-up']);
});

test('each side of a shut valve is a leg', async () => {
    expect((await rule(idle('hose SA   bore 8 mm   length 1 m   shutoff V9   normally shut   hose SB   bore 8 mm   length 1.5 m'))).map((line) => line.replace(/ in any line-up.*: /, ': '))).toEqual([
        'fail SA, advice: Nothing flows through SA: 1 m stand still at V9, 130 times the bore.', 'fail SB, advice: Nothing flows through SB: 1.5 m stand still at SV1 and V9, 190 times the bore.',
    ]);
});

/** Two tanks that are never drawn from, each by a valve at the tank and a hose of its own at one tee. */
const TEE = `tank T1 { pickup P1   vent }
tank T2 { pickup P1   vent }
tank T3 { pickup P1   vent }
engine E1
supply course One from T1.P1 to E1 { hose S1   bore 8 mm   length 1 m   tee J1   hose S4   bore 8 mm   length 1 m }
supply course Two from T2.P1 to J1 { shutoff V2   normally shut   hose S2   bore 8 mm   length 1 m }
supply course Three from T3.P1 to J1 { shutoff V3   normally shut   hose S3   bore 8 mm   length 2 m }
line-up RUN run is normal
`;
test('two legs at one tee are two', async () => {
    expect((await rule(TEE)).map((line) => line.replace(/ in any line-up.*: /, ': '))).toEqual(['fail S2, advice: Nothing flows through S2: 1 m stand still at V2, 130 times the bore.', 'fail S3, advice: Nothing flows through S3: 2 m stand still at V3, 250 times the bore.']);
});

test('a drain empties it', async () => {
    expect(await rule(idle('hose SS   bore 8 mm   length 2.5 m\n  filter F9 { drain at 300 mm }'))).toEqual(['pass SS']);
});

const CROSS = (positions: string): string => `tank T1 { pickup P1   pickup P2   drop R1   vent }
tank T2 { pickup P2   vent }
engine E1
supply course Feed from T1.P1 to E1 { hose S1   bore 8 mm   length 2 m }
return course Back from E1 to T1.R1 { hose B1   bore 8 mm   length 2 m }
transfer course Cross from T1.P2 to T2.P2 { hose X1   bore 10 mm   length 3 m   shutoff VX }
line-up RUN run is normal { VX shut }
${positions}`;
test('a crossover that a line-up for transferring opens is used', async () => {
    expect((await rule(CROSS('')))[0]).toMatch(/^fail X1, advice: .* 3 m stand still at VX, 300 times the bore\.$/);
    expect(await rule(CROSS('line-up LEVEL transfer { VX open }'))).toEqual(['not applicable vessel: no pipe of a fuel line stands still in every line-up']);
    expect((await rule(CROSS('line-up WORK service { VX open }')))[0]).toMatch(/^fail X1, advice: /);
});

const BYPASS = (leg: string): string => edit(SLOOP, '  primer PR1\n', `  split {\n leg main { check CV1 }\n leg bypass { hose X1 bore 8 mm length 0.5 m\n shutoff VB normally shut${leg} }\n}\n`);
test('the way round of a primer is flushed whenever it is used, on both sides of its valve', async () => {
    const primed = await rule(BYPASS('\n electric primer EP1 gives 60 L/h when off passes\n hose X2 bore 8 mm length 0.5 m'));
    expect(primed).toEqual(['X1', 'X2'].map((hose) => `not applicable ${hose}: it is the way round of a pump, which flushes it when she is bled`));
    expect(await rule(BYPASS(''))).toEqual(['fail X1, advice: Nothing flows through X1 in any line-up for running, transferring or polishing: 0.5 m stand still at VB, 63 times the bore.']);
    expect(await rule(example('marrenwake'))).toEqual(['not applicable vessel: no pipe of a fuel line stands still in every line-up']);
});
test('but not the line of a tank that is never drawn from', async () => {
    expect((await rule(idle('primer PR1\n  hose SS   bore 8 mm   length 2.5 m')))[0]).toMatch(/^fail SS, advice: /);
});

describe('cannot tell', () => {
    test('the position of a selector', async () => {
        const unplaced = TWOWAYS.replace('{ SV1 PORT }', '').replace('{ SV1 STBD }', '');
        expect(await rule(unplaced, 'SP')).toEqual(['cannot tell SP: the position of SV1 in line-up RUN-PORT; the position of SV1 in line-up RUN-STBD']);
    });
    test('the bore, the length', async () => {
        expect(await rule(idle('hose SS'))).toEqual(['cannot tell SS: the bore of SS; the length of SS']);
        expect(await rule(edit(TWIN, 'line-up RUN-STBD run from RUN-PORT { SV1 STBD   SV2 STBD }', ''), 'B3')).toEqual(['cannot tell B3: the bore of B3; the length of B3']);
    });
});

test.each(['ottilwake', 'ottilwake-mended', 'brackenwake', 'brackenwake-mended'])('%s has none', async (name) => {
    expect(await rule(example(name))).toEqual(['not applicable vessel: no pipe of a fuel line stands still in every line-up']);
});
test('an empty boat', async () => { expect(await rule('tank T1 { pickup P1   vent }')).toEqual(['not applicable vessel: no pipe of a fuel line stands still in every line-up']); });
