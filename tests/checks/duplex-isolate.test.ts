/** DUPLEX-ISOLATE: of filters that are changed over, each can be shut on both sides with another on line. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts, about?: string): Promise<string[]> => said('DUPLEX-ISOLATE', texts, about);
const inFeed = (...lines: readonly string[]): string => edit(SLOOP, '  primer PR1\n', `  primer PR1\n${lines.map((line) => `  ${line}\n`).join('')}`);
const changeover = (...positions: readonly string[]): string => edit(inFeed('changeover CO1 {', ' leg A { filter F3 }', ' leg B { filter F4 }', ...positions.map((position) => ` position ${position}`), '}'), 'run is normal', `run is normal { CO1 ${positions[0]?.split(' ')[0] ?? 'A'} }`);
const legs = (a: string, b: string): string => inFeed('split {', ` leg A { ${a} }`, ` leg B { ${b} }`, '}');
const open = (filter: string, side: string, other: string): string => `fail ${filter}, major: ${filter} cannot be shut on its ${side} while ${other} carries the fuel of E1.`;
const off = (tag: string): string => `shutoff ${tag} normally open`;

test('a changeover that shuts both ports of a side; and one that can only add the other side', async () => {
    expect(await rule(changeover('A through A', 'B through B'))).toEqual(['pass F3', 'pass F4']);
    expect(await rule(changeover('A through A', 'BOTH through A, B'))).toEqual([open('F3', 'inlet and outlet', 'F4'), 'pass F4']);
});
test('legs with shutoffs: four, and one taken away', async () => {
    const four = (a: string, b: string, c: string, d: string): string => legs(`${a} filter F3 ${b}`, `${c} filter F4 ${d}`);
    expect(await rule(four(off('VA'), off('VB'), off('VC'), off('VD')))).toEqual(['pass F3', 'pass F4']);
    expect(await rule(four(off('VA'), '', off('VC'), off('VD')))).toEqual([open('F3', 'outlet', 'F4'), 'pass F4']);
    expect(await rule(four('', off('VB'), off('VC'), off('VD')))).toEqual([open('F3', 'inlet', 'F4'), 'pass F4']);
});
// The pump draws through the check: air would come in at the open filter.
test('a check valve at the outlet does not count', async () => {
    expect(await rule(legs(`${off('VA')} filter F3 check CV1`, `${off('VC')} filter F4 ${off('VD')}`))).toEqual([open('F3', 'outlet', 'F4'), 'pass F4']);
});
test('nor an electric valve', async () => {
    expect(await rule(legs(`${off('VA')} filter F3 shutoff VB solenoid normally open`, `${off('VC')} filter F4 ${off('VD')}`))).toEqual([open('F3', 'outlet', 'F4'), 'pass F4']);
});
test('a valve that joins the legs behind the filters is found and shut', async () => {
    // A ladder: VX joins the outlets. With VB and VX shut F3 is off.
    const ladder = inFeed('split {', ` leg A { ${off('VA')} filter F3 tee JA ${off('VB')} }`, ` leg B { ${off('VC')} filter F4 tee JB ${off('VD')} }`, '}');
    expect(await rule(`${ladder}supply course Ladder from JA to JB { shutoff VX normally shut }\n`)).toEqual(['pass F3', 'pass F4']);
});
test('where one of them cannot be shut off at all SHUTOFF-BEFORE-FILTER has the weight', async () => {
    const text = edit(legs('filter F3', `${off('VC')} filter F4 ${off('VD')}`), '  shutoff V1   normally open\n', '');
    expect(await rule(text, 'F3')).toEqual(['fail F3, minor: F3 cannot be shut on its inlet and outlet while F4 carries the fuel of E1.']);
    expect((await said('SHUTOFF-BEFORE-FILTER', text, 'F3'))[0]).toMatch(/^fail F3, major/);
});
test('a cross connection to the filter of another engine is no changeover', async () => {
    const two = (state: string): string => `tank T1 {\n pickup P1\n pickup P2\n vent\n}\nengine E1\nengine E2
supply course A from T1.P1 to E1 { shutoff V1 normally open   filter F1 final   tee JA }
supply course B from T1.P2 to E2 { shutoff V2 normally open   filter F2 final   tee JB }
supply course Cross from JA to JB { shutoff VX normally ${state} }\n`;
    const none = ['E1', 'E2'].map((engine) => `not applicable ${engine}: no two filters stand side by side on its supply`);
    expect(await rule(two('shut'))).toEqual(none);
    // Left open, both filters carry the fuel of both.
    expect(await rule(two('open'))).not.toEqual(none);
});
test('cannot tell: a changeover without positions', async () => expect(await rule(edit(changeover(), ' { CO1 A }', ''))).toEqual(['cannot tell E1: what the positions of CO1 join']));
test('not applicable: one after another; side by side with nothing to change them over', async () => {
    expect(await rule(SLOOP)).toEqual(['not applicable E1: no two filters stand side by side on its supply']);
    expect(await rule(legs('filter F3', 'filter F4'))).toEqual(['not applicable E1: nothing takes F3 or F4 off line while another carries the fuel']);
});
