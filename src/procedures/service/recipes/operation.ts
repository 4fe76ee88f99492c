/** What operations share: valves from one line-up to another, what is caught, and what follows a bleed. */
import type { Boat, Consumer, Id } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { BleedStep, ServiceStep, Step } from '../../../model/step';
import { positionMissing } from '../../../analysis/missing';
import { segmentOf } from '../../../analysis/air/vents';
import { fullSpeed } from '../../../analysis/flow/demand';
import { ganged, turned, type ResolvedLineUp } from '../../../analysis/topology/line-ups';
import type { Network, Positions } from '../../../analysis/topology/network';
import type { BleedPlan } from '../../bleed';
import type { Blank, PlannedServiceStep, Remark, Section } from '../plan';
import { planned, told } from '../step-of';
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

/** The level of a tank is measured and written down. */
export const sounding = (section: Section, tank: Id, ...remarks: readonly Remark[]): PlannedServiceStep => told(section, { do: 'look', part: tank, piece: 'level' }, { tell: 'sound', with: { tank } }, ...remarks);

/** What runs by itself while somebody looks elsewhere is led into a can, m³: a size that is easily at hand. */
const BLED_INTO = 2e-3;

/** Pads under each part that is bled, and a can where it runs without a hand at the pump; what has both already is left. */
export function caughtAt({ network }: Pick<Visit, 'network'>, steps: BleedPlan['steps'], has: readonly Id[]): PlannedServiceStep[] {
    const at = steps.flatMap(({ step }) => (step.do === 'bleed' ? [{ part: segmentOf(network, step.vent), runs: runsByItself(step) }] : step.do === 'prove' ? [{ part: segmentOf(network, step.vent), runs: false }] : []));
    const parts = [...new Set(at.flatMap(({ part }) => part ?? []))].filter((part) => !has.includes(part));
    return parts.flatMap((part) => [
        planned('bleed', { do: 'place', thing: 'pads', part, count: 2 }),
        ...(at.some((one) => one.part === part && one.runs) ? [told('bleed', { do: 'place', thing: 'can', part, holds: BLED_INTO }, { tell: 'drip can', with: { part, holds: BLED_INTO } })] : []),
    ]);
}

const runsByItself = ({ driver }: BleedStep): boolean => driver.by === 'gravity' || driver.by === 'electric';

/** Joints are looked at before the engine shakes them, and again when it runs. */
const looked = planned('bleed', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' });

/**
 * The steps of a bleed sequence, to be read where the work is done. Where it ends with a start the battery is off before it: it is set on for an electric
 * pump and for the start, and off again for hands at a lever.
 */
export function bleeding(steps: BleedPlan['steps']): PlannedServiceStep[] {
    const first = steps.findIndex(({ step }) => step.do === 'start');
    let isOn = first < 0;
    const power = (step: Step): PlannedServiceStep[] => {
        const pump = step.do === 'bleed' && step.driver.by === 'electric' ? step.driver.part : undefined;
        const atLever = step.do === 'prove' || (step.do === 'bleed' && step.driver.by === 'lever');
        const wanted = step.do === 'start' || pump !== undefined || (isOn && !(atLever && first >= 0));
        if (wanted === isOn) return [];
        isOn = wanted;
        return [planned(step.do === 'start' ? 'start' : 'bleed', { do: 'switch', thing: 'battery switch', to: wanted ? 'on' : 'off' }, pump === undefined ? undefined : { say: 'needs power', with: { pump } })];
    };
    return steps.flatMap(({ step, traps, drawUp }, i) => [
        ...(i === first ? [looked] : []), ...power(step),
        { ...planned(step.do === 'start' ? 'start' : 'bleed', step, step.do === 'bleed' && runsByItself(step) ? { say: 'tube into the can', with: { vent: step.vent } } : undefined), traps, ...(drawUp && { drawUp }) },
        // Left on, it would run again with the battery.
        ...(step.do === 'bleed' && step.driver.by === 'electric' && !steps.slice(i + 1).some((later) => later.step.do === 'bleed' && later.step.driver.part === step.driver.part) ? [planned('bleed', { do: 'stop', part: step.driver.part })] : []),
    ]);
}

/** At what an engine idles fast; a generator runs at its own speed. */
export const idling = (consumer: Consumer): { readonly speed?: number } => (consumer.kind === 'engine' ? { speed: Math.min(FAST_IDLE, fullSpeed(consumer) ?? FAST_IDLE) } : {});

/** s at a fast idle, which pass what small air is left: some minutes (published S1). */
const PASSES_AIR = 5 * 60;

/** What follows a bleed that ends with the engine running: it passes the last air, its joints are looked at, and the bilge pump goes on. */
export function afterBleeding({ boat }: Visit, engine: Id, { remarks = [], runsOn = false }: { readonly remarks?: readonly Remark[]; readonly runsOn?: boolean } = {}): PlannedServiceStep[] {
    const consumer = boat.consumers.find(({ id }) => id === engine)!;
    return [
        planned('verify', { do: 'run', part: engine, ...idling(consumer), seconds: PASSES_AIR }, ...remarks),
        planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' }),
        ...(runsOn ? [] : [planned('verify', { do: 'stop', part: engine })]),
        planned('finish', { do: 'switch', thing: 'bilge pump', to: 'auto' }, { say: 'bilge clean first' }),
    ];
}
