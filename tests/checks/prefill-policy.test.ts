/** PREFILL-POLICY: what a filter's text says of filling by hand, against where it stands. */
import { expect, test } from 'vitest';
import { SLOOP, after, edit, said, type Texts } from './boats';

const rule = (texts: Texts, filter = 'F2'): Promise<string[]> => said('PREFILL-POLICY', texts, filter);
const says = (prefill: string, injection = 'injection in-line', text = SLOOP): string => edit(edit(text, 'passes 5 um', `passes 5 um   ${prefill}`), 'engine E1 {', `engine E1 {\n  ${injection}`);

test('the last filter', async () => {
    expect(await rule(says('prefill not on the clean side'))).toEqual(['pass F2']);
    expect(await rule(says('prefill forbidden'))).toEqual(['pass F2']);
    expect(await rule(says('prefill allowed'))).toEqual(['fail F2, minor: F2 is the last filter before E1, and its text lets it be filled by hand on both sides (`prefill allowed`).']);
});
test('before a common rail', async () => {
    const rail = (prefill: string): string => says(prefill, 'injection common-rail');
    expect(await rule(rail('prefill forbidden'))).toEqual(['pass F2']);
    for (const prefill of ['allowed', 'not on the clean side']) {
        expect(await rule(rail(`prefill ${prefill}`))).toEqual([`fail F2, minor: F2 is the last filter before the common rail of E1, and its text lets it be filled by hand (\`prefill ${prefill}\`).`]);
    }
});
test('another filter follows', async () => {
    for (const prefill of ['allowed', 'not on the clean side', 'forbidden']) expect(await rule(edit(SLOOP, 'passes 10 um', `passes 10 um   prefill ${prefill}`), 'F1')).toEqual(['pass F1']);
});
test('whatever the words `primary` and `final` say: it is where it stands that counts', async () => {
    expect(await rule(edit(says('prefill allowed'), 'filter F2 final {', 'filter F2 primary {'))).toEqual([expect.stringMatching(/^fail F2/)]);
});
test('cannot tell', async () => {
    expect(await rule(SLOOP)).toEqual(['cannot tell F2: what the maker says of filling F2 by hand']);
    expect(await rule(says('prefill not on the clean side', ''))).toEqual(['cannot tell F2: how E1 injects']);
});
test('not applicable: in the return', async () => {
    expect(await rule(after(SLOOP, 'hose B1 bore 6 mm', 'filter F9'), 'F9')).toEqual(['not applicable F9: it stands on no supply of anything that burns fuel']);
});
