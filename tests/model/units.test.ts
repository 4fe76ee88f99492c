/** The units against their legal definitions, and how a quantity is told from what stands beside it. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import Qty from 'js-quantities';
import { EmptyFileSystem } from 'langium';
import { describe, expect, test } from 'vitest';
import { splitQuantity } from '../../src/language/quantity';
import { createOrlopServices } from '../../src/language/services';
import { EXAMPLE, UNITS, fromSI, toSI, unitPattern, type Dimension } from '../../src/model/units';

/**
 * One of each unit in SI, as its definition gives it, digits included. Inch, foot and pound: international yard and
 * pound agreement of 1959. US gallon: 231 cubic inches (NIST Handbook 44, appendix C). Imperial gallon: UK Weights and
 * Measures Act 1985, schedule 1. Litre, minute, hour, day, degree, bar, degree Celsius, knot: SI brochure. Gravity
 * 9.80665 m/s²: third CGPM, 1901. Conventional mercury 13 595.1 kg/m³, and psi, hp of 550 ft·lbf/s: NIST SP 811, appendix B.
 */
const DEFINITIONS: Readonly<Record<Dimension, Readonly<Record<string, number>>>> = {
    length: {
        um: 0.000001, 'µm': 0.000001, 'μm': 0.000001, micron: 0.000001, mm: 0.001, cm: 0.01, m: 1,
        in: 0.0254, inch: 0.0254, ft: 0.3048,
    },
    area: { mm2: 0.000001, m2: 1 },
    volume: {
        mL: 0.000001, ml: 0.000001, L: 0.001, l: 0.001, m3: 1,
        USgal: 0.003785411784, // 231 x 0.0254³
        impgal: 0.00454609,
    },
    flow: {
        'L/h': 0.001 / 3600, 'l/h': 0.001 / 3600, 'L/min': 0.001 / 60, 'l/min': 0.001 / 60,
        'USgal/h': 0.003785411784 / 3600,
        'USgal/min': 6.30901964e-5, // 3.785411784 / 60 000
        'impgal/h': 0.00454609 / 3600,
    },
    pressure: {
        Pa: 1, kPa: 1000, mbar: 100, bar: 100000,
        psi: 6894.757293168, // 0.45359237 x 9.80665 / 0.0254²
        inHg: 3386.388640341, // 13 595.1 x 9.80665 x 0.0254
        mmHg: 133.322387415, // 13 595.1 x 9.80665 x 0.001
    },
    time: { s: 1, min: 60, h: 3600, hour: 3600, hours: 3600, day: 86400, days: 86400, week: 604800, weeks: 604800 },
    // In months: their length in seconds is no constant.
    calendar: { month: 1, months: 1, year: 12, years: 12 },
    // As temperatures, not differences: 1 °F is (1 - 32) x 5/9 °C = -17.2222 °C.
    temperature: { degC: 274.15, '°C': 274.15, degF: 273.15 - 31 * 5 / 9, '°F': 273.15 - 31 * 5 / 9 },
    rotation: { rpm: 1 / 60 },
    power: { W: 1, kW: 1000, hp: 745.6998715823 /* 550 x 0.3048 x 0.45359237 x 9.80665 */ },
    angle: { deg: 3.14159265358979 / 180, '°': 3.14159265358979 / 180 },
    speed: { 'm/s': 1, kn: 1852 / 3600 },
    mass: { g: 0.001, kg: 1 },
    torque: { Nm: 1 },
    ratio: { '%': 0.01, 'mg/kg': 0.000001 },
    density: { 'kg/m3': 1, 'kg/L': 1000 },
    // SI brochure; the stokes is 1 cm²/s by its definition in the CGS system.
    viscosity: { 'mm2/s': 0.000001, cSt: 0.000001 },
};
const ALL = Object.entries(DEFINITIONS).flatMap(([dimension, units]) => Object.entries(units).map(([symbol, size]) => ({ dimension, symbol, size })));

const apart = (a: number, b: number): number => Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), Number.MIN_VALUE);

describe('sizes', () => {
    test.each(ALL)('one $symbol', ({ dimension, symbol, size }) => {
        expect(UNITS[symbol]?.dimension).toBe(dimension);
        // The definitions above are printed to thirteen digits at most.
        expect(apart(toSI(1, symbol), size)).toBeLessThan(1e-12);
    });

    test('no unit without its definition here, no dimension without an example in its own unit', () => {
        expect(Object.keys(UNITS).toSorted()).toEqual(ALL.map(({ symbol }) => symbol).toSorted());
        for (const [dimension, example] of Object.entries(EXAMPLE)) expect(UNITS[splitQuantity(example).unit!]?.dimension).toBe(dimension);
    });

    // Fixed points: water freezes at 32 °F and boils at 212 °F; -40 is the same on both scales.
    test.each([[0, 32], [100, 212], [-40, -40]])('%s degC is %s degF', (celsius, fahrenheit) => {
        expect(fromSI(toSI(celsius, 'degC'), 'degF')).toBeCloseTo(fahrenheit, 9);
        expect(fromSI(toSI(fahrenheit, 'degF'), 'degC')).toBeCloseTo(celsius, 9);
    });

    test('a unit that is not on the list is refused', () => {
        expect(() => toSI(1, 'gal')).toThrow(RangeError);
        expect(() => fromSI(1, 'gal')).toThrow(RangeError);
    });
});

