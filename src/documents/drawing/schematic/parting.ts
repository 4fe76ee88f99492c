/**
 * Lines that leave one tee run together for a while on the sheet: what is common is drawn once, and the dot of the tee stands where they
 * part. The library gives each link its whole way.
 */
import type { Laid } from '../plan';
import type { Point } from '../svg';
import type { Schematic } from './place';

export interface Parted {
    /** The way of each link as it is drawn, from its `from` to its `to`. */
    readonly lines: ReadonlyMap<string, readonly Point[]>;
    /** Where lines part, by the block of the tee; nothing where no lines run together. */
    readonly dots: ReadonlyMap<string, readonly Point[]>;
}

/** `first` sorts links: of two that run together the earlier is drawn whole. */
export function parted({ fixtures, plan }: Schematic, laid: Laid, first: (link: string) => number): Parted {
    const lines = new Map<string, readonly Point[]>(laid.links);
    const dots = new Map<string, Point[]>();
    for (const { id, kind, outlets } of fixtures) {
        if (kind !== 'tee') continue;
        const found: Point[] = [];
        for (const { point } of outlets) for (const end of ['from', 'to'] as const) {
            const outward = (line: readonly Point[]): readonly Point[] => end === 'from' ? line : line.toReversed();
            const own = plan.links.filter((link) => link[end] === (end === 'from' ? `${point} east` : point)).toSorted((a, b) => first(a.id) - first(b.id));
            const drawn: (readonly Point[])[] = [];
            for (const link of own) {
                const line = outward(lines.get(link.id)!);
                const best = drawn.map((other) => common(other, line)).toSorted((a, b) => b.length - a.length)[0];
                drawn.push(line);
                if (!best) continue;
                found.push(best.at);
                lines.set(link.id, outward(best.rest));
            }
        }
        const unlike = found.filter(([x, y], i) => found.findIndex((other) => other[0] === x && other[1] === y) === i);
        if (unlike.length > 0) dots.set(id, unlike);
    }
    return { lines, dots };
}

/** How far a line runs on another from their common start, where it leaves it, and what is left of it. */
function common(one: readonly Point[], other: readonly Point[]): { readonly length: number; readonly at: Point; readonly rest: readonly Point[] } {
    let [i, j, length] = [0, 0, 0];
    let at = other[0]!;
    for (;;) {
        const [next, beside] = [other[j + 1], one[i + 1]];
        if (!next || !beside) break;
        const [a, b] = [toward(at, next), toward(at, beside)];
        if (a.x !== b.x || a.y !== b.y) break;
        const step = Math.min(a.far, b.far);
        at = [at[0] + a.x * step, at[1] + a.y * step];
        length += step;
        if (a.far === step) j++;
        if (b.far === step) i++;
    }
    return { length, at, rest: [at, ...other.slice(j + 1)] };
}

function toward([x, y]: Point, [toX, toY]: Point): { x: number; y: number; far: number } {
    return { x: Math.sign(toX - x), y: Math.sign(toY - y), far: Math.abs(toX - x) + Math.abs(toY - y) };
}
