/** A sheet with every figure rounded and every source in words: what all its forms print, so that they agree to the last digit. */
import type { Boat } from '../../model/boat';
import type { Estimate } from '../../analysis/estimate';
import type { Grade } from '../../model/measure';
import { listed } from '../../model/words';
import type { Dimension } from '../../model/units';
import type { Quoted } from '../answers/answer';
import { differenceUnit, marginFigure, resultFigure, signed, stepFigure, unitOf, unitWords, writtenFigure } from './numbers';
import type { Sheet } from './sheet';
import { marginOf, verdictOf, type From, type Input, type Verdict, type Working } from './working';

export const STANDING = 'Computed from what is written of the boat, and no more true than that. The maker\'s book, local codes and licensed practice come first. No compliance with any standard is claimed.';
export const REDO = 'Every computation can be redone by hand from this sheet alone. Put each figure into the formula in its SI unit (m, m², m³, Pa, s, K, which is °C + 273.15; angles as they stand within sin, cos and tan); log is to base 10. Worked from the figures as they are printed, it comes out as printed: to half a unit of the last digit, or half a percent. What was found by trial is proven by a step after it; what no formula redoes says so.';

export interface Printed {
    readonly title: string;
    readonly basis: Sheet['basis'];
    readonly groups: readonly { readonly heading: string; readonly number: string; readonly workings: readonly PrintedWorking[] }[];
    readonly taken: readonly string[];
    readonly missing: Sheet['missing'];
}

export interface PrintedWorking {
    /** 2.3: the third of the second group. */
    readonly number: string;
    readonly group: string;
    readonly working: Working;
    readonly inputs: readonly Line[];
    readonly steps: readonly Line[];
    readonly result?: Figure;
    readonly limit?: Figure & { readonly sense: string; readonly from: Source };
    readonly margin?: Figure & { readonly percent?: string };
    readonly verdict: Verdict;
    /** It would be within, but rests on what is only about right, and nobody knows how far off that is. */
    readonly rough?: true;
}

/** As machines read it: a hyphen for minus, no unit. */
export interface Figure {
    readonly value: string;
    readonly unit: string;
    /** When how far off it may be is known. */
    readonly least?: string;
    readonly most?: string;
}

export interface Line extends Figure {
    readonly symbol: string;
    readonly what: string;
    readonly formula?: string;
    readonly from?: Source;
}

export interface Source {
    readonly kind: 'fact' | 'taken' | 'cited' | 'computation';
    readonly words: string;
    readonly grade?: Grade;
    /** The computation that it is the result of. */
    readonly id?: string;
}

export function printed(sheet: Sheet, quoted: Quoted): Printed {
    const { boat, title, basis, taken, missing } = sheet;
    const numbers = new Map(sheet.groups.flatMap(({ workings }, g) => workings.map(({ id }, i): [string, string] => [id, `${g + 1}.${i + 1}`])));
    const groups = sheet.groups.map(({ heading, workings }, g) => ({ heading, number: String(g + 1), workings: workings.map((working) => printedWorking(boat, quoted, numbers, working, heading)) }));
    const all = new Map(groups.flatMap(({ workings }) => workings).map((one) => [one.working.id, one]));
    const known = new Map<string, boolean>();
    // What rests on it, through however many computations.
    const isRough = (id: string): boolean => {
        const one = all.get(id);
        if (!one || known.has(id)) return known.get(id) ?? false;
        known.set(id, false);
        const found = roughIn(one.inputs).length > 0 || [...one.inputs, ...(one.limit ? [one.limit] : [])].some(({ from }) => from?.id !== undefined && isRough(from.id));
        known.set(id, found);
        return found;
    };
    const groupsTold = groups.map((group) => ({ ...group, workings: group.workings.map((one) => (one.verdict === 'within' && isRough(one.working.id) ? { ...one, verdict: 'thin' as const, rough: true as const } : one)) }));
    return { title, basis: [...basis, ['Units', unitList(groups.flatMap((group) => group.workings))]], groups: groupsTold, taken, missing };
}

function printedWorking(boat: Boat, quoted: Quoted, numbers: ReadonlyMap<string, string>, working: Working, group: string): PrintedWorking {
    const { inputs, steps, result, limit } = working;
    const margin = marginOf(working);
    const of = (from: From): Source => sourceOf(boat, quoted, numbers, from);
    const resulting = (si: number, unit: string): string => resultFigure(si, unit, result?.remains);
    const decimals = result ? resulting(result.value.si, result.unit) : '';
    return {
        number: numbers.get(working.id)!, group, working, verdict: verdictOf(working),
        inputs: inputs.map((input) => ({ symbol: input.symbol, what: input.what, ...figureOf(input.value, input.unit, writtenBy(input)), from: of(input.from) })),
        steps: steps.map(({ symbol, what, formula, value, unit }) => ({ symbol, what, formula, value: stepFigure(value, unit), unit })),
        ...(result && { result: figureOf(result.value, result.unit, resulting) }),
        ...(limit && { limit: { ...figureOf(limit.value, limit.unit, 'fact' in limit.from && limit.from.words === undefined ? writtenFigure : resultFigure), sense: limit.sense, from: of(limit.from) } }),
        ...(margin && limit && { margin: { ...figureOf(margin, differenceUnit(limit.unit), (si, unit) => marginFigure(si, unit, decimals)), ...(limit.value.si !== 0 && limit.unit !== 'degC' && { percent: String(Math.round((margin.si / Math.abs(limit.value.si)) * 100) + 0) }) } }),
    };
}

