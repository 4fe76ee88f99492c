/**
 * From any state back to the line-up that it ends in: what runs is stopped, what is out is fitted and what is open closed, the valves are set, and
 * what lost its fuel is bled. The procedure's own bleeding is tried first, then the search.
 */
import type { Boat, Id } from '../../model/boat';
import type { ServiceStep, Step } from '../../model/step';
import { turned } from '../../analysis/topology/line-ups';
import type { Positions } from '../../analysis/topology/network';
import { running, tanksBefore } from '../../analysis/topology/paths';
import { benchOf, searchFrom } from '../bleed';
import { airBefore, run } from '../executor';
import type { BenchState } from '../state';
import { groundOf } from './ground';
import { kindOf, belongsTo, isFilter } from './pieces';
import type { Program } from './program';
import { BATTERY, BILGE_PUMP, isMotor, openParts, seacockOf, startOf, type Stage } from './stage';
import type { ServiceState } from './state';
import { hasPower } from './steps/aboard';
import { onBench, stateKey } from './steps/bleeding';

/** The steps that lead back; undefined where there are none. Where there are too many ways to look through, only what is certain is told. */
export function wayBack(boat: Boat, program: Program, state: ServiceState): readonly ServiceStep[] | undefined {
    const stage: Stage = { ground: groundOf(boat), program };
    const found = bledBack(stage, state);
    if (found === 'none') return undefined;
    const bleeding = found === 'too many ways' ? [] : found;
    // What is filled by hand is filled before its lid is on.
    const fills = bleeding.filter((step) => step.do === 'prefill').map(({ part }) => part);
    const before = [...stopping(stage, state), ...closing(stage, state, fills), ...powered(state, bleeding.filter((step) => step.do !== 'prefill'))];
    return [...before, ...putBack(state, before)];
}

/** What was started since is stopped before anything is turned or opened; what ran before, under way, goes on. One that has fired with its seacock shut gets its water first. */
function stopping(stage: Stage, state: ServiceState): ServiceStep[] {
    const ranBefore = startOf(stage).running;
    const isEngine = (id: Id): boolean => { const consumer = stage.ground.network.consumers.get(id); return consumer !== undefined && isMotor(consumer); };
    return [
        ...[...state.dryImpeller].map((of): ServiceStep => ({ do: 'switch', thing: 'seacock', of, to: 'open' })),
        ...[...state.running].filter((id) => !ranBefore.has(id)).map((part): ServiceStep => ({ do: 'stop', part, ...(isEngine(part) && { keyOut: true }) })),
    ];
}

/** An electric pump needs the battery. */
function powered(state: ServiceState, bleeding: readonly Step[]): readonly ServiceStep[] {
    const first = bleeding.findIndex((step) => step.do === 'bleed' && step.driver.by === 'electric');
    return first < 0 || hasPower(state) ? bleeding : [...bleeding.slice(0, first), { do: 'switch', thing: BATTERY, to: 'on' }, ...bleeding.slice(first)];
}

export const hasWayBack = (stage: Stage, state: ServiceState): boolean => bledBack(stage, state) !== 'none';

type Way = readonly Step[] | 'none' | 'too many ways';

function bledBack(stage: Stage, state: ServiceState): Way {
    const { ground, program } = stage;
    const ends = ground.lineUp(program.ends);
    if (state.gas.size === 0) return sets(stage, state.positions);
    return ground.keep(`back ${ends.id} ${[...state.opened].sort().join()} ${stateKey(ground, state)}`, () => (airy(stage, state).length === 0 ? sets(stage, state.positions) : byOwnSteps(stage, state) ?? bySearch(stage, state)));
}

/** Valves that are not as they are in the end. */
function sets({ ground, program }: Stage, positions: Positions): Step[] {
    const found: Step[] = [];
    let at = positions;
    for (const [part, position] of ground.lineUp(program.ends).positions) {
        if (at.get(part) === position) continue;
        found.push({ do: 'set', part, position });
        at = turned(ground.boat, at, part, position);
    }
    return found;
}

/** Consumers that the end line-up feeds, and before which there is air. */
const airy = ({ ground, program }: Stage, state: BenchState): Id[] => {
    const { positions } = ground.lineUp(program.ends);
    return ground.boat.consumers.map(({ id }) => id).filter((id) => tanksBefore(running(ground.network, positions), `${id}:in`).length > 0 && airBefore(benchOf(ground.boat, id), state, id, positions).length > 0);
};

