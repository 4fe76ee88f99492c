/** Laws that steady flow obeys whatever the figures, and what is said of questions that have no answer. */
import { describe, expect, test } from 'vitest';
import type { Circuit, FlowLink, FlowNode } from '../../../src/analysis/flow/circuit';
import type { Pipe } from '../../../src/analysis/flow/pipe';
import { solve, type Solution } from '../../../src/analysis/flow/solve';
import { LITRE_AN_HOUR, drawnCircuit, random } from './drawn-circuits';
import { hasWays } from './imposed-ways';

const WEIGHT = 840 * 9.80665;
const fluid = { density: 840, viscosity: 3.5e-6 };
const tank = (id: string, head: number): FlowNode => ({ id, up: head, head });
const joint = (id: string, litres = 0, up = 0): FlowNode => ({ id, up, drawn: litres * LITRE_AN_HOUR });
const pipe = (mm: number, length: number): Pipe => ({ bore: mm / 1000, length });
const hose = (id: string, from: string, to: string, more: Partial<FlowLink> = {}): FlowLink => ({ id, from, to, pipes: [pipe(8, 2)], ...more });
const near = (value: number | undefined, expected: number, relative = 1e-6): void => expect(Math.abs(value! / expected - 1), `${value} against ${expected}`).toBeLessThan(relative);
const of = (nodes: FlowNode[], links: FlowLink[]): Circuit => ({ nodes, links, fluid });
const litres = (solution: Solution, link: string): number => solution.links.get(link)!.flow! / LITRE_AN_HOUR;
const ONE_WAY = { check: { opens: 0 } };

describe('laws', () => {
    const lost = (flow: number, mm = 8, length = 2, viscosity = 3.5e-6): number =>
        solve({ nodes: [tank('T', 1), joint('E', flow)], links: [hose('P', 'T', 'E', { pipes: [pipe(mm, length)] })], fluid: { density: 840, viscosity } }).links.get('P')!.lost!;

    // Hagen and Poiseuille. The least that every link takes (0.01 m for each m³/s) is a millionth of these.
    test.each([[2, 'the flow', lost(40), lost(80)], [3, 'the length', lost(40), lost(40, 8, 6)], [1.5, 'the viscosity', lost(40), lost(40, 8, 2, 5.25e-6)], [16, 'the bore, halved', lost(40), lost(40, 4)]])(
        'laminar: %d times as much by %s', (times, _what, once, then) => near(then / once, times, 1e-5));

    test('the order of pipes in a row changes nothing, laminar or turbulent', () => {
        for (const flow of [20, 400, 900]) {
            const [a, b, c] = [pipe(8, 2), pipe(6, 0.5), pipe(10, 3)];
            const row = (pipes: Pipe[]): number => solve(of([tank('T', 5), joint('E', flow)], [hose('P', 'T', 'E', { pipes, k: 3 })])).links.get('P')!.lost!;
            near(row([a, b, c]), row([c, a, b]), 1e-12);
            const apart = solve(of([tank('T', 5), joint('X'), joint('Y'), joint('E', flow)],
                [hose('1', 'T', 'X', { pipes: [b] }), hose('2', 'X', 'Y', { pipes: [c], k: 3 }), hose('3', 'Y', 'E', { pipes: [a] })]));
            // Three links have the least resistance of a link, 0.01 m for each m³/s, three times.
            near(row([a, b, c]), 5 - apart.nodes.get('E')!.head!, 1e-5);
        }
    });

    test.each([10, 200, 500, 2000])('%d L/h: two equal hoses carry half each', (flow) => {
        const solution = solve(of([tank('T', 5), joint('E', flow)], [hose('A', 'T', 'E', { k: 4 }), hose('B', 'T', 'E', { k: 4 })]));
        near(litres(solution, 'A'), flow / 2, 1e-9);
        near(litres(solution, 'B'), flow / 2, 1e-9);
    });

    test('what comes leaves, at every node and over all; and each link takes what its ends leave it', () => {
        for (let seed = 1; seed <= 100; seed++) {
            const { ledger, worstHead } = solve(drawnCircuit(seed, 2 + seed % 80));
            const size = ledger.given + ledger.returned;
            expect(ledger.worst, `seed ${seed}`).toBeLessThan(1e-9 * size + 1e-12);
            expect(Math.abs(ledger.error), `seed ${seed}`).toBeLessThan(1e-9 * size + 1e-12);
            expect(worstHead, `seed ${seed}`).toBeLessThan(1e-6);
        }
    });

    test('a link turned round changes a sign only', () => {
        for (let seed = 1; seed <= 60; seed++) {
            const circuit = drawnCircuit(seed, 2 + seed % 40);
            const turns = (link: FlowLink, i: number): boolean => i % 2 === 0 && !link.check && !link.pump;
            const turned = solve({ ...circuit, links: circuit.links.map((link, i) => turns(link, i) ? { ...link, from: link.to, to: link.from } : link) });
            const straight = solve(circuit);
            circuit.links.forEach((link, i) => expect(Math.abs(straight.links.get(link.id)!.flow! - (turns(link, i) ? -1 : 1) * turned.links.get(link.id)!.flow!), `seed ${seed}`).toBeLessThan(1e-10));
        }
    });

    test('the same question has the same answer, to the last bit', () => {
        const circuit = drawnCircuit(5, 60);
        expect(JSON.stringify([...solve(circuit).links])).toBe(JSON.stringify([...solve(circuit).links]));
    });
});

