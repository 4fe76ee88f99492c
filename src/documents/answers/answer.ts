/** An answer to one question: what is so, and what that was concluded from; for the terminal, as a page, for machines. */
import type { Boat, Id } from '../../model/boat';
import type { Ground, MissingFact } from '../../model/finding';
import type { Grade } from '../../model/measure';
import { listed } from '../../model/words';
import { wrap } from '../figures';
import { escapeMarkdown } from '../findings/report';
import { viewWords } from '../view';

export interface Answer {
    /** The question and the state of the boat, in full. */
    readonly title: string;
    /** Sentences; the first is the answer. A table stands between them where it stands in the text. */
    readonly body: readonly (string | Table)[];
    /** By the published schema, for the kind of question. */
    readonly data: Readonly<Record<string, unknown>>;
    readonly used: readonly Ground[];
    /** What was taken because nothing was said, besides what was of her state. */
    readonly defaults: readonly string[];
    readonly missing: readonly MissingFact[];
}

export interface Table {
    readonly head: readonly string[];
    readonly rows: readonly (readonly string[])[];
    /** The columns that hold numbers. */
    readonly right?: readonly number[];
}

/** The words in which a fact was written, when it was. */
export type Quoted = (about: Id, fact?: string) => string | undefined;

const WIDTH = 80;
export const STANDING = 'Computed from what is written of the boat, and no more true than that. The maker\'s book, local codes and licensed practice come first.';

interface Used {
    readonly about: Id;
    readonly fact?: string;
    readonly words: string;
    readonly grade?: Grade;
    /** Not measured, touched or seen, or only about so much. */
    readonly guess: boolean;
}

/** The facts that were written; one that was not is among the defaults or missing. */
function usedFacts(boat: Boat, answer: Answer, quoted: Quoted): Used[] {
    const seen = new Set<string>();
    return answer.used.flatMap(({ about, fact }) => {
        const key = `${about} ${fact ?? ''}`;
        const words = quoted(about, fact);
        if (seen.has(key) || words === undefined) return [];
        seen.add(key);
        const grade = (boat.evidence.get(fact === undefined ? about : `${about} ${fact}`) ?? boat.evidence.get(about))?.grade;
        const weak = grade === undefined || grade === 'told' || grade === 'inferred' || grade === 'unreached';
        return [{ about, ...(fact !== undefined && { fact }), words: `${about}: ${words}`, ...(grade && { grade }), guess: weak || /\babout\b/.test(words) }];
    });
}

export function answerText(boat: Boat, answer: Answer, quoted: Quoted): string {
    const lines = [wrap(`${answer.title}${viewWords(boat)}`, WIDTH), ''];
    for (const part of answer.body) lines.push(typeof part === 'string' ? wrap(part, WIDTH) : tableText(part), '');
    for (const { says, items } of foundation(boat, answer, quoted)) lines.push(wrap(says, WIDTH), ...items.map((item) => wrap(item, WIDTH, '    ', '  ')), '');
    lines.push(wrap(STANDING, WIDTH));
    return `${lines.join('\n')}\n`;
}

export function answerPage(boat: Boat, answer: Answer, quoted: Quoted): string {
    const lines = [`# ${escapeMarkdown(`${answer.title}${viewWords(boat)}`)}`, '', `Boat: ${escapeMarkdown(boat.title ?? boat.name)}.`, ''];
    for (const part of answer.body) {
        if (typeof part === 'string') lines.push(escapeMarkdown(part), '');
        else lines.push(`| ${part.head.map(escapeMarkdown).join(' | ')} |`, `| ${part.head.map(() => '---').join(' | ')} |`, ...part.rows.map((row) => `| ${row.map(escapeMarkdown).join(' | ')} |`), '');
    }
    for (const { says, items } of foundation(boat, answer, quoted)) lines.push(escapeMarkdown(says), '', ...(items.length > 0 ? [...items.map((item) => `- ${escapeMarkdown(item)}`), ''] : []));
    lines.push(STANDING, '');
    return lines.join('\n');
}

