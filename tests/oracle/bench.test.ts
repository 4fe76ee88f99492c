/**
 * The bench itself, on boats small enough to work through by hand. The reasoning stands beside each number; it is taken
 * from the laws alone: a trap is cleared only at its own vent, what flows is cleared by a bleed further down, and the sequence
 * ends with every valve as in RUN.
 */
import { describe, expect, it } from 'vitest';
import { rig, shortest, told, type Bench, type BenchBoat, type BenchCourse, type BenchStep, type Item, type Request, type State } from './bench';

const valve = (name: string): Item => ({ kind: 'shutoff', name });
const hose = (name: string): Item => ({ kind: 'hose', name });
const tee = (name: string): Item => ({ kind: 'tee', name });
const check = (name: string): Item => ({ kind: 'check', name });
const primer: Item = { kind: 'hand primer', name: 'PR1' };
const lift: Item = { kind: 'lift pump', name: 'LP1' };
const filter = (name: string, vents = 1, more: Partial<Extract<Item, { kind: 'filter' }>> = {}): Item =>
    ({ kind: 'filter', name, vents: Array.from({ length: vents }, (_, i) => (vents > 1 ? `B${name}-${i + 1}` : `B${name}`)), ...more });
const feed = (...items: Item[]): BenchCourse => ({ service: 'supply', name: 'Feed', from: 'T1.P1', to: 'E1', items });
const back = (...items: Item[]): BenchCourse => ({ service: 'return', name: 'Back', from: 'E1', to: 'T1.R1', items: items.length > 0 ? items : [hose('R')] });

function boat(courses: BenchCourse[], run: Record<string, string>, service: Record<string, string> = {}, more: Partial<BenchBoat> = {}): BenchBoat {
    const used = (tank: string, stem: string): string[] => courses.flatMap((course) => [course.from, course.to])
        .filter((end) => end.startsWith(`${tank}.${stem}`)).map((end) => end.slice(tank.length + 1));
    return {
        tanks: ['T1', 'T2'].map((name) => ({ name, pickups: used(name, 'P'), drops: used(name, 'R') })),
        engines: [{ name: 'E1', kind: 'engine', vents: ['BE1'] }], selectors: [], courses,
        lineUps: [{ name: 'RUN', use: 'run', settings: run }, { name: 'SERVICE', use: 'service', settings: service }],
        ...more,
    };
}
const opening = (...opened: string[]): Request => ({ engine: 'E1', opened, ranDry: false, starts: 'SERVICE', ends: 'RUN' });
const dry: Request = { engine: 'E1', opened: [], ranDry: true, starts: 'SERVICE', ends: 'RUN' };

const step = (text: string): BenchStep => {
    const [word, part, , driver] = text.split(' ') as [string, string, string?, string?];
    if (word === 'bleed') return { do: 'bleed', vent: part, driver: driver! };
    return word === 'prefill' ? { do: 'prefill', part } : { do: 'set', part, position: word };
};
function work(bench: Bench, ...steps: string[]): State {
    return steps.reduce((state, text) => {
        const next = bench.apply(state, step(text));
        if (!('state' in next)) throw new Error(`${text}: ${next.law} ${next.why}`);
        return next.state;
    }, bench.initial);
}
const law = (bench: Bench, state: State, text: string): string => {
    const next = bench.apply(state, step(text));
    return 'law' in next ? next.law : 'allowed';
};
const cost = (of: BenchBoat, request: Request, contamination = false): number | undefined => shortest(of, request, { contamination })?.cost;

