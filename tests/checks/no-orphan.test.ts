/** NO-ORPHAN: a tank, selector or consumer that no line touches is told once, and its single ports not at all. */
import { expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { loadBoat } from '../../src/language/load';
import { SLOOP, TWIN, edit, load, said, type Texts } from './boats';

const rule = (texts: Texts, thing?: string): Promise<string[]> => said('NO-ORPHAN', texts, thing);
const codes = async (texts: Texts, thing: string): Promise<string[]> => judge((await load(texts)).boat).findings.filter(({ about }) => about === thing || about.startsWith(`${thing}.`)).map(({ rule: { code } }) => code);
const SPARE = `${SLOOP}tank T2 {\n  pickup P1\n  drop R1\n  vent\n}\n`;

test('a spare tank, then joined', async () => {
    expect(await rule(SPARE)).toEqual(['pass T1', 'fail T2, document: T2 is joined to nothing: no line of liquid begins or ends at it.', 'pass E1']);
    expect(await codes(SPARE, 'T2')).toEqual(['NO-ORPHAN']);
    expect(await rule(`${SPARE}transfer course Over from T2.P1 to T1 { shutoff V9 normally shut }\n`, 'T2')).toEqual(['pass T2']);
});
test('a vent joins it to nothing', async () => expect(await rule(`${SPARE}vent course Breath from T2 to air { hose }\n`, 'T2')).toEqual(['fail T2, document: T2 is joined to nothing: no line of liquid begins or ends at it.']));
test('a selector', async () => {
    const spare = `${TWIN}selector SV9 {\n  ports a, b\n  position ON joins a, b\n}\n`;
    expect(await rule(spare, 'SV9')).toEqual(['fail SV9, document: SV9 is joined to nothing: no line of liquid begins or ends at it.']);
    expect(await codes(spare, 'SV9')).toEqual(['LINEUP-NAMED', 'NO-ORPHAN']);
});
test('an engine that nothing feeds is PATH-ONE\'s, where a line-up for running asks for it', async () => {
    expect(await rule(`${SLOOP}generator E2\n`, 'E2')).toEqual(['not applicable E2: nothing feeds it (see PATH-ONE)']);
    expect(await codes(`${SLOOP}generator E2\n`, 'E2')).toEqual(['PATH-ONE']);
    expect(await rule(`${edit(SLOOP, 'line-up RUN run is normal', 'line-up LAID-UP laid up')}generator E2\n`, 'E2')).toEqual(['fail E2, document: E2 is joined to nothing: no line of liquid begins or ends at it.']);
});
test('cannot tell: a course that ends at a name that is not there', async () => {
    const { boat } = await loadBoat({ 'boat.orlop': `${SPARE}transfer course Over from T7 to T1 { hose }\n` });
    expect(judge(boat).verdicts.filter(({ check, verdict }) => check.code === 'NO-ORPHAN' && verdict.about === 'T2').map(({ verdict }) => (verdict.outcome === 'cannot tell' ? verdict.missing.map(({ fact }) => fact) : verdict.outcome))).toEqual([['where Over begins']]);
});
test('not applicable: an empty text', async () => expect(await rule('')).toEqual(['not applicable vessel: no tank, selector or engine is written']));
