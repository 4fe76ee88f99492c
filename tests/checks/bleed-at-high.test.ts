/** BLEED-AT-HIGH: air can be got out of every high point, by a bleed point or by a pump that sweeps it. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, example, said, type Texts } from './boats';
import { CRESTWAKE, TWOWAYS } from './crestwake';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('BLEED-AT-HIGH', texts, about);
const PR1 = '  primer PR1   at 550 mm up, 2400 mm fwd, 600 mm stbd   stroke 15 mL   lifts 900 mm\n';
const stroke = (words: string): string => edit(CRESTWAKE, 'stroke 15 mL', words);
const flat = edit(CRESTWAKE, '   crest at 700 mm', '');

// The worked vessel passes, as the reference of the trade has it, since PR1 moves 15 mL a second through 8 mm, 50.27 mm²: 0.30 m/s; the lever gives 3 / 50.27 = 0.06 m/s.
test('the worked vessel', async () => {
    expect(await rule(example('ottilwake'), 'S2')).toEqual(['pass S2']);
    const texts = example('ottilwake') as Record<string, string>;
    const lines = texts['lines.orlop']!.replace(/  primer PR1 .*\n/, '');
    expect(await rule({ ...texts, 'lines.orlop': lines }, 'S2')).toEqual(['fail S2, major: Air stays at the crest of S2 (760 mm): no bleed point stands there, and the lever of LP1 moves only 0.06 m/s through it, less than the 0.15 m/s of common practice.']);
    expect(await rule(example('ottilwake-mended'))).not.toContainEqual(expect.stringMatching(/^(fail|cannot)/));
});

// 0.15 m/s through 50.265 mm² are 7.54 mL a second: 7.5 mL a stroke give 0.1492, 7.6 mL 0.1512 m/s.
test('0.15 m/s', async () => {
    expect(await rule(stroke('stroke 7.5 mL'), 'S2')).toEqual(['fail S2, major: Air stays at the crest of S2 (700 mm): no bleed point stands there, and PR1 moves only 0.149 m/s through it, less than the 0.15 m/s of common practice.']);
    expect(await rule(stroke('stroke 7.6 mL'), 'S2')).toEqual(['pass S2']);
});

// Where the line falls into a wider hose, that counts: 15 mL a second through 16 mm, 201.06 mm², are 0.0746 m/s.
test('the widest pipe in which it falls', async () => {
    expect((await rule(edit(CRESTWAKE, 'hose S2      bore 8 mm   crest at 700 mm', 'hose S2      bore 8 mm   crest at 700 mm\n  hose S2b     bore 16 mm'), 'S2'))[0]).toMatch(/PR1 moves only 0\.07 m\/s through it/);
});

test('what it is mended by', async () => {
    expect(await rule(edit(CRESTWAKE, PR1, ''), 'S2')).toEqual(['fail S2, major: Air stays at the crest of S2 (700 mm): no bleed point stands there, and the lever of LP1 moves only 0.06 m/s through it, less than the 0.15 m/s of common practice.']);
    // 600 mm at F1, less 10 mm for what a height is good to.
    expect(await rule(edit(edit(CRESTWAKE, PR1, ''), 'crest at 700 mm', 'crest at 590 mm'))).not.toContainEqual(expect.stringMatching(/^(fail|cannot)/));
});

describe('swept only, where NO-HUMP has nothing to say: advice', () => {
    // 50 mm above LP1, and 30 above F1: more than level. PR1 moves 0.298 m/s; of the laws Kalinske and Bliss ask 1.511 √(9.80665 x 0.008) = 0.423 m/s at 45°, and others less.
    test('up to 50 mm', async () => {
        const [line] = await rule(edit(CRESTWAKE, 'crest at 700 mm', 'crest at 630 mm'), 'S2');
        expect(line).toMatch(/^fail S2, advice: No bleed point stands at the crest of S2 \(630 mm\)\. PR1 moves 0\.30 m\/s through it, more than the 0\.15 m\/s of common practice and less than the 0\.\d\d m\/s of .*: that is advice, and proves nothing\.$/);
    });
    // 15 mL a second through 6 mm, 28.27 mm²: 0.53 m/s; by the lever alone 3 / 28.27 = 0.106 m/s.
    test('on the pressure side', async () => {
        const high = edit(flat, 'tube S4      bore 6 mm', 'tube S4      bore 6 mm   crest at 900 mm');
        expect((await rule(high, 'S4'))[0]).toMatch(/^fail S4, advice: No bleed point stands at the crest of S4 \(900 mm\)\. PR1 moves 0\.53 m\/s through it/);
        expect((await rule(edit(high, PR1, ''), 'S4'))[0]).toMatch(/^fail S4, major: .* the lever of LP1 moves only 0\.11 m\/s through it/);
    });
});

test('a filter that stands high needs a bleed point: nothing sweeps so wide a part', async () => {
    const high = edit(flat, 'ports at 600 mm', 'ports at 720 mm');
    expect(await rule(high, 'F1')).toEqual(['pass F1']);
    expect(await rule(edit(high, '    bleed BS1\n', ''), 'F1')).toEqual(['fail F1, major: Air stays in F1 (720 mm): the line rises to it and falls again, it has no bleed point, and no flow sweeps so wide a part.']);
});

test('a pump moves on what is in it', async () => {
    expect(await rule(edit(flat, 'primer PR1   at 550 mm up', 'primer PR1   at 720 mm up'), 'PR1')).toEqual(['pass PR1']);
});

test('only in the line-up in which the fuel goes that way', async () => {
    expect((await rule(TWOWAYS, 'SS'))[0]).toMatch(/^fail SS, major: Air stays at the crest of SS \(720 mm, in RUN-STBD\): .* the lever of LP1 moves only 0\.06 m\/s/);
    expect(await rule(edit(TWOWAYS, 'line-up RUN-STBD run from', 'line-up OTHER service from'), 'SS')).toEqual([]);
});

describe('cannot tell', () => {
    test('the stroke, the bore', async () => {
        expect(await rule(stroke(''), 'S2')).toEqual(['cannot tell S2: what one stroke of PR1 moves']);
        expect(await rule(edit(CRESTWAKE, 'hose S2      bore 8 mm', 'hose S2'), 'S2')).toEqual(['cannot tell S2: the bore of S2']);
    });
    test('where low pressure ends, when nothing is there to be bled', async () => {
        expect(await rule(CRESTWAKE.replace(/ +bleed BS\d\n/g, ''), 'S2')).toEqual(['cannot tell S2: where low pressure ends in E1']);
    });
    test('of a boat without heights one thing is asked', async () => {
        expect(await rule(SLOOP)).toEqual(['cannot tell E1: where the supply line of E1 rises and falls']);
    });
});

describe('not applicable', () => {
    test('an engine that passes small air by itself', async () => {
        expect(await rule(edit(CRESTWAKE, '  bleed BS3\n', '  self-bleeding\n'))).toEqual(['not applicable S2: what it feeds passes small air to its return by itself', 'not applicable E1: it passes small air to its return by itself']);
    });
    test('nothing is fed', async () => {
        expect(await rule('tank T1 { pickup P1   vent }')).toEqual(['not applicable vessel: no tank feeds anything that burns fuel in a line-up for running']);
    });
});

test('a line that is flat passes', async () => { expect(await rule(flat)).toEqual(['pass E1']); });
