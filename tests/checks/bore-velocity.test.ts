/** BORE-VELOCITY: how fast fuel runs in suction, all that run together counted. */
import { describe, expect, test } from 'vitest';
import { edit, said, type Texts } from './boats';
import { DRAWING } from './drawing';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('BORE-VELOCITY', texts, about);
// 5e-6 m³/s in 3.2 mm, 8.042e-6 m²: 0.622 m/s; in 3.3 mm, 8.553e-6 m²: 0.585 m/s. LP1 pushes through S2, which is not asked about.
test('0.6 m/s, of pipes before the first pump', async () => {
    expect(await rule(DRAWING)).toEqual(['pass T1.P1', 'pass S1']);
    expect(await rule(edit(DRAWING, 'hose S1       bore 8 mm', 'hose S1 bore 3.3 mm'))).toEqual(['pass T1.P1', 'pass S1']);
    expect(await rule(edit(DRAWING, 'hose S1       bore 8 mm', 'hose S1 bore 3.2 mm'))).toEqual([
        'pass T1.P1', 'fail S1, minor: In RUN E1 draws 18 L/h at full speed: in S1, 3.2 mm wide, that is 0.62 m/s; 0.6 m/s is the most that the trade allows in suction.',
    ]);
});
test('what is not known for certain is a thin margin', async () => {
    // 19 L/h in 3.3 mm are 0.617 m/s.
    expect((await rule(edit(edit(DRAWING, 'hose S1       bore 8 mm', 'hose S1 bore 3.3 mm'), 'draws 18 L/h', 'draws 17 to 19 L/h'), 'S1'))[0]).toMatch(/^fail S1, advice: .* 0\.58 m\/s, and it may be 0\.62;/);
});
test('all that draw through it together, and its pipes told together', async () => {
    // Twice 18 L/h: 1e-5 m³/s in 4.5 mm, 15.90e-6 m², 0.629 m/s.
    const two = edit(edit(edit(DRAWING, 'pickup P1   bore 8 mm', 'pickup P1   bore 4.5 mm'), 'hose S1       bore 8 mm', 'hose S1       bore 4.5 mm'), 'line-up RUN run is normal', 'engine E2 { draws 18 L/h at 3000 rpm }\nsupply course Other from J1 to E2 { tube S9   bore 6 mm   length 1 m }\nline-up RUN run is normal');
    const joined = edit(two, '  filter F1', '  tee J1\n  filter F1');
    expect(await rule(joined, 'T1.P1')).toEqual(['fail T1.P1, minor: In RUN E1 and E2 draw 36 L/h at full speed: in T1.P1, 4.5 mm wide, that is 0.63 m/s; 0.6 m/s is the most that the trade allows in suction. S1 is too fast as well.']);
    expect(await rule(joined, 'S9')).toEqual(['pass S9']); // E2 has no pump before it
    expect((await rule(edit(joined, 'line-up RUN run is normal', 'line-up RUN run is normal { E2 stopped }'), 'S1'))[0]).toBe('pass S1');
});
describe('cannot tell', () => {
    test('the bore, or what is drawn', async () => {
        expect(await rule(edit(DRAWING, 'hose S1       bore 8 mm', 'hose S1'))).toEqual(['pass T1.P1', 'cannot tell S1: the bore of S1']);
        expect(await rule(edit(DRAWING, 'draws 18 L/h at 3000 rpm', ''))).toEqual(['cannot tell E1: the gross flow of E1']);
    });
    test('how the flow parts between legs of which not all is known', async () => {
        const split = (legs: string): string => edit(DRAWING, '  hose S1       bore 8 mm   length 2 m', `  hose S1 bore 8 mm length 2 m\n  split {\n leg a { hose SA ${legs} }\n leg b { hose SB ${legs} }\n }`);
        expect(await rule(split('bore 6 mm   length 1 m'), 'SA')).toEqual(['pass SA']);
        expect(await rule(split('bore 6 mm'), 'SA')).toEqual(['cannot tell SA: the share of the flow that passes SA']);
        // Alike, they carry 2.5e-6 m³/s each: in 2.2 mm, 3.801e-6 m², 0.658 m/s.
        expect((await rule(split('bore 2.2 mm   length 1 m'), 'SA'))[0]).toMatch(/^fail SA, minor: .* 9 L\/h at full speed: in SA, 2\.2 mm wide, that is 0\.66 m\/s;.* SB is too fast as well\.$/);
    });
});
test('nothing burns fuel', async () => expect(await rule(edit(DRAWING, 'tank T1 {', 'tank T1 carries coolant {'))).toEqual(['not applicable vessel: nothing on board burns fuel']));
