/** What a bleed step should take: strokes or seconds, the crests that it sweeps, and strokes that only thin the air before a pump. */
import type { Id, Tank } from '../model/boat';
import type { BleedStep, Expectation } from '../model/step';
import { secondsByGravity } from '../analysis/air/gravity';
import { EFFICIENCY, FLUSH, rateOf, secondsToFlush, strokesToFlush, strokesToLift } from '../analysis/air/strokes';
import { segmentOf } from '../analysis/air/vents';
import { fluidOf } from '../analysis/flow/fluid';
import { GRAVITY, areaOf } from '../analysis/flow/pipe';
import { rowOf } from '../analysis/flow/row';
import { UPRIGHT } from '../analysis/tanks/attitude';
import { grossOf, surfaceAt } from '../analysis/tanks/liquid';
import { uprightSurface } from '../analysis/tanks/surface';
import { fittingOf } from '../analysis/topology/joints';
import { tanksBefore } from '../analysis/topology/paths';
import { volumeOf } from '../analysis/volumes';
import type { Flow } from '../analysis/air/pumping';
import type { Bench } from './executor';
import type { BenchState } from './state';

/** Air left in a part filled by hand: trade practice. */
const UNFILLED = 0.1;

/** A crest that holds air on the way, and how fast the driver moves liquid through it, m/s; undefined when that is not known. */
export interface Trap {
    readonly part: Id;
    readonly speed: number | undefined;
}

/** A pump that stands above the surface at its lowest level, by m, and so many strokes that thin the air before it and bring nothing. */
export interface DrawUp {
    readonly tank: Id;
    readonly above: number;
    readonly strokes: number;
}

const flowOf = (bench: Bench, state: BenchState, { vent, driver }: BleedStep): Flow | undefined => {
    const flow = bench.pumping.flow(vent, driver, bench.consumer, state.positions);
    return 'law' in flow ? undefined : flow;
};

/** Crests that hold air on the way to the vent. How fast a tank's height sweeps them hangs on its level today. */
export function trapsOf(bench: Bench, state: BenchState, step: BleedStep): Trap[] {
    const { network } = bench.pumping;
    const rate = rateOf(network.parts.get(step.driver.part), step.driver.by);
    return (flowOf(bench, state, step)?.sure ?? []).flatMap((id) => {
        const part = network.parts.get(id);
        if (!part?.crest || !state.gas.has(id)) return [];
        return [{ part: id, speed: rate === undefined || !part.bore ? undefined : rate / areaOf(part.bore.si) }];
    });
}

/** Absent when a volume is not known, or what the driver moves. */
export function expectationOf(bench: Bench, state: BenchState, step: BleedStep, prefilled: ReadonlySet<Id>): Expectation | undefined {
    const segment = segmentOf(bench.pumping.network, step.vent);
    const flow = flowOf(bench, state, step);
    const content = flow && segment !== undefined ? airIn(bench, state, [...flow.sure, segment], prefilled) : undefined;
    if (!flow || !content) return undefined;
    const { air, perhaps } = content;
    const [first, all] = [air > 0 ? air : perhaps, air + perhaps];
    if (step.driver.by === 'gravity') {
        const [likely, most] = [first, all].map((volume) => byGravity(bench, step, flow, volume));
        return likely && most && expectation('s', likely.pipes, most.fittings);
    }
    const pump = bench.pumping.network.parts.get(step.driver.part);
    if (step.driver.by === 'electric') return pump?.rate && expectation('s', secondsToFlush(first, pump.rate.si), secondsToFlush(all, pump.rate.si));
    return pump?.stroke && expectation('strokes', strokesToFlush(first, pump.stroke.si), strokesToFlush(all, pump.stroke.si));
}

const expectation = (unit: Expectation['in'], likely: number, most: number): Expectation => ({ in: unit, likely, most, think: Math.max(2 * likely, Math.ceil(1.25 * most)) });

/** m³ that are air, and that may be; undefined when one of the volumes is not known. */
function airIn(bench: Bench, state: BenchState, ids: readonly Id[], prefilled: ReadonlySet<Id>): { air: number; perhaps: number } | undefined {
    const found = { air: 0, perhaps: 0 };
    for (const id of ids) {
        const content = state.gas.get(id);
        if (content === undefined) continue;
        const volume = volumeOf(bench.pumping.network.boat, id);
        if (volume === undefined) return undefined;
        if (prefilled.has(id) || state.topped.has(id)) found.air += volume * UNFILLED;
        else if (content === 'air') found.air += volume;
        else found.perhaps += volume;
    }
    return found;
}

const tankOf = ({ pumping }: Bench, id: Id): Tank | undefined => pumping.network.boat.tanks.find((tank) => tank.id === id);

/**
 * Upright, by one row of pipes alone, each of them known: from the tank's lowest level by the pipes, and from the level to which it
 * has sunk when all has come, with filters and fittings. Undefined too where it cannot give so much at its lowest level.
 */
function byGravity(bench: Bench, { vent, driver }: BleedStep, flow: Flow, volume: number): ReturnType<typeof secondsByGravity> {
    const { network } = bench.pumping;
    const tank = tankOf(bench, driver.part);
    const gross = tank && grossOf(tank);
    const height = [...network.parts.values(), ...network.consumers.values()].flatMap((owner) => owner.vents).find(({ id }) => id === vent)?.at?.up?.si;
    const row = rowOf(network, flow.sure);
    if (!tank || gross === undefined || bench.level === undefined || height === undefined || flow.legs.length > 0 || row.lacks.length > 0) return undefined;
    const rest = gross * bench.level - FLUSH * volume;
    const [before, after] = [gross * bench.level, rest].map((left) => surfaceAt(tank, left, UPRIGHT));
    const mouth = flow.sure.map((id) => fittingOf(network.boat, id)?.mouth?.up?.si).find((up) => up !== undefined) ?? -Infinity;
    if (before === undefined || after === undefined || rest <= 0 || after <= mouth) return undefined;
    const [first, last] = [before, after].map((surface) => secondsByGravity(volume, row.pipes, surface - height, fluidOf(network.boat.vessel, tank.carries)));
    return first && last && { pipes: first.pipes, fittings: last.fittings };
}

/** Where a hand pump or a lever must lift: told from one stroke on that brings nothing. */
export function drawUp(bench: Bench, state: BenchState, step: BleedStep): DrawUp | undefined {
    if (step.driver.by !== 'hand' && step.driver.by !== 'lever') return undefined;
    const { network } = bench.pumping;
    const pump = network.parts.get(step.driver.part);
    const [id, ...others] = tanksBefore(bench.pumping.lineUp(state.positions), `${step.driver.part}:in`);
    const tank = id === undefined ? undefined : tankOf(bench, id);
    const sure = flowOf(bench, state, step)?.sure ?? [];
    const content = airIn(bench, state, sure.slice(0, Math.max(0, sure.indexOf(step.driver.part))), new Set());
    const surface = tank && bench.level !== undefined ? uprightSurface(tank, bench.level) : undefined;
    if (!tank || others.length > 0 || surface === undefined || !pump?.at?.up || !pump.stroke || !content) return undefined;
    const above = pump.at.up.si - surface;
    const strokes = strokesToLift(content.air + content.perhaps, EFFICIENCY * pump.stroke.si, fluidOf(network.boat.vessel, tank.carries).density * GRAVITY * above);
    return strokes === undefined || strokes < 1 ? undefined : { tank: tank.id, above, strokes: Math.ceil(strokes) };
}
