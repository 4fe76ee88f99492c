/** XFER-ULLAGE: what is moved has room, up to 95 %, at least from the lowest level. */
import { describe, expect, test } from 'vitest';
import { edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('XFER-ULLAGE', texts);
/** DT holds 0.5 x 0.4 x 0.5 m = 100 L, T1 400 L. */
const boat = (moves: string, level = 'envelope level 10 to 95 %', line = 'hose H1   electric pump TP1   hose H2', size = 'box 500 x 400 x 500 mm   low aft inner corner at 900 mm up'): string => `vessel V { ${level} }
tank T1 { box 1000 x 800 x 500 mm   low aft inner corner at 0 mm up\n pickup P1\n pickup P2\n drop R1 }
tank DT { ${size}\n pickup P1\n drop R1\n drop R2 }
engine E1\nsupply course Feed from DT.P1 to E1 { hose S1 }\nreturn course Back from E1 to DT.R1 { hose B1 }
transfer course Lift from T1.P2 to DT.R2 { ${line} }
line-up RUN run is normal\nline-up FILL transfer from RUN ${moves}\n`;

/** With a second line, from DT back to T1. */
const back = (text: string): string => `${text}transfer course Drop from DT.P3 to T1.R1 { hose H3 }\n`.replace(' pickup P1\n drop R1\n drop R2 }', ' pickup P1\n pickup P3\n drop R1\n drop R2 }');

// 95 % of 100 L less the 10 L of the lowest level: 85 L.
test('85 L, and one more', async () => {
    expect(await rule(boat('moves 85 L'))).toEqual(['pass FILL']);
    expect(await rule(boat('moves 86 L'))).toEqual(['fail FILL, minor: FILL moves 86 L, and up to 95 % DT takes no more than 85 L, even from the lowest level, 10 %.']);
});
test('from an empty tank it is certain without a level: 95 L', async () => {
    expect(await rule(boat('moves 95 L', ''))).toEqual(['cannot tell FILL: the lowest tank level']);
    expect(await rule(boat('moves 96 L', ''))).toEqual(['fail FILL, minor: FILL moves 96 L, and up to 95 % DT takes no more than 95 L, even when empty.']);
});
describe('which tank is filled', () => {
    test('the line is read as it is written, where it lets fuel run either way', async () => expect(await rule(boat('moves 86 L', undefined, 'hose H1'))).toEqual([expect.stringMatching(/^fail FILL, minor: .* DT takes/)]));
    test('cannot tell where lines lead both ways', async () => {
        expect(await rule(back(boat('moves 86 L')))).toEqual(['cannot tell FILL: which tank FILL fills']);
        expect(await rule(back(boat('moves 85 L', undefined, 'hose H1')))).toEqual(['cannot tell FILL: which tank FILL fills']);
    });
    test('what fits passes when a pump moves it, though an overflow leads back', async () => expect(await rule(back(boat('moves 85 L')))).toEqual(['pass FILL']));
});
test('cannot tell the size', async () => expect(await rule(boat('moves 86 L', undefined, undefined, ''))).toEqual(['cannot tell FILL: the size and height of DT']));
test('not applicable: nothing is said to be moved; no line from tank to tank is open', async () => {
    expect(await rule(boat(''))).toEqual(['not applicable vessel: no line-up says what it moves']);
    expect(await rule(boat('moves 86 L', undefined, 'shutoff VT normally shut'))).toEqual(['not applicable FILL: it leads fuel from no tank to another']);
    expect(await rule(edit(boat('moves 86 L', undefined, 'shutoff VT normally shut'), 'moves 86 L', 'moves 86 L { VT open }'))).toEqual([expect.stringMatching(/^fail FILL, minor/)]);
});
