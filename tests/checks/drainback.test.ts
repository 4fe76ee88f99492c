/** DRAINBACK: what holds the column before a filter that stands above its tank. */
import { describe, expect, test } from 'vitest';
import { edit, said, without, type Texts } from './boats';
import { HALF, f1, service } from './half-full';

const rule = (texts: Texts, part?: string): Promise<string[]> => said('DRAINBACK', texts, part);
const HIGH = 'ports at 600 mm up, 2400 mm fwd, 600 mm stbd';
/** Without the primer nothing holds the column before F1; LP1 holds what is before F2. */
const bare = (text: string): string => without(text, 'primer PR1');
// Over the middle of the tank: 600 - 400 = 200 mm upright, less when she leans.
const FAILS = 'fail F1, minor: Nothing holds the column between T1 and F1: the ports of F1 can stand 200 mm above the surface (upright, T1 at 50 %, in RUN).';

test('a primer with its valves, a check, or nothing', async () => {
    expect(await rule(f1(HALF, HIGH))).toEqual(['pass F1', 'pass F2']);
    expect(await rule(bare(f1(HALF, HIGH)))).toEqual(['pass F2', FAILS]);
    expect(await rule(edit(f1(HALF, HIGH), 'primer PR1', 'check CV1'))).toEqual(['pass F1', 'pass F2']);
    expect(await rule(edit(f1(HALF, HIGH), 'primer PR1', 'electric pump EP1   when off passes'), 'F1')).toEqual(['pass F1']);
});
test('below the surface fuel seeps out, and no air in', async () => {
    // At 300 mm, in the middle, the surface stands 100 cos 20 cos 5 = 94 mm above it at the least.
    expect(await rule(bare(f1(HALF, 'ports at 300 mm up, 2400 mm fwd, 600 mm stbd')), 'F1')).toEqual(['pass F1']);
});
test('only heel lifts it: 20 deg to starboard', async () => {
    // At 300 mm, 100 mm to port: ((300 - 400) cos 20 + 700 sin 20) cos 5 = (-94.0 + 239.4) 0.9962 = 144.9 mm above the surface.
    expect(await rule(bare(f1(HALF, 'ports at 300 mm up, 2400 mm fwd, 100 mm port')), 'F1')).toEqual(['fail F1, minor: Nothing holds the column between T1 and F1: the ports of F1 can stand 145 mm above the surface (heeled 20° to starboard, bow 5° down, T1 at 50 %, in RUN).']);
});
test('filters on one column are one finding', async () => {
    const two = edit(bare(f1(HALF, HIGH)), 'hose S2      bore 8 mm', 'filter F5 { ports at 650 mm up, 2400 mm fwd, 600 mm stbd }\n  hose S2      bore 8 mm');
    expect(await rule(two)).toEqual(['pass F2', 'fail F1, minor: Nothing holds the column between T1 and F1 and F5: the ports of F5 can stand 250 mm above the surface (upright, T1 at 50 %, in RUN).']);
});
test('only line-ups for running are judged', async () => {
    expect(await rule(service(bare(f1(HALF, HIGH)), 'V1 shut'), 'F1')).toEqual([FAILS]);
    expect(await rule(edit(bare(f1(HALF, HIGH)), 'line-up RUN run is normal', 'line-up RUN run is normal { V1 shut }'), 'F1')).toEqual(['pass F1']);
});
describe('cannot tell', () => {
    test('no height, no place, no envelope', async () => {
        expect(await rule(bare(HALF), 'F1')).toEqual(['cannot tell F1: the height of the ports of F1']);
        expect(await rule(bare(f1(HALF, 'ports at 300 mm')), 'F1')).toEqual(['cannot tell F1: where F1 stands along and across the boat']);
        expect(await rule(edit(bare(f1(HALF, 'ports at 300 mm')), 'envelope heel 20 deg   trim 5 deg   level 50 %', 'envelope level 50 %'), 'F1')).toEqual(['cannot tell F1: the heel and trim that she must work in']);
    });
});
test('not applicable: no fuel', async () => expect(await rule(bare(edit(f1(HALF, HIGH), 'tank T1 {', 'tank T1 carries raw water {')), 'F1')).toEqual(['not applicable F1: no fuel tank feeds it']));
