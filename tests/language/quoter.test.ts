/** The facts that an answer quotes: as they were written, and where they count otherwise, so told. By hand from the text below. */
import { expect, test } from 'vitest';
import { quoter } from '../../src/language/ask/quoter';
import { loadBoat } from '../../src/language/load';
import type { View } from '../../src/model/boat';

const BOAT = `vessel Quoted
tank T2 {
  box 1000 x 500 x 600 mm   low aft inner corner at 300 mm up, 2600 mm fwd, 900 mm stbd
  pickup P1   mouth at 25 mm off bottom   top at 920 mm up, 2700 mm fwd, 1000 mm stbd
}
tank T1 like T2 mirrored
tank T3 like T1 mirrored
engine E1
supply course Feed from T1.P1 to E1 {
  hose S1
  filter F1   ports at 600 mm   lid at 40 mm over ports
}
refit Haul26 {
  move F1 up 200 mm
  move T1.P1 up 40 mm
}
`;

async function quoted(view: View): Promise<(about: string, fact?: string) => string | undefined> {
    const loaded = await loadBoat({ 'a.orlop': BOAT }, { view });
    expect(loaded.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    return quoter(loaded, () => BOAT);
}

test('mirrored: the sides are those of the thing that took it over; twice mirrored they are as written', async () => {
    const quote = await quoted('as is');
    expect(quote('T2', 'low aft inner corner')).toBe('low aft inner corner at 300 mm up, 2600 mm fwd, 900 mm stbd');
    expect(quote('T1', 'low aft inner corner')).toBe('low aft inner corner at 300 mm up, 2600 mm fwd, 900 mm port (mirrored)');
    expect(quote('T1.P1', 'top')).toBe('top at 920 mm up, 2700 mm fwd, 1000 mm port (mirrored)');
    expect(quote('T3', 'low aft inner corner')).toBe(quote('T2', 'low aft inner corner'));
    expect(quote('T1', 'box')).toBe('box 1000 x 500 x 600 mm');
});

test('moved by a refit: told where she is looked at after it, at what stands in a place of its own', async () => {
    const [is, after] = [await quoted('as is'), await quoted({ after: 'Haul26' })];
    expect([is('F1', 'ports'), is('T1.P1', 'mouth')]).toEqual(['ports at 600 mm', 'mouth at 25 mm off bottom']);
    expect([after('F1', 'ports'), after('T1.P1', 'mouth')]).toEqual(['ports at 600 mm (then `move F1 up 200 mm`)', 'mouth at 25 mm off bottom (then `move T1.P1 up 40 mm`)']);
    expect(after('F1', 'lid')).toBe('lid at 40 mm over ports');
});
