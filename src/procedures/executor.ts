/** Runs one step on the state of the boat: the state after it, and every law that it breaks. */
import type { Id } from '../model/boat';
import type { BleedStep, Driver, Step } from '../model/step';
import { isValve, reach, type Positions } from '../analysis/topology/network';
import { turned } from '../analysis/topology/line-ups';
import { uprightSurface } from '../analysis/tanks/surface';
import { running } from '../analysis/topology/paths';
import { runsBelow } from '../analysis/air/heights';
import { Pumping, type Broken, type Flow } from '../analysis/air/pumping';
import { headEnough, segmentOf, ventsOf } from '../analysis/air/vents';
import type { BenchState } from './state';

/** What the executor needs to know beside the state: which consumer is being bled, and what was opened. */
export interface Bench {
    readonly pumping: Pumping;
    readonly consumer: Id;
    readonly opened: ReadonlySet<Id>;
    /** The tank level that gravity may count on, as a fraction. */
    readonly level: number | undefined;
}

export interface Result {
    readonly state: BenchState;
    readonly broken: readonly Broken[];
}

export function run(bench: Bench, state: BenchState, step: Step): Result {
    switch (step.do) {
        case 'set': return set(bench, state, step.part, step.position);
        case 'prefill': return prefill(bench, state, step.part);
        case 'bleed': return bleed(bench, state, step);
        case 'prove': return prove(bench, state, step.part, step.vent);
        case 'start': return { state, broken: startLaws(bench, state, step.engine) };
    }
}

function set(bench: Bench, state: BenchState, valve: Id, position: string): Result {
    const { network } = bench.pumping;
    const part = network.parts.get(valve);
    if (!part || !isValve(part)) return { state, broken: [{ law: 'no-such-part', parts: [valve] }] };
    const known = part.kind === 'shutoff' ? ['open', 'shut'] : part.positions.map((other) => other.name);
    if (!known.includes(position)) return { state, broken: [{ law: 'no-such-position', parts: [valve, position] }] };
    return { state: { ...state, positions: turned(network.boat, state.positions, valve, position) }, broken: [] };
}

function bleed(bench: Bench, state: BenchState, step: BleedStep): Result {
    const { network } = bench.pumping;
    const segment = segmentOf(network, step.vent);
    if (segment === undefined) return { state, broken: [{ law: 'no-such-part', parts: [step.vent] }] };
    const broken = driverLaws(bench, step.driver);
    if (broken.length > 0) return { state, broken };
    const flow = bench.pumping.flow(step.vent, step.driver, bench.consumer, state.positions);
    if ('law' in flow) return { state, broken: [flow] };
    if (step.driver.by === 'gravity' && !hasHead(bench, state, step.vent, step.driver.part, flow)) return { state, broken: [{ law: 'no-head', parts: [step.vent, step.driver.part] }] };

    const drawn = flow.beside.filter((id) => state.gas.has(id));
    if (drawn.length > 0) return { state, broken: [{ law: 'air-drawn', parts: [step.driver.part, ...drawn] }] };

    const gas = new Map(state.gas);
    const bled = new Map(state.bled);
    const topped = new Set(state.topped);
    const lose = (id: Id, content: 'air' | 'unknown'): void => { if (!gas.has(id)) bled.delete(id); gas.set(id, content); };
    const held: Id[] = [];
    let moved = false;
    for (const id of flow.sure) {
        const traps = ventsOf(network, id).length > 0 && !topped.has(id);
        if (gas.has(id) && !traps) {
            moved = true;
            topped.delete(id);
            if (held.length > 0) gas.set(id, 'unknown'); else gas.delete(id);
        } else if (gas.has(id)) held.push(id);
        else if (traps && moved) { lose(id, 'unknown'); held.push(id); }
    }
    for (const id of flow.legs) if (gas.has(id)) { gas.set(id, 'unknown'); held.push(id); }

    const vents = ventsOf(network, segment);
    // Air that comes to a part with several bleed points may rise to any of them: all are bled, in order.
    if (held.length > 0 || (moved && vents.length > 1)) lose(segment, 'unknown');
    const done = bled.get(segment) ?? 0;
    const order = vents.indexOf(step.vent);
    if (order > done) return { state, broken: [{ law: 'out-of-order', parts: [step.vent, vents[done]!] }] };
    if (held.length === 0) {
        bled.set(segment, Math.max(done, order + 1));
        if (bled.get(segment) === vents.length) { gas.delete(segment); topped.delete(segment); }
    }
    const anyAir = [...flow.sure, ...flow.legs, segment].some((id) => state.gas.has(id));
    const tainted = new Set(state.tainted);
    if (anyAir) for (const id of flow.branches) if (!gas.has(id)) { lose(id, 'unknown'); tainted.add(id); }
    return {
        state: { ...state, gas, bled, topped, tainted },
        broken: held.length > 0 ? [{ law: 'air-upstream', parts: [step.vent, ...held] }] : [],
    };
}

