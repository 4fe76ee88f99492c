/** What a consumer draws, burns and returns, by hand from the curves of the worked vessel (its gross flow is in proportion to its speed). */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { demandAt, fullSpeed, grossFlow } from '../../../src/analysis/flow/demand';
import type { CurvePoint, Measure } from '../../../src/model/measure';

const LH = 1e-3 / 3600;
const at = (value: number | Measure, rpm: number): CurvePoint => ({ value: typeof value === 'number' ? { si: value * LH } : value, at: { si: rpm / 60 } });
const ENGINE = { burns: [at(0.6, 850), at(2.4, 2400), at(6.25, 3600)], draws: [at(5.3, 850), at(15, 2400)] };
const inLH = (found: { si: number; least: number; most: number } | undefined): number[] | undefined => found && [found.least, found.si, found.most].map((value) => Number((value / LH).toPrecision(12)));

test('at a stated speed, and half way between two', () => {
    const stated = demandAt(ENGINE, 2400 / 60)!;
    expect([inLH(stated.draws), inLH(stated.burns), inLH(stated.returns)]).toEqual([[15, 15, 15], [2.4, 2.4, 2.4], [12.6, 12.6, 12.6]]);
    // 1625 rpm is midway between 850 and 2400: (5.3 + 15)/2 = 10.15, (0.6 + 2.4)/2 = 1.5, and 10.15 - 1.5 = 8.65 L/h.
    const between = demandAt(ENGINE, 1625 / 60)!;
    expect([inLH(between.draws)![1], inLH(between.burns)![1], inLH(between.returns)![1]]).toEqual([10.15, 1.5, 8.65]);
    expect(between.carriedOn).toBeUndefined();
});
test('at full speed what is drawn is carried on: 15 x 3600/2400 = 22.5 L/h at most, and no less than 15; the rest comes back', () => {
    const full = demandAt(ENGINE, 'full')!;
    expect(fullSpeed(ENGINE)).toBe(60);
    expect([inLH(full.draws), inLH(full.burns), full.carriedOn]).toEqual([[15, 22.5, 22.5], [6.25, 6.25, 6.25], true]);
    expect(inLH(full.returns)).toEqual([8.75, 16.25, 16.25]);
});
test('outside its points what is burnt is not told', () => {
    const over = demandAt(ENGINE, 4000 / 60)!;
    expect([over.burns, over.returns]).toEqual([undefined, undefined]);
    // 15 x 4000/2400 = 25.
    expect(inLH(over.draws)).toEqual([15, 25, 25]);
    // Below the first point in proportion, 5.3 x 425/850 = 2.65, and no more than at the first.
    expect(inLH(demandAt(ENGINE, 425 / 60)!.draws)).toEqual([0, 2.65, 5.3]);
});
test('a range, and about: a tenth either way', () => {
    const ranged = { burns: [at({ si: 3 * LH, about: true }, 2000)], draws: [at({ si: 15 * LH, low: 14 * LH, high: 16 * LH }, 2000)] };
    const found = demandAt(ranged, 'full')!;
    expect([inLH(found.burns), inLH(found.draws)]).toEqual([[2.7, 3, 3.3], [14, 15, 16]]);
    // 14 - 3.3 and 16 - 2.7.
    expect(inLH(found.returns)).toEqual([10.7, 12, 13.3]);
});
test('only the burn is stated: it draws more, but nobody knows how much', () => {
    expect(demandAt({ burns: ENGINE.burns, draws: [] }, 'full')).toEqual({ speed: 60, burns: { si: 6.25 * LH, least: 6.25 * LH, most: 6.25 * LH } });
    expect(grossFlow({ burns: ENGINE.burns, draws: [] })).toEqual({ least: 6.25 * LH });
});
test('a flow curve below the burn: it draws what it burns, and returns nothing', () => {
    const heater = demandAt({ burns: [at(0.6, 1500)], draws: [at(0.5, 1500)] }, 'full')!;
    expect([inLH(heater.draws), inLH(heater.returns)]).toEqual([[0.6, 0.6, 0.6], [0, 0, 0]]);
});
test('without a curve, or at no speed, nothing', () => {
    expect(demandAt({ burns: [], draws: [] }, 'full')).toBeUndefined();
    for (const speed of [0, -1, NaN, Infinity]) expect(demandAt(ENGINE, speed)).toBeUndefined();
});
test('grossFlow: between 15 and 22.5', () => {
    const { least, most } = grossFlow(ENGINE);
    expect([least / LH, most! / LH]).toEqual([expect.closeTo(15, 9), expect.closeTo(22.5, 9)]);
});

const number = fc.oneof(fc.double(), fc.double({ min: 0, max: 1e-3, noNaN: true }));
const measure = fc.record({ si: number, low: number, high: number, about: fc.constant(true as const) }, { requiredKeys: ['si'] });
const points = fc.array(fc.record({ value: measure, at: fc.record({ si: number }) }), { maxLength: 4 });
test('whatever is stated, figures are numbers in order, whichever way round the points are written', () => {
    fc.assert(fc.property(points, points, fc.oneof(number, fc.constant('full' as const)), (burns, draws, speed) => {
        const found = demandAt({ burns, draws }, speed);
        for (const flow of [found?.burns, found?.draws, found?.returns]) if (flow) {
            expect([flow.si, flow.least, flow.most].every((value) => Number.isFinite(value) && value >= 0)).toBe(true);
            expect(flow.least).toBeLessThanOrEqual(flow.most);
        }
        expect(demandAt({ burns: [...burns].reverse(), draws: [...draws].reverse() }, speed)).toEqual(found);
    }), { numRuns: 500 });
});
