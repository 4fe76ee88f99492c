/** The trend of a vacuum gauge, on logs as a skipper writes them, against arithmetic by hand and logs made from a known clogging. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { trendOf, type Trend, type TrendLack, type TrendRequest } from '../../../src/analysis/filtration/trend';
import type { Boat, LogEntry } from '../../../src/model/boat';
import { SLOOP, after, before, edit, load } from '../../checks/boats';

/** The tank is inside from 200 to 600 mm; the gauge stands at 660 mm behind F1 and before F2. */
const GAUGED = before(SLOOP, 'hose S2 bore 8 mm', '  gauge G1   vacuum   at 660 mm');
const ASK = { gauge: 'G1', today: '2026-12-31', density: 840 };
const told = async (log: string, ask: Partial<TrendRequest> = {}, boat = GAUGED): Promise<Trend | { readonly lacks: readonly TrendLack[] }> => trendOf((await load(`${boat}log 2026 {${log}\n}\n`)).boat, { ...ASK, ...ask });
const trend = async (...args: Parameters<typeof told>): Promise<Trend> => {
    const found = await told(...args);
    if ('lacks' in found) throw new Error(JSON.stringify(found));
    return found;
};
const frictions = ({ readings }: Trend): number[] => readings.map(({ friction }) => Math.round(friction.si));

/**
 * 840 kg/m³ x 9.80665 = 8237.586 Pa/m. At 2400 rpm the friction grows from 2000 Pa by 20 Pa an hour.
 * 1000 h: dip 300, surface 500 mm, lift 160 mm = 1318.01 Pa;  2000 Pa at 2400                            reads 3318.01
 * 1050 h: dip 200, surface 400 mm, lift 260 mm = 2141.77 Pa;  3000 Pa at 2400, x 1800/2400 = 2250        reads 4391.77
 * 1100 h: dip 100, surface 300 mm, lift 360 mm = 2965.53 Pa;  4000 Pa at 2400                            reads 6965.53
 * 1150 h: dip 350, surface 550 mm, lift 110 mm =  906.13 Pa;  5000 Pa at 2400, x 2000/2400 = 4166.67     reads 5072.80
 */
const FIRST = '\n  2026-01-10   E1 1000 h   renewed F1 element   T1 dipped 300 mm   G1 3318.01 Pa at 2400 rpm';
const SECOND = '\n  2026-02-10   E1 1050 h   T1 dipped 200 mm   G1 4391.77 Pa at 1800 rpm';
const THIRD = '\n  2026-03-10   E1 1100 h   T1 dipped 100 mm   G1 6965.53 Pa at 2400 rpm';
const FOURTH = '\n  2026-04-20   E1 1150 h   T1 dipped 350 mm   G1 5072.80 Pa at 2000 rpm';
const FOUR = FIRST + SECOND + THIRD + FOURTH;

