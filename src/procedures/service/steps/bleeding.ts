/** open V1, prefill F1, bleed BS1 by PR1, prove LP1 at BS2 by lever, do bleed E1: the steps of bleed sequences, and a whole sequence. */
import type { Id } from '../../../model/boat';
import type { BleedStep, Driver, SequenceStep, Step } from '../../../model/step';
import { afterRunningDry } from '../../../analysis/air/opened';
import { segmentOf, ventsOf } from '../../../analysis/air/vents';
import { passedTurning } from '../../../analysis/topology/line-ups';
import type { Positions } from '../../../analysis/topology/network';
import { running, tanksBefore } from '../../../analysis/topology/paths';
import { benchOf, planFrom, type FoundFrom, type Refusal } from '../../bleed';
import { airBefore, run } from '../../executor';
import type { BenchState } from '../../state';
import type { Ground } from '../ground';
import type { BrokenLaw } from '../laws';
import { kindOf } from '../pieces';
import { breaks, type Done } from '../program';
import { having, openParts, without, type Stage } from '../stage';
import { openingKey, type ServiceState } from '../state';
import { hasPower } from './aboard';
import { caught, dedupe, floodedBy, handsOff, openTo } from './hands';
import { drain } from './opening';
import { start } from './running';

/** One of the five steps of a bleed sequence. */
export function bleedingStep(stage: Stage, state: ServiceState, step: Step): Done {
    switch (step.do) {
        case 'set': return set(stage, state, step);
        case 'prefill': return prefill(stage, state, step.part);
        case 'bleed': return bleed(stage, state, step);
        case 'prove': return prove(stage, state, step);
        case 'start': return start(stage, state, step);
    }
}

function set(stage: Stage, state: ServiceState, step: Extract<Step, { do: 'set' }>): Done {
    const { ground } = stage;
    const { boat, network } = ground;
    const tried = run(benchOf(boat, ''), state, step);
    if (tried.broken.length > 0) return { state, broken: tried.broken };
    if (network.parts.get(step.part)?.lockedOpen && step.position === 'shut') return { state, broken: [breaks('no-such-position', [step.part, step.position])] };
    const positions = ground.same(tried.state.positions);
    const passed = passedTurning(boat, state.positions, positions, step.part).map((between) => ground.same(between));
    const consumers = [...state.running].filter((id) => network.consumers.has(id));
    const after = openParts(state).size === 0 ? { ...state, positions } : [...passed, positions].reduce((at, between) => drain(stage, at, openParts(state).keys(), between), { ...state, positions });
    return {
        state: after,
        broken: [
            ...dedupe([...passed, positions].flatMap((at) => floodedBy(stage, state.positions, at, state))), ...shutReturns(ground, state, [...passed, positions]).map((id) => breaks('return-shut', [id])),
            ...[...state.running].filter((id) => isFed(ground, id, state.positions) && !isFed(ground, id, positions)).map((id) => breaks('not-fed', [id])),
            ...consumers.flatMap((id) => { const air = airMet(ground, state, after, id); return air.length > 0 ? [breaks('air-left', [id, ...air])] : []; }),
            ...consumers.flatMap((id) => { const on = openBefore(ground, state, id, positions); return on.length > 0 ? [breaks('open-while-pumped', [id, ...on])] : []; }),
        ],
    };
}

/** Whether a tank feeds what runs. A selector that is turned past a stop starves nobody. */
const isFed = ({ network }: Ground, id: Id, positions: Positions): boolean => tanksBefore(running(network, positions), `${id}:in`).length > 0;

/** Returns that were open and now are shut, if only in passing, while their consumer runs or a pump that runs pushes to it. */
function shutReturns({ network, pumping }: Ground, { running, positions }: ServiceState, after: readonly Positions[]): readonly Id[] {
    const shut = (at: Positions): readonly Id[] => [...running].flatMap((id) => (!network.consumers.has(id) ? pumping.shutBehind(id, at) : pumping.returnIsOpen(id, at) ? [] : [id]));
    const before = shut(positions);
    return [...new Set(after.flatMap(shut))].filter((id) => !before.includes(id));
}

