/** Litres that are to be moved against the room for them, and how often a pump turns a tank over; by hand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exactly } from '../../../src/analysis/estimate';
import { polishing, polishingOf, transfersOf, unfiltered } from '../../../src/analysis/time/transfer';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import type { Id } from '../../../src/model/boat';
import { edit } from '../../checks/boats';
import { boatOf, DAY, LH, LITRE } from './boats';

const litres = (volume: number | undefined): number | undefined => (volume === undefined ? undefined : Number((volume / LITRE).toFixed(6)));

describe('a transfer', () => {
    const told = async (text: string, volumes: readonly (readonly [Id, number])[] = []): Promise<unknown> => {
        const boat = await boatOf(text);
        return lineUpsOf(boat).flatMap((lineUp) => transfersOf(boat, lineUp, new Map(volumes))).map(({ from, to, moves, room, roomWhenEmpty, tooMuch, seconds, secondsToFull, lacks }) => ({
            from, to, moves: litres(moves?.si), room: litres(room), empty: litres(roomWhenEmpty), tooMuch: litres(tooMuch?.si), minutes: seconds && Math.round(seconds.si / 6) / 10, toFull: secondsToFull && Math.round(secondsToFull.si / 6) / 10, lacks,
        }));
    };
    // The day tank takes 47.5 L up to 95 %. 30 L at 100 L/h are 18 min.
    test('30 L, nobody said into how much', async () => {
        expect(await told(DAY)).toEqual([{ from: ['T1'], to: ['DT'], moves: 30, room: undefined, empty: 47.5, tooMuch: undefined, minutes: 18, toFull: undefined, lacks: [{ about: 'DT', of: 'level' }] }]);
    });
    // With 27.5 L in it there is room for 20, in 12 min; 10 L too much.
    test('30 L on top of 27.5', async () => expect(await told(DAY, [['DT', 27.5 * LITRE]])).toMatchObject([{ room: 20, tooMuch: 10, toFull: 12, lacks: [] }]));
    test('60 L are too much even for an empty tank: by 12.5', async () => expect(await told(edit(DAY, 'moves 30 L', 'moves 60 L'))).toMatchObject([{ tooMuch: 12.5 }]));
    test('nothing planned, no rate', async () => {
        expect(await told(edit(edit(DAY, 'moves 30 L', ''), 'gives 100 L/h', ''))).toMatchObject([{ moves: undefined, minutes: undefined, lacks: [{ about: 'LIFT', of: 'moves' }, { about: 'TP1', of: 'rate' }, { about: 'DT', of: 'level' }] }]);
    });
    test('with the valve shut there is none', async () => expect(await told(edit(DAY, '{ V2 open }', ''))).toEqual([]));
});

describe('polishing', () => {
    // 190 L at 5 L/min: 38 min each; 3 are 1.9 h, 5 are 3 h 10. e^-3 = 0.049787, e^-5 = 0.006738.
    test('38 minutes each turnover', () => {
        const found = polishing(exactly(0.19), exactly(5 * LITRE / 60))!;
        expect([found.turnover.si / 60, found.seconds[0].si / 3600, found.seconds[1].si / 3600]).toEqual([expect.closeTo(38, 9), expect.closeTo(1.9, 9), expect.closeTo(3.166667, 6)]);
        expect(found.unfiltered.map((share) => Number(share.toFixed(6)))).toEqual([0.049787, 0.006738]);
    });
    test('a second implementation: a tank of 1000 drops of which one a time is taken out and put back clean', () => {
        let dirty = 1;
        for (let i = 0; i < 3000; i++) dirty -= dirty / 1000;
        expect(unfiltered(3)).toBeCloseTo(dirty, 3);
    });
    test('of a boat: the tank that is pumped round', async () => {
        const boat = await boatOf(`${DAY}transfer course Polish from T1.P1 to T1.O1 { shutoff V3 normally shut   electric pump PP1 gives 300 L/h   filter F5 primary }\nline-up POLISH polish { V3 open }\n`.replace('from T1.P1 to DT.L1', 'from J9 to DT.L1').replace('to T1.O1 { shutoff V3', 'to T1.O1 { tee J9   shutoff V3'));
        // 190 L at 300 L/h: 38 min.
        expect(lineUpsOf(boat).flatMap((lineUp) => polishingOf(boat, lineUp)).map(({ lineUp, pump, tank, turnover, lacks }) => [lineUp, pump, tank, turnover!.si / 60, lacks])).toEqual([['POLISH', 'PP1', 'T1', expect.closeTo(38, 9), []]]);
    });
    test('no flow, no figure', () => {
        expect(polishing(exactly(0.1), exactly(0))).toBeUndefined();
        fc.assert(fc.property(fc.double(), fc.double(), (volume, rate) => { const found = polishing(exactly(volume), exactly(rate * LH)); if (found) expect(Number.isFinite(found.seconds[1].si)).toBe(true); }));
    });
});
