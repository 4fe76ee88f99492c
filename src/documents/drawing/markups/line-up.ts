/** A line-up: how its valves stand, in which lines fuel moves, and which legs stay dead in it. */
import type { Id } from '../../../model/boat';
import { barredFor, runsIn } from '../../../analysis/time/burners';
import { movers } from '../../../analysis/time/overflow';
import { returnIsBlocked } from '../../../analysis/topology/isolation';
import { lineUpsOf, normalLineUp, type ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { lineUpNetwork, networkOf, type Network } from '../../../analysis/topology/network';
import { passagesOf, running, tanksAfter, tanksBefore } from '../../../analysis/topology/paths';
import { routes } from '../../../analysis/topology/routes';
import { nameOf } from '../../../checks/check';
import { capital, listed } from '../../../model/words';
import type { Mark, Markup } from '../markup';
import type { Refused, Shown } from './markup';
import { shownState } from './state';
import { onLines, teesAt } from './things';

export function lineUpMarkup(of: Shown): Markup | Refused {
    const { boat } = of;
    const state = shownState(of, 'low');
    if ('refused' in state) return state;
    const { lineUp } = state;
    const network = networkOf(boat);
    const { runs, live: moved } = liveIn(network, lineUp);
    const level = levelling(network, lineUp);
    const live = new Set([...moved, ...level.through]);
    const lines = onLines(boat);
    const dead = lines.filter((id) => !live.has(id));
    const positions = (id: Id): Pick<Mark, 'words'> => { const words = lineUp.positions.get(id) ?? (lineUp.unplaced.includes(id) ? '?' : undefined); return words === undefined ? {} : { words }; };
    return {
        title: `Line-up ${lineUp.id}`,
        marks: [
            ...lines.map((id): Mark => ({ about: id, as: live.has(id) ? 'live' : 'dead', ...positions(id) })),
            ...boat.consumers.filter(({ id }) => live.has(id)).map(({ id }): Mark => ({ about: id, as: 'live' })),
        ],
        notes: [
            ...runs.flatMap((id) => (network.consumers.has(id) ? consumerNotes(network, lineUp, id) : pumpNotes(network, lineUp, id))),
            ...(level.tanks.length > 0 ? [`${listed(level.tanks)} are joined with the valves so: fuel runs from the higher surface to the lower one, as far as the heights of the lines let it.`] : []),
            ...(runs.length === 0 ? [`Nothing runs in ${lineUp.id}.`] : []),
            ...(lineUp.stopped.length > 0 ? [`${listed(lineUp.stopped)} ${lineUp.stopped.length > 1 ? 'are' : 'is'} stopped in ${lineUp.id}.`] : []),
            ...unsaidNotes(lineUp), ...otherwise(of, lineUp),
            ...(dead.length > 0 && runs.length > 0 ? [`Nothing moves in ${listed(dead.map((id) => nameOf(boat, id)))}.`] : []),
        ],
    };
}

/**
 * What runs in a line-up, and all that fuel moves through then. While fuel is transferred or polished no engine counts as running, as where flow is
 * reckoned; then it is what the pumps between tanks move.
 */
export function liveIn(network: Network, lineUp: ResolvedLineUp): { readonly runs: readonly Id[]; readonly live: ReadonlySet<Id> } {
    const linedUp = running(network, lineUp.positions);
    const moves = lineUp.use === 'transfer' || lineUp.use === 'polish';
    const runs = moves ? movers(network, linedUp).map(({ id }) => id) : network.boat.consumers.map(({ id }) => id).filter((id) => runsIn(lineUp, id));
    // What no tank feeds does not run; an exchanger has no need of one. Nothing is moved through what stands still.
    const isFed = (id: Id): boolean => network.consumers.get(id)?.kind === 'exchanger' || tanksBefore(linedUp, `${id}:in`).length > 0;
    const still = moves ? barredFor(network).any : passagesOf(network, [...network.consumers.keys()].filter((id) => !runs.includes(id) || !isFed(id)));
    const live = new Set<Id>();
    for (const id of runs.filter(isFed)) {
        const own = network.through.get(id) ?? [];
        const barred = new Set([...own, ...still]);
        const [ins, outs] = moves ? [own.map((i) => network.passages[i]!.from), own.map((i) => network.passages[i]!.to)] : [endsOf(network, id, 'in'), endsOf(network, id, 'out')];
        const supply = routes(linedUp, [...network.tankPoints, ...outside(network, 'sea')], ins, barred);
        const circuits = routes(linedUp, outs, ins, barred);
        if (supply.size + circuits.size === 0) continue;
        const on = [...supply, ...circuits, ...routes(linedUp, outs, [...network.tankPoints, ...outside(network, 'sea')], barred)];
        live.add(id);
        for (const part of [...on.flatMap((i) => network.passages[i]!.part ?? []), ...teesAt(network.boat, on)]) live.add(part);
    }
    return { runs, live };
}

/** Open ends of courses. */
const outside = ({ points }: Network, what: 'sea'): number[] => points.flatMap((name, i) => (name.endsWith(`:${what}`) ? [i] : []));

/** What fuel runs through by itself from one tank to another, with the valves so: no pump and no consumer on the way. */
export function levelling(network: Network, lineUp: ResolvedLineUp): { readonly tanks: readonly Id[]; readonly through: ReadonlySet<Id> } {
    const linedUp = lineUpNetwork(network, lineUp.positions);
    const barred = new Set(network.passages.flatMap(({ kind }, i) => (kind === 'pump' || kind === 'consumer' ? [i] : [])));
    const found = network.boat.tanks.map(({ id }) => ({ id, at: network.tanks.get(id)! })).flatMap((one, i, all) => all.slice(i + 1).flatMap((other) => {
        const on = [...routes(linedUp, [one.at], [other.at], barred), ...routes(linedUp, [other.at], [one.at], barred)];
        return on.length === 0 ? [] : [{ tanks: [one.id, other.id], on }];
    }));
    const on = [...new Set(found.flatMap((pair) => pair.on))];
    return { tanks: [...new Set(found.flatMap((pair) => pair.tanks))], through: new Set([...on.flatMap((i) => network.passages[i]!.part ?? []), ...teesAt(network.boat, on)]) };
}

/** The points of a consumer, those of its own circuits among them. */
const endsOf = ({ points }: Network, consumer: Id, end: 'in' | 'out'): number[] => points.flatMap((name, i) => (name === `${consumer}:${end}` || (name.startsWith(`${consumer}.`) && name.endsWith(`-${end}`)) ? [i] : []));

function consumerNotes(network: Network, lineUp: ResolvedLineUp, id: Id): string[] {
    const linedUp = running(network, lineUp.positions);
    const [from, to] = [tanksBefore(linedUp, `${id}:in`), tanksAfter(linedUp, `${id}:out`)];
    if (from.length === 0) return network.boat.courses.some((course) => course.from.outside === 'sea' && course.to.part === id) ? [`${id} is fed from the sea.`] : [`No tank feeds ${id} in ${lineUp.id}.`];
    if (!network.boat.joints.some((joint) => joint.from === `${id}:out` || joint.to === `${id}:out`)) return [`${id} draws from ${listed(from)}; no return of it is written.`];
    if (returnIsBlocked(linedUp, id)) return [`WARNING: the return of ${id} is shut in ${lineUp.id}. Open it before ${id} runs.`];
    return [`${id} draws from ${listed(from)} and returns to ${to.length === 0 ? 'its own supply' : listed(to)}.`];
}

function pumpNotes(network: Network, { positions }: ResolvedLineUp, id: Id): string[] {
    const linedUp = running(network, positions);
    const barred = barredFor(network).any;
    return [`${capital(nameOf(network.boat, id))} draws from ${listed(tanksBefore(linedUp, `${id}:in`, barred))} and pushes to ${listed(tanksAfter(linedUp, `${id}:out`, barred))}. No engine counts as running meanwhile.`];
}

export const unsaidNotes = ({ id, unplaced, assumedOpen }: ResolvedLineUp): string[] => [
    ...(unplaced.length > 0 ? [`How ${listed(unplaced)} ${unplaced.length > 1 ? 'stand' : 'stands'} in ${id} is not written, so what is told of ${unplaced.length > 1 ? 'their' : 'its'} lines may be otherwise. Write it into the line-up.`] : []),
    ...(assumedOpen.length > 0 ? [`${listed(assumedOpen)} ${assumedOpen.length > 1 ? 'are' : 'is'} taken as open: nothing says how ${assumedOpen.length > 1 ? 'they stand' : 'it stands'} in ${id}.`] : []),
];

/** What stands otherwise than as she is left. */
function otherwise({ boat }: Shown, lineUp: ResolvedLineUp): string[] {
    const normal = normalLineUp(boat, lineUpsOf(boat));
    if (!normal || normal.id === lineUp.id) return [];
    const others = [...lineUp.positions].filter(([valve, position]) => normal.positions.get(valve) !== position).map(([valve, position]) => `${valve} ${position}`);
    return others.length === 0 ? [] : [`Otherwise than in ${normal.id}: ${listed(others)}.`];
}
