/** What every recipe asks of the boat: her lines, the line-ups that the visit starts from and ends in, today's case. */
import type { Boat, Id } from '../../model/boat';
import { pumpingOf, type Pumping } from '../../analysis/air/pumping';
import { lineUpsOf, normalLineUp, type ResolvedLineUp } from '../../analysis/topology/line-ups';
import { networkOf, type Network } from '../../analysis/topology/network';
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
    const lineUps = lineUpsOf(boat);
    const named = (id: Id | undefined): ResolvedLineUp | undefined => (id === undefined ? normalLineUp(boat, lineUps) : lineUps.find((lineUp) => lineUp.id === id));
    const [starts, ends] = [named(request.starts), named(request.ends)];
    if (!starts || !ends) return { blank: `There is no line-up called ${starts ? request.ends : request.starts}.`, missing: [] };
    const network = networkOf(boat);
    return { boat, network, pumping: pumpingOf(network), lineUps, request, starts, ends };
}
