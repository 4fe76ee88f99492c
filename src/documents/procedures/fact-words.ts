/** How a field of the model reads as a fact: the words of the language for it, and its unit. */
import { UNITS, fromSI } from '../../model/units';
import type { CurvePoint, Measure, Place } from '../../model/measure';

/** Where the language has other words than the model has names; the rest is the name itself with blanks: `whenOff`, when off. */
const WORDS: Readonly<Record<string, string>> = {
    space: 'in', datum: 'heights from', 'envelope survival': 'survival heel', speeds: 'speed', 'fuel grade': 'runs on', rules: 'answers to', fillEnds: 'ends', rate: 'gives',
    fireResistant: 'fire-resistant', selfBleeding: 'self-bleeding', 'box corner': 'low aft inner corner', 'injection pump': 'injection', 'injection control': 'governed', 'exhaust kind': 'exhaust',
};

/** The words of a field by its path: `limits`, `inlet`. */
export function factWords(path: readonly string[]): string {
    const [whole, last] = [path.join(' '), path.at(-1) ?? ''];
    return WORDS[whole] ?? [...path.slice(0, -1), WORDS[last] ?? last].map((name) => name.replace(/[A-Z]/g, (letter, at: number) => (at === 0 ? letter : ` ${letter.toLowerCase()}`))).join(' ');
}

/** The unit in which a reader writes a field, by the end of its path; of a curve also that of the points. */
const UNIT: Readonly<Record<string, readonly [unit: string, at?: string]>> = {
    up: ['mm'], fwd: ['mm'], stbd: ['mm'], bore: ['mm'], spanner: ['mm'], lift: ['mm'], lifts: ['mm'], passes: ['um'], length: ['m'], 'box length': ['mm'], 'box breadth': ['mm'], 'box height': ['mm'],
    holds: ['mL'], stroke: ['mL'], 'muffler free': ['L'], mufflerFree: ['L'], moves: ['L'],
    takes: ['L/h'], rate: ['L/h'], rated: ['L/h'], burns: ['L/h', 'rpm'], draws: ['L/h', 'rpm'], rawWater: ['L/min', 'rpm'],
    tested: ['kPa'], cracks: ['kPa'], pushes: ['kPa'], stands: ['kPa'], clean: ['kPa'], dirty: ['kPa'], inlet: ['kPa'], return: ['kPa'], head: ['kPa'], gauge: ['kPa'],
    heel: ['deg'], trim: ['deg'], survival: ['deg'], level: ['%'], reserve: ['%'], margin: ['%'], fuel: ['degC'], returns: ['degC', 'degC'],
    'fuel dirt': ['mg/kg'], dirt: ['g'], density: ['kg/m3'], viscosity: ['mm2/s', 'degC'], speeds: ['kn', 'rpm'], cranks: ['rpm'], speed: ['rpm'], motors: ['h'],
    hours: ['h'], refitUnder: ['h'], reading: ['h'], months: ['months'], days: ['days'], dip: ['mm'],
};
/** Plain numbers, which have no unit. */
const PLAIN = new Set(['beta', 'outboard', 'people', 'count', 'strokes', 'tries', 'cylinders']);

const unitOf = (path: readonly string[]): readonly [unit: string, at?: string] | undefined => UNIT[path.slice(-2).join(' ')] ?? UNIT[path.at(-1) ?? ''];

/** Twelve digits: more than anything is reckoned from, few enough that 8 mm is not 7.999999999999999. */
const digits = (value: number): string => String(Number(value.toPrecision(12)));

/** A number of the model. One whose unit nobody told here is shown as it is kept, so that no change of it is lost. */
export function numberWords(path: readonly string[], si: number): string {
    const unit = unitOf(path)?.[0];
    return unit !== undefined && UNITS[unit] ? `${digits(fromSI(si, unit))} ${unit}` : PLAIN.has(path.at(-1) ?? '') ? digits(si) : `${digits(si)} (SI)`;
}

export function measureWords(path: readonly string[], { si, low, high, about }: Measure): string {
    const range = low === undefined && high === undefined ? numberWords(path, si) : `${numberWords(path, low ?? si)} to ${numberWords(path, high ?? si)}`;
    return about ? `${range} about` : range;
}

/** 700 mm up, 3300 mm fwd, 300 mm port */
export function placeWords({ up, fwd, stbd }: Place): string {
    const across = (measure: Measure): string => {
        const { si, low, high } = measure;
        if (si >= 0) return `${measureWords(['stbd'], measure)} stbd`;
        return `${measureWords(['stbd'], { ...measure, si: -si, ...(high !== undefined && { low: -high }), ...(low !== undefined && { high: -low }) })} port`;
    };
    return [...(up ? [`${measureWords(['up'], up)} up`] : []), ...(fwd ? [`${measureWords(['fwd'], fwd)} fwd`] : []), ...(stbd ? [across(stbd)] : [])].join(', ');
}

/** 2.4 L/h at 2400 rpm */
export const pointWords = (path: readonly string[], { value, at }: CurvePoint): string => `${measureWords(path, value)} at ${measureWords([unitOf(path)?.[1] === 'degC' ? 'fuel' : 'speed'], at)}`;
