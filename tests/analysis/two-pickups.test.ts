/** Two pickups in one tank have nothing to do with one another: the tank lies between. */
import { expect, test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { planBleed } from '../../src/procedures/bleed';

const BOAT = `
vessel Yarrowake
tank T1 { pickup P1   pickup P2   pickup P3   drop R1   drop R2   vent   fill }
engine E1 {
  injection in-line mechanical   exhaust dry
  bleed BE
}
generator GN {
  injection rotary mechanical   exhaust dry
  bleed BN
}
heater HE1 { self-bleeding }
supply course Feed from T1.P1 to E1 { shutoff V1   primer PR1   filter F1 final { bleed BS1 }
}
supply course GenFeed from T1.P2 to GN { shutoff VG   primer PR2   filter F2 final { bleed BS2 }
}
supply course HeatFeed from T1.P3 to HE1 { filter FH }
return course Back from E1 to T1.R1 { hose }
return course GenBack from GN to T1.R2 { hose }
`;

const plan = async (engine: string, opened: string[]): Promise<{ air: string[]; steps: string[]; tainted: readonly string[]; left: unknown[] }> => {
    const { boat, problems } = await loadBoat({ 'boat.orlop': BOAT });
    expect(problems).toEqual([]);
    const found = planBleed(boat, { engine, opened });
    if ('refused' in found) throw new Error(found.refused);
    return { air: [...found.air.keys()].sort(), tainted: found.tainted, left: [...found.left], steps: found.steps.map(({ step }) => ('vent' in step ? `${step.do} ${step.vent}` : step.do)) };
};

// No height is known, so whatever could run into the opened filter or away from it may have; the other engine's lines could not.
test('opening the generator\'s filter puts no air into the engine\'s line', async () => {
    const { air, tainted, steps } = await plan('GN', ['F2']);
    expect(air.filter((id) => /P1$|PR1|F1|E1/.test(id))).toEqual([]);
    expect(air).toEqual(expect.arrayContaining(['F2', 'PR2', 'T1.P2']));
    expect(tainted).not.toContain('E1');
    expect(steps[0]).toBe('bleed BS2');
});

test('a consumer that clears itself needs no step, and nothing is said to be off line', async () => {
    const { steps, left, tainted } = await plan('HE1', ['FH']);
    expect([steps, left, tainted]).toEqual([[], [], []]);
});
