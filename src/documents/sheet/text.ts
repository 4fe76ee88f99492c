/** The sheet for the terminal: 80 columns. */
import { tableText } from '../answers/answer';
import { wrap } from '../figures';
import { figureWords, limitWords, marginWords, REDO, remarks, resultWords, STANDING, type Line, type Printed, type PrintedWorking } from './printed';

const WIDTH = 80;

export function sheetText({ title, basis, groups, taken, missing }: Printed): string {
    const lines = [`Calculation sheet: ${title}`, '', ...basis.map(([term, words]) => wrap(`${term}: ${words}.`, WIDTH, '  ', '')), '', wrap(REDO, WIDTH), ''];
    const all = groups.flatMap(({ workings }) => workings);
    lines.push(tableText({
        head: ['', 'computation', 'result', 'limit', 'margin', 'verdict'], right: [2],
        rows: all.map((one) => [one.number, one.working.id, resultWords(one), limitWords(one), marginWords(one), one.verdict]),
    }), '');
    for (const { heading, number, workings } of groups) lines.push(`${number}  ${heading}`, '', ...workings.flatMap(workingText));
    if (taken.length > 0) lines.push('Taken because nothing was said:', ...taken.map((words) => wrap(words, WIDTH, '    ', '  ')), '');
    if (missing.length > 0) lines.push('To measure, what settles most first:', ...missing.flatMap(({ fact, how, settles }) => [wrap(`${fact} (${how})`, WIDTH, '    ', '  '), wrap(`for ${settles.join('; ')}`, WIDTH, '      ', '    ')]), '');
    lines.push(wrap(STANDING, WIDTH));
    return `${lines.join('\n')}\n`;
}

function workingText(printed: PrintedWorking): string[] {
    const { number, working, inputs, steps, result, limit, margin, verdict } = printed;
    const rows: Row[] = [...inputs.map((line, i): Row => [line.symbol, figureWords(line), fromWords(line, inputs[i - 1])]), ...steps.map((line): Row => [line.symbol, figureWords(line), `${line.formula!}, ${line.what}`])];
    return [
        wrap(`${number}  ${working.id}`, WIDTH, '     ', ''), wrap(`${working.what}${working.where === undefined ? '' : `: ${working.where}`}.`, WIDTH, '  '), wrap(`${working.formula}   (${working.source})`, WIDTH, '      ', '  '),
        ...rowsText(rows),
        ...(result ? [wrap(`${working.result!.symbol} = ${figureWords(result)}${limit ? `; limit ${limitWords(printed)} (${limit.from.words}); margin ${margin ? marginWords(printed) : 'not known'}` : ''}: ${verdict}${working.rule === undefined || !limit ? '' : `, by ${working.rule}`}.`, WIDTH, '      ', '  ')]
            : [wrap(`Cannot be told. To measure: ${working.missing.map(({ fact }) => fact).join('; ') || 'see below'}.`, WIDTH, '      ', '  ')]),
        ...remarks(printed).map((note) => wrap(note, WIDTH, '      ', '  ')), '',
    ];
}

type Row = readonly [symbol: string, figure: string, words: string];

/** Symbols on the left, figures under one another, and the words beside them. */
function rowsText(rows: readonly Row[]): string[] {
    const [wide, figures] = [Math.max(...rows.map(([symbol]) => symbol.length)), Math.max(...rows.map(([, figure]) => figure.length))];
    return rows.map(([symbol, figure, words]) => wrap(words, WIDTH, ' '.repeat(wide + figures + 8), `  ${symbol.padEnd(wide)}   ${figure.padStart(figures)}   `));
}

/** `mouth of T1.P1, above the datum. T1.P1: mouth at 25 mm off bottom [told]` */
function fromWords({ what, from }: Line, before: Line | undefined): string {
    if (!from) return what;
    return `${what}. ${before?.from?.words === from.words ? 'As above' : `${from.words}${from.grade === undefined ? '' : ` [${from.grade}]`}`}`;
}