/** What was written stands as it was written; what another computation found, with the digits to go on with. */
const writtenBy = ({ from }: Input): ((si: number, unit: string) => string) => ('step' in from && from.words === undefined ? stepFigure : writtenFigure);

function figureOf({ si, least, most }: Estimate, unit: string, figure: (si: number, unit: string) => string): Figure {
    return { value: figure(si, unit), unit, ...(least < most && { least: figure(least, unit), most: figure(most, unit) }) };
}

function sourceOf(boat: Boat, quoted: Quoted, numbers: ReadonlyMap<string, string>, from: From): Source {
    if ('taken' in from) return { kind: 'taken', words: `taken: ${from.taken}` };
    if ('cited' in from) return { kind: 'cited', words: from.cited };
    if ('step' in from) return { kind: 'computation', words: from.words ?? `${numbers.get(from.step) ?? ''} ${from.step}`.trim(), id: from.step };
    const { about, fact } = from;
    const grade = (boat.evidence.get(`${about} ${fact}`) ?? boat.evidence.get(about))?.grade ?? 'told';
    return { kind: 'fact', words: `${about}: ${from.words ?? quoted(about, fact) ?? fact}`, grade };
}

const BASE: Partial<Record<Dimension, string>> = { length: 'm', area: 'm²', volume: 'm³', flow: 'm³/s', pressure: 'Pa', time: 's', mass: 'kg', speed: 'm/s', density: 'kg/m³', viscosity: 'm²/s', ratio: '', temperature: 'K', rotation: '1/s' };

/** What the units that are printed are in SI. */
function unitList(workings: readonly PrintedWorking[]): string {
    const used = new Set(workings.flatMap(({ inputs, steps, result, limit }) => [...inputs, ...steps, ...(result ? [result] : []), ...(limit ? [limit] : [])].map(({ unit }) => unit)));
    return [...used].sort().flatMap((unit) => {
        const found = unitOf(unit);
        const base = found && BASE[found.dimension];
        if (found?.offset !== undefined) return [`so many ${unitWords(unit)} = so many + ${found.offset} K`];
        return base === undefined || found!.size === 1 ? [] : [`1 ${unitWords(unit)} = ${Number(found!.size.toPrecision(6))} ${base}`.trimEnd()];
    }).join('; ') || 'SI';
}

/** 201.6 L; 133 mL (120 to 147): as readers see it, with a minus sign. */
export function figureWords({ value, unit, least, most }: Figure): string {
    const range = least === undefined || most === undefined ? '' : ` (${signed(least)} to ${signed(most)})`;
    return `${signed(value)}${unit === 'deg' ? '°' : unit === '1' ? '' : ` ${unitWords(unit)}`}${range}`;
}

export const limitWords = ({ limit }: PrintedWorking): string => (limit ? `${limit.sense} ${figureWords(limit)}` : '');
export const marginWords = ({ margin }: PrintedWorking): string => (margin ? `${figureWords(margin)}${margin.percent === undefined ? '' : `, ${signed(margin.percent)} %`}` : '');
export const resultWords = ({ result }: PrintedWorking): string => (result ? figureWords(result) : '');

/** Symbols of what is written with `about`, and not reckoned with as a range. */
const roughIn = (inputs: readonly Line[]): string[] => inputs.filter(({ from, least }) => from?.kind === 'fact' && least === undefined && /\babout\b/.test(from.words)).map(({ symbol }) => symbol);

/** The sentences under a computation. */
export function remarks({ working, inputs, rough: isRough }: PrintedWorking): string[] {
    const rough = roughIn(inputs);
    return [
        ...(rough.length > 0 ? [`${listed(rough)} ${rough.length > 1 ? 'are' : 'is'} only about right, and how far off that could be is not known: not reckoned with here.`] : []),
        ...(isRough && rough.length === 0 ? ['It rests on a computation with figures that are only about right: within its limit as they are written, and no more is known.'] : []),
        ...(working.byMesh ? ['A sum over a closed mesh of triangles: no formula redoes it.'] : []), ...(working.bySteps ? ['Worked step by step: no formula redoes it.'] : []), ...working.notes,
    ];
}
