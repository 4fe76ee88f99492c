/** Answers to questions: what they say of the boat, on boats small enough to be worked by hand. */
import { expect, test } from 'vitest';
import { answerText } from '../../src/documents/answers/answer';
import { answer } from '../../src/documents/answers/answers';
import { readQuestion } from '../../src/language/ask/question';
import { loadBoat } from '../../src/language/load';

async function ask(text: string, words: string): Promise<string> {
    const { boat, problems } = await loadBoat({ 'boat.orlop': text });
    expect(problems.map(({ message }) => message)).toEqual([]);
    const { question, circumstances } = readQuestion(words, boat);
    return answerText(boat, answer(boat, question, circumstances)!, () => undefined).replace(/\s+/g, ' ');
}

/** A return into the supply, between tank and filter, and the selector of two tanks declared before the courses. */
const ROUND = `vessel Roundwake
tank T1 { pickup P1   vent }
tank T2 { pickup P1   vent }
engine E1
selector SV1 {
  ports port, stbd, out
  position PORT joins port, out
  position BOTH joins port, stbd, out
}
supply course Port from T1.P1 to SV1.port { shutoff V1   normally open   hose S1 }
supply course Stbd from T2.P1 to SV1.stbd { shutoff V2   normally open   hose S2 }
supply course Feed from SV1.out to E1 { tee J1   hose S3   filter F1   electric pump EP1 }
return course Back from E1 to J1 { hose S4 }
line-up RUN run is normal { SV1 PORT }
line-up WIDE run { SV1 BOTH }
`;

test('paths tell each part where the liquid meets it, and what returns is not on the supply', async () => {
    expect(await ask(ROUND, 'paths to E1')).toContain('From the tank on: T1.P1, V1, S1, SV1, J1, S3, F1, EP1.');
    expect(await ask(ROUND, 'paths from E1')).toContain('From the engine on: S4, J1, SV1, S1, V1, T1.P1.');
    // Both tanks at once: each line before the selector, and neither against its flow.
    expect(await ask(ROUND, 'paths to E1 in WIDE')).toMatch(/on: (T1\.P1, V1, S1, T2\.P1, V2, S2|T2\.P1, V2, S2, T1\.P1, V1, S1), SV1, J1, S3, F1, EP1\./);
});

/** A tank of 1000 x 500 x 400 mm, its bottom at the datum and its inner side 100 mm to starboard; a lid 740 mm up and 300 mm to port. */
const LOW = (envelope: string): string => `vessel Lowwake { ${envelope} }
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom, 2500 mm fwd, 350 mm stbd
  drop R1     mouth at 25 mm off bottom, 2500 mm fwd, 350 mm stbd
  vent }
engine E1
supply course Feed from T1.P1 to E1 { shutoff V1   normally open   hose S1   filter F1 { ports at 700 mm up, 2500 mm fwd, 300 mm port   lid at 40 mm over ports } }
return course Back from E1 to T1.R1 { hose }
line-up RUN run is normal
`;

/*
 * Heeled to port the full tank rises and the lid comes down. At 30 degrees the lid stands at 740 cos 30 - 300 sin 30 = 490.9 mm, and the outer upper edge of the tank at 400 cos 30 + 600 sin 30 =
 * 646.4 mm: a full tank runs out. Upright it stands 340 mm lower than the lid.
 */
test('isolate says no more of her envelope than was stated of it', async () => {
    const dry = 'As the valves stand in RUN, no tank would run out of it';
    expect(await ask(LOW('envelope heel 5 deg   trim 1 deg'), 'isolate F1 lid')).toContain(`${dry} anywhere within her envelope, with T1 at 200 L (100 %).`);
    expect(await ask(LOW('envelope heel 30 deg   trim 1 deg'), 'isolate F1 lid')).toContain('WARNING: as the valves stand in RUN, liquid of T1 can run out of it somewhere within her envelope, with T1 at 200 L (100 %).');
    for (const envelope of ['', 'envelope heel 5 deg', 'envelope trim 1 deg']) expect(await ask(LOW(envelope), 'isolate F1 lid')).toMatch(/cannot be told yet.*the heel and trim that she must work in/);
    expect(await ask(LOW('envelope heel 5 deg'), 'isolate F1 lid')).toContain('no trim, since her envelope states none');
});

test('isolate is answered for the level and the heel that were asked', async () => {
    expect(await ask(LOW(''), 'isolate F1 lid upright')).toContain('As the valves stand in RUN, no tank would run out of it upright, with T1 at 200 L (100 %).');
    expect(await ask(LOW(''), 'isolate F1 lid heel 30 port')).toContain('liquid of T1 can run out of it heeled 30° to port, with T1 at 200 L (100 %).');
    // 20 L at 30 degrees lie in the inner lower corner, 100 sin 30 = 50 mm up: a triangle of 0.02 m² = h² / (2 sin 30 cos 30), so h = 132 mm, and the surface stands at 182 mm.
    expect(await ask(LOW('envelope heel 30 deg   trim 1 deg'), 'isolate F1 lid at 20 L')).toContain('As the valves stand in RUN, no tank would run out of it anywhere within her envelope, with T1 at 20 L (10 %).');
});

