/** The sketches by hand are sketches of these boats, and have the crossings that are said: counted here by pairs of lines that change places. */
import { describe, expect, test } from 'vitest';
import type { Boat, End } from '../../src/model/boat';
import { example, load } from '../checks/boats';
import { HAND_CROSSINGS, SKETCHES, type Sketch } from './hand-layouts';
import { TOPOLOGIES } from './topologies';

const EXAMPLES = ['ottilwake', 'ottilwake-mended', 'brackenwake', 'brackenwake-mended', 'marrenwake'];

test('each boat has a sketch and a figure', () => {
    const all = [...TOPOLOGIES.map(({ name }) => name), ...EXAMPLES];
    expect(Object.keys(SKETCHES)).toEqual(all);
    expect(Object.keys(HAND_CROSSINGS)).toEqual(all);
});

describe.each(Object.entries(SKETCHES))('%s', (name, sketch) => {
    test('has as many crossings as are said', () => expect(crossings(sketch)).toBe(HAND_CROSSINGS[name]));
    test('is in order: every line is drawn once a column, and each thing stands together, at one height on both its sides', () => {
        for (const column of sketch.columns) {
            const [west, east] = sides(column);
            for (const side of [west, east]) expect(new Set(side).size).toBe(side.length);
            const [left, right] = [owners(west), owners(east)];
            for (const side of [left, right]) expect(new Set(side).size).toBe(side.length);
            // What ends in the column or begins there stands on one side only.
            expect(left.filter((owner) => right.includes(owner))).toEqual(right.filter((owner) => left.includes(owner)));
        }
        const used = sketch.links.flatMap((link) => link.split(' ')).filter((end) => !end.startsWith('~'));
        expect([...used].sort()).toEqual(sketch.columns.flatMap((column) => sides(column).flat()).filter((end) => !end.startsWith('~')).sort());
    });
    test('shows every fitting and consumer that a line of the boat ends at', async () => {
        const topology = TOPOLOGIES.find((other) => other.name === name);
        const { boat } = await load(topology?.text ?? example(name));
        const drawn = new Set(sketch.columns.flatMap((column) => sides(column).flat()));
        expect(endsOf(boat).filter((end) => !drawn.has(end))).toEqual([]);
    });
});

/** `T1.P1`, `E1.in`, `E1.out`: of what is neither a vent nor a fill. */
function endsOf(boat: Boat): string[] {
    const tanks = new Set(boat.tanks.map(({ id }) => id));
    const consumers = new Set(boat.consumers.map(({ id }) => id));
    const named = ({ part, port }: End, side: 'in' | 'out'): string[] => (part === undefined ? [] : tanks.has(part) ? [`${part}.${port!}`] : consumers.has(part) ? [`${part}.${side}`] : []);
    return boat.courses.filter(({ service }) => service !== 'vent' && service !== 'fill').flatMap(({ from, to }) => [...named(from, 'out'), ...named(to, 'in')]);
}

function sides(column: string): readonly [string[], string[]] {
    const [west, east] = column.split('|').map((side) => side.split(' ').filter((word) => word !== ''));
    return [west!, east!];
}

/** Each thing once for each run of its ports; a line that passes is a thing of its own. */
function owners(side: readonly string[]): string[] {
    const all = side.map((end) => end.split('.')[0]!);
    return all.filter((owner, i) => owner !== all[i - 1]);
}

function crossings({ columns, links }: Sketch): number {
    let count = 0;
    columns.forEach((column, i) => {
        const east = sides(column)[1];
        const west = i + 1 < columns.length ? sides(columns[i + 1]!)[0] : [];
        const pairs = links.map((link) => link.split(' '));
        const across = pairs.filter(([a, b]) => east.includes(a!) && west.includes(b!)).map(([a, b]) => [east.indexOf(a!), west.indexOf(b!)] as const);
        const back = pairs.filter(([a, b]) => east.includes(a!) && east.includes(b!) && a !== b).map(([a, b]) => [east.indexOf(a!), east.indexOf(b!)].sort((x, y) => x - y));
        across.forEach(([a, b], j) => { for (const [c, d] of across.slice(j + 1)) if ((a - c) * (b - d) < 0) count++; });
        // What leaves between the two ends of a line that turns back has to cross it.
        for (const [top, bottom] of back) count += across.filter(([from]) => from > top! && from < bottom!).length;
    });
    return count;
}
