/** PATH-ONE: in each line-up for running every consumer draws from exactly one tank and returns to exactly one. */
import { describe, expect, test } from 'vitest';
import { SLOOP, TWIN, after, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('PATH-ONE', texts);
const fail = (message: string): string => `fail E1, critical: ${message}`;

test('one tank; the line-up that shuts V1 leaves none', async () => {
    expect(await rule(SLOOP)).toEqual(['pass E1']);
    expect(await rule(edit(SLOOP, 'run is normal', 'run is normal { V1 shut }'))).toEqual([fail('In line-up RUN E1 draws from no tank: look at V1.')]);
});

test('an engine that is said to be stopped draws from nowhere', async () => {
    const harbour = (words: string): string => after(SLOOP, 'line-up RUN run is normal', `line-up HARBOUR run from RUN { V1 shut   ${words} }`);
    expect(await rule(harbour(''))).toEqual(['pass E1', fail('In line-up HARBOUR E1 draws from no tank: look at V1.')]);
    expect(await rule(harbour('E1 stopped'))).toEqual(['pass E1', 'not applicable E1: it is stopped in line-up HARBOUR']);
    // What is said nearer outweighs what is inherited.
    const again = after(harbour('E1 stopped'), 'line-up HARBOUR run from RUN { V1 shut E1 stopped }', 'line-up AGAIN run from HARBOUR { E1 running }');
    expect((await rule(again)).at(-1)).toEqual(fail('In line-up AGAIN E1 draws from no tank: look at V1.'));
});

test('only line-ups for running are judged', async () => {
    expect(await rule(after(SLOOP, 'line-up RUN run is normal', 'line-up SERVICE service from RUN { V1 shut }'))).toEqual(['pass E1']);
});

test('two tanks by a selector, one in each line-up', async () => expect(await rule(TWIN)).toEqual(['pass E1', 'pass E1']));

describe('a selector with no position in a line-up', () => {
    test('in the supply', async () => {
        expect(await rule(edit(TWIN, '{ SV1 PORT   SV2 PORT }', '{ SV2 PORT }'))).toEqual(['cannot tell E1: the position of SV1 in line-up RUN-PORT', 'pass E1']);
    });
    test('in the return', async () => {
        expect(await rule(edit(TWIN, '{ SV1 PORT   SV2 PORT }', '{ SV1 PORT }'))).toEqual(['cannot tell E1: the position of SV2 in line-up RUN-PORT', 'pass E1']);
    });
});

describe('paths that part and rejoin are one', () => {
    test('duplex filters', async () => {
        const duplex = after(SLOOP, 'primer PR1', 'changeover CO1 {\n leg A { filter F3 }\n leg B { filter F4 }\n position A through A\n position B through B\n position BOTH through A, B\n}');
        for (const position of ['A', 'B', 'BOTH']) expect(await rule(edit(duplex, 'run is normal', `run is normal { CO1 ${position} }`))).toEqual(['pass E1']);
    });
    test('a primer with its bypass', async () => {
        expect(await rule(edit(SLOOP, 'primer PR1', 'split {\n leg Main { check CV1 }\n leg Prime { primer PR1 }\n}'))).toEqual(['pass E1']);
    });
    test('a return in two legs', async () => {
        expect(await rule(edit(SLOOP, 'hose B1      bore 6 mm', 'split {\n leg A { hose B1 }\n leg B { hose B2 }\n}'))).toEqual(['pass E1']);
    });
});

describe('two tanks at once', () => {
    // When the emptier tank runs dry its line gives air to the other: that the lines meet does not make the tanks one.
    const TEED = `
tank T1 {
  pickup P1
  vent
}
tank T2 {
  pickup P1
  vent
}
engine E1
supply course FromPort from T1.P1 to E1 {
  shutoff V1 normally open
  tee J1
  filter F1 final
}
supply course FromStbd from T2.P1 to J1 {
  shutoff V2 normally open
}
line-up RUN run is normal { V1 shut }
`;
    test('lines that meet at a tee, one of them shut; with both open it draws from both', async () => {
        expect(await rule(TEED)).toEqual(['pass E1']);
        expect(await rule(edit(TEED, ' { V1 shut }', ''))).toEqual([fail('In line-up RUN E1 draws from T1 and T2 at once.')]);
    });
    test('the same with a check valve in each line', async () => {
        const checked = edit(edit(TEED, 'shutoff V1 normally open', 'check CV1'), 'shutoff V2 normally open', 'check CV2').replace(' { V1 shut }', '');
        expect(await rule(checked)).toEqual([fail('In line-up RUN E1 draws from T1 and T2 at once.')]);
    });
    test('joined by an open line of their own they count as one, not when it is shut', async () => {
        const joined = (position: string): string => `${edit(TEED, ' { V1 shut }', '').replaceAll('pickup P1', 'pickup P1\n  pickup P2')}\ntransfer course Level from T1.P2 to T2.P2 { shutoff V3 normally ${position} }`;
        expect(await rule(joined('open'))).toEqual(['pass E1']);
        expect(await rule(joined('shut'))).toEqual([fail('In line-up RUN E1 draws from T1 and T2 at once.')]);
    });
});

describe('the return', () => {
    test('shut in the line-up', async () => {
        const valve = (position: string): string => after(SLOOP, 'hose B1 bore 6 mm', `shutoff V5 normally ${position}`);
        expect(await rule(valve('open'))).toEqual(['pass E1']);
        expect(await rule(valve('shut'))).toEqual([fail('In line-up RUN E1 returns to no tank.')]);
    });
    test('to two tanks at once', async () => {
        const both = edit(TWIN, 'position STBD joins in, stbd', 'position STBD joins in, stbd\n  position BOTH joins in, port, stbd');
        expect(await rule(both)).toEqual(['pass E1', 'pass E1']);
        expect(await rule(edit(both, 'SV1 PORT   SV2 PORT', 'SV1 PORT   SV2 BOTH'))).toEqual([fail('In line-up RUN-PORT E1 returns to T1 and T2 at once.'), 'pass E1']);
    });
    test('none is needed', async () => {
        expect(await rule(without(edit(SLOOP, 'return course Back from E1 to T1.R1 {\n  hose B1      bore 6 mm\n}', ''), 'drop R1 bore 8 mm'))).toEqual(['pass E1']);
    });
});

test('fed by nothing', async () => {
    expect(await rule('engine E1\nline-up RUN run is normal')).toEqual([fail('No supply course leads to E1.')]);
    expect(await rule(after(SLOOP, 'primer PR1', 'check CV1 reversed'))).toEqual([fail('E1 is fed by no tank: its supply is a loop, or begins at nothing, or something in it points the wrong way.')]);
});
