/** What comes to an opening on the worked vessel, with the arithmetic by hand, and what an opening must not get wrong. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { open, rateOf, type Opened } from '../../src/analysis/opening/open';
import { openingNamed } from '../../src/analysis/opening/openings';
import { plumbing } from '../../src/analysis/opening/plumbing';
import { thresholds, type Thresholds } from '../../src/analysis/opening/thresholds';
import { lineUpsOf, normalLineUp } from '../../src/analysis/topology/line-ups';
import { networkOf } from '../../src/analysis/topology/network';
import type { Boat } from '../../src/model/boat';
import { edit, load } from '../checks/boats';

const DEG = Math.PI / 180;
const file = (name: string): string => readFileSync(new URL(`../../examples/ottilwake/${name}.orlop`, import.meta.url), 'utf8');
const { boat: WORKED } = await load({ 'boat.orlop': file('boat'), 'lines.orlop': file('lines') });

interface Said { litres: number | Readonly<Record<string, number>>; heel?: number; trim?: number; worn?: boolean; lineUp?: string }

function asked(boat: Boat, part: string, name: string | undefined, { litres, heel = 0, trim = 0, worn = false, lineUp }: Said): [Opened, Thresholds[]] {
    const lineUps = lineUpsOf(boat);
    const { positions } = lineUp === undefined ? normalLineUp(boat, lineUps)! : lineUps.find(({ id }) => id === lineUp)!;
    const at = plumbing(networkOf(boat), positions, worn ? 'leaky' : 'tight');
    const condition = { attitude: { heel: heel * DEG, trim: trim * DEG }, volumes: new Map(boat.tanks.map(({ id }) => [id, (typeof litres === 'number' ? litres : litres[id]!) / 1e3])) };
    const opening = openingNamed(boat, part, name)!;
    return [open(at, opening, condition), thresholds(at, opening, condition)];
}
const opened = (part: string, name: string, said: Said): Opened => asked(WORKED, part, name, said)[0];
/** Head in mm of what comes from T1. */
const head = ({ tanks }: Opened): number => tanks.find(({ tank }) => tank === 'T1')!.head! * 1e3;
const litres = ({ volume }: Opened): number => volume! * 1e3;

