/** BYPASS-CHECK: a check valve in the line beside a pump keeps it from pumping round itself. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts, pump = 'EP1'): Promise<string[]> => said('BYPASS-CHECK', texts, pump);
const inFeed = (...lines: readonly string[]): string => edit(SLOOP, '  primer PR1\n', `  primer PR1\n${lines.map((line) => `  ${line}\n`).join('')}`);
const beside = (main: string, pumped = 'shutoff VP normally shut   electric primer EP1 when off blocks'): string => inFeed('split {', ` leg main { ${main} }`, ` leg bypass { ${pumped} }`, '}');
const round = (pump = 'EP1'): string => `fail ${pump}, major: What ${pump} pumps can run back to it through the line beside it: no check valve stands there.`;

test('a check in the main leg; without it', async () => {
    expect(await rule(beside('check CV1   hose H1'))).toEqual(['pass EP1']);
    expect(await rule(beside('hose H1'))).toEqual([round()]);
});
test('a hand primer beside a line as well', async () => expect(await rule(beside('hose H1', 'primer PR9'), 'PR9')).toEqual([round('PR9')]));
test('a pump with valves of its own in the main leg holds it too', async () => expect(await rule(beside('lift pump LP9'))).toEqual(['pass EP1']));
test('a shutoff in the main leg parts them, if someone shuts it', async () => {
    expect(await rule(beside('shutoff VM normally open'))).toEqual(['fail EP1, minor: What EP1 pumps can run back to it through the line beside it while VM is open: no check valve stands there.']);
});
test('the same by courses and tees, without a split', async () => {
    const tees = (main: string): string => `${inFeed('tee JA', main, 'tee JB')}supply course Prime from JA to JB { electric primer EP1 when off blocks }\n`;
    expect(await rule(tees('check CV1'))).toEqual(['pass EP1']);
    expect(await rule(tees('hose H1'))).toEqual([round()]);
});
test('a changeover leads one way or the other, and both together round', async () => {
    const over = (...positions: readonly string[]): string => edit(inFeed('changeover CO1 {', ' leg main { hose H1 }', ' leg prime { electric primer EP1 when off blocks }', ...positions.map((position) => ` position ${position}`), '}'), 'run is normal', 'run is normal { CO1 MAIN }');
    expect(await rule(over('MAIN through main', 'PRIME through prime'))).toEqual(['pass EP1']);
    expect(await rule(over('MAIN through main', 'BOTH through main, prime'))).toEqual([round()]);
});
test('a check that points the wrong way is CHECK-DIR\'s', async () => {
    expect(await rule(beside('check CV1 reversed'))).toEqual(['not applicable EP1: the check valve beside it points the wrong way (see CHECK-DIR)']);
    expect(await said('CHECK-DIR', beside('check CV1 reversed'), 'CV1')).toHaveLength(1);
});
test('cannot tell: a changeover without positions', async () => {
    const blank = `${inFeed('tee JA', 'changeover CO1 {', ' leg A { hose H1 }', '}', 'tee JB')}supply course Prime from JA to JB { electric primer EP1 when off blocks }\n`;
    expect(await rule(blank)).toEqual(['cannot tell EP1: what the positions of CO1 join']);
});
test('not applicable: no line beside it; a return is none', async () => {
    expect(await said('BYPASS-CHECK', SLOOP)).toEqual(['not applicable PR1: no line runs beside it', 'not applicable LP1: no line runs beside it']);
    expect(await said('BYPASS-CHECK', 'tank T1 {\n vent\n}')).toEqual(['not applicable vessel: no pump or primer is written']);
});
