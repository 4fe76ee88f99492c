/** FILTER-ORDER: along each supply path no filter lets larger particles pass than one before it. */
import { describe, expect, test } from 'vitest';
import { SLOOP, after, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('FILTER-ORDER', texts);
const final = (passes: string, text = SLOOP): string => edit(text, 'passes 5 um', passes);
const coarser = 'fail F2, major: F2 passes 20 um, coarser than F1 before it with 10 um.';

test('10 then 5 um; 10 then 20 um', async () => {
    expect(await rule(SLOOP)).toEqual(['pass E1']);
    expect(await rule(final('passes 20 um'))).toEqual([coarser]);
});
test('equal is not larger', async () => expect(await rule(final('passes 10 um'))).toEqual(['pass E1']));
test('what one passes is not known', async () => expect(await rule(final(''))).toEqual(['cannot tell E1: what F2 passes']));
test('a pair that is wrong is wrong whatever a third passes', async () => expect(await rule(after(final('passes 20 um'), 'hose S2 bore 8 mm', 'filter F3'))).toEqual([coarser]));
test('one filter', async () => {
    const one = 'tank T1 {\n vent\n}\nengine E1\nsupply course Feed from T1 to E1 { shutoff V1 normally open   filter F1 final passes 5 um }';
    expect(await rule(one)).toEqual(['not applicable E1: fewer than two filters follow one another on its supply']);
});
test('heating water has no order', async () => expect(await rule(edit(SLOOP, 'tank T1 {', 'tank T1 carries heating water {'))).toEqual([]));

describe('legs', () => {
    const duplex = (a: string, b: string): string => edit(
        after(SLOOP, 'primer PR1', `changeover CO1 {\n leg A { ${a} }\n leg B { ${b} }\n position A through A\n position B through B\n}`),
        'run is normal', 'run is normal { CO1 A }',
    );
    test('filters side by side do not follow one another', async () => expect(await rule(duplex('filter F3 passes 30 um', 'filter F4 passes 10 um'))).toEqual(['pass E1']));
    test('each side comes before what follows both', async () => {
        expect(await rule(duplex('filter F3 passes 30 um', 'filter F4 passes 7 um'))).toEqual(['fail F1, major: F1 passes 10 um, coarser than F4 before it with 7 um.']);
    });
    test('two in one leg follow one another', async () => {
        expect(await rule(duplex('filter F3 passes 30 um   filter F4 passes 10 um', 'hose'))).toEqual(['pass E1']);
        expect(await rule(duplex('filter F3 passes 10 um   filter F4 passes 30 um', 'hose'))).toEqual(['fail F4, major: F4 passes 30 um, coarser than F3 before it with 10 um.']);
    });
});

test('a return that comes back in before the filters does not undo their order', async () => {
    const looped = (passes: string): string => final(passes, after(without(edit(SLOOP, 'from E1 to T1.R1', 'from E1 to J1'), 'drop R1 bore 8 mm'), 'primer PR1', 'tee J1'));
    expect(await rule(looped('passes 5 um'))).toEqual(['pass E1']);
    expect(await rule(looped('passes 20 um'))).toEqual([coarser]);
});
