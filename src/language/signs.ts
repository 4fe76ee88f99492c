/**
 * Signs that the language has not but whose meaning is plain: typographic quotes and dashes, a comment behind `//`, a
 * colon behind a word, a unit in the wrong case. Each is told once and then read as it was meant, sign for sign, so
 * that every place stays where it was and one slip costs nothing else.
 */
import { UNITS } from '../model/units';
import { nearest } from './vocabulary';

/** Something wrong with a text before it is read as lines. */
export interface TextSlip {
    readonly code: string;
    readonly message: string;
    readonly offset: number;
    readonly length: number;
    /** What is read from its line cannot be trusted: nothing more is told of that line. */
    readonly clouds?: true;
}

/** So much of a line is looked at on either side of a sign. */
const NEAR = 60;

/** A sign as it stands in its line. */
interface Sign {
    readonly image: string;
    /** What stands near it on its line. */
    readonly before: string;
    readonly behind: string;
}

interface Rule {
    /** Without groups of its own. */
    readonly pattern: string;
    readonly say?: (sign: Sign) => string | undefined;
    /** What is read in its place: as long as the image. Without it, the image itself. */
    readonly read?: (image: string) => string;
    readonly clouds?: true;
}

const blank = (image: string): string => image.replace(/[^\r\n]/g, ' ');
const COMMENT = 'A comment begins with `--` and ends with its line';
const QUOTES = '“”„‟«»‹›';
const DASHES = '–—―‒';
const HALVES: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8' };

