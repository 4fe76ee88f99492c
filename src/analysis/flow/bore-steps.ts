/** What the next larger bore of each pipe on the way to an inlet would buy. */
import type { Id } from '../../model/boat';
import type { Network } from '../topology/network';
import { fittingOf } from '../topology/joints';
import { GRAVITY } from './pipe';
import type { Suction } from './suction';

/** Nominal bores of rubber hoses, m: ISO 1307, from memory. Of tubes the nearest is meant. */
export const BORES = [3.2, 4, 5, 6.3, 8, 10, 12.5, 16, 19, 25, 31.5, 38, 50].map((mm) => mm / 1000);

/** Larger by less than this is the same size. */
const LARGER = 1.02;

export interface BoreStep {
    readonly part: Id;
    /** m. */
    readonly from: number;
    readonly to: number;
    /** Pa less to draw against. */
    readonly gain: number;
}

/** One step for each pipe by itself, in the order of the way; the rest as it is. */
export function boreSteps(network: Network, { steady, inlet, way }: Suction): readonly BoreStep[] {
    const [now, fluid] = [steady.headAt(inlet.point), steady.groupAt(inlet.point)?.fluid];
    return way.flatMap(({ part, by }): BoreStep[] => {
        const bore = (network.parts.get(part)?.bore ?? fittingOf(network.boat, part)?.bore)?.si;
        const next = bore === undefined ? undefined : BORES.find((size) => size > bore * LARGER);
        if (by !== 'friction' || bore === undefined || next === undefined) return [];
        const wider = steady.headIf(inlet.point, part, next);
        return wider === undefined || now === undefined || !fluid ? [] : [{ part, from: bore, to: next, gain: (wider - now) * fluid.density * GRAVITY }];
    });
}
