/** The ledger of each tank in a line-up, and when one is full or a pickup dry, by hand; and against a tank that is filled second by second. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { levelTanks } from '../../../src/analysis/tanks/level';
import { exactly, type Estimate } from '../../../src/analysis/estimate';
import { fills, fullAfter, ledgersOf, uncovers, type Ledger } from '../../../src/analysis/time/overflow';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import { networkOf } from '../../../src/analysis/topology/network';
import { loadBoat } from '../../../src/language/load';
import type { Boat } from '../../../src/model/boat';
import { edit, TWIN } from '../../checks/boats';
import { DAY_TANK } from '../../checks/day-tank-boat';
import { boatOf, DAY, LH, LITRE } from './boats';

const inLH = (found: Estimate | undefined): number[] => (found ? [found.least, found.si, found.most].map((flow) => Number((flow / LH).toFixed(6)) + 0) : []);
const ledgers = (boat: Boat, id: string): readonly Ledger[] => ledgersOf(boat, lineUpsOf(boat).find((lineUp) => lineUp.id === id)!);
const told = (boat: Boat, id: string): unknown => ledgers(boat, id).map(({ tank, gives, takes, net, lacks }) => [tank, gives.map(({ by, flow }) => [by, ...inLH(flow)]), takes.map(({ by, flow }) => [by, ...inLH(flow)]), inLH(net), lacks]);

/** Two tanks of 100 L, 500 x 500 x 400 mm; the return of what T1 gives runs into T2. */
const CROSSED = `
tank T1 {
  box 500 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 100 mm port
  pickup P1   mouth at 20 mm off bottom   top at 420 mm up, 1100 mm fwd, 300 mm port
  drop R1
  vent
}
tank T2 {
  box 500 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 100 mm stbd
  pickup P1
  drop R1
  vent
}
engine E1 {
  burns 6 L/h at 3000 rpm
  draws 90 L/h at 3000 rpm
}
supply course Feed from T1.P1 to E1 { hose S1   filter F1 final }
return course Back from E1 to T2.R1 { hose B1 }
line-up RUN run is normal
`;

describe('a return to the other tank: a derived vector', async () => {
    const boat = await boatOf(CROSSED);
    test('T1 falls by 90 L/h, T2 rises by 84, though 6 are burnt', () => {
        expect(told(boat, 'RUN')).toEqual([['T1', [['E1', 90, 90, 90]], [], [-90, -90, -90], []], ['T2', [], [['E1', 84, 84, 84]], [84, 84, 84], []]]);
    });
    // 40 L of room: 40/84 h = 28.571 min to the lid; 95 % is 5 L sooner: 35/84 h = 25 min.
    test('T2 with 40 L of room is full after 28.571 min', () => {
        const { to95, toGross } = fills(boat.tanks[1]!, 60 * LITRE, ledgers(boat, 'RUN')[1]!);
        expect([to95, toGross].map((when) => [when!.soonest, when!.si!, when!.latest!].map((s) => Number((s / 60).toFixed(3))))).toEqual([[25, 25, 25], [28.571, 28.571, 28.571]]);
        // A second implementation: a second's flow after the other, until it is full.
        let [held, seconds] = [60, 0];
        while (held < 100) { held += 84 / 3600; seconds++; }
        expect(Math.abs(seconds - toGross!.si!)).toBeLessThanOrEqual(1);
    });
    // 0.5 x 0.5 x 0.02 m = 5 L are below the mouth: from 50 L 45/90 h = 30 min.
    test('the pickup of T1 comes dry', () => {
        const [ledger] = ledgers(boat, 'RUN');
        const [found] = uncovers(boat, lineUpsOf(boat)[0]!, boat.tanks[0]!, 50 * LITRE, ledger!);
        expect([found!.pickup, Number((found!.least! / LITRE).toFixed(6)), Number((found!.after!.si! / 60).toFixed(6))]).toEqual(['T1.P1', 5, 30]);
        // The mouth is 200 mm from the inner side, which heeling to starboard puts low, at tan 45° = 1: a wedge of (200 + 20)²/2 x 500 mm = 12.1 L; 37.9/90 h = 25.267 min.
        const [leaned] = uncovers(boat, lineUpsOf(boat)[0]!, boat.tanks[0]!, 50 * LITRE, ledger!, { heel: Math.PI / 4, trim: 0 });
        expect([leaned!.least! / LITRE, leaned!.after!.si! / 60]).toEqual([expect.closeTo(12.1, 9), expect.closeTo(25.2667, 3)]);
        expect(uncovers(boat, lineUpsOf(boat)[0]!, boat.tanks[0]!, 4 * LITRE, ledger!)[0]!.after).toEqual({ soonest: 0, si: 0, latest: 0 });
    });
});

