/** FILTER-FLOW: the rated flow against the greatest gross flow. */
import { describe, expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts, filter = 'F1'): Promise<string[]> => said('FILTER-FLOW', texts, filter);
const rated = (flow: string, engine = 'draws 15 L/h at 2400 rpm', text = SLOOP): string => edit(edit(text, 'passes 10 um', `passes 10 um   ${flow}`), 'engine E1 {', `engine E1 {\n  ${engine}`);
const small = (flow: string, drawn: string): string => `fail F1, major: F1 is rated ${flow} L/h, and E1 draws up to ${drawn} L/h through it.`;

test('15 L/h through 15, and through 14', async () => {
    expect(await rule(rated('rated 15 L/h'))).toEqual(['pass F1']);
    expect(await rule(rated('rated 14 L/h'))).toEqual([small('14', '15')]);
});
test('the highest point of the curve counts', async () => expect(await rule(rated('rated 40 L/h', 'draws 20 L/h at 1000 rpm, 60 L/h at 3000 rpm'))).toEqual([small('40', '60')]));
/*
 * The curve ends at 2400 rpm, the burn curve at 3600: a feed pump that moves in proportion gives 15 x 3600 / 2400 = 22.5 L/h
 * there. Between 15 and 22.5 nobody can say.
 */
test('the flow curve ends before full speed', async () => {
    const engine = 'draws 5.3 L/h at 850 rpm, 15 L/h at 2400 rpm\n  burns 2.4 L/h at 2400 rpm, 6.25 L/h at 3600 rpm';
    expect(await rule(rated('rated 22.5 L/h', engine))).toEqual(['pass F1']);
    expect(await rule(rated('rated 22 L/h', engine))).toEqual(['cannot tell F1: the gross flow of E1']);
    expect(await rule(rated('rated 14 L/h', engine))).toEqual([small('14', '15')]);
});
test('what is burnt passes it at least', async () => {
    expect(await rule(rated('rated 6 L/h', 'burns 6.25 L/h at 3600 rpm'))).toEqual([small('6', '6.25')]);
    expect(await rule(rated('rated 7 L/h', 'burns 6.25 L/h at 3600 rpm'))).toEqual(['cannot tell F1: the gross flow of E1']);
});
test('cannot tell', async () => {
    expect(await rule(rated(''))).toEqual(['cannot tell F1: the rated flow of F1']);
    expect(await rule(rated('rated 60 L/h', ''))).toEqual(['cannot tell F1: the gross flow of E1']);
    expect(await rule(SLOOP)).toEqual(['cannot tell F1: the rated flow of F1; the gross flow of E1']);
});

describe('side by side', () => {
    const duplex = (a: string, b: string): string => edit(rated('rated 60 L/h'), '  primer PR1\n', `  primer PR1\n  changeover CO1 {\n    leg A { filter F3 ${a} }\n    leg B { filter F4 ${b} }\n    position A through A\n    position B through B\n  }\n`).replace('run is normal', 'run is normal { CO1 A }');
    test('each side of a changeover by itself, in whichever position it is left', async () => {
        expect(await rule(duplex('rated 15 L/h', 'rated 10 L/h'), 'F3')).toEqual(['pass F3']);
        expect(await rule(duplex('rated 15 L/h', 'rated 10 L/h'), 'F4')).toEqual(['fail F4, major: F4 is rated 10 L/h, and E1 draws up to 15 L/h through it.']);
    });
    test('legs that are both open share', async () => {
        const split = edit(rated('rated 60 L/h'), '  primer PR1\n', '  primer PR1\n  split {\n    leg A { filter F3 rated 10 L/h }\n    leg B { filter F4 rated 15 L/h }\n  }\n');
        expect(await rule(split, 'F3')).toEqual(['cannot tell F3: the share of the flow that passes F3']);
        expect(await rule(split, 'F4')).toEqual(['pass F4']);
    });
    test('two engines through one filter: 15 + 9 = 24 L/h', async () => {
        const two = (flow: string): string => `${edit(rated(`rated ${flow} L/h`), '  hose S2      bore 8 mm\n', '  tee J1\n  hose S2      bore 8 mm\n')}engine E2 { draws 9 L/h at 2000 rpm }\nsupply course Branch from J1 to E2 { hose }\n`;
        expect(await rule(two('24'))).toEqual(['pass F1']);
        expect(await rule(two('23'))).toEqual(['fail F1, major: F1 is rated 23 L/h, and E1 and E2 draw up to 24 L/h through it.']);
    });
});
test('not applicable: in the return', async () => {
    expect(await rule(edit(SLOOP, 'hose B1      bore 6 mm', 'filter F9'), 'F9')).toEqual(['not applicable F9: nothing that burns fuel draws through it in a line-up for running']);
});
