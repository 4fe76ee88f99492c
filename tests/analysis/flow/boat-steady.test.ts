/** The steady flow of boats: the worked vessel by hand, boats drawn twice against EPANET, and what is no boat. */
import { describe, expect, test } from 'vitest';
import { inletOf, isTold, suctionAt, worstSuction, type Suction } from '../../../src/analysis/flow/suction';
import { boreSteps } from '../../../src/analysis/flow/bore-steps';
import { flowIn, type Asked } from '../../../src/analysis/flow/states';
import type { Steady } from '../../../src/analysis/flow/steady';
import { UPRIGHT } from '../../../src/analysis/tanks/attitude';
import { grossOf } from '../../../src/analysis/tanks/liquid';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import { networkOf, type Network } from '../../../src/analysis/topology/network';
import { loadBoat } from '../../../src/language/load';
import { example, load } from '../../checks/boats';
import { drawnSuction } from './drawn-suction';
import { LITRE_AN_HOUR, random } from './drawn-circuits';
import { byEpanet } from './epanet';

/*
 * The worked vessel at 3600 rpm: 15 L/h x 3600 / 2400 = 22.5 L/h = 6.25e-6 m³/s; in 8 mm, 50.27e-6 m², 0.1243 m/s, Re 0.1243 x 0.008 / 5.5e-6 = 181: laminar. 32 x 840 x 5.5e-6 x 0.1243 / 0.008² =
 * 287.2 Pa a metre: T1.P1 650 - 225 mm, S1 2.60, S1b 0.25 and S2 1.40 m are 4.675 m: 1.343 kPa. PR1 has two checks of 0.1 kPa. The dirty element is taken as 12 kPa.
 *
 * LP1 stands at 620 up, 3000 fwd, -150; the mouth of P1 at 225 up, and its place is that of its top, 2350 fwd, 700. Heeled 20° to starboard: 395 x 0.93969 + 850 x 0.34202 = 661.9 mm, 5.452 kPa.
 * At 25°, bow 3° up: (395 x 0.90631 + 850 x 0.42262) x 0.99863 + 650 x 0.05234 = (357.99 + 359.23) x 0.99863 + 34.02 = 750.3 mm, 6.180 kPa.
 */
describe('the worked vessel, by hand', async () => {
    const { boat } = await load(example('ottilwake'));
    const network = networkOf(boat);
    const engine = boat.consumers[0]!;
    const lineUp = lineUpsOf(boat)[0]!;
    const STATED = { density: 840, viscosity: 5.5e-6 };
    const deg = (heel: number, trim: number): Asked['attitude'] => ({ heel: heel * Math.PI / 180, trim: trim * Math.PI / 180 });
    const at = (attitude: Asked['attitude'], how: Partial<Asked> = {}): Suction => suctionAt(network, engine, inletOf(network, lineUp, 'E1')!, { lineUp, attitude, level: 'low', speed: 'full', fluid: STATED, ...how }) as Suction;
    test('each part of the sum, heeled 20° to starboard', () => {
        const { height, friction, elements, checks, total, flow } = at(deg(20, 0));
        expect(flow).toBeCloseTo(6.25e-6, 12);
        expect(height / 1000).toBeCloseTo(5.452, 2);
        expect(friction / 1000).toBeCloseTo(1.343, 2);
        expect(elements / 1000).toBeCloseTo(12, 2);
        expect(checks / 1000).toBeCloseTo(0.2, 2);
        expect(total / 1000).toBeCloseTo(19.0, 1);
        expect(total).toBeCloseTo(height + friction + elements + checks, 6);
    });
    test('at the worst corner', () => {
        expect(at(deg(25, 3)).height / 1000).toBeCloseTo(6.18, 2);
        expect(at(deg(25, 3)).total / 1000).toBeCloseTo(19.7, 1);
        const { worst } = worstSuction(network, engine, [lineUp], { speed: 'full', fluid: STATED });
        expect(worst!.suction.asked.attitude.heel).toBeCloseTo(deg(25, 3).heel, 12);
        expect(worst!.suction.asked.attitude.trim).toBeCloseTo(deg(25, 3).trim, 12);
        // 7.6 mm²/s, as a diesel may have at 5 °C: friction 1.343 x 7.6 / 5.5 = 1.856.
        expect(at(deg(25, 3), { fluid: { density: 840, viscosity: 7.6e-6 } }).total / 1000).toBeCloseTo(6.18 + 1.856 + 12 + 0.2, 2);
        expect(at(deg(25, 3), { fluid: { density: 840, viscosity: 7.6e-6 } }).total).toBeGreaterThan(20_000);
    });
    test('10 mm for the 2.60 m of S1: 287.2 x 2.60 x (1 - 0.8⁴) = 441 Pa', () => {
        const step = boreSteps(network, at(deg(25, 3))).find(({ part }) => part === 'S1')!;
        expect([step.from, step.to]).toEqual([0.008, 0.01]);
        expect(step.gain).toBeCloseTo(441, 0);
    });
});

