/** Which pages mention a thing, a figure or a fact, in print or among what they rest on. */
import { beforeAll, expect, test } from 'vitest';
import { isUnreadable, issue, readRegister, type Register } from '../../../src/documents/procedures/issued';
import { mentionsIn, mentionsText } from '../../../src/documents/procedures/standing';
import { ottilwake, page, step } from './pages';

let register: Register;
beforeAll(async () => {
    const pages = [
        page('renew-F1-element', [step('Shut V1 and V2.'), step('Open the lid of F1, 700 mm above the datum.')], { summary: [{ label: 'Can', value: 'takes 0.9 L' }] }),
        page('renew-F2-element', [step('Open F2: 0.22 L comes.')]),
        page('look-V10', [step('Look at V10.')]),
    ];
    const made = issue(await ottilwake(), pages.map((each) => ({ page: each, asked: { jobs: [] }, files: [] })), undefined, undefined);
    if (isUnreadable(made)) throw new Error(made.unreadable);
    register = readRegister(made[0]!.text) as Register;
}, 60_000);
const found = (query: string): { printed: string[]; rests: string[] } => {
    const mentions = mentionsIn(register, query);
    return { printed: mentions.filter(({ printed }) => printed.length > 0).map(({ page: id }) => id), rests: mentions.filter(({ restsOn }) => restsOn.length > 0).map(({ page: id }) => id) };
};
const BOTH = ['renew-F1-element', 'renew-F2-element'];
const ALL = ['look-V10', ...BOTH];

// V10 is not on the boat, so that page may rest on all of her.
test('a tag: in print as a whole word, and among the facts', () => expect(found('V1')).toEqual({ printed: ['renew-F1-element'], rests: ALL }));
test('a tag of nothing', () => expect(found('V7')).toEqual({ printed: [], rests: [] }));
test.each([['450 mL'], ['0.45 L'], ['0.450 L'], ['450mL']])('%s is what F1 holds', (query) => expect(found(query)).toEqual({ printed: [], rests: ALL }));
test.each([['220 mL'], ['0.22 L'], ['220.0 mL']])('%s is printed as 0.22 L', (query) => expect(found(query).printed).toEqual(['renew-F2-element']));
// 0.22 L is printed for anything from 215 to 225 mL.
test.each<[string, string[]]>([['224 mL', ['renew-F2-element']], ['226 mL', []], ['900 mL', ['renew-F1-element']], ['1 L', []]])('%s within the rounding of print', (query, printed) => expect(found(query).printed).toEqual(printed));
test('a figure of another dimension is another figure', () => expect(found('220 mm')).toEqual({ printed: [], rests: [] }));
test.each([['F1 lid'], ['height of F1 lid'], ['the lid of F1'], ['height of the lid of F1']])('%s', (query) => expect(found(query)).toEqual({ printed: ['renew-F1-element'], rests: ALL }));
test('a height is found as it is kept', () => expect(found('700 mm').printed).toEqual(['renew-F1-element']));
test('a fact of a thing that is printed, though the fact is not', () => expect(found('F1 holds')).toEqual({ printed: [], rests: ALL }));
test('signs that mean something elsewhere mean nothing here', () => { for (const query of ['(', '[', '.*', '\\', '', '450 mL)', 'V1 of ']) expect(() => found(query)).not.toThrow(); });
test('nothing asked is found nowhere', () => expect(found('')).toEqual({ printed: [], rests: [] }));
test('in words', () => {
    expect(mentionsText('V7', mentionsIn(register, 'V7'))).toBe('No issued page mentions V7 or rests on it.\n');
    expect(mentionsText('F1 holds', mentionsIn(register, 'F1 holds'))).toContain('rests on: renew-F1-element, "renew-F1-element": F1 holds 450 mL');
});
