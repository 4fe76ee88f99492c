/** NO-UNFILTERED: in no line-up does fuel reach an engine past its final filter. */
import { expect, test } from 'vitest';
import { SLOOP, after, before, edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('NO-UNFILTERED', texts);
const LEG = 'supply course Round from J1 to J2 { shutoff V9 normally shut }';
/** A way round F2 with a shutoff in it. */
const ROUND = after(before(before(SLOOP, 'filter F2 final {', 'tee J1'), 'tube S3 bore 6 mm', 'tee J2'), 'line-up RUN run is normal', LEG);

test('a way round that is shut; open in the next text', async () => {
    expect(await rule(ROUND)).toEqual(['pass E1']);
    expect(await rule(edit(ROUND, 'normally shut', 'normally open'))).toEqual(['fail E1, critical: In line-up RUN fuel from T1 reaches E1 past F2.']);
});

test('each line-up for itself, not only those for running', async () => {
    expect(await rule(after(ROUND, LEG, 'line-up LIMP emergency from RUN { V9 open }'))).toEqual(['pass E1', 'fail E1, critical: In line-up LIMP fuel from T1 reaches E1 past F2.']);
});

test('duplex final filters: both are final, or one side goes past', async () => {
    const duplex = edit(SLOOP, 'tube S3      bore 6 mm', 'changeover CO1 {\n leg A { filter F3 final }\n leg B { filter F4 final }\n position A through A\n position B through B\n}')
        .replace('filter F2 final', 'filter F2').replace('run is normal', 'run is normal { CO1 B }');
    expect(await rule(duplex)).toEqual(['pass E1']);
    expect(await rule(edit(duplex, 'filter F4 final', 'filter F4'))).toEqual(['fail E1, critical: In line-up RUN fuel from T1 reaches E1 past F3.']);
});

test('no filter at all', async () => {
    const bare = 'tank T1 {\n vent\n}\nengine E1\nsupply course Feed from T1 to E1 { shutoff V1 normally open   filter F1 final }\nline-up RUN run is normal';
    expect(await rule(bare)).toEqual(['pass E1']);
    expect(await rule(edit(bare, '   filter F1 final', ''))).toEqual(['fail E1, critical: Fuel reaches E1 through no filter at all.']);
});

test('no filter is said to be the final one', async () => expect(await rule(edit(SLOOP, 'filter F2 final', 'filter F2'))).toEqual(['cannot tell E1: which filter is the final one of E1']));
test('no tank feeds it', async () => expect(await rule(after(SLOOP, 'primer PR1', 'check CV1 reversed'))).toEqual(['not applicable E1: no tank feeds it']));
test('a heater has no injectors', async () => expect(await rule(edit(SLOOP, 'engine E1', 'heater E1'))).toEqual([]));
