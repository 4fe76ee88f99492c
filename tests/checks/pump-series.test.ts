/** PUMP-SERIES: what an electric pump or primer pushes against a pump behind it, and the filters between. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts, about = 'EP1'): Promise<string[]> => said('PUMP-SERIES', texts, about);
/** EP1 before F1, which stands `filter`, and LP1, which stands `lift`. F2 comes behind LP1. */
const pumped = (pump: string, filter: string, lift: string): string => edit(edit(edit(SLOOP, '  primer PR1\n', `  ${pump}\n`), 'passes 10 um', `passes 10 um   ${filter}`), 'lift pump LP1', `lift pump LP1   ${lift}`);

test('35 kPa against 35, and against 34', async () => {
    expect(await rule(pumped('electric pump EP1   pushes 35 kPa', 'stands 70 kPa', 'stands 35 kPa'))).toEqual(['pass EP1']);
    expect(await rule(pumped('electric pump EP1   pushes 35 kPa', 'stands 70 kPa', 'stands 34 kPa'))).toEqual(['fail EP1, minor: EP1 makes up to 35 kPa against a shut line, and LP1 stands 34 kPa.']);
    expect(await rule(pumped('electric pump EP1   pushes 35 kPa', 'stands 30 kPa', 'stands 34 kPa'))).toEqual([expect.stringMatching(/and F1 stands 30 kPa and LP1 stands 34 kPa|and LP1 stands 34 kPa and F1 stands 30 kPa/)]);
});
test('a primer that runs only while its button is held counts, and one in a bypass that is shut', async () => {
    const bypass = (pushes: string): string => pumped(`split {\n leg main { check CV1 }\n leg bypass { shutoff VB normally shut\n electric primer EP1 momentary ${pushes} }\n}`, 'stands 70 kPa', 'stands 35 kPa');
    expect(await rule(bypass('pushes 35 kPa'))).toEqual(['pass EP1']);
    expect(await rule(bypass('pushes 40 kPa'))).toEqual(['fail EP1, minor: EP1 makes up to 40 kPa against a shut line, and LP1 stands 35 kPa.']);
});
test('one defect is one finding: F2 behind LP1 is the other rule\'s', async () => {
    const text = edit(pumped('electric primer EP1   pushes 35 kPa', 'stands 30 kPa', 'stands 35 kPa'), 'passes 5 um', 'passes 5 um   stands 70 kPa');
    expect(await rule(text)).toEqual(['fail EP1, minor: EP1 makes up to 35 kPa against a shut line, and F1 stands 30 kPa.']);
    expect(await said('PRIMER-PRESSURE', text)).toEqual(['pass EP1']);
});
test('figures that are not exact: about 33 kPa may be 36.3, and 29.7', async () => {
    expect(await rule(pumped('electric pump EP1   pushes 33 kPa about', 'stands 70 kPa', 'stands 35 kPa'))).toEqual([expect.stringMatching(/^fail EP1, advice: .*: these figures are not exact\.$/)]);
    expect(await rule(pumped('electric pump EP1   pushes 33 kPa about', 'stands 70 kPa', 'stands 29 kPa'))).toEqual([expect.stringMatching(/^fail EP1, minor/)]);
});
describe('cannot tell', () => {
    test('what it pushes, and what the others stand', async () => {
        expect(await rule(pumped('electric pump EP1', '', ''))).toEqual([expect.stringMatching(/^cannot tell EP1: the greatest pressure that EP1 makes; the greatest pressure that (F1|LP1) stands; the greatest pressure that (F1|LP1) stands$/)]);
        expect(await rule(pumped('electric pump EP1 pushes 35 kPa', 'stands 70 kPa', ''))).toEqual(['cannot tell EP1: the greatest pressure that LP1 stands']);
    });
    test('a weak part is told though another is not known', async () => expect(await rule(pumped('electric pump EP1 pushes 35 kPa', 'stands 30 kPa', ''))).toEqual([expect.stringMatching(/^fail EP1, minor: .* F1 stands 30 kPa\.$/)]));
});
test('not applicable: none, no pump behind it, one before a tank, one in a return', async () => {
    const none = ['not applicable vessel: no electric pump stands on the supply of what burns fuel'];
    expect(await said('PUMP-SERIES', SLOOP)).toEqual(none);
    expect(await rule(edit(SLOOP, '  lift pump LP1\n', '  electric pump EP1   pushes 35 kPa\n'))).toEqual(['not applicable EP1: no pump stands behind it']);
    expect(await said('PUMP-SERIES', edit(SLOOP, 'hose B1      bore 6 mm', 'electric pump EP1 pushes 900 kPa'))).toEqual(none);
    expect(await said('PUMP-SERIES', `${edit(SLOOP, '  drop R1     bore 8 mm', '  drop R1     bore 8 mm\n  drop R2')}tank T2 { pickup P9 }\ntransfer course Lift from T2.P9 to T1.R2 { electric pump EP1 pushes 900 kPa }\n`)).toEqual(none);
});
