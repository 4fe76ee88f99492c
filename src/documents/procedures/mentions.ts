/** Which pages mention a thing, a figure or a fact: what is printed on them, and what they only rest on. */
import { UNITS, toSI, unitPattern } from '../../model/units';
import type { FactLine } from './facts';
import { DRAWN, FIGURE, type SaidLine } from './says';

export interface Mention {
    readonly page: string;
    readonly title: string;
    /** Lines of the page in which it stands. */
    readonly printed: readonly SaidLine[];
    /** Facts that the page used. */
    readonly restsOn: readonly FactLine[];
}

/** A page with all that it says and all facts that it used. */
export interface Searched {
    readonly id: string;
    readonly title: string;
    readonly says: readonly SaidLine[];
    readonly used: readonly FactLine[];
}

/** `V1`, `450 mL`, `F1 lid`, `height of F1 lid`, or any words. Pages on which nothing is found are left out. */
export function mentionsOf(pages: readonly Searched[], query: string): Mention[] {
    if (query.trim() === '') return [];
    const asked = readAsked(query);
    return pages.flatMap(({ id, title, says, used }): Mention[] => {
        // A drawing shows all of its lines, whatever its page is about.
        const printed = says.filter((line) => line.kind !== DRAWN && asked.printed(line.text, used));
        const restsOn = used.filter((line) => asked.used(line));
        return printed.length + restsOn.length === 0 ? [] : [{ page: id, title, printed, restsOn }];
    });
}

interface Asked {
    readonly printed: (text: string, used: readonly FactLine[]) => boolean;
    readonly used: (line: FactLine) => boolean;
}

const QUANTITY = new RegExp(`^([0-9]+(?:\\.[0-9]+)?)[ \\u00a0]?(${unitPattern()})$`, 'u');

function readAsked(query: string): Asked {
    const words = query.replace(/\s+/g, ' ').trim();
    const figure = QUANTITY.exec(words);
    if (figure) {
        const asked = quantity(figure[1]!, figure[2]!);
        return { printed: (text) => quantitiesIn(text).some((other) => alike(asked, other)), used: ({ value }) => quantitiesIn(value).some((other) => alike(asked, other)) };
    }
    const fact = factAsked(words);
    const here = wordPattern(words);
    return {
        // A fact of a thing is printed where the thing stands with the value of the fact, or with its words.
        printed: (text, used) => here.test(text) || (fact !== undefined && wordPattern(fact.about).test(text)
            && (wordPattern(fact.words).test(text) || used.some((line) => isFact(line, fact) && quantitiesIn(line.value).some((value) => quantitiesIn(text).some((other) => alike(value, other)))))),
        used: (line) => line.about === words || (fact !== undefined && isFact(line, fact)) || `${line.about} ${line.fact}` === words || here.test(line.value),
    };
}

interface FactAsked { readonly about: string; readonly words: string }

/** `height of F1 lid`, `the lid of F1`, `F1 lid`: what it is about, and the words of the fact. */
function factAsked(words: string): FactAsked | undefined {
    const [, of] = /^(?:the )?(?:heights?|places?|values?|figures?) of (.+)$/i.exec(words) ?? [];
    const rest = of ?? words;
    const [, before, name] = /^(?:the )?(.+) of (\S+)$/i.exec(rest) ?? [];
    if (before !== undefined && name !== undefined) return { about: name, words: before };
    const [, about, said] = /^(\S+) (.+)$/.exec(rest) ?? [];
    if (about !== undefined && said !== undefined) return { about, words: said };
    return of === undefined ? undefined : { about: of, words: 'at' };
}

/** The height of ports is kept as where it is. */
const isFact = (line: FactLine, { about, words }: FactAsked): boolean => line.about === about && (line.fact === words || (words === 'ports' && line.fact === 'at') || line.fact.startsWith(`${words} `));

const wordPattern = (words: string): RegExp => new RegExp(`(?<![\\p{L}\\p{N}_])${words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\p{L}\\p{N}_])(?!-[\\p{L}\\p{N}])`, 'u');

interface Quantity { readonly dimension: string; readonly si: number; readonly rounding: number }

/** A figure is good to half of its last digit; at least two digits were meant, since 1 L may be 1.0 L. */
function quantity(number: string, unit: string): Quantity {
    const [digits, decimals] = [number.replace('.', '').replace(/^0+/, '').length, number.includes('.') ? number.split('.')[1]!.length : 0];
    const half = 0.5 * 10 ** -(decimals + Math.max(0, 2 - digits));
    const { dimension, size } = UNITS[unit]!;
    return { dimension, si: toSI(Number(number), unit), rounding: half * size };
}

const quantitiesIn = (text: string): Quantity[] => [...text.matchAll(FIGURE)].flatMap(([, number, unit]) => (unit === undefined || !UNITS[unit] ? [] : [quantity(number!, unit)]));

/** One lies within the rounding of the other. */
const alike = (a: Quantity, b: Quantity): boolean => a.dimension === b.dimension && Math.abs(a.si - b.si) <= Math.max(a.rounding, b.rounding) * (1 + 1e-9);