describe('parts', () => {
    // 3000 Pa at 60 L/h, half of it turbulent: at 120 L/h 1500 × 2 + 1500 × 4 = 9000 Pa; at 30 L/h 750 + 375 = 1125 Pa.
    test.each([[60, 3000], [120, 9000], [30, 1125], [-120, -9000]])('an element at %d L/h takes %d Pa', (flow, drop) => {
        const element = { drop: 3000, at: 60 * LITRE_AN_HOUR, turbulent: 0.5 };
        near(solve(of([tank('T', 1), joint('E', flow)], [{ id: 'F', from: 'T', to: 'E', element }])).links.get('F')!.lost! * WEIGHT, drop, 1e-5);
    });

    test('a purely turbulent element at rest', () => {
        const element = { drop: 3000, at: 60 * LITRE_AN_HOUR, turbulent: 1 };
        expect(solve(of([tank('T', 1), joint('E')], [{ id: 'F', from: 'T', to: 'E', element }])).nodes.get('E')!.head).toBeCloseTo(1, 8);
    });

    // 2000 Pa are 2000 / (840 × 9.80665) = 0.24279 m.
    test('a spring holds until its pressure stands before it, and takes it while it flows', () => {
        const check = { opens: 2000 };
        const at = (level: number): Solution => solve(of([tank('A', level), tank('B', 0)], [hose('P', 'A', 'B', { check })]));
        expect(at(0.24).links.get('P')).toMatchObject({ flow: 0, shut: true });
        const open = at(0.5);
        expect(open.links.get('P')!.shut).toBe(false);
        near(litres(open, 'P'), litres(solve(of([tank('A', 0.5 - 2000 / WEIGHT), tank('B', 0)], [hose('P', 'A', 'B')])), 'P'), 1e-6);
    });

    // 2 m at rest falling to 0 at 200 L/h; straight: the hose meets it where 2 (1 - q/200) = 1 + its loss.
    test('a pump works where its curve meets what stands against it', () => {
        const pump = { curve: [{ flow: 0, head: 2 }, { flow: 200 * LITRE_AN_HOUR, head: 0 }] };
        const solution = solve(of([tank('A', 0), joint('X'), tank('B', 1)], [{ id: 'pump', from: 'A', to: 'X', pump }, hose('P', 'X', 'B')]));
        const [q, lost] = [litres(solution, 'P'), solution.links.get('P')!.lost!];
        expect(q).toBeGreaterThan(10);
        near(2 * (1 - q / 200), 1 + lost, 1e-6);
        near(-solution.links.get('pump')!.lost!, 1 + lost, 1e-6);
    });

    test('a pump that cannot lift so high lets nothing back', () => {
        const pump = { curve: [{ flow: 0, head: 2 }, { flow: 200 * LITRE_AN_HOUR, head: 0 }] };
        const solution = solve(of([tank('A', 0), tank('B', 2.5)], [{ id: 'pump', from: 'A', to: 'B', pump, pipes: [pipe(8, 2)] }]));
        expect(solution).toMatchObject({ status: 'converged' });
        expect(solution.links.get('pump')).toMatchObject({ flow: 0, shut: true });
    });

    test('a pump before a shut valve stands at the head of no flow', () => {
        const pump = { curve: [{ flow: 0, head: 2 }, { flow: 200 * LITRE_AN_HOUR, head: 0 }] };
        expect(solve(of([tank('A', 0.5), joint('X')], [{ id: 'pump', from: 'A', to: 'X', pump }])).nodes.get('X')!.head).toBeCloseTo(2.5, 6);
    });

    test('a consumer that draws 90 and returns 60 takes 30 in all', () => {
        const solution = solve(of([tank('T', 1), joint('in', 90), joint('out', -60)], [hose('S', 'T', 'in'), hose('R', 'out', 'T')]));
        near(litres(solution, 'R'), 60);
        near(-solution.nodes.get('T')!.left! / LITRE_AN_HOUR, 30);
        near((solution.ledger.drawn - solution.ledger.returned) / LITRE_AN_HOUR, 30);
    });

    test('a pump that moves what is imposed draws it on one side and gives it on the other', () => {
        const solution = solve(of([tank('A', 0), joint('X'), joint('Y'), tank('B', 1)],
            [hose('S', 'A', 'X'), { id: 'pump', from: 'X', to: 'Y', pump: { flow: 60 * LITRE_AN_HOUR } }, hose('D', 'Y', 'B')]));
        expect(solution.status).toBe('converged');
        near(litres(solution, 'S'), 60);
        near(litres(solution, 'D'), 60);
        near(-solution.links.get('pump')!.lost!, 1 + 2 * solution.links.get('S')!.lost!);
    });
});

