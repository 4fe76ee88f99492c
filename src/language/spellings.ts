/** The ways in which the facts of a kind may be spelt on a line. */
import { FACTS, type FactWord } from './vocabulary';

/** How an entry may stand on a line: in full or, behind its heading, without the heading's words. */
export interface Spelling {
    readonly entry: FactWord;
    readonly words: readonly string[];
    readonly under?: string;
}

const byKind = new Map<string, ReadonlyMap<string, readonly Spelling[]>>();

/** The spellings of a kind's entries by their first word. */
export function spellingsOf(kind: string): ReadonlyMap<string, readonly Spelling[]> {
    const known = byKind.get(kind);
    if (known) return known;
    const found = new Map<string, Spelling[]>();
    const add = (spelling: Spelling): void => { const first = spelling.words[0]!; found.set(first, [...(found.get(first) ?? []), spelling]); };
    const table = FACTS[kind] ?? [];
    for (const entry of table) {
        add({ entry, words: entry.words.split(' ') });
        for (const heading of table) {
            if (heading.heads && entry.words.startsWith(`${heading.words} `)) add({ entry, words: entry.words.slice(heading.words.length + 1).split(' '), under: heading.words });
        }
    }
    byKind.set(kind, found);
    return found;
}
