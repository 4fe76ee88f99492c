/**
 * Codes of cleanliness such as 18/16/13, by ISO 4406 as makers of filters publish its table (the standard itself was not read): three scale
 * numbers for the particles in a millilitre that are at least 4, 6 and 14 µm, as counters calibrated by ISO 11171 measure them.
 */
import { inSeries } from './efficiency';

/** The sizes that the three numbers count from, m. */
export const SIZES = [4e-6, 6e-6, 14e-6] as const;

/** Up to and including so many particles in a millilitre for the scale numbers 0, 1, 2 and on. The steps are no exact doublings. */
const UP_TO = [
    0.01, 0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1.3, 2.5, 5, 10, 20, 40, 80, 160, 320, 640, 1300, 2500, 5000, 10_000, 20_000, 40_000, 80_000, 160_000, 320_000, 640_000,
    1_300_000, 2_500_000,
] as const;
const LAST = UP_TO.length - 1;

/**
 * A scale number, 0 to 28. `>`: above 28. `≥`: fewer than 20 particles were counted, so the figure is unsure and there may be more (so understood
 * from a published explanation of the standard's example 14/12/≥7).
 */
export interface ScaleNumber {
    readonly number: number;
    readonly sign?: '>' | '≥';
}

/** By the sizes of `SIZES`; a place that was not counted, written `-` (from memory), is absent. */
export type Code = readonly [ScaleNumber | undefined, ScaleNumber | undefined, ScaleNumber | undefined];

/** The scale number of a count, particles in a millilitre. Undefined for what is no count. */
export function scaleNumberOf(count: number): ScaleNumber | undefined {
    if (!(count >= 0) || !Number.isFinite(count)) return undefined;
    const number = UP_TO.findIndex((most) => count <= most);
    return number < 0 ? { number: LAST, sign: '>' } : { number };
}

/** Particles in a millilitre: more than `above`, up to and including `upTo`, which is absent where there may be any number more. Undefined for what is no scale number. */
export function countsOf({ number, sign }: ScaleNumber): { readonly above: number; readonly upTo?: number } | undefined {
    const most = UP_TO[number];
    if (most === undefined || (sign === '>' && number !== LAST)) return undefined;
    if (sign === '>') return { above: most };
    const above = number === 0 ? 0 : UP_TO[number - 1]!;
    return sign === '≥' ? { above } : { above, upTo: most };
}

/** A code as it is written: `18/16/13`, `14/12/≥7`, `>28/26/23`, `-/16/13`; also `>=` for `≥`. Undefined for anything else, and for one that counts more large particles than it counts in all. */
export function readCode(text: string): Code | undefined {
    const places = text.trim().split('/').map((place) => readPlace(place.trim()));
    if (places.length !== 3 || places.includes('bad')) return undefined;
    const code = places as (ScaleNumber | undefined)[];
    const counted = code.filter((place) => place !== undefined);
    const rises = counted.some((place, i) => i > 0 && rank(place) > rank(counted[i - 1]!));
    return counted.length === 0 || rises ? undefined : [code[0], code[1], code[2]];
}

const rank = ({ number, sign }: ScaleNumber): number => (sign === '>' ? number + 1 : number);

function readPlace(text: string): ScaleNumber | undefined | 'bad' {
    if (text === '-') return undefined;
    const match = /^(>=|≥|>)?\s*(\d{1,2})$/.exec(text);
    if (!match) return 'bad';
    const number = Number(match[2]);
    const sign = match[1] === '>' ? '>' : match[1] === undefined ? undefined : '≥';
    const place: ScaleNumber = { number, ...(sign && { sign }) };
    return countsOf(place) ? place : 'bad';
}

/** A code as it is written. */
export const codeWords = (code: Code): string => code.map((place) => (place === undefined ? '-' : `${place.sign ?? ''}${place.number}`)).join('/');

/** A filter as its maker tests it: β of particles as large as `passes` (m), and larger. */
export interface TestedFilter {
    readonly beta: number;
    readonly passes: number;
}

/** What is left of one size behind the filters. */
export interface Behind {
    /** m: of the particles at least so large. */
    readonly size: number;
    /** At most so many in a millilitre, and the scale number of that. Absent where no filter says anything of this size, or the fuel before it may have any number. */
    readonly upTo?: number;
    readonly number?: ScaleNumber;
    /** The filters that count here, by their place in the list. */
    readonly by: readonly number[];
}

/**
 * The most that is left of each size of `SIZES` behind filters in series, for fuel of a code. What a β says of particles from `passes` on holds for
 * larger ones too, since those are held at least as well; of smaller ones it says nothing, so there a filter does not count, and a size of which
 * none says anything has no bound. As tested, each with its own test dust: on board it is the best case. `passes` is taken as µm by ISO 11171.
 * A filter that states no real β does not count.
 */
export function behindFilters(code: Code, filters: readonly TestedFilter[]): readonly Behind[] {
    return SIZES.map((size, i) => {
        const by = filters.flatMap(({ beta, passes }, at) => (passes > 0 && passes <= size * (1 + 1e-9) && inSeries([beta]) !== undefined ? [at] : []));
        const before = code[i] && countsOf(code[i])?.upTo;
        const beta = inSeries(by.map((at) => filters[at]!.beta));
        if (by.length === 0 || before === undefined || beta === undefined) return { size, by };
        const upTo = before / beta;
        return { size, by, upTo, number: scaleNumberOf(upTo)! };
    });
}
