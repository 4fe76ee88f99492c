/** RETURN-OVERFLOW: for how long a consumer may return to another tank than it draws from. */
import { describe, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { edit, load, said, type Texts } from './boats';

const rule = (texts: Texts, code = 'RETURN-OVERFLOW'): Promise<string[]> => said(code, texts);
/** Tanks of 1000 x 500 x 400 mm, 200 L. Used with 10 to 90 %: half full to begin with. 20 L/h are drawn, 5 burnt. */
const CROSSED = `
vessel Crosswake { envelope heel 5 deg   trim 2 deg   level 10 to 90 % }
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 500 mm port
  pickup P1   mouth at 40 mm off bottom
  drop R1
  vent }
tank T2 { box 1000 x 500 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 500 mm stbd
  pickup P1   mouth at 40 mm off bottom
  drop R1
  vent }
engine E1 { burns 5 L/h at 2000 rpm   draws 20 L/h at 2000 rpm }
supply course Feed from T1.P1 to E1 { shutoff V1   normally open }
return course Back from E1 to T2.R1 { hose B1 }
line-up RUN run is normal
`;
test('hours until it is full, and until the other is dry', async () => {
    // 100 L of room at 15 L/h: 6.67 h. 100 L less 40 mm x 0.5 m² = 20 L at 20 L/h: 4 h.
    expect(await rule(CROSSED)).toEqual(['fail T2, major: In RUN E1 draws from T1 and returns to T2: at full speed T2 is full from 50 % after 6.7 h. T1 comes dry at T1.P1 after 4 h, from 50 %.']);
    // 10 L/h less 5: 100 L take 20 h.
    expect((await rule(edit(CROSSED, 'draws 20 L/h', 'draws 10 L/h')))[0]).toMatch(/^fail T2, advice: .* is full from 50 % after 20 h\./);
});
test('the watch is kept by the fullest that she is used with, not by half full', async () => {
    // 200 L less 90 % are 20 L of room, at 15 L/h: 1.33 h, where half full has 6.67 h.
    const [found] = judge((await load(CROSSED)).boat).findings.filter(({ rule: { code } }) => code === 'RETURN-OVERFLOW');
    expect(found!.advice).toMatch(/and look at T2 before you run in RUN: from 90 % it is full after 1\.3 h\.$/);
});
test('one defect is one finding of weight: the other rule points to this one', async () => {
    expect(await rule(CROSSED, 'SUPPLY-RETURN-MATCH')).toEqual(['fail E1, advice: In line-up RUN E1 draws from T1 and returns to T2. How long that goes well is told by RETURN-OVERFLOW.']);
    // Where it cannot be told, that one has the weight.
    expect(await rule(edit(CROSSED, 'draws 20 L/h at 2000 rpm', ''), 'SUPPLY-RETURN-MATCH')).toEqual(['fail E1, major: In line-up RUN E1 draws from T1 and returns to T2.']);
});
test('a tank that gives more than it takes never fills', async () => {
    // Another draws 20 L/h from T2 and returns nothing.
    const both = edit(CROSSED, 'line-up RUN', 'heater HE { burns 20 L/h at 1500 rpm   draws 20 L/h at 1500 rpm }\nsupply course Warm from T2.P1 to HE { hose }\nline-up RUN');
    expect(await rule(both)).toEqual(['pass T2']);
});
describe('cannot tell', () => {
    test('flows and shapes', async () => {
        expect(await rule(edit(CROSSED, 'draws 20 L/h at 2000 rpm', ''))).toEqual(['cannot tell T2: the gross flow of E1']);
        expect(await rule(edit(CROSSED, 'burns 5 L/h at 2000 rpm', ''))).toEqual(['cannot tell T2: what E1 burns at that speed']);
        expect(await rule(edit(CROSSED, 'tank T2 { box 1000 x 500 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 500 mm stbd', 'tank T2 {'))).toEqual(['cannot tell T2: the size and height of T2']);
    });
});
test('back to where it came from', async () => {
    expect(await rule(edit(CROSSED, 'from E1 to T2.R1', 'from E1 to T1.R1'))).toEqual(['not applicable vessel: nothing returns to another tank than it draws from in a line-up for running']);
    expect(await rule(edit(CROSSED, 'line-up RUN run is normal', 'line-up RUN run is normal\nline-up MOVE transfer from RUN'))).toHaveLength(1);
});
