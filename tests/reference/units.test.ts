/** The definitions on the page of units, worked out in whole numbers, against the sizes that Orlop computes with. */
import Qty from 'js-quantities';
import { describe, expect, test } from 'vitest';
import { DEFINITIONS, unitsBySpelling } from '../../src/language/reference/units';
import { UNITS } from '../../src/model/units';
import { PAGES, section, tables } from './pages';

/** A fraction of two whole numbers: nothing is rounded. */
type Fraction = readonly [bigint, bigint];
const times = ([a, b]: Fraction, [c, d]: Fraction): Fraction => [a * c, b * d];
/** π to thirty decimals, the one number that has no end. */
const PI = '3.141592653589793238462643383280';

function number(text: string): Fraction {
    if (!/^(π|\d+(\.\d+)?)$/.test(text)) throw new Error(`no number: ${text}`);
    const [whole, decimals = ''] = (text === 'π' ? PI : text).split('.') as [string, string?];
    return [BigInt(whole + decimals), 10n ** BigInt(decimals.length)];
}

/** `231 × 0.0254³ / 3600`, from left to right. */
function workedOut(exact: string): Fraction {
    const [first, ...rest] = exact.split(' ');
    const factor = (text: string): Fraction => {
        const power = { '²': 2, '³': 3 }[text.at(-1)!] ?? 1;
        const base = number(power === 1 ? text : text.slice(0, -1));
        return Array.from({ length: power - 1 }, () => base).reduce(times, base);
    };
    let value = factor(first!);
    for (let i = 0; i < rest.length; i += 2) {
        const [a, b] = factor(rest[i + 1]!);
        if (rest[i] !== '×' && rest[i] !== '/') throw new Error(`no sign: ${rest[i]}`);
        value = times(value, rest[i] === '×' ? [a, b] : [b, a]);
    }
    return value;
}

/** The fraction as a number: forty digits by long division, of which the nearest double is taken. */
function nearest([a, b]: Fraction): number {
    const shift = 40 + b.toString().length;
    return Number(`${(a * 10n ** BigInt(shift)) / b}e-${shift}`);
}

const units = unitsBySpelling();

test('every unit has a definition, and no definition is without its unit', () => {
    expect(Object.keys(DEFINITIONS)).toEqual(units.map(({ spellings }) => spellings[0]));
});

describe('the definition, in whole numbers, is the size', () => {
    // Sizes are products of doubles, each step rounded: a few units in the last of some sixteen digits.
    const close = (a: number, b: number): void => expect(Math.abs(a - b)).toBeLessThanOrEqual(8 * Number.EPSILON * Math.abs(b));
    test.each(units)('$spellings', ({ spellings, size, offset }) => {
        const { exact, offset: added } = DEFINITIONS[spellings[0]!]!;
        close(size, nearest(workedOut(exact)));
        expect(added === undefined).toBe(offset === undefined);
        if (added !== undefined) close(offset!, nearest(workedOut(added)));
    });
});

describe('the page', () => {
    const rows = tables(section(PAGES['units.md']!, '## The list')).flatMap((table) => table.rows);
    const rounded = (exact: string): number => Number(nearest(workedOut(exact)).toPrecision(13));
    test.each(rows)('%s, %s', (_written, _name, exact, figure) => {
        const [parts, shown] = [exact!, figure!].map((text) => (text.includes('t + ') ? [text.startsWith('t') ? '1' : text.split(' × t')[0]!, text.split('t + ')[1]!] : [text]));
        expect(shown!.map(Number)).toEqual(parts!.map(rounded));
    });
    test('the figure of each row is that of each of its spellings', () => {
        for (const [written, , , figure] of rows) for (const symbol of written!.split(', ').map((text) => text.slice(1, -1))) if (!figure!.includes('t')) expect(Number(figure) / UNITS[symbol]!.size, symbol).toBeCloseTo(1, 12);
    });
});

/**
 * As GNU units 2.22 prints them, in SI: a program with definitions of its own. The mercury columns are the conventional ones at
 * 0 °C, as NIST SP 811 has them.
 */
const PRINTED: Readonly<Record<string, number>> = {
    in: 0.0254, ft: 0.3048, USgal: 3.785411784e-3, impgal: 4.54609e-3, 'USgal/min': 6.30901964e-5, psi: 6894.757293168, bar: 100000, mmHg: 133.322387415, inHg: 3386.388640341,
    hp: 745.6998715823, kn: 1852 / 3600,
};
test.each(Object.entries(PRINTED))('GNU units has %s as %d', (symbol, size) => {
    expect(Math.abs(nearest(workedOut(DEFINITIONS[symbol]!.exact)) / size - 1)).toBeLessThan(1e-12);
});

// A weak witness: it rounds psi, mercury and the gallon to between six and eight digits.
test.each([
    ['in', 'in'], ['ft', 'ft'], ['USgal', 'gal'], ['USgal/h', 'gal/h'], ['USgal/min', 'gal/min'], ['L/h', 'l/h'], ['bar', 'bar'], ['mbar', 'mbar'], ['psi', 'psi'], ['inHg', 'inHg'], ['mmHg', 'mmHg'],
    ['hp', 'hp'], ['kn', 'kn'], ['deg', 'deg'], ['week', 'week'], ['%', '%'],
])('js-quantities has %s as %s', (ours, theirs) => {
    expect(Math.abs(nearest(workedOut(DEFINITIONS[ours]!.exact)) / Qty(1, theirs).toBase().scalar - 1)).toBeLessThan(1e-6);
});