/** By the published schema. */
export function answerData(boat: Boat, answer: Answer, quoted: Quoted): unknown {
    const used = usedFacts(boat, answer, quoted);
    return {
        boat: boat.title ?? boat.name, question: `${answer.title}${viewWords(boat)}`, standing: STANDING, ...answer.data,
        text: answer.body.filter((part) => typeof part === 'string'),
        used: used.map(({ about, fact, words, grade, guess }) => ({ about, ...(fact !== undefined && { fact }), words, ...(grade && { grade }), guess })),
        defaults: answer.defaults, missing: answer.missing.map(({ about, fact, how }) => ({ about, fact, how })),
    };
}

interface Paragraph {
    readonly says: string;
    /** A line for each thing. */
    readonly items: readonly string[];
}

/** What the answer rests on. */
function foundation(boat: Boat, answer: Answer, quoted: Quoted): Paragraph[] {
    const used = usedFacts(boat, answer, quoted);
    const [guesses, known] = [used.filter(({ guess }) => guess), used.filter(({ guess }) => !guess)];
    const graded = used.some(({ grade }) => grade !== undefined);
    return [
        ...(answer.missing.length > 0 ? [{ says: 'To measure:', items: answer.missing.map(({ fact, how }) => `${fact} (${how})`) }] : []),
        ...(graded && guesses.length > 0 ? [{ says: 'Facts used that are guesses: not measured, touched or seen, or only about right:', items: byThing(guesses) }] : []),
        ...(graded && known.length > 0 ? [{ says: 'Facts used that were measured, touched or seen:', items: byThing(known) }] : []),
        ...(!graded && used.length > 0 ? [{ says: 'Facts used. None of them says how well it is known; each counts as told, not as measured:', items: byThing(used) }] : []),
        ...(answer.defaults.length > 0 ? [{ says: 'Taken because nothing was said:', items: answer.defaults }] : []),
    ];
}

/** `F1: lid at 40 mm over ports; ports at 660 mm [seen]`: what is said of one thing stands together. */
function byThing(used: readonly Used[]): string[] {
    const things = [...new Set(used.map(({ about }) => about))];
    return things.map((thing) => `${thing}: ${used.filter(({ about }) => about === thing).map(({ about, words, grade }) => `${words.slice(about.length + 2)}${grade === undefined || words.endsWith(grade) ? '' : ` [${grade}]`}`).join('; ')}`);
}

/** Columns as wide as their longest cell; where that is wider than the page, the widest cells are wrapped. */
export function tableText({ head, rows, right = [] }: Table): string {
    const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]!.length)));
    const narrowest = head.map((title, i) => Math.max(...[title, ...rows.map((row) => row[i]!)].flatMap((cell) => cell.split(' ').map((word) => word.length))));
    const over = (): number => 2 + widths.reduce((sum, width) => sum + width + 3, -3) - WIDTH;
    while (over() > 0) {
        const [widest] = widths.map((width, i) => ({ width, i })).filter(({ width, i }) => width > narrowest[i]!).sort((a, b) => b.width - a.width);
        if (!widest) break;
        widths[widest.i]!--;
    }
    const line = (cells: readonly string[]): string => {
        const wrapped = cells.map((cell, i) => wrapCell(cell, widths[i]!));
        return Array.from({ length: Math.max(...wrapped.map(({ length }) => length)) }, (_, at) => `  ${wrapped.map((cell, i) => right.includes(i) ? (cell[at] ?? '').padStart(widths[i]!) : (cell[at] ?? '').padEnd(widths[i]!)).join('   ')}`.trimEnd()).join('\n');
    };
    return [line(head), ...rows.map(line)].join('\n');
}

/** Stands for a blank at which no line ends; in no name and no text. */
const HELD = '\u0001';

/** After a comma rather than in a clause. */
function wrapCell(cell: string, width: number): string[] {
    const held = cell.split(', ').map((clause) => (clause.length < width ? clause.replaceAll(' ', HELD) : clause)).join(', ');
    return wrap(held, width).replaceAll(HELD, ' ').split('\n');
}

/** `V1 shut and V2 shut`, in order. */
export const settingWords = (settings: readonly { readonly part: Id; readonly position: string }[]): string => listed(settings.map(({ part, position }) => `${part} ${position}`));
