/** Fact words as the reference tells them: what follows them, an example that can be written as it stands, what they say. */
import { EXAMPLE, UNITS, fromSI, type Dimension } from '../../model/units';
import { figure } from '../../documents/figures';
import { listed } from '../../model/words';
import { FACTS, type FactWord } from '../vocabulary';
import { code, plain, table } from './markdown';

export const DIMENSION_WORDS: Readonly<Record<Dimension, string>> = {
    length: 'a length', area: 'an area', volume: 'a volume', flow: 'a flow', pressure: 'a pressure', time: 'a time', calendar: 'months or years',
    temperature: 'a temperature', rotation: 'a speed of rotation', power: 'a power', angle: 'an angle', speed: 'a speed', mass: 'a mass', torque: 'a torque', ratio: 'a share in %', density: 'a density', viscosity: 'a viscosity',
};

/** What follows the words of a fact when its own table gives no example. */
function usualExample({ words, form }: FactWord): string {
    switch (form.is) {
        case 'quantity': return EXAMPLE[form.of];
        case 'curve': return `${EXAMPLE[form.of]} at ${EXAMPLE[form.at]}`;
        case 'choice': return form.of[0]!;
        case 'text': return '"FUEL"';
        case 'name': return 'EngineBay';
        case 'year': return '2021';
        case 'count': return '3';
        case 'pieces': return 'lid ring, T-ring';
        // A heading is written with the facts that belong to it.
        case 'heading': { const first = Object.values(FACTS).flat().find((other) => other.words.startsWith(`${words} `)); return first ? exampleOf(first).slice(words.length + 1) : ''; }
        case 'flag': case 'place': case 'sizes': case 'corners': case 'suffix': case 'rest': return '';
    }
}

/** The fact as it may stand on a line: its words and what follows them. */
export const exampleOf = (word: FactWord): string => `${word.words} ${word.example ?? usualExample(word)}`.trim();

/** What follows the words of a fact. */
function formWords(word: FactWord): string {
    const { form } = word;
    switch (form.is) {
        case 'flag': return 'nothing';
        case 'quantity': return `${DIMENSION_WORDS[form.of]}${usualWords(word)}`;
        case 'curve': return `${DIMENSION_WORDS[form.of]} at ${DIMENSION_WORDS[form.at]}; more points behind commas${usualWords(word)}`;
        case 'corners': return 'heights and places across, like `200 mm up 550 mm stbd`, with commas between the corners';
        case 'sizes': return 'three lengths with `x` between them';
        case 'place': return /(^| )at$/.test(word.words) ? 'a height or a point' : '`at` and a height or a point';
        case 'choice': return `one of ${form.of.map(code).join(', ')}`;
        case 'text': return 'words between quotes';
        case 'name': return 'a name';
        case 'year': return 'a year or a date';
        case 'count': return 'a whole number';
        case 'pieces': return 'words, with commas between the pieces';
        case 'heading': return 'the facts that belong to it';
        case 'suffix': return 'a hyphen and what the tags get';
        case 'rest': return 'the rest of the line';
    }
}

/** The range outside which Orlop asks back, in the unit of the example. */
function usualWords({ usual, example, form }: FactWord): string {
    if (!usual || (form.is !== 'quantity' && form.is !== 'curve')) return '';
    // The unit ends the first figure of the example: 5 to 95 %, 25 L/min at 3600 rpm.
    const unit = (example ?? EXAMPLE[form.of]).split(/,| at /)[0]!.split(' ').at(-1)!;
    return UNITS[unit] === undefined ? '' : `, usually ${usual.map((si) => `${figure(fromSI(si, unit), 2)} ${unit}`).join(' to ')}`;
}

/** Kinds whose words are the same are told together. */
const SHARED_BY = 5;
/** Words that stand in the tables of many kinds, told once. */
export const SHARED: readonly FactWord[] = [...new Set(Object.values(FACTS).flat())].filter((word) => Object.values(FACTS).filter((words) => words.includes(word)).length >= SHARED_BY);

export function wordTable(words: readonly FactWord[]): string {
    return table(['word', 'what follows', 'for example', 'what it says'], words.map((word) => [code(word.words), formWords(word), code(exampleOf(word)), `${plain(word.doc)}${eitherWords(word)}`]));
}

/** Of several flags one holds. */
const eitherWords = ({ instead }: FactWord): string => (instead === undefined || instead.length === 0 ? '' : ` Not together with ${listed(instead.map(code), 'or')}.`);

/** The words of one kind: its own in a table, the shared ones by name. */
export function wordsOfKind(kind: string): string[] {
    const all = FACTS[kind] ?? [];
    const own = all.filter((word) => !SHARED.includes(word));
    const shared = all.filter((word) => SHARED.includes(word));
    return [
        ...(own.length > 0 ? [wordTable(own)] : []),
        ...(shared.length > 0 ? [`${own.length > 0 ? 'Also' : 'Only'} the [shared ${shared.length === 1 ? 'word' : 'words'}](#words-that-many-kinds-share) ${listed(shared.map(({ words }) => code(words)))}.`] : []),
    ];
}
