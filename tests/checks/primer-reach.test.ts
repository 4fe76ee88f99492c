/** PRIMER-REACH: a primer lifts fuel from the lowest level of its tank, at every heel and trim. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, example, said, type Texts } from './boats';
import { CRESTWAKE } from './crestwake';

const rule = (texts: Texts, about = 'PR1'): Promise<string[]> => said('PRIMER-REACH', texts, about);
const lifts = (words: string): string => edit(CRESTWAKE, 'lifts 900 mm', words);

/*
 * 30 % of 400 mm are 120 mm: the surface stands at 320 mm, and turns about its middle, 2400 mm forward and 600 to starboard, since at 10 degrees its sides move 300 x 0.176 = 53 mm only. The
 * fitting at 620 mm up, 2200 mm fwd, 500 mm stbd is 300 mm above, 100 inboard and 200 aft of it: heeled 10 degrees to starboard, bow 1 degree down, it stands
 * 300 x 0.984808 x 0.999848 + 100 x 0.173648 x 0.999848 + 200 x 0.017452 = 295.4 + 17.4 + 3.5 = 316.3 mm over the surface. PR1 stands over its middle, 230 mm at most.
 */
test('what stands before it counts too', async () => {
    expect(await rule(lifts('lifts 317 mm'))).toEqual(['pass PR1']);
    expect(await rule(lifts('lifts 315 mm'))).toEqual(['fail PR1, minor: PR1 lifts 315 mm when dry, and must lift 316 mm to get over T1.P1 with T1 at 30 %, heeled 10° to starboard, bow 1° down, in RUN.']);
});
// At 700 mm it is 380 mm above the surface, and less when she leans; nothing before it is higher.
test('its own height', async () => {
    const high = (words: string): string => edit(lifts(words), 'primer PR1   at 550 mm', 'primer PR1   at 700 mm');
    expect(await rule(high('lifts 380 mm'))).toEqual(['pass PR1']);
    expect(await rule(high('lifts 379 mm'))).toEqual(['fail PR1, minor: PR1 lifts 379 mm when dry, and must lift 380 mm with T1 at 30 %, upright, in RUN.']);
});

/*
 * The worked vessel, heeled 25 degrees to starboard, tan 0.466308, sin 0.422618, cos 0.906308. 5 % of 201.6 L are 10.08 L in 800 mm of length: 12 600 mm², a wedge in the low corner
 * at 200 mm up, 1150 mm to starboard, √(2 x 12 600 / 0.466308) = 232.5 mm wide and 232.5 x 0.422618 = 98.2 mm deep. The corner stands at 200 x 0.906308 - 1150 x 0.422618 = -304.7 mm, the
 * surface at -206.5 mm, PR1 at 640 x 0.906308 + 300 x 0.422618 = 706.8 mm: 913 mm. With trim it cannot be told, since nobody wrote how far forward PR1 stands.
 */
test('the worked vessel', async () => {
    expect(await rule(example('ottilwake'))).toEqual(['fail PR1, minor: PR1 lifts 900 mm when dry, and must lift 913 mm with T1 at 5 %, heeled 25° to starboard, in RUN.']);
    // 30 % are 75 600 mm²: a wedge 569.4 mm wide and 240.7 mm deep, its surface at -64.1 mm: 771 mm, and 3 degrees of trim add no 130 mm.
    expect(await rule(example('ottilwake-mended'))).toEqual(['pass PR1']);
});

test('an electric primer in a bypass that is shut is reached by opening it', async () => {
    const bypass = edit(CRESTWAKE, 'primer PR1   at 550 mm up, 2400 mm fwd, 600 mm stbd   stroke 15 mL   lifts 900 mm', 'split {\n leg main { check CV1 }\n leg bypass { shutoff VB normally shut\n electric primer EP1   gives 60 L/h   at 550 mm   when off passes   lifts 300 mm }\n}');
    expect((await rule(bypass, 'EP1'))[0]).toMatch(/^fail EP1, minor: EP1 lifts 300 mm when dry, and must lift 316 mm/);
});

describe('cannot tell', () => {
    test('the dry lift, and nothing else before it is known', async () => {
        expect(await rule(SLOOP)).toEqual(['cannot tell PR1: how high PR1 lifts fuel when dry']);
        expect(await rule(lifts(''))).toEqual(['cannot tell PR1: how high PR1 lifts fuel when dry']);
    });
    test('level, heel, place', async () => {
        expect(await rule(edit(CRESTWAKE, 'level 30 to 95 %', ''))).toEqual(['cannot tell PR1: the lowest tank level']);
        expect(await rule(edit(CRESTWAKE, 'heel 10 deg   trim 1 deg   ', ''))).toEqual(['cannot tell PR1: the heel and trim that she must work in']);
        expect(await rule(edit(CRESTWAKE, 'at 550 mm up, 2400 mm fwd, 600 mm stbd', 'at 550 mm'))).toEqual(['cannot tell PR1: where PR1 stands along and across the boat']);
        expect(await rule(edit(CRESTWAKE, '   at 550 mm up, 2400 mm fwd, 600 mm stbd', ''))).toEqual(['cannot tell PR1: the height of the ports of PR1']);
    });
});

test('no primer, and one that no tank feeds', async () => {
    expect(await rule(edit(CRESTWAKE, '  primer PR1   at 550 mm up, 2400 mm fwd, 600 mm stbd   stroke 15 mL   lifts 900 mm\n', ''), 'vessel')).toEqual(['not applicable vessel: no primer is written']);
    expect(await rule(edit(CRESTWAKE, 'shutoff V1   at 620 mm   normally open', 'check CV1   reversed'))).toEqual(['not applicable PR1: it draws from no tank that carries fuel']);
});
