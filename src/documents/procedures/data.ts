/** Pages and their index for machines. */
import type { Boat } from '../../model/boat';
import type { Blank } from '../../procedures/service/plan';
import { DEFERRAL } from './catalogue';
import { wordsOf, type Entry } from './pages';

export const indexData = (boat: Boat, entries: readonly Entry[]): unknown => ({
    boat: boat.title ?? boat.name, deferral: DEFERRAL,
    procedures: entries.map(({ about, jobs, page, blank, missing }) => ({
        ...(about !== 'boat' && { part: about }), jobs: wordsOf(jobs), ...(page && { page: page.id, title: page.title, ...(page.byHand && { byHand: true }), ...(page.faults && { faults: page.faults }) }),
        ...(blank !== undefined && { blank, missing: missing ?? [] }),
    })),
});

export const blankData = (words: string, { blank, missing }: Blank): unknown => ({ jobs: words, blank, missing, deferral: DEFERRAL });
