/**
 * A dead leg is a row of pipes in a supply, return or transfer line that nothing flows through in any line-up for running, transferring or
 * polishing, whether a valve in it is shut or it ends blind. A line that a declared line-up uses is flushed by that use, so it is none. Each leg
 * ends at a shut valve: from there on another one stands still.
 *
 * A way round in which a primer or an electric pump stands, beside a line that is used, stands still by design: it is flushed whenever she is
 * bled with it, and PUMP-OFF-PATH asks for it. The line of a tank that is never drawn from is a dead leg, whatever stands in it.
 *
 * Division: lines that nothing reaches at all are NO-ORPHAN's. Vents and fills hold air.
 */
import type { Id, Part, Service } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import type { Passage } from '../../analysis/topology/network';
import { passagesOf } from '../../analysis/topology/paths';
import { routes } from '../../analysis/topology/routes';
import { figure, listed, mm } from '../../model/words';
import { nameOf, nothing, pointsWithoutFuel, serviceOf, type Check, type View } from '../check';
import { boreMissing, distinct, lengthMissing, positionMissing } from '../../analysis/missing';

export const deadleg: Check = {
    code: 'DEADLEG', severity: 'advice', slow: true,
    statement: 'No branch of a fuel line stands still in every line-up for running, transferring and polishing over more than ten of its bores, unless it has a drain, or is the way round of a pump that flushes it.',
    prevents: 'A place where water gathers and the fuel goes bad, until somebody opens the valve.',
    facts: 'the network; positions in line-ups; bores and lengths of pipes; drains',
    source: 'common practice',
    judge: (view) => {
        const legs = legsOf(view);
        return legs.length === 0 ? [nothing('no pipe of a fuel line stands still in every line-up')] : legs.map((leg) => judge(view, leg));
    },
};

/** Common practice. */
const BORES = 10;

interface Leg {
    readonly pipes: readonly Part[];
    /** What stands still with them. */
    readonly others: readonly Part[];
    /** Valves that are shut at its ends in the line-ups. */
    readonly shut: readonly Id[];
    /** It belongs to a way round with a pump of its own. */
    readonly isBypass: boolean;
    /** Positions that nobody wrote: what stands still behind them is not known. */
    readonly unplaced: readonly MissingFact[];
}

