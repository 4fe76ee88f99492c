/** A page in every form that is written, and the index of all pages of a boat. */
import type { Document } from '../place';
import { wrap } from '../figures';
import { DEFERRAL } from './catalogue';
import { drawingFile } from './drawing';
import { mapDita, pageDita } from './dita';
import { pageHtml } from './html';
import { indexHtml } from './index-html';
import { pageMarkdown } from './markdown';
import type { Entry } from './pages';
import { escapeMarkdown, plain } from './safe';
import type { Page } from './tree';

/** With its drawing, where that was drawn. */
export function pageForms(page: Page, svg?: string): Document[] {
    const drawn = svg !== undefined;
    return [
        { path: `${page.id}.md`, text: pageMarkdown(page, drawn) }, { path: `${page.id}.html`, text: pageHtml(page, svg) }, { path: `${page.id}.dita`, text: pageDita(page, drawn) },
        ...(drawn ? [{ path: drawingFile(page), text: svg }] : []),
    ];
}

/** What is written for all procedures of a boat: the pages, an index to read, and a map of the topics. `drawings` by the id of their page. */
export function allForms(boat: string, entries: readonly Entry[], drawings: ReadonlyMap<string, string> = new Map()): Document[] {
    const pages = entries.flatMap(({ page }) => (page ? [page] : []));
    return [
        { path: 'index.md', text: indexMarkdown(boat, entries) }, { path: 'index.html', text: indexHtml(boat, entries) },
        { path: 'procedures.ditamap', text: mapDita(`Procedures of ${boat}`, pages.map(({ id, title }) => ({ file: `${id}.dita`, title }))) },
        ...pages.flatMap((page) => pageForms(page, drawings.get(page.id))),
    ];
}

const byHand = ({ page }: Entry): string => (page?.byHand ? ' (written by hand)' : '');

function indexMarkdown(boat: string, entries: readonly Entry[]): string {
    const safe = escapeMarkdown;
    return [
        `# Procedures of ${safe(boat)}`, '', DEFERRAL, '', '| part | job | procedure, or why there is none |', '| --- | --- | --- |',
        ...entries.map((entry) => `| ${safe(entry.about)} | ${safe(entry.words)} | ${entry.page ? `[${safe(entry.page.title)}](${encodeURI(entry.page.id)}.md)${byHand(entry)}` : safe(entry.blank ?? '')} |`), '',
    ].join('\n');
}

const WIDTH = 80;

/**
 * The table for the terminal: a part with its jobs, and the page of each. Why there is none stands below, once for all parts of which it is
 * the same; or with each job, where every job is asked for.
 */
export function indexText(boat: string, entries: readonly Entry[], reasons: 'grouped' | 'each' = 'each'): string {
    const listedHere = entries.filter(({ page }) => page !== undefined || reasons === 'each');
    const [parts, jobs] = [listedHere.map(({ about }) => plain(about)), listedHere.map(({ words }) => plain(words))];
    const [wide, next] = [Math.max(4, ...parts.map(({ length }) => length)), Math.min(24, Math.max(3, ...jobs.map(({ length }) => length)))];
    const line = (part: string, job: string, words: string): string => {
        const head = `  ${part.padEnd(wide)}   ${job.padEnd(next)}   `;
        const indent = ' '.repeat(wide + next + 8);
        return job.length > next ? `${head.trimEnd()}\n${wrap(words, WIDTH, indent)}` : wrap(words, WIDTH, indent, head);
    };
    return [
        `${plain(boat)}: ${entries.filter(({ page }) => page).length} of ${entries.length} jobs have a procedure`, '', line('part', 'job', reasons === 'each' ? 'procedure, or why there is none' : 'procedure'),
        ...listedHere.map((entry, i) => line(entry.about === listedHere[i - 1]?.about ? '' : parts[i]!, jobs[i]!, entry.page ? `${entry.page.id}${byHand(entry)}` : plain(entry.blank ?? ''))), '',
        ...(reasons === 'each' ? [] : whyNone(entries)), wrap(DEFERRAL, WIDTH), '',
    ].join('\n');
}

/** Jobs without a procedure, by the reason: what differs only by the name of the part stands once, in the words for the first. */
function whyNone(entries: readonly Entry[]): string[] {
    const groups = new Map<string, Entry[]>();
    for (const entry of entries) if (entry.blank !== undefined) { const key = `${entry.words}\t${unnamed(entry)}`; groups.set(key, [...(groups.get(key) ?? []), entry]); }
    if (groups.size === 0) return [];
    return [wrap('No procedure, and why: told of the first part of each line, and so of the others. With --all each job stands by itself.', WIDTH), '', ...[...groups.values()].flatMap((all) => [
        wrap(plain(`${all[0]!.words}: ${all.map(({ about }) => about).join(', ')}`), WIDTH, '    ', '  '), wrap(plain(all[0]!.blank!), WIDTH, '      '), '',
    ])];
}

/** The reason without the name of its part. */
const unnamed = ({ about, blank = '' }: Entry): string => blank.replace(/[\p{L}\p{M}\p{N}_-]+/gu, (word) => (word === about ? '' : word));