describe('readings of one level and one speed', () => {
    test('the worked log', async () => {
        const found = await trend(FOUR);
        expect(found).toMatchObject({ gauge: 'G1', tank: 'T1', engine: 'E1', speed: 40, renewed: { date: '2026-01-10', parts: ['F1'] }, leftOut: [] });
        expect(frictions(found)).toEqual([2000, 3000, 4000, 5000]);
        expect(found.rise.si).toBeCloseTo(3000, 0);
        expect([found.rise.least, found.rise.most]).toEqual([found.rise.si, found.rise.si]);
        // 3 and 4 inHg of 3386.389 Pa, and midway.
        expect(found.limit).toEqual({ si: expect.closeTo(11_852.36, 1), least: expect.closeTo(10_159.17, 1), most: expect.closeTo(13_545.56, 1) });
    });

    test('when it comes there', async () => {
        const { projection } = await trend(FOUR);
        if (typeof projection === 'string') throw new Error(projection);
        expect(projection.slope).toBeCloseTo(20, 3);
        // A rise of 10 159.17 Pa takes 507.96 h, of 13 545.56 Pa 677.28 h; midway 592.62 h.
        expect(projection.hours).toEqual({ si: expect.closeTo(1592.6, 0), least: expect.closeTo(1508, 0), most: expect.closeTo(1677.3, 0) });
        // 150 h in 100 days are 1.5 h a day: 442.62/1.5 = 295 days, 357.96/1.5 = 238, 527.28/1.5 = 351, from 20 April.
        expect(projection.date).toEqual({ likely: '2027-02-09', earliest: '2026-12-14', latest: '2027-04-06' });
    });

    test('at another speed of reference all goes with it', async () => {
        // 1800/2400 of the same: 1500 to 3750 Pa.
        expect(frictions(await trend(FOUR, { speed: 30 }))).toEqual([1500, 2250, 3000, 3750]);
    });

    test('lines of the log in any order', async () => expect(await trend(FOURTH + SECOND + FIRST + THIRD)).toMatchObject({ rise: { si: expect.closeTo(3000, 0) }, readings: [{ date: '2026-01-10' }, {}, {}, { date: '2026-04-20' }] }));
    test('later lines than today are not read', async () => expect(frictions(await trend(FOUR, { today: '2026-03-10' }))).toEqual([2000, 3000, 4000]));
    test('a correction replaces what was misread', async () => {
        const misread = edit(FOUR, '4391.77 Pa', '9 kPa') + '\n  2026-02-12   corrects 2026-02-10   G1 4391.77 Pa at 1800 rpm';
        expect(frictions(await trend(misread))).toEqual([2000, 3000, 4000, 5000]);
        // (9000 - 2141.77) x 2400/1800 = 9144.30.
        expect(frictions(await trend(misread, { today: '2026-02-11' }))).toEqual([2000, 9144]);
    });
});

describe('since the renewal', () => {
    const EARLIER = '\n  2025-12-01   E1 900 h   T1 dipped 300 mm   G1 16 kPa at 2400 rpm';
    test('what was read before it does not count', async () => expect(frictions(await trend(EARLIER + FOUR))).toEqual([2000, 3000, 4000, 5000]));
    test('an element behind the gauge is another matter', async () => expect(frictions(await trend(`${FOUR}\n  2026-04-25   renewed F2 element`))).toHaveLength(4));
    test('a lid ring is no element', async () => expect(frictions(await trend(`${FOUR}\n  2026-04-25   renewed F1 lid ring`))).toHaveLength(4));
    test('cleaned is as good as renewed', async () => expect((await trend(edit(FOUR, 'renewed', 'cleaned'))).renewed.parts).toEqual(['F1']));
    test('renewed again, and not read since', async () => expect(await told(`${FOUR}\n  2026-04-25   renewed F1 element`)).toEqual({ lacks: [{ about: 'G1', of: 'readings' }] }));
    test('never renewed', async () => expect(await told(SECOND + THIRD)).toEqual({ lacks: [{ about: 'G1', of: 'renewal' }] }));

    test('of two readings on the line of the renewal the lower was after it', async () => {
        const found = await trend(edit(FOUR, 'renewed F1 element', 'G1 16 kPa at 2400 rpm   renewed F1 element'));
        expect(frictions(found)).toEqual([2000, 3000, 4000, 5000]);
        expect(found.leftOut).toEqual([{ entry: 'log/1', date: '2026-01-10', from: 'trend', why: 'before' }]);
    });
    test('after it she was read at three speeds', async () => {
        // 1318.01 Pa of lift, and of the 2000 Pa at 2400 rpm 1500 at 1800 and 1000 at 1200.
        const found = await trend(edit(FOUR, 'G1 3318.01 Pa at 2400 rpm', 'G1 2318.01 Pa at 1200 rpm   G1 2818.01 Pa at 1800 rpm   G1 3318.01 Pa at 2400 rpm'));
        expect(frictions(found)).toEqual([2000, 2000, 2000, 3000, 4000, 5000]);
        expect(found.leftOut).toEqual([]);
    });
    test('a reading of that day that a later one falls clearly short of was before it', async () => {
        const found = await trend(edit(FOUR, 'G1 3318.01 Pa', 'G1 16 kPa'));
        expect(frictions(found)).toEqual([3000, 4000, 5000]);
        expect(found.leftOut.map(({ why }) => why)).toEqual(['before']);
    });
    test('one that is so taken is told', async () => expect((await trend(FOUR)).taken.join()).toMatch(/reading of 2026-01-10 is taken as made after/));
});