// The worked vessel: tank 800 x 600 x 420 mm, its bottom at 200 mm, from 550 to 1150 mm to starboard: its middle 850 mm. F1 stands 300 mm to port:
// ports 660, lid 700, drain 480. Half full, 100.8 L, the surface passes through the middle of the box, 410 mm up and 850 mm to starboard, as long as it
// cuts both sides. Height of a point at a heel f, starboard down positive: z cos f - y sin f. Tolerance 1 mm and 0.5 L: the sums below are rounded so.
describe('the worked vessel half full', () => {
    test('upright: lid 290 mm and drain 70 mm above the surface', () => {
        // 410 - 700; with the primer's two checks of 0.1 kPa: 845 kg/m³, the heaviest of EN 590, are 845 x 1.008351 = 852.1 at 5 °C (tests/analysis/flow/fuel.test.ts),
        // and 200 / (852.1 x 9.80665) = 23.9 mm more.
        expect(head(opened('F1', 'lid', { litres: 100.8, worn: true }))).toBeCloseTo(-290, 3);
        expect(head(opened('F1', 'lid', { litres: 100.8 }))).toBeCloseTo(-313.9, 0);
        expect(head(opened('F1', 'drain', { litres: 100.8, worn: true }))).toBeCloseTo(-70, 3);
    });

    test('upright with worn checks the column falls back to the tank; the primer\'s checks hold it', () => {
        const falls = opened('F1', 'lid', { litres: 100.8, worn: true });
        expect(falls.outcome).toBe('falls back');
        // S1b 0.25 m and S1 2.60 m of 8 mm (50.27 mm²): 12.6 + 130.7 mL; PR1 20 mL; the dip tube from 650 to 225 mm, 425 mm: 21.4 mL.
        expect(new Set(falls.falls.parts)).toEqual(new Set(['S1b', 'PR1', 'S1', 'T1.P1']));
        expect(falls.falls.volume * 1e6).toBeCloseTo(184.7, 0);
        const holds = opened('F1', 'lid', { litres: 100.8 });
        expect([holds.outcome, holds.falls.parts]).toEqual(['stays', []]);
    });

    test('out of the drain runs what is in the bowl, the tank does not follow; air rises through the bowl, and behind worn checks the column falls back', () => {
        const [tight, worn] = [opened('F1', 'drain', { litres: 100.8 }), opened('F1', 'drain', { litres: 100.8, worn: true })];
        expect(tight.outcome).toBe('stays');
        expect(tight.hangs.parts).toContain('F1');
        expect(worn.outcome).toBe('falls back');
        // S1b rises to the ports at 660 mm, 180 mm over the drain: the air stands there.
        expect(worn.falls.parts).toContain('S1');
    });

    test('10 degrees to port: the drain floods, the lid does not', () => {
        // Surface 410 x 0.98481 + 850 x 0.17365 = 551.4; lid 700 x 0.98481 - 300 x 0.17365 = 637.3; drain 472.7 - 52.1 = 420.6.
        const [lid, drain] = [opened('F1', 'lid', { litres: 100.8, heel: -10, worn: true }), opened('F1', 'drain', { litres: 100.8, heel: -10, worn: true })];
        expect(head(lid)).toBeCloseTo(551.4 - 637.3, 0);
        expect(lid.outcome).toBe('falls back');
        expect(head(drain)).toBeCloseTo(551.4 - 420.6, 0);
        expect(drain.outcome).toBe('floods');
        expect(opened('F1', 'drain', { litres: 100.8, heel: -10 }).outcome).toBe('floods');
    });

    test('20 degrees to port the lid floods by 121 mm, 97 over the primer\'s checks', () => {
        // Surface 410 x 0.93969 + 850 x 0.34202 = 676.0; lid 657.8 - 102.6 = 555.2.
        const worn = opened('F1', 'lid', { litres: 100.8, heel: -20, worn: true });
        expect([worn.outcome, Math.round(head(worn))]).toEqual(['floods', 121]);
        // What stays is a wedge of 39.9 L (tests/analysis/tanks-liquid.test.ts has the sum): 100.8 - 39.9.
        expect(Math.abs(litres(worn) - 60.9)).toBeLessThan(0.1);
        const tight = opened('F1', 'lid', { litres: 100.8, heel: -20 });
        expect([tight.outcome, Math.round(head(tight))]).toEqual(['floods', 97]);
        // It stops 23.9 / cos 20 = 25.5 mm higher up the inner side: 216.1 mm over the bottom, 593.7 mm wide: 216.1 x 593.7 / 2 x 0.8 = 51.3 L stay.
        expect(Math.abs(litres(tight) - (100.8 - 51.3))).toBeLessThan(0.1);
    });

    test('20 degrees to port the drain takes what stands over the pickup, not what stands over the drain', () => {
        // Drain 451.1 - 102.6 = 348.4, below the lowest corner of the tank; the mouth, 150 mm from the inner side, 25 mm off the bottom, is at the surface when
        // that reaches 150 + 25 / tan 20 = 218.7 mm out: 218.7² x 0.36397 / 2 x 0.8 = 7.0 L.
        for (const worn of [true, false]) expect(Math.abs(litres(opened('F1', 'drain', { litres: 100.8, heel: -20, worn })) - 93.8)).toBeLessThan(0.1);
    });

    test('20 degrees to port the lid lets out 0.36 L a minute at first, the drain 0.96', () => {
        // Laminar in diesel of 6.0024 mm²/s at 5 °C: 8 mm x (0.425 + 2.60 + 0.25) m. Without mouths Q = pi g D^4 h / (128 nu L) = 1.2619e-7 h / 2.5162e-3: for 120.8 mm
        // 6.06 mL/s = 0.3635 L/min; with one and a half velocity heads, 1.5 x 0.120² / 2g = 1.1 mm of them, 0.360. For 676.0 - 348.4 = 327.6 mm 16.43 mL/s =
        // 0.986 L/min; at 0.318 m/s, 7.7 mm for the mouths: 0.963.
        const rate = (name: string): number => {
            const at = plumbing(networkOf(WORKED), normalLineUp(WORKED, lineUpsOf(WORKED))!.positions, 'leaky');
            return rateOf(at, 'F1', opened('F1', name, { litres: 100.8, heel: -20, worn: true }).tanks.find(({ tank }) => tank === 'T1')!, 'cold')! * 6e4;
        };
        expect(Math.abs(rate('lid') - 0.360)).toBeLessThan(0.003);
        expect(Math.abs(rate('drain') - 0.963)).toBeLessThan(0.01);
    });

    test('20 degrees to starboard nothing comes', () => {
        // Surface 385.3 - 290.7 = 94.6; lid 657.8 + 102.6 = 760.4; drain 451.1 + 102.6 = 553.7.
        const [lid, drain] = [opened('F1', 'lid', { litres: 100.8, heel: 20, worn: true }), opened('F1', 'drain', { litres: 100.8, heel: 20, worn: true })];
        expect([head(lid), head(drain)].map(Math.round)).toEqual([-666, -459]);
        expect([lid.outcome, drain.outcome]).toEqual(['falls back', 'falls back']);
    });

    test('with V1 shut no tank comes along the supply', () => {
        for (const heel of [-20, 0, 20]) expect(opened('F1', 'drain', { litres: 100.8, heel, lineUp: 'SERVICE' }).outcome).toBe('shut off');
    });
});

