/** NO-HUMP: suction lines do not rise and fall again by more than 50 mm. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, example, said, without, type Texts } from './boats';
import { CRESTWAKE, TWOWAYS } from './crestwake';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('NO-HUMP', texts, about);
const crest = (at: string): string => edit(CRESTWAKE, 'crest at 700 mm', at);

// The worked vessel, as the reference of the trade has it: the crest of S2 stands 760 - 660 = 100 mm above the outlet of F1, and is to be clipped to 650 mm or less. It stands
// 760 - 560 = 200 mm above the low of S1 and 760 - 620 = 140 mm above LP1.
test('the worked vessel', async () => {
    expect(await rule(example('ottilwake'))).toEqual(['fail S2, minor: The crest of S2 stands at 760 mm, 100 mm above F1 and 140 mm above LP1: the suction line rises there by 200 mm and falls again by 140 mm.']);
    expect(await rule(example('ottilwake-mended'))).toEqual(['pass E1']);
});

// Up from the low of S1 at 500 mm, down to LP1 at 580 mm: at 630 mm by 130 and 50 mm, at 631 mm by 51.
test('50 mm are allowed, more are not', async () => {
    expect(await rule(crest('crest at 630 mm'))).toEqual(['pass E1']);
    expect(await rule(crest('crest at 631 mm'))).toEqual(['fail S2, minor: The crest of S2 stands at 631 mm, 31 mm above F1 and 51 mm above LP1: the suction line rises there by 131 mm and falls again by 51 mm.']);
    expect(await rule(crest(''))).toEqual(['pass E1']);
});

test('a part that stands too high is a hump too, and so is a primer', async () => {
    expect(await rule(edit(crest(''), 'primer PR1   at 550 mm up', 'primer PR1   at 720 mm up'))).toEqual(['fail PR1, minor: PR1 stands at 720 mm: the suction line rises there by 220 mm and falls again by 140 mm.']);
});

test('a bleed point at the top lets the air out', async () => {
    expect(await rule(edit(crest(''), 'ports at 600 mm', 'ports at 720 mm'))).toEqual(['pass E1']);
});

test('the tube in the tank is no part of the line: its top is where it begins', async () => {
    expect(await rule(edit(CRESTWAKE, 'crest at 700 mm', 'low at 300 mm'))).toEqual(['pass E1']);
});

test('behind the pump that draws, no line is under suction', async () => {
    expect(await rule(edit(crest(''), 'tube S4      bore 6 mm', 'tube S4      bore 6 mm   crest at 900 mm'))).toEqual(['pass E1']);
});

test('where nothing clears it, it is told by BLEED-AT-HIGH alone', async () => {
    expect(await rule(edit(CRESTWAKE, '  primer PR1   at 550 mm up, 2400 mm fwd, 600 mm stbd   stroke 15 mL   lifts 900 mm\n', ''))).toEqual(['not applicable S2: nothing clears it of air (see BLEED-AT-HIGH)']);
});

test('only in the line-up in which the fuel goes that way', async () => {
    const swept = edit(TWOWAYS, 'hose S3      bore 8 mm', 'primer PR1   at 600 mm   stroke 15 mL\n  hose S3      bore 8 mm');
    expect(await rule(swept)).toEqual(['fail SS, minor: The crest of SS stands at 720 mm, 100 mm above T2.P1 and 120 mm above SV1, in RUN-STBD: the suction line rises there by 100 mm and falls again by 120 mm.']);
});

describe('cannot tell', () => {
    test('where a crest stands over nothing that is known', async () => {
        expect(await rule(edit(SLOOP, 'hose S2      bore 8 mm', 'hose S2      bore 8 mm   crest at 700 mm'))).toEqual(['cannot tell E1: the heights of S2']);
    });
    test('of a boat without heights one thing is asked', async () => {
        expect(await rule(SLOOP)).toEqual(['cannot tell E1: where the supply line of E1 rises and falls']);
    });
});

test('contradictory heights: a crest below its ends is none', async () => {
    expect(await rule(crest('crest at 100 mm'))).toEqual(['pass E1']);
    expect((await rule(crest('low at 900 mm   crest at 700 mm')))[0]).toMatch(/^fail S2, minor: /);
});

test('no engine that is fed', async () => {
    expect(await rule('tank T1 { pickup P1   vent }')).toEqual(['not applicable vessel: no tank feeds anything that burns fuel in a line-up for running']);
    expect(await rule(edit(without(CRESTWAKE, 'shutoff V1 at 620 mm normally open'), 'hose S1      bore 8 mm', 'shutoff V1   normally shut\n  hose S1      bore 8 mm'))).toEqual(['not applicable vessel: no tank feeds anything that burns fuel in a line-up for running']);
});
