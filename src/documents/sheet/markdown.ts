/** The sheet as a page in Markdown. */
import type { Figure } from '../drawing/figure-html';
import { cell } from '../findings/report';
import { figureWords, limitWords, marginWords, REDO, remarks, resultWords, STANDING, type Printed, type PrintedWorking } from './printed';

/** What the owner wrote is never markup, code neither. */
const plain = (text: string): string => cell(text).replaceAll('`', '\\`');
const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

export function sheetPage({ title, basis, groups, taken, missing }: Printed, figures: readonly Figure[] = []): string {
    const lines = [`# Calculation sheet: ${plain(title)}`, '', STANDING, '', ...basis.map(([term, words]) => `- ${plain(term)}: ${plain(words)}.`), '', REDO, ''];
    lines.push('| | computation | result | limit | margin | verdict |', '| --- | --- | ---: | ---: | ---: | --- |');
    for (const one of groups.flatMap(({ workings }) => workings)) lines.push(row([one.number, plain(one.working.id), resultWords(one), limitWords(one), marginWords(one), one.verdict]));
    lines.push('', ...figures.flatMap(({ title: name, file }) => [`## ${name}`, '', `![${name} of ${plain(title)}](${file})`, '']));
    for (const { heading, number, workings } of groups) lines.push(`## ${number} ${plain(heading)}`, '', ...workings.flatMap(workingPage));
    if (taken.length > 0) lines.push('## Taken because nothing was said', '', ...taken.map((words) => `- ${plain(words)}`), '');
    if (missing.length > 0) lines.push('## To measure', '', '| fact | how | for |', '| --- | --- | --- |', ...missing.map(({ fact, how, settles }) => row([plain(fact), cell(how), plain(settles.join('; '))])), '');
    return lines.join('\n');
}

function workingPage(printed: PrintedWorking): string[] {
    const { number, working, inputs, steps, result, limit, verdict } = printed;
    const rows = [
        ...inputs.map((line) => row([plain(line.symbol), plain(line.what), figureWords(line), plain(line.from!.words), line.from!.grade ?? ''])),
        ...steps.map((line) => row([plain(line.symbol), plain(line.what), figureWords(line), plain(line.formula!), ''])),
        ...(result ? [row([`**${plain(working.result!.symbol)}**`, '', `**${figureWords(result)}**`, plain(working.formula), ''])] : []),
    ];
    return [
        `### ${number} ${plain(working.id)}`, '', `${plain(working.what)}${working.where === undefined ? '' : `: ${plain(working.where)}`}.`, '', `${plain(working.formula)} (${plain(working.source)})`, '',
        ...(rows.length > 0 ? ['| | quantity | value | from | grade |', '| --- | --- | ---: | --- | --- |', ...rows, ''] : []),
        result ? `${limit ? `Limit ${limitWords(printed)} (${plain(limit.from.words)}); margin ${marginWords(printed)}: **${verdict}**${working.rule === undefined ? '' : `, by ${working.rule}`}.` : `Verdict: ${verdict}.`}`
            : `**Cannot be told.** To measure: ${plain(working.missing.map(({ fact }) => fact).join('; ') || 'see the notes')}.`,
        '', ...remarks(printed).flatMap((note) => [plain(note), '']),
    ];
}