describe('no answer, and why', () => {
    const about = (solution: Solution): readonly string[] => solution.faults.map((fault) => fault.about);

    test.each<[string, Partial<FlowLink>]>([
        ['zero bore', { pipes: [pipe(0, 2)] }], ['bore that is no number', { pipes: [pipe(NaN, 2)] }], ['negative length', { pipes: [pipe(8, -1)] }],
        ['zero length and no losses', { pipes: [pipe(8, 0)] }], ['nothing at all', { pipes: [] }], ['losses without a bore', { pipes: [], k: 3 }],
        ['a curve that rises', { pump: { curve: [{ flow: 0, head: 1 }, { flow: 1, head: 2 }] } }], ['an element of no flow', { element: { drop: 1, at: 0, turbulent: 0 } }],
        ['an end that is not there', { to: 'nowhere' }], ['both ends at one node', { to: 'T' }], ['a spring below zero', { check: { opens: -1 } }],
    ])('%s: unusable, by its name', (_what, wrong) => {
        const solution = solve(of([tank('T', 1), joint('E', 10)], [hose('P', 'T', 'E'), hose('Q', 'T', 'E', wrong)]));
        expect(solution.status).toBe('unusable');
        expect(about(solution)).toEqual(['Q']);
    });

    test('a closed link may have any figures', () => {
        expect(solve(of([tank('T', 1), joint('E', 10)], [hose('P', 'T', 'E'), hose('Q', 'T', 'E', { closed: true, pipes: [pipe(0, 0)] })])).status).toBe('converged');
    });

    test('a mouth of no length with losses is solved', () => {
        expect(solve(of([tank('T', 1), joint('E', 10)], [hose('P', 'T', 'E', { pipes: [pipe(8, 0)], k: 1 })])).status).toBe('converged');
    });

    test('no tank: nothing flows and no head is told; with something drawn, it has no way', () => {
        const still = solve(of([joint('A'), joint('B')], [hose('P', 'A', 'B')]));
        expect(still).toMatchObject({ status: 'singular', loose: [{ nodes: ['A', 'B'], over: 0 }] });
        expect(still.links.get('P')!.flow).toBeCloseTo(0, 15);
        expect(still.nodes.get('A')!.head).toBeUndefined();
        const drawing = solve(of([joint('A'), joint('B', 36)], [hose('P', 'A', 'B')]));
        expect(drawing).toMatchObject({ status: 'unbalanced', loose: [{ nodes: ['A', 'B'] }] });
        near(drawing.loose[0]!.over, 1e-5);
        expect(drawing.links.get('P')!.flow).toBeUndefined();
    });

    test('no tank, but what is drawn is returned: the flow is told, the heads are not', () => {
        const solution = solve(of([joint('A', 60), joint('B', -60)], [hose('P', 'A', 'B')]));
        expect(solution.status).toBe('singular');
        near(litres(solution, 'P'), -60);
    });

    test('two tanks joined by nothing stand still', () => {
        const solution = solve(of([tank('A', 1), tank('B', 2)], []));
        expect(solution).toMatchObject({ status: 'converged', ledger: { given: 0, taken: 0 } });
        expect(solution.nodes.get('B')!.head).toBe(2);
        expect(solve(of([], [])).status).toBe('converged');
    });

    test('a loop of checks: nothing goes round, what is drawn comes the short way', () => {
        const ring = [hose('1', 'A', 'B', ONE_WAY), hose('2', 'B', 'C', ONE_WAY), hose('3', 'C', 'A', ONE_WAY)];
        const still = solve(of([tank('T', 1), joint('A'), joint('B'), joint('C')], [hose('P', 'T', 'A'), ...ring]));
        expect(still.status).toBe('converged');
        for (const id of ['P', '1', '2', '3']) expect(Math.abs(still.links.get(id)!.flow!)).toBeLessThan(1e-11);
        const drawing = solve(of([tank('T', 1), joint('A'), joint('B', 30), joint('C')], [hose('P', 'T', 'A'), ...ring]));
        near(litres(drawing, '1'), 30);
        expect(drawing.links.get('3')).toMatchObject({ flow: 0, shut: true });
    });

    test('a consumer behind a shut valve is named, and the other one is told as without it', () => {
        const solution = solve(of([tank('T', 1), joint('A', 30), joint('B', 40)], [hose('P', 'T', 'A'), hose('V', 'T', 'B', { closed: true })]));
        expect(solution).toMatchObject({ status: 'unbalanced', loose: [{ nodes: ['B'] }] });
        near(solution.loose[0]!.over / LITRE_AN_HOUR, 40);
        near(litres(solution, 'P'), 30);
        expect(solution.links.get('V')!.flow).toBe(0);
        expect(solution.nodes.get('B')).toEqual({});
    });

    test('a consumer behind a check the wrong way round is no different', () => {
        const solution = solve(of([tank('T', 1), joint('A', 30), joint('B', 40)], [hose('P', 'T', 'A'), hose('C', 'B', 'A', ONE_WAY)]));
        expect(solution).toMatchObject({ status: 'unbalanced', loose: [{ nodes: ['B'] }] });
        near(litres(solution, 'P'), 30);
        expect(solution.links.get('C')!.flow).toBeUndefined();
    });

    test('what has no way does not take the way of others: B is fed, though what Z returns cannot get past the check', () => {
        const solution = solve(of([tank('T', 1), joint('B', 10), joint('Z', -50)], [hose('1', 'T', 'B', ONE_WAY), hose('2', 'B', 'Z', ONE_WAY)]));
        expect(solution).toMatchObject({ status: 'unbalanced', loose: [{ nodes: ['Z'] }] });
        near(litres(solution, '1'), 10);
        near(solution.loose[0]!.over / LITRE_AN_HOUR, -50);
    });

    test('a pump that moves what is imposed against a shut valve: it has no way, and draws nothing either', () => {
        const solution = solve(of([tank('A', 0), joint('X', 20), joint('Y'), tank('B', 1)],
            [hose('S', 'A', 'X'), { id: 'pump', from: 'X', to: 'Y', pump: { flow: 60 * LITRE_AN_HOUR } }, hose('D', 'Y', 'B', { closed: true })]));
        expect(solution).toMatchObject({ status: 'unbalanced', loose: [{ nodes: ['Y'] }] });
        near(solution.loose[0]!.over / LITRE_AN_HOUR, -60);
        near(litres(solution, 'S'), 20);
        expect(solution.links.get('pump')!.flow).toBeUndefined();
    });

    test('between two checks that are both held shut no head is told; behind one it is the least that can stand there', () => {
        const between = solve(of([tank('low', 0), joint('X'), tank('high', 1)], [hose('1', 'low', 'X', ONE_WAY), hose('2', 'X', 'high', ONE_WAY)]));
        expect(between).toMatchObject({ status: 'singular', loose: [{ nodes: ['X'], over: 0 }] });
        const behind = solve(of([tank('T', 0.7), joint('X')], [hose('1', 'T', 'X', ONE_WAY)]));
        expect(behind.status).toBe('converged');
        expect(behind.nodes.get('X')!.head).toBeCloseTo(0.7, 8);
    });

    test.each([1e300, 1e-300, Infinity, -Infinity, NaN, 1e9, 1e-9, -1e9])('%d anywhere: no number that is none, no exception', (value) => {
        const curve = [{ flow: 0, head: value }, { flow: 1e-4, head: -1 }];
        const more: Partial<FlowLink>[] = [
            { pipes: [{ bore: value, length: 1 }] }, { pipes: [{ bore: 0.008, length: value }] }, { k: value }, { check: { opens: value } }, { pump: { flow: value } },
            { pump: { curve } }, { element: { drop: value, at: 1e-5, turbulent: 0.5 } }, { element: { drop: 100, at: value, turbulent: 0.5 } }, { element: { drop: 100, at: 1e-5, turbulent: value } },
        ];
        const circuits = [
            ...more.map((wrong) => of([tank('T', 1), joint('E', 10), tank('U', 0)], [hose('P', 'T', 'E'), hose('Q', 'T', 'E', wrong), hose('R', 'E', 'U')])),
            ...[{ up: value }, { head: value }, { drawn: value }].map((wrong) => of([tank('T', 1), { ...joint('E', 10), ...wrong }, tank('U', 0)], [hose('P', 'T', 'E'), hose('R', 'E', 'U', ONE_WAY)])),
            ...[{ density: value }, { viscosity: value }].map((wrong): Circuit => ({ ...of([tank('T', 1), joint('E', 10)], [hose('P', 'T', 'E')]), fluid: { ...fluid, ...wrong } })),
        ];
        for (const circuit of circuits) expectNumbers(solve(circuit), JSON.stringify(circuit));
    });

    test('whatever is asked: an answer without a number that is none, and every flow that is told balances', () => {
        const seen = new Map<string, number>();
        for (let seed = 1; seed <= 2000; seed++) {
            const circuit = anyCircuit(seed);
            const solution = solve(circuit);
            seen.set(solution.status, (seen.get(solution.status) ?? 0) + 1);
            expectNumbers(solution, `seed ${seed}`);
            // Heads have sixteen digits; a flow imposed through a bore of 1 mm makes them kilometres high, and 1 m can drive 100 m³/s through what hinders least.
            const drawn = circuit.nodes.reduce((sum, node) => sum + Math.abs(node.drawn ?? 0), 0);
            const tallest = Math.max(0, ...[...solution.nodes.values()].map(({ head = 0 }) => Math.abs(head)));
            for (const { id, head: fixed } of circuit.nodes) {
                const { head, left } = solution.nodes.get(id) ?? {};
                if (fixed === undefined && head !== undefined) expect(Math.abs(left!), `seed ${seed}, ${id}`).toBeLessThan(1e-9 * (solution.ledger.given + drawn) + 1e-11 + 1e-13 * tallest);
            }
            if (tallest < 100 && solution.loose.length === 0 && solution.worstHead !== undefined) expect(solution.worstHead, `seed ${seed}`).toBeLessThan(1e-6);
            // By the greatest flow through the network, which knows nothing of heads: no way where there is none, and only there.
            if (solution.status !== 'unusable') expect(solution.status === 'unbalanced', `seed ${seed}`).toBe(!hasWays(circuit));
            if (solution.status === 'unbalanced') expect(solution.loose.some((part) => part.over !== 0), `seed ${seed}`).toBe(true);
            else if (solution.status !== 'unusable') for (const { shut, flow } of solution.links.values()) if (shut) expect(flow).toBe(0);
        }
        for (const status of ['converged', 'singular', 'unbalanced', 'unusable']) expect(seen.get(status), status).toBeGreaterThan(50);
    });
});

