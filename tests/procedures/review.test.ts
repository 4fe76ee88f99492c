/** Small boats with awkward lines, and procedures with one thing wrong: what could stop an engine, flood a bilge or leave air where nobody looks for it. */
import { describe, expect, test } from 'vitest';
import type { Boat, Id } from '../../src/model/boat';
import type { ServiceStep } from '../../src/model/step';
import { execute } from '../../src/procedures/service/execute';
import { procedureFor } from '../../src/procedures/service/generate';
import type { ProcedurePlan } from '../../src/procedures/service/plan';
import type { Program } from '../../src/procedures/service/program';
import { cautionAt } from '../../src/procedures/service/warnings';
import { boatOf, lawsOf, program } from './boats';

const TANK = `tank T1 {
  box 800 x 500 x 400 mm   low aft inner corner at 700 mm up, 2200 mm fwd, 100 mm port
  pickup P1   mouth at 25 mm off bottom
  drop R1   mouth at 25 mm off bottom
  vent
}`;
const ENGINE = 'engine E1 { injection in-line mechanical   exhaust dry   self-bleeding   backflow blocks }';
const PRIMARY = 'ports at 600 mm   lid at 40 mm over ports   holds 400 mL   prefill allowed';

/** A pump behind the filter and none before it, and no envelope. */
const SWEPT = `vessel Swept
${TANK}
${ENGINE}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 650 mm   normally open
  hose S1   bore 8 mm   length 1.5 m
  filter F1 primary { ${PRIMARY}   bleed BA at 645 mm }
  electric pump EP1   at 620 mm   gives 60 L/h
  filter F2 final { holds 200 mL   ports at 640 mm   bleed BF at 660 mm }
}
return course Back from E1 to T1.R1 { hose S3   bore 8 mm   length 2 m }
line-up RUN run is normal { V1 open }
`;

/** One of two filters on line, and no line-up that puts the other on. */
const DUPLEX = `vessel Duplex
${TANK}
${ENGINE}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 650 mm   normally open
  hose S1   bore 8 mm   length 1.5 m
  primer PR1   stroke 15 mL   at 600 mm
  changeover CH1 at 600 mm {
    leg A { filter FA primary { ${PRIMARY}   bleed BA at 645 mm } }
    leg B { filter FB like FA }
    position A through A
    position B through B
  }
  lift pump LP1   at 620 mm   lever 3 mL
}
return course Back from E1 to T1.R1 { hose S3   bore 8 mm   length 2 m }
line-up RUN run is normal { CH1 A }
`;

/** A shutoff in the supply and one in a return that floods backwards through the engine. */
const RETURN = `vessel Back
${TANK}
engine E1 { injection in-line mechanical   exhaust dry   backflow passes   bleed BE at 610 mm }
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 650 mm   normally open
  hose S1   bore 8 mm   length 1.5 m
  primer PR1   stroke 15 mL   at 600 mm
  filter F1 primary { ${PRIMARY}   bleed BA at 645 mm }
}
return course Back from E1 to T1.R1 { hose S3   bore 8 mm   length 2 m   shutoff VR1   at 690 mm   normally open }
line-up RUN run is normal { V1 open }
`;

function planned(boat: Boat, part: Id): ProcedurePlan {
    const made = procedureFor(boat, { jobs: [{ verb: 'renew', part, piece: 'element' }] });
    expect('blank' in made ? made.blank : '').toBe('');
    return made as ProcedurePlan;
}

const programOf = ({ starts, ends, jobs, steps }: ProcedurePlan): Program => ({ jobs, starts, ends, steps: steps.map(({ step }) => step) });

/** What is told of flooding at a part, in the order of the steps. */
function floods(boat: Boat, run: Program): string[] {
    const { states } = execute(boat, run);
    return run.steps.flatMap((step, i) => (step.do === 'caution' && step.topic === 'flood' ? [cautionAt(boat, run, i, states)!.avoid] : []));
}

