/** start E1 at most 2 times 10 s, run E1 at 1300 rpm for 5 min, run TP1 until T2 holds 100 L. */
import type { Consumer, Id, Part } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { RunStep, StartStep } from '../../../model/step';
import { rateMissing, sizeMissing } from '../../../analysis/missing';
import { grossOf } from '../../../analysis/tanks/liquid';
import { FULL, leastToWet } from '../../../analysis/tanks/pickups';
import { barredFor } from '../../../analysis/time/burners';
import { partsBefore, running, tanksAfter, tanksBefore } from '../../../analysis/topology/paths';
import { ATTEMPT, benchOf, budgetOf } from '../../bleed';
import { airBefore } from '../../executor';
import type { Ground } from '../ground';
import type { BrokenLaw } from '../laws';
import { breaks, type Done } from '../program';
import { BATTERY, having, isMotor, openParts, seacockOf, without, type Stage } from '../stage';
import { openingKey, type ServiceState } from '../state';
import { hasPower } from './aboard';
import { openTo } from './hands';

/** The step that says start puts the key in and the battery on. */
export function start(stage: Stage, state: ServiceState, { engine, tries, seconds, seacock, budget }: Omit<StartStep, 'do'>): Done {
    const consumer = stage.ground.network.consumers.get(engine);
    if (!consumer) return { state, broken: [breaks('no-such-part', [engine])] };
    const after: ServiceState = { ...state, running: having(state.running, engine), ...(isMotor(consumer) && { keyIn: having(state.keyIn, engine), set: new Map(state.set).set(BATTERY, 'on') }) };
    // One that has been cranked and not run since may not have fired; one that has run is turning.
    const turns = state.running.has(engine) && !state.cranked.has(engine);
    const ready = [...(turns ? [breaks('engine-runs', [engine])] : []), ...readyLaws(stage, state, engine)];
    const before = state.cranked.get(engine) ?? 0;
    const cranking = (so: number): ServiceState => ({ ...after, cranked: new Map(after.cranked).set(engine, so) });
    const cranked = before + (tries * seconds >= 0 ? tries * seconds : Infinity);
    if (consumer.exhaust?.kind !== 'wet') return { state: cranking(cranked), broken: ready };
    if (state.set.get(seacockOf(engine)) === 'shut') {
        return seacock === 'open' ? { state: cranking(before), broken: [...ready, breaks('seacock-shut', [engine])] } : { state: { ...cranking(before), dryImpeller: having(after.dryImpeller, engine) }, broken: ready };
    }
    const most = budgetOf(consumer);
    const over = cranked > Math.min(most, budget ?? most) || (budget !== undefined && budget > most);
    return { state: cranking(cranked), broken: over ? [...ready, breaks('over-budget', [engine])] : ready };
}

/** What must be so before an engine turns: fed, its return open, no air before it, nothing open on its lines. */
function readyLaws({ ground }: Stage, state: ServiceState, id: Id): BrokenLaw[] {
    const { boat, network, pumping } = ground;
    const { positions } = state;
    const air = state.gas.size === 0 ? [] : airBefore(benchOf(boat, id), state, id);
    const open = openOnLines(ground, state, id);
    return [
        ...(pumping.returnIsOpen(id, positions) ? [] : [breaks('return-shut', [id])]),
        ...(tanksBefore(running(network, positions), `${id}:in`).length > 0 ? [] : [breaks('not-fed', [id])]),
        ...(air.length > 0 ? [breaks('air-left', [id, ...air])] : []),
        ...(open.length > 0 ? [breaks('open-while-pumped', [id, ...open])] : []),
    ];
}

function openOnLines(ground: Ground, state: ServiceState, consumer: Id): string[] {
    if (state.open.size === 0 && state.out.size === 0) return [];
    const lines = ground.lines(consumer);
    return [...openParts(state)].filter(([part]) => lines.has(part)).flatMap(([part, names]) => names.map((name) => openingKey(part, name).trim()));
}

export function run(stage: Stage, state: ServiceState, step: RunStep): Done {
    const { network } = stage.ground;
    const consumer = network.consumers.get(step.part);
    if (consumer) return runConsumer(stage, state, consumer, step);
    const part = network.parts.get(step.part);
    if (!part) return { state, broken: [breaks('no-such-part', [step.part])] };
    if (part.kind !== 'electric pump' && part.kind !== 'electric primer') return { state, broken: [breaks('not-a-driver', [step.part])] };
    return runPump(stage, state, part, step);
}

/** One that does not run yet is started for it, with one attempt. */
function runConsumer(stage: Stage, state: ServiceState, consumer: Consumer, { seconds }: RunStep): Done {
    const { id } = consumer;
    const started: Done = state.running.has(id) ? { state, broken: [] } : start(stage, state, { engine: id, tries: 1, seconds: ATTEMPT });
    const cranked = new Map(started.state.cranked);
    if (seconds === undefined || seconds > 0) cranked.delete(id);
    const shut = isMotor(consumer) && state.set.get(seacockOf(id)) === 'shut';
    const held = state.running.has(id) ? openOnLines(stage.ground, state, id).filter((key) => stage.ground.pumping.before(id, state.positions).has(key.split(' ')[0]!)) : [];
    return {
        state: { ...started.state, cranked, dryImpeller: without(started.state.dryImpeller, id) },
        broken: [
            ...started.broken, ...(shut ? [breaks('seacock-shut', [id])] : []), ...(held.length > 0 ? [breaks('open-while-pumped', [id, ...held])] : []),
            ...(state.running.has(id) && !stage.ground.pumping.returnIsOpen(id, state.positions) ? [breaks('return-shut', [id])] : []),
        ],
    };
}

