/**
 * A published order and ours, side by side. A row stands in both columns or in one; a row in one column cannot be
 * written without a reason, so no difference between the two goes unexplained.
 */
import type { Driver, Step } from '../../src/model/step';

export type Row =
    | { readonly both: string }
    | { readonly published: string; readonly because: string }
    | { readonly ours: string; readonly because: string };

export const both = (...lines: readonly string[]): Row[] => lines.map((line) => ({ both: line }));
export const published = (because: string, ...lines: readonly string[]): Row[] => lines.map((line) => ({ published: line, because }));
export const ours = (because: string, ...lines: readonly string[]): Row[] => lines.map((line) => ({ ours: line, because }));

export const oursIn = (rows: readonly Row[]): string[] => rows.flatMap((row) => ('both' in row ? [row.both] : 'ours' in row ? [row.ours] : []));
export const publishedIn = (rows: readonly Row[]): string[] => rows.flatMap((row) => ('both' in row ? [row.both] : 'published' in row ? [row.published] : []));

/** The steps as single acts: a published order often parts the opening of a screw from its closing. */
export const acts = (steps: readonly Step[]): string[] => steps.flatMap((step) => {
    switch (step.do) {
        case 'set': return [step.position === 'open' || step.position === 'shut' ? `${step.position} ${step.part}` : `turn ${step.part} to ${step.position}`];
        case 'prefill': return [`fill ${step.part}`];
        case 'bleed': return [`open ${step.vent}`, work(step.driver), `shut ${step.vent}`];
        case 'prove': return [`prove ${step.part} at ${step.vent}`];
        case 'start': return [`start ${step.engine}`];
    }
});

const work = ({ by, part }: Driver): string =>
    ({ hand: `work ${part}`, lever: `work ${part} lever`, electric: `run ${part}`, gravity: `let ${part} flow` })[by];

/** The screws in the order in which they are shut. */
export const shutOrder = (lines: readonly string[]): string[] => lines.filter((line) => /^shut BS/.test(line)).map((line) => line.slice('shut '.length));
