/**
 * Two short rules on changing filters that seem to say opposite things. TM 5-3805-263-14&P-3: always bleed after it. TM 5-3810-293-14&P-1: fill the new
 * ones with clean fuel and screw them on; no bleeding on its page. Both are right, each of another topology, and what is generated follows that.
 */
import { describe, expect, test } from 'vitest';
import { both, ours, oursIn, published, publishedIn } from './ledger';
import * as ranDry from './ran-dry';
import * as selfVenting from './self-venting';
import { aboard, bare, broken, earlier, lawsIn, linesOf, made, sayable, without } from './service';

const AROUND = 'The page is one line of a table; ours has what stands around it: engine and bilge pump off, the valve shut before the lid, pads and a can.';
const TRIED = ours('The page ends with the filter; ours ends with the engine tried under load and every joint looked at.',
    'look all joints "dry card"', 'set battery switch on', 'start E1 at most 3 times 10 s', 'run E1 at 1300 rpm for 5 min', 'look all joints "dry card"', 'run E1 for 10 min in gear', 'look all joints "dry card"', 'stop E1', 'set bilge pump auto', 'log renew F1 element');
const OPENED = (pads: string, can: string) => [
    ...ours(AROUND, 'stop E1 key out', 'set bilge pump off', 'set battery switch off', 'shut V1', `place ${pads} pads under F1`, `place can ${can} under F1`, 'open F1 lid'),
    ...both('remove F1 element'), ...ours('The old one tells how dirty the tank is.', 'look F1 element "dark, slime, grit, water"'),
];
const HEAD = 'renew F1 element   starts RUN   ends RUN';
const OWN = published('Which one and how many points are the machine\'s; the page names none.', '(bleed)');

const DRY = [
    ...OPENED('2', '2 L'), ...ours('A separator has a bowl to clean.', 'clean F1 bowl'), ...both('fit F1 element'), ...ours(AROUND, 'shut F1 lid', 'open V1', 'place 1 pads under F2', 'place can 1 L under F2', 'place 1 pads under E1', 'place can 1 L under E1'),
    ...OWN, ...ours('From the tank on, by the primer: every filter that its air can come to, and the injection pump.', 'bleed BS1 by PR1', 'bleed BS2 by PR1', 'bleed BS3 by PR1'), ...TRIED,
];
const dryBoat = ranDry.boat.replace('prefill allowed', 'prefill forbidden');

describe('TM 5-3805-263-14&P-3: always bleed after changing filters', () => {
    const lines = oursIn(DRY);
    const run = (changed: readonly string[]): Promise<string[]> => broken(dryBoat, HEAD, changed);
    test('a filter that is closed dry: ours is what is generated, and breaks no law', async () => {
        expect(linesOf(made(await aboard(dryBoat), ['renew F1 element']))).toEqual(lines.map(bare));
        expect(await run(lines)).toEqual([]);
    });
    test.each(['BS1', 'BS2', 'BS3'])('without %s the engine would find air', async (vent) => expect(lawsIn(await run(without(lines, `bleed ${vent} by PR1`)))).toContain('air-left'));
    test('where it may not be filled, to fill it is no way round', async () => expect(lawsIn(await run(lines.flatMap((line) => (line === 'shut F1 lid' ? ['prefill F1', line] : [line]))))).toContain('may-not-prefill'));
});

const FILLED = [
    ...OPENED('4', '1 L'), ...published('The page fills the new one before it is screwed on; ours has a cartridge, which is put in and filled to the brim. For one that is screwed on the page\'s order is the only one.', '(fill the new one with clean fuel)'),
    ...both('fit F1 element'), ...ours('See there.', 'prefill F1'), ...both('shut F1 lid'),
    ...published('How far it is turned is printed by its maker; a line says only that it is closed.', '(until the seal touches, then half to three quarters of a turn)'),
    ...ours(AROUND, 'open V1'), ...TRIED,
];

describe('TM 5-3810-293-14&P-1: fill the new one, and no bleeding', () => {
    const lines = oursIn(FILLED);
    const run = (changed: readonly string[], text = selfVenting.unitInjectors): Promise<string[]> => broken(text, HEAD, changed);
    test('an engine that vents itself to the tank: ours is what is generated, and breaks no law', async () => {
        expect(linesOf(made(await aboard(selfVenting.unitInjectors), ['renew F1 element']))).toEqual(lines.map(bare));
        expect(await run(lines)).toEqual([]);
    });
    // How far she heels is not written of this boat, so that whether the tank can come to the lid with its valve open cannot be told.
    test('as printed it lacks what stands around it, and leaves no air where it matters', async () => {
        const found = lawsIn(await run(['open F1 lid', ...sayable(publishedIn(FILLED)).slice(0, 2), 'prefill F1', 'shut F1 lid']));
        expect(found).toEqual(expect.arrayContaining(['cannot-tell', 'not-isolated', 'no-can', 'no-pads', 'bilge-pump-on', 'key-in']));
        expect(found).not.toContain('air-left');
    });
    test('filled after the lid is on', async () => expect(lawsIn(await run(earlier(lines, 'shut F1 lid', 'prefill F1')))).toContain('not-open'));
    test('opened to the tank before it is closed', async () => expect(lawsIn(await run(earlier(lines, 'open V1', 'shut F1 lid')))).toContain('cannot-tell'));
    test('left out on an engine that does not vent itself it leaves air', async () => {
        const bled = oursIn(DRY).filter((line) => !line.startsWith('bleed '));
        expect(lawsIn(await broken(ranDry.boat, HEAD, bled.flatMap((line) => (line === 'shut F1 lid' ? ['prefill F1', line] : [line]))))).toContain('air-left');
    });
});
