/**
 * The closed list of units, each with its dimension and its size in SI.
 *
 * Sizes are exact by definition (inch 25.4 mm, US gallon 231 in³, imperial gallon 4.54609 L, pound-force from
 * 0.45359237 kg and g₀ = 9.80665 m/s², atmosphere-based units from their legal definitions) except where marked.
 * Calendar months and years are their own dimension: their length in seconds depends on the date.
 */
export type Dimension =
    | 'length' | 'area' | 'volume' | 'flow' | 'pressure' | 'time' | 'calendar' | 'temperature' | 'rotation' | 'power'
    | 'angle' | 'speed' | 'mass' | 'torque' | 'ratio' | 'density' | 'viscosity';

export interface Unit {
    readonly dimension: Dimension;
    /** One of this unit in SI: m, m², m³, m³/s, Pa, s, months, K, rev/s, W, rad, m/s, kg, N·m, 1, kg/m³, m²/s. */
    readonly size: number;
    /** Added after scaling; only temperatures need it. */
    readonly offset?: number;
}

const INCH = 0.0254;
const LITRE = 1e-3;
const US_GALLON = 231 * INCH ** 3;
const IMPERIAL_GALLON = 4.54609 * LITRE;
const POUND_FORCE = 0.45359237 * 9.80665;
const HOUR = 3600;
/** Conventional mercury, 13 595.1 kg/m³ at 0 °C. */
const INCH_OF_MERCURY = 13595.1 * 9.80665 * INCH;

const unit = (dimension: Dimension, size: number, offset?: number): Unit =>
    offset === undefined ? { dimension, size } : { dimension, size, offset };

export const UNITS: Readonly<Record<string, Unit>> = {
    um: unit('length', 1e-6), 'µm': unit('length', 1e-6), 'μm': unit('length', 1e-6), micron: unit('length', 1e-6),
    mm: unit('length', 1e-3), cm: unit('length', 1e-2), m: unit('length', 1), in: unit('length', INCH),
    inch: unit('length', INCH), ft: unit('length', 12 * INCH),
    mm2: unit('area', 1e-6), m2: unit('area', 1),
    mL: unit('volume', 1e-6), ml: unit('volume', 1e-6), L: unit('volume', LITRE), l: unit('volume', LITRE),
    m3: unit('volume', 1), USgal: unit('volume', US_GALLON), impgal: unit('volume', IMPERIAL_GALLON),
    'L/h': unit('flow', LITRE / HOUR), 'l/h': unit('flow', LITRE / HOUR), 'L/min': unit('flow', LITRE / 60),
    'l/min': unit('flow', LITRE / 60), 'USgal/h': unit('flow', US_GALLON / HOUR), 'USgal/min': unit('flow', US_GALLON / 60),
    'impgal/h': unit('flow', IMPERIAL_GALLON / HOUR),
    Pa: unit('pressure', 1), kPa: unit('pressure', 1e3), mbar: unit('pressure', 100), bar: unit('pressure', 1e5),
    psi: unit('pressure', POUND_FORCE / INCH ** 2), inHg: unit('pressure', INCH_OF_MERCURY),
    mmHg: unit('pressure', 13595.1 * 9.80665 * 1e-3),
    s: unit('time', 1), min: unit('time', 60), h: unit('time', HOUR), hour: unit('time', HOUR), hours: unit('time', HOUR),
    day: unit('time', 86400), days: unit('time', 86400), week: unit('time', 604800), weeks: unit('time', 604800),
    month: unit('calendar', 1), months: unit('calendar', 1), year: unit('calendar', 12), years: unit('calendar', 12),
    degC: unit('temperature', 1, 273.15), '°C': unit('temperature', 1, 273.15),
    degF: unit('temperature', 5 / 9, 459.67 * 5 / 9), '°F': unit('temperature', 5 / 9, 459.67 * 5 / 9),
    rpm: unit('rotation', 1 / 60),
    W: unit('power', 1), kW: unit('power', 1e3), hp: unit('power', 550 * 12 * INCH * POUND_FORCE),
    deg: unit('angle', Math.PI / 180), '°': unit('angle', Math.PI / 180),
    'm/s': unit('speed', 1), kn: unit('speed', 1852 / HOUR),
    g: unit('mass', 1e-3), kg: unit('mass', 1), Nm: unit('torque', 1),
    '%': unit('ratio', 0.01), 'mg/kg': unit('ratio', 1e-6),
    'kg/m3': unit('density', 1), 'kg/L': unit('density', 1e3), 'mm2/s': unit('viscosity', 1e-6), cSt: unit('viscosity', 1e-6),
};

/** What a reader would write for each dimension; used when a message shows an example. */
export const EXAMPLE: Readonly<Record<Dimension, string>> = {
    length: '8 mm', area: '200 mm2', volume: '450 mL', flow: '15 L/h', pressure: '20 kPa', time: '250 h',
    calendar: '12 months', temperature: '5 degC', rotation: '2400 rpm', power: '21 kW', angle: '25 deg', speed: '5.5 kn',
    mass: '2 kg', torque: '12 Nm', ratio: '95 %', density: '836 kg/m3', viscosity: '3.1 mm2/s',
};

/** The unit symbols as the body of a regular expression: longest first, each ending where the word ends. */
export function unitPattern(): string {
    const symbols = Object.keys(UNITS).sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
    const isWord = (symbol: string): boolean => /[A-Za-z0-9]$/.test(symbol);
    // `in` before a name is the place word: dated 2021 in EngineBay. A hyphen ends a unit only where a comment begins.
    const words = symbols.filter(isWord).map((symbol) => symbol.replace('/', '\\/') + (symbol === 'in' ? '(?![ \\t]+[A-Z])' : ''));
    return [`(?:${words.join('|')})(?![A-Za-z0-9_\\/]|-(?!-))`, ...symbols.filter((symbol) => !isWord(symbol))].join('|');
}

/** `value` in `symbol` to SI. */
export function toSI(value: number, symbol: string): number {
    const found = UNITS[symbol];
    if (!found) throw new RangeError(`no unit ${symbol}`);
    return value * found.size + (found.offset ?? 0);
}

/** `si` to `symbol`. */
export function fromSI(si: number, symbol: string): number {
    const found = UNITS[symbol];
    if (!found) throw new RangeError(`no unit ${symbol}`);
    return (si - (found.offset ?? 0)) / found.size;
}
