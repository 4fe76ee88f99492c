/** What a remark of a plan says: by its name, with the figures and words that it names. */
import type { Boat } from '../../model/boat';
import type { Remark } from '../../procedures/service/plan';

export type RemarkWords = (boat: Boat, told: Readonly<Record<string, number | string | readonly string[]>>) => string;

export const REMARK_WORDS: Readonly<Record<string, RemarkWords>> = {
};

/** A remark without a sentence says its name and what it names, rather than nothing. */
export function remarkWords(boat: Boat, { say, with: told = {} }: Remark): string {
    const words = Object.hasOwn(REMARK_WORDS, say) ? REMARK_WORDS[say] : undefined;
    return words ? words(boat, told) : [say, ...Object.entries(told).map(([name, value]) => `${name} ${Array.isArray(value) ? value.join(', ') : value}`)].join('; ');
}