test('what is not known of the tanks leaves no gap in a title, and lines without a tag are not denied', async () => {
    expect(await ask(ROUND, 'open F1')).toMatch(/^Opening F1 in line-up RUN, upright WARNING: it cannot be told/);
    expect(await ask(ROUND.replace('vessel Roundwake', 'vessel Roundwake { envelope heel 20 deg }'), 'open F1')).toMatch(/^Opening F1 in line-up RUN WARNING: it cannot be told/);
    expect(await ask(ROUND, 'paths to E1')).not.toContain('envelope');
    await expect(ask(ROUND.replace(/hose S\d/g, 'hose'), 'severed')).rejects.toThrow('Which hose or tube? None on this boat has a tag: write one behind its kind, like `hose S1`.');
    await expect(ask('vessel Emptywake\ntank T1 { vent }\nengine E1\nsupply course Feed from T1 to E1 { filter F1 }\n', 'severed S1')).rejects.toThrow('There is no hose or tube called S1. There is none on this boat.');
});

/** A tank over its filter, to which a pickup and a return lead by hoses of one bore and one length. */
const BOTH = (backflow: string): string => `vessel Bothwake
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom
  drop R1     mouth at 25 mm off bottom
  vent }
engine E1 { backflow ${backflow} }
supply course Feed from T1.P1 to E1 { hose S1   bore 8 mm   length 2 m   filter F1 { ports at 400 mm   lid at 40 mm over ports } }
return course Back from E1 to T1.R1 { hose S2   bore 8 mm   length 2 m }
`;

test('what comes back through a return comes besides what the supply brings', async () => {
    const rate = async (backflow: string): Promise<number> => Number(/at first up to ([\d.]+) L a minute/.exec(await ask(BOTH(backflow), 'open F1 lid upright'))![1]);
    // Two equal ways bring twice as much as one, to the digit that is printed.
    expect(Math.abs(await rate('passes') - 2 * await rate('blocks'))).toBeLessThan(0.11);
});

/** A pipe, then two legs of the same bore beside one another, over the filter by so much that the flow stays laminar. */
const LEGS = `vessel Legwake
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 500 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 925 mm
  vent }
engine E1
supply course Feed from T1.P1 to E1 {
  hose S0   bore 8 mm   length 1 m
  split {
    leg main   { hose S1   bore 8 mm   length 4 m }
    leg bypass { shutoff VB   normally open   hose S2   bore 8 mm   length 4 m }
  }
  hose S3   bore 8 mm   length 0.5 m   low at 500 mm
  filter F1 { ports at 700 mm   lid at 40 mm over ports }
}
`;

/*
 * Full, the surface stands at 900 mm, 160 mm over the lid. The dip tube is 400 mm: 0.4 + 1 + 0.5 m carry all of it, and two legs of 4 m hinder as 2 m of one pipe do: 3.9 m. Warm diesel of 2.0 mm²/s is
 * laminar to Re 2000: v = g h D² / (32 nu L) = 9.80665 x 0.160 x 64e-6 / (32 x 2.0e-6 x 3.9) = 0.402 m/s, Re 1609; the mouths, 1.5 v² / 2g = 12 mm, make it 0.375 m/s or a little more: at least
 * 0.37 x 50.27 mm² = 18.6 mL/s = 1.12 L a minute. By one leg alone, 5.9 m, it would be 0.77.
 */
test('legs side by side let through more than one of them, and a figure that is `up to` is no less', async () => {
    const rate = Number(/at first up to ([\d.]+) L a minute/.exec(await ask(LEGS, 'open F1 lid upright'))![1]);
    expect(rate).toBeGreaterThan(1.12);
});

test('a valve in one leg of two is not said to stop what a cut line loses', async () => {
    expect(await ask(LEGS, 'severed S3')).not.toContain('VB shut');
    expect(await ask(LEGS.replace('hose S0 ', 'shutoff V1   normally open   hose S0 '), 'severed S3')).toContain('V1 shut stops what comes from T1 by T1.P1');
});

test('a valve in a return stops what a cut line loses, once the engine is stopped', async () => {
    const valves = BOTH('passes').replace('{ hose S1 ', '{ shutoff V1   normally open   hose S1 ').replace('{ hose S2   bore 8 mm   length 2 m }', '{ hose S2   bore 8 mm   length 2 m   shutoff VR   normally open }');
    expect(await ask(valves, 'severed S2')).toContain('VR shut stops what comes from T1 by T1.R1 (first stop E1, whose return it blocks).');
});

/** Two tanks over one filter, a selector that has no position without a tank, and the same with one. */
const TWO = (off: string): string => `vessel Twowake
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom
  vent }
tank T2 like T1 mirrored
engine E1
selector SV1 { ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
${off}}
supply course Port from T1.P1 to SV1.port { hose S1 }
supply course Stbd from T2.P1 to SV1.stbd { hose S2 }
supply course Feed from SV1.out to E1 { hose S3   filter F1 { ports at 400 mm   lid at 40 mm over ports } }
line-up RUN run is normal { SV1 PORT }
line-up SERVICE service { SV1 STBD }
`;

test('a selector turned to another full tank cuts nothing off', async () => {
    expect(await ask(TWO(''), 'open F1 lid upright')).toContain('WARNING: T1 can run out of it. No valve cuts it off from T1 without opening it to T2: do not open it with liquid above it.');
    expect(await ask(TWO(''), 'isolate F1 lid upright')).toContain('F1 can be cut off from T1 only by opening it to T2, by T2.P1, S2, SV1, S3: that helps only while T2 is empty.');
    expect(await ask(TWO('  position OFF joins nothing\n'), 'open F1 lid upright')).toContain('First set SV1 OFF, and prove it');
    expect(await ask(TWO('  position OFF joins nothing\n'), 'isolate F1 lid upright')).toMatch(/[Ss]et SV1 OFF: then no liquid of a tank can come to F1\./);
});
