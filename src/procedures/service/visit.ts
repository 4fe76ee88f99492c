/** What every recipe asks of the boat: her lines, the line-ups that the visit starts from and ends in, today's case. */
import type { Boat, Id } from '../../model/boat';
import { pumpingOf, type Pumping } from '../../analysis/air/pumping';
import { lineUpsOf, normalLineUp, type ResolvedLineUp } from '../../analysis/topology/line-ups';
import { networkOf, type LinedUp, type Network } from '../../analysis/topology/network';
import { running } from '../../analysis/topology/paths';
import type { Blank, ProcedureRequest } from './plan';

export interface Visit {
    readonly boat: Boat;
    readonly network: Network;
    readonly pumping: Pumping;
    readonly lineUps: readonly ResolvedLineUp[];
    readonly request: ProcedureRequest;
    readonly starts: ResolvedLineUp;
    readonly ends: ResolvedLineUp;
}

export function visitOf(boat: Boat, request: ProcedureRequest): Visit | Blank {
    const lineUps = keep(boat, 'line-ups', () => lineUpsOf(boat));
    const named = (id: Id | undefined): ResolvedLineUp | undefined => (id === undefined ? normalLineUp(boat, lineUps) : lineUps.find((lineUp) => lineUp.id === id));
    const [starts, ends] = [named(request.starts), named(request.ends)];
    if (!starts || !ends) return { blank: `There is no line-up called ${starts ? request.ends : request.starts}.`, missing: [] };
    const network = networkOf(boat);
    return { boat, network, pumping: pumpingOf(network), lineUps, request, starts, ends };
}

/** Every valve open, everything running: what could be reached at all. */
export const allOpen = ({ boat, network }: Visit): LinedUp => keep(boat, 'all open', () => running(network, new Map(), 'all open'));

const kept = new WeakMap<Boat, Map<string, unknown>>();

/** What was worked out of a boat under these words, or now is: the cells of a table ask the same again and again. */
export function keep<T>(boat: Boat, key: string, work: () => T): T {
    const answers = kept.get(boat) ?? new Map<string, unknown>();
    kept.set(boat, answers);
    if (!answers.has(key)) answers.set(key, work());
    return answers.get(key) as T;
}
