/** RESERVE: what a passage burns against what can be used of the tanks. */
import { describe, expect, test } from 'vitest';
import { SLOOP, TWIN, edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('RESERVE', texts);
/**
 * T1 of SLOOP holds 0.8 x 0.6 x 0.4 m = 192 L; full to 95 % 182.4 L; the mouth is 25 mm off the bottom, 0.8 x 0.6 x 0.025 m = 12 L below it: 170.4 L can be
 * used, 80 % of it are 136.32 L. At 2400 rpm 2.4 L/h: 56.8 h.
 */
const planned = (passage: string, burns = 'burns 0.6 L/h at 850 rpm, 2.4 L/h at 2400 rpm, 6 L/h at 3600 rpm', text = SLOOP): string => `${edit(edit(text, 'pickup P1   bore 8 mm', 'pickup P1   bore 8 mm   mouth at 25 mm off bottom'), 'engine E1 {', `engine E1 {\n  ${burns}`)}passage Islands ${passage}\n`;
const fails = 'fail Islands, minor: On Islands E1 burns';

test('56.8 h at 2400 rpm, and a tenth more', async () => {
    expect(await rule(planned('motors 56.8 h at 2400 rpm'))).toEqual(['pass Islands']);
    // 56.9 x 2.4 = 136.56 L; 170.4 - 136.56 = 33.84 L are 19.86 %.
    expect(await rule(planned('motors 56.9 h at 2400 rpm'))).toEqual([`${fails} 137 L in 56.9 h at 2400 rpm, nothing added for weather. Full to 95 % T1 gives 170 L: 19.8 % would be left, and 20 % are kept back by common practice, since no reserve is written.`]);
});
test('a margin: 45.4 h with 25 % are 56.75 h, 45.5 h are 56.875 h', async () => {
    expect(await rule(planned('motors 45.4 h at 2400 rpm  margin 25 %'))).toEqual(['pass Islands']);
    expect(await rule(planned('motors 45.5 h at 2400 rpm  margin 25 %'))).toEqual([expect.stringContaining(', 25 % added. ')]);
});
test('the reserve of the vessel: 30 % leave 119.28 L, 49.7 h', async () => {
    const keeps = edit(SLOOP, 'level 10 to 95 %', 'level 10 to 95 %\n  reserve 30 %');
    expect(await rule(planned('motors 49.7 h at 2400 rpm', undefined, keeps))).toEqual(['pass Islands']);
    expect(await rule(planned('motors 49.8 h at 2400 rpm', undefined, keeps))).toEqual([expect.stringMatching(/and 30 % are to be kept back\.$/)]);
});
// 3000 rpm is half way from 2400 to 3600: (2.4 + 6) / 2 = 4.2 L/h; 136.32 / 4.2 = 32.457 h.
test('between two points of the curve, and beyond its end', async () => {
    expect(await rule(planned('motors 32.4 h at 3000 rpm'))).toEqual(['pass Islands']);
    expect(await rule(planned('motors 32.5 h at 3000 rpm'))).toEqual([expect.stringContaining(fails)]);
    expect(await rule(planned('motors 1 h at 3700 rpm'))).toEqual(['cannot tell Islands: what E1 burns at 3700 rpm']);
    expect(await rule(planned('motors 1 h at 800 rpm'))).toEqual(['cannot tell Islands: what E1 burns at 800 rpm']);
});
test('more than all of it: 80 x 2.4 = 192 L', async () => expect(await rule(planned('motors 80 h at 2400 rpm'))).toEqual([expect.stringMatching(/ 192 L in 80 h .* gives 170 L: that is not enough, and/)]));
test('figures that are not exact: 2 to 3 L/h in 50 h are 100 to 150 L; in 70 h 140 L at least', async () => {
    expect(await rule(planned('motors 50 h', 'burns 2 to 3 L/h at 2400 rpm'))).toEqual([expect.stringMatching(/^fail Islands, advice: On Islands E1 burns 125 L in 50 h.*\. Not all of these figures are exact\.$/)]);
    expect(await rule(planned('motors 45 h', 'burns 2 to 3 L/h at 2400 rpm'))).toEqual(['pass Islands']);
    expect(await rule(planned('motors 70 h', 'burns 2 to 3 L/h at 2400 rpm'))).toEqual([expect.stringContaining(fails)]);
});
describe('cannot tell', () => {
    test('the hours, the speed, what she burns', async () => {
        expect(await rule(planned(''))).toEqual(['cannot tell Islands: the hours under engine of Islands']);
        expect(await rule(planned('motors 50 h'))).toEqual(['cannot tell Islands: the engine speed on Islands']);
        expect(await rule(planned('motors 50 h at 2400 rpm', ''))).toEqual(['cannot tell Islands: what E1 burns at 2400 rpm']);
        expect(await rule(planned('motors 50 h', 'burns 2.4 L/h at 2400 rpm'))).toEqual(['pass Islands']);
    });
    test('the tank', async () => {
        expect(await rule(`${edit(SLOOP, 'engine E1 {', 'engine E1 {\n burns 2.4 L/h at 2400 rpm')}passage Islands motors 50 h\n`)).toEqual(['cannot tell Islands: the height of the mouth of T1.P1']);
        expect(await rule(`${edit(TWIN, 'engine E1\n', 'engine E1 { burns 2.4 L/h at 2400 rpm }\n')}passage Islands motors 50 h\n`)).toEqual(['cannot tell Islands: the size and height of T1; the size and height of T2']);
    });
});
describe('which tanks', () => {
    // 0.5 x 0.5 x 0.4 m = 100 L: 95 L less the 25 mm under the mouth, 6.25 L: 88.75 L each; 80 % of both 142 L.
    const tank = (id: string, more = ''): string => `tank ${id} { box 500 x 500 x 400 mm   low aft inner corner at 0 mm up\n pickup P1   mouth at 25 mm off bottom\n drop R1\n ${more} }\n`;
    test('all that a line-up for running draws from', async () => {
        const twin = (hours: number): string => `${edit(TWIN, 'engine E1\n', 'engine E1 { burns 2 L/h at 2400 rpm }\n').replace('tank T1 {\n  pickup P1\n  drop R1\n  vent\n}\ntank T2 {\n  pickup P1\n  drop R1\n  vent\n}\n', tank('T1') + tank('T2'))}passage Islands motors ${hours} h\n`;
        expect(await rule(twin(71))).toEqual(['pass Islands']);
        expect(await rule(twin(71.1))).toEqual([expect.stringContaining('Full to 95 % T1 and T2 give 178 L')]);
    });
    test('one that is moved over to the day tank', async () => {
        const day = (line: string): string => `${tank('DT', 'drop R2')}${tank('T1')}engine E1 { burns 2 L/h at 2400 rpm }
supply course Feed from DT.P1 to E1 { hose S1 }\nreturn course Back from E1 to DT.R1 { hose B1 }\n${line}passage Islands motors 71 h\n`;
        expect(await rule(day('transfer course Lift from T1.P1 to DT.R2 { shutoff VT normally shut   electric pump TP1 }\n'))).toEqual(['pass Islands']);
        // 80 % of 88.75 L are 71 L, 35.5 h.
        expect(await rule(day(''))).toEqual([expect.stringContaining('Full to 95 % DT gives 88.8 L: that is not enough')]);
    });
    test('engines with a tank each: each by its own, and not the one that is stopped', async () => {
        const two = (line: string): string => `${tank('T1')}${tank('T2')}engine E1 { burns 1 L/h at 2400 rpm }\nengine E2 { burns 3 L/h at 2400 rpm }
supply course A from T1.P1 to E1 { hose S1 }\nsupply course B from T2.P1 to E2 { hose S2 }\n${line}passage Islands motors 30 h\n`;
        // E1 30 L of 71, E2 90 L of 71; together 120 L of 142.
        expect(await rule(two(''))).toEqual([expect.stringMatching(/^fail Islands, minor: On Islands E2 burns 90 L in 30 h/)]);
        expect(await rule(two('line-up RUN run is normal { E2 stopped }\n'))).toEqual(['pass Islands']);
    });
    test('engines that share a tank: 20 + 60 = 80 L of 71', async () => {
        const shared = (hours: number): string => `${tank('T1')}engine E1 { burns 1 L/h at 2400 rpm }\nengine E2 { burns 3 L/h at 2400 rpm }
supply course A from T1.P1 to E1 { tee J1   hose S1 }\nsupply course B from J1 to E2 { hose S2 }\npassage Islands motors ${hours} h\n`;
        expect(await rule(shared(17.7))).toEqual(['pass Islands']);
        expect(await rule(shared(20))).toEqual([expect.stringMatching(/^fail Islands, minor: On Islands E1 and E2 burn 80 L in 20 h/)]);
    });
});
// Only the 71 L of T1 feed it, and 20 L/h are drawn: 3.55 h. After 4 h 88.75 - 80 = 8.75 L are left, 9.86 %.
test('a return to a tank that cannot feed it is counted as gone', async () => {
    const tank = (id: string): string => `tank ${id} { box 500 x 500 x 400 mm   low aft inner corner at 0 mm up\n pickup P1   mouth at 25 mm off bottom\n drop R1 }\n`;
    const astray = (hours: number): string => `${tank('T1')}${tank('T2')}engine E1 { burns 2 L/h at 2400 rpm   draws 20 L/h at 2400 rpm }
supply course A from T1.P1 to E1 { hose S1 }\nreturn course B from E1 to T2.R1 { hose B1 }\npassage Islands motors ${hours} h at 2400 rpm\n`;
    expect(await rule(astray(3.5))).toEqual(['pass Islands']);
    expect(await rule(astray(4))).toEqual([expect.stringMatching(/^fail Islands, minor: On Islands E1 takes 80 L in 4 h at 2400 rpm.* T1 gives 88\.8 L: 9\.8 % would be left/)]);
});
test('not applicable: no passage, no engine that runs', async () => {
    expect(await rule(SLOOP)).toEqual(['not applicable vessel: no passage is written']);
    expect(await rule(planned('motors 500 h at 2400 rpm', undefined, edit(SLOOP, 'run is normal', 'run is normal { E1 stopped }')))).toEqual(['not applicable Islands: no engine runs and draws fuel in the line-up that she is left in']);
});