const heads = (steady: Steady, points: readonly string[]): (number | undefined)[] => points.map((point) => steady.headAt(point));
const halfFull = ({ boat }: Network): Map<string, number> => new Map(boat.tanks.map((tank) => [tank.id, grossOf(tank)! / 2]));

describe('boats drawn twice', () => {
    test('every port as EPANET has it, nothing lost, in any order of writing', async () => {
        let shut = 0;
        for (let seed = 1; seed <= 60; seed++) {
            const drawn = drawnSuction(seed);
            const answer = await byEpanet(drawn.circuit);
            expect(answer, `seed ${seed}`).toBeDefined();
            const dice = random(seed);
            const orders = [drawn.blocks, [...drawn.blocks].map((block) => ({ block, lot: dice() })).sort((a, b) => a.lot - b.lot).map(({ block }) => block)];
            const found: Steady[] = [];
            for (const blocks of orders) {
                const { boat } = await load(blocks.join('\n'));
                const network = networkOf(boat);
                const steady = flowIn(network, { lineUp: lineUpsOf(boat)[0]!, attitude: drawn.lean, level: halfFull(network), speed: 'full', fluid: drawn.fluid });
                expect(steady.lacks, `seed ${seed}`).toEqual([]);
                found.push(steady);
            }
            const [first, second] = found as [Steady, Steady];
            for (const [hose, [from, to]] of drawn.ends) {
                const flow = answer!.flows.get(hose)!;
                // An open valve is counted as 1 Pa at 360 L/h: beside a short wide leg that shows.
                expect(Math.abs(first.flowIn(hose)! - flow), `seed ${seed}, ${hose}: ${flow / LITRE_AN_HOUR} L/h`).toBeLessThan(0.2 * LITRE_AN_HOUR + 2e-3 * Math.abs(flow));
                if (Math.abs(flow) < 1e-3 * LITRE_AN_HOUR) shut++;
                // A dead end behind a check has no one head.
                if (first.headAt(`${hose}:in`) !== undefined && Math.abs(flow) > 1e-3 * LITRE_AN_HOUR) {
                    // What an open valve is counted as takes hundredths of a millimetre.
                    expect(Math.abs(first.headAt(`${hose}:in`)! - answer!.heads.get(from)!), `seed ${seed}, ${hose}:in`).toBeLessThan(1e-3);
                    expect(Math.abs(first.headAt(`${hose}:out`)! - answer!.heads.get(to)!), `seed ${seed}, ${hose}:out`).toBeLessThan(1e-3);
                }
                const points = [`${hose}:in`, `${hose}:out`];
                heads(first, points).forEach((head, i) => { if (head !== undefined) expect(Math.abs(heads(second, points)[i]! - head), `seed ${seed}, ${points[i]!}`).toBeLessThan(1e-9); });
                expect(Math.abs(second.flowIn(hose)! - first.flowIn(hose)!)).toBeLessThan(1e-9 * 100 * LITRE_AN_HOUR);
            }
            for (const { solution: { ledger } } of first.groups) expect(ledger.worst, `seed ${seed}`).toBeLessThanOrEqual(1e-9 * Math.max(ledger.drawn, ledger.returned));
        }
        expect(shut).toBeGreaterThan(0);
    }, 120_000);
});

const boatOf = async (text: string): Promise<{ network: Network; steady: (how?: Partial<Asked>) => Steady }> => {
    const { boat } = await loadBoat({ 'boat.orlop': text });
    const network = networkOf(boat);
    return { network, steady: (how = {}) => flowIn(network, { lineUp: lineUpsOf(boat)[0]!, attitude: UPRIGHT, level: 'low', speed: 'full', ...how }) };
};

/** Whatever the question, a figure or nothing. */
function expectSane(network: Network, steady: Steady): void {
    for (const point of network.points) for (const figure of [steady.headAt(point), steady.gaugeAt(point)]) expect(figure === undefined || Number.isFinite(figure), point).toBe(true);
    for (const part of network.parts.keys()) { const flow = steady.flowIn(part); expect(flow === undefined || Number.isFinite(flow), part).toBe(true); }
    for (const { status } of steady.groups) expect(['converged', 'singular', 'unbalanced', 'unusable']).toContain(status);
    for (const point of network.points) { expect(steady.wayTo(point).length).toBeLessThanOrEqual(network.passages.length); expect(steady.wayFrom(point).length).toBeLessThanOrEqual(network.passages.length); }
}

const TANK = 'tank T1 {\n box 1000 x 600 x 400 mm low aft inner corner at 200 mm\n pickup P1 bore 8 mm mouth at 225 mm top at 650 mm\n drop R1\n vent\n}\n';
const ENGINE = 'engine E1 { burns 6 L/h at 3000 rpm   draws 18 L/h at 3000 rpm   inlet at 800 mm }\n';

