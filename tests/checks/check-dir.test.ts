/** CHECK-DIR: what has a direction points with the flow of its course. */
import { expect, test } from 'vitest';
import { SLOOP, after, before, edit, said } from './boats';

test.each([
    ['the primer', 'PR1', SLOOP, edit(SLOOP, 'primer PR1', 'primer PR1   reversed'), 'PR1 points against the flow of Feed.'],
    ['the lift pump', 'LP1', SLOOP, edit(SLOOP, 'lift pump LP1', 'lift pump LP1   reversed'), 'LP1 points against the flow of Feed.'],
    ['a filter', 'F1', SLOOP, edit(SLOOP, 'filter F1 primary {', 'filter F1 primary   reversed {'), 'F1 points against the flow of Feed.'],
    ['a check valve in the return', 'CV1', after(SLOOP, 'hose B1 bore 6 mm', 'check CV1'), after(SLOOP, 'hose B1 bore 6 mm', 'check CV1 reversed'), 'CV1 points against the flow of Back.'],
    ['a strainer', 'ST1', before(SLOOP, 'primer PR1', 'strainer ST1'), before(SLOOP, 'primer PR1', 'strainer ST1 reversed'), 'ST1 points against the flow of Feed.'],
    ['an electric pump', 'EP1', before(SLOOP, 'primer PR1', 'electric pump EP1 when off passes'), before(SLOOP, 'primer PR1', 'electric pump EP1 when off passes   reversed'), 'EP1 points against the flow of Feed.'],
    ['a part without a tag', 'Feed/3', before(SLOOP, 'primer PR1', 'check'), before(SLOOP, 'primer PR1', 'check reversed'), 'The check after S1 points against the flow of Feed.'],
])('%s, one word apart', async (_what, id, right, wrong, message) => {
    expect(await said('CHECK-DIR', right, id)).toEqual([`pass ${id}`]);
    expect(await said('CHECK-DIR', wrong, id)).toEqual([`fail ${id}, critical: ${message}`]);
});

test('hoses and shutoffs pass either way and are not spoken of', async () => {
    expect(await said('CHECK-DIR', SLOOP)).toEqual(['pass PR1', 'pass F1', 'pass LP1', 'pass F2']);
});
