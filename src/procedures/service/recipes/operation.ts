/** What operations share: steps with their section and remarks, and valves from one line-up to another. */
import type { Boat, Id } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { ServiceStep } from '../../../model/step';
import { positionMissing } from '../../../analysis/missing';
import { ganged, turned, type ResolvedLineUp } from '../../../analysis/topology/line-ups';
import type { Network, Positions } from '../../../analysis/topology/network';
import type { Blank, PlannedServiceStep, Remark, Section } from '../plan';

export const planned = (section: Section, step: ServiceStep, ...remarks: readonly Remark[]): PlannedServiceStep => ({ step, section, remarks });
export const blank = (why: string, missing: readonly MissingFact[] = []): Blank => ({ blank: why, missing });

/** Steps that bring the valves from one setting to another: shut what is to be shut, turn, then open, each in the order that `rank` gives. */
export function settings(network: Network, from: Positions, to: Positions, rank: (valve: Id) => number = () => 0): (ServiceStep & { readonly do: 'set' })[] {
    const { boat } = network;
    const group = (position: string): number => (position === 'shut' ? 0 : position === 'open' ? 2 : 1);
    const wanted = [...to].filter(([valve, position]) => from.get(valve) !== position)
        .sort(([a, one], [b, other]) => group(one) - group(other) || rank(a) - rank(b));
    const steps: (ServiceStep & { readonly do: 'set' })[] = [];
    let positions = from;
    for (const [part, position] of wanted) {
        if (positions.get(part) === position) continue;
        steps.push({ do: 'set', part, position });
        positions = turned(boat, positions, part, position);
    }
    return steps;
}

/** Valves that line-ups leave unsaid. */
export function unplaced(boat: Boat, ...lineUps: readonly ResolvedLineUp[]): MissingFact[] {
    return lineUps.flatMap((lineUp) => lineUp.unplaced.filter((valve) => ganged(boat, valve)[0] === valve || !lineUp.unplaced.includes(ganged(boat, valve)[0]!))
        .map((valve) => positionMissing(valve, lineUp.id)));
}

/** As the facts that are lacking name it. */
export const named = (boat: Boat, id: Id): { readonly id: Id; readonly name: string } => ({ id, name: boat.parts.find((part) => part.id === id)?.name ?? id });

/** Down to whole litres, as a sounding table or a gauge is read, m³. */
export const wholeLitres = (volume: number): number => Math.floor(volume * 1e3 + 1e-9) / 1e3;
