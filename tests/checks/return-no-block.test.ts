/** RETURN-NO-BLOCK: no setting of valves that a hand can reach blocks the return, nor does a selector while it is turned. */
import { expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { SLOOP, TWIN, after, edit, load, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('RETURN-NO-BLOCK', texts);
const blocked = (about: string, how: string): string => `fail ${about}, critical: The return of E1 can be blocked: ${how}.`;
const inReturn = (line: string): string => after(SLOOP, 'hose B1 bore 6 mm', line);

test('a plain return; with one line more a shutoff stands in it', async () => {
    expect(await rule(SLOOP)).toEqual(['pass E1']);
    expect(await rule(inReturn('shutoff V5 normally open'))).toEqual([blocked('V5', 'V5 can shut it')]);
});

test('a shutoff without a tag is named in words', async () => {
    expect(await rule(inReturn('shutoff normally open'))).toEqual([blocked('Back/2', 'the return shutoff after B1 can shut it')]);
});

test('a valve that is locked open cannot be shut; an electric one shuts when power fails', async () => {
    expect(await rule(inReturn('shutoff V5 locked open'))).toEqual(['pass E1']);
    expect(await rule(inReturn('shutoff V5 normally open   solenoid'))).toEqual([blocked('V5', 'V5 can shut it')]);
});

test('two ways back: one shutoff is harmless, two can both be shut', async () => {
    const legs = (second: string): string => inReturn(`split {\n leg A { shutoff V5 normally open }\n leg B { ${second} }\n}`);
    expect(await rule(legs('hose'))).toEqual(['pass E1']);
    expect(await rule(legs('shutoff V6 normally open'))).toEqual([blocked('V5', 'V5 and V6 can all be shut')]);
});

test('a selector that always joins the return to a tank; one with an off position', async () => {
    expect(await rule(TWIN)).toEqual(['pass E1']);
    expect(await rule(after(TWIN, 'position STBD joins in, stbd', '  position OFF joins nothing'))).toEqual([blocked('SV2', 'SV2 can shut it')]);
});

test('a shutoff behind one port of the selector', async () => {
    expect(await rule(edit(TWIN, '{ hose B2 }', '{ hose B2   shutoff V5 normally open }'))).toEqual([blocked('V5', 'V5 can shut it')]);
});

test('a position that leads to a port with no line, in words that fit a selector', async () => {
    const spare = edit(TWIN, 'position STBD joins in, stbd', 'position STBD joins in, stbd\n  position SPARE joins in, spare').replace('ports in, port, stbd', 'ports in, port, stbd, spare');
    const [verdict] = await rule(spare);
    expect(verdict).toMatch(/^fail SV2, critical: The return of E1 can be blocked: /);
    expect(verdict).not.toContain('all be shut');
});

test('a selector that passes a blocked position while it is turned', async () => {
    const off = 'position STBD joins in, stbd\n  position OFF joins nothing';
    const ganged = edit(TWIN, 'position STBD joins in, stbd', 'position STBD joins in, stbd\n  turning PORT to STBD passes STBD');
    expect(await rule(ganged)).toEqual(['pass E1']);
    // OFF is a position that a hand can set, so it is told first.
    expect(await rule(edit(TWIN, 'position STBD joins in, stbd', `${off}\n  turning PORT to STBD passes OFF`))).toEqual([blocked('SV2', 'SV2 can shut it')]);
});

test('a check valve turned end for end: no tank in any position', async () => {
    expect(await rule(inReturn('check CV1'))).toEqual(['pass E1']);
    expect(await rule(inReturn('check CV1 reversed'))).toEqual(['fail E1, critical: The return of E1 reaches no tank in any position of the valves.']);
});

test('a return that leads back into its own supply stays open when the tank is shut off', async () => {
    const loop = edit(without(SLOOP, 'drop R1 bore 8 mm'), 'return course Back from E1 to T1.R1', 'return course Back from E1 to J1').replace('hose S1      bore 8 mm', 'tee J1\n  hose S1      bore 8 mm');
    expect(await rule(loop)).toEqual(['pass E1']);
    expect(await rule(after(loop, 'hose B1 bore 6 mm', 'shutoff V5 normally open'))).toEqual([expect.stringContaining('V5 can shut it')]);
});

test('a consumer without a return', async () => {
    expect(await rule(without(edit(SLOOP, 'return course Back from E1 to T1.R1 {\n  hose B1      bore 6 mm\n}', ''), 'drop R1 bore 8 mm'))).toEqual(['not applicable E1: no return course begins at it']);
});

test('the advice for a shutoff locks it; for a selector it asks for one without an off position', async () => {
    const advice = async (text: string): Promise<string | undefined> => judge((await load(text)).boat).findings.find((finding) => finding.rule.code === 'RETURN-NO-BLOCK')?.advice;
    expect(await advice(inReturn('shutoff V5 normally open'))).toMatch(/^Lock V5 open/);
    expect(await advice(after(TWIN, 'position STBD joins in, stbd', '  position OFF joins nothing'))).toMatch(/^Replace SV2 by a selector/);
});