describe('what is left out', () => {
    test('no speed, and too slow a speed', async () => {
        // Less than half of 2400 rpm is less than 1200 rpm.
        const found = await trend(`${FOUR}\n  2026-04-21   G1 9 kPa\n  2026-04-22   G1 9 kPa at 1199 rpm\n  2026-04-23   T1 dipped 350 mm   G1 3 kPa at 1200 rpm`);
        expect(found.leftOut.map(({ date, from, why }) => `${date} ${from}: ${why}`)).toEqual(['2026-04-21 trend: no speed', '2026-04-22 trend: slow', '2026-04-23 line: no hours']);
        expect(found.readings).toHaveLength(5);
    });

    test('no dip near: between a full and an empty tank', async () => {
        const found = await trend(`${FOUR}\n  2026-05-20   E1 1200 h   G1 8 kPa at 2400 rpm`);
        expect(found.leftOut).toEqual([{ entry: 'log/5', date: '2026-05-20', from: 'line', why: 'no dip' }]);
        // Full to 600 mm the lift is 60 mm = 494.26 Pa, empty at 200 mm it is 460 mm = 3789.29 Pa: of 8000 Pa 7505.74 or 4210.71 are friction, midway 5858.23.
        expect(found.readings.at(-1)!.friction).toEqual({ si: expect.closeTo(5858.23, 1), least: expect.closeTo(4210.71, 1), most: expect.closeTo(7505.74, 1) });
        expect([found.rise.least, found.rise.most]).toEqual([expect.closeTo(2210.71, 0), expect.closeTo(5505.74, 0)]);
        expect(found.taken.join()).toMatch(/no dip is logged near 2026-05-20/);
        expect(found.projection).toMatchObject({ slope: expect.closeTo(20, 3) });
    });

    test('a dip of a day near by serves, and is told', async () => {
        const found = await trend(`${FOUR}\n  2026-05-20   E1 1200 h   G1 8 kPa at 2400 rpm\n  2026-05-23   T1 dipped 300 mm`);
        // Of 8000 Pa 1318.01 are lift; it could be as far off as between full and empty.
        expect(found.readings.at(-1)).toMatchObject({ dipped: '2026-05-23', friction: { si: expect.closeTo(6681.99, 1), least: expect.closeTo(4210.71, 1), most: expect.closeTo(7505.74, 1) } });
        expect(found.taken.join()).toMatch(/level on 2026-05-20 is taken as that of 2026-05-23/);
        expect((await trend(`${FOUR}\n  2026-05-20   E1 1200 h   G1 8 kPa at 2400 rpm\n  2026-05-24   T1 dipped 300 mm`)).readings.at(-1)!.dipped).toBeUndefined();
    });
    test('a dip that the tank cannot have is none', async () => expect((await trend(edit(FOUR, 'dipped 350 mm', 'dipped 450 mm'))).leftOut.map(({ why }) => why)).toEqual(['no dip']));
});

describe('drawn on only where the readings bear it out', () => {
    test('never from two', async () => expect((await trend(FIRST + SECOND)).projection).toBe('few'));
    test('nor from one', async () => expect(await trend(FIRST)).toMatchObject({ projection: 'few', rise: { si: 0, least: 0, most: 0 } }));
    test('nor from three on two counts of the meter', async () => expect((await trend(FIRST + SECOND + '\n  2026-02-11   E1 1050 h   T1 dipped 200 mm   G1 4391.77 Pa at 1800 rpm')).projection).toBe('few'));
    test('a rise within its scatter', async () => {
        // 2000, 3000, 2100 Pa at 2400 rpm over 0, 50, 100 h. Slope (100 - 0) / 100 = 1 Pa/h. From the line through their mean, 2317, 2367, 2417, they are
        // -317, 633, -317 Pa off: squares 601 667, one degree of freedom, over the spread of 5000 h²: sqrt(120.3) = 10.97 Pa/h, x 6.314 = 69 Pa/h.
        expect((await trend(FIRST + SECOND + edit(THIRD, '6965.53', '5065.53'))).projection).toBe('unsure');
    });
    test('a fall', async () => expect((await trend(FIRST + edit(SECOND, '4391.77', '3491.77') + edit(THIRD, '6965.53', '4565.53'))).projection).toBe('falling'));
    test('hours that run back', async () => {
        const { boat } = await load(`${GAUGED}log 2026 {${FOUR}\n}\n`);
        const log = boat.log.map((entry) => (entry.date === '2026-04-20' ? { ...entry, hours: [{ engine: 'E1', reading: 10 * 3600 }] } : entry));
        expect(trendOf({ ...boat, log }, ASK)).toMatchObject({ projection: 'back' });
    });
});

