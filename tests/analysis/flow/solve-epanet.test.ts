/** Steady flow against EPANET 2.3.5: cases whose numbers were taken once and stand here, and hundreds of drawn circuits that it solves beside us. */
import { describe, expect, test } from 'vitest';
import type { Circuit, FlowLink, FlowNode } from '../../../src/analysis/flow/circuit';
import { DRAWN, areaOf, frictionFactor } from '../../../src/analysis/flow/pipe';
import { solve, type Solution } from '../../../src/analysis/flow/solve';
import { LITRE_AN_HOUR, drawnCircuit } from './drawn-circuits';
import { SCALE, byEpanet, type Answer } from './epanet';

/** EPANET's heads as ours: its g is 32.2 ft/s². */
const ours = (head: number): number => head / SCALE;
const fluid = { density: 840, viscosity: 3.5e-6 };
const tank = (id: string, head: number): FlowNode => ({ id, up: head, head });
const joint = (id: string, litres = 0, up = 0): FlowNode => ({ id, up, drawn: litres * LITRE_AN_HOUR });
const hose = (id: string, from: string, to: string, mm: number, length: number, k = 0): FlowLink => ({ id, from, to, pipes: [{ bore: mm / 1000, length }], k });
const near = (value: number | undefined, expected: number, relative: number): void => expect(Math.abs(value! / expected - 1), `${value} against ${expected}`).toBeLessThan(relative);
const litres = (solution: Solution, link: string): number => solution.links.get(link)!.flow! / LITRE_AN_HOUR;
const single = (flow: number, viscosity = 3.5e-6): Circuit => ({ nodes: [tank('T', 1), joint('E', flow)], links: [hose('P', 'T', 'E', 8, 3)], fluid: { density: 840, viscosity } });

describe('numbers of EPANET', () => {
    // 128 ν L Q / (π g D⁴) = 128 × 3.5e-6 × 3 × 1.666667e-5 / (π × 9.80665 × 4.096e-9) = 0.177508 m.
    test('8 mm × 3 m, 60 L/h: 0.177364 m', () => {
        const { lost } = solve(single(60)).links.get('P')!;
        near(lost, ours(0.177364), 1e-5);
        near(lost, 0.177508, 1e-5);
    });

    test('VISCOSITY 3.5 is 3.5 × 1.1e-5 ft²/s: 1.02193 times as much', () => {
        near(solve(single(60, 3.5 * 1.1e-5 * 0.3048 ** 2)).links.get('P')!.lost! / solve(single(60)).links.get('P')!.lost!, 1.02193, 1e-5);
    });

    // By hand with g 9.80665: 0.710744 m are lost, so at the pump 0.1 - 0.710744 - 0.6 = -1.210744 m, times 840 × 9.80665 = -9.9736 kPa.
    test('a lift of 0.5 m through three hoses: -9.9736 kPa at the pump', () => {
        const solution = solve({
            nodes: [tank('T', 0.1), joint('A'), joint('B'), joint('pump', 90, 0.6)],
            links: [hose('P1', 'T', 'A', 10, 1, 2.5), hose('P2', 'A', 'B', 8, 2.5, 6), hose('P3', 'B', 'pump', 6, 0.8, 3.5)], fluid,
        });
        near(0.1 - solution.nodes.get('pump')!.head!, 0.710744, 1e-4);
        near(solution.nodes.get('pump')!.gauge, -9973.6, 1e-4);
    });

    test('8 mm × 2 m beside 6 mm × 3 m, 120 L/h: 99.0968 and 20.9032 L/h', () => {
        const solution = solve({ nodes: [tank('T', 1), joint('E', 120)], links: [hose('P1', 'T', 'E', 8, 2), hose('P2', 'T', 'E', 6, 3)], fluid });
        near(litres(solution, 'P1'), 99.0968, 1e-5);
        near(litres(solution, 'P2'), 20.9032, 1e-5);
        near(solution.links.get('P1')!.lost, ours(0.19529), 5e-5);
    });

    test('two tanks and a loop, 100 L/h', () => {
        const solution = solve({
            nodes: [tank('T1', ours(0.5)), tank('T2', ours(0.505)), joint('M'), joint('E', 100)],
            links: [hose('P1', 'T1', 'M', 8, 1.5), hose('P2', 'T2', 'M', 8, 2.5), hose('P3', 'M', 'E', 8, 2), hose('P4', 'T1', 'E', 6, 4)], fluid,
        });
        for (const [node, head] of [['M', 0.426803], ['E', 0.266649]] as const) near(solution.nodes.get(node)!.head, ours(head), 1e-5);
        for (const [link, flow] of [['P1', 49.5234], ['P2', 31.7438], ['P3', 81.2672], ['P4', 18.7328]] as const) near(litres(solution, link), flow, 1e-5);
    });

    test.each([[60, 0.084446], [150, 0.033778], [200, 0.029253], [250, 0.035023], [300, 0.040714], [400, 0.037966], [600, 0.033766]])('%d L/h through 8 mm: f %d', (flow, f) => {
        const { lost, speed, reynolds } = solve(single(flow)).links.get('P')!;
        near(speed, flow * LITRE_AN_HOUR / (Math.PI * 0.004 ** 2), 1e-9);
        near(reynolds, flow / 60 * 757.881, 1e-5);
        near(lost! * 2 * 9.80665 * 0.008 / (3 * speed! ** 2), f, 3e-5);
        near(frictionFactor(reynolds!, DRAWN / 0.008), f, 3e-5);
    });

    test('a check against a higher head passes nothing back', () => {
        const solution = solve({ nodes: [tank('T1', 0.1), tank('T2', 0.8)], links: [{ ...hose('P', 'T1', 'T2', 8, 3), check: { opens: 0 } }], fluid });
        expect(solution).toMatchObject({ status: 'converged' });
        expect(solution.links.get('P')).toMatchObject({ flow: 0, shut: true });
    });
});

