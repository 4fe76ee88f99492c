/**
 * One computation of the calculation sheet, with all that a reader needs to redo it by hand. All values are in SI; `unit` names the unit in
 * which the value is shown: one of model/units.ts, `nmi` or `K` of numbers.ts, or '1' for a plain number.
 *
 * A formula is an equation in plain text, `V = π × D² × L / 4`: the symbol that it gives, and an expression of symbols that stand among the inputs
 * or in a step before it. Every product is written out with ×. It knows + − × / ² ³ ^ √( ) ∛( ) |…| sin cos tan arctan log( ) exp( ) ln( ) min( , ) max( , )
 * and π; log is to base 10, and of what is raised by ^ to more than a number or a symbol the power stands in brackets. It holds in SI units. A test redoes every one from the printed figures.
 */
import { ABOUT, estimateOf, exactly, type Estimate } from '../../analysis/estimate';
import type { Id } from '../../model/boat';
import type { MissingFact } from '../../model/finding';
import type { Measure } from '../../model/measure';

export interface Working {
    /** Stable and readable, `volume S1`; no two computations of a sheet share one. */
    readonly id: string;
    readonly about: Id;
    /** One sentence, without its full stop: what is computed. */
    readonly what: string;
    readonly formula: string;
    /** Where the formula is from; common practice is marked so. */
    readonly source: string;
    readonly inputs: readonly Input[];
    /** Intermediate results, in the order in which they are worked. */
    readonly steps: readonly Step[];
    /** Absent when it cannot be told; `missing` then says why. Beside a result `missing` is what may make it worse: it is then the worst of what can be told. */
    readonly result?: Result;
    readonly limit?: Limit;
    /** The corner of the envelope, the level, the line-up, the elements. */
    readonly where?: string;
    /** The code of the rule that judges by it. */
    readonly rule?: string;
    /** Sentences: what is left out, from where on another formula holds. */
    readonly notes: readonly string[];
    /** What was taken that stands in no input, only in how far off the result may be. */
    readonly taken?: string;
    /** The result is a sum over a mesh, which no formula redoes. */
    readonly byMesh?: true;
    /** The result is added up in small steps, which no formula redoes. */
    readonly bySteps?: true;
    readonly missing: readonly MissingFact[];
}

export interface Input {
    readonly symbol: string;
    readonly what: string;
    readonly value: Estimate;
    readonly unit: string;
    readonly from: From;
    /** It is only about so much. */
    readonly about?: true;
}

export type From =
    /** A fact of the text, quoted in its own words with its grade; in these words instead where a quotation would be too long. */
    | { readonly about: Id; readonly fact: string; readonly words?: string }
    /** Taken because nothing was said: why, or the source. */
    | { readonly taken: string }
    /** A figure of a rule or a handbook, by its name. */
    | { readonly cited: string }
    /** The result of another computation of the sheet, by its id; in these words where it is not the result itself. */
    | { readonly step: string; readonly words?: string };

export interface Step {
    readonly symbol: string;
    readonly what: string;
    /** Begins with the symbol. Without `=` the value was found by trial, as the words say, and a later step proves it. */
    readonly formula: string;
    readonly value: number;
    readonly unit: string;
}

export interface Result {
    readonly symbol: string;
    readonly value: Estimate;
    readonly unit: string;
    /** What remains of figures that count against one another: it is no more exact for being near nought. */
    readonly remains?: true;
}

export interface Limit {
    /** A limit that two readings of its source leave open has a least and a most. */
    readonly value: Estimate;
    readonly unit: string;
    readonly sense: 'at most' | 'at least';
    readonly from: From;
}

export const VERDICTS = ['within', 'beyond', 'thin', 'no limit', 'cannot tell'] as const;
/** `thin`: whether it is within depends on guesses. */
export type Verdict = (typeof VERDICTS)[number];

