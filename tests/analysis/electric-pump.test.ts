/** An electric pump that blocks at rest is no excuse for leaving air before the engine: it runs when the engine does. */
import { expect, test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { planBleed } from '../../src/procedures/bleed';

const boat = (prefill: string): string => `
vessel Withywake
tank T1 carries diesel { pickup P1   drop R1   vent   fill }
generator G1 {
  injection in-line mechanical   exhaust dry
  bleed BG1
}
supply course Feed from T1.P1 to G1 {
  shutoff V1   normally open
  hose S1
  filter F1 primary { prefill ${prefill} }
  electric pump EP1
  hose S2
}
return course Back from G1 to T1.R1 { hose R }
line-up RUN run is normal
line-up SERVICE service from RUN { V1 shut }
`;

const opened = async (part: string, prefill = 'forbidden'): Promise<string[]> => {
    const { boat: loaded, problems } = await loadBoat({ 'boat.orlop': boat(prefill) });
    expect(problems).toEqual([]);
    const plan = planBleed(loaded, { engine: 'G1', opened: [part] });
    if ('refused' in plan) throw new Error(plan.refused);
    expect(plan.left).toEqual([]);
    return plan.steps.map(({ step }) => ('vent' in step ? `${step.do} ${step.vent}` : 'part' in step ? `${step.do} ${step.part}` : step.do));
};

// F1 has no bleed point, so its air goes with the flow to BG1, the next one downstream, which EP1 alone can push fuel to.
test.each(['F1', 'S1', 'V1'])('%s opened before a pump that blocks at rest is bled before the start', async (part) => {
    expect(await opened(part)).toEqual(['set V1', 'bleed BG1', 'start']);
});
