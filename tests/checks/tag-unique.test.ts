/** TAG-UNIQUE: each tag names one thing of the boat. */
import { expect, test } from 'vitest';
import { SLOOP, TWIN, edit, said, type Texts } from './boats';

const fails = async (texts: Texts): Promise<string[]> => (await said('TAG-UNIQUE', texts)).filter((line) => !line.startsWith('pass'));

test('S2, then a second S1', async () => {
    expect(await fails(SLOOP)).toEqual([]);
    expect(await said('TAG-UNIQUE', SLOOP, 'S1')).toEqual(['pass S1']);
    expect(await fails(edit(SLOOP, 'hose S2', 'hose S1'))).toEqual(['fail S1~2, document: S1 is already the tag of something else on this boat.']);
});
test('of another kind', async () => expect(await fails(edit(SLOOP, 'hose S2', 'hose BS3'))).toEqual(['fail BS3~2, document: BS3 is already the tag of something else on this boat.']));
test('in another file', async () => {
    expect(await fails({ 'a.orlop': SLOOP, 'b.orlop': 'tank T9 {\n vent\n}' })).toEqual([]);
    expect(await fails({ 'a.orlop': SLOOP, 'b.orlop': 'tank S1 {\n vent\n}' })).toEqual(['fail S1~2, document: S1 is already the tag of something else on this boat.']);
});
test('fittings of two tanks and positions of two selectors may share names', async () => expect(await fails(TWIN)).toEqual([]));
