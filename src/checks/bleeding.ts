/** What can push fuel to a bleed point, and in which settings of the valves: for all rules that ask how a boat is bled. */
import type { Consumer, Id, Vent } from '../model/boat';
import { runsBelow } from '../analysis/air/heights';
import { Pumping } from '../analysis/air/pumping';
import { ganged, type ResolvedLineUp } from '../analysis/topology/line-ups';
import { isValve, reach, type Positions } from '../analysis/topology/network';
import { tanksBefore } from '../analysis/topology/paths';
import type { View } from './check';

/** It remembers every flow that was asked for, so there is one for a view. */
export function pumpingOf(view: View): Pumping {
    const found = pumpings.get(view) ?? new Pumping(view.network);
    pumpings.set(view, found);
    return found;
}

const pumpings = new WeakMap<View, Pumping>();

/**
 * A line-up for running as it is; with every shutoff open that a hand can open, like that of a primer in a bypass; and with one selector or
 * changeover turned, like that of the filter which is off line.
 */
export function bleedSettings({ boat }: View, { positions }: ResolvedLineUp): Positions[] {
    const byHand = new Set(boat.parts.filter((part) => part.kind === 'shutoff' && !part.solenoid).map(({ id }) => id));
    const turned = boat.parts.filter((part) => part.kind !== 'shutoff' && isValve(part) && ganged(boat, part.id)[0] === part.id);
    const shut = [...positions].filter(([valve, position]) => position === 'shut' && byHand.has(valve));
    return [
        positions,
        ...(shut.length === 0 ? [] : [new Map([...positions, ...shut.map(([valve]) => [valve, 'open'] as const)])]),
        ...turned.flatMap((part) => part.positions.filter(({ name }) => name !== positions.get(part.id))
            .map(({ name }) => new Map([...positions, ...ganged(boat, part.id).map((other) => [other, name] as const)]))),
    ];
}

/** Whether the tank fills an empty line to the vent by its height, in some line-up for running. */
export function fills(view: View, pumping: Pumping, vent: Vent, tank: Id, consumers: readonly Consumer[], surface: number): ReturnType<typeof runsBelow> {
    const answers = view.runs.flatMap((lineUp) => consumers.flatMap((consumer) => {
        const flow = pumping.flow(vent.id, { by: 'gravity', part: tank }, consumer.id, lineUp.positions);
        return 'law' in flow ? [] : [runsBelow(view.network, [...flow.sure, ...flow.legs], surface)];
    }));
    return answers.find((answer) => answer === 'yes') ?? answers.find((answer) => answer !== 'no') ?? 'no';
}

/** Consumers between which and some tank the vent's part lies. */
export function servedBy({ boat, network, allOpen }: View, vent: Vent): readonly Consumer[] {
    const own = boat.consumers.filter(({ id }) => id === vent.part && tanksBefore(allOpen, `${id}:in`).length > 0);
    const out = network.index.get(`${vent.part}:out`);
    if (out === undefined || tanksBefore(allOpen, `${vent.part}:in`).length === 0) return own;
    const after = reach(allOpen, allOpen.ways, [out]);
    return boat.consumers.filter((consumer) => consumer.id === vent.part ? own.includes(consumer) : after.has(network.index.get(`${consumer.id}:in`)!));
}
