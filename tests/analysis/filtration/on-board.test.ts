/** The filters of a boat as text, and what is told of them. */
import { expect, test } from 'vitest';
import { behindFilters, readCode } from '../../../src/analysis/filtration/cleanliness';
import { lifeOf } from '../../../src/analysis/filtration/life';
import { elementOf, testedBefore } from '../../../src/analysis/filtration/on-board';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import type { Boat } from '../../../src/model/boat';
import { SLOOP, edit, load } from '../../checks/boats';

const FILTERS = edit(edit(edit(SLOOP, 'passes 10 um', 'passes 10 um   beta 10   dirt 30 g'), 'passes 5 um', 'passes 5 um   beta 200   dirt 4 g'),
    'heights from "top of the keel"', 'heights from "top of the keel"\n  fuel cleanliness "18/16/13"   dirt 24 mg/kg   density 840 kg/m3');
const boatOf = async (text: string): Promise<Boat> => (await load(text)).boat;
const tested = (boat: Boat): unknown[] => testedBefore(boat, 'E1', lineUpsOf(boat)[0]!).map(({ id, beta, passes }) => [id, beta, Math.round(passes * 1e6)]);

test('what is left for the injection, from the text', async () => {
    const boat = await boatOf(FILTERS);
    expect(tested(boat)).toEqual([['F1', 10, 10], ['F2', 200, 5]]);
    // 4 µm: neither says anything; 6 µm: 640/200 = 3.2 is 9; 14 µm: 80/(10 x 200) = 0.04 is 2.
    expect(behindFilters(readCode(boat.vessel.fuel.cleanliness!)!, testedBefore(boat, 'E1', lineUpsOf(boat)[0]!)).map(({ number }) => number?.number)).toEqual([undefined, 9, 2]);
});

test('how long elements last, from the text', async () => {
    const boat = await boatOf(FILTERS);
    const { density, dirt } = boat.vessel.fuel;
    const lineUp = lineUpsOf(boat)[0]!;
    const fuel = { drawn: { si: 60e-3 / 3600 }, density: density!, ...(dirt && { dirt }) };
    const [first, last] = [elementOf(boat, 'F1', lineUp)!, elementOf(boat, 'F2', lineUp)!];
    // Beta 10 holds 90 %: 30 000 / (24 x 0.84 x 0.9) = 1653.4 L; beta 200 99.5 %: 4000 / (24 x 0.84 x 0.995) = 199.4 L, and longer behind F1.
    expect([lifeOf(first, fuel)!.volume.si * 1e3, lifeOf(last, fuel)!.volume.si * 1e3]).toEqual([expect.closeTo(1653.4, 1), expect.closeTo(199.4, 1)]);
    expect([first.follows, last.follows]).toEqual([false, true]);
});

// 14 µm about may be 15.4 µm, of which 14 µm is no part; beta 10 about may be 9: 80/9 = 8.9 is 10 (5 to 10).
test('what is about so much counts at its worst', async () => {
    const boat = await boatOf(edit(edit(SLOOP, 'passes 10 um', 'passes 14 um about   beta 10'), 'passes 5 um', 'passes 10 um   beta 10 about'));
    expect(behindFilters(readCode('18/16/13')!, testedBefore(boat, 'E1', lineUpsOf(boat)[0]!)).map(({ upTo, by }) => [upTo, by])).toEqual([[undefined, []], [undefined, []], [expect.closeTo(80 / 9, 9), [1]]]);
});

test('filters side by side: the fuel comes through one of them, so none counts', async () => {
    const boat = await boatOf(edit(FILTERS, '  filter F1 primary {', '  split {\n    leg a { hose }\n    leg b { filter F9 primary passes 10 um beta 10 dirt 30 g }\n  }\n  filter F1 primary {'));
    expect(tested(boat)).toEqual([['F1', 10, 10], ['F2', 200, 5]]);
    expect(elementOf(boat, 'F1', lineUpsOf(boat)[0]!)!.follows).toBe(false);
});

test('what is not said is not made up', async () => {
    const boat = await boatOf(SLOOP);
    const lineUp = lineUpsOf(boat)[0]!;
    expect([elementOf(boat, 'F1', lineUp), elementOf(boat, 'V1', lineUp), elementOf(boat, 'X', lineUp), tested(boat), testedBefore(boat, 'X', lineUp)]).toEqual([undefined, undefined, undefined, [], []]);
});
