/** The worst that an opening can meet: in which of some plumbings, at which level and heel, and how high the liquid then stands above it. */
import type { Id } from '../../model/boat';
import type { Condition } from './condition';
import { eachOnce, type Lack } from './lack';
import { headsOn, type FromTank } from './open';
import type { Opening } from './openings';
import type { Plumbing } from './plumbing';
import { waysTo } from './ways';

export interface Worst {
    readonly opening: Opening;
    readonly plumbing: Plumbing;
    readonly condition: Condition;
    /** The tank that floods it, with the head that drives it. */
    readonly from: FromTank & { readonly head: number };
}

export interface Weighed {
    /** Some tank comes to it in some plumbing. */
    readonly reached: boolean;
    /** Of all that floods for certain, that with the greatest head. */
    readonly worst?: Worst;
    /** Every tank that floods it somewhere. */
    readonly tanks: readonly string[];
    /** What would have to be known to say that nothing else floods it. */
    readonly lacks: readonly Lack[];
}

/** Upright comes first and a corner outweighs it only when it is worse by more than a millimetre, so that the plainest case is named. */
const SAME = 1e-3;

/** Of all ways, or of those by one fitting of a tank. */
export function weigh(plumbings: readonly Plumbing[], openings: readonly Opening[], conditions: readonly Condition[], by?: Id): Weighed {
    let worst: Worst | undefined;
    let reached = false;
    const tanks = new Set<string>();
    const lacks: Lack[] = [];
    for (const opening of openings) for (const plumbing of plumbings) {
        if (!waysTo(plumbing, opening.part).some(({ fitting }) => by === undefined || fitting === by)) continue;
        reached = true;
        for (const condition of conditions) for (const from of headsOn(plumbing, opening, condition, by)) {
            lacks.push(...from.lacks);
            if (from.outcome !== 'floods' || from.head === undefined) continue;
            tanks.add(from.tank);
            if (!worst || from.head > worst.from.head + SAME) worst = { opening, plumbing, condition, from: { ...from, head: from.head } };
        }
        const { heel, trim } = plumbing.linedUp.network.boat.vessel.envelope;
        if (heel === undefined || trim === undefined) lacks.push({ about: 'vessel', of: 'envelope' });
    }
    return { reached, tanks: [...tanks], lacks: eachOnce(lacks), ...(worst && { worst }) };
}
