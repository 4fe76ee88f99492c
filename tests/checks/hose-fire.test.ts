/** HOSE-FIRE: a fuel hose in or through a machinery space is marked fire-resistant; where it runs is computed from what it is joined to. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts, hose?: string): Promise<string[]> => said('HOSE-FIRE', texts, hose);
/** The filters and the engine stand in the engine bay, the tank and its valve in the quarter berth. All hoses are marked. */
const PLACED = ([['level 10 to 95 %', 'level 10 to 95 %\n  space EngineBay machinery\n  space QuarterBerth\n  space Locker'], ['tank T1 {', 'tank T1 in QuarterBerth {'], ['engine E1 {', 'engine E1 in EngineBay {'],
    ['shutoff V1   normally open', 'shutoff V1   normally open   in QuarterBerth'], ['filter F1 primary {', 'filter F1 primary in EngineBay {'], ['filter F2 final {', 'filter F2 final in EngineBay {'],
    ['hose S1      bore 8 mm', 'hose S1      bore 8 mm   fire-resistant'], ['hose S2      bore 8 mm', 'hose S2      bore 8 mm   fire-resistant   length 1.40 m'], ['hose B1      bore 6 mm', 'hose B1      bore 6 mm   fire-resistant']] as const)
    .reduce((text, [old, now]) => edit(text, old, now), SLOOP);
const bare = (hose: string, text = PLACED): string => text.replace(new RegExp(`(hose ${hose} .*?) {3}fire-resistant`), '$1');
const lacks = (hose: string): string => `fail ${hose}, critical: ${hose} runs in EngineBay and is not written as marked fire-resistant.`;

test('marked, and one mark taken away', async () => {
    expect(await rule(PLACED)).toEqual(['pass S1', 'pass S2', 'pass B1', 'not applicable VH1: it runs in no machinery space', 'not applicable FH1: it runs in no machinery space']);
    expect(await rule(bare('S2'), 'S2')).toEqual([lacks('S2')]);
    expect(await rule(bare('B1'), 'B1')).toEqual([lacks('B1')]);
});
test('several are one finding, at the first of them', async () => {
    const found = (await rule(bare('S2', bare('B1')))).filter((line) => line.startsWith('fail'));
    expect(found).toEqual(['fail S2, critical: S2 and B1 run in EngineBay and are not written as marked fire-resistant.']);
});
test('the engine makes the space a machinery space, whatever the space says', async () => expect(await rule(edit(bare('B1'), 'EngineBay machinery', 'EngineBay'), 'B1')).toEqual([lacks('B1')]));
test('a gauge is screwed to a part and stands with it', async () => {
    // S2 ends at a gauge that is screwed to F1, and at LP1, of which nothing is said.
    const gauge = edit(bare('S2'), '  hose S2', '  gauge G1\n  hose S2');
    expect(await rule(gauge, 'S2')).toEqual([lacks('S2')]);
});
test('it passes through when it is said so, wherever its ends are', async () => {
    expect(await rule(edit(PLACED, 'hose VH1     bore 16 mm', 'hose VH1     bore 16 mm   in EngineBay'), 'VH1')).toEqual([lacks('VH1')]);
    expect(await rule(edit(bare('S1'), 'hose S1      bore 8 mm', 'hose S1      bore 8 mm   in Locker'), 'S1')).toEqual(['not applicable S1: it runs in no machinery space']);
});
test('cannot tell: the space of an end is not said, or its ends are in two spaces', async () => {
    expect(await rule(bare('S1'), 'S1')).toEqual(['cannot tell S1: which spaces S1 runs through']);
    expect(await rule(edit(bare('S1'), 'primer PR1', 'primer PR1 in Locker'), 'S1')).toEqual(['cannot tell S1: which spaces S1 runs through']);
    expect(await rule(edit(bare('S1'), 'primer PR1', 'primer PR1 in QuarterBerth'), 'S1')).toEqual(['not applicable S1: it runs in no machinery space']);
});
test('cannot tell: no space holds the engine', async () => expect(await rule(SLOOP)).toEqual(['S1', 'S2', 'B1', 'VH1', 'FH1'].map((hose) => `cannot tell ${hose}: which space holds E1`)));
test('not applicable: no fuel hose; no engine', async () => {
    expect(await rule(edit(SLOOP, 'tank T1 {', 'tank T1 carries heating water {'))).toEqual(['not applicable vessel: no fuel hose is written']);
    expect(await rule('tank T1 {\n pickup P1\n}\nheater H1\nsupply course Feed from T1.P1 to H1 { hose S1 }')).toEqual(['not applicable S1: no engine is written, so no space is known to hold one']);
});
