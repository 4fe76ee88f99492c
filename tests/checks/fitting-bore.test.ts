/** FITTING-BORE: 80 % of the bore of the line beside a fitting, and of two sides of the smaller. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts, about: string): Promise<string[]> => said('FITTING-BORE', texts, about);
const pickup = (bore: string, text = SLOOP): string => edit(text, 'pickup P1   bore 8 mm', `pickup P1   ${bore}`);
const valve = (bore: string, text = SLOOP): string => edit(text, 'shutoff V1   normally open', `shutoff V1   normally open   ${bore}`);

// 80 % of the 8 mm of S1 are 6.4 mm; 6.3 are 78.75 %, 6 are 75 %.
test('a pickup beside a hose of 8 mm: 6.4 mm, and a tenth less', async () => {
    expect(await rule(pickup('bore 6.4 mm'), 'T1.P1')).toEqual(['pass T1.P1']);
    expect(await rule(pickup('bore 6.3 mm'), 'T1.P1')).toEqual(['fail T1.P1, major: T1.P1 has a bore of 6.3 mm, 79 % of the 8 mm of S1 beside it.']);
});
test('a valve at the tank has a pipe on one side only', async () => {
    expect(await rule(valve('bore 6.4 mm'), 'V1')).toEqual(['pass V1']);
    expect(await rule(valve('bore 6 mm'), 'V1')).toEqual(['fail V1, major: V1 has a bore of 6 mm, 75 % of the 8 mm of S1 beside it.']);
});
/* LP1 and F2 stand where the hose of 8 mm becomes a tube of 6 mm, with no pipe between them: each may be as small as 80 % of 6 mm, 4.8 mm. F1 has 8 mm on both sides. */
describe('where the pipe itself is reduced, the smaller counts', () => {
    test('F2 and LP1 between 8 and 6 mm', async () => {
        for (const [part, old] of [['F2', 'passes 5 um'], ['LP1', 'lift pump LP1']] as const) {
            expect(await rule(edit(SLOOP, old, `${old}   bore 4.8 mm`), part)).toEqual([`pass ${part}`]);
            expect(await rule(edit(SLOOP, old, `${old}   bore 4.7 mm`), part)).toEqual([`fail ${part}, major: ${part} has a bore of 4.7 mm, 78 % of the 6 mm of S3 beside it.`]);
        }
    });
    test('F1 between 8 and 8 mm', async () => {
        expect(await rule(edit(SLOOP, 'passes 10 um', 'passes 10 um   bore 6 mm'), 'F1')).toEqual([expect.stringMatching(/^fail F1, major: F1 has a bore of 6 mm, 75 % of the 8 mm of S/)]);
        expect(await rule(edit(SLOOP, 'passes 10 um', 'passes 10 um   bore 7 mm'), 'F1')).toEqual(['pass F1']);
    });
});
describe('a tee', () => {
    /** A heater on a thin branch of the engine's line. */
    const branched = (bore: string): string => `${edit(SLOOP, '  hose S2      bore 8 mm\n', `  tee J1   ${bore}\n  hose S2      bore 8 mm\n`)}heater HE1\nsupply course Branch from J1 to HE1 { hose H1 bore 4 mm }\n`;
    test('is judged by the line that goes on, and a branch is no reason to be thin', async () => {
        expect(await rule(branched('bore 6.4 mm'), 'J1')).toEqual(['pass J1']);
        expect(await rule(branched('bore 6 mm'), 'J1')).toEqual([expect.stringMatching(/^fail J1, major: J1 has a bore of 6 mm, 75 % of the 8 mm of S/)]);
    });
    test('a fitting of the thin branch is judged by it', async () => {
        const text = edit(branched('bore 8 mm'), 'hose H1 bore 4 mm', 'hose H1 bore 4 mm\n check CV1 bore 3.2 mm\n');
        expect(await rule(text, 'CV1')).toEqual(['pass CV1']);
        expect(await rule(edit(text, 'bore 3.2 mm', 'bore 3.1 mm'), 'CV1')).toEqual(['fail CV1, major: CV1 has a bore of 3.1 mm, 78 % of the 4 mm of H1 beside it.']);
    });
});
test('a selector between pipes of 10, 6 and 10 mm: each way through it by itself', async () => {
    const text = (bore: string): string => `tank T1 { pickup P1 bore 10 mm }\ntank T2 { pickup P1 bore 6 mm }\nengine E1
selector SV1 ${bore} {\n ports port, stbd, out\n position PORT joins port, out\n position STBD joins stbd, out\n}
supply course A from T1.P1 to SV1.port { hose H1 bore 10 mm }\nsupply course B from T2.P1 to SV1.stbd { hose H2 bore 6 mm }\nsupply course C from SV1.out to E1 { hose H3 bore 10 mm }
line-up PORT run is normal { SV1 PORT }
line-up STBD run { SV1 STBD }\n`;
    expect(await rule(text('bore 8 mm'), 'SV1')).toEqual(['pass SV1']);
    // By STBD alone 80 % of 6 mm are enough, 4.8 mm.
    const starboard = edit(edit(text('bore 4.8 mm'), 'line-up PORT run is normal { SV1 PORT }\n', ''), 'STBD run', 'STBD run is normal');
    expect(await rule(starboard, 'SV1')).toEqual(['pass SV1']);
    expect(await rule(text('bore 7 mm'), 'SV1')).toEqual([expect.stringMatching(/^fail SV1, major: SV1 has a bore of 7 mm, 70 % of the 10 mm of H[13] beside it\.$/)]);
});
describe('what liquid can go past is not judged', () => {
    const split = (legs: string): string => edit(SLOOP, '  primer PR1\n', `  split {\n${legs}\n}\n`);
    test('a small primer in a bypass, shut or open; in line it is', async () => {
        for (const state of ['shut', 'open']) expect(await rule(split(`leg main { check CV1 bore 8 mm }\n leg bypass { shutoff VB normally ${state}\n electric primer EP1 bore 4 mm }`), 'EP1')).toEqual([]);
        expect(await rule(edit(SLOOP, '  primer PR1\n', '  electric primer EP1 bore 4 mm\n'), 'EP1')).toEqual([expect.stringMatching(/^fail EP1, major/)]);
    });
    test('but each side of a changeover is, off line too', async () => {
        const text = edit(SLOOP, '  primer PR1\n', '  changeover CO1 {\n leg A { filter FA bore 8 mm }\n leg B { filter FB bore 6 mm }\n position A through A\n position B through B\n}\n').replace('run is normal', 'run is normal { CO1 A }');
        expect(await rule(text, 'FA')).toEqual(['pass FA']);
        expect(await rule(text, 'FB')).toEqual([expect.stringMatching(/^fail FB, major: FB has a bore of 6 mm, 75 %/)]);
    });
    test('and the valve of each of two tanks that feed at once', async () => {
        const text = (bore: string): string => `tank T1 { pickup P1 bore 8 mm }\ntank T2 { pickup P1 bore 8 mm }\nengine E1
supply course A from T1.P1 to E1 { shutoff V1 bore 8 mm   hose H1 bore 8 mm   tee J1   hose H3 bore 8 mm }\nsupply course B from T2.P1 to J1 { shutoff V2 ${bore}   hose H2 bore 8 mm }\n`;
        expect(await rule(text('bore 6.4 mm'), 'V2')).toEqual(['pass V2']);
        expect(await rule(text('bore 6 mm'), 'V2')).toEqual([expect.stringMatching(/^fail V2, major/)]);
    });
});
test('figures that are not exact: 10 % either way of about 6.6 mm are 5.94 to 7.26 mm', async () => {
    expect(await rule(pickup('bore 6.6 mm about'), 'T1.P1')).toEqual(['fail T1.P1, advice: T1.P1 may have a bore under 80 % of that of S1 beside it: about 6.6 mm against 8 mm, not both exact.']);
    // 7.2 mm less a tenth are 6.48; 5.8 and a tenth are 6.38.
    expect(await rule(pickup('bore 7.2 mm about'), 'T1.P1')).toEqual(['pass T1.P1']);
    expect(await rule(pickup('bore 5.8 mm about'), 'T1.P1')).toEqual([expect.stringMatching(/^fail T1.P1, major/)]);
});
describe('cannot tell', () => {
    test('the bore of a pickup is asked for, that of a valve is not', async () => {
        expect(await rule(pickup(''), 'T1.P1')).toEqual(['cannot tell T1.P1: the bore of T1.P1']);
        expect(await rule(SLOOP, 'V1')).toEqual([]);
    });
    test('the bore of the pipe beside it, where it counts', async () => {
        expect(await rule(edit(SLOOP, 'hose S1      bore 8 mm', 'hose S1'), 'T1.P1')).toEqual(['cannot tell T1.P1: the bore of S1']);
        const filter = (bore: string): string => edit(edit(SLOOP, 'passes 10 um', `passes 10 um   bore ${bore}`), 'hose S2      bore 8 mm', 'hose S2');
        // S1 has 8 mm: 7 mm is enough for it, whatever S2 has. 6 mm would be too small, unless S2 is smaller.
        expect(await rule(filter('7 mm'), 'F1')).toEqual(['pass F1']);
        expect(await rule(filter('6 mm'), 'F1')).toEqual(['cannot tell F1: the bore of S2']);
    });
});
test('not applicable: no pipe beside it, and nothing on a supply', async () => {
    expect(await said('FITTING-BORE', 'tank T1 { pickup P1 bore 8 mm }\nengine E1\nsupply course A from T1.P1 to E1 { shutoff V1 bore 4 mm }\n')).toEqual(['not applicable T1.P1: no pipe stands beside it', 'not applicable V1: no pipe stands beside it']);
    expect(await said('FITTING-BORE', 'tank T1 { pickup P1 bore 8 mm }\n')).toEqual(['not applicable vessel: no pickup of a tank and no fitting with a bore stands on a supply that is open']);
    expect(await rule(without(edit(SLOOP, 'hose B1      bore 6 mm', 'check CV9 bore 2 mm'), 'primer PR1'), 'CV9')).toEqual([]);
});
