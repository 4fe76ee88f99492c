/** FILTER-TWO: a filter that separates water, then as another the final one, on every way in every line-up for running. */
import { expect, test } from 'vitest';
import { SLOOP, TWIN, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('FILTER-TWO', texts);
const TWO = edit(SLOOP, 'filter F1 primary {', 'filter F1 primary   separates water {');
const alone = (where = 'in line-up RUN'): string => `fail E1, major: Fuel from T1 reaches E1 through F2 alone ${where}: no other filter stands before it.`;
const ONE = TWO.replace(/ {2}filter F1 primary[^]*?\n {2}\}\n/, '');

test('two; without the first', async () => {
    expect(await rule(TWO)).toEqual(['pass E1']);
    expect(await rule(ONE)).toEqual([alone()]);
});
test('one that does both is one', async () => expect(await rule(edit(ONE, 'filter F2 final {', 'filter F2 final   separates water {'))).toEqual([alone()]));
test('a way round the first, open and shut', async () => {
    const round = (state: string): string => edit(TWO, '  filter F1 primary   separates water {\n    passes 10 um\n    bleed BS1\n  }\n', `  split {\n    leg A { filter F1 primary separates water }\n    leg B { shutoff V9 normally ${state} }\n  }\n`);
    expect(await rule(round('shut'))).toEqual(['pass E1']);
    expect(await rule(round('open'))).toEqual([alone()]);
});
test('one that is not said to separate water', async () => expect(await rule(SLOOP)).toEqual(['cannot tell E1: what F1 does with water']));
test('which is final is not said', async () => expect(await rule(edit(TWO, 'filter F2 final {', 'filter F2 {'))).toEqual(['cannot tell E1: which filter is the final one of E1']));
test('a selector without a position', async () => {
    expect(await rule(edit(TWIN, '{ SV1 PORT   SV2 PORT }', '{ SV2 PORT }'))).toEqual(['cannot tell E1: the position of SV1 in line-up RUN-PORT']);
});
test('not applicable: no filter, no tank, no engine', async () => {
    expect(await rule('tank T1 {\n pickup P1\n}\nengine E1\nsupply course Feed from T1.P1 to E1 { hose }')).toEqual(['not applicable E1: no filter stands before it (see NO-UNFILTERED)']);
    expect(await rule('engine E1')).toEqual(['not applicable E1: no tank feeds it']);
    expect(await rule(without(edit(TWO, 'engine E1 {', 'heater E1 {'), 'drop R1 bore 8 mm').replace(/return course[^]*?\n\}\n/, ''))).toEqual([]);
});