function judge(view: View, { pipes, others, shut, isBypass, unplaced }: Leg): Verdict {
    const about = pipes[0]!.id;
    if (isBypass) return { outcome: 'not applicable', about, why: 'it is the way round of a pump, which flushes it when she is bled' };
    if (unplaced.length > 0) return { outcome: 'cannot tell', about, missing: unplaced };
    const drained = others.find(({ drain, separatesWater }) => drain !== undefined || separatesWater);
    if (drained) return { outcome: 'pass', about, rests: [{ about: drained.id }] };
    const rests: Ground[] = pipes.flatMap(({ id, bore, length }) => [...(bore ? [{ about: id, fact: 'bore' }] : []), ...(length ? [{ about: id, fact: 'length' }] : [])]);
    const length = pipes.reduce((sum, pipe) => sum + (pipe.length?.si ?? 0), 0);
    const widest = Math.max(...pipes.map(({ bore }) => bore?.si ?? Infinity));
    if (length > BORES * widest + 1e-9) {
        const names = pipes.map(({ name }) => name);
        return {
            outcome: 'fail', about, rests, members: pipes.map(({ id }) => id),
            message: `Nothing flows through ${listed(names)} in any line-up for running, transferring or polishing: ${figure(length)} m stand still${shut.length > 0 ? ` at ${listed(shut.map((id) => nameOf(view.boat, id)))}` : ''}, ${figure(length / widest, 2)} times the bore.`,
            reason: 'Water gathers there, and the fuel in it goes bad; opened after months, it goes to the engine.',
            advice: `Write the line-up in which ${pipes.length > 1 ? 'they are' : 'it is'} used; else take ${pipes.length > 1 ? 'them' : 'it'} out to within ${mm(BORES * widest)} of what flows, or put a drain at the lowest point.`,
        };
    }
    const missing: MissingFact[] = distinct(pipes.flatMap((pipe) => [...(pipe.bore ? [] : [boreMissing(pipe)]), ...(pipe.length ? [] : [lengthMissing(pipe, 'its two ends')])]));
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

const isPipe = (part: Part | undefined): part is Part => part?.kind === 'hose' || part?.kind === 'tube';

/** What stands still, in rows that are joined by nothing which moves or is shut in all those line-ups. */
function legsOf(view: View): Leg[] {
    const { boat, network: { passages, parts, tankPoints } } = view;
    const used = view.lineUps.filter((lineUp) => view.runs.includes(lineUp) || lineUp.use === 'transfer' || lineUp.use === 'polish');
    const moving = new Set(used.flatMap((lineUp) => [...flowing(view, lineUp)]));
    const dry = pointsWithoutFuel(view);
    const isStill = ({ part, from }: Passage, i: number): boolean => !moving.has(i) && (part === undefined || LINES.has(serviceOf(boat, parts.get(part) ?? {}) ?? 'vent')) && !dry.has(from);
    const still = new Set(passages.flatMap((passage, i) => (isStill(passage, i) ? [i] : [])));
    const isShut = ({ kind, openIn, part }: Passage): boolean => kind === 'valve' && used.every(({ positions }) => !openIn!.has(positions.get(part!) ?? ''));
    const at = new Map<number, number[]>();
    passages.forEach(({ from, to }, i) => { for (const point of [from, to]) at.set(point, [...at.get(point) ?? [], i]); });

    const seen = new Set<number>();
    const movingPoints = new Set([...moving].flatMap((i) => [passages[i]!.from, passages[i]!.to]).filter((point) => !tankPoints.has(point)));
    /** Over its shut valves too: whether a pump stands in it, and it leaves what moves and comes back to it. */
    const isBypass = (first: number): boolean => {
        const met = new Set([first]);
        const ends = new Set<number>();
        for (const i of met) for (const point of [passages[i]!.from, passages[i]!.to]) {
            if (movingPoints.has(point)) ends.add(point);
            else for (const next of at.get(point)!) if (still.has(next)) met.add(next);
        }
        return ends.size > 1 && [...met].some((i) => passages[i]!.kind === 'pump');
    };
    const rowFrom = (first: number): Leg & { readonly isJoined: boolean } => {
        const [members, shut] = [new Set<Part>(), new Set<Id>()];
        let isJoined = false;
        const queue = [first];
        seen.add(first);
        for (let i = queue.pop(); i !== undefined; i = queue.pop()) {
            const { from, to, part } = passages[i]!;
            if (part !== undefined) members.add(parts.get(part)!);
            for (const point of [from, to]) {
                // Of two legs at one tee that is passed, each stands for itself.
                if (movingPoints.has(point) || tankPoints.has(point)) { isJoined = true; continue; }
                for (const next of at.get(point)!) {
                    if (isShut(passages[next]!)) shut.add(passages[next]!.part!);
                    else if (!still.has(next)) isJoined = true;
                    else if (!seen.has(next)) { seen.add(next); queue.push(next); }
                }
            }
        }
        const unplaced = used.flatMap((lineUp) => lineUp.unplaced.filter((id) => shut.has(id)).map((id) => positionMissing(id, lineUp.id)));
        return { pipes: [...members].filter(isPipe), others: [...members].filter((part) => !isPipe(part)), shut: [...shut].sort(), isBypass: isBypass(first), unplaced, isJoined };
    };
    return [...still].filter((i) => isPipe(parts.get(passages[i]!.part ?? ''))).flatMap((i) => (seen.has(i) ? [] : [rowFrom(i)])).filter(({ isJoined, shut }) => isJoined || shut.length > 0);
}

const LINES: ReadonlySet<Service> = new Set(['supply', 'return', 'transfer']);

/** Passages on some way from a tank to what runs, from there to a tank, or from tank to tank. */
function flowing(view: View, lineUp: ResolvedLineUp): Set<number> {
    const { boat, network } = view;
    const linedUp = view.running(lineUp);
    const fittings = boat.tanks.flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup' || kind === 'drop').map(({ id }) => network.index.get(id)!));
    const stopped = passagesOf(network, lineUp.stopped);
    return new Set([
        ...routes(linedUp, fittings, fittings, stopped),
        ...boat.consumers.filter(({ id }) => !lineUp.stopped.includes(id)).flatMap(({ id }) => [
            ...routes(linedUp, network.tankPoints, [network.index.get(`${id}:in`)!]), ...routes(linedUp, [network.index.get(`${id}:out`)!], network.tankPoints),
        ]),
    ]);
}
