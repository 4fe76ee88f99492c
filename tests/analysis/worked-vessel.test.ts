/**
 * The worked vessel, against numbers that were worked out by hand from its drawing before the program was written. The
 * arithmetic stands beside each; the trade's rules in it: a hand pump moves 80 % of its stroke, a quarter more than the
 * volume is pumped to flush, twice the expected strokes are too many, one full stroke a second, half the time in which
 * cranking fills the muffler is the budget.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { duePlan } from '../../src/analysis/upkeep/due';
import { rateOf } from '../../src/analysis/upkeep/hours';
import { volumeOf } from '../../src/analysis/volumes';
import { loadBoat } from '../../src/language/load';
import type { Boat } from '../../src/model/boat';
import { crankBudget } from '../../src/analysis/time/exhaust';
import { planBleed, type BleedPlan } from '../../src/procedures/bleed';

let boat: Boat;
beforeAll(async () => {
    const folder = new URL('../../examples/ottilwake/', import.meta.url);
    const loaded = await loadBoat(Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(new URL(name, folder), 'utf8')])));
    expect(loaded.problems).toEqual([]);
    boat = loaded.boat;
});

// 8 mm bore: π/4 x 8² = 50.265 mm², 6 mm: 28.274 mm²; times the length in m, mL.
test.each([
    ['the dip tube', 21.4, 'T1.P1'], // 50.265 x 0.425, from 225 mm (25 mm off the bottom at 200) to 650 mm
    ['S1', 130.7, 'S1'], // 50.265 x 2.60
    ['S1b', 12.6, 'S1b'], // 50.265 x 0.25
    ['S2', 70.4, 'S2'], // 50.265 x 1.40
    ['S3', 17.0, 'S3'], // 28.274 x 0.60
    ['S4', 9.9, 'S4'], // 28.274 x 0.35
    ['R', 96.1, 'R'], // 28.274 x 3.40
])('%s holds %s mL', (_, mL, id) => {
    expect(volumeOf(boat, id)! * 1e6).toBeCloseTo(mL, 1);
});

test('from the pick-up to the injection pump 1037 mL', () => {
    // 21.4 + 130.7 + 20 (PR1) + 12.6 + 450 (F1) + 70.4 + 25 (LP1) + 17.0 + 220 (F2) + 9.9 + 60 (E1) = 1037.0
    const holding = ['T1.P1', 'S1', 'PR1', 'S1b', 'F1', 'S2', 'LP1', 'S3', 'F2', 'S4', 'E1'];
    expect(holding.reduce((sum, id) => sum + volumeOf(boat, id)! * 1e6, 0)).toBeCloseTo(1037, 0);
});

describe('both filters changed, V1 shut first, nothing filled by hand', () => {
    let plan: BleedPlan;
    beforeAll(() => {
        const found = planBleed(boat, { engine: 'E1', opened: ['F1', 'F2'] });
        if ('refused' in found) throw new Error(found.refused);
        plan = found;
    });

    test('V1 is opened before anything is pumped, and the sequence ends in RUN with it open', () => {
        expect(plan.steps[0]?.step).toEqual({ do: 'set', part: 'V1', position: 'open' });
        expect(plan.steps.filter(({ step }) => step.do === 'set')).toHaveLength(1);
        expect([plan.starts, plan.ends]).toEqual(['SERVICE', 'RUN']);
    });

    test('BS1 and BS2 by the primer, the lever proven, BS3 by the lever, then the start: no injector is cracked', () => {
        expect(plan.steps.slice(1).map(({ step }) => step.do === 'bleed' ? `${step.vent} ${step.driver.part} ${step.driver.by}` : step.do === 'prove' ? `prove ${step.part}` : step.do))
            .toEqual(['BS1 PR1 hand', 'BS2 PR1 hand', 'prove LP1', 'BS3 LP1 lever', 'start']);
    });

    // 15 mL x 0.8 = 12 mL a stroke of the primer, 3 mL x 0.8 = 2.4 mL of the lever.
    test.each([
        ['BS1', 49, 49, 98], // F1 450 + S1b 12.6 = 462.6; 1.25 x 462.6 / 12 = 48.2
        ['BS2', 23, 31, 46], // F2 220: 1.25 x 220 / 12 = 22.9. With S2, whose crest hangs above F1: 290.4: 30.3
        ['BS3', 37, 37, 74], // S4 9.9 + E1 60 = 69.9; 1.25 x 69.9 / 2.4 = 36.4
    ])('%s: %s strokes, at most %s, stop and think at %s', (vent, likely, most, think) => {
        const step = plan.steps.map((planned) => planned.step).find((other) => other.do === 'bleed' && other.vent === vent);
        expect(step).toMatchObject({ expect: { in: 'strokes', likely, most, think } });
    });

    test('the crest of S2 is the only trap, swept at 0.298 m/s', () => {
        // 15 000 mm³ a second through 50.265 mm² = 298.4 mm/s
        const traps = plan.steps.flatMap(({ step, traps: own }) => own.map((trap) => ({ vent: step.do === 'bleed' && step.vent, ...trap })));
        expect(traps).toEqual([{ vent: 'BS2', part: 'S2', speed: expect.closeTo(0.298, 3) }]);
    });

    test('43 s of cranking in all, sea-cock open', () => {
        // 2.0 L / (25 L/min / 60 x 200 rpm / 3600 rpm = 0.023148 L/s) = 86.4 s; half of it 43.2 s
        expect(crankBudget(boat.consumers[0]!)).toBeCloseTo(43.2, 6);
        expect(plan.steps.at(-1)?.step).toMatchObject({ do: 'start', engine: 'E1', budget: 43, seacock: 'open' });
    });
});

describe('what is due, as of 1 September 2025', () => {
    test('0.740 h a day', () => {
        // 1410 h on 12 March, 1538 h on 1 September: 128 h in 19 + 30 + 31 + 30 + 31 + 31 + 1 = 173 d; the reading of 2024 is older than a year
        const readings = boat.log.flatMap(({ date, hours }) => hours.map(({ reading }) => ({ date, hours: reading / 3600 })));
        expect(readings.map(({ hours }) => hours)).toEqual([1205, 1410, 1538]);
        expect(rateOf(readings)).toBeCloseTo(0.740, 3);
    });

    test('F1 by hours on 13 February 2026, F2 by the calendar on 3 April 2026, done with F1', () => {
        // F1: 1410 + 250 = 1660 h, 122 h away; 122 / 0.740 = 164.9, 165 d: 30 (to 1 Oct) + 31 + 30 + 31 + 31 (1 Feb) = 153, + 12
        //     before 12 March 2026, its twelve months.
        // F2: 1205 + 500 = 1705 h, 167 / 0.740 = 225.7 d, 15 April; its 24 months end on 3 April, 49 d after F1.
        expect(duePlan(boat, '2025-09-01').map(({ job, state, due, by, atHours, with: other }) => ({ job: `${job.part} ${job.piece}`, state, due, by, atHours, other: other?.part }))).toEqual([
            { job: 'F1 element', state: 'later', due: '2026-02-13', by: 'hours', atHours: 1660, other: undefined },
            { job: 'F2 element', state: 'later', due: '2026-04-03', by: 'months', atHours: 1705, other: 'F1' },
        ]);
    });
});
