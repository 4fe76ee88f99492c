/** What operations share: steps with their section and remarks, valves from one line-up to another, and facts that are lacking. */
import type { Boat, Id } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { ServiceStep } from '../../../model/step';
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
        .map((valve) => ({ about: valve, fact: `the position of ${valve} in line-up ${lineUp.id}`, how: 'write it into the line-up' })));
}

export const sizeMissing = (tank: Id): MissingFact => ({ about: tank, fact: `the size and height of ${tank}`, how: 'measure it, and write `box 800 x 600 x 420 mm` and `low aft inner corner at 200 mm`; or two sections or more, if it is no box' });
export const mouthMissing = (fitting: Id): MissingFact => ({ about: fitting, fact: `the height of the mouth of ${fitting}`, how: 'measure how far the pipe reaches into the tank, and write `mouth at 25 mm off bottom`' });
export const rateMissing = (pump: Id): MissingFact => ({ about: pump, fact: `what ${pump} delivers`, how: 'read its plate, and write `gives 60 L/h`' });

/** Down to whole litres, as a sounding table or a gauge is read, m³. */
export const wholeLitres = (volume: number): number => Math.floor(volume * 1e3 + 1e-9) / 1e3;
