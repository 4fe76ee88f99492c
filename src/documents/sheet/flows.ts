/** The steady flows that the sheet computes from, each reckoned once for a view: what each consumer draws against in each line-up for running, what its return pushes against. */
import type { Consumer, Id } from '../../model/boat';
import type { Estimate } from '../../analysis/estimate';
import { worstBackPressure, type BackPressure } from '../../analysis/flow/back-pressure';
import { GRAVITY } from '../../analysis/flow/pipe';
import type { Guess } from '../../analysis/flow/guess';
import { flowIn, type Asked } from '../../analysis/flow/states';
import type { Passed, Steady } from '../../analysis/flow/steady';
import { inletOf, worstSuction, type Inlet, type Untold, type Worst } from '../../analysis/flow/suction';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import type { MissingFact } from '../../model/finding';
import { listed } from '../../model/words';
import { burnsFuel, type View } from '../../checks/check';
import { byName } from './working';

/** A consumer in one line-up for running, in which a tank feeds it. */
export interface Drawing {
    readonly consumer: Consumer;
    readonly lineUp: ResolvedLineUp;
    readonly inlet: Inlet;
    /** The worst corner at full speed, with elements that are to be renewed. Of two line-ups the first by name is first. */
    readonly worst?: Worst;
    readonly untold: readonly Untold[];
}

export interface Returning {
    readonly consumer: Consumer;
    readonly worst?: { readonly found: BackPressure; readonly total: Estimate };
    readonly untold: readonly Untold[];
}

export interface Flows {
    readonly drawing: readonly Drawing[];
    readonly returning: readonly Returning[];
}

export function flowsOf(view: View): Flows {
    const found = known.get(view) ?? flowsIn(view);
    known.set(view, found);
    return found;
}

const known = new WeakMap<View, Flows>();

function flowsIn(view: View): Flows {
    const { boat, network } = view;
    const runs = [...view.runs].sort((a, b) => byName(a.id, b.id));
    const consumers = boat.consumers.filter((consumer) => burnsFuel(view, consumer)).sort((a, b) => byName(a.id, b.id));
    return {
        drawing: consumers.flatMap((consumer) => runs.filter(({ stopped }) => !stopped.includes(consumer.id)).flatMap((lineUp): Drawing[] => {
            const inlet = inletOf(network, lineUp, consumer.id);
            return inlet ? [{ consumer, lineUp, inlet, ...worstSuction(network, consumer, [lineUp], { speed: 'full', elements: 'dirty' }) }] : [];
        })),
        returning: consumers.filter(({ id }) => boat.joints.some(({ from }) => from === `${id}:out`)).map((consumer) => ({ consumer, ...worstBackPressure(network, consumer, runs) })),
    };
}

/** The word of the fact that states where liquid enters a consumer: it stands with its injection, where that is written. */
export const inletFact = ({ injection }: Consumer): string => (injection ? 'injection inlet' : 'inlet');

/** A sentence on what may make a result worse. */
export const worseBy = (missing: readonly MissingFact[]): string[] => (missing.length === 0 ? [] : [`The worst of what can be told. What is missing may make it worse: ${listed(missing.map(({ fact }) => fact))}.`]);

/** The part that stands for a passage of the network. */
export const partOf = ({ network }: View, { passage }: Passed): Id | undefined => network.passages[passage]!.part;

/** Pa, what a part takes as is likely, at least and at most, in the state that was asked for. */
export function lossOf(view: View, asked: Asked, passed: Passed, point: string): Estimate {
    const [si, least, most] = boundsOf(view, asked).map((found) => lost(found, passed.passage, point)) as [number, number | undefined, number | undefined];
    return { si, least: Math.min(si, least ?? si), most: Math.max(si, most ?? si) };
}

/** What is asked for as it is likely, and with every guess as it does least and most harm. */
export function boundsOf({ network }: View, asked: Asked): readonly Steady[] {
    const found = bounds.get(asked) ?? (['likely', 'least', 'most'] as const).map((guess: Guess) => flowIn(network, { ...asked, guess }));
    bounds.set(asked, found);
    return found;
}

const bounds = new WeakMap<Asked, readonly Steady[]>();

function lost(found: Steady, passage: number, point: string): number | undefined {
    const [taken, fluid] = [found.linkAt(passage)?.lost, found.groupAt(point)?.fluid];
    return taken === undefined || !fluid ? undefined : Math.abs(taken) * fluid.density * GRAVITY;
}
