/** DRAIN-HEAD: a drain that siphons, alone, when it is opened. */
import { describe, expect, test } from 'vitest';
import { said, without, type Texts } from './boats';
import { HALF, f1, service } from './half-full';

const rule = (texts: Texts, part = 'F1'): Promise<string[]> => said('DRAIN-HEAD', texts, part);
/** The ports are dry everywhere (13.8 mm at the worst, which counts as level: see HEAD-ON-OPEN's test); the drain hangs under them. */
const hung = (under: number): string => f1(HALF, 'ports at 640 mm up, 2400 mm fwd, 100 mm port', `drain at ${under} mm under ports   plugged`);

// 20 deg to port, the drain at 640 - 100 = 540 mm: ((400 - 540) cos 20 + 700 sin 20) cos 5 = (-131.6 + 239.4) 0.9962 = 107.4 mm.
const FAILS = (lineUp: string): string => `fail F1, minor: The drain of F1 will siphon T1 when it is opened: the liquid stands 107 mm above it (heeled 20° to port, bow 5° down, T1 at 50 %, in ${lineUp}`;
test('shut off for service, and not', async () => {
    expect(await rule(service(hung(100), 'V1 shut'))).toEqual(['pass F1']);
    expect(await rule(service(hung(100)))).toEqual([`${FAILS('SERVICE')}), which is the line-up for service.`]);
    expect(await rule(hung(100))).toEqual([`${FAILS('RUN')}), and no line-up is for service.`]);
});
test('above every level', async () => expect(await rule(hung(1))).toEqual(['pass F1']));

describe('not applicable', () => {
    test('no drain', async () => expect(await rule(HALF)).toEqual(['not applicable F1: no height of a drain is written']));
    test('the ports flood as well: HEAD-ON-OPEN tells of the same valve', async () => {
        const low = f1(HALF, 'ports at 600 mm up, 2400 mm fwd, 100 mm port', 'drain at 100 mm under ports   plugged');
        expect(await rule(low)).toEqual(['not applicable F1: its ports can flood as well (see HEAD-ON-OPEN)']);
        expect((await said('HEAD-ON-OPEN', low, 'F1'))[0]).toMatch(/^fail F1, minor/);
    });
    test('nothing shuts it off', async () => expect(await rule(without(hung(100), 'shutoff V1 normally open'))).toEqual(['not applicable F1: nothing shuts it off (see SHUTOFF-BEFORE-FILTER and ISOLATE-FILTER-IN)']));
});
test('cannot tell: where it stands', async () => expect(await rule(f1(HALF, 'ports at 640 mm', 'drain at 500 mm'))).toEqual(['cannot tell F1: where F1 stands along and across the boat']));
