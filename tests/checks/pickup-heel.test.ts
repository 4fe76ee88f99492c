/** PICKUP-HEEL: what the lowest level of the envelope leaves keeps the engine's pickup in the liquid, however she leans. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, example, said, without, type Texts } from './boats';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('PICKUP-HEEL', texts, about);
const ENVELOPE = 'envelope heel 20 deg   trim 5 deg   level 10 to 95 %';
const BOX = 'box 800 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd';
/** P1 is 400 mm from the outer side of the tank and 200 from the inner one, 200 mm from its after end and 600 from its forward one. */
const at = (mouth: string, envelope = ENVELOPE): string => edit(edit(SLOOP, 'pickup P1   bore 8 mm', `pickup P1   bore 8 mm   ${mouth}`), ENVELOPE, envelope);
const TOP = 'top at 620 mm up, 2200 mm fwd, 500 mm stbd';
const MOUTH = `mouth at 25 mm off bottom   ${TOP}`;

/*
 * Heeled 20 degrees to starboard, tan 0.36397, the surface through the mouth meets the bottom w = 400 + 25 / 0.36397 = 468.69 mm from the outer side. Bow 5 degrees
 * down, w grows forward by tan 5 / sin 20 = 0.087489 / 0.342020 = 0.25580 a mm: from 468.69 - 51.16 = 417.53 aft to 468.69 + 153.48 = 622.17 forward, 22.17 past the inner
 * side. 0.36397 / 2 x (622.17³ - 417.53³ - 22.17³) / (3 x 0.25580) = 0.237145 x 168.04e6 = 39.85 L of 800 x 600 x 400 mm = 192 L: 20.8 %.
 */
const DRY = (level: string, left: string): string => `fail T1.P1, major: T1.P1 draws air when T1 holds less than 39.8 L (20.8 %), heeled 20° to starboard, bow 5° down. The envelope lets it sink to ${level} %, ${left} L.`;
test('at the worst corner it must hold 39.8 L', async () => {
    expect(await rule(at(MOUTH))).toEqual([DRY('10', '19.2')]);
    expect(await rule(at(MOUTH, ENVELOPE.replace('10', '20')))).toEqual([DRY('20', '38.4')]);
    expect(await rule(at(MOUTH, ENVELOPE.replace('10', '21')))).toEqual(['pass T1.P1']); // 40.3 L
    expect((await rule(at(MOUTH, ENVELOPE.replace('10', '0'))))[0]).toMatch(/bow 5° down\. The envelope lets it run empty\.$/);
});
// In the middle w = 300 + 68.69 = 368.69, and w 266.37 to 471.01: 0.237145 x (471.01³ - 266.37³) = 0.237145 x 85.59e6 = 20.30 L.
test('nearer the middle it needs less', async () => {
    expect(await rule(at('mouth at 25 mm off bottom   top at 620 mm up, 2400 mm fwd, 600 mm stbd', ENVELOPE.replace('10', '10.5')))).toHaveLength(1);
    expect(await rule(at('mouth at 25 mm off bottom   top at 620 mm up, 2400 mm fwd, 600 mm stbd', ENVELOPE.replace('10', '11')))).toEqual(['pass T1.P1']); // 21.1 L
});

// The worked vessel: 53.46 L, worked out in tests/analysis/tanks-fittings.test.ts, of 201.6 L; 5 % of that are 10.1 L, and 30 % 60.5 L.
test('the worked vessel', async () => {
    expect(await rule(example('ottilwake'))).toEqual([
        'fail T1.P1, major: T1.P1 draws air when T1 holds less than 53.5 L (26.5 %), heeled 25° to starboard, bow 3° down. The envelope lets it sink to 5 %, 10.1 L.',
    ]);
    expect(await rule(example('ottilwake-mended'))).toEqual(['pass T1.P1']);
});

