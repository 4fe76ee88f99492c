/** PUMP-OFF-PATH: with every electric pump at rest a way stays open from a tank to the engine. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('PUMP-OFF-PATH', texts);
const inFeed = (...lines: readonly string[]): string => edit(SLOOP, '  primer PR1\n', `  primer PR1\n${lines.map((line) => `  ${line}\n`).join('')}`);
const dead = (severity = 'major', pumps = 'EP1 is', it = 'it blocks'): string => `fail E1, ${severity}: In line-up RUN no fuel reaches E1 when ${pumps} off: ${it} the only open way.`;

test('a pump that passes when it is off, and one that blocks', async () => {
    expect(await rule(inFeed('electric pump EP1 when off passes'))).toEqual(['pass E1']);
    expect(await rule(inFeed('electric pump EP1 when off blocks'))).toEqual([dead()]);
    expect(await rule(inFeed('electric pump EP1 when off blocks', 'electric pump EP2 when off blocks'))).toEqual([dead('major', 'EP1 and EP2 are', 'they block')]);
});
test('a line past it: open, shut by hand, shut by electricity', async () => {
    const past = (valve: string): string => inFeed('split {', ` leg A { electric pump EP1 when off blocks }`, ` leg B { ${valve}   check CV1 }`, '}');
    expect(await rule(past('hose H1'))).toEqual(['pass E1']);
    expect(await rule(past('shutoff V9 normally shut'))).toEqual([dead('minor')]);
    expect(await rule(past('shutoff V9 locked open'))).toEqual(['pass E1']);
});
test('two pumps side by side both die', async () => {
    expect(await rule(inFeed('split {', ' leg A { electric pump EP1 when off blocks }', ' leg B { electric pump EP2 when off blocks }', '}'))).toEqual([dead('major', 'EP1 and EP2 are', 'they block')]);
});
test('cannot tell: what it does when it is off, unless another blocks anyway', async () => {
    expect(await rule(inFeed('electric pump EP1'))).toEqual(['cannot tell E1: what EP1 does when it is off']);
    expect(await rule(inFeed('electric pump EP1', 'electric pump EP2 when off blocks'))).toEqual([dead('major', 'EP2 is')]);
});
test('not applicable: no electric pump; nothing feeds it in the line-up', async () => {
    expect(await rule(SLOOP)).toEqual(['not applicable E1: no electric pump stands on its supply']);
    expect(await rule(edit(inFeed('electric pump EP1 when off blocks'), 'run is normal', 'run is normal { V1 shut }'))).toEqual(['not applicable E1: no tank feeds it in line-up RUN (see PATH-ONE)']);
});