/** A closed pipe leaks some 1e-8 ft³/s for each foot there, m³/s. */
const LEAK = 1e-8;

/** Its checks may pass up to 1e-4 ft³/s (10 L/h) backwards, or stay shut under some 0.0005 ft: by its own answer, one of them is not as a check must be. */
const breaksCheck = ({ links }: Circuit, { heads, flows }: Answer): boolean => links.some(({ id, from, to, check }) => check
    && (flows.get(id)! < -LEAK || (flows.get(id)! < LEAK && heads.get(from)! - heads.get(to)! > 1e-6)));

/** Then they are shut or opened for it as we have them; that ours are as checks must be is asked apart. */
const withChecksAs = (circuit: Circuit, solution: Solution): Circuit => ({
    ...circuit,
    links: circuit.links.map(({ check, ...link }) => check && solution.links.get(link.id)!.shut ? { ...link, closed: true } : link),
});

test('400 drawn circuits of 2 to 60 links: heads within 0.2 % of their span, flows within 0.2 % of the greatest', async () => {
    const regimes = [0, 0, 0];
    const seen = { shut: 0, open: 0, pumping: 0, held: 0, helped: 0 };
    for (let seed = 1; seed <= 400; seed++) {
        const circuit = drawnCircuit(seed, 2 + seed % 59);
        const solution = solve(circuit);
        const flowOf = (id: string): number => solution.links.get(id)!.flow!;
        expect(['converged', 'singular'], `seed ${seed}`).toContain(solution.status);
        for (const { id, check, pump } of circuit.links) {
            if (!check && !pump) continue;
            const { flow, lost, shut } = solution.links.get(id)!;
            expect(flow, `seed ${seed}, ${id}`).toBeGreaterThanOrEqual(0);
            if (check && shut && lost !== undefined) expect(lost).toBeLessThanOrEqual(0);
            if (check) seen[shut ? 'shut' : 'open']++; else seen[shut ? 'held' : 'pumping']++;
        }
        let other = await byEpanet(circuit);
        expect(other, `seed ${seed}`).toBeDefined();
        if (breaksCheck(circuit, other!)) { seen.helped++; other = await byEpanet(withChecksAs(circuit, solution)); }
        const heads = [...solution.nodes].flatMap(([id, { head }]) => head === undefined ? [] : [{ id, head, theirs: other!.heads.get(id)! }]);
        const span = Math.max(...heads.map(({ head }) => head)) - Math.min(...heads.map(({ head }) => head));
        const greatest = Math.max(...circuit.links.map(({ id }) => Math.abs(flowOf(id))));
        for (const { id, head, theirs } of heads) {
            const off = Math.abs(head - theirs);
            expect(off, `seed ${seed}, head of ${id}: ${head} and ${theirs}`).toBeLessThan(0.002 * span + 1e-6);
        }
        for (const { id, pipes, closed } of circuit.links) {
            const off = Math.abs(flowOf(id) - other!.flows.get(id)!);
            expect(off, `seed ${seed}, flow in ${id}: ${flowOf(id)} and ${other!.flows.get(id)}`).toBeLessThan(0.002 * greatest + LEAK);
            if (pipes && !closed) {
                const re = Math.abs(flowOf(id)) / areaOf(pipes[0]!.bore) * pipes[0]!.bore / circuit.fluid.viscosity;
                regimes[re < 2000 ? 0 : re < 4000 ? 1 : 2]!++;
            }
        }
    }
    // That all was there to be compared.
    for (const count of [...regimes, seen.shut, seen.open, seen.pumping]) expect(count).toBeGreaterThan(100);
    expect(seen.helped).toBeLessThan(40);
});
