/** Who draws from a tank while it is filled, and how the valves let it draw from another (published C5). */
import type { Id } from '../../../model/boat';
import { burnersOf, runsIn } from '../../../analysis/time/burners';
import { movers } from '../../../analysis/time/overflow';
import { runLineUps, type ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { isValve, type Network, type Positions } from '../../../analysis/topology/network';
import { partsAfter, partsBefore, running, tanksAfter, tanksBefore } from '../../../analysis/topology/paths';
import { barredFor } from '../../../analysis/time/burners';
import { returnIsBlocked } from '../../../analysis/topology/isolation';
import type { Visit } from '../visit';

export interface Drawing {
    readonly lineUp: ResolvedLineUp;
    /** Those of the line-up, with the valves of consumers turned to another tank where that can be. */
    readonly positions: Positions;
    /** Consumers that must stand still: another tank can feed them, though not while this one is filled so. */
    readonly stops: readonly Id[];
    /** Consumers that were turned to other tanks. */
    readonly others: readonly { readonly engine: Id; readonly tanks: readonly Id[] }[];
    /** Consumers that no other tank can feed: they may run on. */
    readonly onlyHere: readonly Id[];
}

export function drawingElsewhere({ network, lineUps }: Visit, lineUp: ResolvedLineUp, pump: Id, tank: Id): Drawing {
    let { positions } = lineUp;
    const [stops, others, onlyHere]: [Id[], { engine: Id; tanks: readonly Id[] }[], Id[]] = [[], [], []];
    for (const { id } of burnersOf(network)) {
        if (!runsIn(lineUp, id) || !feeds(network, positions, id).includes(tank)) continue;
        const elsewhere = runLineUps(lineUps).filter((other) => { const tanks = feeds(network, other.positions, id); return tanks.length > 0 && !tanks.includes(tank); });
        const turned = elsewhere.map((other) => withValvesOf(network, positions, other.positions, id)).find((after) => !feeds(network, after, id).includes(tank) && feeds(network, after, id).length > 0 && fillsAlike(network, positions, after, pump) && keepsReturn(network, after, id, tank));
        if (turned) { positions = turned; others.push({ engine: id, tanks: feeds(network, turned, id) }); } else (elsewhere.length > 0 ? stops : onlyHere).push(id);
    }
    return { lineUp, positions, stops, others, onlyHere };
}

const feeds = (network: Network, positions: Positions, consumer: Id): readonly Id[] => tanksBefore(running(network, positions), `${consumer}:in`);

/** The valves of a consumer's own lines as another line-up has them. */
function withValvesOf(network: Network, positions: Positions, other: Positions, consumer: Id): Positions {
    const linedUp = running(network, other);
    const own = new Set([...partsBefore(linedUp, `${consumer}:in`), ...partsAfter(linedUp, `${consumer}:out`)]);
    return new Map([...positions].map(([valve, position]) => [valve, own.has(valve) && isValve(network.parts.get(valve)!) ? other.get(valve) ?? position : position]));
}

/** The pump still draws from the same tanks and delivers to the same. */
function fillsAlike(network: Network, positions: Positions, after: Positions, pump: Id): boolean {
    const barred = barredFor(network).any;
    const moved = (at: Positions): string => { const linedUp = running(network, at); return movers(network, linedUp).some(({ id }) => id === pump) ? `${tanksBefore(linedUp, `${pump}:in`, barred).join()} ${tanksAfter(linedUp, `${pump}:out`, barred).join()}` : ''; };
    return moved(after) === moved(positions);
}

/** Its return is open, and does not lead into the tank that is filled. */
function keepsReturn(network: Network, positions: Positions, consumer: Id, tank: Id): boolean {
    const linedUp = running(network, positions);
    return !returnIsBlocked(linedUp, consumer) && !tanksAfter(linedUp, `${consumer}:out`).includes(tank);
}