describe('from which heel and level the worked vessel floods', () => {
    const limit = (name: string, said: Said): Thresholds => asked(WORKED, 'F1', name, { worn: true, ...said })[1][0]!;
    const degrees = (angle: Thresholds['port']): number => (angle as number) / DEG;
    test('half full: the drain from 3.5, the lid from 14.2 degrees to port; never to starboard', () => {
        // 410 cos f + 850 sin f = z cos f - 300 sin f: tan f = (z - 410) / 1150: 70 / 1150 is 3.48 degrees, 290 / 1150 is 14.15.
        expect(degrees(limit('drain', { litres: 100.8 }).port)).toBeCloseTo(3.48, 1);
        expect(degrees(limit('lid', { litres: 100.8 }).port)).toBeCloseTo(14.15, 1);
        for (const name of ['drain', 'lid']) expect(limit(name, { litres: 100.8 }).stbd).toBe('never');
    });
    test('bow 3 degrees down: 1.7 and 12.4', () => {
        // F1 stands 3300 - 2600 = 700 mm before the middle of the tank: 1150 sin f = (z - 410) cos f - 700 tan 3.
        expect(degrees(limit('drain', { litres: 100.8, trim: -3 }).port)).toBeCloseTo(1.66, 1);
        expect(degrees(limit('lid', { litres: 100.8, trim: -3 }).port)).toBeCloseTo(12.4, 1);
    });
    test('95 % full the lid floods from 5.0 degrees to port', () => {
        // 10.08 L of air, 12600 mm² across, a triangle in the outer upper corner, a = √(2 x 12600 tan f) high: 620 - a + 1150 tan f = 700 - 300 tan f, so
        // tan f = 0.0876.
        expect(degrees(limit('lid', { litres: 191.52 }).port)).toBeCloseTo(5.0, 1);
    });
    test('upright the drain floods with more than 134 L, the lid never', () => {
        // 480 - 200 = 280 mm of 0.48 L each; the lid is 500 mm over a bottom of a tank 420 mm high.
        expect((limit('drain', { litres: 100.8 }).volume as number) * 1e3).toBeCloseTo(134.4, 6);
        expect(limit('lid', { litres: 100.8 }).volume).toBe('never');
        expect(limit('drain', { litres: 140 }).port).toBe(0);
    });
});

/** The tank's surface is at 1200 mm with 100 L of 200 (1 m x 0.5 m x 0.4 m on 1000 mm); the filter's lid at 900 mm. */
const HIGH = `
vessel Overwake {
  heights from "keel"
}
tank T1 carries diesel {
  box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up
  pickup P1   mouth at 20 mm off bottom   top at 1420 mm
  drop R1     mouth at 390 mm off bottom   top at 1420 mm
}
engine E1 {
  inlet at 900 mm   backflow passes
}
supply course Feed from T1.P1 to E1 {
  hose S1
  check CV1     at 1000 mm   cracks 0.5 kPa
  filter F1     at 850 mm   lid at 900 mm
  hose S2
}
return course Back from E1 to T1.R1 {
  hose B1
}
`;

