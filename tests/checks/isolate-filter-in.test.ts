/** ISOLATE-FILTER-IN: what can flood an opened filter from beyond its outlet, with its supply shut. */
import { describe, expect, test } from 'vitest';
import { SLOOP, after, before, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts, filter = 'F2'): Promise<string[]> => said('ISOLATE-FILTER-IN', texts, filter);
/** F2 at a height; the return reaches to 25 mm off the bottom of T1, and E1 lets it back. The tank reaches from 200 to 600 mm. */
const at = (height: string, mouth = '   mouth at 25 mm off bottom', backflow = '\n  backflow passes'): string =>
    edit(edit(edit(SLOOP, 'passes 5 um', `passes 5 um\n    ${height}`), 'drop R1     bore 8 mm', `drop R1     bore 8 mm${mouth}`), 'engine E1 {', `engine E1 {${backflow}`);
const FLOODS = 'fail F2, major: F2 cannot be shut off from T1.R1: liquid in T1 can stand above it and come back through the return and E1.';

// At 95 % the surface stands at 200 + 0.95 x 400 = 580 mm.
test('below the full level it floods; a check in the return holds it', async () => {
    expect(await rule(at('ports at 500 mm'))).toEqual([FLOODS]);
    expect(await rule(after(at('ports at 500 mm'), 'hose B1 bore 6 mm', 'check CV1'))).toEqual(['pass F2']);
    expect(await rule(after(at('ports at 500 mm'), 'hose B1 bore 6 mm', 'check CV1 reversed'))).toEqual([FLOODS]);
});
test('the lid may be dry and the drain not', async () => expect(await rule(at('ports at 900 mm up, 2400 mm fwd, 600 mm stbd\n    drain at 500 mm'))).toEqual([FLOODS]));
/*
 * Over the middle of the tank top it is above every corner at 20 deg of heel and 5 of trim from 746.4 mm on: the arithmetic
 * stands in shutoff-before-filter.test.ts.
 */
test('above every corner of the tank at every corner of the envelope', async () => {
    expect(await rule(at('ports at 753 mm up, 2400 mm fwd, 600 mm stbd'))).toEqual(['pass F2']);
    expect(await rule(at('ports at 740 mm up, 2400 mm fwd, 600 mm stbd'))).toEqual([FLOODS]);
});
test('what no tank can stand above needs no more facts', async () => expect(await rule(at('ports at 753 mm up, 2400 mm fwd, 600 mm stbd', '', ''))).toEqual(['pass F2']));
test('a return that ends above everything siphons nothing', async () => {
    expect(await rule(at('ports at 500 mm', '   mouth at 753 mm up, 2400 mm fwd, 600 mm stbd'))).toEqual(['pass F2']);
});
test('what the engine lets back', async () => {
    expect(await rule(at('ports at 500 mm', undefined, '\n  backflow blocks'))).toEqual(['pass F2']);
    expect(await rule(at('ports at 500 mm', undefined, ''))).toEqual(['cannot tell F2: what E1 lets flow back from its return']);
});
test('a shutoff at its outlet, or a return that hands can shut', async () => {
    expect(await rule(before(at('ports at 500 mm'), 'tube S3 bore 6 mm', 'shutoff V9 normally open'))).toEqual(['pass F2']);
    expect(await rule(after(at('ports at 500 mm'), 'hose B1 bore 6 mm', 'shutoff V9 normally open'))).toEqual(['pass F2']);
    expect(await rule(after(at('ports at 500 mm'), 'hose B1 bore 6 mm', 'shutoff V9 locked open'))).toEqual([FLOODS]);
});
// LP1 passes one way: nothing comes back to F1.
test('a lift pump stands between', async () => expect(await rule(at('ports at 500 mm'), 'F1')).toEqual(['pass F1']));

describe('cannot tell', () => {
    test('no height of the filter', async () => expect(await rule(at(''))).toEqual(['cannot tell F2: the height of the ports of F2']));
    test('how far the return reaches down', async () => expect(await rule(at('ports at 500 mm', ''))).toEqual(['cannot tell F2: the height of the mouth of T1.R1']));
    test('where it stands across and along the boat', async () => expect(await rule(at('ports at 650 mm'))).toEqual(['cannot tell F2: where F2 stands along and across the boat']));
    test('the tank, and how she leans', async () => {
        const bare = without(edit(at('ports at 650 mm'), 'envelope heel 20 deg   trim 5 deg   level 10 to 95 %', ''), 'box 800 x 600 x 400 mm low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd');
        // Without the tank `off bottom` is from nowhere.
        expect(await rule(bare)).toEqual(['cannot tell F2: the height of the mouth of T1.R1; the size and height of T1; the heel and trim that she must work in']);
    });
});

test('a filter in a return is reached from its tank', async () => {
    const back = after(at('ports at 900 mm'), 'hose B1 bore 6 mm', 'filter F9 { ports at 500 mm }');
    expect(await rule(back, 'F9')).toEqual(['fail F9, major: F9 cannot be shut off from T1.R1: liquid in T1 can stand above it and come back through its line.']);
    expect(await rule(after(back, 'filter F9 { ports at 500 mm }', 'check CV1'), 'F9')).toEqual(['pass F9']);
});
test('not applicable: no return', async () => {
    const none = edit(at('ports at 500 mm'), 'return course Back from E1 to T1.R1 {\n  hose B1      bore 6 mm\n}', '');
    expect(await rule(none)).toEqual(['not applicable F2: nothing leads to it but its supply (see SHUTOFF-BEFORE-FILTER)']);
});
test('one defect is told once: the supply that cannot be shut is SHUTOFF-BEFORE-FILTER\'s', async () => {
    const open = without(after(at('ports at 500 mm'), 'hose B1 bore 6 mm', 'check CV1'), 'shutoff V1 normally open');
    expect(await said('SHUTOFF-BEFORE-FILTER', open, 'F2')).toEqual(['fail F2, major: F2 cannot be shut off from T1: no valve on the way stops the flow.']);
    expect(await rule(open)).toEqual(['pass F2']);
});