// A weak witness: it rounds psi, inHg, mmHg and the gallon to between six and eight digits.
describe('js-quantities agrees to 1e-6', () => {
    const THEIRS: Readonly<Record<string, string>> = {
        um: 'um', mm: 'mm', cm: 'cm', in: 'in', ft: 'ft', mm2: 'mm^2', mL: 'ml', L: 'l', USgal: 'gal', 'L/h': 'l/h', 'L/min': 'l/min', 'USgal/h': 'gal/h',
        'USgal/min': 'gal/min', kPa: 'kPa', mbar: 'mbar', bar: 'bar', psi: 'psi', inHg: 'inHg', mmHg: 'mmHg', min: 'min', h: 'h', day: 'day', week: 'week',
        degC: 'tempC', degF: 'tempF', kW: 'kW', hp: 'hp', deg: 'deg', kn: 'kn', g: 'g', Nm: 'N*m', '%': '%',
    };
    test.each(Object.entries(THEIRS))('%s', (ours, theirs) => {
        expect(apart(toSI(1, ours), Qty(1, theirs).toBase().scalar)).toBeLessThan(1e-6);
    });
});

test('there and back again', () => {
    const symbol = fc.constantFrom(...Object.keys(UNITS));
    fc.assert(fc.property(symbol, fc.double({ min: -1e9, max: 1e9, noNaN: true }), (unit, value) => {
        const back = fromSI(toSI(value, unit), unit);
        // Near the zero of a temperature scale the digits that its offset takes are lost; the smallest doubles have few.
        const { size, offset = 0 } = UNITS[unit]!;
        expect(Math.abs(back - value)).toBeLessThanOrEqual(4 * Number.EPSILON * (Math.abs(value) + offset / size) + 1e-300);
    }), { seed: 1852, numRuns: 2000 });
});

describe('a number and its unit are one token', () => {
    const { Lexer } = createOrlopServices(EmptyFileSystem).Orlop.parser;
    const tokens = (text: string): string[] => {
        // Behind the head of a line, where quantities stand.
        const { tokens: found, errors } = Lexer.tokenize(`tank T1 ${text}`);
        expect(errors).toEqual([]);
        return found.slice(2).map((token) => `${token.tokenType.name} ${token.image}`);
    };

    test('the terminal of the grammar holds the list of units as it is', () => {
        const grammar = readFileSync(new URL('../../src/language/orlop.langium', import.meta.url), 'utf8');
        const terminal = grammar.split('\n').find((line) => line.startsWith('terminal MEASURE:'))!;
        expect(terminal.split(`(?:[ \\t]*(?:${unitPattern()}))?/;`)).toEqual([expect.stringContaining('\\d'), '']);
    });

    test.each(Object.keys(UNITS))('every unit, close and apart: %s', (symbol) => {
        expect(tokens(`5${symbol}`)).toEqual([`MEASURE 5${symbol}`]);
        expect(tokens(`5 ${symbol}`)).toEqual([`MEASURE 5 ${symbol}`]);
        expect(splitQuantity(`5 ${symbol}`)).toEqual({ numbers: [5], unit: symbol });
    });

    test.each([
        ['8mm', ['MEASURE 8mm'], [8], 'mm'],
        ['8 mm', ['MEASURE 8 mm'], [8], 'mm'],
        ['4.5L/h', ['MEASURE 4.5L/h'], [4.5], 'L/h'],
        ['3/8 in', ['MEASURE 3/8 in'], [0.375], 'in'],
        ['1 1/2 in', ['MEASURE 1 1/2 in'], [1.5], 'in'],
        ['800x600x420 mm', ['MEASURE 800x600x420 mm'], [800, 600, 420], 'mm'],
        ['800 x 600 × 420 mm', ['MEASURE 800 x 600 × 420 mm'], [800, 600, 420], 'mm'],
        ['-50 mm', ['MEASURE -50 mm'], [-50], 'mm'],
        ['3 in in Berth', ['MEASURE 3 in', 'WORD in', 'TAG Berth'], [3], 'in'],
        ['2021 in EngineBay', ['MEASURE 2021', 'WORD in', 'TAG EngineBay'], [2021], undefined],
        ['5 to 95 %', ['MEASURE 5', 'to to', 'MEASURE 95 %'], [5], undefined],
        // The words after a number that only begin like a unit, and the comment that follows one.
        ['2 of F1', ['MEASURE 2', 'WORD of', 'TAG F1'], [2], undefined],
        ['3 legs', ['MEASURE 3', 'WORD legs'], [3], undefined],
        ['3 m-long', ['MEASURE 3', 'WORD m-long'], [3], undefined],
        ['8 mm--old', ['MEASURE 8 mm'], [8], 'mm'],
    ])('%s', (text, expected, numbers, unit) => {
        expect(tokens(text)).toEqual(expected);
        expect(splitQuantity(expected[0]!.slice('MEASURE '.length))).toEqual({ numbers, unit });
    });

    test('a unit that is not on the list is no part of the quantity', () => {
        expect(Lexer.tokenize('3 mm/s').tokens[0]!.image).toBe('3');
    });
});
