/** The ways by which liquid of a tank comes to an opening, each with what its checks hold back. */
import type { Id } from '../../model/boat';
import { onEveryWay } from '../topology/every-way';
import type { Network } from '../topology/network';
import { eachOnce, type Lack } from './lack';
import type { Plumbing } from './plumbing';

export interface Coming {
    readonly tank: Id;
    /** The tank's fitting that the liquid leaves by. */
    readonly fitting: Id;
    /** What it passes, from the tank to the opening; the tank's fitting and the opened part left out. */
    readonly through: readonly Id[];
    /** The pressure that the checks on this way hold back together, Pa. */
    readonly cracks: number;
    /** Checks and pumps on this way whose cracking pressure is not stated: taken as nothing, which lets most through. */
    readonly uncounted: readonly Id[];
    /** The consumer that it comes back through, from its return. */
    readonly backThrough?: Id;
    /** What was not stated of parts on this way, so that it may be no way at all. */
    readonly unsure: readonly Lack[];
}

interface Reached {
    readonly cracks: number;
    readonly steps: number;
    readonly by?: { readonly from: number; readonly passage: number };
}

/**
 * From every fitting of every tank the way that holds back least, then the shortest: the mouth of one may be dry while that of another is
 * not. Where it is not sure to be a way, the best of those that are sure stands beside it. In the order of the tanks.
 */
export function waysTo(plumbing: Plumbing, part: Id): readonly Coming[] {
    const answers = known.get(plumbing) ?? new Map<Id, readonly Coming[]>();
    known.set(plumbing, answers);
    const found = answers.get(part) ?? findWays(plumbing, part);
    answers.set(part, found);
    return found;
}

/** The same for every level and every heel. */
const known = new WeakMap<Plumbing, Map<Id, readonly Coming[]>>();

function findWays(plumbing: Plumbing, part: Id): Coming[] {
    const { network } = plumbing.linedUp;
    const [starts, own] = [pointsOf(network, part), network.through.get(part) ?? []];
    const any = leastHeld(plumbing, starts, (passage) => !own.includes(passage));
    const sure = leastHeld(plumbing, starts, (passage, entered) => !own.includes(passage) && unsureOf(plumbing, passage, entered).length === 0);
    return network.boat.tanks.flatMap((tank) => tank.fittings.flatMap(({ id }) => {
        const port = network.index.get(id)!;
        const [proven, other] = [sure, any].map((best) => (best.has(port) ? coming(plumbing, tank.id, id, port, best) : undefined));
        return [...(proven ? [proven] : []), ...(other && other.unsure.length > 0 && (!proven || other.cracks < proven.cracks) ? [other] : [])];
    }));
}

/**
 * The parts that all liquid of a tank's fitting passes on its way to a part. Legs side by side hinder it less than either alone, so of what
 * hinders it only these can be counted where too little must not be told.
 */
export function onlyThrough({ linedUp: { network, ways, back } }: Plumbing, part: Id, fitting: Id): ReadonlySet<Id> {
    const along = onEveryWay({ network, ways: back, back: ways }, pointsOf(network, part), [network.index.get(fitting)!], new Set(network.through.get(part)));
    return new Set(along.flatMap((i) => network.passages[i]!.part ?? []));
}

/** What would have to be known of a passage to be sure that liquid comes through it from the end that it enters. */
function unsureOf({ linedUp: { network }, positions }: Plumbing, passage: number, entered: number): Lack[] {
    const { kind, part, to, passesAtRest } = network.passages[passage]!;
    if (kind === 'consumer') return entered === to && network.consumers.get(part!)!.backflow === undefined ? [{ about: part!, of: 'backflow' }] : [];
    if (kind === 'pump') return passesAtRest !== true && network.parts.get(part!)!.whenOff === undefined ? [{ about: part!, of: 'when off' }] : [];
    return kind === 'valve' && positions.get(part!) === undefined ? [{ about: part!, of: 'position' }] : [];
}

/** The points that are opened with a part: its ports. */
export function pointsOf(network: Network, part: Id): number[] {
    const own = (network.through.get(part) ?? []).flatMap((i) => [network.passages[i]!.from, network.passages[i]!.to]);
    const tee = network.index.get(part);
    return [...new Set([...own, ...(tee === undefined ? [] : [tee])])];
}

/** From the opening against the flow: what the checks hold back, then the number of passages (Dijkstra). */
function leastHeld(plumbing: Plumbing, starts: readonly number[], may: (passage: number, entered: number) => boolean): Map<number, Reached> {
    const { linedUp, linedUp: { network } } = plumbing;
    const best = new Map<number, Reached>(starts.map((point) => [point, { cracks: 0, steps: 0 }]));
    const open = new Set(starts);
    while (open.size > 0) {
        const at = nearest(plumbing, open, best);
        open.delete(at);
        if (network.tankPoints.has(at)) continue;
        const here = best.get(at)!;
        for (const { to, passage } of linedUp.back[at]!) {
            if (!may(passage, to)) continue;
            const next: Reached = { cracks: here.cracks + crackOf(plumbing, passage, to), steps: here.steps + 1, by: { from: at, passage } };
            const other = best.get(to);
            if (other && !less(next, other)) continue;
            best.set(to, next);
            open.add(to);
        }
    }
    return best;
}

function nearest({ rank }: Plumbing, open: ReadonlySet<number>, best: ReadonlyMap<number, Reached>): number {
    let at: number | undefined;
    for (const point of open) {
        const [one, other] = [best.get(point)!, at === undefined ? undefined : best.get(at)!];
        if (!other || less(one, other) || (!less(other, one) && rank[point]! < rank[at!]!)) at = point;
    }
    return at!;
}

const less = (a: Reached, b: Reached): boolean => a.cracks < b.cracks || (a.cracks === b.cracks && a.steps < b.steps);

/** What a passage holds back of what enters it at a point, Pa. A worn check holds nothing. */
function crackOf({ linedUp, checks }: Plumbing, index: number, entered: number): number {
    const { kind, from, part } = linedUp.network.passages[index]!;
    if (checks === 'leaky' || (kind !== 'one-way' && kind !== 'pump') || from !== entered) return 0;
    // A pump that hands or a cam work has a check on either side of its chamber.
    return (linedUp.network.parts.get(part!)!.cracks?.si ?? 0) * (kind === 'pump' ? 2 : 1);
}

function coming(plumbing: Plumbing, tank: Id, fitting: Id, port: number, best: ReadonlyMap<number, Reached>): Coming {
    const { linedUp: { network }, checks } = plumbing;
    const through: Id[] = [];
    const uncounted: Id[] = [];
    const unsure: Lack[] = [];
    let backThrough: Id | undefined;
    for (let at = port, here = best.get(at)!; here.by; at = here.by.from, here = best.get(at)!) {
        const { part, kind, to } = network.passages[here.by.passage]!;
        if (part === undefined) continue;
        if (through.at(-1) !== part) through.push(part);
        unsure.push(...unsureOf(plumbing, here.by.passage, at));
        if (kind === 'consumer' && to === at) backThrough = part;
        if ((kind === 'one-way' || kind === 'pump') && checks === 'tight' && network.parts.get(part)!.cracks === undefined) uncounted.push(part);
    }
    return { tank, fitting, through, cracks: best.get(port)!.cracks, uncounted, unsure: eachOnce(unsure), ...(backThrough !== undefined && { backThrough }) };
}
