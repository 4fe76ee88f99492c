/** What a bleed sequence leaves undone, and what still stands in its way. */
import { expect, test } from 'vitest';
import { sheetText } from '../../src/documents/bleed/sheet';
import { loadBoat } from '../../src/language/load';
import { reportOf } from '../../src/language/report';
import { planBleed } from '../../src/procedures/bleed';
import { judge } from '../../src/checks/judge';

const DUPLEX = `
vessel Harrowake
tank T1 { pickup P1   drop R1   vent   fill }
engine E1 {
  injection in-line mechanical   exhaust dry
  bleed BS3
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   normally open
  primer PR1
  changeover CH1 {
    leg A { filter FA primary { bleed BSA } }
    leg B { filter FB primary { bleed BSB } }
    position LEFT  through A
    position RIGHT through B
  }
  filter F2 final { bleed BS2 }
}
return course Back from E1 to T1.R1 { hose }
line-up RUN run is normal { CH1 LEFT }
line-up RUN-RIGHT run from RUN { CH1 RIGHT }
`;

const words = (text: string): string => text.replace(/\s+/g, ' ');

test('a part that was opened off line is named before the first step, with the line-up that clears it', async () => {
    const { boat } = await loadBoat({ 'boat.orlop': DUPLEX });
    const plan = planBleed(boat, { engine: 'E1', opened: ['FA', 'FB'] });
    if ('refused' in plan) throw new Error(plan.refused);
    const sheet = words(sheetText(boat, plan));
    expect(sheet).toMatch(/FB still holds air.*ends in RUN-RIGHT.*Before the first step/);
    const right = planBleed(boat, { engine: 'E1', opened: ['FA', 'FB'], ends: 'RUN-RIGHT' });
    if ('refused' in right) throw new Error(right.refused);
    expect(right.left.map(({ part }) => part)).toEqual(['FA']);
    expect(right.steps.flatMap(({ step }) => (step.do === 'bleed' ? [step.vent] : []))).toContain('BSB');
});

test('a tank that the line-up does not draw from is refused with the line-up that does', async () => {
    const two = DUPLEX.replace('engine E1', 'tank T2 { pickup P2   vent   fill }\nengine E1').replace('supply course Feed from T1.P1 to E1', `selector SV1 {
  ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
}
supply course FromPort from T1.P1 to SV1.port { hose }
supply course FromStbd from T2.P2 to SV1.stbd { hose }
supply course Feed from SV1.out to E1`).replace('{ CH1 LEFT }', '{\n  CH1 LEFT\n  SV1 PORT\n}').replace('{ CH1 RIGHT }', '{\n  CH1 RIGHT\n  SV1 STBD\n}');
    const { boat, problems } = await loadBoat({ 'boat.orlop': two });
    expect(problems).toEqual([]);
    expect(planBleed(boat, { engine: 'E1', opened: ['FA'], from: 'T2' })).toMatchObject({ refused: expect.stringMatching(/not fed from T2 but from T1\. End in RUN-RIGHT/) });
    expect(planBleed(boat, { engine: 'E1', opened: ['FA'], from: 'T9' })).toMatchObject({ refused: 'There is no tank called T9.' });
});

test('what a bleed sequence waits for stands in the facts to measure', async () => {
    const loaded = await loadBoat({ 'boat.orlop': DUPLEX.replace('injection in-line mechanical   exhaust dry', '') });
    const { facts } = reportOf(loaded, () => DUPLEX, (uri) => uri, judge(loaded.boat));
    const settled = facts.filter(({ settles }) => settles.some(({ code, about }) => code === 'the bleed sequence' && about === 'E1')).map(({ fact }) => fact);
    expect(settled).toEqual(['how E1 injects', 'whether the exhaust of E1 is wet or dry']);
});

test('an hour meter that runs back is noticed, and a correction settles it', async () => {
    const log = (lines: string): string => `${DUPLEX}log 2025 {\n${lines}\n}\n`;
    const slips = async (lines: string): Promise<string[]> => (await loadBoat({ 'boat.orlop': log(lines) })).problems.map(({ message }) => message);
    const back = '2025-03-01 E1 1400 h\n2025-04-01 E1 1390 h';
    expect(await slips('2025-03-01 E1 1390 h\n2025-04-01 E1 1400 h')).toEqual([]);
    expect(await slips(back)).toEqual([expect.stringMatching(/1390 h here and 1400 h on 2025-03-01/)]);
    expect(await slips(`${back}\n2025-04-02 corrects 2025-04-01 E1 1410 h`)).toEqual([]);
});
