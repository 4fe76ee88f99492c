/** How long an engine runs on behind a shut valve, and how long one is cranked, by hand from the drawing of the worked vessel. */
import { describe, expect, test } from 'vitest';
import { crankBudget, floodTime } from '../../../src/analysis/time/exhaust';
import { runOn } from '../../../src/analysis/time/run-on';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import type { Boat, Consumer } from '../../../src/model/boat';
import { edit, example, load } from '../../checks/boats';

const { boat: worked } = await load(example('ottilwake'));
const run = (boat: Boat, shut: readonly string[], speed: number | 'full' = 'full'): ReturnType<typeof runOn> => runOn(boat, boat.consumers[0]!, lineUpsOf(boat)[0]!.positions, shut, speed);

describe('running on', () => {
    // Behind V1: S1 130.7, PR1 20, S1b 12.6, F1 450, S2 70.4, LP1 25, S3 17.0, F2 220, S4 9.9, E1 60: 1015.6 mL. At 2400 rpm 15 L/h are drawn: 1.0156/15 h = 243.7 s.
    test('four minutes at most behind V1', () => {
        const found = run(worked, ['V1'], 2400 / 60);
        expect([found.fedBy, found.by, found.lacks]).toEqual([[], 'draws', []]);
        expect(found.held! * 1e6).toBeCloseTo(1015.6, 0);
        expect(found.seconds!.si).toBeCloseTo(243.7, 0);
        // At full 22.5 L/h by proportion, 15 at least: 162.5 s, and no more than 243.7.
        expect([run(worked, ['V1']).seconds!.si, run(worked, ['V1']).seconds!.most]).toEqual([expect.closeTo(162.5, 0), expect.closeTo(243.7, 0)]);
    });
    test('with nothing shut the tank still feeds it', () => expect(run(worked, [])).toEqual({ fedBy: ['T1'], parts: [], by: 'draws', lacks: [] }));

    const SIMPLE = `tank T1 {\n pickup P1\n drop R1\n vent\n}\nengine E1 {\n burns 5 L/h at 2000 rpm\n draws 25 L/h at 2000 rpm\n holds 50 mL\n}
supply course Feed from T1.P1 to E1 {\n shutoff V1 normally open\n tee J1\n hose S1 bore 10 mm length 2 m\n filter F1 final {\n holds 400 mL\n }\n}\nreturn course Back from E1 to T1.R1 { hose B1 }\n`;
    // π/4 x 10² x 2 m = 157.08 mL + 400 + 50 = 607.08 mL. At 25 L/h 87.4 s, at 5 L/h 437.1 s.
    test('where its return joins its own supply it lasts as long as what is burnt', async () => {
        const { boat } = await load(SIMPLE);
        expect(run(boat, ['V1']).seconds!.si).toBeCloseTo(87.42, 1);
        const { boat: again } = await load(edit(SIMPLE, 'from E1 to T1.R1', 'from E1 to J1').replace('{ hose B1 }', '{ check CV1 }'));
        expect(run(again, ['V1'])).toMatchObject({ by: 'burns', seconds: { si: expect.closeTo(437.1, 0) } });
    });
    test('what is not known', async () => {
        const { boat } = await load(edit(edit(SIMPLE, ' length 2 m', ''), ' draws 25 L/h at 2000 rpm\n', ''));
        expect(run(boat, ['V1'])).toMatchObject({ lacks: [{ about: 'S1', of: 'length' }, { about: 'E1', of: 'draws' }] });
        expect(run(boat, ['V1']).seconds).toBeUndefined();
    });
});

describe('cranking', () => {
    // 25 L/min x 200/3600 = 1.38889 L/min; 2 L / 1.38889 = 1.44 min = 86.4 s; half 43.2 s.
    test('86.4 s until the muffler is full, and half of it to use', () => {
        expect(floodTime(worked.consumers[0]!)!.si).toBeCloseTo(86.4, 9);
        expect(crankBudget(worked.consumers[0]!)).toBeCloseTo(43.2, 9);
    });
    const wet = (free: Consumer['exhaust'] & object): Pick<Consumer, 'exhaust'> => ({ exhaust: free });
    test('of a range the worst counts', () => {
        // 1.8 to 2.2 L: 77.76 s at least.
        expect(crankBudget(wet({ kind: 'wet', mufflerFree: { si: 0.002, low: 0.0018, high: 0.0022 }, rawWater: { value: { si: 25e-3 / 60 }, at: { si: 60 } }, cranks: { si: 200 / 60 } }))).toBeCloseTo(38.88, 6);
    });
    test('a dry one, and figures that are none', () => {
        const full = { mufflerFree: { si: 0.002 }, rawWater: { value: { si: 4e-4 }, at: { si: 60 } }, cranks: { si: 3 } };
        expect(floodTime(wet({ kind: 'dry', ...full }))).toBeUndefined();
        expect(floodTime({})).toBeUndefined();
        for (const none of [0, -1, NaN, Infinity]) {
            expect(floodTime(wet({ kind: 'wet', ...full, cranks: { si: none } }))).toBeUndefined();
            expect(floodTime(wet({ kind: 'wet', ...full, rawWater: { value: { si: none }, at: { si: 60 } } }))).toBeUndefined();
            expect(floodTime(wet({ kind: 'wet', ...full, rawWater: { value: { si: 1e-4 }, at: { si: none } } }))).toBeUndefined();
        }
    });
});
