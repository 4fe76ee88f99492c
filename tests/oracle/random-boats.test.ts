/** The generator against the bench, on boats drawn by lot: what it writes must work, be clean where it can be, and be shortest. */
import { beforeAll, describe, expect, it } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { planBleed } from '../../src/procedures/bleed';
import { TooMany, rig, shortest, told, type Bench, type BenchStep, type Found } from './bench';
import { randomCase, toText, valvesOf, ventsOf, type Case } from './random-boats';

const SEEDS = Array.from({ length: 500 }, (_, i) => i + 1);
/** Up to so many valves and vents the search is asked for the last word. */
const SMALL = 10;

interface Trial {
    readonly seed: number;
    readonly drawn: Case;
    readonly small: boolean;
    readonly problems: readonly string[];
    /** What the generator wrote, or its refusal. */
    readonly wrote: readonly BenchStep[] | undefined;
    readonly refused: string | undefined;
    readonly contaminates: boolean;
    /** The law that the written sequence breaks, and where. */
    readonly broke: string | undefined;
    readonly ended: { readonly goal: boolean; readonly valves: boolean } | undefined;
}

const trials: Trial[] = [];

function replay(bench: Bench, steps: readonly BenchStep[]): Pick<Trial, 'broke' | 'contaminates' | 'ended'> {
    let state = bench.initial;
    let contaminates = false;
    for (const step of steps) {
        const next = bench.apply(state, step);
        if (!('state' in next)) return { broke: `${told(step)}: ${next.law}, ${next.why}`, contaminates, ended: undefined };
        state = next.state;
        contaminates ||= next.contaminates;
    }
    return { broke: undefined, contaminates, ended: { goal: bench.goalReached(state), valves: bench.valvesAsInEnd(state) } };
}

async function trial(seed: number): Promise<Trial> {
    const drawn = randomCase(seed);
    const { boat, problems } = await loadBoat({ 'bench.orlop': toText(drawn.boat) });
    const tags = new Map([...boat.parts, ...boat.consumers].flatMap((part) => part.vents.map((vent) => [vent.id, vent.tag] as const)));
    const plan = planBleed(boat, { ...drawn.request, prefilled: [] });
    const base = { seed, drawn, small: valvesOf(drawn.boat) + ventsOf(drawn.boat) <= SMALL, problems: problems.map((problem) => problem.message) };
    if ('refused' in plan) return { ...base, wrote: undefined, refused: JSON.stringify(plan.refused), contaminates: false, broke: undefined, ended: undefined };
    const wrote = plan.steps.flatMap(({ step }): BenchStep[] => {
        switch (step.do) {
            case 'set': return [{ do: 'set', part: step.part, position: step.position }];
            case 'prefill': return [{ do: 'prefill', part: step.part }];
            case 'bleed': return [{ do: 'bleed', vent: tags.get(step.vent) ?? step.vent, driver: step.driver.part }];
            default: return [];
        }
    });
    return { ...base, wrote, refused: undefined, ...replay(rig(drawn.boat, drawn.request), wrote) };
}

function search(of: Trial, contamination: boolean): Found | undefined | 'too many' {
    try {
        return shortest(of.drawn.boat, of.drawn.request, { contamination });
    } catch (error) {
        if (error instanceof TooMany) return 'too many';
        throw error;
    }
}

/** Enough to see the fault without running anything. */
const shown = (of: Trial, ...more: string[]): string => [
    `seed ${of.seed}`, JSON.stringify(of.drawn.request), ...(of.wrote ?? []).map(told), ...(of.refused ? [of.refused] : []), ...more,
].join('\n');
const steps = (found: Found): string => `the bench: ${found.steps.map(told).join('; ')}`;

describe('500 boats drawn by lot', () => {
    beforeAll(async () => { for (const seed of SEEDS) trials.push(await trial(seed)); }, 240_000);

    it('are written in good Orlop', () => {
        expect(trials.filter((one) => one.problems.length > 0).map((one) => shown(one, ...one.problems))).toEqual([]);
    });
    it('are varied enough to prove something', () => {
        expect(trials.filter((one) => one.wrote).length).toBeGreaterThanOrEqual(250);
        expect(trials.filter((one) => one.refused).length).toBeGreaterThanOrEqual(20);
        expect(trials.filter((one) => one.wrote?.some((step) => step.do === 'prefill')).length).toBeGreaterThanOrEqual(5);
        expect(trials.filter((one) => one.contaminates).length).toBeGreaterThanOrEqual(5);
    });
    it('get sequences that break no law', () => {
        expect(trials.filter((one) => one.broke).map((one) => shown(one, one.broke!))).toEqual([]);
    });
    it('are full of fuel at the end, with every valve as in the END line-up', () => {
        const ended = trials.filter((one) => one.ended);
        expect(ended.filter((one) => !one.ended!.valves).map((one) => shown(one, 'valves not as in END'))).toEqual([]);
        expect(ended.filter((one) => !one.ended!.goal).map((one) => shown(one, 'not all fuel'))).toEqual([]);
    });
    it('have nothing contaminated that could be kept clean', () => {
        const clean = trials.filter((one) => one.contaminates).map((one) => ({ one, found: search(one, false) }));
        expect(clean.flatMap(({ one, found }) => (found && found !== 'too many' ? [shown(one, steps(found))] : []))).toEqual([]);
    });
    it('are refused only where no sequence exists', () => {
        const searched = trials.filter((one) => one.refused && one.small).map((one) => ({ one, found: search(one, true) })).filter(({ found }) => found !== 'too many');
        expect(searched.length).toBeGreaterThanOrEqual(20);
        expect(searched.flatMap(({ one, found }) => (found && found !== 'too many' ? [shown(one, steps(found))] : []))).toEqual([]);
    });
    it('get the shortest sequence there is', () => {
        const searched = trials.filter((one) => one.wrote && one.small).map((one) => ({ one, found: search(one, one.contaminates) }))
            .flatMap(({ one, found }) => (found === 'too many' ? [] : [{ one, found }]));
        expect(searched.length).toBeGreaterThanOrEqual(150);
        expect(searched.filter(({ one, found }) => found?.cost !== one.wrote!.length)
            .map(({ one, found }) => shown(one, found ? steps(found) : 'the bench: none'))).toEqual([]);
    });
});