function expectNumbers(solution: Solution, message: string): void {
    for (const part of [...solution.nodes.values(), ...solution.links.values(), solution.ledger, { worst: solution.worstHead ?? 0 }])
        for (const value of Object.values(part)) if (typeof value === 'number') expect(Number.isFinite(value), message).toBe(true);
}

/** Anything at all between a few nodes, sense or not. */
function anyCircuit(seed: number): Circuit {
    const dice = random(seed);
    const some = (chance: number): boolean => dice() < chance;
    const size = 1 + Math.floor(dice() * 12);
    const nodes = Array.from({ length: size }, (_, i): FlowNode => ({
        id: `N${i}`, up: dice(), ...(some(0.25) ? { head: dice() * 3 } : {}), ...(some(0.2) ? { drawn: (dice() - 0.5) * 10 ** (-2 - 4 * dice()) } : {}),
    }));
    const links = Array.from({ length: Math.floor(dice() * 2 * size) }, (_, i): FlowLink => {
        const from = Math.floor(dice() * size);
        const to = size === 1 || some(0.003) ? from : (from + 1 + Math.floor(dice() * (size - 1))) % size;
        const most = 10 ** (-5 + 2 * dice());
        return {
            id: `L${i}`, from: `N${from}`, to: `N${to}`, closed: some(0.1),
            ...(some(0.9) ? { pipes: [{ bore: some(0.005) ? 0 : 10 ** (-3 + 1.7 * dice()), length: some(0.1) ? 0 : dice() * 10 }], k: 0.01 + dice() * 5 } : {}),
            ...(some(0.2) ? { element: { drop: 10 ** (2 + 3 * dice()), at: most, turbulent: some(0.5) ? 1 : dice() } } : {}),
            ...(some(0.3) ? { check: { opens: some(0.5) ? 0 : dice() * 5000 } } : {}),
            ...(some(0.1) ? { pump: { flow: most * (dice() - 0.3) } } : some(0.1) ? { pump: { curve: [{ flow: 0, head: 5 * dice() + 1 }, { flow: most, head: 0.5 }] } } : {}),
        };
    });
    return { nodes, links, fluid };
}
