/**
 * What lies on every way from some points to others. It lies on any one way, so one is taken and walked along, with what is
 * reached without the rest of it: that only grows, and a passage that nothing leads round is on every way.
 */
import type { Id } from '../../model/boat';
import { NONE, type LinedUp } from './network';

/** Passages without which none of the ends could be reached from the starts, nearest to the starts first; none where nothing is reached. */
export function onEveryWay(linedUp: LinedUp, starts: readonly number[], ends: readonly number[], barred: ReadonlySet<number> = NONE): number[] {
    const { tankPoints } = linedUp.network;
    const { points, along } = shortest(linedUp, starts, ends, barred);
    const place = new Map(points.map((point, i) => [point, i]));
    for (const end of ends) place.set(end, points.length);
    const ahead = new Set(along);
    const seen = new Set(starts);
    const first = new Set(starts);
    /** How far along the way one comes. */
    let round = 0;
    const grow = (from: readonly number[]): void => {
        const queue = [...from];
        for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
            round = Math.max(round, place.get(at) ?? 0);
            if (tankPoints.has(at) && !first.has(at)) continue;
            for (const { to, passage } of linedUp.ways[at]!) {
                if (seen.has(to) || barred.has(passage) || ahead.has(passage)) continue;
                seen.add(to);
                queue.push(to);
            }
        }
    };
    grow(starts);
    return along.filter((passage, i) => {
        const isOnEvery = round <= i;
        ahead.delete(passage);
        seen.add(points[i + 1]!);
        grow([points[i + 1]!]);
        return isOnEvery;
    });
}

/** The points of a shortest way from the starts to the ends, and the passages between them; no passages where there is no way. */
function shortest({ ways, network }: LinedUp, starts: readonly number[], ends: readonly number[], barred: ReadonlySet<number>): { points: number[]; along: number[] } {
    const came = new Map<number, { from: number; passage: number } | undefined>(starts.map((point) => [point, undefined]));
    const queue = [...starts];
    for (let i = 0; i < queue.length && !ends.some((end) => came.has(end)); i++) {
        const at = queue[i]!;
        if (i >= starts.length && network.tankPoints.has(at)) continue;
        for (const { to, passage } of ways[at]!) {
            if (barred.has(passage) || came.has(to)) continue;
            came.set(to, { from: at, passage });
            queue.push(to);
        }
    }
    const points = ends.filter((end) => came.has(end)).slice(0, 1);
    const along: number[] = [];
    for (let step = came.get(points[0] ?? -1); step; step = came.get(step.from)) {
        points.push(step.from);
        along.push(step.passage);
    }
    return { points: points.reverse(), along: along.reverse() };
}

/** The parts that nothing passes which comes to a point from a tank; worked out once for a network in a line-up. */
export function partsOnEveryWayTo(linedUp: LinedUp, point: string): ReadonlySet<Id> {
    const { passages, tankPoints, index } = linedUp.network;
    const answers = known.get(linedUp) ?? new Map<string, ReadonlySet<Id>>();
    known.set(linedUp, answers);
    const at = index.get(point);
    const found = answers.get(point) ?? new Set(at === undefined ? [] : onEveryWay(linedUp, [...tankPoints], [at]).flatMap((i) => passages[i]!.part ?? []));
    answers.set(point, found);
    return found;
}

const known = new WeakMap<LinedUp, Map<string, ReadonlySet<Id>>>();
