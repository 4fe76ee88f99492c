/** What operations share: valves from one line-up to another, what is caught, and what follows a bleed. */
import type { Boat, Id } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { ServiceStep } from '../../../model/step';
import { positionMissing } from '../../../analysis/missing';
import { segmentOf } from '../../../analysis/air/vents';
import { fullSpeed } from '../../../analysis/flow/demand';
import { ganged, turned, type ResolvedLineUp } from '../../../analysis/topology/line-ups';
import type { Network, Positions } from '../../../analysis/topology/network';
import type { BleedPlan } from '../../bleed';
import type { Blank, PlannedServiceStep, Remark, Section } from '../plan';
import { planned } from '../step-of';
import { FAST_IDLE } from '../verify';
import type { Visit } from '../visit';

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

/** Pads under each part that one of these bleed points stands on. */
export function pads({ network }: Pick<Visit, 'network'>, vents: readonly Id[], section: Section): PlannedServiceStep[] {
    const parts = [...new Set(vents.flatMap((vent) => segmentOf(network, vent) ?? []))];
    return parts.map((part) => planned(section, { do: 'place', thing: 'pads', part, count: 2 }));
}

/** The steps of a bleed sequence, to be read where the work is done. */
export const bleeding = ({ steps }: BleedPlan): PlannedServiceStep[] => steps.map(({ step, traps, drawUp }) => ({ ...planned(step.do === 'start' ? 'start' : 'bleed', step), traps, ...(drawUp && { drawUp }) }));

/** s at a fast idle, which pass what small air is left: some minutes (published S1). */
const PASSES_AIR = 5 * 60;

/** What follows a bleed that ends with the engine running: it passes the last air, its joints are looked at, and the bilge pump goes on. */
export function afterBleeding({ boat }: Visit, engine: Id, { remarks = [], runsOn = false }: { readonly remarks?: readonly Remark[]; readonly runsOn?: boolean } = {}): PlannedServiceStep[] {
    const consumer = boat.consumers.find(({ id }) => id === engine)!;
    // A generator runs at its own speed.
    const speed = consumer.kind === 'engine' ? { speed: Math.min(FAST_IDLE, fullSpeed(consumer) ?? FAST_IDLE) } : {};
    return [
        planned('verify', { do: 'run', part: engine, ...speed, seconds: PASSES_AIR }, ...remarks),
        planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' }),
        ...(runsOn ? [] : [planned('verify', { do: 'stop', part: engine })]),
        planned('finish', { do: 'switch', thing: 'bilge pump', to: 'auto' }, { say: 'bilge clean first' }),
    ];
}
