/** FOOT-CHECK: a high lift that loses its prime has a check at the tank. */
import { describe, expect, test } from 'vitest';
import { after, edit, said, without, type Texts } from './boats';
import { HALF, f1 } from './half-full';

const rule = (texts: Texts): Promise<string[]> => said('FOOT-CHECK', texts, 'E1');
const lost = (text: string): string => edit(text, 'engine E1 {', 'engine E1 {\n  loses prime');
/** LP1 over the middle of the tank, whose surface stands at 400 mm there; upright is the highest. */
const lift = (up: number): string => edit(lost(HALF), 'lift pump LP1', `lift pump LP1   at ${up} mm up, 2400 mm fwd, 600 mm stbd`);

test('650 mm, lost overnight; a check behind the shutoff, and 590 mm', async () => {
    expect(await rule(lift(1050))).toEqual(['fail E1, advice: E1 loses its prime overnight, and no check stands at T1.P1, 650 mm below LP1 (upright, T1 at 50 %, in RUN).']);
    expect(await rule(after(lift(1050), 'shutoff V1 normally open', '  check CV1'))).toEqual(['pass E1']);
    expect(await rule(lift(990))).toEqual(['pass E1']);
});
test('further up it is not at the tank', async () => {
    expect(await rule(after(lift(1050), 'hose S1 bore 8 mm', '  check CV1'))).toEqual(['cannot tell E1: the length of S1']);
    expect(await rule(after(edit(lift(1050), 'hose S1      bore 8 mm', 'hose S1      bore 8 mm   length 2 m'), 'hose S1 bore 8 mm length 2 m', '  check CV1'))).toEqual([expect.stringMatching(/^fail E1, advice/)]);
});
describe('cannot tell', () => {
    test('how high the pump stands', async () => expect(await rule(lost(HALF))).toEqual(['cannot tell E1: the height of the ports of LP1']));
});
describe('not applicable', () => {
    test('nobody wrote that it loses its prime', async () => expect(await rule(HALF)).toEqual(['not applicable E1: nobody wrote that it loses its prime']));
    test('nothing holds the column at all: DRAINBACK tells it', async () => {
        const bare = without(f1(lift(1050), 'ports at 600 mm up, 2400 mm fwd, 600 mm stbd'), 'primer PR1');
        expect(await rule(bare)).toEqual(['not applicable E1: nothing holds its column at all (see DRAINBACK)']);
        expect(await said('DRAINBACK', bare, 'F1')).toEqual([expect.stringMatching(/^fail F1, minor/)]);
    });
});
