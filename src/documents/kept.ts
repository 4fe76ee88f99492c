/** Blocks that Orlop keeps in the text: their lines held against those that the boat now gives; notes of people carried along. */
import type { Id } from '../model/boat';
import type { Finding, Rule, Severity } from '../model/finding';
import { listed } from '../model/words';

/** A remark that a person hung on a step; `at` is the key of the step. */
export interface Note {
    readonly at: string;
    readonly text: string;
}

/** How the lines of one kind of block are told apart. */
export interface Spelling {
    readonly isStep: (line: string) => boolean;
    /** Whether a line is one that Orlop writes; everything else is a person's. */
    readonly isOwn: (line: string) => boolean;
    /** Whether a line of Orlop's stands before the step that it is for, as a caution does. */
    readonly isBefore: (line: string) => boolean;
    /** What a line is about, without its figures: two spellings of one line have one key. */
    readonly keyOf: (line: string) => string;
    /** With wider gaps, so that the eye finds the figures; what is compared has single blanks. */
    readonly spaced: (line: string) => string;
}

/** As one block of any kind stands in the text. */
export interface KeptBlock {
    readonly id: Id;
    /** As messages name it: bleed sequence, procedure. */
    readonly what: string;
    readonly lines: readonly { readonly id: Id; readonly text: string; readonly strangers: readonly string[] }[];
    readonly spelling: Spelling;
    readonly rule: Rule;
    /** What the boat gives for it, or why nothing. */
    readonly wanted: Wanted | Unwritable;
    /** Why a line is false, where something is known to be wrong with it; lines that are judged elsewhere. Asked only when the block is not current. */
    readonly broken: () => { readonly why: ReadonlyMap<Id, { readonly words: string; readonly severity?: Severity }>; readonly elsewhere: ReadonlySet<Id> };
}

export interface Unwritable {
    readonly why: string;
    /** It was made, and names what has no tag. */
    readonly nameless?: true;
}

export interface Wanted {
    readonly lines: readonly string[];
    /** The whole block. */
    readonly text: (notes: readonly Note[]) => string;
}

export const ownLines = ({ lines, spelling: { isOwn } }: KeptBlock): KeptBlock['lines'] => lines.filter((line) => isOwn(line.text));

/** What is no longer true of a block, line by line. */
export function checkKept(block: KeptBlock): Finding[] {
    const { id, what, rule, wanted: given, spelling: { keyOf, isStep } } = block;
    const finding = (about: Id, message: string, reason: string, advice: string, severity: Severity = rule.severity): Finding => ({ outcome: 'fail', about, message, reason, advice, rule, severity });
    const update = `Bring the ${what.split(' ').at(-1)} up to date; notes are carried along.`;
    const name = what.split(' ').at(-1)!;
    if ('why' in given) return [finding(id, `This ${name} can no longer be ${given.nameless ? 'written down' : 'made'}.`, given.why, `Mend what the reason names; then bring the ${name} up to date.`)];
    const wanted = given.lines;
    const lines = ownLines(block);
    const kept = common(lines.map((line) => line.text), wanted);
    if (kept.length === lines.length && kept.length === wanted.length) return [];
    const { why, elsewhere } = block.broken();
    const found: Finding[] = [];
    const stays = new Set(kept.map(([mine]) => mine));
    lines.forEach((line, i) => {
        if (stays.has(i) || elsewhere.has(line.id)) return;
        const same = wanted.find((other) => keyOf(other) === keyOf(line.text));
        const known = why.get(line.id);
        const reason = line.strangers.length > 0 ? `There is no ${line.strangers.join(', ')} on this boat.`
            : known?.words ?? (same === undefined ? 'The boat as it is written no longer needs it.'
                : same === line.text ? 'It stands in the wrong place.' : `As the boat is written it reads: ${same}`);
        found.push(finding(line.id, `This line of the ${what} is no longer true.`, reason, update, known?.severity ?? (isStep(line.text) || line.strangers.length > 0 ? 'major' : 'minor')));
    });
    const has = new Set(kept.map(([, theirs]) => theirs));
    const keys = new Set(lines.filter((_, i) => !stays.has(i)).map((line) => keyOf(line.text)));
    const absent = wanted.filter((line, i) => !has.has(i) && !keys.has(keyOf(line)));
    if (absent.length > 0) found.push(finding(id, `This ${name} lacks ${absent.length === 1 ? 'a line' : `${absent.length} lines`}.`, absent.map((line) => line.replace(/"(.{40}).*"$/, '"$1..."')).join('; '), update));
    return found;
}

