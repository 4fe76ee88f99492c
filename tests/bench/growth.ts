/** How times grow with the boat. */
import { median, printTable, type Row } from './table';

export interface Sized {
    readonly parts: number;
    readonly rows: readonly Row[];
}

/** The exponent between two sizes: 1 is in proportion, 2 is with the square. The last line is what n log n would give. */
export function printGrowth(sizes: readonly Sized[]): void {
    const steps = sizes.slice(1).map((large, i) => ({ small: sizes[i]!, large }));
    const exponent = (from: number, to: number, step: typeof steps[number]): string => (Math.log(to / from) / Math.log(step.large.parts / step.small.parts)).toFixed(2);
    printTable(['growth, as the power of the parts', '', ...steps.map(({ small, large }) => `${small.parts} to ${large.parts}`)], [
        ...sizes[0]!.rows.map(({ what }, i) => [what, '', ...steps.map((step) => exponent(median(step.small.rows[i]!.samples), median(step.large.rows[i]!.samples), step))]),
        ['n log n', '', ...steps.map((step) => exponent(step.small.parts * Math.log(step.small.parts), step.large.parts * Math.log(step.large.parts), step))],
    ]);
}
