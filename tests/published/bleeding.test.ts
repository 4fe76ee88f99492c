/** Published bleeding orders, step by step against ours. Each source and each difference stands in the file of its boat. */
import { expect, test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import type { Boat } from '../../src/model/boat';
import type { Step } from '../../src/model/step';
import { planBleed, type BleedPlan, type Refusal } from '../../src/procedures/bleed';
import * as gravity from './gravity';
import { acts, oursIn, publishedIn, shutOrder } from './ledger';
import * as lever from './priming-lever';
import * as ranDry from './ran-dry';
import * as selfVenting from './self-venting';
import * as twoFilters from './two-filters';

interface Job {
    readonly engine?: string;
    readonly opened?: readonly string[];
    readonly ranDry?: boolean;
    readonly prefilled?: readonly string[];
}

async function load(text: string): Promise<Boat> {
    const { boat, problems } = await loadBoat({ 'boat.orlop': text });
    expect(problems.map(({ message }) => message)).toEqual([]);
    return boat;
}

async function plan(text: string, { engine = 'E1', opened = [], ranDry = false, prefilled = [] }: Job): Promise<BleedPlan | Refusal> {
    return planBleed(await load(text), { engine, opened, ranDry, prefilled, starts: 'SERVICE', ends: 'RUN' });
}

async function steps(text: string, job: Job): Promise<readonly Step[]> {
    const found = await plan(text, job);
    if ('refused' in found) throw new Error(`refused: ${found.refused}`);
    return found.steps.map(({ step }) => step);
}

const touched = (found: readonly Step[]): string[] => found.flatMap((step) => ('vent' in step ? [step.vent] : []));

// The document asks for the whole order before a new engine is started and after any opening of the low-pressure side.
test.each([
    ['a new engine, all dry', { ranDry: true }],
    ['filter and injection pump opened', { opened: ['F1', 'E1'] }],
    ['only the filter opened', { opened: ['F1'] }],
])('TM 55-1930-209-14&P-9-4, %s: filter, head, governor, cold-start device, all by the lever', async (_, job) => {
    const found = acts(await steps(lever.boat({ filter: 'after the pump' }), job));
    expect(found).toEqual(oursIn(lever.ORDER));
    expect(shutOrder(found)).toEqual(shutOrder(publishedIn(lever.ORDER)));
});

test('TM 55-1930-209-14&P-9-4, the cold-start device on its own branch: the engine\'s order stays', async () => {
    const found = acts(await steps(lever.boat({ filter: 'after the pump', coldStart: 'on a branch' }), { opened: ['F1', 'E1'] }));
    expect(shutOrder(found).filter((vent) => vent !== 'BS4')).toEqual(['BS1', 'BS2', 'BS3']);
    expect(found.filter((act) => act.startsWith('work '))).toEqual(shutOrder(found).map(() => 'work LP1 lever'));
});

test('TM 55-1930-209-14&P-9-4, the cold-start device on its own branch: bled by itself, by the lever', async () => {
    const found = acts(await steps(lever.boat({ filter: 'after the pump', coldStart: 'on a branch' }), { engine: 'CS1', opened: ['S4'] }));
    expect(found.slice(found.indexOf('open BS4'), found.indexOf('open BS4') + 3)).toEqual(['open BS4', 'work LP1 lever', 'shut BS4']);
});

// Not printed, concluded from the same page: with the filter before the pump its screw is on the suction side of the lever.
test('trap: the filter moved before the lift pump is filled by hand behind a shut valve, and its screw stays shut', async () => {
    const found = await steps(lever.boat({ filter: 'before the pump', coldStart: 'none' }), { opened: ['F1', 'E1'] });
    expect(touched(found)).not.toContain('BS1');
    expect(acts(found)).toEqual([
        'fill F1', 'open V1', 'open BS2', 'work LP1 lever', 'shut BS2', 'open BS3', 'work LP1 lever', 'shut BS3', 'start E1',
    ]);
});

test('trap: where that filter may not be filled by hand either, the plan is refused and names it', async () => {
    const found = await plan(lever.boat({ filter: 'before the pump', prefill: 'forbidden', coldStart: 'none' }), { opened: ['F1'] });
    expect(found).toHaveProperty('refused');
    expect('refused' in found && found.refused).toMatch(/\b(F1|BS1)\b/);
});

// Bottom of the tank 1200 mm + 20 % of 400 mm = 1280 mm lowest surface; the screw is at 705 mm: 575 mm of head.
test('the same filter below the tank is bled at its own screw, by gravity', async () => {
    const found = await steps(lever.boat({ filter: 'before the pump', prefill: 'forbidden', coldStart: 'none', tank: 1200 }), { opened: ['F1'] });
    expect(acts(found).slice(0, 4)).toEqual(['open V1', 'open BS1', 'let T1 flow', 'shut BS1']);
});

test('TM 55-1930-209-14&P-21: no screw is named, so none is opened', async () => {
    const found = await steps(selfVenting.unitInjectors, { opened: ['F1'], prefilled: ['F1'] });
    expect(touched(found)).toEqual([]);
    expect(acts(found)).toEqual(oursIn(selfVenting.unitInjectorsOrder));
});

test('TM 5-4310-393-14: a pump that vents itself under gravity needs only a start', async () => {
    const found = await steps(selfVenting.gravityFed, { opened: ['S1'] });
    expect(acts(found)).toEqual(oursIn(selfVenting.gravityFedOrder));
});

// Bottom 1200 mm + 20 % of 300 mm = 1260 mm lowest surface; the highest screw is at 900 mm: 360 mm of head.
test('dealer\'s page, gravity, filter changed: left, right', async () => {
    const found = acts(await steps(gravity.boat(1200), { opened: ['F1'] }));
    expect(found).toEqual(oursIn(gravity.filterChanged));
    expect(shutOrder(found)).toEqual(shutOrder(publishedIn(gravity.filterChanged)).slice(0, 2));
});

test('dealer\'s page, gravity, ran dry: left, right, pump inlet, and no injector', async () => {
    const found = acts(await steps(gravity.boat(1200), { ranDry: true }));
    expect(found).toEqual(oursIn(gravity.ranDry));
    expect(shutOrder(found)).toEqual(shutOrder(publishedIn(gravity.ranDry)));
});

// Bottom 0 mm + 95 % of 300 mm = 285 mm highest surface, below every screw.
test('trap: the same boat with its tank below the filter has nothing that drives the fuel', async () => {
    const found = await plan(gravity.boat(0), { opened: ['F1'] });
    expect(found).toHaveProperty('refused');
    expect('refused' in found && found.refused).toMatch(/\b(F1|E1)\b/);
});

test('"Painless bleeding", filters changed: the secondary by the lever', async () => {
    const found = acts(await steps(twoFilters.boat, { opened: ['F1', 'F2'] }));
    expect(found).toEqual(oursIn(twoFilters.filtersChanged));
    expect(shutOrder(found)[0]).toBe(shutOrder(publishedIn(twoFilters.filtersChanged))[0]);
});

test('"Painless bleeding", air beyond the secondary: the secondary, then the pump', async () => {
    const found = acts(await steps(twoFilters.boat, { opened: ['F2', 'S4'] }));
    expect(shutOrder(found)).toEqual(shutOrder(publishedIn(twoFilters.airBeyond)));
    expect(found).toEqual(oursIn(twoFilters.airBeyond));
});

test('dealer\'s answer, ran dry: first filter, second filter, pump; the starter within its limit', async () => {
    const found = await steps(ranDry.boat, { ranDry: true });
    expect(acts(found)).toEqual(oursIn(ranDry.ORDER));
    expect(shutOrder(acts(found))).toEqual(shutOrder(publishedIn(ranDry.ORDER)));
    const starts = found.filter((step) => step.do === 'start');
    expect(starts).toHaveLength(1);
    for (const start of starts) expect(start.seconds).toBeLessThanOrEqual(ranDry.LONGEST_CRANK_S);
});
