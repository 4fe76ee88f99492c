/** Words for messages about lines: kinds, dimensions, what a quantity may be of, where a line belongs. */
import type { AstNode } from 'langium';
import type { Dimension } from '../model/units';
import { UNITS, toSI } from '../model/units';
import { listed } from '../model/words';
import type { AnyFactToken, Problem } from './facts';
import { splitQuantity } from './quantity';
import { COURSE_WORDS, FACTS, MARKS, nearest, synonym, whereItStands, type FactWord } from './vocabulary';

/** A whole line that cannot stand here: a part in a tank, a thing that Orlop does not know in a course. */
export function misplaced(kind: string, [first, second]: readonly AnyFactToken[], problems: Problem[]): boolean {
    if (first?.$type !== 'Word' || !first.$cstNode) return false;
    const word = first.text;
    const known = (FACTS[kind] ?? []).some(({ words }) => words.split(' ')[0] === word) || Object.hasOwn(MARKS, word);
    const where = known ? undefined : whereItStands(word);
    // A thing with a name in a course is a part; any other line there is made of facts.
    if (known || (where === undefined && !((kind === 'course' || kind === 'leg') && second?.$type === 'Ref'))) return false;
    problems.push({
        code: 'misplaced', severity: 'error', node: first.$cstNode, message: where === undefined
            ? `\`${word}\` is not a part that Orlop knows. A line here begins with ${listed(COURSE_WORDS.map((part) => `\`${part}\``), 'or')}.`
            : `\`${word}\` stands ${where}, not in ${kindName(kind)}.`,
    });
    return true;
}

/** Where the height of a thing that has none of its own is written; `height` as it stands behind its \`at\`. */
export function heightElsewhere(kind: string, token: AstNode, height: string): string | undefined {
    if (kind === 'consumer') return `An engine has no one height, so \`at\` cannot stand here. For where its fuel enters write \`inlet at ${height}\`.`;
    if (kind !== 'course') return undefined;
    const service = (token.$container as { service?: string } | undefined)?.service;
    const end = service === 'vent' ? 'outlet' : service === 'fill' ? 'plate' : undefined;
    return end ? `The height of its end is a fact of the hose that ends there, so \`at\` cannot stand here: write \`hose ${end} at ${height}\`.`
        : `A course has no height of its own, so \`at\` cannot stand here; its parts have. Write it behind them, like \`shutoff V1 at ${height}\`.`;
}

/** Words of a table that such a quantity may belong to. */
export function likelyWords(table: readonly FactWord[], text: string, dimension: Dimension | undefined): string[] {
    const { numbers, unit } = splitQuantity(text);
    if (unit === undefined || dimension === undefined || numbers.length !== 1) return [];
    const si = toSI(numbers[0]!, unit);
    return table.filter(({ words, form, usual }) => (form.is === 'quantity' && form.of === dimension && usual && si >= usual[0] && si <= usual[1]) || (words === 'at' && dimension === 'length' && Math.abs(si) >= 0.1))
        .map(({ words }) => words).sort((a, b) => (a === 'at' ? 1 : 0) - (b === 'at' ? 1 : 0)).slice(0, 3);
}

/** A figure far out of the usual range of its fact. */
export function unlikely({ words, usual }: FactWord, token: AnyFactToken, si: number, unit: string): string {
    const [low, high] = usual!;
    const tenth = [si / 10, si * 10].find((other) => other >= low && other <= high);
    const show = (other: number): string => `${trim((other - (UNITS[unit]!.offset ?? 0)) / UNITS[unit]!.size)} ${unit}`;
    return `${quote(token)} is far from what a \`${words}\` usually is (${show(low)} to ${show(high)}).` + (tenth === undefined ? ' Is the unit right?' : ` Did you mean ${show(tenth)}?`);
}

export function noSuchUnit(said: string, value: number, dimension: Dimension, like: string): string {
    const meant = nearest(said, Object.keys(UNITS).filter((symbol) => UNITS[symbol]!.dimension === dimension)) ?? nearest(said, Object.keys(UNITS));
    return `\`${said}\` is not a unit.` + (meant ? ` Did you mean \`${trim(value)} ${meant}\`?` : ` Write it like ${like}.`);
}

export function noSuchChoice({ words }: FactWord, of: readonly string[], said: string | undefined): string {
    const other = said === undefined ? undefined : synonym(said);
    const meant = said === undefined ? undefined : other !== undefined && of.includes(other) ? other : nearest(said, of);
    return `${said === undefined ? 'After' : `\`${said}\` cannot stand here: after`} \`${words}\` comes ${listed(of.map((option) => `\`${option}\``), 'or')}.` + (meant ? ` Did you mean \`${meant}\`?` : '');
}

/** Something that no word goes before, with the words that a quantity may have been meant for. */
export function wordless(token: AnyFactToken, likely: readonly string[] = []): string {
    const write = likely.map((words) => `\`${words} ${(token as { text: string }).text}\``);
    return `${quote(token)} stands here without a word that says what it is.` + (write.length > 0 ? ` Write ${listed(write, 'or')}.` : '');
}

/** A word that no fact of the kind begins with: what to say of it, and what was perhaps meant. An option without its word says which. */
export function strangeWord(kind: string, own: readonly string[], said: string): { readonly message: string; readonly meant?: string; readonly isOption?: true } {
    const meaning = synonym(said);
    const option = (FACTS[kind] ?? []).find(({ form }) => form.is === 'choice' && form.of.includes(meaning ?? said));
    if (option) return { message: `\`${said}\` stands here without the word before it: write \`${option.words} ${meaning ?? said}\`.`, isOption: true };
    const meant = meaning !== undefined && own.includes(meaning) ? meaning : nearest(said, [...own, ...Object.keys(MARKS)].filter((word) => word !== said));
    const elsewhere = Object.entries(FACTS).find(([other, table]) => other !== kind && table.some(({ words }) => words === said));
    const hint = meant ? ` Did you mean \`${meant}\`?` : elsewhere ? ` It belongs to ${kindName(elsewhere[0])}${kind === 'bleed' ? ': write it before `bleed`, or on a line of its own' : ''}.` : '';
    return { message: `\`${said}\` is not a word that Orlop knows for ${kindName(kind)}.${hint}`, ...(meant !== undefined && { meant }) };
}

const ARTICLES: Partial<Record<Dimension, string>> = {
    area: 'an area', time: 'a time', calendar: 'a number of months', angle: 'an angle', rotation: 'a rotation speed', ratio: 'a share in %',
};
export const article = (dimension: Dimension): string => ARTICLES[dimension] ?? `a ${dimension}`;
export const kindName = (kind: string): string => kind === 'consumer' ? 'an engine' : kind === 'fitting' ? 'a fitting of a tank' : kind === 'bleed' ? 'a bleed point' : `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;
export const trim = (value: number): string => String(Number(value.toPrecision(6)));
export const quote = (node: AstNode): string => `\`${node.$cstNode?.text ?? ''}\``;
export const adjacent = (a: AstNode, b: AstNode): boolean => a.$cstNode?.end === b.$cstNode?.offset;
export const sameLine = (a: AstNode, b: AstNode): boolean => a.$cstNode?.range.end.line === b.$cstNode?.range.start.line;