test('alike, legs share evenly, and a narrow one takes less', async () => {
    const split = (b: string): string => `${TANK}${ENGINE}supply course Feed from T1.P1 to E1 {\n hose S1 bore 8 mm length 1 m\n split {\n leg a { hose SA bore 6 mm length 1 m }\n leg b { hose SB bore ${b} length 1 m }\n }\n}\nline-up RUN run is normal\n`;
    const even = (await boatOf(split('6 mm'))).steady();
    expect(even.flowIn('SA')).toBeCloseTo(2.5e-6, 12);
    expect(even.flowIn('SB')).toBeCloseTo(2.5e-6, 12);
    // Laminar, the flows are as the fourth powers of the bores: 4⁴ to 6⁴ is 256 to 1296.
    const uneven = (await boatOf(split('4 mm'))).steady();
    expect(uneven.flowIn('SB')! / uneven.flowIn('SA')!).toBeCloseTo(256 / 1296, 3);
});

test('what leans is lifted alike, whichever lean was asked first', async () => {
    const { boat } = await load(example('brackenwake'));
    const [a, b] = [networkOf(boat), networkOf({ ...boat })];
    const lineUp = lineUpsOf(boat)[0]!;
    const ask = (network: Network, heel: number): number | undefined => flowIn(network, { lineUp, attitude: { heel, trim: 0 }, level: 'full', speed: 'full' }).gaugeAt('LP1:in');
    const leans = [0, 0.2, -0.2, 0.1];
    const forward = leans.map((heel) => ask(a, heel));
    const backward = [...leans].reverse().map((heel) => ask(b, heel)).reverse();
    expect(backward).toEqual(forward);
    expect(new Set(forward).size).toBe(4);
});

describe('what is no boat', () => {
    test('parts that hang on nothing', async () => {
        const { network, steady } = await boatOf(`${TANK}${ENGINE}supply course Feed from T1.P1 to E1 { hose S1 bore 8 mm length 1 m }\nsupply course Lost from J9 to J8 { hose S9 bore 8 mm length 1 m }\nline-up RUN run is normal\n`);
        expectSane(network, steady());
        expect(steady().groupAt('S1:in')?.status).toBe('converged');
    });
    test('all shut: what is drawn has no way, and the rest is told', async () => {
        const { network, steady } = await boatOf(`${TANK}${ENGINE}supply course Feed from T1.P1 to E1 {\n shutoff V1 normally shut\n hose S1 bore 8 mm length 1 m\n}\nline-up RUN run is normal\n`);
        expectSane(network, steady());
        expect(steady().groupAt('S1:in')?.status).toBe('unbalanced');
    });
    test('a loop without a tank', async () => {
        const { network, steady } = await boatOf(`${ENGINE}supply course Feed from J1 to E1 {\n hose S1 bore 8 mm length 1 m\n}\nreturn course Back from E1 to J1 { hose B1 bore 6 mm length 1 m }\nline-up RUN run is normal\n`);
        expectSane(network, steady());
        expect(steady().headAt('S1:in')).toBeUndefined();
    });
    test('pumps against one another, and two in a row', async () => {
        for (const pumps of ['electric pump EP1 gives 60 L/h when off blocks\n electric pump EP2 gives 30 L/h when off blocks reversed', 'electric pump EP1 gives 60 L/h when off passes\n lift pump LP1', 'check CV1\n check CV2 reversed']) {
            const { network, steady } = await boatOf(`${TANK}tank T2 { pickup P1\n drop R1\n vent }\n${ENGINE}supply course Feed from T1.P1 to E1 {\n ${pumps}\n hose S1 bore 8 mm length 1 m\n}\ntransfer course X from T1.P1 to T2.R1 { electric pump TP gives 100 L/h }\nline-up RUN run is normal\nline-up MOVE transfer from RUN\n`);
            expectSane(network, steady());
            for (const lineUp of lineUpsOf(network.boat)) for (const level of ['low', 'full'] as const) for (const speed of ['full', 'stopped'] as const) expectSane(network, steady({ lineUp, level, speed }));
        }
    });
    test('no bore, no length, no height: what is missing is named, and nothing is no number', async () => {
        const { network, steady } = await boatOf('tank T1 { pickup P1\n drop R1 }\nengine E1 { draws 18 L/h at 3000 rpm }\nsupply course Feed from T1.P1 to E1 {\n hose S1\n filter F1\n lift pump LP1\n}\nreturn course Back from E1 to T1.R1 { hose B1 }\nline-up RUN run is normal\n');
        expectSane(network, steady());
        expect(steady().lacks.map(({ about, of }) => `${of} of ${about}`)).toEqual(expect.arrayContaining(['bore of S1', 'length of S1', 'bore of T1.P1', 'mouth of T1.P1', 'surface of T1']));
        expect(isTold(suctionAt(network, network.boat.consumers[0]!, { point: 'LP1:in', pump: 'LP1' }, { lineUp: lineUpsOf(network.boat)[0]!, attitude: UPRIGHT, level: 'low', speed: 'full' }))).toBe(false);
    });
    test('speeds and levels beyond all sense', async () => {
        const { network, steady } = await boatOf(`${TANK}${ENGINE}supply course Feed from T1.P1 to E1 { hose S1 bore 8 mm length 1 m }\nline-up RUN run is normal\n`);
        for (const speed of [0, -1, NaN, Infinity, 1e9]) expectSane(network, steady({ speed }));
        for (const volume of [0, -1, NaN, Infinity, 1e9]) expectSane(network, steady({ level: new Map([['T1', volume]]) }));
    });
});
