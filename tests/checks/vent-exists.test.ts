/** VENT-EXISTS: each tank has a vent that no valve can shut, open both ways, at its highest point where the heights are known (46 CFR 182.450(a)). */
import { expect, test } from 'vitest';
import { SLOOP, after, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('VENT-EXISTS', texts);
const BLOCKED = 'fail T1.vent, critical: The vent of T1 can be blocked: something in it shuts, or passes air one way only.';
const COURSE = 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}';
const inVent = (line: string): string => after(SLOOP, 'hose VH1 bore 16 mm', line);

test('a fitting alone is a vent; without its line there is none', async () => {
    const fitting = edit(SLOOP, COURSE, '');
    expect(await rule(fitting)).toEqual(['pass T1']);
    expect(await rule(without(fitting, 'vent at 600 mm'))).toEqual(['fail T1, critical: T1 has no vent.']);
});

test('a course alone is a vent', async () => expect(await rule(without(SLOOP, 'vent at 600 mm'))).toEqual(['pass T1']));

test('a valve in it', async () => {
    expect(await rule(SLOOP)).toEqual(['pass T1']);
    expect(await rule(inVent('shutoff V7 normally open'))).toEqual([BLOCKED]);
    expect(await rule(inVent('shutoff V7 locked open'))).toEqual(['pass T1']);
    expect(await rule(inVent('split {\n leg A { shutoff V7 normally open }\n leg B { hose }\n}'))).toEqual(['pass T1']);
    expect(await rule(inVent('split {\n leg A { shutoff V7 normally open }\n leg B { shutoff V8 normally open }\n}'))).toEqual([BLOCKED]);
});

test('a check valve keeps air from coming in, or from going out', async () => {
    for (const check of ['check CV7', 'check CV7 reversed']) expect(await rule(inVent(check))).toEqual([BLOCKED]);
});

test('a second vent saves it', async () => {
    expect(await rule(after(edit(inVent('shutoff V7 normally open'), 'Breather from T1', 'Breather from T1.vent'), 'vent at 600 mm', 'vent VB at 600 mm'))).toEqual(['pass T1']);
});

// The top of the tank: 200 + 400 = 600 mm.
test('below the highest point', async () => {
    expect(await rule(edit(SLOOP, 'vent        at 600 mm', 'vent        at 560 mm'))).toEqual(['fail T1.vent, critical: The vent of T1 leaves it 40 mm below its highest point.']);
    expect(await rule(edit(SLOOP, 'vent        at 600 mm', 'vent'))).toEqual(['pass T1']);
});
