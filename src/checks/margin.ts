/** What a consumer's pump draws against or its return pushes against, beside the maker's limit: shared by the rules on pressures. */
import type { Boat, Consumer, Id } from '../model/boat';
import type { Measure } from '../model/measure';
import type { Ground, MissingFact } from '../model/finding';
import { estimateOf, type Estimate } from '../analysis/estimate';
import { placeOf } from '../analysis/flow/plumbed';
import { drawnFrom, inletOf, type Inlet, type Lift } from '../analysis/flow/suction';
import { attitudesOf, lowLevel } from '../analysis/opening/condition';
import { heightOf } from '../analysis/tanks/attitude';
import type { ResolvedLineUp } from '../analysis/topology/line-ups';
import { partsBefore, tanksBefore } from '../analysis/topology/paths';
import { fromSI } from '../model/units';
import { attitudeWords, figure } from '../model/words';
import { nameOf, type View } from './check';
import { distinct, missingForHead, mouthMissing, positionMissing, shapeGrounds, steadyMissing } from '../analysis/missing';

/** Over the limit as it is likely; within it as it is likely, but not for certain; or within it in any case. */
export type Margin = 'over' | 'thin' | 'within';

export function marginOf(total: Estimate, limit: Measure): Margin {
    const { si, least } = estimateOf(limit);
    return total.si > si + SAME ? 'over' : total.most > least + SAME ? 'thin' : 'within';
}

/** Pa: what is just reached is reached, whatever the last digit. */
const SAME = 0.1;

export interface Fed {
    readonly lineUp: ResolvedLineUp;
    readonly inlet: Inlet;
}

/** The line-ups for running in which a tank feeds it, with its first pump in each; and valves that nobody placed on its lines. */
export function fedIn(view: View, { id }: Consumer): { readonly fed: readonly Fed[]; readonly missing: readonly MissingFact[] } {
    const { network } = view;
    const runs = view.runs.filter(({ stopped }) => !stopped.includes(id));
    const fed = runs.flatMap((lineUp) => { const inlet = inletOf(network, lineUp, id); return inlet ? [{ lineUp, inlet }] : []; });
    const lines = partsBefore(view.allOpen, `${id}:in`);
    return { fed, missing: distinct(runs.flatMap((lineUp) => lineUp.unplaced.filter((valve) => lines.has(valve)).map((valve) => positionMissing(valve, lineUp.id)))) };
}

/** What must be known for the height of its pump over the surfaces from which it draws, at every heel and trim; and the facts that say it. */
export function heightsNeeded(view: View, consumer: Consumer, fed: readonly Fed[]): { readonly missing: readonly MissingFact[]; readonly rests: readonly Ground[] } {
    const { boat, network } = view;
    const missing: MissingFact[] = [];
    const rests = new Map<string, Ground>();
    const rest = (...grounds: readonly Ground[]): void => { for (const ground of grounds) rests.set(`${ground.about} ${ground.fact}`, ground); };
    for (const { lineUp, inlet } of fed) {
        const place = placeOf(network, inlet.point);
        const stands = { about: inlet.pump ?? consumer.id, of: 'place' as const };
        if (attitudesOf(boat).some((attitude) => heightOf(place, attitude) === undefined)) missing.push(steadyMissing(boat, stands));
        rest({ about: stands.about, fact: inlet.pump === undefined ? 'inlet' : 'at' });
        for (const { tank, fitting } of drawnFrom(network, lineUp, inlet)) {
            missing.push(...missingForHead(boat, tank, fitting.mouth, mouthMissing(fitting.id)));
            rest(...shapeGrounds(boat, tank.id), { about: fitting.id, fact: 'mouth' });
        }
    }
    rest(...['envelope heel', 'envelope trim', 'envelope level'].map((fact) => ({ about: 'vessel', fact })));
    return { missing: distinct(missing), rests: [...rests.values()] };
}

/** Why nothing is said of a consumer that no tank feeds: other rules speak of it. */
export const unfed = (view: View, { id }: Consumer): string => (tanksBefore(view.allOpen, `${id}:in`).length === 0 ? 'no tank feeds it (see PATH-ONE)' : 'no tank feeds it in a line-up for running (see PATH-ONE)');

/** LP1 of E1; or E1, where the consumer itself draws */
export const pumpName = (boat: Boat, consumer: Id, { pump }: Inlet): string => (pump === undefined ? consumer : `${nameOf(boat, pump)} of ${consumer}`);

/** Put LP1 lower or nearer to T1.P1; an engine stays where it is, and gets a pump. */
export const nearer = (boat: Boat, { pump }: Inlet, from: Id): string => (pump === undefined ? `Fit an electric pump near ${from}` : `Put ${nameOf(boat, pump)} lower or nearer to ${from}`);

/** heeled 25° to starboard, bow 3° up, T1.P1 just wet, in RUN */
export const lowWords = (boat: Boat, { attitude, tank, fitting, justWet, lineUp }: Pick<Lift, 'attitude' | 'tank' | 'fitting' | 'justWet' | 'lineUp'>): string =>
    `${attitudeWords(attitude)}, ${justWet ? `${fitting.id} just wet` : `${tank.id} at ${figure(lowLevel(boat) * 100)} %`}, in ${lineUp}`;

/** height 6.18, pipes 1.34, elements 12 and checks 0.2 kPa: what is next to nothing is left out. */
export function sumWords(parts: readonly (readonly [what: string, pascals: number])[]): string {
    const told = parts.filter(([, loss]) => Math.abs(loss) >= 5).map(([what, loss]) => `${what} ${bare(loss)}`);
    return told.length === 0 ? 'next to nothing' : `${told.length < 2 ? told[0]! : `${told.slice(0, -1).join(', ')} and ${told.at(-1)!}`} kPa`;
}

/** The figure alone, in kPa. */
export const bare = (pascals: number): string => figure(fromSI(pascals, 'kPa'));

/** What is not known of a pipe's ends, as `plumbed.ts` counts it. */
export const FITTINGS = 'tails and elbows count as nothing to 30 bores at each end of a pipe, common practice';
