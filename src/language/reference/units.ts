/** The page of units: every unit of the closed list, what it is, its exact definition and where that comes from. */
import { EXAMPLE, UNITS, type Dimension, type Unit } from '../../model/units';
import { capital, listed } from '../../model/words';
import { FACTS } from '../vocabulary';
import { DIMENSION_WORDS } from './words';
import { show, type Example } from './examples';
import { code, page, table } from './markdown';

interface Definition {
    readonly name: string;
    /** One of the unit in SI, exactly: numbers, π, × and /, squares and cubes. The tests work it out in whole numbers. */
    readonly exact: string;
    /** For temperatures: what is added after scaling, K. */
    readonly offset?: string;
    readonly source: string;
}

const PREFIX = 'SI brochure: prefixes and coherent units';
const WITH_SI = 'SI brochure: units used with the SI';
const YARD = 'international yard and pound agreement, 1959';
const NIST = 'NIST SP 811, appendix B';
const US = 'NIST Handbook 44, appendix C: 231 cubic inches';
const UK = 'Weights and Measures Act 1985 (UK), schedule 1';
const CALENDAR = 'the calendar: how many seconds a month has depends on the date';

/** By the first spelling of each unit in the list. */
export const DEFINITIONS: Readonly<Record<string, Definition>> = {
    um: { name: 'micrometre (micron)', exact: '0.000001', source: PREFIX },
    mm: { name: 'millimetre', exact: '0.001', source: PREFIX },
    cm: { name: 'centimetre', exact: '0.01', source: PREFIX },
    m: { name: 'metre', exact: '1', source: PREFIX },
    in: { name: 'inch', exact: '0.0254', source: YARD },
    ft: { name: 'foot, 12 inches', exact: '12 × 0.0254', source: YARD },
    mm2: { name: 'square millimetre', exact: '0.001²', source: PREFIX },
    m2: { name: 'square metre', exact: '1', source: PREFIX },
    mL: { name: 'millilitre', exact: '0.001 / 1000', source: WITH_SI },
    L: { name: 'litre', exact: '0.001', source: WITH_SI },
    m3: { name: 'cubic metre', exact: '1', source: PREFIX },
    USgal: { name: 'US gallon, 231 cubic inches', exact: '231 × 0.0254³', source: US },
    impgal: { name: 'imperial gallon, 4.54609 litres', exact: '4.54609 / 1000', source: UK },
    'L/h': { name: 'litre an hour', exact: '0.001 / 3600', source: WITH_SI },
    'L/min': { name: 'litre a minute', exact: '0.001 / 60', source: WITH_SI },
    'USgal/h': { name: 'US gallon an hour', exact: '231 × 0.0254³ / 3600', source: US },
    'USgal/min': { name: 'US gallon a minute', exact: '231 × 0.0254³ / 60', source: US },
    'impgal/h': { name: 'imperial gallon an hour', exact: '4.54609 / 1000 / 3600', source: UK },
    Pa: { name: 'pascal', exact: '1', source: PREFIX },
    kPa: { name: 'kilopascal', exact: '1000', source: PREFIX },
    mbar: { name: 'millibar', exact: '100', source: NIST },
    bar: { name: 'bar', exact: '100000', source: NIST },
    psi: { name: 'pound-force a square inch', exact: '0.45359237 × 9.80665 / 0.0254²', source: `${YARD}; standard gravity 9.80665 m/s², third CGPM, 1901` },
    inHg: { name: 'inch of mercury at 0 °C (conventional, 13 595.1 kg/m³)', exact: '13595.1 × 9.80665 × 0.0254', source: NIST },
    mmHg: { name: 'millimetre of mercury at 0 °C (conventional, 13 595.1 kg/m³)', exact: '13595.1 × 9.80665 × 0.001', source: NIST },
    s: { name: 'second', exact: '1', source: PREFIX },
    min: { name: 'minute', exact: '60', source: WITH_SI },
    h: { name: 'hour', exact: '3600', source: WITH_SI },
    day: { name: 'day of 24 hours', exact: '24 × 3600', source: WITH_SI },
    week: { name: 'week of 7 days', exact: '7 × 24 × 3600', source: WITH_SI },
    month: { name: 'month of the calendar', exact: '1', source: CALENDAR },
    year: { name: 'year of the calendar, 12 months', exact: '12', source: CALENDAR },
    degC: { name: 'degree Celsius', exact: '1', offset: '273.15', source: PREFIX },
    degF: { name: 'degree Fahrenheit', exact: '5 / 9', offset: '459.67 × 5 / 9', source: NIST },
    rpm: { name: 'revolution a minute', exact: '1 / 60', source: NIST },
    W: { name: 'watt', exact: '1', source: PREFIX },
    kW: { name: 'kilowatt', exact: '1000', source: PREFIX },
    hp: { name: 'horsepower of 550 foot-pounds a second', exact: '550 × 12 × 0.0254 × 0.45359237 × 9.80665', source: NIST },
    deg: { name: 'degree of angle', exact: 'π / 180', source: WITH_SI },
    'm/s': { name: 'metre a second', exact: '1', source: PREFIX },
    kn: { name: 'knot, a nautical mile of 1852 m an hour', exact: '1852 / 3600', source: NIST },
    g: { name: 'gram', exact: '0.001', source: PREFIX },
    kg: { name: 'kilogram', exact: '1', source: PREFIX },
    Nm: { name: 'newton metre', exact: '1', source: PREFIX },
    '%': { name: 'per cent', exact: '0.01', source: WITH_SI },
    'mg/kg': { name: 'milligram in a kilogram', exact: '0.000001', source: PREFIX },
    'kg/m3': { name: 'kilogram a cubic metre', exact: '1', source: PREFIX },
    'kg/L': { name: 'kilogram a litre', exact: '1000', source: WITH_SI },
    'mm2/s': { name: 'square millimetre a second (centistokes)', exact: '0.001²', source: PREFIX },
};

