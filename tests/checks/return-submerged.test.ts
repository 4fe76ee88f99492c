/** RETURN-SUBMERGED: a return ends 20 to 30 mm off the bottom (engine makers); in a gravity day tank above its level. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('RETURN-SUBMERGED', texts, about);
/** The bottom of T1 lies at 200 mm. */
const at = (mouth: string): string => edit(SLOOP, 'drop R1     bore 8 mm', `drop R1     bore 8 mm   mouth at ${mouth}`);
const off = (mm: number): string => `fail T1.R1, minor: T1.R1, the return of E1, ends ${mm} mm off the bottom of T1; 20 to 30 mm is what makers ask.`;

test.each([
    ['25 mm off bottom', 'pass T1.R1'], ['20 mm off bottom', 'pass T1.R1'], ['30 mm off bottom', 'pass T1.R1'], ['225 mm', 'pass T1.R1'],
    ['19 mm off bottom', off(19)], ['31 mm off bottom', off(31)], ['0 mm off bottom', off(0)], ['390 mm off bottom', off(390)],
    ['150 mm', 'fail T1.R1, minor: T1.R1, the return of E1, is written to end 50 mm below the bottom of T1.'],
])('%s', async (mouth, verdict) => expect(await rule(at(mouth))).toEqual([verdict]));

/** A day tank of 400 x 400 x 300 mm, its bottom at 1200 mm, filled by EP9 from T1; E1 stands below it. */
const DAY = (mouth: string, inlet = 'inlet at 800 mm'): string => `${edit(edit(edit(SLOOP, 'engine E1 {', `engine E1 {\n  ${inlet}`), 'Feed from T1.P1', 'Feed from DT.P1'), 'Back from E1 to T1.R1', 'Back from E1 to DT.R1')}tank DT {
  box 400 x 400 x 300 mm   low aft inner corner at 1200 mm up, 2000 mm fwd, 200 mm port
  pickup P1
  drop R1   mouth at ${mouth}
  drop R2
  vent
}
transfer course Top from T1.P1 to DT.R2 { electric pump EP9   when off blocks }
`;
/*
 * To port of the centreline a box grows to port: it reaches from 200 to 600 mm port, and from 2000 to 2400 mm fwd. At 95 % the surface stands at 1200 + 0.95 x 300 = 1485 mm. In the middle of the
 * tank it stands lower than that when she leans, since liquid is held under the top on the low side: 1600 mm there is dry. 150 mm nearer to the low side it rises by 150 x tan 20 = 55 mm.
 */
describe('a day tank that feeds by gravity', () => {
    test('upright', async () => {
        expect(await rule(DAY('25 mm off bottom'), 'DT.R1')).toEqual(['fail DT.R1, minor: DT.R1 ends 260 mm below the level of DT at 95 %, upright, and DT stands above E1.']);
    });
    test('above the level at every corner', async () => {
        expect(await rule(DAY('1600 mm up, 2200 mm fwd, 400 mm port'), 'DT.R1')).toEqual(['pass DT.R1']);
        expect((await rule(DAY('1490 mm up, 2200 mm fwd, 550 mm port'), 'DT.R1'))[0]).toMatch(/^fail DT.R1, minor: DT.R1 ends \d+ mm below the level of DT at 95 %, heeled 20° to port, bow 5° (down|up), and DT stands above E1.$/);
        expect(await rule(DAY('1490 mm'), 'DT.R1')).toEqual(['cannot tell DT.R1: where DT.R1 stands along and across the boat']);
    });
    test('not above the engine it is a tank like others; the inlet unknown, it cannot be told', async () => {
        expect(await rule(DAY('25 mm off bottom', 'inlet at 1300 mm'), 'DT.R1')).toEqual(['pass DT.R1']);
        expect(await rule(DAY('25 mm off bottom', ''), 'DT.R1')).toEqual(['cannot tell DT.R1: the height of the inlet of E1']);
    });
    test('filled from deck, or by no pump, it is no day tank', async () => {
        expect(await rule(`${edit(DAY('25 mm off bottom'), 'drop R2\n', 'drop R2\n  fill\n')}fill course DayFill from deck to DT { hose }\n`, 'DT.R1')).toEqual(['pass DT.R1']);
        expect(await rule(edit(DAY('25 mm off bottom'), 'electric pump EP9   when off blocks', 'hose'), 'DT.R1')).toEqual(['pass DT.R1']);
    });
    test('what the pump delivers by is no return', async () => expect(await rule(DAY('25 mm off bottom'), 'DT.R2')).toEqual([]));
});

test('cannot tell: the mouth, the tank', async () => {
    expect(await rule(SLOOP)).toEqual(['cannot tell T1.R1: the height of the mouth of T1.R1']);
    expect(await rule(without(at('225 mm'), 'box 800 x 600 x 400 mm low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd'))).toEqual(['cannot tell T1.R1: the size and height of T1']);
});
test('not applicable: no return, no fuel', async () => {
    const none = 'not applicable vessel: nothing that burns fuel returns to a fitting of a tank';
    expect(await rule(edit(SLOOP, 'return course Back from E1 to T1.R1 {\n  hose B1      bore 6 mm\n}', ''))).toEqual([none]);
    expect(await rule(edit(at('300 mm off bottom'), 'tank T1 {', 'tank T1 carries coolant {'))).toEqual([none]);
});