/** A pump stops by itself where it is said for how long it runs, or until when. */
function runPump(stage: Stage, state: ServiceState, pump: Part, step: RunStep): Done {
    const { ground } = stage;
    const { network, pumping } = ground;
    const open = openTo(ground, state, { by: 'electric', part: pump.id });
    const linedUp = running(network, state.positions);
    const { broken, volumes } = transfer(ground, state, pump, step);
    const goesOn = step.seconds === undefined && step.until === undefined;
    return {
        state: { ...state, volumes, ...(goesOn && { running: having(state.running, pump.id) }) },
        broken: [
            ...(hasPower(state) ? [] : [breaks('not-a-driver', [pump.id])]),
            ...(tanksBefore(linedUp, `${pump.id}:in`).length > 0 ? [] : [breaks('not-fed', [pump.id])]),
            ...pumping.shutBehind(pump.id, state.positions).map((id) => breaks('return-shut', [id])),
            ...(open.length > 0 ? [breaks('open-while-pumped', [pump.id, ...open])] : []), ...broken,
        ],
    };
}

/** The tanks that a pump draws from and runs into, without passing a consumer, a vent or a fill. */
export function movesBetween({ network }: Ground, positions: ServiceState['positions'], pump: Id): { readonly from: readonly Id[]; readonly to: readonly Id[] } {
    const linedUp = running(network, positions);
    const { any } = barredFor(network);
    return { from: tanksBefore(linedUp, `${pump}:in`, any), to: tanksAfter(linedUp, `${pump}:out`, any) };
}

/** A transfer ends before its tank holds 95 %, which must be sure, and while its source covers the pickup, as far as that is known. */
function transfer(ground: Ground, state: ServiceState, pump: Part, { seconds, until }: RunStep): { readonly broken: BrokenLaw[]; readonly volumes: ServiceState['volumes'] } {
    const { boat } = ground;
    const { from, to } = movesBetween(ground, state.positions, pump.id);
    const into = boat.tanks.filter(({ id }) => to.includes(id) && !from.includes(id));
    const volumes = new Map(state.volumes);
    if (into.length === 0) return { broken: until && !to.includes(until.tank) ? [breaks('not-reached', [until.tank, pump.id])] : [], volumes };
    const broken: BrokenLaw[] = [];
    const untilIn = until && into.find(({ id }) => id === until.tank);
    if (until && !untilIn) broken.push(breaks('not-reached', [until.tank, pump.id]));
    const byTime = seconds !== undefined && pump.rate ? (pump.rate.high ?? pump.rate.si) * seconds : undefined;
    let moved: number | undefined;
    for (const tank of into) {
        const gross = grossOf(tank);
        const holds = state.volumes.get(tank.id);
        const stated = tank === untilIn ? until!.holds : undefined;
        const after = stated ?? (byTime === undefined ? undefined : (holds ?? gross ?? 0) + byTime);
        const missing: MissingFact[] = [
            ...(gross === undefined ? [sizeMissing(tank.id)] : []),
            ...(stated === undefined && seconds !== undefined && !pump.rate ? [rateMissing(pump)] : []),
            ...(stated === undefined && holds === undefined ? [{ about: tank.id, fact: `what ${tank.id} holds`, how: `dip it, and say until when the pump runs, like \`run ${pump.id} until ${tank.id} holds 50 L\`` }] : []),
        ];
        if (gross === undefined || after === undefined || !(after <= FULL * gross)) broken.push(breaks('overfills', [pump.id, tank.id], missing));
        if (holds !== undefined && after !== undefined) { moved = (moved ?? 0) + Math.max(0, after - holds); }
        if (after !== undefined && (stated !== undefined || holds !== undefined)) volumes.set(tank.id, after); else volumes.delete(tank.id);
    }
    for (const tank of boat.tanks.filter(({ id }) => from.includes(id))) {
        const holds = state.volumes.get(tank.id);
        if (holds === undefined) continue;
        if (moved === undefined) { volumes.delete(tank.id); continue; }
        const left = holds - moved;
        const before = partsBefore(running(ground.network, state.positions), `${pump.id}:in`);
        const least = tank.fittings.filter(({ id, kind }) => kind === 'pickup' && before.has(id)).map(({ mouth }) => leastToWet(tank, mouth, state.attitude) ?? 0);
        if (!(left >= Math.min(...least, Infinity)) && least.length > 0) broken.push(breaks('draws-air', [pump.id, tank.id]));
        volumes.set(tank.id, Math.max(0, left));
    }
    return { broken, volumes };
}
