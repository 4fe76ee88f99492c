/** The sheet as one page for paper (A4) and screens: well-formed, with its style inside, without scripts, and nothing is fetched. */
import { figureHtml, type Figure } from '../drawing/figure-html';
import { figureWords, limitWords, marginWords, REDO, remarks, resultWords, STANDING, type Line, type Printed, type PrintedWorking } from './printed';
import { STYLE } from './style';

export function sheetHtml({ title, basis, groups, taken, missing }: Printed, figures: readonly Figure[] = []): string {
    const all = groups.flatMap(({ workings }) => workings);
    const anchors = new Map(all.map(({ working, number }) => [working.id, anchor(number)]));
    return `<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"/>
<meta name="color-scheme" content="light dark"/>
<title>Calculation sheet: ${escapeHtml(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1>Calculation sheet<br/><span class="boat">${escapeHtml(title)}</span></h1>
<p class="standing">${escapeHtml(STANDING)}</p>
<dl>
${basis.map(([term, words]) => `<dt>${escapeHtml(term)}</dt><dd>${escapeHtml(words)}</dd>`).join('\n')}
</dl>
<p>${escapeHtml(REDO)}</p>
</header>
<main>
<div class="wide">
<table class="contents">
<thead><tr><th></th><th>Computation</th><th class="n">Result</th><th class="n">Limit</th><th class="n">Margin</th><th>Verdict</th></tr></thead>
<tbody>
${all.map((one) => `<tr><td>${one.number}</td><td><a href="#${anchor(one.number)}">${escapeHtml(one.working.id)}</a></td><td class="n">${held(resultWords(one))}</td><td class="n">${held(limitWords(one))}</td><td class="n">${held(marginWords(one))}</td><td>${one.verdict}</td></tr>`).join('\n')}
</tbody>
</table>
</div>
${figures.map((figure) => figureHtml(figure.title, figure)).join('')}${groups.map(({ heading, number, workings }) => `<h2>${number}\u2002${escapeHtml(heading)}</h2>\n${workings.map((working) => workingHtml(working, anchors)).join('\n')}`).join('\n')}
${taken.length === 0 ? '' : `<h2>Taken because nothing was said</h2>\n<ul>\n${taken.map((words) => `<li>${escapeHtml(words)}</li>`).join('\n')}\n</ul>\n`}${missing.length === 0 ? '' : `<h2>To measure</h2>
<div class="wide">
<table>
<thead><tr><th>Fact</th><th>How</th><th>For</th></tr></thead>
<tbody>
${missing.map(({ fact, how, settles }) => `<tr><td>${escapeHtml(fact)}</td><td>${coded(how)}</td><td>${escapeHtml(settles.join('; '))}</td></tr>`).join('\n')}
</tbody>
</table>
</div>
`}</main>
</body>
</html>
`;
}

const anchor = (number: string): string => `c${number.replace('.', '-')}`;

function workingHtml(printed: PrintedWorking, anchors: ReadonlyMap<string, string>): string {
    const { number, working, inputs, steps, result, limit, verdict } = printed;
    const rows = [
        ...inputs.map((line, i) => rowHtml(line, sourceHtml(line, inputs[i - 1], anchors), line.from!.grade ?? '')),
        ...steps.map((line) => rowHtml(line, formulaHtml(line.formula!), '')),
        ...(result ? [`<tr class="result"><td>${symbolHtml(working.result!.symbol)}</td><td>result</td><td class="n">${held(figureWords(result))}</td><td>${formulaHtml(working.formula)}</td><td></td></tr>`] : []),
    ];
    const verdicts = result
        ? limit ? `Limit ${held(limitWords(printed))} (${escapeHtml(limit.from.words)}); margin ${held(marginWords(printed))}: <strong>${verdict}</strong>${working.rule === undefined ? '' : `, by ${escapeHtml(working.rule)}`}.` : `Verdict: ${verdict}.`
        : `<strong>Cannot be told.</strong> To measure: ${escapeHtml(working.missing.map(({ fact }) => fact).join('; ') || 'see the notes')}.`;
    return `<section id="${anchor(number)}">
<h3><span class="number">${number}</span> ${escapeHtml(working.id)}</h3>
<p>${escapeHtml(working.what)}${working.where === undefined ? '' : `: ${escapeHtml(working.where)}`}.</p>
<p class="formula">${formulaHtml(working.formula)} <span class="source">${escapeHtml(working.source)}</span></p>
${rows.length === 0 ? '' : `<div class="wide">
<table>
<thead><tr><th></th><th>Quantity</th><th class="n">Value</th><th>From</th><th>Grade</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
</div>
`}<p class="verdict">${verdicts}</p>
${remarks(printed).map((note) => `<p class="note">${escapeHtml(note)}</p>`).join('\n')}
</section>`;
}

const rowHtml = (line: Line, from: string, grade: string): string => `<tr><td>${symbolHtml(line.symbol)}</td><td>${escapeHtml(line.what)}</td><td class="n">${held(figureWords(line))}</td><td>${from}</td><td>${grade}</td></tr>`;

function sourceHtml({ from }: Line, before: Line | undefined, anchors: ReadonlyMap<string, string>): string {
    if (before?.from?.words === from!.words) return 'as above';
    const to = from!.id === undefined ? undefined : anchors.get(from!.id);
    return to === undefined ? escapeHtml(from!.words) : `<a href="#${to}">${escapeHtml(from!.words)}</a>`;
}

const symbolHtml = (symbol: string): string => `<i>${escapeHtml(symbol)}</i>`;
const formulaHtml = (formula: string): string => `<span class="sum">${escapeHtml(formula)}</span>`;
/** A figure and its unit stay on one line. */
const held = (words: string): string => escapeHtml(words.replace(/(\d) (?=\S)/g, '$1\u00A0'));
/** Words of the language between backticks. */
const coded = (text: string): string => escapeHtml(text).replace(/`([^`]*)`/g, '<code>$1</code>');

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', '\'': '&#39;' };
/** What no page may contain becomes the sign for it. */
const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (sign) => SIGNS[sign]!).replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g, '\uFFFD');