/** Air that a consumer that runs meets now and did not before. */
function airMet({ boat }: Ground, before: ServiceState, after: ServiceState, id: Id): readonly Id[] {
    if (after.gas.size === 0) return [];
    const known = airBefore(benchOf(boat, id), before, id);
    return airBefore(benchOf(boat, id), after, id).filter((part) => !known.includes(part));
}

/** What stands open between the tanks and a consumer. */
function openBefore({ pumping }: Ground, state: ServiceState, consumer: Id, positions: ServiceState['positions']): string[] {
    if (state.open.size === 0 && state.out.size === 0) return [];
    const before = pumping.before(consumer, positions);
    return [...openParts(state)].filter(([part]) => before.has(part)).flatMap(([part, names]) => names.map((name) => openingKey(part, name).trim()));
}

/** Fuel is poured in from above: the part is open there, and shut below. */
function prefill({ ground }: Stage, state: ServiceState, part: Id): Done {
    const names = openParts(state).get(part) ?? [];
    const { state: after, broken } = run(benchOf(ground.boat, ground.connected(part)[0] ?? '', state.opened), state, { do: 'prefill', part });
    return {
        state: { ...state, ...after },
        broken: [
            ...broken,
            ...(ground.owner(part) && !names.some((name) => kindOf({ name }) === 'body') ? [breaks('not-open', [part])] : []),
            ...(names.includes('drain') ? [breaks('open-while-pumped', [part, openingKey(part, 'drain')])] : []),
        ],
    };
}

/**
 * A bleed step names no consumer. At a consumer's own bleed point it is that one; else the first of those that the part is connected to for which
 * the laws hold.
 */
export function onBench({ ground }: Stage, state: ServiceState, vent: Id, step: Step): { readonly state: BenchState; readonly broken: readonly BrokenLaw[] } {
    const part = segmentOf(ground.network, vent);
    const consumers = part === undefined ? [] : ground.network.consumers.has(part) ? [part] : ground.connected(part);
    const tried = (consumers.length > 0 ? consumers.slice(0, MOST_TRIED) : ground.boat.consumers.slice(0, 1).map(({ id }) => id)).map((id) => () => run(benchOf(ground.boat, id, state.opened), state, step));
    let first: ReturnType<typeof run> | undefined;
    for (const attempt of tried) {
        const found = attempt();
        if (found.broken.length === 0) return found;
        first ??= found;
    }
    return first ?? { state, broken: [breaks('no-such-part', [vent])] };
}

const MOST_TRIED = 8;

function bleed(stage: Stage, state: ServiceState, step: BleedStep): Done {
    const { state: after, broken } = onBench(stage, state, step.vent, step);
    const opening = stage.ground.ventOpening(step.vent);
    const key = opening && openingKey(opening.part, opening.name);
    return {
        // It closes itself, whether or not somebody had opened it before.
        state: opened(stage, { ...state, ...after, ...(key !== undefined && { open: without(state.open, key) }) }, step.vent),
        broken: [...broken, ...worked(stage, state, step.vent, step.driver), ...(key !== undefined && state.open.has(key) ? [breaks('already-open', [opening!.part, opening!.name])] : [])],
    };
}

function prove(stage: Stage, state: ServiceState, step: Extract<Step, { do: 'prove' }>): Done {
    const { broken } = onBench(stage, state, step.vent, step);
    return { state: opened(stage, state, step.vent), broken: [...broken, ...worked(stage, state, step.vent, { by: 'lever', part: step.part })] };
}

function opened({ ground }: Stage, state: ServiceState, vent: Id): ServiceState {
    const part = segmentOf(ground.network, vent);
    return part === undefined ? state : { ...state, unseen: having(state.unseen, part) };
}

/** The laws around any pumping at a vent. */
function worked(stage: Stage, state: ServiceState, vent: Id, driver: Driver): BrokenLaw[] {
    const { ground } = stage;
    const part = segmentOf(ground.network, vent);
    const own = ground.ventOpening(vent);
    const open = openTo(ground, state, driver).filter((key) => !own || key !== openingKey(own.part, own.name));
    const electric = driver.by === 'electric';
    return [
        ...(open.length > 0 ? [breaks('open-while-pumped', [driver.part, ...open])] : []),
        ...(electric && !hasPower(state) ? [breaks('not-a-driver', [driver.part])] : []),
        ...(part === undefined ? [] : [...caught(stage, state, part), ...dedupe([...handsOff(stage, state, part, electric), ...(driver.by === 'lever' && ground.owner(driver.part) ? handsOff(stage, state, driver.part) : [])])]),
    ];
}

