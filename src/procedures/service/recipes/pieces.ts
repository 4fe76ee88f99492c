/** Seals by the opening that disturbs them, and what recipes share. */
import type { Id, Job, Part } from '../../../model/boat';
import type { Blank, Needs } from '../plan';
import type { Visit } from '../visit';

const isDrainSeal = (seal: string): boolean => seal.startsWith('drain');
const isVentSeal = (seal: string): boolean => seal.startsWith('vent') || seal.startsWith('bleed');

export const drainSeals = ({ network }: Visit, part: Id): readonly string[] => network.parts.get(part)?.seals.filter(isDrainSeal) ?? [];
/** Of a lid, or of the whole body. */
export const bodySeals = ({ network }: Visit, part: Id): readonly string[] => network.parts.get(part)?.seals.filter((seal) => !isDrainSeal(seal) && !isVentSeal(seal)) ?? [];

export const needed = (part: Id, pieces: readonly string[], ready?: 'only if it is not refitted'): Needs['parts'] => pieces.map((piece) => ({ part, piece, count: 1, ...(ready && { ready }) }));

export const blank = (why: string): Blank => ({ blank: why, missing: [] });

export const partOf = ({ network }: Visit, { part }: Job): Part | undefined => (part === undefined ? undefined : network.parts.get(part));

/** Whether the job is this, of a part of one of these kinds. */
export const isFor = (verbs: readonly string[], kinds: readonly Part['kind'][]) => (visit: Visit, job: Job): boolean => {
    const part = partOf(visit, job);
    return part !== undefined && verbs.includes(job.verb) && kinds.includes(part.kind);
};
