/** The sheet as comma-separated values (RFC 4180): a row for each input, step, result, limit and margin, so that a table of any of them is one filter away. */
import type { Figure, Line, Printed, PrintedWorking, Source } from './printed';

export const COLUMNS = ['number', 'computation', 'group', 'about', 'line', 'symbol', 'quantity', 'formula', 'value', 'least', 'most', 'unit', 'from', 'grade', 'verdict', 'where', 'rule'] as const;
type Row = Partial<Record<(typeof COLUMNS)[number], string>>;

const NUMBERS: ReadonlySet<string> = new Set(['value', 'least', 'most']);

export function sheetCsv({ groups, missing }: Printed): string {
    const rows = groups.flatMap(({ workings }) => workings.flatMap(rowsOf));
    const lacks = missing.map(({ about, fact, how }): Row => ({ about, line: 'to measure', quantity: fact, from: how }));
    return [COLUMNS.join(','), ...[...rows, ...lacks].map((row) => COLUMNS.map((column) => cell(row[column] ?? '', NUMBERS.has(column))).join(','))].map((line) => `${line}\r\n`).join('');
}

function rowsOf({ number, group, working, inputs, steps, result, limit, margin, verdict }: PrintedWorking): Row[] {
    const { id, about, what, formula, where, rule } = working;
    const row = (line: string, more: Row): Row => ({ number, computation: id, group, about, line, ...more });
    const figure = ({ value, unit, least, most }: Figure): Row => ({ value, unit: unit === '1' ? '' : unit, ...(least !== undefined && { least }), ...(most !== undefined && { most }) });
    const from = (source: Source | undefined): Row => (source ? { from: source.words, ...(source.grade && { grade: source.grade }) } : {});
    const line = (kind: string) => (one: Line): Row => row(kind, { symbol: one.symbol, quantity: one.what, ...(one.formula !== undefined && { formula: one.formula }), ...figure(one), ...from(one.from) });
    return [
        ...inputs.map(line('input')), ...steps.map(line('step')),
        row('result', { quantity: what, formula, verdict, ...(working.result && { symbol: working.result.symbol }), ...(result && figure(result)), from: working.source, ...(where !== undefined && { where }), ...(rule !== undefined && { rule }) }),
        ...(limit ? [row('limit', { quantity: limit.sense, ...figure(limit), ...from(limit.from) })] : []), ...(margin ? [row('margin', figure(margin))] : []),
    ];
}

/** A text that a spreadsheet would take for a formula is kept a text by an apostrophe before it; figures of our own are left as they are. */
function cell(text: string, number: boolean): string {
    const safe = !number && /^\s*[=+\-@＝＋－＠]|^[\t\r\n]/.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