describe('a filter that no pump can push fuel to', () => {
    test('is filled by hand, and swept by the pump behind it', async () => {
        const boat = await boatOf(SWEPT);
        const steps = planned(boat, 'F1').steps.map(({ step }) => step);
        const at = (like: (step: ServiceStep) => boolean): number => steps.findIndex(like);
        const [filled, opened, swept] = [at((step) => step.do === 'prefill' && step.part === 'F1'), at((step) => step.do === 'set' && step.position === 'open'), at((step) => step.do === 'bleed' && step.vent === 'BF')];
        expect(filled).toBeGreaterThan(0);
        expect(opened).toBeGreaterThan(filled);
        expect(swept).toBeGreaterThan(opened);
    });
});

describe('what stands off line', () => {
    test('and may hold air is told, though nothing is bled', async () => {
        const boat = await boatOf(DUPLEX);
        expect(planned(boat, 'FB').after).toContainEqual({ say: 'off line', with: { part: 'FB', lineUp: 'RUN' } });
    });
    test('what is on line is not told so', async () => {
        const boat = await boatOf(DUPLEX);
        expect(planned(boat, 'FA').after.filter(({ say }) => say === 'off line')).toEqual([]);
    });
});

describe('a caution of flooding names', () => {
    test('the changeover that keeps the idle filter off', async () => {
        const boat = await boatOf(DUPLEX);
        expect(floods(boat, programOf(planned(boat, 'FB')))[0]).toMatch(/^CH1 at A stops it/);
    });
    test('the valve that was shut for it, not one that is always shut in a bypass; nor that one while it is bled', async () => {
        const boat = await boatOf('marrenwake');
        const told = floods(boat, programOf(planned(boat, 'FA-P')));
        expect(told[0]).toMatch(/^V1-P shut stops it/);
        expect(told.slice(1).join(' ')).not.toMatch(/VB-/);
    });
    test('the valve in the return too, since the engine lets it back', async () => {
        const boat = await boatOf(RETURN);
        expect(floods(boat, programOf(planned(boat, 'F1')))[0]).toMatch(/^V1 and VR1 shut stop it/);
    });
    test('no valve that stops it once the valve is open again, only what to close', async () => {
        const boat = await boatOf(SWEPT);
        const told = floods(boat, programOf(planned(boat, 'F1')));
        expect(told.at(-1)).toMatch(/^Close BF to stop it\. V1 shut stops what comes along the supply\./);
    });
});

describe('while an engine runs', () => {
    const running = (...more: ServiceStep[]): ServiceStep[] => [{ do: 'start', engine: 'E1', tries: 1, seconds: 10 }, { do: 'run', part: 'E1', seconds: 300 }, ...more, { do: 'stop', part: 'E1' }];
    const shut: ServiceStep = { do: 'set', part: 'V1', position: 'shut' };
    const open: ServiceStep = { do: 'set', part: 'V1', position: 'open' };
    test('its supply is not shut', async () => {
        const boat = await boatOf(SWEPT);
        const run = program(boat, running(shut, open));
        expect(lawsOf(boat, run)).toEqual([`${run.steps.indexOf(shut) + 1} not-fed: E1`]);
    });
    test('and may be once it stands still', async () => {
        const boat = await boatOf(SWEPT);
        expect(lawsOf(boat, program(boat, [...running(), shut, open]))).toEqual([]);
    });
    test('no filter that holds air is turned on line', async () => {
        const boat = await boatOf(DUPLEX);
        const turn: ServiceStep = { do: 'set', part: 'CH1', position: 'B' };
        const run = program(boat, [
            { do: 'stop', part: 'E1', keyOut: true }, { do: 'switch', thing: 'bilge pump', to: 'off' }, { do: 'place', thing: 'pads', part: 'FB' }, { do: 'place', thing: 'can', part: 'FB', holds: 2e-3 },
            { do: 'open', part: 'FB', opening: 'lid' }, { do: 'close', part: 'FB', opening: 'lid' }, { do: 'look', piece: 'all joints' }, { do: 'switch', thing: 'bilge pump', to: 'auto' },
            ...running(turn, { do: 'set', part: 'CH1', position: 'A' }),
        ]);
        expect(lawsOf(boat, run)).toContain(`${run.steps.indexOf(turn) + 1} air-left: E1, FB`);
    });
});
