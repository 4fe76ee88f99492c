/** SHUTOFF-BEFORE-FILTER: a manual shutoff on every path from every tank to every filter. */
import { describe, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { SLOOP, TWIN, after, before, edit, load, said, without, type Texts } from './boats';

const rule = (texts: Texts, filter?: string): Promise<string[]> => said('SHUTOFF-BEFORE-FILTER', texts, filter);
const V1 = 'shutoff V1 normally open';
const OPEN = without(SLOOP, V1);
const noValve = (filter: string, tanks = 'T1', severity = 'major'): string => `fail ${filter}, ${severity}: ${filter} cannot be shut off from ${tanks}: no valve on the way stops the flow.`;

test('V1 shuts off both filters; without its line nothing does', async () => {
    expect(await rule(SLOOP)).toEqual(['pass F1', 'pass F2']);
    expect(await rule(OPEN)).toEqual([noValve('F1'), noValve('F2')]);
});

test('a shutoff after the filter is of no use to it', async () => {
    expect(await rule(before(OPEN, 'hose S2 bore 8 mm', 'shutoff V1 normally open'))).toEqual([noValve('F1'), 'pass F2']);
});

describe('what looks like a shutoff and is none', () => {
    test.each([
        ['check CV1', 'CV1 is a check valve'],
        ['shutoff V1 normally open   solenoid', 'V1 is electric'],
        ['shutoff V1 locked open', 'V1 is locked open'],
    ])('%s', async (line, why) => expect(await rule(edit(SLOOP, 'shutoff V1   normally open', line), 'F1')).toEqual([`${noValve('F1')} (${why}.)`]));

    test('a selector counts from the line in which it gets an off position', async () => {
        const none = edit(edit(TWIN, 'shutoff V1   normally open', 'hose S1'), 'shutoff V2   normally open', 'hose S2');
        expect(await rule(none)).toEqual([`${noValve('F1', 'T1 and T2')} (SV1 has no position that shuts it off.)`]);
        expect(await rule(after(none, 'position STBD joins stbd, out', '  position OFF joins nothing'))).toEqual(['pass F1']);
    });
});

describe('every path from every tank', () => {
    test('two tanks: only the one without a shutoff is named', async () => {
        expect(await rule(TWIN)).toEqual(['pass F1']);
        expect(await rule(edit(TWIN, 'shutoff V1   normally open', 'hose S1'))).toEqual([`${noValve('F1')} (SV1 has no position that shuts it off.)`]);
    });

    test('a way round the shutoff needs one of its own', async () => {
        const round = (line: string): string => edit(SLOOP, 'shutoff V1   normally open', `split {\n leg Main { shutoff V1   normally open }\n leg Round { ${line} }\n}`);
        expect(await rule(round('shutoff V2   normally open'), 'F1')).toEqual(['pass F1']);
        expect(await rule(round('hose'), 'F1')).toEqual([noValve('F1')]);
    });

    test('a primer with its bypass, behind the shutoff', async () => {
        expect(await rule(edit(SLOOP, 'primer PR1', 'split {\n leg Main { check CV1 }\n leg Prime { primer PR1 }\n}'))).toEqual(['pass F1', 'pass F2']);
    });

    test('duplex: either side is shut off by turning to the other, what comes after both is not', async () => {
        const duplex = (text: string): string => before(text, 'filter F1 primary {', `changeover CO1 {
    leg A { filter F3 }
    leg B { filter F4 }
    position A through A
    position B through B
}`);
        const LINED_UP = ['line-up RUN run is normal', 'line-up RUN run is normal { CO1 A }'] as const;
        expect(await rule(edit(duplex(SLOOP), ...LINED_UP))).toEqual(['pass F3', 'pass F4', 'pass F1', 'pass F2']);
        expect(await rule(edit(duplex(OPEN), ...LINED_UP))).toEqual([
            'pass F3', 'pass F4', `${noValve('F1')} (CO1 has no position that shuts it off.)`, `${noValve('F2')} (CO1 has no position that shuts it off.)`,
        ]);
        expect(await rule(after(edit(duplex(OPEN), ...LINED_UP), 'position B through B', '    position OFF through nothing'))).toEqual(['pass F3', 'pass F4', 'pass F1', 'pass F2']);
    });
});

test('a filter that no tank feeds', async () => {
    expect(await rule(after(OPEN, 'primer PR1', '  check CV1 reversed'))).toEqual(['not applicable F1: no tank feeds it', 'not applicable F2: no tank feeds it']);
});

describe('how heavy: can liquid in the tank stand above the filter?', () => {
    const weight = async (place: string): Promise<string> => {
        const { findings } = judge((await load(edit(OPEN, 'passes 10 um', `passes 10 um\n${place}`))).boat);
        const found = findings.find(({ rule: { code }, about }) => code === 'SHUTOFF-BEFORE-FILTER' && about === 'F1')!;
        return `${found.severity}: ${found.reason}`;
    };
    const flood = 'major: Opened, it can flood: liquid in T1 can stand above it.';
    const unknown = 'major: Opened, it may flood or fall back; the heights that would tell are not all known.';
    const fallBack = 'minor: Opened, its column falls back to T1 and air follows.';

    // Upright at the highest level: 200 + 0.95 x 400 = 580 mm.
    test('below the surface of the upright tank', async () => expect(await weight('ports at 500 mm')).toBe(flood));
    test('no height at all', async () => expect(await weight('')).toBe(unknown));
    test('above it upright, its place across and along the boat not known', async () => expect(await weight('ports at 900 mm')).toBe(unknown));
    /*
     * Over the middle of the tank top (2400 mm forward, 600 mm to starboard), at h. The boat leans 20 deg either way, and
     * trims 5 deg: a corner of the top, 300 mm outboard or inboard and 400 mm forward or aft of the filter, rises against it.
     * Level when ((h - 600) cos 20 - 300 sin 20) cos 5 = 400 sin 5, so h = 600 + (400 tan 5 + 300 sin 20) / cos 20
     *   = 600 + (35.0 + 102.6) / 0.9397 = 746.4 mm.
     */
    test('740 mm: a corner of the tank rises above it', async () => expect(await weight('ports at 740 mm up, 2400 mm fwd, 600 mm stbd')).toBe(flood));
    test('753 mm: above every corner at every corner of the envelope', async () => expect(await weight('ports at 753 mm up, 2400 mm fwd, 600 mm stbd')).toBe(fallBack));
    test('the drain counts as well: 100 mm lower, 653 mm', async () => {
        expect(await weight('ports at 753 mm up, 2400 mm fwd, 600 mm stbd\ndrain at 100 mm under ports')).toBe(flood);
    });
    test('without an envelope she may lean any way', async () => {
        const text = edit(edit(OPEN, 'passes 10 um', 'passes 10 um\nports at 753 mm up, 2400 mm fwd, 600 mm stbd'), 'envelope heel 20 deg   trim 5 deg   level 10 to 95 %', '');
        expect(await rule(text, 'F1')).toEqual([noValve('F1')]);
    });
});
