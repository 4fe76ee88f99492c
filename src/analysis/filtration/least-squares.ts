/** A straight line through points by least squares, and how sure its slope is. */

export interface Point {
    readonly x: number;
    readonly y: number;
}

export interface Line {
    /** The point through which it goes at every slope: the mean of all. */
    readonly middle: Point;
    readonly slope: number;
    /** The slope could be off by so much either way, at 19 chances in 20 on each side. */
    readonly off: number;
}

/**
 * One-sided 5 % points of Student's t by degrees of freedom, 1 to 10, then from 15, 20 and 30 on; the printed tables', from memory. Between two the
 * lower one is taken, so the slope is never called surer than it is.
 */
const STUDENT: readonly (readonly [number, number])[] = [
    [1, 6.314], [2, 2.92], [3, 2.353], [4, 2.132], [5, 2.015], [6, 1.943], [7, 1.895], [8, 1.86], [9, 1.833], [10, 1.812], [15, 1.753], [20, 1.725], [30, 1.697],
];

/** Undefined with fewer than three points, or fewer than three places along x: through two, any line is as good as its figures. */
export function lineThrough(points: readonly Point[]): Line | undefined {
    if (new Set(points.map(({ x }) => x)).size < 3) return undefined;
    const mean = (of: (point: Point) => number): number => points.reduce((sum, point) => sum + of(point), 0) / points.length;
    const middle = { x: mean(({ x }) => x), y: mean(({ y }) => y) };
    const spread = mean(({ x }) => (x - middle.x) ** 2);
    const slope = mean(({ x, y }) => (x - middle.x) * (y - middle.y)) / spread;
    const rest = mean(({ x, y }) => (y - middle.y - slope * (x - middle.x)) ** 2);
    const freedom = points.length - 2;
    const student = STUDENT.findLast(([from]) => from <= freedom)![1];
    const off = student * Math.sqrt(rest / spread / freedom);
    return Number.isFinite(slope) && Number.isFinite(off) ? { middle, slope, off } : undefined;
}