/** The bleeding that the procedure itself ends with, from the positions that it then has. */
function byOwnSteps(stage: Stage, state: ServiceState): readonly Step[] | undefined {
    const { ground, program: { steps, starts } } = stage;
    const last = steps.findLastIndex(({ do: what }) => what === 'close' || what === 'fit');
    const isSet = (step: ServiceStep): step is Extract<Step, { do: 'set' }> => step.do === 'set';
    const before = steps.slice(0, last + 1).filter(isSet).reduce((at, { part, position }) => turned(ground.boat, at, part, position), ground.lineUp(starts).positions);
    const own = steps.slice(last + 1).filter((step) => step.do === 'set' || step.do === 'bleed');
    if (!own.some((step) => step.do === 'bleed')) return undefined;
    const way: Step[] = [];
    let at: BenchState = state;
    const turn = (step: Extract<Step, { do: 'set' }>): void => { way.push(step); at = { ...at, positions: ground.same(turned(ground.boat, at.positions, step.part, step.position)) }; };
    for (const [part, position] of before) if (at.positions.get(part) !== position) turn({ do: 'set', part, position });
    // What it fills by hand and is not full yet; one that lost its fuel to another is opened for it.
    for (const step of steps) {
        if (step.do !== 'prefill' || !at.gas.has(step.part) || at.topped.has(step.part)) continue;
        const filled = run(benchOf(ground.boat, ground.connected(step.part)[0] ?? '', [...state.opened, step.part]), { ...at, gas: new Map(at.gas).set(step.part, 'air') }, step);
        if (filled.broken.length > 0) return undefined;
        way.push(step);
        at = filled.state;
    }
    for (const step of own) {
        if (step.do === 'set') { turn(step); continue; }
        const done = onBench(stage, { ...state, ...at }, step.vent, step);
        if (done.broken.length > 0) return undefined;
        way.push(step);
        at = done.state;
    }
    const rest = sets(stage, at.positions);
    return airy(stage, at).length === 0 ? [...way, ...rest] : undefined;
}

/** Each consumer after the other; what bleeding one pushed air before another is bled then. */
function bySearch(stage: Stage, state: ServiceState): Way {
    const { ground, program } = stage;
    const ends = ground.lineUp(program.ends);
    const way: Step[] = [];
    let at: BenchState = state;
    for (let left = airy(stage, at), tries = 0; left.length > 0; left = airy(stage, at), tries++) {
        if (tries > 2 * ground.boat.consumers.length) return 'none';
        const found = searchFrom(benchOf(ground.boat, left[0]!, state.opened), at, ends);
        if ('refused' in found) return found.gaveUp ? 'too many ways' : 'none';
        way.push(...found.steps);
        at = found.state;
    }
    return [...way, ...sets(stage, at.positions)];
}

/** New seals, what is out, and then shut, part by part. */
function closing({ ground }: Stage, state: ServiceState, fills: readonly Id[]): ServiceStep[] {
    const open = openParts(state);
    const parts = [...new Set([...open.keys(), ...state.out.keys(), ...fills])];
    return parts.flatMap((part): ServiceStep[] => {
        const owner = ground.owner(part);
        const body = ground.openings(part)[0]?.name ?? 'joint';
        const names = (open.get(part) ?? []).filter((name) => name !== '');
        const reopened = fills.includes(part) && !names.some((name) => kindOf({ name }) === 'body') ? [body] : [];
        const openings = [...names, ...reopened];
        const out = state.out.get(part) ?? new Set<string>();
        const disturbed = [...new Set([...state.disturbed.get(part) ?? [], ...(reopened.length > 0 && isFilter(owner) ? owner.seals.filter((seal) => belongsTo(seal) === 'body') : [])])]
            .filter((seal) => openings.some((name) => kindOf({ name }) === belongsTo(seal)));
        const pieces = [...new Set([...[...out].filter((piece) => piece !== ''), ...disturbed])];
        const old = disturbed.filter((seal) => !out.has(seal));
        return [
            ...(out.has('') ? [{ do: 'fit', part, pieces: [] } as const] : []),
            ...reopened.map((opening) => ({ do: 'open', part, opening } as const)),
            ...(old.length > 0 ? [{ do: 'remove', part, pieces: old } as const] : []), ...(pieces.length > 0 ? [{ do: 'fit', part, pieces } as const] : []),
            ...openings.filter((name) => kindOf({ name }) !== 'body').map((opening) => ({ do: 'close', part, opening } as const)),
            ...(fills.includes(part) ? [{ do: 'prefill', part } as const] : []),
            ...openings.filter((name) => kindOf({ name }) === 'body').map((opening) => ({ do: 'close', part, opening } as const)),
        ];
    });
}

/** What is set beside the lines, but for what the steps before have put back. */
function putBack({ set, unseen, dryImpeller }: ServiceState, before: readonly ServiceStep[]): ServiceStep[] {
    const shut = [...set].filter(([name, to]) => name.endsWith(seacockOf('')) && to === 'shut').map(([name]) => name.slice(0, -seacockOf('').length));
    const isOn = before.some((step) => step.do === 'switch' && step.thing === BATTERY);
    return [
        ...(unseen.size > 0 || before.some((step) => step.do === 'bleed') ? [{ do: 'look', piece: 'all joints' } as const] : []), ...(set.get(BILGE_PUMP) === 'off' ? [{ do: 'switch', thing: BILGE_PUMP, to: 'auto' } as const] : []),
        ...(set.get(BATTERY) === 'off' && !isOn ? [{ do: 'switch', thing: BATTERY, to: 'on' } as const] : []), ...shut.filter((id) => !dryImpeller.has(id)).map((of): ServiceStep => ({ do: 'switch', thing: 'seacock', of, to: 'open' })),
    ];
}
