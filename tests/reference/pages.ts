/** The pages as a reader of Markdown sees them: sections, tables, fences, words between backticks. */
import { referencePages } from '../../src/language/reference/pages';

export const PAGES: Readonly<Record<string, string>> = Object.fromEntries((await referencePages()).map(({ path, text }) => [path, text]));

export interface Table {
    readonly head: readonly string[];
    readonly rows: readonly (readonly string[])[];
}

/** Cells are parted by strokes that no backslash stands before. */
const cells = (line: string): string[] => line.replace(/^\|/, '').replace(/\|$/, '').split(/(?<!\\)\|/).map((cell) => cell.trim());

export const withoutFences = (text: string): string => text.replace(/^```[\s\S]*?^```$/gm, '');

export function tables(text: string): Table[] {
    const blocks = withoutFences(text).split(/\n{2,}/).map((block) => block.split('\n').filter((line) => line.startsWith('|'))).filter((lines) => lines.length > 0);
    return blocks.map(([head, , ...rows]) => ({ head: cells(head!), rows: rows.map(cells) }));
}

/** Every line of every table, the line of dashes included, as cells. */
export const tableLines = (text: string): string[][][] => withoutFences(text).split(/\n{2,}/).map((block) => block.split('\n').filter((line) => line.startsWith('|')).map(cells)).filter((lines) => lines.length > 0);

export const fences = (text: string, language: string): string[] => [...text.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].filter(([, of]) => of === language).map(([, , body]) => body!);

export const codes = (text: string): string[] => [...withoutFences(text).matchAll(/`([^`\n]+)`/g)].map(([, inside]) => inside!.replace(/\\\|/g, '|'));

/** What stands under a heading, up to the next heading that is as high. */
export function section(text: string, heading: string): string {
    const lines = text.split('\n');
    const at = lines.indexOf(heading);
    if (at < 0) throw new Error(`no heading ${heading}`);
    const level = heading.indexOf(' ');
    const end = lines.findIndex((line, i) => i > at && /^#+ /.test(line) && line.indexOf(' ') <= level);
    return lines.slice(at, end < 0 ? undefined : end).join('\n');
}