/** What `do bleed` means here: found by search, from the state that she is then in. */
export function sequenceOf({ ground, program }: Stage, state: ServiceState, { engine, ranDry, prefilled }: Pick<SequenceStep, 'engine' | 'ranDry' | 'prefilled'>): FoundFrom | Refusal {
    const { network } = ground;
    const ends = ground.lineUp(program.ends);
    const from = ranDry && network.consumers.has(engine) ? { ...state, gas: new Map([...state.gas, ...afterRunningDry(running(network, ends.positions), engine)]), bled: new Map(), topped: new Set<Id>() } : state;
    return ground.keep(`sequence ${engine} ${ends.id} ${prefilled.join()} ${stateKey(ground, from)}`, () => planFrom(benchOf(ground.boat, engine), from, ends, { prefilled }));
}

/** All of a state that bleeding asks about. */
export const stateKey = ({ pumping }: Ground, { positions, gas, bled, topped }: BenchState): string =>
    [pumping.key(positions), [...gas].sort().join(' '), [...bled].sort().join(' '), [...topped].sort().join(' ')].join('|');

export function sequence(stage: Stage, state: ServiceState, step: SequenceStep): Done {
    const { ground } = stage;
    const strangers = [step.engine, ...step.opened, ...step.prefilled].filter((id) => !ground.owner(id));
    if (!ground.network.consumers.has(step.engine)) return { state, broken: [breaks('no-such-part', strangers)] };
    const named = [
        ...(strangers.length > 0 ? [breaks('no-such-part', strangers)] : []),
        ...step.opened.filter((id) => ground.owner(id) && !state.opened.has(id)).map((id) => breaks('not-open', [id])),
    ];
    const found = sequenceOf(stage, state, step);
    if ('refused' in found) return { state, broken: [...named, ...whyNot(stage, state, step, found)] };
    let after = state;
    const broken: BrokenLaw[] = [...named];
    for (const { step: one } of found.steps) {
        const done = bleedingStep(stage, after, one);
        after = done.state;
        broken.push(...done.broken);
    }
    return { state: after, broken: dedupe(broken) };
}

/** The laws that stand in the way where there is no sequence: which pump does not come to the first part that holds air. */
function whyNot({ ground, program }: Stage, state: ServiceState, { engine }: SequenceStep, { missing }: Refusal): BrokenLaw[] {
    const { network, pumping } = ground;
    const { positions } = ground.lineUp(program.ends);
    if (missing.length > 0) return [breaks('air-left', [engine], missing)];
    if (tanksBefore(running(network, positions), `${engine}:in`).length === 0) return [breaks('not-fed', [engine])];
    const order = [...network.parts.keys(), engine];
    const air = airBefore(benchOf(ground.boat, engine), state, engine, positions).sort((a, b) => order.indexOf(a) - order.indexOf(b));
    if (air.length === 0) return [breaks(network.consumers.get(engine)?.exhaust?.kind === 'wet' ? 'over-budget' : 'wrong-line-up', [engine])];
    const pumps = network.boat.parts.flatMap(({ id, kind }): Driver[] => (kind === 'hand primer' ? [{ by: 'hand', part: id }] : kind === 'lift pump' ? [{ by: 'lever', part: id }] : kind.startsWith('electric') ? [{ by: 'electric', part: id }] : []));
    const stuck = air.flatMap((id) => ventsOf(network, id).slice(0, 1)).map((vent) => pumps.map((driver) => pumping.flow(vent, driver, engine, positions))).find((flows) => flows.every((flow) => 'law' in flow));
    return [breaks('air-left', [engine, ...air]), ...dedupe((stuck ?? []).flatMap((flow) => ('law' in flow ? [breaks(flow.law, flow.parts)] : [])))];
}