/** By how much it is within its limit, in the unit of the limit; negative beyond it. Undefined without a result or a limit. */
export function marginOf({ result, limit }: Working): Estimate | undefined {
    if (!result || !limit) return undefined;
    const { si, least, most } = result.value;
    const of = limit.value;
    return limit.sense === 'at most' ? { si: of.si - si, least: of.least - most, most: of.most - least } : { si: si - of.si, least: least - of.most, most: most - of.least };
}

/** A limit that is just reached is kept, whatever the last digits of the arithmetic. */
const SAME = 1e-9;

export function verdictOf(working: Working): Verdict {
    if (!working.result) return 'cannot tell';
    const margin = marginOf(working);
    if (!margin) return working.missing.length > 0 ? 'cannot tell' : 'no limit';
    const slack = SAME * Math.abs(working.limit!.value.si);
    return margin.most < -slack ? 'beyond' : margin.least < -slack ? 'thin' : working.missing.length > 0 ? 'cannot tell' : 'within';
}

/** More guesses than these are not weighed against one another: 2ⁿ ways. */
const MOST_GUESSES = 8;

/**
 * A figure by its inputs, and its least and most over the ends of what each input may be. For formulas that rise or fall all the way with each
 * input. Undefined when it cannot be worked for one of the ends.
 */
export function within(inputs: readonly Estimate[], of: (...values: readonly number[]) => number | undefined): Estimate | undefined {
    const guesses = inputs.flatMap(({ least, most }, i) => (least < most ? [i] : []));
    const found = [of(...inputs.map(({ si }) => si))];
    if (guesses.length > MOST_GUESSES) return undefined;
    for (let ends = 0; guesses.length > 0 && ends < 2 ** guesses.length; ends++) {
        found.push(of(...inputs.map(({ si, least, most }, i) => { const bit = guesses.indexOf(i); return bit < 0 ? si : (ends >> bit) % 2 === 1 ? most : least; })));
    }
    const known = found.filter((value): value is number => value !== undefined && Number.isFinite(value));
    return known.length < found.length ? undefined : { si: known[0]!, least: Math.min(...known), most: Math.max(...known) };
}

/** One input for a measure as it was written. */
export const input = (symbol: string, what: string, measure: Measure | number, unit: string, from: From): Input =>
    ({ symbol, what, value: typeof measure === 'number' ? exactly(measure) : estimateOf(measure), unit, from, ...(typeof measure !== 'number' && measure.about && { about: true as const }) });

/** An input that is the result of another computation; nothing when that has none. */
export const carried = (symbol: string, what: string, { id, result }: Working): Input[] => (result ? [{ symbol, what, value: result.value, unit: result.unit, from: { step: id } }] : []);

/** How far off `about` is, in words. */
export const ABOUT_WORDS = `what is written with \`about\` is taken as ${ABOUT * 100} % either way (common practice, no source), except where a computation says that it is not reckoned with`;

/** Nothing that is no number leaves the sheet: a computation with such a figure has no result. */
export function sound(working: Working): Working {
    const { result, ...rest } = working;
    if (!result) return working;
    const figures = [...working.inputs.flatMap(({ value }) => [value.si, value.least, value.most]), ...working.steps.map(({ value }) => value), result.value.si, result.value.least, result.value.most];
    return figures.every(Number.isFinite) ? working : { ...rest, steps: [], inputs: rest.inputs.filter(({ value }) => Number.isFinite(value.si)), notes: [...rest.notes, 'The figures that are written give no number.'] };
}

/** Names in the order in which a person counts: T2 before T10, whatever the order of the text. */
export function byName(a: string, b: string): number {
    const [one, two] = [a, b].map((name) => name.split(/(\d+)/));
    for (let i = 0; i < Math.min(one!.length, two!.length); i++) {
        const [p, q] = [one![i]!, two![i]!];
        if (p === q) continue;
        const difference = i % 2 === 1 ? Number(p) - Number(q) : 0;
        return difference !== 0 ? difference : p < q ? -1 : 1;
    }
    return one!.length - two!.length;
}