describe('the limit', () => {
    const DIRTY = edit(GAUGED, 'passes 10 um', 'passes 10 um   dirty 12 kPa');
    // New it took no more than the 2000 Pa that the gauge showed then, so it is dirty at a rise of 10 to 12 kPa.
    test('what the element says of itself', async () => expect((await trend(FOUR, {}, DIRTY)).limit).toEqual({ si: expect.closeTo(11_000, 0), least: expect.closeTo(10_000, 0), most: 12_000, element: 'F1' }));
    // No more than 1.5 kPa by its maker: 10.5 to 12 kPa.
    test('and what it takes new', async () => expect((await trend(FOUR, {}, edit(DIRTY, 'dirty 12 kPa', 'clean 1.5 kPa   dirty 12 kPa'))).limit).toEqual({ si: 11_250, least: 10_500, most: 12_000, element: 'F1' }));
    test('an element behind the gauge says nothing', async () => expect((await trend(FOUR, {}, edit(GAUGED, 'passes 5 um', 'passes 5 um   dirty 12 kPa'))).limit.element).toBeUndefined());
});

describe('what must be known', () => {
    test.each([
        ['that it reads vacuum', edit(GAUGED, 'gauge G1   vacuum', 'gauge G1'), 'G1', 'kind'],
        ['a gauge of pressure', edit(GAUGED, 'gauge G1   vacuum', 'gauge G1   pressure'), 'G1', 'kind'],
        ['its height', edit(GAUGED, 'vacuum   at 660 mm', 'vacuum'), 'G1', 'height'],
        ['the shape of the tank', edit(GAUGED, '  box 800 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd\n', ''), 'T1', 'shape'],
        ['where the tank stands', edit(GAUGED, '   low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd', ''), 'T1', 'tank place'],
        ['an element before it', before(SLOOP, 'filter F1 primary {', 'gauge G1   vacuum   at 660 mm'), 'G1', 'lines'],
    ])('%s', async (_, boat, about, of) => expect(await told(FOUR, {}, boat)).toEqual({ lacks: [{ about, of }] }));

    test('a gauge that is none', async () => expect([await told(FOUR, { gauge: 'F1' }), await told(FOUR, { gauge: 'X' })]).toEqual([{ lacks: [{ about: 'F1', of: 'lines' }] }, { lacks: [{ about: 'X', of: 'lines' }] }]));
    test('an engine that does not draw past it', async () => expect(await told(FOUR, { engine: 'E9' })).toEqual({ lacks: [{ about: 'G1', of: 'lines' }] }));
    test.each([0, -840, NaN, Infinity])('a density of %d', async (density) => expect(await told(FOUR, { density })).toEqual({ lacks: [{ about: 'vessel', of: 'density' }] }));

    const SECOND_ENGINE = `engine E2
supply course Branch from J1 to E2 { hose }
return course Back2 from E2 to T1.R2 { hose }
`;
    test('which of two engines', async () => {
        const two = edit(after(GAUGED, 'gauge G1 vacuum at 660 mm', '  tee J1'), 'drop R1     bore 8 mm', 'drop R1     bore 8 mm\n  drop R2') + SECOND_ENGINE;
        expect(await told(FOUR, {}, two)).toEqual({ lacks: [{ about: 'G1', of: 'engines' }] });
        expect(frictions(await trend(FOUR, { engine: 'E1' }, two))).toEqual([2000, 3000, 4000, 5000]);
    });
    test('which of two tanks', async () => {
        const two = `${before(GAUGED, 'filter F1 primary {', '  tee J1')}tank T2 { pickup P1 }\nsupply course Other from T2.P1 to J1 { hose }\n`;
        expect(await told(FOUR, {}, two)).toEqual({ lacks: [{ about: 'G1', of: 'tanks' }] });
    });
});

