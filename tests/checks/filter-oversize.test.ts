/** FILTER-OVERSIZE: five times the greatest gross flow, an opinion of the trade. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts, filter = 'F1'): Promise<string[]> => said('FILTER-OVERSIZE', texts, filter);
const rated = (flow: string, engine = 'draws 12 L/h at 2400 rpm', text = SLOOP): string => edit(edit(text, 'passes 10 um', `separates water   passes 10 um   ${flow}`), 'engine E1 {', `engine E1 {\n  ${engine}`);

// 5 x 12 = 60.
test('12 L/h through a separator for 60, and for 61', async () => {
    expect(await rule(rated('rated 60 L/h'))).toEqual(['pass F1']);
    expect(await rule(rated('rated 61 L/h'))).toEqual(['fail F1, advice: F1 is rated 61 L/h, 5.1 times the 12 L/h that E1 draws through it at most.']);
});
// At 3600 rpm it moves 12 x 3600 / 2400 = 18 L/h: 5 x 18 = 90.
test('up to full speed', async () => {
    const engine = 'draws 12 L/h at 2400 rpm\n  burns 6 L/h at 3600 rpm';
    expect(await rule(rated('rated 90 L/h', engine))).toEqual(['pass F1']);
    expect(await rule(rated('rated 91 L/h', engine))).toEqual([expect.stringMatching(/^fail F1, advice: F1 is rated 91 L\/h, 5\.1 times the 18 L\/h/)]);
});
// 12 + 4 = 16, 5 x 16 = 80.
test('two consumers through one', async () => {
    const two = (flow: string): string => `${edit(rated(flow), '  hose S2      bore 8 mm\n', '  tee J1\n  hose S2      bore 8 mm\n')}generator GN { draws 4 L/h at 1500 rpm }\nsupply course Branch from J1 to GN { hose }\n`;
    expect(await rule(two('rated 80 L/h'))).toEqual(['pass F1']);
    expect(await rule(two('rated 82 L/h'))).toEqual(['fail F1, advice: F1 is rated 82 L/h, 5.1 times the 16 L/h that E1 and GN draw through it at most.']);
});
describe('cannot tell', () => {
    test('its rated flow', async () => expect(await rule(rated(''))).toEqual(['cannot tell F1: the rated flow of F1']));
    test('the gross flow, unless what is burnt is enough: 5 x 6 = 30', async () => {
        expect(await rule(rated('rated 60 L/h', ''))).toEqual(['cannot tell F1: the gross flow of E1']);
        expect(await rule(rated('rated 31 L/h', 'burns 6 L/h at 3600 rpm'))).toEqual(['cannot tell F1: the gross flow of E1']);
        expect(await rule(rated('rated 30 L/h', 'burns 6 L/h at 3600 rpm'))).toEqual(['pass F1']);
    });
});
test('not applicable: nothing draws through it; a filter that separates no water is not spoken of', async () => {
    expect(await rule(edit(SLOOP, 'hose B1      bore 6 mm', 'filter F9 separates water rated 900 L/h'), 'F9')).toEqual(['not applicable F9: nothing that burns fuel draws through it in a line-up for running']);
    expect(await said('FILTER-OVERSIZE', SLOOP)).toEqual(['not applicable vessel: no filter is written to separate water']);
});
