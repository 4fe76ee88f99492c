/** Scale numbers against the published table, codes, and what filters leave. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SIZES, behindFilters, codeWords, countsOf, readCode, scaleNumberOf, type Code } from '../../../src/analysis/filtration/cleanliness';
import { betaOf, efficiencyOf, inSeries } from '../../../src/analysis/filtration/efficiency';

/**
 * The table of ISO 4406 as a maker of filters publishes it, particles in a millilitre, from more than to up to and including. Written out here again,
 * number by number, and not made from the source's list.
 */
const TABLE: readonly (readonly [number, number, number])[] = [
    [0, 0, 0.01], [1, 0.01, 0.02], [2, 0.02, 0.04], [3, 0.04, 0.08], [4, 0.08, 0.16], [5, 0.16, 0.32], [6, 0.32, 0.64], [7, 0.64, 1.3], [8, 1.3, 2.5], [9, 2.5, 5],
    [10, 5, 10], [11, 10, 20], [12, 20, 40], [13, 40, 80], [14, 80, 160], [15, 160, 320], [16, 320, 640], [17, 640, 1300], [18, 1300, 2500], [19, 2500, 5000],
    [20, 5000, 10_000], [21, 10_000, 20_000], [22, 20_000, 40_000], [23, 40_000, 80_000], [24, 80_000, 160_000], [25, 160_000, 320_000], [26, 320_000, 640_000],
    [27, 640_000, 1_300_000], [28, 1_300_000, 2_500_000],
];

describe('scale numbers', () => {
    test.each(TABLE)('%i: more than %d, up to and including %d', (number, above, upTo) => {
        expect(scaleNumberOf(upTo)).toEqual({ number });
        expect(scaleNumberOf((above + upTo) / 2)).toEqual({ number });
        if (number > 0) expect(scaleNumberOf(above)).toEqual({ number: number - 1 });
        expect(countsOf({ number })).toEqual({ above, upTo });
    });

    /** The published vectors at the steps that are no doublings. */
    test.each([[1.3, 7], [1.31, 8], [80, 13], [80.1, 14], [640, 16], [641, 17], [2500, 18], [2501, 19], [0, 0]])('%d in a millilitre: %i', (count, number) => expect(scaleNumberOf(count)).toEqual({ number }));

    test('above the table', () => {
        expect(scaleNumberOf(2_500_001)).toEqual({ number: 28, sign: '>' });
        expect(countsOf({ number: 28, sign: '>' })).toEqual({ above: 2_500_000 });
    });

    test('few counted: no upper bound', () => expect(countsOf({ number: 7, sign: '≥' })).toEqual({ above: 0.64 }));

    test.each([NaN, Infinity, -Infinity, -1])('%d is no count', (count) => expect(scaleNumberOf(count)).toBeUndefined());
    test.each([{ number: 29 }, { number: -1 }, { number: 1.5 }, { number: NaN }, { number: 27, sign: '>' as const }])('%o is no scale number', (number) => expect(countsOf(number)).toBeUndefined());

    test('every count lies within the bounds of its own number', () => {
        fc.assert(fc.property(fc.double({ min: 0, max: 1e7, noNaN: true }), (count) => {
            const { above, upTo = Infinity } = countsOf(scaleNumberOf(count)!)!;
            return (count > above || count === 0) && count <= upTo;
        }));
    });
});

describe('codes', () => {
    test.each([
        ['18/16/13', [{ number: 18 }, { number: 16 }, { number: 13 }]],
        ['14/12/≥7', [{ number: 14 }, { number: 12 }, { number: 7, sign: '≥' }]],
        ['14/12/>=7', [{ number: 14 }, { number: 12 }, { number: 7, sign: '≥' }]],
        ['>28/26/23', [{ number: 28, sign: '>' }, { number: 26 }, { number: 23 }]],
        ['-/16/13', [undefined, { number: 16 }, { number: 13 }]],
        [' 18 / 16 / 13 ', [{ number: 18 }, { number: 16 }, { number: 13 }]],
        ['0/0/0', [{ number: 0 }, { number: 0 }, { number: 0 }]],
    ])('%s', (text, code) => expect(readCode(text)).toEqual(code));

    test.each(['', '18', '18/16', '18/16/13/10', '18/16/', '18-16-13', '29/16/13', '>27/16/13', '18.5/16/13', '-18/16/13', '-/-/-', 'clean', '13/16/18', '16/18/13', '28/>28/13', '18/16/x', '١٨/16/13', '018/16/13'])('`%s` is no code', (text) => expect(readCode(text)).toBeUndefined());

    test('any text is a code or none, and a code is written as it reads', () => {
        fc.assert(fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[-0-9/>≥= ]{0,12}$/)), (text) => {
            const code = readCode(text);
            if (code) expect(readCode(codeWords(code))).toEqual(code);
        }));
    });
});

