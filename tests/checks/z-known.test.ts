/** Z-KNOWN: heights that others rest on are known, and do not contradict one another. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts, thing = 'F1'): Promise<string[]> => said('Z-KNOWN', texts, thing);
const filter = (...lines: readonly string[]): string => edit(edit(SLOOP, 'passes 10 um', lines.join('\n    ')), 'bleed BS1', 'bleed BS1   at 705 mm');

test('known, and one taken away', async () => {
    expect(await rule(filter('ports at 660 mm', 'separates water', 'drain at 480 mm'))).toEqual(['pass F1']);
    expect(await rule(filter('ports at 660 mm', 'separates water'))).toEqual(['cannot tell F1: the height of the drain of F1']);
    expect(await rule(filter('separates water', 'drain at 480 mm'))).toEqual(['cannot tell F1: the height of the ports of F1']);
    expect(await rule(SLOOP)).toEqual(['cannot tell F1: the height of the ports of F1; the height of BS1']);
});
test('heights that contradict one another', async () => {
    expect(await rule(filter('ports at 660 mm', 'drain at 700 mm'))).toEqual(['fail F1, document: The height of the ports of F1 (660 mm) is written lower than its drain (700 mm).']);
    expect(await rule(filter('ports at 660 mm', 'lid at 600 mm'))).toEqual(['fail F1, document: The lid of F1 (600 mm) is written lower than its ports (660 mm).']);
    expect(await rule(filter('drain at 710 mm'))).toEqual(['fail F1, document: BS1 of F1 (705 mm) is written lower than its drain (710 mm).']);
    expect(await rule(edit(SLOOP, 'hose S2      bore 8 mm', 'hose S2      bore 8 mm   low at 600 mm   crest at 500 mm'), 'S2')).toEqual(['fail S2, document: The crest of S2 (500 mm) is written lower than its lowest point (600 mm).']);
});
test('the engine and the tank', async () => {
    expect(await rule(edit(edit(SLOOP, 'engine E1 {', 'engine E1 {\n  injection in-line   inlet at 820 mm'), 'bleed BS3', 'bleed BS3 at 820 mm'), 'E1')).toEqual(['pass E1']);
    expect(await rule(SLOOP, 'E1')).toEqual(['cannot tell E1: the height of the inlet of E1; the height of BS3']);
    expect(await rule(SLOOP, 'T1')).toEqual(['cannot tell T1: the height of the mouth of T1.R1']);
    expect(await rule(edit(SLOOP, 'drop R1     bore 8 mm', 'drop R1   mouth at 25 mm off bottom'), 'T1')).toEqual(['pass T1']);
    expect(await rule('tank T1 {\n vent\n}', 'T1')).toEqual(['cannot tell T1: the size and height of T1']);
});
test('not applicable: an engine on which no bleed point is written', async () => expect(await rule(edit(SLOOP, '  bleed BS3\n', ''), 'E1')).toEqual(['not applicable E1: no bleed point is written on it']));