describe('a filter changed on tank, valve, primer, filter, lift pump, filter, engine', () => {
    const one = boat([feed(valve('V1'), primer, filter('F1'), lift, filter('F2')), back()], { V1: 'open' }, { V1: 'shut' });
    const bench = rig(one, opening('F1'));

    it('takes as air what stands open to the opened filter, both ways, through the engine and as far as the tank', () => {
        expect(bench.notFuel(bench.initial).toSorted()).toEqual(['E1', 'F1', 'F2', 'LP1', 'PR1', 'R']);
    });
    it('counts what a pump lets run down to it, and stops at a shut valve', () => {
        const hosed = boat([feed(valve('V1'), hose('S1'), filter('F1'), primer, filter('F2')), back()], { V1: 'open' }, { V1: 'shut' });
        const after = rig(hosed, opening('F2'));
        // F2 is fed by PR1, which is fed by F1 and S1: all could run down to it, and on to the engine and its return.
        expect(after.notFuel(after.initial).toSorted()).toEqual(['E1', 'F1', 'F2', 'PR1', 'R', 'S1']);
        const beyond = rig(boat([feed(hose('S0'), valve('V1'), primer, filter('F1')), back()], { V1: 'open' }, { V1: 'shut' }), opening('F1'));
        expect(beyond.notFuel(beyond.initial).toSorted()).toEqual(['E1', 'F1', 'PR1', 'R']);
    });
    it('is bled with one valve and three vents', () => {
        // V1 has to be opened, and F1, F2 and E1 are traps with one vent each: 1 + 3, and in this order every step counts.
        expect(cost(one, opening('F1'))).toBe(4);
        const done = work(bench, 'open V1', 'bleed BF1 with PR1', 'bleed BF2 with PR1', 'bleed BE1 with PR1');
        expect(bench.goalReached(done)).toBe(true);
        expect(bench.goalReached(work(bench, 'open V1', 'bleed BF1 with PR1', 'bleed BF2 with PR1'))).toBe(false);
        expect(bench.notFuel(work(bench, 'open V1', 'bleed BF1 with PR1', 'bleed BF2 with PR1'))).toEqual(['E1', 'R']);
    });
    it('gets no solid stream from the second filter while the first keeps its air', () => {
        expect(law(bench, work(bench, 'open V1'), 'bleed BF2 with PR1')).toBe('L6');
    });
    it('gets no solid stream past a trap into which air is swept', () => {
        const swept = rig(boat([feed(primer, hose('S1'), filter('F1', 2), filter('F2')), back()], {}), opening('PR1'));
        const solid = work(swept, 'bleed BF1-1 with PR1', 'bleed BF1-2 with PR1', 'bleed BF2 with PR1');
        expect(swept.notFuel(solid)).toEqual(['E1', 'R']);
        // Air let into S1 again would be swept into F1: F2 cannot be bled past it. F1 can, from its first vent on.
        const airAgain = { ...solid, notFuel: solid.notFuel | (1 << swept.segments.indexOf('S1')) };
        expect(law(swept, airAgain, 'bleed BF2 with PR1')).toBe('L6');
        expect(law(swept, airAgain, 'bleed BF1-2 with PR1')).toBe('L4');
        const first = swept.apply(airAgain, step('bleed BF1-1 with PR1')) as { state: State };
        // S1 is clear, but its air may have risen under the second vent of F1.
        expect(swept.notFuel(first.state).toSorted()).toEqual(['E1', 'F1', 'R']);
        const second = swept.apply(first.state, step('bleed BF1-2 with PR1')) as { state: State };
        expect(swept.notFuel(second.state).toSorted()).toEqual(['E1', 'R']);
    });
    it('knows which side of a pump a vent is on, and whether it draws from a tank', () => {
        expect(law(bench, work(bench, 'open V1'), 'bleed BF1 with LP1')).toBe('L1');
        expect(law(bench, bench.initial, 'bleed BF1 with PR1')).toBe('L2');
        // The lever draws through F1, which lies along its suction and not beside it, so L5 says nothing; but F1 keeps its air.
        expect(law(bench, work(bench, 'open V1'), 'bleed BF2 with LP1')).toBe('L6');
    });
    it('wants the return open', () => {
        const valved = boat([feed(primer, filter('F1')), back(hose('R'), valve('V9'))], { V9: 'open' }, { V9: 'shut' });
        expect(law(rig(valved, opening('F1')), rig(valved, opening('F1')).initial, 'bleed BF1 with PR1')).toBe('L3');
        // open V9, bleed F1, bleed E1
        expect(cost(valved, opening('F1'))).toBe(3);
    });
});

