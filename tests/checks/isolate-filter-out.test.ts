/** ISOLATE-FILTER-OUT: what stands higher downstream of a filter is held back when it is opened. */
import { expect, test } from 'vitest';
import { SLOOP, after, before, edit, said, type Texts } from './boats';

const rule = (texts: Texts, filter = 'F1'): Promise<string[]> => said('ISOLATE-FILTER-OUT', texts, filter);
/** F1 at 600 mm, the lift pump at a height: S2 rises or falls between them. Heights within 20 mm are called level. */
const pump = (height: string): string => edit(edit(SLOOP, 'passes 10 um', 'passes 10 um\n    ports at 600 mm'), 'lift pump LP1', `lift pump LP1 ${height}`);
const DRAINS = 'fail F1, minor: S2 stands higher than F1, and nothing between holds what is in it.';

test('S2 rises to LP1, or falls to it', async () => {
    expect(await rule(pump('at 500 mm'))).toEqual(['pass F1']);
    expect(await rule(pump('at 700 mm'))).toEqual([DRAINS]);
    expect(await rule(pump('at 615 mm'))).toEqual(['pass F1']);
    expect(await rule(edit(pump('at 500 mm'), 'hose S2      bore 8 mm', 'hose S2      bore 8 mm   crest at 760 mm'))).toEqual([DRAINS]);
});
test.each(['shutoff V9 normally open', 'check CV1'])('held by %s at the outlet', async (line) => expect(await rule(before(pump('at 700 mm'), 'hose S2 bore 8 mm', line))).toEqual(['pass F1']));
test.each(['shutoff V9 solenoid normally open', 'shutoff V9 locked open', 'gauge G1'])('not by %s', async (line) => expect(await rule(before(pump('at 700 mm'), 'hose S2 bore 8 mm', line))).toEqual([DRAINS]));
test('a valve behind what is higher holds nothing of it', async () => expect(await rule(after(pump('at 700 mm'), 'hose S2 bore 8 mm', 'shutoff V9 normally open'))).toEqual([DRAINS]));
test('cannot tell: heights', async () => {
    expect(await rule(pump(''))).toEqual(['cannot tell F1: the heights of S2']);
    expect(await rule(edit(pump('at 700 mm'), 'ports at 600 mm', ''))).toEqual(['cannot tell F1: the height of the ports of F1; the heights of S2']);
});
test('the pump directly behind it holds everything, whatever the heights', async () => expect(await rule(edit(SLOOP, '  hose S2      bore 8 mm\n', ''))).toEqual(['pass F1']));
test('not applicable: the last filter, and one on no supply', async () => {
    expect(await rule(SLOOP, 'F2')).toEqual(['not applicable F2: no filter follows it: what drains back to it is bled with the engine in any case']);
    expect(await rule(after(SLOOP, 'hose B1 bore 6 mm', 'filter F9'), 'F9')).toEqual(['not applicable F9: it stands on no supply of a consumer']);
});