describe('any log', () => {
    let boat: Boat;
    const entry = (i: number, hours: number, dip: number | undefined, value: number, speed: number | undefined): LogEntry => ({
        id: `log/${i}`, date: new Date(Date.UTC(2026, 0, 1 + i)).toISOString().slice(0, 10), hours: [{ engine: 'E1', reading: hours * 3600 }], jobs: i === 0 ? [{ verb: 'renew', part: 'F1', piece: 'element' }] : [],
        readings: [...(dip === undefined ? [] : [{ about: 'T1', of: 'dip' as const, value: dip }]), { about: 'G1', of: 'gauge', value, ...(speed !== undefined && { speed }) }],
    });

    test('a known clogging comes back out of random levels and speeds, to 1 %', async () => {
        boat ??= (await load(GAUGED)).boat;
        const reading = fc.record({ hours: fc.double({ min: 1, max: 40, noNaN: true }), dip: fc.double({ min: 0, max: 0.4, noNaN: true }), share: fc.double({ min: 0.5, max: 1, noNaN: true }) });
        fc.assert(fc.property(
            fc.array(reading, { minLength: 4, maxLength: 30 }), fc.double({ min: 780, max: 900, noNaN: true }), fc.double({ min: 200, max: 8000, noNaN: true }), fc.double({ min: 1, max: 60, noNaN: true }), fc.double({ min: 20, max: 70, noNaN: true }),
            (readings, density, clean, clogging, reference) => {
                let hours = 500;
                const truth: number[] = [];
                const log = readings.map(({ hours: run, dip, share }, i) => {
                    hours += run;
                    // Made here from the law alone: the gauge is 460 mm over the bottom of the tank.
                    const friction = clean + clogging * (hours - 500);
                    truth.push(friction);
                    return entry(i, hours, dip, -(density * 9.80665 * (0.46 - dip) + friction * share), reference * share);
                });
                const found = trendOf({ ...boat, log }, { ...ASK, density, speed: reference });
                if ('lacks' in found || typeof found.projection === 'string') throw new Error(JSON.stringify(found));
                found.readings.forEach(({ friction }, i) => expect(Math.abs(friction.si / truth[i]! - 1)).toBeLessThan(0.01));
                expect(Math.abs(found.projection.slope / clogging - 1)).toBeLessThan(0.01);
                // 3.5 inHg over what the first reading was.
                const due = Math.max(hours, 500 + (truth[0]! + 3.5 * 3386.389 - clean) / clogging);
                expect(Math.abs((found.projection.hours.si - 500) / (due - 500) - 1)).toBeLessThan(0.01);
            },
        ));
    });

    test('whatever it says, no figure is none', async () => {
        boat ??= (await load(GAUGED)).boat;
        const wild = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }), fc.constantFrom(0, 1e-300, 1e9));
        const reading = fc.record({ hours: wild, dip: fc.option(wild, { nil: undefined }), value: wild, speed: fc.option(wild, { nil: undefined }) });
        fc.assert(fc.property(fc.array(reading, { maxLength: 8 }), fc.option(wild, { nil: undefined }), (readings, speed) => {
            const log = readings.map(({ hours, dip, value, speed: own }, i) => entry(i, hours, dip, value, own));
            const found = JSON.stringify(trendOf({ ...boat, log }, { ...ASK, ...(speed !== undefined && { speed }) }), (_, value: unknown) => {
                if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${value}`);
                return value;
            });
            expect(found).not.toMatch(/undefined|NaN/);
        }));
    });
});