/** The word before a sign with the figure or the word behind it: `bore 8 mm`. */
function together({ before, behind }: Sign): string | undefined {
    const word = /[A-Za-z][\w-]*(?=[ \t]*$)/.exec(before)?.[0];
    const value = /^[ \t]*("[^"]*"|[\w./-]+(?:[ \t]+(?:[A-Za-z]{1,4}(?:\/[a-z]+)?|%)(?![\w]))?)/.exec(behind)?.[1];
    return word === undefined || value === undefined ? undefined : `${word} ${value}`;
}
const needless = (sign: Sign): string => { const plain = together(sign); return `\`${sign.image.trim()}\` is not needed here${plain === undefined ? ': take it out.' : `: write \`${plain}\`.`}`; };
const straight = ({ image }: Sign): string => `Write quotes straight up and down: \`"${image.slice(1).replace(new RegExp(`[${QUOTES}‘’'"]$`), '').trim()}"\`.`;
const requoted = (image: string): string => `"${image.slice(1, -1)}${new RegExp(`[${QUOTES}‘’'"]$`).test(image.slice(1)) ? '"' : image.slice(1).slice(-1)}`;

/** The units by their small letters, the usual case first. */
const UNIT_CASES = new Map<string, string>();
for (const unit of Object.keys(UNITS)) if (!UNIT_CASES.has(unit.toLowerCase())) UNIT_CASES.set(unit.toLowerCase(), unit);
const rightCase = (image: string): string | undefined => Object.hasOwn(UNITS, image) ? undefined : UNIT_CASES.get(image.toLowerCase());

/** With the whole number before it: `1 1/2`. */
function half({ image, before }: Sign): string {
    const whole = /\d+$/.exec(before)?.[0];
    return `\`${image}\` is written with a stroke: \`${whole === undefined ? '' : `${whole} `}${HALVES[image]!}\`.`;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
function spelledDay({ image }: Sign): string {
    const [day, month, year] = image.split(/[ \t.]+/) as [string, string, string];
    return `\`${image}\`: write the day as year, month and day, \`${year}-${String(MONTHS.indexOf(month.slice(0, 3)) + 1).padStart(2, '0')}-${day.padStart(2, '0')}\`.`;
}

/** A figure stands just before. */
const NUMBER = '(?<=(?<!\\w|\\.|\\w-)[\\d./]{1,12}[ \\t]{0,3})';
const noUnit = (image: string, before: string, unit: string): string => `\`${image}\` is not a unit. Did you mean \`${/[\d./]+(?=[ \t]*$)/.exec(before)?.[0] ?? ''} ${unit}\`?`;

/** The day as year, month, day; with dots the day stands first, with strokes it may be either. */
function day({ image }: Sign): string {
    const [a, b, c] = image.split(/[./-]/) as [string, string, string];
    const two = (text: string): string => text.padStart(2, '0');
    if (a.length === 4) return `\`${image}\`: write the day as year, month and day with hyphens, \`${a}-${two(b)}-${two(c)}\`.`;
    const either = image.includes('/') && Number(a) <= 12 && Number(b) <= 12 && a !== b ? `, or \`${c}-${two(a)}-${two(b)}\` when the month stands first` : '';
    return `\`${image}\`: write the day as year, month and day, \`${c}-${two(b)}-${two(a)}\`${either}.`;
}

/** In the order in which they are tried at one place. */
const RULES: readonly Rule[] = [
    // An inch sign closes no quote; the figure before it then asks for its unit.
    { pattern: '(?<=\\d)"(?![^"\\r\\n]*")', read: blank },
    { pattern: '"[^"\\r\\n]*"?', say: ({ image }) => image.length > 1 && image.endsWith('"') ? undefined : 'This quote is not closed: end it with `"` on the same line.' },
    { pattern: '--[^\\r\\n]*' },
    { pattern: '/\\*[^]{0,4000}?\\*/|/\\*[^\\r\\n]*', read: blank, say: ({ image }) => `${COMMENT}: write \`--\` ${/[\r\n]/.test(image) ? 'before each line of it, ' : ''}in place of \`/*\`, and no \`*/\`.` },
    { pattern: '//[^\\r\\n]*|#[^\\r\\n]*', read: blank, say: ({ image }) => `${COMMENT}: write \`--\` in place of \`${image.startsWith('#') ? '#' : '//'}\`.` },
    { pattern: `[${QUOTES}][^${QUOTES}"\\r\\n]*[${QUOTES}"]?|‘[^’‘"\\r\\n]*[’‘]|'[^'"\\r\\n]*'`, read: requoted, say: straight },
    { pattern: `(?<=\\d[ \\t]{1,3})[${DASHES}][ \\t](?=[ \\t]*\\d)`, read: () => 'to', say: ({ image }) => `Write a range with \`to\` in place of \`${image.trim()}\`.` },
    // The reader of the range tells it, with its figures.
    { pattern: `(?<=\\d)[${DASHES}](?=\\d)`, read: () => '-' },
    { pattern: `[−${DASHES}](?=\\d)`, read: () => '-', say: ({ image }) => `\`${image}\` is a printed minus: write a hyphen, \`-\`.` },
    { pattern: `(?<![\\p{L}\\d])\\p{L}[\\p{L}\\d]*(?:[‐‑${DASHES}][\\p{L}\\d]+)+`, read: (image) => image.replace(/[^\p{L}\d]/gu, '-'), say: ({ image }) => `\`${image}\` is written with a hyphen: \`${image.replace(/[^\p{L}\d]/gu, '-')}\`.` },
    { pattern: `[${DASHES}][^\\r\\n]*`, read: blank, say: ({ image }) => `${COMMENT}: write \`--\`, two hyphens, in place of \`${image[0]}\`.` },
    { pattern: '[-=]>', read: () => 'to', say: ({ image }) => `\`${image}\` is written \`to\`.` },
    { pattern: '→', read: blank, clouds: true, say: ({ image }) => `\`${image}\` is written \`to\`.` },
    { pattern: '(?<=\\bcleanliness[ \\t]{1,9})[>≥-]?=?\\d{0,2}(?:[ \\t]?/[ \\t]?[>≥]?=?\\d{1,2}){2}', read: blank, clouds: true, say: ({ image }) => `\`${image}\` stands between quotes: \`"${image}"\`.` },
    { pattern: '(?<![\\w.-])(?:\\d{2}[./]\\d{2}[./]\\d{4})(?![\\w.])', read: (image) => `${image.slice(6)}-${image.slice(3, 5)}-${image.slice(0, 2)}`, say: day },
    { pattern: '(?<![\\w.-])(?:\\d{1,2}[./]\\d{1,2}[./]\\d{4}|\\d{4}[./-]\\d{1,2}[./-]\\d{1,2})(?![\\w.])', clouds: true, say: (sign) => /^\d{4}-\d\d-\d\d$/.test(sign.image) ? undefined : day(sign) },
    { pattern: '(?<![\\w.-])\\d{1,2}\\.?[ \\t]+(?:January|February|March|April|May|June|July|August|September|October|November|December|Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\\.?[ \\t]+\\d{4}\\b', clouds: true, say: spelledDay },
    { pattern: `${NUMBER}[A-Za-z]+/[A-Za-z]+(?![\\w/-])`, read: (image) => Object.hasOwn(UNITS, image) ? image : rightCase(image) ?? blank(image), clouds: true, say: ({ image, before }) => { const unit = Object.hasOwn(UNITS, image) ? undefined : rightCase(image) ?? nearest(image, Object.keys(UNITS)); return unit && noUnit(image, before, unit); } },
    { pattern: `${NUMBER}[A-Za-z]+(?![\\w/-])(?![ \\t]+[A-Z])`, read: (image) => rightCase(image) ?? image, say: ({ image, before }) => { const unit = rightCase(image); return unit && noUnit(image, before, unit); } },
    { pattern: '(?<!\\d):|:(?!\\d)|=', read: blank, say: needless },
    { pattern: '@', read: blank, clouds: true, say: ({ behind }) => `\`@\` is written \`at\`${/^[ \t]*[\d.]+ [a-z]+/.test(behind) ? `: \`at ${/[\d.]+ [a-z]+/.exec(behind)![0]}\`` : ''}.` },
    { pattern: '(?<=^[ \\t]{0,40})(?:[-*•]|\\d+[.)])(?=[ \\t])', read: blank, say: ({ image }) => `\`${image}\` is not needed: every line is a thing of its own.` },
    { pattern: '[(\\[](?=[ \\t]{0,40}$)', read: () => '{', say: ({ image }) => `\`${image}\` is written \`{\`: a block stands between \`{\` and \`}\`.` },
    { pattern: '(?<=^[ \\t]{0,40})[)\\]](?=[ \\t]{0,40}$)', read: () => '}', say: ({ image }) => `\`${image}\` is written \`}\`: a block stands between \`{\` and \`}\`.` },
    { pattern: '(?<![\\w])[Øø⌀](?=[ \\t]*\\d)', read: blank, say: needless },
    { pattern: ';', read: blank, say: ({ image }) => `\`${image}\` is not needed: a fact ends with its word or figure, a line with the line end.` },
    { pattern: '[~≈](?=[ \\t]*\\d)', read: blank, say: ({ image, behind }) => `\`${image}\` is written \`about\`, behind the figure: \`${/^[ \t]*([\d./]+(?:[ \t]*[A-Za-z/]+)?)/.exec(behind)?.[1] ?? '8 mm'} about\`.` },
    { pattern: `(?<=\\d)[${Object.keys(HALVES).join('')}]`, read: blank, say: half },
    { pattern: `[${Object.keys(HALVES).join('')}]`, read: () => '1', say: half },
    { pattern: '\\([^()\\r\\n]{0,400}\\)|\\[[^\\[\\]\\r\\n]{0,400}\\]', read: blank, say: ({ image }) => `\`${image}\`: the language has no brackets. Write a remark behind \`--\`, at the end of the line.` },
];
const ANY = new RegExp(RULES.map(({ pattern }) => `(${pattern})`).join('|'), 'gmu');

/** The text as it is meant, as long as it was, and what was wrong with it. */
export function readSigns(text: string): { readonly text: string; readonly slips: readonly TextSlip[] } {
    const slips: TextSlip[] = [];
    const meant = text.replace(ANY, (...found) => {
        const image = found[0] as string;
        const offset = found[RULES.length + 1] as number;
        const at = found.slice(1, RULES.length + 1).findIndex((group) => group !== undefined);
        const { say, read, clouds } = RULES[at]!;
        if (!say && !read) return image;
        const message = say?.({ image, before: /[^\r\n]*$/.exec(text.slice(Math.max(0, offset - NEAR), offset))![0], behind: /^[^\r\n]*/.exec(text.slice(offset + image.length, offset + image.length + NEAR))![0] });
        if (message !== undefined) slips.push({ code: 'sign', message, offset, length: image.trimEnd().length, ...(clouds && { clouds }) });
        return say && message === undefined ? image : read?.(image) ?? image;
    });
    return { text: meant, slips };
}
