/** stop E1 key out, set bilge pump off, place can 2 L under F1, read G1, wait, log, caution: what is done aboard beside the lines. */
import type { CautionStep, HandStep, PlaceStep, SwitchStep } from '../../../model/step';
import { breaks, type Done } from '../program';
import { BATTERY, BILGE_PUMP, having, isMotor, seacockOf, without, type Stage } from '../stage';
import type { ServiceState } from '../state';

type Of<D extends HandStep['do']> = Extract<HandStep, { do: D }>;

export function stop({ ground }: Stage, state: ServiceState, { part, keyOut }: Of<'stop'>): Done {
    const owner = ground.owner(part);
    if (!owner) return { state, broken: [breaks('no-such-part', [part])] };
    const stops = ground.network.consumers.has(part) || owner.kind === 'electric pump' || owner.kind === 'electric primer';
    return { state: { ...state, running: without(state.running, part), ...(keyOut && { keyIn: without(state.keyIn, part) }) }, broken: stops ? [] : [breaks('not-a-driver', [part])] };
}

const MAY_BE: Readonly<Record<SwitchStep['thing'], readonly SwitchStep['to'][]>> = { 'bilge pump': ['off', 'auto'], 'battery switch': ['off', 'on'], seacock: ['open', 'shut'] };

export function flip({ ground }: Stage, state: ServiceState, { thing, of, to }: SwitchStep): Done {
    const engine = of === undefined ? undefined : ground.network.consumers.get(of);
    if (thing === 'seacock' && !(engine && isMotor(engine))) return { state, broken: [breaks('no-such-part', [of ?? thing])] };
    const name = thing === 'seacock' ? seacockOf(of!) : thing;
    if (!MAY_BE[thing]?.includes(to)) return { state, broken: [breaks('no-such-position', [name, to])] };
    const after: ServiceState = { ...state, set: new Map(state.set).set(name, to) };
    if (thing === 'seacock' && to === 'shut' && state.running.has(of!)) return { state: after, broken: [breaks('seacock-shut', [of!])] };
    // Something stands open, or nobody has looked whether it is dry: the pump would throw overboard what is in the bilge.
    const wet = [...state.unseen];
    return { state: after, broken: name === BILGE_PUMP && to === 'auto' && wet.length > 0 ? [breaks('bilge-pump-on', wet)] : [] };
}

export function place({ ground }: Stage, state: ServiceState, { thing, part, holds, count }: PlaceStep): Done {
    if (!ground.owner(part)) return { state, broken: [breaks('no-such-part', [part])] };
    if (thing === 'can') return { state: { ...state, cans: new Map(state.cans).set(part, { holds, has: 0 }) }, broken: [] };
    return { state: count !== undefined && !(count > 0) ? state : { ...state, pads: having(state.pads, part) }, broken: [] };
}

/** At a speed it shows something only while what lies on its line runs. */
export function read({ ground }: Stage, state: ServiceState, { gauge, speed }: Of<'read'>): Done {
    if (ground.network.parts.get(gauge)?.kind !== 'gauge') return { state, broken: [breaks('no-such-part', [gauge])] };
    return { state, broken: speed === undefined || ground.servedBy(gauge).some(({ id }) => state.running.has(id)) ? [] : [breaks('not-running', [gauge])] };
}

export function warn({ ground }: Stage, state: ServiceState, { topic, part }: CautionStep): Done {
    const known = part === undefined || ground.owner(part) !== undefined || ground.boat.tanks.some(({ id }) => id === part);
    return { state: { ...state, warned: having(state.warned, topic === 'flood' && part !== undefined ? `flood ${part}` as const : topic) }, broken: known ? [] : [breaks('no-such-part', [part])] };
}

export const hasPower = ({ set }: ServiceState): boolean => set.get(BATTERY) !== 'off';