describe('more ways than one', () => {
    test('a return that ends above the surface does not hide the pickup, though nothing is held back on it', async () => {
        const { boat } = await load(HIGH);
        const [found] = asked(boat, 'F1', 'lid', { litres: 100 });
        expect(found.outcome).toBe('floods');
        expect(found.tanks.map(({ fitting }) => fitting)).toEqual(['T1.P1']);
        // At 8 °C the heaviest, 845 kg/m³, are 849.94 (tests/analysis/flow/fuel.test.ts), and 500 / (849.94 x 9.80665) = 60.0 mm: 1200 - 900 - 60.0. It stops at the mouth, 20 mm: 90 L.
        expect(head(found)).toBeCloseTo(240, 0);
        expect(litres(found)).toBeCloseTo(90, 3);
    });

    test('two mouths: the lower one gives more', async () => {
        const { boat } = await load(edit(edit(HIGH, 'mouth at 20 mm', 'mouth at 100 mm'), 'mouth at 390 mm', 'mouth at 60 mm'));
        // The return holds nothing back, its mouth is 60 mm up: 30 of 100 L stay.
        expect(litres(asked(boat, 'F1', 'lid', { litres: 100 })[0])).toBeCloseTo(70, 3);
        expect((asked(boat, 'F1', 'lid', { litres: 100 })[1][0]!.volume as number) * 1e3).toBeCloseTo(30, 3);
    });

    test('what nobody said of an engine takes nothing from what is known to come', async () => {
        const { boat } = await load(edit(edit(HIGH, '   backflow passes', ''), 'mouth at 390 mm', 'mouth at 60 mm'));
        expect(asked(boat, 'F1', 'lid', { litres: 100 })[0].outcome).toBe('floods');
    });

    test('an electric pump of which nobody said what it does when it is off is no valve', async () => {
        const pump = (words: string): string => edit(edit(HIGH, 'backflow passes', 'backflow blocks'), 'check CV1     at 1000 mm   cracks 0.5 kPa', `electric pump EP1 at 1000 mm${words}`);
        const outcome = async (words: string): Promise<unknown> => { const [found] = asked((await load(pump(words))).boat, 'F1', 'lid', { litres: 100 }); return [found.outcome, ...found.lacks]; };
        expect(await outcome('')).toEqual(['cannot tell', { about: 'EP1', of: 'when off' }]);
        expect(await outcome('   when off passes')).toEqual(['floods']);
        expect(await outcome('   when off blocks')).toEqual(['shut off']);
    });
});

/** Two like tanks with a line between their bottoms; each feeds the filter by a shutoff of its own. */
const PAIR = `
vessel Pairwake {
  heights from "keel"
}
${['T1', 'T2'].map((tank) => `tank ${tank} carries diesel {
  box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up
  pickup P1   mouth at 20 mm off bottom   top at 1420 mm
  pickup X    mouth at 0 mm off bottom    top at 1000 mm
}`).join('\n')}
engine E1 { inlet at 900 mm   backflow blocks }
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 1420 mm   normally open
  tee J1       at 900 mm
  filter F1    at 850 mm   lid at 900 mm
}
supply course Other from T2.P1 to J1 {
  shutoff V2   at 1420 mm   normally open
}
transfer course Cross from T1.X to T2.X {
  shutoff VX   at 1000 mm   normally open
}
`;

describe('tanks that are joined', () => {
    test('give what they hold once, though both flood', async () => {
        // 100 L in each, 10 L below the mouths.
        const { boat } = await load(PAIR);
        expect(litres(asked(boat, 'F1', 'lid', { litres: 100 })[0])).toBeCloseTo(180, 3);
        const apart = await load(edit(PAIR, 'shutoff VX   at 1000 mm   normally open', 'shutoff VX   at 1000 mm   normally shut'));
        expect(litres(asked(apart.boat, 'F1', 'lid', { litres: 100 })[0])).toBeCloseTo(180, 3);
    });
    test('give it by the one that is open', async () => {
        const { boat } = await load(edit(PAIR, 'shutoff V2   at 1420 mm   normally open', 'shutoff V2   at 1420 mm   normally shut'));
        expect(litres(asked(boat, 'F1', 'lid', { litres: 100 })[0])).toBeCloseTo(180, 3);
    });
});