describe('who gives and who takes', () => {
    test('round through one tank only what is burnt is gone, whether or not its gross flow is known', async () => {
        expect(told(await boatOf(DAY), 'RUN')).toEqual([['DT', [['E1', 25, 25, 25]], [['E1', 20, 20, 20]], [-5, -5, -5], []]]);
        expect(told(await boatOf(edit(DAY, 'draws 25 L/h at 2000 rpm', '')), 'RUN')).toEqual([['DT', [['E1']], [['E1']], [-5, -5, -5], []]]);
    });
    // The pump lifts 100 L/h while the engine burns 5.
    test('a line-up for transferring', async () => {
        expect(told(await boatOf(DAY), 'LIFT')).toEqual([['T1', [['TP1', 100, 100, 100]], [], [-100, -100, -100], []], ['DT', [['E1', 25, 25, 25]], [['E1', 20, 20, 20], ['TP1', 100, 100, 100]], [95, 95, 95], []]]);
        // Of the day tank the line that fills it is no pickup.
        const boat = await boatOf(DAY);
        const [main, day] = ledgers(boat, 'LIFT');
        const lift = lineUpsOf(boat)[1]!;
        expect([uncovers(boat, lift, boat.tanks[0]!, 0.1, main!), uncovers(boat, lift, boat.tanks[1]!, 0.02, day!)].map((found) => found.map(({ pickup, after }) => [pickup, after?.si && Math.round(after.si)]))).toEqual([
            [['T1.P1', 3150]], [['DT.P2', undefined]], // (100 - 12.5)/100 h; the day tank rises
        ]);
        expect(told(await boatOf(edit(DAY, 'moves 30 L { V2 open }', '{ V2 open, E1 stopped }')), 'LIFT')).toEqual([['T1', [['TP1', 100, 100, 100]], [], [-100, -100, -100], []], ['DT', [], [['TP1', 100, 100, 100]], [100, 100, 100], []]]);
        expect(told(await boatOf(edit(DAY, 'gives 100 L/h', '')), 'LIFT')).toEqual([['T1', [['TP1']], [], [0, 0, 0], [{ about: 'TP1', of: 'rate' }]], ['DT', [['E1', 25, 25, 25]], [['E1', 20, 20, 20], ['TP1']], [-5, -5, -5], [{ about: 'TP1', of: 'rate' }]]]);
    });
    test('two tanks open to one engine: all or nothing from each', async () => {
        const both = edit(CROSSED, 'return course Back from E1 to T2.R1 { hose B1 }', 'return course Back from E1 to T1.R1 { hose B1 }\nsupply course Second from T2.P1 to E1 { hose S2 }');
        expect(told(await boatOf(both), 'RUN')).toEqual([['T1', [['E1', 0, 45, 90]], [['E1', 84, 84, 84]], [-6, 39, 84], []], ['T2', [['E1', 0, 45, 90]], [], [-90, -45, 0], []]]);
    });
    test('by the selectors of each line-up', async () => {
        const twin = await boatOf(edit(TWIN, 'engine E1\n', 'engine E1 {\n burns 6 L/h at 3000 rpm\n draws 90 L/h at 3000 rpm\n}\n'));
        expect(told(twin, 'RUN-PORT')).toEqual([['T1', [['E1', 90, 90, 90]], [['E1', 84, 84, 84]], [-6, -6, -6], []]]);
        expect(told(twin, 'RUN-STBD')).toEqual([['T2', [['E1', 90, 90, 90]], [['E1', 84, 84, 84]], [-6, -6, -6], []]]);
    });
    test('what returns into its own supply is drawn again: only what is burnt leaves the tank', async () => {
        const again = edit(edit(CROSSED, '{ hose S1   filter F1 final }', '{ check CV1   tee J1   filter F1 final }'), 'from E1 to T2.R1 { hose B1 }', 'from E1 to J1 { hose B1 }');
        expect(told(await boatOf(again), 'RUN')).toEqual([['T1', [['E1', 6, 6, 6]], [], [-6, -6, -6], []]]);
    });
    test('no curves: both are lacking where they count', async () => {
        expect(told(await boatOf(edit(CROSSED, '  burns 6 L/h at 3000 rpm\n  draws 90 L/h at 3000 rpm\n', '')), 'RUN')).toEqual([
            ['T1', [['E1']], [], [0, 0, 0], [{ about: 'E1', of: 'draws' }]], ['T2', [], [['E1']], [0, 0, 0], [{ about: 'E1', of: 'burns' }]],
        ]);
    });
});

test('a rate that may be nothing: it may never be full; one that falls never is', () => {
    expect(fullAfter(1, { least: -1, si: 0.5, most: 2 })).toEqual({ soonest: 0.5, si: 2 });
    expect(fullAfter(1, exactly(0))).toBeUndefined();
    expect(fullAfter(0, exactly(1))).toEqual({ soonest: 0, si: 0, latest: 0 });
    fc.assert(fc.property(fc.double(), fc.double(), fc.double(), fc.double(), (room, a, b, c) => {
        const [least, si, most] = [a, b, c].toSorted((x, y) => x - y) as [number, number, number];
        for (const value of Object.values(fullAfter(room, { least, si, most }) ?? {})) expect(Number.isFinite(value)).toBe(true);
    }));
});

test('the overflow of a high day tank joins it to nothing: what stands above its mouth runs off, and nothing comes back', async () => {
    const { boat } = await loadBoat({ 'a.orlop': DAY_TANK });
    const runs = lineUpsOf(boat)[0]!;
    // The mouth stands at 1800 mm, and T1 ends far below it. With the mouth within the height of T1 they could come to one level.
    expect(levelTanks(networkOf(boat), runs.positions).filter((group) => group.length > 1)).toEqual([]);
    expect(ledgersOf(boat, runs).flatMap(({ joined }) => joined)).toEqual([]);
    const { boat: low } = await loadBoat({ 'a.orlop': DAY_TANK.replace('mouth at 1800 mm', 'mouth at 300 mm') });
    expect(levelTanks(networkOf(low), runs.positions).some((group) => group.length > 1)).toBe(true);
});
