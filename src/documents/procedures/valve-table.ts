/** The table of valves of a page: how each stands, with a column for the bleeding only where one then stands otherwise. */
import { LABELS } from './catalogue';
import type { ValveRow } from './tree';

const bleeds = (valves: readonly ValveRow[]): boolean => valves.some(({ bleed }) => bleed !== undefined);

/** The first two columns are the valve and where it is. */
export const valveHead = (valves: readonly ValveRow[]): string[] => [LABELS.valve, LABELS.where, LABELS.start, LABELS.work, ...(bleeds(valves) ? [LABELS.bleed] : []), LABELS.end];

export const valveCells = ({ valve, place, start, work, bleed, end }: ValveRow, valves: readonly ValveRow[]): string[] => [valve, place, start, work, ...(bleeds(valves) ? [bleed ?? end] : []), end];