/** What does not depend on the flow: that the driver can be used at all. */
function driverLaws(bench: Bench, driver: Driver): Broken[] {
    const { network } = bench.pumping;
    const kind = network.parts.get(driver.part)?.kind;
    const fits = { hand: ['hand primer'], lever: ['lift pump'], electric: ['electric primer', 'electric pump'], gravity: [] as string[] }[driver.by];
    if (driver.by === 'gravity' || (kind !== undefined && fits.includes(kind))) return [];
    return [{ law: kind === undefined ? 'no-such-part' : 'not-a-driver', parts: [driver.part] }];
}

/** Whether the surface of the tank surely stands above the vent, and above all on the way that may hold air. */
function hasHead(bench: Bench, state: BenchState, vent: Id, tankId: Id, flow: Flow): boolean {
    const { network } = bench.pumping;
    const tank = network.boat.tanks.find((other) => other.id === tankId);
    const surface = tank && bench.level !== undefined ? uprightSurface(tank, bench.level) : undefined;
    const place = [...network.parts.values(), ...network.consumers.values()].flatMap((other) => other.vents).find((other) => other.id === vent)?.at;
    if (surface === undefined || place?.up === undefined || !headEnough(surface, place.up.si)) return false;
    return runsBelow(network, [...flow.sure, ...flow.legs].filter((id) => state.gas.has(id)), surface) === 'yes';
}

function prefill(bench: Bench, state: BenchState, id: Id): Result {
    const part = bench.pumping.network.parts.get(id);
    if (part?.kind !== 'filter' && part?.kind !== 'strainer') return { state, broken: [{ law: 'no-such-part', parts: [id] }] };
    const broken: Broken[] = [];
    if (!bench.opened.has(id) || state.gas.get(id) !== 'air') broken.push({ law: 'not-empty', parts: [id] });
    if (!mayPrefill(bench, id)) broken.push({ law: 'may-not-prefill', parts: [id] });
    if (!isCutOff(bench, state, id)) broken.push({ law: 'not-isolated', parts: [id] });
    if (broken.length > 0) return { state, broken };
    return { state: { ...state, gas: new Map(state.gas).set(id, 'unknown'), topped: new Set(state.topped).add(id) }, broken };
}

/** By what is said of the filter; by default a primary may be filled and no other (common practice). */
export function mayPrefill(bench: Bench, id: Id): boolean {
    const part = bench.pumping.network.parts.get(id);
    return part?.prefill === undefined ? part?.role === 'primary' : part.prefill === 'allowed';
}

/** No tank reaches the part on its supply side. */
function isCutOff(bench: Bench, state: BenchState, id: Id): boolean {
    const linedUp = bench.pumping.lineUp(state.positions);
    const { network } = linedUp;
    const inlet = network.passages[network.through.get(id)![0]!]!.from;
    const found = reach(linedUp, linedUp.back, [inlet]);
    return ![...network.tankPoints].some((tank) => found.has(tank));
}

/** A lever is proven at a vent downstream of it that holds fuel: the pump must reach it, fed and not on its suction side. */
function prove(bench: Bench, state: BenchState, pump: Id, vent: Id): Result {
    const broken = driverLaws(bench, { by: 'lever', part: pump });
    if (broken.length > 0) return { state, broken };
    const flow = bench.pumping.flow(vent, { by: 'lever', part: pump }, bench.consumer, state.positions);
    if ('law' in flow) return { state, broken: [flow] };
    const air = [...flow.sure, ...flow.beside].filter((id) => state.gas.has(id));
    return { state, broken: air.length > 0 ? [{ law: 'air-upstream', parts: [vent, ...air] }] : [] };
}

/** Segments between the tanks and the consumer that do not surely hold fuel, the consumer's own included. */
export function airBefore(bench: Bench, state: BenchState, consumer: Id, positions = state.positions): Id[] {
    const { network } = bench.pumping;
    const before = bench.pumping.before(consumer, positions);
    const air = [...state.gas.keys()].filter((id) => id === consumer || before.has(id));
    return network.consumers.get(consumer)!.selfBleeding ? air.filter((id) => !clearsItself(bench, id, consumer, positions)) : air;
}

/** A self-bleeding consumer passes to its return what air comes to it with no bleed point on the way. */
function clearsItself(bench: Bench, id: Id, consumer: Id, positions: Positions): boolean {
    const linedUp = running(bench.pumping.network, positions);
    const { network } = linedUp;
    if (ventsOf(network, id).length > 0) return false;
    if (id === consumer) return true;
    const traps = new Set([...network.through].filter(([part]) => ventsOf(network, part).length > 0).flatMap(([, ways]) => ways));
    const out = network.passages[network.through.get(id)![0]!]!.to;
    return reach(linedUp, linedUp.ways, [out], traps).has(network.index.get(`${consumer}:in`)!);
}

function startLaws(bench: Bench, state: BenchState, engine: Id): Broken[] {
    const broken: Broken[] = [];
    if (!bench.pumping.network.consumers.has(engine)) return [{ law: 'no-such-part', parts: [engine] }];
    if (!bench.pumping.returnIsOpen(engine, state.positions)) broken.push({ law: 'return-shut', parts: [engine] });
    const air = airBefore(bench, state, engine);
    if (air.length > 0) broken.push({ law: 'air-left', parts: [engine, ...air] });
    return broken;
}