describe('beta', () => {
    /** As a maker publishes them: 2 is 50 %, 5 is 80 %, and on; 75 is 98.667 to its digits. */
    test.each([[1, 0], [2, 0.5], [5, 0.8], [10, 0.9], [20, 0.95], [75, 0.98667], [100, 0.99], [200, 0.995], [1000, 0.999], [5000, 0.9998]])('%i holds %d', (beta, share) => expect(efficiencyOf(beta)).toBeCloseTo(share, 5));
    test.each([0, 0.5, -2, NaN, Infinity])('%d is no beta', (beta) => { expect(efficiencyOf(beta)).toBeUndefined(); expect(inSeries([10, beta])).toBeUndefined(); });

    test('the published example: 10 000 before and 50 behind are beta 200', () => expect(betaOf(10_000, 50)).toBe(200));
    test('nothing came through: no beta is known', () => expect([betaOf(10_000, 0), betaOf(0, 0), betaOf(NaN, 1), betaOf(1e308, 1e-308)]).toEqual([undefined, undefined, undefined, undefined]));
    test('in series they multiply: 10, then 200, let one in 2000 through', () => expect([inSeries([10, 200]), inSeries([]), inSeries([1e200, 1e200])]).toEqual([2000, 1, undefined]));
});

describe('behind filters', () => {
    const code = (text: string): Code => readCode(text)!;
    const numbers = (text: string, ...filters: { beta: number; passes: number }[]): (string | undefined)[] =>
        behindFilters(code(text), filters).map(({ number }) => number && codeWords([number, undefined, undefined]).split('/')[0]);

    test('the worked example: 5000 in a millilitre, beta 200, leave 25, 19 becomes 12', () => {
        const [behind] = behindFilters(code('19/17/14'), [{ beta: 200, passes: 4e-6 }]);
        expect(behind).toEqual({ size: 4e-6, by: [0], upTo: 25, number: { number: 12 } });
    });

    // 18/16/13 is up to 2500/640/80. Beta 200 at 5 µm says nothing of 4 µm; 640/200 = 3.2 is 9 (2.5 to 5); 80/200 = 0.4 is 6 (0.32 to 0.64).
    test('of sizes under what it passes a beta says nothing', () => expect(numbers('18/16/13', { beta: 200, passes: 5e-6 })).toEqual([undefined, '9', '6']));
    // Beta 10 at 10 µm counts at 14 µm alone: 80/10 = 8 is 10 (5 to 10).
    test('10 µm', () => expect(numbers('18/16/13', { beta: 10, passes: 10e-6 })).toEqual([undefined, undefined, '10']));
    test('15 µm says nothing of any size', () => expect(numbers('18/16/13', { beta: 10, passes: 15e-6 })).toEqual([undefined, undefined, undefined]));
    test('just the size', () => expect(numbers('18/16/13', { beta: 10, passes: 14 * 1e-6 })).toEqual([undefined, undefined, '10']));
    // 2500/200 = 12.5 is 11 (10 to 20); 640/200 = 3.2 is 9; 80/(10 x 200) = 0.04 is 2, up to and including 0.04.
    test('each counts where it can', () => {
        const both = [{ beta: 10, passes: 10e-6 }, { beta: 200, passes: 4e-6 }] as const;
        expect(numbers('18/16/13', ...both)).toEqual(['11', '9', '2']);
    });
    test('without filters, or with such as state no beta, nothing is told', () => {
        expect(numbers('18/16/13')).toEqual([undefined, undefined, undefined]);
        expect(numbers('18/16/13', { beta: 0, passes: 4e-6 }, { beta: NaN, passes: 4e-6 }, { beta: 10, passes: NaN }, { beta: 10, passes: 0 })).toEqual([undefined, undefined, undefined]);
    });
    test('what may be any number before stays any number', () => expect(numbers('>28/12/≥7', { beta: 200, passes: 4e-6 })).toEqual([undefined, '5', undefined])); // 40/200 = 0.2 is 5 (0.16 to 0.32)
    test('a size that was not counted', () => expect(numbers('-/16/13', { beta: 200, passes: 4e-6 })[0]).toBeUndefined());
    test('the sizes', () => expect(SIZES).toEqual([4e-6, 6e-6, 14e-6]));
});