describe('vents in their order', () => {
    const one = boat([feed(primer, filter('F1', 2)), back()], {});
    const bench = rig(one, opening('F1'));
    it('are not taken out of turn', () => {
        expect(law(bench, bench.initial, 'bleed BF1-2 with PR1')).toBe('L4');
        expect(bench.notFuel(work(bench, 'bleed BF1-1 with PR1'))).toContain('F1');
        expect(bench.notFuel(work(bench, 'bleed BF1-1 with PR1', 'bleed BF1-2 with PR1'))).not.toContain('F1');
    });
    it('cost one step each', () => {
        // two of F1, one of E1
        expect(cost(one, opening('F1'))).toBe(3);
    });
});

describe('a boat with a lift-pump lever and no primer', () => {
    const with_ = (more: object, vents = 1): BenchBoat =>
        boat([feed(valve('V1'), hose('S1'), filter('F1', vents, { role: 'primary', ...more }), lift, filter('F2')), back()], { V1: 'open' }, { V1: 'shut' });

    it('has its primary filled by hand, before the valve is opened', () => {
        // No pump presses on F1, so its air goes only by hand: prefill F1, open V1, bleed F2, bleed E1.
        expect(shortest(with_({}), opening('F1'), { contamination: false })!.steps.map(told)).toEqual(['prefill F1', 'open V1', 'bleed BF2 with LP1', 'bleed BE1 with LP1']);
        const bench = rig(with_({}), opening('F1'));
        expect(law(bench, work(bench, 'open V1'), 'prefill F1')).toBe('prefill');
        // Swept with the rest of the suction line, it is fuel.
        expect(bench.notFuel(work(bench, 'prefill F1', 'open V1', 'bleed BF2 with LP1'))).toEqual(['E1', 'R']);
    });
    it('may have any filter filled of which that is said', () => {
        expect(cost(with_({ role: undefined, prefill: 'allowed' }), opening('F1'))).toBe(4);
    });
    it('has it filled before the first bleed or not at all', () => {
        const bench = rig(with_({}), opening('F1'));
        const begun = { ...bench.initial, begun: true };
        expect(law(bench, bench.initial, 'prefill F1')).toBe('allowed');
        expect(law(bench, begun, 'prefill F1')).toBe('prefill');
    });
    it('cannot be bled when that is forbidden, or not said for a filter that is no primary', () => {
        expect(cost(with_({ prefill: 'forbidden' }), opening('F1'), true)).toBeUndefined();
        expect(cost(with_({ prefill: 'not on the clean side' }), opening('F1'), true)).toBeUndefined();
        expect(cost(with_({ role: undefined }), opening('F1'), true)).toBeUndefined();
    });
    it('cannot be bled when the primary was not opened and so cannot be filled', () => {
        // F2 opened with V1 shut: F1 stands open to it through the lift pump, so it is in doubt, and it is shut.
        expect(cost(with_({}), opening('F2'), true)).toBeUndefined();
    });
    it('needs no hand for a filter without a vent, which flow clears', () => {
        // open V1, bleed F2, bleed E1
        expect(cost(with_({}, 0), opening('F1'))).toBe(3);
        expect(law(rig(with_({}, 0), opening('F1')), rig(with_({}, 0), opening('F1')).initial, 'prefill F1')).toBe('prefill');
    });
    it('does not fill by hand what a primer could bleed', () => {
        const primed = boat([feed(valve('V1'), primer, filter('F1', 1, { prefill: 'allowed' })), back()], { V1: 'open' }, { V1: 'shut' });
        expect(law(rig(primed, opening('F1')), rig(primed, opening('F1')).initial, 'prefill F1')).toBe('prefill');
    });
});

