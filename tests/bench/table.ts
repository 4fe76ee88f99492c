/** Samples and the tables that tell them. */
export interface Row {
    readonly what: string;
    readonly boat: string;
    /** Milliseconds, in the order measured. */
    readonly samples: readonly number[];
    /** What it is measured against, in the same run. */
    readonly against?: readonly number[];
}

/** The value that a share of the samples does not exceed; between two samples, their mean by distance. */
function quantile(samples: readonly number[], share: number): number {
    const row = [...samples].sort((a, b) => a - b);
    const at = share * (row.length - 1);
    const [low, high] = [row[Math.floor(at)]!, row[Math.ceil(at)]!];
    return low + (high - low) * (at - Math.floor(at));
}
export const median = (samples: readonly number[]): number => quantile(samples, 0.5);
const ms = (value: number): string => (value < 10 ? value.toFixed(2) : value < 100 ? value.toFixed(1) : value.toFixed(0));

export function print(rows: readonly Row[]): void {
    printTable(['', 'boat', 'samples', 'median ms', '95 % ms', 'worst ms', 'ratio'], rows.map(({ what, boat, samples, against }) => [
        what, boat, String(samples.length), ms(median(samples)), ms(quantile(samples, 0.95)), ms(Math.max(...samples)), against ? (median(samples) / median(against)).toFixed(2) : '',
    ]));
}

/** The first two columns are words, the others figures. */
export function printTable(head: readonly string[], body: readonly (readonly string[])[]): void {
    const lines = [head, ...body];
    const widths = head.map((_, column) => Math.max(...lines.map((line) => line[column]!.length)));
    for (const line of lines) console.log(line.map((cell, column) => (column < 2 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!))).join('  ').trimEnd());
}
