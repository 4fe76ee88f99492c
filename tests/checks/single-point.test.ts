/** SINGLE-POINT: no part but a tank stands on every way of the fuel to every engine and generator. */
import { expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { SLOOP, TWIN, edit, load, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('SINGLE-POINT', texts);

/** An engine and a generator, each with a pickup and a line of its own. */
const APART = `tank T1 {
  pickup P1
  pickup P2
  vent
}
engine E1
generator GN
supply course Feed from T1.P1 to E1 {
  shutoff V1 normally open
  tee J1
  filter F1 final
}
supply course Gen from T1.P2 to GN {
  shutoff V2 normally open
  filter F2 final
}
line-up RUN run is normal
`;
/** The same, the generator teed off. */
const TEED = edit(without(APART, 'pickup P2'), 'from T1.P2', 'from J1');
const fail = (about: string, words: string): string => `fail ${about}, advice: ${words}`;

test('a pickup and a line each; and the generator teed off the line of the engine', async () => {
    expect(await rule(APART)).toEqual(['pass vessel']);
    expect(await rule(TEED)).toEqual([fail('T1.P1', 'In line-up RUN the fuel of both E1 and GN must go through T1.P1, V1 and J1.')]);
});
test('many are told by the first four', async () => {
    const long = edit(TEED, '  tee J1', '  hose S1\n  strainer ST1\n  primer PR1\n  tee J1');
    expect(await rule(long)).toEqual([fail('T1.P1', 'In line-up RUN the fuel of both E1 and GN must go through T1.P1, V1, S1, ST1 and 2 more parts.')]);
});
test('a leg beside it takes a part out, not what stands before and after', async () => {
    const legs = edit(TEED, '  shutoff V1 normally open', '  split {\n    leg A { shutoff V1 normally open }\n    leg B { shutoff V3 normally open }\n  }');
    const [told] = await rule(legs);
    expect(told).toMatch(/must go through T1\.P1, /);
    expect(told).not.toMatch(/V1|V3/);
    // Shut, the second leg helps nobody.
    expect((await rule(edit(legs, 'shutoff V3 normally open', 'shutoff V3 normally shut')))[0]).toMatch(/V1/);
});
test('a check that lets fuel by only the other way is no way round', async () => {
    const beside = (check: string): string => edit(edit(TEED, '  shutoff V1 normally open', '  tee J2\n  shutoff V1 normally open'), 'line-up RUN', `supply course Beside from J2 to J1 {\n  check CV1${check}\n}\nline-up RUN`);
    expect(await rule(beside(''))).toEqual([fail('T1.P1', 'In line-up RUN the fuel of both E1 and GN must go through T1.P1, J2 and J1.')]);
    expect(await rule(beside(' reversed'))).toEqual([fail('T1.P1', 'In line-up RUN the fuel of both E1 and GN must go through T1.P1, J2, V1 and J1.')]);
});
test('two engines that share, with a generator that does not', async () => {
    const third = edit(edit(TEED, 'generator GN', 'engine E2\ngenerator GN'), 'to GN {', 'to E2 {');
    const own = 'tank T2 {\n  pickup P1\n  vent\n}\nsupply course Own from T2.P1 to GN {\n  filter F3 final\n}\n';
    expect(await rule(third + own)).toEqual(['pass vessel']);
    expect(await rule(third + edit(own, 'from T2.P1', 'from J1'))).toEqual([fail('T1.P1', 'In line-up RUN the fuel of all of E1, E2 and GN must go through T1.P1, V1 and J1.')]);
});

/** Two tanks and a selector for both engines. */
const SELECTED = `${edit(TWIN, 'engine E1', 'engine E1\nengine E2')}supply course More from J1 to E2 { filter F2 final }\n`.replace('to E1 { filter F1', 'to E1 { tee J1   filter F1');
test('each line-up by itself, and its tank only mentioned', async () => {
    expect(await rule(SELECTED)).toEqual([
        fail('T1.P1', 'In line-up RUN-PORT the fuel of both E1 and E2 must go through T1.P1, V1, SV1 and J1.'), fail('T2.P1', 'In line-up RUN-STBD the fuel of both E1 and E2 must go through T2.P1, V2, SV1 and J1.'),
    ]);
    const found = judge((await load(SELECTED)).boat).findings.find(({ rule: { code } }) => code === 'SINGLE-POINT')!;
    expect(found.see!.map(({ id }) => id)).toEqual(['V1', 'SV1', 'J1', 'T1', 'RUN-PORT']);
});
test('the same parts in several line-ups are one finding', async () => {
    expect(await rule(`${TEED}line-up RUN-B run from RUN\n`)).toEqual([fail('T1.P1', 'In line-up RUN and RUN-B the fuel of both E1 and GN must go through T1.P1, V1 and J1.')]);
});
// One body with two ways through it: either way alone could be lost, the body cannot.
test('a selector that feeds one engine by one way through it and the other by another', async () => {
    const body = `${edit(edit(APART, 'supply course Feed from T1.P1 to E1 {', 'selector SV1 {\n  ports a, b, c, d\n  position RUN joins a, b and c, d\n  position OFF joins nothing\n}\nsupply course P from T1.P1 to SV1.a { hose S1 }\nsupply course S from T1.P2 to SV1.c { hose S2 }\nsupply course Feed from SV1.b to E1 {'), 'from T1.P2 to GN', 'from SV1.d to GN').replace('is normal', 'is normal { SV1 RUN }')}`;
    expect(await rule(body)).toEqual([fail('SV1', 'In line-up RUN the fuel of both E1 and GN must go through SV1.')]);
});
test('cannot tell: a selector without a position', async () => {
    expect(await rule(edit(SELECTED, 'SV1 PORT   SV2 PORT', 'SV2 PORT'))).toEqual(['cannot tell SV1: the position of SV1 in line-up RUN-PORT', expect.stringMatching(/^fail T2\.P1/)]);
});
test('not applicable: one engine; a heater beside it; a line-up that feeds one alone', async () => {
    expect(await rule(SLOOP)).toEqual(['not applicable vessel: E1 is the only engine']);
    expect(await rule(edit(TEED, 'generator GN', 'heater GN'))).toEqual(['not applicable vessel: E1 is the only engine']);
    expect(await rule(edit(TEED, 'filter F1 final', 'shutoff V4 normally shut   filter F1 final'))).toEqual(['not applicable GN: in line-up RUN GN alone is fed']);
    expect(await rule(edit(TEED, 'V1 normally open', 'V1 normally shut'))).toEqual(['not applicable E1: in line-up RUN no engine is fed']);
});
