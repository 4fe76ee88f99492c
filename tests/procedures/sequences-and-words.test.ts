/** A whole bleed sequence as one step, ways back from generated procedures, and what cautions say of the boat. */
import { describe, expect, test } from 'vitest';
import type { ServiceStep } from '../../src/model/step';
import { execute, wayBack, withCautions } from '../../src/procedures/service/execute';
import { procedureFor, programOf } from '../../src/procedures/service/generate';
import { isBlank } from '../../src/procedures/service/plan';
import { cautionAt } from '../../src/procedures/service/warnings';
import { HAZARDS } from '../../src/procedures/cautions';
import { boatOf, lawsOf, names, steps, without } from './boats';
import { GOLD } from './gold';

const BLEEDING = new Set<ServiceStep['do']>(['bleed', 'prove', 'start']);
const sequence: ServiceStep = { do: 'sequence', engine: 'E1', opened: ['F1', 'F2'], prefilled: [] };
/** The gold procedure with one step for all its bleeding and the start. */
const TOLD = steps(GOLD, (all) => {
    const first = all.findIndex(({ do: what }) => what === 'bleed');
    const rest = all.filter((step, i) => i >= first && !BLEEDING.has(step.do));
    const warned = rest.filter(({ do: what }) => what === 'caution');
    return [...all.slice(0, first), ...warned.filter((step) => step.do === 'caution' && step.topic !== 'waste'), sequence, ...rest.filter((step) => step.do !== 'caution' || step.topic === 'waste')];
});

describe('do bleed', () => {
    test('stands for its steps', async () => expect(lawsOf(await boatOf('ottilwake'), TOLD)).toEqual([]));
    test('opens the valve that is still shut, since it ends in the line-up', async () => {
        expect(lawsOf(await boatOf('ottilwake'), without(TOLD, { do: 'set', position: 'open' }))).toEqual([]);
    });
    test('says what was opened, and that it was not', async () => {
        const other = steps(TOLD, (all) => all.map((step) => (step === sequence ? { ...sequence, opened: ['F1', 'F2', 'LP1'] } : step)));
        expect(names(await boatOf('ottilwake'), other)).toEqual(['not-open']);
    });
    test('asks for the cautions of its steps', async () => {
        const bare = steps(TOLD, (all) => all.filter(({ do: what }) => what !== 'caution'));
        const boat = await boatOf('ottilwake');
        const warned = withCautions(boat, bare).steps;
        const before = warned.slice(0, warned.indexOf(sequence)).flatMap((step) => (step.do === 'caution' ? [step.topic] : []));
        expect(before.slice(-4)).toEqual(['flood', 'starter', 'jet', 'exhaust']);
    });
    test('where there is none the law says why: no pump comes to F1', async () => {
        const boat = await boatOf(`
            vessel Barrenwake { heights from "keel"   envelope heel 5 deg   trim 2 deg   level 5 to 95 % }
            tank T1 { box 600 x 400 x 400 mm   low aft inner corner at 10 mm up, 2000 mm fwd, 100 mm stbd   pickup P1 bore 8 mm mouth at 20 mm off bottom top at 430 mm up, 2100 mm fwd, 200 mm stbd   drop R1 }
            engine E1 { injection in-line mechanical   exhaust dry   inlet at 900 mm   backflow blocks   bleed BE1 at 920 mm }
            supply course Feed from T1.P1 to E1 { shutoff V1 at 440 mm normally open   filter F1 { ports at 700 mm up, 3000 mm fwd, 100 mm stbd   bleed B1 at 720 mm up, 3000 mm fwd, 100 mm stbd }   lift pump LP1 at 800 mm lever 3 mL }
            return course Back from E1 to T1.R1 { hose H2 }
            line-up RUN run is normal
        `);
        const { broken } = execute(boat, withCautions(boat, { jobs: [], starts: 'RUN', ends: 'RUN', steps: [{ do: 'open', part: 'F1', opening: 'ports' }, { do: 'close', part: 'F1', opening: 'ports' }, { do: 'sequence', engine: 'E1', opened: ['F1'], prefilled: [] }] }));
        expect(broken.at(-1)!.map(({ law, parts }) => [law, parts[0]])).toEqual([['air-left', 'E1'], ['on-suction', 'B1']]);
    });
});

test.each(['ottilwake-mended', 'brackenwake-mended', 'marrenwake'])('from every state of the procedures for the filters of %s the way back ends in the line-up', async (name) => {
    const boat = await boatOf(name);
    const filters = boat.parts.filter(({ kind }) => kind === 'filter').slice(0, 3);
    let looked = 0;
    for (const { id } of filters) {
        const made = procedureFor(boat, { jobs: [{ verb: 'renew', part: id, piece: 'element' }] });
        if (isBlank(made)) continue;
        const program = programOf(made);
        const { states } = execute(boat, program);
        for (const [i, state] of states.entries()) {
            const back = wayBack(boat, program, state);
            expect(back, `${id} after step ${i}`).toBeDefined();
            const abandoned = withCautions(boat, { ...program, jobs: [], steps: [...program.steps.slice(0, i), ...back!] });
            // Keys, and engines that run, are for whoever takes her over.
            expect(execute(boat, abandoned).atEnd.filter(({ law }) => law !== 'left-set'), `${id} after step ${i}`).toEqual([]);
            looked++;
        }
    }
    expect(looked).toBeGreaterThan(20);
});

describe('what a caution says', () => {
    test('of flooding: what stops it, and from which lean a return still comes', async () => {
        const boat = await boatOf('ottilwake');
        const { states } = execute(boat, GOLD);
        const told = (part: string): string => cautionAt(boat, GOLD, GOLD.steps.findIndex((step) => step.do === 'caution' && step.topic === 'flood' && step.part === part), states)!.text;
        // Trade, 5.6, at 95 %: F2 beyond 15 degrees to port, BS3 beyond 11, each within 1.5; the lid of F1 stands so high that no return reaches it but far over.
        const lean = (words: string): number => Number(/beyond ([\d.]+)° to port/.exec(words)?.[1]);
        expect(Math.abs(lean(told('F2')) - 15)).toBeLessThan(1.5);
        expect(Math.abs(lean(told('E1')) - 11)).toBeLessThan(1.5);
        expect(told('F1')).toContain('V1 shut stops it');
        expect(told('E1')).toContain('BS3');
    });
    test('somebody\'s own words stand', async () => {
        const boat = await boatOf('ottilwake');
        const own = steps(GOLD, (all) => [{ do: 'caution', topic: 'fire', signal: 'DANGER', text: 'Petrol aboard.' }, ...all]);
        expect(cautionAt(boat, own, 0, execute(boat, own).states)).toMatchObject({ signal: 'DANGER', text: 'Petrol aboard.', avoid: 'Petrol aboard.' });
    });
    test('a start is warned of in its place, beside the lever', async () => {
        const boat = await boatOf('ottilwake');
        const warned = withCautions(boat, steps(GOLD, (all) => all.filter(({ do: what }) => what !== 'caution')));
        const { states } = execute(boat, warned);
        const starters = warned.steps.flatMap((step, i) => (step.do === 'caution' && step.topic === 'starter' ? [cautionAt(boat, warned, i, states)!.hazard] : []));
        expect(starters).toEqual([HAZARDS.starter.hazard, 'The engine starts.']);
    });
    test('each topic has all three parts, in words and not in figures', () => {
        for (const { hazard, consequence, avoid } of Object.values(HAZARDS)) for (const words of [hazard, consequence, avoid]) expect(words).toMatch(/^[A-Z][^0-9]*\.$/);
    });
});