/** Two tanks of 1000 x 400 x 300 mm, 120 L each, 600 mm off the centreline on either side, joined while VX is open. */
const WINGS = (vx: string): string => `vessel Wingwake { envelope heel 15 deg   trim 1 deg   level 10 to 95 % }
tank T1 {
  box 1000 x 400 x 300 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 600 mm port
  pickup P1   mouth at 25 mm off bottom   top at 520 mm up, 2500 mm fwd, 800 mm port
  pickup P2
  vent
}
tank T2 {
  box 1000 x 400 x 300 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 600 mm stbd
  pickup P2
  vent
}
engine E1
supply course Feed from T1.P1 to E1 { shutoff V1   normally open }
transfer course Cross from T1.P2 to T2.P2 { shutoff VX   normally ${vx} }
line-up RUN run is normal
`;
/*
 * P1 stands in the middle of T1. Heeled 15 degrees, tan 0.26795, to either side the surface through its mouth meets the bottom 200 + 25 / 0.26795 = 293.3 mm from the low side:
 * 293.3² x 0.26795 / 2 x 1000 = 11.5 L, and 10 % are 12 L. To starboard the same surface stands, at the inner side of T2, 25 + 1400 x 0.26795 = 400 mm over its bottom: T2 is full.
 * 120 + 11.6 = 131.6 L of 240: 54.8 %.
 */
test('a tank that an open line joins to it takes what runs to the low side', async () => {
    expect(await rule(WINGS('shut'), 'T1.P1')).toEqual(['pass T1.P1']);
    expect(await rule(WINGS('open'), 'T1.P1')).toEqual(['fail T1.P1, major: T1.P1 draws air when T1 and T2, joined in RUN, hold less than 132 L (54.8 %) together, heeled 15° to starboard, bow 1° down. The envelope lets them sink to 10 %, 24 L.']);
});

/**
 * A day tank of 500 x 400 x 400 mm, 80 L, over the tank that it is filled from, and an overflow back to it. P1 stands in its middle, 25 mm off its bottom: heeled 15 degrees the
 * surface there falls 200 x 0.26795 = 53.6 mm to the high side, so it meets the bottom 25 / 0.26795 = 93.3 mm beyond P1: 293.3 x 293.3 x 0.26795 / 2 x 500 mm = 5.76 L; trim alters
 * little. 10 % are 8 L.
 */
const OVERFLOW = (over: string, level = '10'): string => `vessel Overwake { envelope heel 15 deg   trim 1 deg   level ${level} to 95 % }
tank T1 { box 1000 x 600 x 400 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom, 2500 mm fwd, 400 mm stbd
  drop R1
  vent }
tank DT { box 500 x 400 x 400 mm   low aft inner corner at 1500 mm up, 3000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom, 3250 mm fwd, 300 mm stbd
  pickup OV   mouth at ${over}
  vent }
engine E1
supply course Feed from DT.P1 to E1 { shutoff V1   normally open }
transfer course Over from DT.OV to T1.R1 { hose }
line-up RUN run is normal
`;
test('an overflow takes nothing that the pickup needs', async () => {
    expect(await rule(OVERFLOW('390 mm off bottom, 3250 mm fwd, 300 mm stbd'), 'DT.P1')).toEqual(['pass DT.P1']);
    expect((await rule(OVERFLOW('390 mm off bottom, 3250 mm fwd, 300 mm stbd', '5'), 'DT.P1'))[0]).toMatch(/^fail DT\.P1, major: DT\.P1 draws air when DT holds less than 5\.[78]/);
    // A line that leaves the tank as low as the pickup, or lower when she leans, can.
    expect((await rule(OVERFLOW('25 mm off bottom, 3250 mm fwd, 300 mm stbd'), 'DT.P1'))[0]).toMatch(/when (DT and T1|T1 and DT), joined in RUN, hold/);
    expect((await rule(OVERFLOW('50 mm off bottom, 3250 mm fwd, 450 mm stbd'), 'DT.P1'))[0]).toMatch(/joined in RUN/); // 150 mm x 0.268 = 40 mm lower to starboard
    // Where it stands across the boat is not known: upright it takes nothing.
    expect(await rule(OVERFLOW('390 mm off bottom'), 'DT.P1')).toEqual(['cannot tell DT.P1: where DT.OV stands along and across the boat']);
});

