/** The line through points, and how sure its slope is. */
import { describe, expect, test } from 'vitest';
import { lineThrough } from '../../../src/analysis/filtration/least-squares';

test('by hand', () => {
    // Through (0, 2000), (50, 3000), (100, 2100): middle (50, 2366.67); slope (-50 x -366.67 + 50 x -266.67) / 5000 = 1. From the line they are -316.67, 633.33 and
    // -316.67 off: squares 601 667; by one degree of freedom and 5000: sqrt(120.33) = 10.970; x 6.314 = 69.26.
    const line = lineThrough([{ x: 0, y: 2000 }, { x: 50, y: 3000 }, { x: 100, y: 2100 }])!;
    expect([line.middle.x, line.middle.y, line.slope, line.off]).toEqual([50, expect.closeTo(2366.67, 2), expect.closeTo(1, 9), expect.closeTo(69.26, 2)]);
});

test.each([[[]], [[[0, 1]]], [[[0, 1], [1, 2]]], [[[0, 1], [1, 2], [1, 3]]], [[[0, 1], [0, 2], [0, 3]]], [[[0, 1e200], [1, -1e200], [2, 1e200]]]])('none through %j', (points) => expect(lineThrough((points as number[][]).map(([x, y]) => ({ x: x!, y: y! })))).toBeUndefined());

describe('Student\'s t by its density, integrated: one chance in 20 lies above it', () => {
    /** The factor on the standard error, told by the line itself. */
    const factor = (freedom: number): number => {
        const points = Array.from({ length: freedom + 2 }, (_, i) => ({ x: i, y: i + (i % 2) }));
        const { middle, slope, off } = lineThrough(points)!;
        const squares = (of: (point: { x: number; y: number }) => number): number => points.reduce((sum, point) => sum + of(point) ** 2, 0);
        return off / Math.sqrt(squares(({ x, y }) => y - middle.y - slope * (x - middle.x)) / freedom / squares(({ x }) => x - middle.x));
    };
    /** With t = sqrt(n) tan a the density is proportional to cos^(n - 1) a: the share of what lies above, by Simpson's rule. */
    const above = (t: number, n: number): number => {
        const integral = (from: number, to: number): number => {
            const [steps, width] = [2000, (to - from) / 2000];
            return Array.from({ length: steps + 1 }, (_, i) => (i === 0 || i === steps ? 1 : i % 2 ? 4 : 2) * Math.cos(from + i * width) ** (n - 1)).reduce((sum, value) => sum + value, 0) * width / 3;
        };
        return integral(Math.atan(t / Math.sqrt(n)), Math.PI / 2) / integral(-Math.PI / 2, Math.PI / 2);
    };
    test.each([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 15, 20, 30])('%i degrees of freedom', (freedom) => expect(above(factor(freedom), freedom)).toBeCloseTo(0.05, 4));
    test.each([11, 14, 19, 29, 60, 200])('%i: no more than that', (freedom) => { expect(above(factor(freedom), freedom)).toBeLessThan(0.05); expect(above(factor(freedom), freedom)).toBeGreaterThan(0.044); });
});