describe('two tanks and a tee', () => {
    const joined = (one: Item[], other: Item[], run: Record<string, string>): BenchBoat => boat([
        feed(...one, tee('JT'), primer, filter('F1')),
        { service: 'supply', name: 'FeedB', from: 'T2.P1', to: 'JT', items: other }, back(),
    ], run);

    it('are bled one after the other when each valve stands at the tee', () => {
        // Both lines are in doubt. With both open the pump draws the air of either (L5), so each is swept alone, through F1:
        // shut V2, bleed F1, open V2, shut V1, bleed F1, open V1, bleed E1. Two states of the valves must be visited, from both
        // open and back (4 turns), and F1 stands on the way of both lines (2 bleeds), then E1.
        const boatAtTee = joined([hose('S1'), valve('V1')], [hose('S2'), valve('V2')], { V1: 'open', V2: 'open' });
        expect(rig(boatAtTee, opening('F1')).notFuel(rig(boatAtTee, opening('F1')).initial).toSorted()).toEqual(['E1', 'F1', 'PR1', 'R', 'S1', 'S2', 'T1.P1', 'T2.P1']);
        expect(law(rig(boatAtTee, opening('F1')), rig(boatAtTee, opening('F1')).initial, 'bleed BF1 with PR1')).toBe('L5');
        expect(cost(boatAtTee, opening('F1'))).toBe(7);
    });
    it('cannot be bled when each valve stands at the tank, where the other line stays beside the suction', () => {
        expect(cost(joined([valve('V1'), hose('S1')], [valve('V2'), hose('S2')], { V1: 'open', V2: 'open' }), opening('F1'), true)).toBeUndefined();
    });
    it('ask for no more than one line when the other is shut off at the tee', () => {
        // S2 was never in doubt: bleed F1, bleed E1.
        expect(cost(joined([hose('S1'), valve('V1')], [hose('S2'), valve('V2')], { V1: 'open', V2: 'shut' }), opening('F1'))).toBe(2);
    });
    it('are changed over by a selector', () => {
        // START on tank one, END on tank two, S2 fuel all along: turn, bleed F1, bleed E1.
        const selected = boat([
            { service: 'supply', name: 'FeedA', from: 'T1.P1', to: 'SV1.A', items: [hose('S1')] },
            { service: 'supply', name: 'FeedB', from: 'T2.P1', to: 'SV1.B', items: [hose('S2')] },
            { service: 'supply', name: 'Feed', from: 'SV1.Out', to: 'E1', items: [primer, filter('F1')] }, back(),
        ], { SV1: 'Two' }, { SV1: 'One' }, { selectors: [{ name: 'SV1', ports: ['A', 'B', 'Out'], positions: { One: [['A', 'Out']], Two: [['B', 'Out']] } }] });
        expect(rig(selected, opening('F1')).notFuel(rig(selected, opening('F1')).initial)).not.toContain('S2');
        expect(cost(selected, opening('F1'))).toBe(3);
    });
});

describe('a primer in a bypass', () => {
    const passed = (...main: Item[]): BenchBoat => boat([
        feed(valve('V1'), { kind: 'split', legs: [{ name: 'main', items: main }, { name: 'bypass', items: [valve('V2'), primer] }] }, filter('F1')), back(),
    ], { V1: 'open', V2: 'shut', V3: 'open' }, { V1: 'shut' });

    it('works when the main leg has a check', () => {
        // open V1, open V2, bleed F1, bleed E1, shut V2
        expect(cost(passed(check('C1')), opening('F1'))).toBe(5);
    });
    it('pumps in a circle when it has none', () => {
        const bench = rig(passed(hose('S9')), opening('F1'));
        // What PR1 presses runs back through S9 to its own inlet, so F1 is on its suction side too.
        expect(law(bench, work(bench, 'open V1', 'open V2'), 'bleed BF1 with PR1')).toBe('L1');
        expect(cost(passed(hose('S9')), opening('F1'), true)).toBeUndefined();
    });
    it('works when the main leg can be shut', () => {
        // open V1, open V2, shut V3, bleed F1, bleed E1, then V2 and V3 back
        expect(cost(passed(valve('V3')), opening('F1'))).toBe(7);
    });
});

describe('two legs side by side', () => {
    const legs = (...valves: Item[]): BenchBoat => boat([
        feed(primer, { kind: 'split', legs: [{ name: 'one', items: [...valves.slice(0, 1), hose('S1')] }, { name: 'two', items: [...valves.slice(1), hose('S2')] }] }, filter('F1')), back(),
    ], { V1: 'open', V2: 'open' });
    it('give no solid stream together', () => {
        const bench = rig(legs(), opening('F1'));
        const inLegs = { ...bench.initial, notFuel: 1 << bench.segments.indexOf('S1') };
        expect(law(bench, inLegs, 'bleed BF1 with PR1')).toBe('L6');
        expect(cost(legs(), opening('F1'), true)).toBeUndefined();
    });
    it('are swept one at a time where they can be shut', () => {
        // shut V2, bleed F1, open V2, shut V1, bleed F1, open V1, bleed E1
        expect(cost(legs(valve('V1'), valve('V2')), opening('F1'))).toBe(7);
    });
});

