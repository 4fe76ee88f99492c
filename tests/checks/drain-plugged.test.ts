/** DRAIN-PLUGGED: 46 CFR 182.455(b)(9): valves for removing water "must be provided with caps or plugs to prevent fuel leakage". */
import { expect, test } from 'vitest';
import { SLOOP, after, edit, said, type Texts } from './boats';

const rule = (texts: Texts, filter = 'F1'): Promise<string[]> => said('DRAIN-PLUGGED', texts, filter);
const drain = (words: string): string => edit(SLOOP, 'passes 10 um', `passes 10 um\n    ${words}`);
const open = (severity: string): string => `fail F1, ${severity}: The drain of F1 has no cap or plug.`;

test('plugged, and not', async () => {
    expect(await rule(drain('separates water   drain at 480 mm   plugged'))).toEqual(['pass F1']);
    expect(await rule(drain('separates water   drain at 480 mm'))).toEqual([open('major')]);
    expect(await rule(drain('drain at 480 mm'))).toEqual([open('major')]);
});
// Above every corner of the tank from 746.4 mm on, as in shutoff-before-filter.test.ts.
test('a drain that no tank can stand above weighs less', async () => {
    expect(await rule(drain('drain at 753 mm up, 2400 mm fwd, 600 mm stbd'))).toEqual([open('minor')]);
    expect(await rule(drain('drain at 740 mm up, 2400 mm fwd, 600 mm stbd'))).toEqual([open('major')]);
});
test('cannot tell: a primary of which no drain is said, or not what closes it', async () => {
    expect(await rule(SLOOP)).toEqual(['cannot tell F1: what F1 does with water']);
    expect(await rule(drain('separates water'))).toEqual(['cannot tell F1: whether the drain of F1 has a cap or plug']);
    expect(await rule(drain('separates water   plugged'))).toEqual(['pass F1']);
});
test('not applicable', async () => {
    expect(await rule(SLOOP, 'F2')).toEqual(['not applicable F2: no drain is written']);
    expect(await rule(after(SLOOP, 'hose B1 bore 6 mm', 'filter F9'), 'F9')).toEqual(['not applicable F9: no drain is written']);
    expect(await rule(edit(drain('drain at 480 mm'), 'tank T1 {', 'tank T1 carries heating water {'))).toEqual(['not applicable F1: no fuel tank feeds it']);
});
