/** open F1 lid, shut F1 drain, prove V1 by draining F1. */
import type { Id } from '../../../model/boat';
import type { HoldStep, OpeningStep } from '../../../model/step';
import type { Opening } from '../../../analysis/opening/openings';
import { isValve, type Positions } from '../../../analysis/topology/network';
import type { BrokenLaw } from '../laws';
import { belongsTo, kindOf, sealsOf } from '../pieces';
import { breaks, type Done } from '../program';
import { having, havingOf, without, type Stage } from '../stage';
import { openingKey, type ServiceState } from '../state';
import { openingLaws, volumeComing } from './hands';

export function open(stage: Stage, state: ServiceState, { part, opening: name }: Pick<OpeningStep, 'part' | 'opening'>): Done {
    const found = openingOf(stage, part, name);
    if (!('name' in found)) return { state, broken: [found.law, ...railUnion(stage, part, name)] };
    if (stands(state, found)) return { state, broken: [breaks('already-open', [part, found.name])] };
    return { state: opened(stage, state, found), broken: openingLaws(stage, state, found) };
}

/** Open, or there no more: what is taken off whole is open at its body. */
const stands = (state: ServiceState, { part, name }: Opening): boolean => state.open.has(openingKey(part, name)) || isOff(state, { part, name });
const isOff = ({ out }: ServiceState, { part, name }: Pick<Opening, 'part' | 'name'>): boolean => out.get(part)?.has('') === true && kindOf({ name }) === 'body';

/** The opening that is meant, or that there is none. */
function openingOf({ ground }: Stage, part: Id, name: string): Opening | { readonly law: BrokenLaw } {
    if (!ground.owner(part)) return { law: breaks(ground.boat.tanks.some(({ id }) => id === part) ? 'no-such-opening' : 'no-such-part', [part, name]) };
    return ground.opening(part, name) ?? { law: breaks('no-such-opening', [part, name]) };
}

/** Unions at the injectors are no openings here: high pressure is not drawn. */
function railUnion({ ground }: Stage, part: Id, name: string): BrokenLaw[] {
    return ground.network.consumers.get(part)?.injection?.pump === 'common-rail' && /^inj/i.test(name) ? [breaks('rail-union', [part])] : [];
}

/** Its seals are disturbed, what was in it and above it runs out or may fall back, and what comes runs into the can. */
export function opened(stage: Stage, state: ServiceState, opening: Opening): ServiceState {
    const { part, name } = opening;
    const kind = kindOf(opening);
    const seals = sealsOf(stage.ground.owner(part)).filter((seal) => belongsTo(seal) === kind);
    const can = state.cans.get(part);
    return drain(stage, {
        ...state, open: having(state.open, openingKey(part, name)), opened: having(state.opened, part), unseen: having(state.unseen, part),
        ...(seals.length > 0 && { disturbed: havingOf(state.disturbed, part, ...seals) }),
        ...(can && kind !== 'vent' && { cans: new Map(state.cans).set(part, { ...can, has: can.has + (volumeComing(stage, state, opening) ?? 0) }) }),
        ...(kind === 'drain' && { water: without(state.water, part) }),
    }, [part]);
}

/** What parts that stand open let run out, with the valves as they are. */
export function drain({ ground }: Stage, state: ServiceState, parts: Iterable<Id>, positions: Positions = state.positions): ServiceState {
    const gas = new Map(state.gas);
    const [bled, topped] = [new Map(state.bled), new Set(state.topped)];
    for (const part of parts) for (const [id, content] of ground.drained(positions, part)) {
        const before = gas.get(id);
        if (before === 'air' || (before === content && !topped.has(id))) continue;
        // What was filled by hand is empty again once its own part stands open, and may be anyway.
        gas.set(id, content);
        topped.delete(id);
        bled.delete(id);
    }
    return { ...state, gas, bled, topped };
}

export function close(stage: Stage, state: ServiceState, { part, opening: name }: OpeningStep): Done {
    const found = openingOf(stage, part, name);
    if (!('name' in found)) return { state, broken: [found.law] };
    const key = openingKey(part, found.name);
    if (!state.open.has(key)) return { state, broken: [breaks('not-open', [part, found.name])] };
    const kind = kindOf(found);
    const out = [...state.out.get(part) ?? []].filter((piece) => piece === '' || belongsTo(piece) === kind);
    const old = [...state.disturbed.get(part) ?? []].filter((seal) => belongsTo(seal) === kind && !out.includes(seal));
    return {
        state: { ...state, open: without(state.open, key) },
        broken: [...(out.length > 0 ? [breaks('piece-out', [part, ...out])] : []), ...(old.length > 0 ? [breaks('old-seal', [part, ...old])] : [])],
    };
}

/** Shut valves hold when what runs from an opening behind them dies. It stays open until it is closed. */
export function hold(stage: Stage, state: ServiceState, { valves, part, opening: name }: HoldStep): Done {
    const { network } = stage.ground;
    const wrong = valves.flatMap((id): BrokenLaw[] => {
        const valve = network.parts.get(id);
        if (!valve || !isValve(valve)) return [breaks('no-such-part', [id])];
        return valve.kind === 'shutoff' && state.positions.get(id) !== 'shut' ? [breaks('no-such-position', [id, 'shut'])] : [];
    });
    const found = openingOf(stage, part, name);
    if (!('name' in found)) return { state, broken: [...wrong, found.law] };
    if (isOff(state, found)) return { state, broken: [...wrong, breaks('already-open', [part, found.name])] };
    const open = stands(state, found);
    const after = open ? state : opened(stage, state, found);
    return {
        state: { ...after, proven: having(after.proven, ...valves.filter((id) => network.parts.has(id))) },
        broken: [...wrong, ...(open ? [] : openingLaws(stage, state, found))],
    };
}