/** Parts without a tag, which no line can name. */
export const nameless = (names: readonly string[]): Unwritable => ({ why: `It would have to name ${listed(names)}: give ${names.length > 1 ? 'them tags' : 'it a tag'}.`, nameless: true });

// ---- notes

/**
 * The step that a remark at each line belongs to, as its key: the step above it, or below it for a line that stands
 * before its step, as a caution does.
 */
export function stepKeys(lines: readonly string[], { isOwn, isStep, isBefore, keyOf }: Spelling): string[] {
    return lines.map((line, at) => {
        // A person's line goes with the line above it.
        const own = isOwn(line) ? line : lines.slice(0, at).reverse().find(isOwn) ?? line;
        const step = isBefore(own) ? lines.slice(at).find(isStep) : lines.slice(0, at + 1).reverse().find(isStep) ?? lines.slice(at).find(isStep);
        return step === undefined ? '' : keyOf(step);
    });
}

/** Notes stand under their step; a note whose step is gone stands at the end and says where it was. */
export function withNotes(lines: readonly string[], notes: readonly Note[], spelling: Spelling): string[] {
    const keys = stepKeys(lines, spelling);
    const body: string[] = [];
    const hung = new Set<Note>();
    lines.forEach((line, i) => {
        body.push(`  ${spelling.spaced(line)}`);
        if (spelling.isStep(line)) for (const note of notes) if (note.at === keys[i] && !hung.has(note)) { hung.add(note); body.push(`    note ${quoted(note.text)}`); }
    });
    for (const note of notes) if (!hung.has(note)) body.push(`  note ${quoted(note.text)}${note.at === '' ? '' : ` once at ${quoted(note.at)}`}`);
    return body;
}

/** The notes of a block with the step they hang on. A line that Orlop does not write becomes one, so that it is not lost. */
export function notesOf({ lines, spelling }: Pick<KeptBlock, 'lines' | 'spelling'>): Note[] {
    const keys = stepKeys(lines.map((line) => line.text), spelling);
    return lines.flatMap((line, i) => {
        if (spelling.isOwn(line.text)) return [];
        const said = /^note "([^"]*)"?(?: once at "([^"]*)"?)?$/.exec(line.text);
        return [said ? { text: said[1]!, at: said[2] ?? keys[i]! } : { text: line.text.replace(/"/g, '\''), at: keys[i]! }];
    });
}

/** The notes of the block; comments in it become notes, so that nothing a person wrote is lost. */
export function allNotes(block: KeptBlock, text: string): Note[] {
    const split = text.split(/\r?\n/).map((line) => {
        const dash = line.replace(/"[^"]*"/g, (quote) => '"'.repeat(quote.length)).indexOf('--');
        return { code: (dash < 0 ? line : line.slice(0, dash)).trim().replace(/\s+/g, ' '), comment: dash < 0 ? '' : line.slice(dash + 2).trim().replace(/"/g, '\'') };
    });
    // The head line is no step; what was said there stands before the first.
    const keys = stepKeys(split.map(({ code }, i) => (i === 0 ? '' : code)), block.spelling);
    return [...notesOf(block), ...split.flatMap(({ comment }, i) => (comment === '' ? [] : [{ text: comment, at: keys[i]! }]))];
}

/** A quote cannot stand inside a quote of the language. */
export const quoted = (text: string): string => `"${text.replace(/"/g, '\'')}"`;

/** Pairs of indexes of a longest common run of lines, in order. */
function common(a: readonly string[], b: readonly string[]): [number, number][] {
    const length: number[][] = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
    for (let i = a.length - 1; i >= 0; i--) for (let j = b.length - 1; j >= 0; j--) {
        length[i]![j] = a[i] === b[j] ? length[i + 1]![j + 1]! + 1 : Math.max(length[i + 1]![j]!, length[i]![j + 1]!);
    }
    const pairs: [number, number][] = [];
    for (let i = 0, j = 0; i < a.length && j < b.length;) {
        if (a[i] === b[j]) pairs.push([i++, j++]);
        else if (length[i + 1]![j]! >= length[i]![j + 1]!) i++;
        else j++;
    }
    return pairs;
}