describe('a generator on a side branch', () => {
    const branched = (...own: Item[]): BenchBoat => boat([
        feed(primer, tee('J1'), filter('F1')), back(),
        { service: 'supply', name: 'Gen', from: 'J1', to: 'G1', items: [...own, hose('S5')] },
        { service: 'return', name: 'BackG', from: 'G1', to: 'T1.R2', items: [hose('R2')] },
    ], { V2: 'open' }, {}, {
        engines: [{ name: 'E1', kind: 'engine', vents: ['BE1'] }, { name: 'G1', kind: 'generator', vents: ['BG1'] }],
    });
    it('is fuel after the main engine ran dry, and is contaminated when it cannot be shut off', () => {
        const bench = rig(branched(), dry);
        expect(bench.notFuel(bench.initial).toSorted()).toEqual(['E1', 'F1', 'PR1', 'T1.P1']);
        expect(bench.apply(bench.initial, step('bleed BF1 with PR1'))).toMatchObject({ contaminates: true });
        expect(bench.notFuel(work(bench, 'bleed BF1 with PR1')).toSorted()).toEqual(['E1', 'G1', 'R2', 'S5']);
        expect(cost(branched(), dry)).toBeUndefined();
        // bleed F1, bleed E1
        expect(cost(branched(), dry, true)).toBe(2);
    });
    it('takes no harm from a stream of fuel', () => {
        const bench = rig(branched(), dry);
        expect(bench.apply({ ...bench.initial, notFuel: 0 }, step('bleed BF1 with PR1'))).toMatchObject({ contaminates: false });
    });
    it('leaves the main engine fuel when it is opened behind a primer of its own', () => {
        // Liquid could come to F2 from the dip tube, PR1 and PR2; nothing comes back from it through PR2, nor from LP1 to the tee.
        const pumped = boat([
            feed(primer, tee('J1'), lift, filter('F1')), back(),
            { service: 'supply', name: 'Gen', from: 'J1', to: 'G1', items: [{ kind: 'hand primer', name: 'PR2' }, filter('F2'), hose('S5')] },
            { service: 'return', name: 'BackG', from: 'G1', to: 'T1.R2', items: [hose('R2')] },
        ], {}, {}, { engines: branched().engines });
        const bench = rig(pumped, { ...opening('F2'), engine: 'G1' });
        expect(bench.notFuel(bench.initial).toSorted()).toEqual(['F2', 'G1', 'PR1', 'PR2', 'R2', 'S5', 'T1.P1']);
    });
    it('is kept clean by its shutoff, at the cost of two turns', () => {
        // shut V2, bleed F1, bleed E1, open V2
        expect(cost(branched(valve('V2')), dry)).toBe(4);
        expect(cost(branched(valve('V2')), dry, true)).toBe(2);
    });
});

describe('an electric primer that does not run', () => {
    const behind = (whenOff?: 'passes'): BenchBoat =>
        boat([feed(hose('S1'), { kind: 'electric primer', name: 'EP1', ...(whenOff && { whenOff }) }, filter('F1')), back()], {});
    it('passes nothing, unless it is said that it does', () => {
        // At rest nothing comes through it; the engine draws through it all the same, since it runs when the engine does.
        expect(rig(behind(), opening('F1')).runs).toBe(true);
        expect(rig(behind('passes'), opening('F1')).runs).toBe(true);
        expect(rig(behind(), opening('F1')).notFuel(rig(behind(), opening('F1')).initial)).not.toContain('S1');
        expect(rig(behind('passes'), opening('F1')).notFuel(rig(behind('passes'), opening('F1')).initial)).toContain('S1');
    });
    it('passes while it is worked', () => {
        expect(law(rig(behind(), opening('F1')), rig(behind(), opening('F1')).initial, 'bleed BF1 with EP1')).toBe('allowed');
    });
});
