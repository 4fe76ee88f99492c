/** Which words may begin something, by the braces that they stand between. */
import { FACTS, MARKS } from './vocabulary';

/** What stands within one pair of braces. */
export type Place = 'text' | 'vessel' | 'tank' | 'consumer' | 'selector' | 'course' | 'split' | 'changeover' | 'leg' | 'part' | 'line-up' | 'lines' | 'free';

export const PARTS = ['hose', 'tube', 'shutoff', 'check', 'tee', 'filter', 'strainer', 'gauge', 'radiator', 'primer', 'lift', 'electric'];
export const ITEMS = [...PARTS, 'split', 'changeover'];
export const SERVICES: ReadonlySet<string> = new Set(['supply', 'return', 'vent', 'fill', 'transfer']);
const LATER = ['pattern', 'survey', 'refit', 'locker', 'season', 'passage', 'waive', 'now'];
export const ENTRIES = ['vessel', 'tank', 'engine', 'generator', 'heater', 'exchanger', 'selector', ...SERVICES, 'line-up', 'tend', 'log', 'bleed', 'procedure', ...LATER];

/** The words that begin something, by where they may stand. Lines of other places are read word by word. */
export const MAY_STAND: Readonly<Partial<Record<Place, readonly string[]>>> = {
    text: ENTRIES, vessel: ['space'], tank: ['pickup', 'drop', 'vent', 'fill', 'section'], consumer: ['bleed'], part: ['bleed'], selector: ['ports', 'position'],
    course: ITEMS, leg: ITEMS, split: ['leg'], changeover: ['leg', 'position'],
};
export const KINDS: ReadonlySet<string> = new Set(Object.values(MAY_STAND).flat().concat('pump', 'course'));

/** What the block of a word holds; nothing for a word that has no block. */
export function opens(word: string, place: Place): Place | undefined {
    if (place === 'text') {
        if (SERVICES.has(word)) return 'course';
        if (['engine', 'generator', 'heater', 'exchanger'].includes(word)) return 'consumer';
        if (word === 'passage') return undefined;
        if (word === 'vessel' || word === 'tank' || word === 'selector' || word === 'line-up') return word;
        return word === 'tend' || word === 'log' || word === 'bleed' || word === 'procedure' ? 'lines' : 'free';
    }
    if (word === 'split' || word === 'changeover' || word === 'leg') return word;
    return PARTS.includes(word) || word === 'pump' ? 'part' : undefined;
}

/** Words that are followed by a name. */
export const NAMED: ReadonlySet<string> = new Set(['vessel', 'tank', 'engine', 'generator', 'heater', 'exchanger', 'selector', 'course', 'line-up', 'space', 'position', 'bleed', 'changeover', 'from', 'to']);
export const FACT_WORDS: ReadonlySet<string> = new Set([...Object.keys(MARKS), ...Object.values(FACTS).flatMap((table) => table.flatMap(({ words }) => words.split(' ')))]);
