/** PRIMER-PRESSURE: what a primer pushes against the filters that it fills. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts, about = 'PR1'): Promise<string[]> => said('PRIMER-PRESSURE', texts, about);
const primed = (pushes: string, one: string, two: string, text = SLOOP): string => edit(edit(edit(text, '  primer PR1\n', `  primer PR1   ${pushes}\n`), 'passes 10 um', `passes 10 um   ${one}`), 'passes 5 um', `passes 5 um   ${two}`);

test('a hand primer of 60 kPa: filters of 60 and 100, one of 55', async () => {
    expect(await rule(primed('pushes 60 kPa', 'stands 60 kPa', 'stands 100 kPa'))).toEqual(['pass PR1']);
    expect(await rule(primed('pushes 60 kPa', 'stands 55 kPa', 'stands 100 kPa'))).toEqual(['fail PR1, advice: PR1 makes up to 60 kPa against a shut line, and F1 stands 55 kPa.']);
    expect(await rule(primed('pushes 60 kPa', 'stands 100 kPa', 'stands 55 kPa'))).toEqual(['fail PR1, advice: PR1 makes up to 60 kPa against a shut line, and F2 stands 55 kPa.']);
});
test('an electric primer without a pump behind it', async () => {
    const electric = (stands: string): string => edit(without(primed('pushes 60 kPa', stands, 'stands 100 kPa'), 'lift pump LP1'), 'primer PR1', 'electric primer PR1');
    expect(await rule(electric('stands 60 kPa'))).toEqual(['pass PR1']);
    expect(await rule(electric('stands 55 kPa'))).toEqual([expect.stringMatching(/^fail PR1, advice/)]);
});
test('a filter before the primer is not filled by it', async () => {
    expect(await rule(edit(primed('pushes 60 kPa', 'stands 60 kPa', 'stands 100 kPa'), '  hose S1', '  filter F0 stands 10 kPa\n  hose S1'))).toEqual(['pass PR1']);
});
test('cannot tell', async () => {
    expect(await rule(SLOOP)).toEqual(['cannot tell PR1: the greatest pressure that PR1 makes; the greatest pressure that F1 stands; the greatest pressure that F2 stands']);
    expect(await rule(primed('pushes 60 kPa', 'stands 60 kPa', ''))).toEqual(['cannot tell PR1: the greatest pressure that F2 stands']);
});
test('not applicable: no primer; all that it fills stands before a pump; no filter', async () => {
    expect(await said('PRIMER-PRESSURE', without(SLOOP, 'primer PR1'))).toEqual(['not applicable vessel: no primer stands on the supply of what burns fuel']);
    const noFinal = edit(edit(SLOOP, '  primer PR1\n', '  electric primer EP1\n'), '  filter F2 final {\n    passes 5 um\n    bleed BS2\n  }\n', '');
    expect(await rule(noFinal, 'EP1')).toEqual(['not applicable EP1: what it fills stands before another pump (see PUMP-SERIES)']);
    expect(await rule('tank T1 { pickup P1 }\nengine E1\nsupply course A from T1.P1 to E1 { filter F1\n primer PR1 }\n')).toEqual(['not applicable PR1: it fills no filter']);
});
