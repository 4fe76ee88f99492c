/** Samples and the table that tells them. */
export interface Row {
    readonly what: string;
    readonly boat: string;
    /** Milliseconds, in the order measured. */
    readonly samples: readonly number[];
    /** What it is measured against, in the same run. */
    readonly against?: readonly number[];
}

const sorted = (samples: readonly number[]): number[] => [...samples].sort((a, b) => a - b);
const median = (samples: readonly number[]): number => {
    const row = sorted(samples);
    const middle = row.length >> 1;
    return row.length % 2 === 1 ? row[middle]! : (row[middle - 1]! + row[middle]!) / 2;
};
const ms = (value: number): string => (value < 10 ? value.toFixed(2) : value < 100 ? value.toFixed(1) : value.toFixed(0));

export function print(rows: readonly Row[]): void {
    const lines = [['', 'boat', 'samples', 'median ms', 'worst ms', 'ratio'], ...rows.map(({ what, boat, samples, against }) => [
        what, boat, String(samples.length), ms(median(samples)), ms(Math.max(...samples)), against ? (median(samples) / median(against)).toFixed(2) : '',
    ])];
    const widths = lines[0]!.map((_, column) => Math.max(...lines.map((line) => line[column]!.length)));
    for (const line of lines) console.log(line.map((cell, column) => (column < 2 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!))).join('  ').trimEnd());
}