export const WRITTEN: Example = { shown: 'vessel Ottilwake {\n  length 35 1/2 ft\n  envelope level 5 to 95 %\n}\ntank T1 { box 800 x 600 x 420 mm }' };

/** What a dimension is counted in. */
const SI: Readonly<Record<Dimension, string>> = {
    length: 'm', area: 'm²', volume: 'm³', flow: 'm³/s', pressure: 'Pa', time: 's', calendar: 'months', temperature: 'K', rotation: 'revolutions a second',
    power: 'W', angle: 'rad', speed: 'm/s', mass: 'kg', torque: 'N·m', ratio: 'parts of the whole', density: 'kg/m³', viscosity: 'm²/s',
};

/** Digits of the figures; a definition with more is rounded. */
const DIGITS = 13;
const shown = (value: number): string => String(Number(value.toPrecision(DIGITS)));

interface Spelt extends Unit {
    readonly spellings: readonly string[];
}

/** Spellings of one unit together, in the order of the list. */
export function unitsBySpelling(): Spelt[] {
    const found: (Unit & { spellings: string[] })[] = [];
    for (const [symbol, unit] of Object.entries(UNITS)) {
        const same = found.find((other) => other.dimension === unit.dimension && other.size === unit.size && other.offset === unit.offset);
        if (same) same.spellings.push(symbol);
        else found.push({ ...unit, spellings: [symbol] });
    }
    return found;
}

function row({ spellings, size, offset }: Spelt): string[] {
    const definition = DEFINITIONS[spellings[0]!];
    const figure = offset === undefined ? shown(size) : `${size === 1 ? '' : `${shown(size)} × `}t + ${shown(offset)}`;
    const exact = definition && (definition.offset === undefined ? definition.exact : `${definition.exact === '1' ? '' : `${definition.exact} × `}t + ${definition.offset}`);
    return [spellings.map(code).join(', '), definition?.name ?? '', exact ?? '', figure, definition?.source ?? ''];
}

/** Dimensions that some fact, or the interval of a job, is written in. */
const asked: ReadonlySet<Dimension> = new Set<Dimension>(['time', 'calendar', ...Object.values(FACTS).flat().flatMap(({ form }): Dimension[] =>
    (form.is === 'quantity' ? [form.of] : form.is === 'curve' ? [form.of, form.at] : []))]);

export function unitsPage(): string {
    const units = unitsBySpelling();
    const dimensions = [...new Set(units.map(({ dimension }) => dimension))];
    const idle = units.filter(({ dimension }) => !asked.has(dimension)).flatMap(({ spellings }) => spellings);
    return page([
        '# Units',
        'Every figure carries its unit. The list is closed: what is not on this page is not a unit, and Orlop says which one you may have meant.',
        '## How a figure is written',
        [
            `- A figure and its unit stand on one line, with or without a blank between them: ${code('8 mm')}, ${code('8mm')}.`,
            `- The decimal sign is a point: ${code('2.6 m')}. A comma parts two things.`,
            `- Inches may be fractions: ${code('3/8 in')}, ${code('1 1/2 in')}.`,
            `- Three sizes share one unit: ${code('800 x 600 x 420 mm')}.`,
            `- A range is written with ${code('to')}: ${code('5 to 95 %')}. The first figure may leave its unit to the second.`,
            `- A figure that is not exact is followed by ${code('about')}: ${code('450 mL about')}.`,
            `- A height may lie below the datum: ${code('at -50 mm')}.`,
        ].join('\n'),
        show(WRITTEN),
        '## The list',
        `The definition is exact. The figure beside it is the size that Orlop computes with, rounded to ${DIGITS} digits where the definition has more. For temperatures, t is what is written. The sources are those in which the definitions are printed; the tests of Orlop work each definition out in whole numbers, and hold it against a library of units that is not ours.`,
        ...dimensions.flatMap((dimension) => [
            `### ${capital(DIMENSION_WORDS[dimension].replace(/^an? /, ''))}`,
            `In ${SI[dimension]}. For example ${code(EXAMPLE[dimension])}.`,
            table(['written', 'name', `exactly, in ${SI[dimension]}`, 'figure', 'source'], units.filter((unit) => unit.dimension === dimension).map(row)),
        ]),
        '## Mind',
        [
            `- A gallon is either ${code('USgal')} or ${code('impgal')}; the imperial one is a fifth larger. There is no plain gallon.`,
            `- ${code('hp')} is 550 foot-pounds a second. A metric horsepower (735.49875 W) is smaller; write such an engine in ${code('kW')}.`,
            `- ${code('min')} is a minute and ${code('m')} a metre. ${code('months')} and ${code('years')} follow the calendar.`,
            `- ${code('in')} is an inch behind a figure. Before a name it says where a thing stands: ${code('dated 2021 in EngineBay')}.`,
            ...(idle.length === 0 ? [] : [`- ${listed(idle.map(code))} are on the list, though no fact asks for them yet.`]),
        ].join('\n'),
    ]);
}
