/** A page in every form that is written, and the index of all pages of a boat. */
import type { Document } from '../place';
import { wrap } from '../figures';
import { DEFERRAL } from './catalogue';
import { mapDita, pageDita } from './dita';
import { pageHtml } from './html';
import { indexHtml } from './index-html';
import { pageMarkdown } from './markdown';
import type { Entry } from './pages';
import { escapeMarkdown, plain } from './safe';
import type { Page } from './tree';

export const pageForms = (page: Page): Document[] => [
    { path: `${page.id}.md`, text: pageMarkdown(page) }, { path: `${page.id}.html`, text: pageHtml(page) }, { path: `${page.id}.dita`, text: pageDita(page) },
];

/** What is written for all procedures of a boat: the pages, an index to read, and a map of the topics. */
export function allForms(boat: string, entries: readonly Entry[]): Document[] {
    const pages = entries.flatMap(({ page }) => (page ? [page] : []));
    return [
        { path: 'index.md', text: indexMarkdown(boat, entries) }, { path: 'index.html', text: indexHtml(boat, entries) },
        { path: 'procedures.ditamap', text: mapDita(`Procedures of ${boat}`, pages.map(({ id, title }) => ({ file: `${id}.dita`, title }))) },
        ...pages.flatMap(pageForms),
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

/** The table for the terminal: a part with its jobs, and the page of each or the reason why there is none. */
export function indexText(boat: string, entries: readonly Entry[]): string {
    const [parts, jobs] = [entries.map(({ about }) => plain(about)), entries.map(({ words }) => plain(words))];
    const [wide, next] = [Math.max(4, ...parts.map(({ length }) => length)), Math.min(24, Math.max(3, ...jobs.map(({ length }) => length)))];
    const line = (part: string, job: string, words: string): string => {
        const head = `  ${part.padEnd(wide)}   ${job.padEnd(next)}   `;
        const indent = ' '.repeat(wide + next + 8);
        return job.length > next ? `${head.trimEnd()}\n${wrap(words, WIDTH, indent)}` : wrap(words, WIDTH, indent, head);
    };
    return [
        `${plain(boat)}: ${entries.filter(({ page }) => page).length} of ${entries.length} jobs have a procedure`, '', line('part', 'job', 'procedure, or why there is none'),
        ...entries.map((entry, i) => line(entry.about === entries[i - 1]?.about ? '' : parts[i]!, jobs[i]!, entry.page ? `${entry.page.id}${byHand(entry)}` : plain(entry.blank ?? ''))), '', wrap(DEFERRAL, WIDTH), '',
    ].join('\n');
}
