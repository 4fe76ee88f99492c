/** Pieces and seals of parts, and to which opening each belongs. */
import type { Boat, Consumer, Id, Part } from '../../model/boat';
import type { Opening } from '../../analysis/opening/openings';

export type OpeningKind = 'body' | 'drain' | 'vent';

/** A bleed point is named by its tag; every other name is one that `openingsOf` gives. */
export const kindOf = ({ name }: Pick<Opening, 'name'>): OpeningKind => (name === 'drain' ? 'drain' : BODY.has(name) ? 'body' : 'vent');

const BODY: ReadonlySet<string> = new Set(['lid', 'ports', 'joint']);

/** By the first word of its name: a drain washer, vent washers; all others are the lid's or the body's. */
export const belongsTo = (piece: string): OpeningKind => (/^drain/i.test(piece) ? 'drain' : /^(vent|bleed)/i.test(piece) ? 'vent' : 'body');

export const sealsOf = (owner: Part | Consumer | undefined): readonly string[] => (owner && 'seals' in owner ? owner.seals : []);

/** What is inside a filter, and comes out by its lid or body. */
const INSIDE: ReadonlySet<string> = new Set(['element', 'bowl', 'screen', 'basket']);

export const isFilter = (owner: Part | Consumer | undefined): owner is Part => owner?.kind === 'filter' || owner?.kind === 'strainer';

/** Whether it can only be seen with the part open, or taken out. */
export const isHidden = (owner: Part | Consumer | undefined, piece: string): boolean => isFilter(owner) && piece !== 'bowl' && INSIDE.has(piece);

/** Whether hands must have it open to come to the piece. */
export const isInside = (owner: Part | Consumer | undefined, piece: string): boolean => isFilter(owner) && (INSIDE.has(piece) || owner.seals.includes(piece));

/**
 * Whether there is such a piece. Of a filter: its seals, what every filter has inside, and what the jobs on board name. Of other things nobody
 * lists the pieces, so any may be there.
 */
export function hasPiece(boat: Boat, owner: Part | Consumer | undefined, piece: string, jobs: readonly { readonly part?: Id; readonly piece: string }[]): boolean {
    if (!isFilter(owner)) return owner !== undefined;
    const named = [...jobs, ...boat.intervals.map(({ job }) => job)].some((job) => job.part === owner.id && job.piece === piece);
    return named || INSIDE.has(piece) || owner.seals.includes(piece) || boat.intervals.some(({ job, seals }) => job.part === owner.id && seals.includes(piece));
}
