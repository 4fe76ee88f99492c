/** How warm a day tank grows, by hand, and against parcels of fuel that are taken out and put back one after the other. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exactly } from '../../../src/analysis/estimate';
import { dayTanks, firstRate, heatingOf, riseOf, secondsTo, secondsToAlone, steadyTemperature, temperatureAfter } from '../../../src/analysis/time/heating';
import type { Boat } from '../../../src/model/boat';
import { edit } from '../../checks/boats';
import { boatOf, DAY, LH, LITRE } from './boats';

/** 20 L/h come back 5 K warmer, 5 L/h are burnt, 47.5 L in it, topped up with fuel of 30 °C. */
const HEAT = { start: 303.15, makeUp: 303.15, rise: 5, returns: 20 * LH, burns: 5 * LH, volume: 47.5 * LITRE };

// 30 + 5 x 20/5 = 50 °C; it begins with 20 x 5/47.5 = 2.105 K an hour.
test('tends to 50 °C', () => {
    expect(steadyTemperature(exactly(303.15), exactly(5), exactly(20 * LH), exactly(5 * LH))!.si).toBeCloseTo(323.15, 9);
    expect(firstRate(5, 20 * LH, 47.5 * LITRE)! * 3600).toBeCloseTo(2.10526, 5);
});
test('to 45 °C in 9.5 h x ln((50 - 30)/(50 - 45)) = 13.170 h; never to 50', () => {
    expect((secondsTo(318.15, HEAT) as number) / 3600).toBeCloseTo(13.1698, 4);
    expect(secondsTo(323.15, HEAT)).toBe('never');
    expect(secondsTo(300, HEAT)).toBe(0);
});
test('not topped up: in 9.5 h x (1 - e^(-15/20)) = 5.0125 h', () => expect((secondsToAlone(318.15, HEAT) as number) / 3600).toBeCloseTo(5.0125, 4));

describe('parcel by parcel', () => {
    /** Each second G is taken out, G - b is put back warmer, and b of fresh fuel where it is topped up; what is in it mixes. */
    const parcels = (limit: number, toppedUp: boolean): number => {
        let [volume, heat, t] = [47.5, 47.5 * 30, 0];
        while (heat / volume < limit) {
            const warm = heat / volume;
            heat += (20 * (warm + 5) - 25 * warm + (toppedUp ? 5 * 30 : 0)) / 3600;
            volume += (20 - 25 + (toppedUp ? 5 : 0)) / 3600;
            t++;
        }
        return t;
    };
    test.each([35, 40, 45, 49])('to %d °C', (limit) => {
        expect((secondsTo(limit + 273.15, HEAT) as number) / parcels(limit, true)).toBeCloseTo(1, 3);
        expect((secondsToAlone(limit + 273.15, HEAT) as number) / parcels(limit, false)).toBeCloseTo(1, 3);
    });
    test('after ten hours', () => {
        let warm = 30;
        for (let i = 0; i < 36_000; i++) warm += (20 * 5 + 5 * (30 - warm)) / 47.5 / 3600;
        expect(temperatureAfter(HEAT, 36_000)! - 273.15).toBeCloseTo(warm, 3);
    });
});

describe('of a boat', () => {
    const told = (boat: Boat): unknown => dayTanks(boat).map((day) => {
        const { tank, consumers, steady, limit, toLimit, lacks } = heatingOf(boat, day);
        return [tank, consumers, steady && [steady.least, steady.most].map((kelvin) => Number((kelvin - 273.15).toFixed(6))), limit && limit - 273.15, typeof toLimit === 'number' ? Number((toLimit / 3600).toFixed(3)) : toLimit, lacks];
    });
    // Topped up with fuel of 5 to 30 °C: 25 to 50 °C.
    test('the day tank stays below 60 °C, and passes 45', async () => {
        expect(told(await boatOf(DAY))).toEqual([['DT', ['E1'], [25, 50], 60, 'never', []]]);
        expect(told(await boatOf(edit(DAY, 'limits fuel 60 degC', 'limits fuel 45 degC')))).toEqual([['DT', ['E1'], [25, 50], 45, 13.17, []]]);
    });
    test('what is not stated is lacking', async () => {
        expect(told(await boatOf(edit(edit(edit(DAY, 'limits fuel 60 degC', ''), '   fuel 5 to 30 degC', ''), '  draws 25 L/h at 2000 rpm\n', '')))).toEqual([
            ['DT', ['E1'], undefined, undefined, undefined, [{ about: 'E1', of: 'draws' }, { about: 'vessel', of: 'fuel' }, { about: 'E1', of: 'limit' }]],
        ]);
        expect(told(await boatOf(edit(DAY, '  returns 45 degC at 40 degC\n', '')))).toMatchObject([['DT', ['E1'], undefined, 60, undefined, [{ about: 'E1', of: 'returns' }]]]);
    });
    test('a tank into which nothing is pumped is none; nor one that takes no return', async () => {
        expect(told(await boatOf(edit(DAY, 'transfer course Lift from T1.P1 to DT.L1 { shutoff V2 normally shut   electric pump TP1 gives 100 L/h when off blocks   hose H1 }', '').replace('{ V2 open }', '')))).toEqual([]);
        expect(told(await boatOf(edit(DAY, 'from E1 to DT.R1', 'from E1 to T1.O1')))).toEqual([]);
    });
    test('two tanks that level out are none; one that a higher tank feeds by its own height is', async () => {
        const gravity = (up: string): string => edit(edit(DAY, 'shutoff V2 normally shut   electric pump TP1 gives 100 L/h when off blocks   hose H1', 'shutoff V2 normally shut   hose H1'), 'low aft inner corner at 0 mm up', `low aft inner corner at ${up} up`).replace('top at 420 mm', 'top at 2000 mm');
        expect(dayTanks(await boatOf(gravity('1000 mm')))).toEqual([]);
        expect(dayTanks(await boatOf(gravity('1500 mm'))).map(({ tank }) => tank.id)).toEqual(['DT']);
    });
    test('of several points of a return, from the least to the most', () => {
        const point = (value: number, at: number): { value: { si: number }; at: { si: number } } => ({ value: { si: value }, at: { si: at } });
        expect(riseOf({ returns: [point(313, 300), point(330, 320)] })).toEqual({ si: 11.5, least: 10, most: 13 });
        expect(riseOf({ returns: [] })).toBeUndefined();
    });
});

test('no figure is not a number', () => {
    const any = fc.oneof(fc.double(), fc.double({ min: 0, max: 1, noNaN: true }));
    fc.assert(fc.property(any, any, any, any, any, any, any, (start, makeUp, rise, returns, burns, volume, at) => {
        const heat = { start, makeUp, rise, returns, burns, volume };
        for (const found of [temperatureAfter(heat, at), secondsTo(at, heat), secondsToAlone(at, heat), firstRate(rise, returns, volume), steadyTemperature(exactly(makeUp), exactly(rise), exactly(returns), exactly(burns))?.si]) {
            if (typeof found === 'number') expect(Number.isFinite(found)).toBe(true);
        }
    }), { numRuns: 2000 });
});
