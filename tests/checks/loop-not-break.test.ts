/** LOOP-NOT-BREAK: a raised loop holds no tank back, and a vent in it lets the engine draw air. */
import { describe, expect, test } from 'vitest';
import { after, edit, said, type Texts } from './boats';
import { HALF } from './half-full';

const rule = (texts: Texts): Promise<string[]> => said('LOOP-NOT-BREAK', texts);
const LOW = 'low at 240 mm up, 2400 mm fwd, 600 mm stbd';
/** The return rises to a crest and hangs down; 160 mm under the surface: see siphon-break.test.ts. */
const back = (crest: string, low = LOW, first = ''): string => edit(edit(edit(HALF, 'engine E1 {', 'engine E1 {\n  inlet at 900 mm up, 2400 mm fwd, 600 mm stbd'),
    'drop R1     bore 8 mm', 'drop R1     bore 8 mm   mouth at 225 mm up, 2400 mm fwd, 600 mm stbd   top at 700 mm up, 2400 mm fwd, 600 mm stbd'), 'hose B1      bore 6 mm', `hose B1      bore 6 mm   ${low}   crest at ${crest}${first}`);

test('a loop above the level, and the line below it', async () => {
    expect(await rule(back('950 mm'))).toEqual(['fail B1, minor: B1 rises above T1 in a loop, which does not stop a siphon: once the line is full, it runs over the loop to its own lowest point, 160 mm below the surface (upright, T1 at 50 %, in RUN).']);
    expect(await rule(back('950 mm', 'low at 800 mm up, 2400 mm fwd, 600 mm stbd'))).toEqual(['pass B1']);
});
test('where a check at the fitting holds the tank, nobody counts on the loop', async () => expect(await rule(back('950 mm', LOW, '\n  check CV1'))).toEqual(['pass B1']));
test('a crest below the level is no loop', async () => {
    // Upright the surface stands at 400 mm.
    expect(await rule(back('390 mm'))).toEqual(['not applicable vessel: no line rises above the level of its tank in a loop']);
    expect(await rule(back('410 mm'))).toEqual([expect.stringMatching(/^fail B1/)]);
});
test('the loop in one hose, the low place in the next', async () => {
    const two = edit(back('950 mm', 'low at 800 mm up, 2400 mm fwd, 600 mm stbd'), '  hose B1 ', `  hose B0   ${LOW}\n  gauge G9   at 900 mm up, 2400 mm fwd, 600 mm stbd\n  hose B1 `);
    expect(await rule(two)).toEqual(['fail B1, minor: B1 rises above T1 in a loop, which does not stop a siphon: once the line is full, it runs over the loop to B0, 160 mm below the surface (upright, T1 at 50 %, in RUN).']);
});
describe('a vent in the supply', () => {
    const vented = (before: string): string => `${after(HALF, before, '  tee J1')}\nvent course Loop from J1 to air { hose VX }\n`;
    test('before the pumps they draw air', async () => {
        expect(await rule(vented('hose S1 bore 8 mm'))).toEqual([expect.stringMatching(/^fail J1, major: Loop opens the supply of E1 to the air at J1, and (PR1|LP1) draws there\.$/)]);
    });
    test('the vent of a tank is none', async () => expect(await rule(HALF)).toEqual(['not applicable vessel: no line rises above the level of its tank in a loop']));
});
