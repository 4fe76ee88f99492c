/** PRIMER-STROKES: no stage takes more than about 100 strokes of the best pump that is worked by hand. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, example, said, type Texts } from './boats';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('PRIMER-STROKES', texts, about);
const ottilwake = example('ottilwake') as Record<string, string>;
const withLines = (change: (lines: string) => string): Texts => ({ ...ottilwake, 'lines.orlop': change(ottilwake['lines.orlop']!) });

/*
 * The worked vessel, volumes and strokes as the reference of the trade has them: S2, LP1, S3 and F2 are 332.4 mL, 35 strokes of PR1 or 174 of the lever; S4 and the pump 69.9 mL, 37 of the lever. From
 * the tank to F1 it is 21.4 + 130.7 + 20 + 12.6 + 450 = 634.7 mL, 1.25 x 634.7 / (0.8 x 15) = 67 strokes.
 */
test('the worked vessel', async () => {
    expect(await rule(ottilwake)).toEqual(['pass BS1', 'pass BS2', 'pass BS3']);
    const leverOnly = withLines((lines) => lines.replace(/  primer PR1 .*\n/, ''));
    expect(await rule(leverOnly, 'BS2')).toEqual(['fail BS2, advice: After running dry it takes about 174 full strokes of the lever of LP1 to fill 332 mL from F1 to BS2.']);
    expect(await rule(leverOnly, 'BS3')).toEqual(['pass BS3']);
    expect(await rule(leverOnly, 'BS1')).toEqual(['not applicable BS1: no strokes of a hand fill it, or none that have to']);
});

// 1.25 x 634.7 = 793.4 mL. At 80 % of 10 mL: 99.2, so 100 strokes; of 9.9 mL: 100.2, so 101.
test('100 strokes', async () => {
    expect(await rule(withLines((lines) => edit(lines, 'stroke 15 mL', 'stroke 10 mL')), 'BS1')).toEqual(['pass BS1']);
    expect(await rule(withLines((lines) => edit(lines, 'stroke 15 mL', 'stroke 9.9 mL')), 'BS1')).toEqual(['fail BS1, advice: After running dry it takes about 101 full strokes of PR1 to fill 635 mL from the tank to BS1.']);
});

/*
 * S4 of 10 mm x 1.20 m 94.2, LP1 30, S5 of 8 mm x 0.50 m 25.1 and F2 400 mL are 549.4 mL: 1.25 x 549.4 / (0.8 x 4) = 214.6, so 215 of the lever of 4 mL; mended, 1.25 x 549.4 / (0.8 x 20) = 43 of PR1.
 */
test('brackenwake has a lever only, and a primer when she is mended', async () => {
    expect(await rule(example('brackenwake'), 'BS2')).toEqual(['fail BS2, advice: After running dry it takes about 215 full strokes of the lever of LP1 to fill 549 mL from F1 to BS2.']);
    expect(await rule(example('brackenwake-mended'), 'BS2')).toEqual(['pass BS2']);
});

test('an electric primer asks for no strokes', async () => {
    const electric = withLines((lines) => lines.replace(/  primer PR1 .*\n/, '  electric primer EP1   gives 60 L/h   when off passes\n'));
    expect(await rule(electric, 'BS2')).toEqual(['not applicable BS2: no strokes of a hand fill it, or none that have to']);
});

// The surface at 10 % of 400 mm over 1200 mm stands at 1240 mm: BS2 at 900 mm is far below it, and so is all before it.
test('nor does a tank that stands above', async () => {
    const day = `vessel Daywake { envelope level 10 to 95 % }
tank T1 { box 800 x 600 x 400 mm   low aft inner corner at 1200 mm   pickup P1   mouth at 10 mm off bottom   top at 1210 mm   vent }
engine E1 { bleed BS3   at 900 mm }
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 1200 mm   normally open
  hose S1      bore 8 mm   length 30 m
  lift pump LP1   at 800 mm   lever 3 mL   holds 25 mL
  filter F2 final { ports at 900 mm   holds 220 mL   bleed BS2   at 920 mm }
}
line-up RUN run is normal
`;
    expect(await rule(day, 'BS2')).toEqual(['not applicable BS2: no strokes of a hand fill it, or none that have to']);
    expect((await rule(edit(day, 'at 1200 mm   pickup P1   mouth at 10 mm off bottom   top at 1210 mm', 'at 200 mm   pickup P1   bore 8 mm   mouth at 10 mm off bottom   top at 620 mm'), 'BS2'))[0]).toMatch(/^fail BS2, advice: /);
});

describe('cannot tell', () => {
    test('the stroke, and no volume before it is known', async () => {
        expect(await rule(SLOOP, 'BS1')).toEqual(['cannot tell BS1: what one stroke of PR1 moves']);
    });
    test('a volume', async () => {
        expect(await rule(withLines((lines) => edit(lines, 'holds 450 mL   ', '')), 'BS1')).toEqual(['cannot tell BS1: what F1 holds']);
        expect(await rule(withLines((lines) => edit(lines, 'length 2.60 m', '')), 'BS1')).toEqual(['cannot tell BS1: the length of S1']);
    });
    // F2 alone, 220 mL, is 1.25 x 220 / (0.8 x 3) = 115 strokes of the lever.
    test('but too much is too much, whatever the rest holds', async () => {
        const text = withLines((lines) => edit(lines.replace(/  primer PR1 .*\n/, ''), 'length 1.40 m', ''));
        expect((await rule(text, 'BS2'))[0]).toMatch(/^fail BS2, advice: After running dry it takes more than 1\d\d full strokes of the lever of LP1/);
    });
});

test('nothing to bleed', async () => {
    expect(await rule('tank T1 { pickup P1   vent }')).toEqual(['not applicable vessel: no bleed point is written']);
});
