/** The ways by which liquid of a tank comes to an opening, each with what its checks hold back. */
import type { Consumer, Id } from '../../model/boat';
import type { Plumbing } from './condition';
import { joinedTanks } from '../topology/paths';
import type { Network, Way } from '../topology/network';

export interface Coming {
    readonly tank: Id;
    /** The tank's fitting that the liquid leaves by. */
    readonly fitting: Id;
    /** What it passes, from the tank to the opening, tanks and the opened part left out. */
    readonly through: readonly Id[];
    /** The pressure that the checks on this way hold back together, Pa. */
    readonly cracks: number;
    /** Checks and pumps on this way whose cracking pressure is not stated: taken as nothing, which lets most through. */
    readonly uncounted: readonly Id[];
    /** Whether it comes backward through a consumer, from its return. */
    readonly backThrough?: Id;
}

interface Reached {
    readonly cracks: number;
    readonly steps: number;
    readonly by?: { readonly from: number; readonly passage: number };
}

/** From every tank at most one way: that which holds back least, then the shortest. In the order of the tanks. */
export function waysTo(plumbing: Plumbing, part: Id): readonly Coming[] {
    const { network } = plumbing.linedUp;
    const own = new Set(network.through.get(part) ?? []);
    const starts = ends(network, part);
    const best = leastHeld(plumbing, starts, own);
    return [...network.tanks].flatMap(([tank, point]) => {
        const found = best.get(point);
        if (!found?.by) return [];
        return [coming(plumbing, tank, point, best)];
    });
}

/** The points that are opened with a part: its ports. */
export function ends(network: Network, part: Id): number[] {
    const alone = network.index.get(part);
    return [...new Set([...(network.through.get(part) ?? []).flatMap((i) => [network.passages[i]!.from, network.passages[i]!.to]), ...(alone === undefined ? [] : [alone])])];
}

/** Dijkstra from the opening against the flow: what the checks hold back, then the number of passages. */
function leastHeld(plumbing: Plumbing, starts: readonly number[], own: ReadonlySet<number>): Map<number, Reached> {
    const { network } = plumbing.linedUp;
    const best = new Map<number, Reached>(starts.map((point) => [point, { cracks: 0, steps: 0 }]));
    const open = new Set(starts);
    while (open.size > 0) {
        let at = -1;
        for (const point of open) if (at < 0 || less(best.get(point)!, best.get(at)!) || (!less(best.get(at)!, best.get(point)!) && point < at)) at = point;
        open.delete(at);
        if (network.tankPoints.has(at)) continue;
        const here = best.get(at)!;
        for (const { to, passage } of comesBy(plumbing, at)) {
            if (own.has(passage)) continue;
            const next: Reached = { cracks: here.cracks + crackOf(plumbing, passage, to), steps: here.steps + 1, by: { from: at, passage } };
            const known = best.get(to);
            if (known && !less(next, known)) continue;
            best.set(to, next);
            open.add(to);
        }
    }
    return best;
}

const less = (a: Reached, b: Reached): boolean => a.cracks < b.cracks || (a.cracks === b.cracks && a.steps < b.steps);

/** The ways by which liquid can come to a point. Worn checks let it through either way; a stopped consumer by what it says. */
function* comesBy({ linedUp, checks, backflow }: Plumbing, at: number): Generator<Way> {
    const { network, ways, back } = linedUp;
    yield* back[at]!;
    for (const way of ways[at]!) {
        const { kind, part } = network.passages[way.passage]!;
        if (kind === 'consumer' ? (network.consumers.get(part!)!.backflow ?? backflow) === 'passes' : checks === 'leaky' && (kind === 'one-way' || kind === 'pump')) yield way;
    }
}

/** What a passage holds back when liquid comes through it from `from`, Pa; a worn check holds nothing. */
function crackOf({ linedUp: { network }, checks }: Plumbing, index: number, from: number): number {
    const passage = network.passages[index]!;
    if (checks === 'leaky' || (passage.kind !== 'one-way' && passage.kind !== 'pump') || passage.from !== from) return 0;
    const part = network.parts.get(passage.part!)!;
    // A primer has a check on either side of its chamber.
    return (part.cracks?.si ?? 0) * (part.kind === 'check' ? 1 : 2);
}

function coming(plumbing: Plumbing, tank: Id, point: number, best: ReadonlyMap<number, Reached>): Coming {
    const { network } = plumbing.linedUp;
    const through: Id[] = [];
    const uncounted: Id[] = [];
    let backThrough: Consumer['id'] | undefined;
    const { cracks } = best.get(point)!;
    for (let at = point, reached = best.get(at); reached?.by; at = reached.by.from, reached = best.get(at)) {
        const passage = network.passages[reached.by.passage]!;
        if (passage.part === undefined) continue;
        if (through.at(-1) !== passage.part) through.push(passage.part);
        if (passage.kind === 'consumer' && passage.to === at) backThrough = passage.part;
        if ((passage.kind === 'one-way' || passage.kind === 'pump') && plumbing.checks === 'tight' && network.parts.get(passage.part)!.cracks === undefined) uncounted.push(passage.part);
    }
    const [fitting, ...rest] = through as [Id, ...Id[]];
    return { tank, fitting, through: rest, cracks, uncounted, ...(backThrough !== undefined && { backThrough }) };
}

/** The tanks that empty with this one, by a line that is open between them; itself first. */
export function emptiesWith({ linedUp, positions }: Plumbing, tank: Id): readonly Id[] {
    const group = joinedTanks(linedUp.network, positions).find((joined) => joined.includes(tank)) ?? [tank];
    return [tank, ...group.filter((other) => other !== tank)];
}