/** A generator draws from P2; the engine from P1, or from another tank. */
const GENERATOR = (engineTank: string): string => `${edit(at(`${MOUTH}\n  pickup P2   mouth at 65 mm off bottom   ${TOP}`, ENVELOPE.replace('10', '21')), 'Feed from T1.P1', `Feed from ${engineTank}`)}tank T2 { pickup P1   vent }
generator GN
supply course GenFeed from T1.P2 to GN { hose }
`;
test('beside an engine a generator may run dry; alone in its tank it may not', async () => {
    expect(await rule(GENERATOR('T1.P1'), 'T1.P2')).toEqual(['not applicable T1.P2: no engine draws from it, and it may run dry before the pickup of the engine does (see PICKUP-RANK)']);
    expect((await rule(GENERATOR('T2.P1'), 'T1.P2'))[0]).toMatch(/^fail T1.P2, major: T1.P2 draws air when T1 holds less than/);
});

describe('cannot tell', () => {
    test('the mouth, and where it stands', async () => {
        expect(await rule(SLOOP)).toEqual(['cannot tell T1.P1: the height of the mouth of T1.P1']);
        expect(await rule(at('mouth at 25 mm off bottom'))).toEqual(['cannot tell T1.P1: where T1.P1 stands along and across the boat']);
    });
    test('how she leans, how low she is run', async () => {
        expect(await rule(at(MOUTH, ''))).toEqual(['cannot tell T1.P1: the heel and trim that she must work in; the lowest tank level']);
        expect(await rule(at(MOUTH, 'envelope heel 20 deg   trim 5 deg'))).toEqual(['cannot tell T1.P1: the lowest tank level']);
    });
    test('the tank, or where it stands', async () => {
        expect(await rule(edit(at('mouth at 225 mm'), BOX, ''))).toEqual(['cannot tell T1.P1: the size and height of T1; where T1.P1 stands along and across the boat']);
        expect(await rule(edit(at('mouth at 225 mm up, 2200 mm fwd, 500 mm stbd'), 'at 200 mm up, 2000 mm fwd, 300 mm stbd', 'at 200 mm'))).toEqual(['cannot tell T1.P1: where T1 stands along and across the boat']);
    });
    // Upright alone it takes 50 mm x 0.48 L = 24 L, and 10 % are 19.2 L.
    test('but what is too little upright is too little', async () => {
        expect(await rule(at('mouth at 50 mm off bottom', 'envelope level 10 to 95 %'))).toEqual([
            'fail T1.P1, major: T1.P1 draws air when T1 holds less than 24 L (12.5 %), upright. The envelope lets it sink to 10 %, 19.2 L.',
        ]);
    });
});

describe('contradictions are judged, not stumbled over', () => {
    test('a mouth under the tank, and one over it', async () => {
        expect(await rule(at('mouth at 100 mm up, 2200 mm fwd, 500 mm stbd'))).toEqual(['pass T1.P1']);
        expect((await rule(at('mouth at 900 mm up, 2200 mm fwd, 500 mm stbd')))[0]).toMatch(/less than 192 L \(100 %\), upright/);
    });
});

describe('not applicable', () => {
    test('no fuel', async () => expect(await rule(edit(at(MOUTH), 'tank T1 {', 'tank T1 carries coolant {'))).toEqual(['not applicable T1.P1: its tank carries no fuel']));
    test('nothing draws from it', async () => {
        expect(await rule(edit(SLOOP, 'drop R1     bore 8 mm', 'drop R1     bore 8 mm\n  pickup P2'), 'T1.P2')).toEqual(['not applicable T1.P2: nothing that burns fuel draws from it in a line-up for running']);
        expect(await rule(edit(SLOOP, 'normally open', 'normally shut'))).toEqual(['not applicable T1.P1: nothing that burns fuel draws from it in a line-up for running']);
    });
    test('no tank has a pickup', async () => expect(await rule(edit(without(SLOOP, 'pickup P1 bore 8 mm'), 'from T1.P1', 'from T1'))).toHaveLength(1));
});
