/** POS-HEAD-LIMIT: what stands on pumps and filters while nothing runs. */
import { describe, expect, test } from 'vitest';
import { edit, said, type Texts } from './boats';
import { DRAWING } from './drawing';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('POS-HEAD-LIMIT', texts, about);
/*
 * Under the middle of the tank, where leaning does not alter the height of the surface. Full to 95 % that stands at 200 + 380 = 580 mm: 480 mm over a pump at 100 mm,
 * 840 x 9.80665 x 0.48 = 3.954 kPa.
 */
const UNDER = edit(DRAWING, 'LP1 at 625 mm up, 2350 mm fwd, 700 mm stbd', 'LP1 at 100 mm up, 2500 mm fwd, 850 mm stbd');
const head = (most: string, text = UNDER): string => edit(text, 'return 6 kPa', `return 6 kPa   head ${most}`);
test('at the first pump', async () => {
    expect(await rule(head('4 kPa'))).toEqual(['pass E1']);
    expect(await rule(head('3.9 kPa'))).toEqual(['fail E1, minor: At rest 3.95 kPa (1.2 inHg) stands at the inlet of E1 (upright, tanks at 95 %, in RUN); E1 allows 3.9 kPa (1.2 inHg).']);
});
test('a check holds back what it opens at', async () => {
    const checked = (cracks: string): string => edit(UNDER, '  hose S1 ', `  check CV1   ${cracks}\n  hose S1 `);
    expect(await rule(head('3.9 kPa', checked('cracks 1 kPa')))).toEqual(['pass E1']);
    // Where nobody says at what, 0.5 kPa is taken, and it may be nothing.
    expect((await rule(head('3.9 kPa', checked(''))))[0]).toMatch(/^fail E1, advice: At rest 3\.45 kPa .*, and up to 3\.95 kPa if checks open at less; E1 allows 3\.9 kPa/);
});
test('what a part stands', async () => {
    const filter = (most: string): string => edit(DRAWING, 'ports at 640 mm   rated', `stands ${most}   ports at 50 mm up, 2500 mm fwd, 850 mm stbd   rated`);
    // 530 mm: 4.366 kPa.
    expect(await rule(filter('5 kPa'), 'F1')).toEqual(['pass F1']);
    expect((await rule(filter('4.3 kPa'), 'F1'))[0]).toMatch(/^fail F1, minor: At rest 4\.37 kPa .* stands at F1 .*; it stands 4\.3 kPa/);
    expect(await rule(edit(filter('4.3 kPa'), 'normally open', 'normally shut'), 'F1')).toEqual(['not applicable F1: no tank stands on it in any line-up']);
});
describe('cannot tell', () => {
    test('the limit, but only where a tank stands higher', async () => {
        expect(await rule(UNDER)).toEqual(['cannot tell E1: the greatest pressure at the inlet at rest of E1']);
        expect(await rule(DRAWING)).toEqual(['not applicable E1: no limit is stated, and as far as is known no tank stands above its pump']);
    });
    test('a height', async () => expect(await rule(head('4 kPa', edit(UNDER, 'LP1 at 100 mm up, 2500 mm fwd, 850 mm stbd', 'LP1')))).toEqual(['cannot tell E1: the height of the ports of LP1']));
    test('a shape', async () => expect(await rule(head('4 kPa', edit(UNDER, '  box 1000 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 550 mm stbd\n', '')))).toEqual(['cannot tell E1: the size and height of T1']));
});
test('nothing to judge', async () => expect(await rule(edit(DRAWING, 'tank T1 {', 'tank T1 carries coolant {'))).toEqual(['not applicable vessel: nothing burns fuel, and no part says what it stands'.replace('nothing burns', 'nothing on board burns')]));
