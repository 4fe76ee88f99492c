/**
 * Ranks are heights upright: so tubes are cut, and so a tank is run down in the long run. Whether the engine's own pickup stays in the
 * liquid when she leans is PICKUP-HEEL. Tanks that an open line joins count as one, unless it leaves the other tank above that one's pickup.
 */
import type { Consumer, Fitting, Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { drawing, sharing } from '../../analysis/tanks/pickups';
import { mm } from '../../model/words';
import { burnsFuel, nothing, type Check, type View } from '../check';
import { distinct, mouthMissing } from '../../analysis/missing';

/** A generator's mouth stands at least so much above the engine's, m: common practice. */
const HIGHER = 0.04;
/** Mouths closer than this stand level, m. */
const SAME = 0.0005;

export const pickupRank: Check = {
    code: 'PICKUP-RANK', severity: 'minor', slow: true,
    statement: 'Of the consumers that draw from one tank the engine has the lowest pickup; that of a generator is at least 40 mm higher, that of a heater higher still.',
    prevents: 'Generator or heater empties what the engine needs to come home.',
    facts: 'mouths of pickups; what draws from each in the line-ups for running',
    source: 'common practice: 40 to 60 mm',
    judge: (view) => {
        const verdicts = view.boat.tanks.flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup').flatMap((pickup) => view.boat.consumers.flatMap((consumer) => judge(view, pickup, consumer))));
        return verdicts.length > 0 ? verdicts : [nothing('no generator or heater draws from a tank that an engine, or a generator, draws from too')];
    },
};

/** A pickup that another must stand above, in a line-up. */
interface Below {
    readonly pickup: Fitting;
    readonly consumer: Consumer;
    readonly lineUp: ResolvedLineUp;
    readonly least: number;
}

/** One verdict of one consumer at one pickup, when there is anything below it to be. */
function judge(view: View, pickup: Fitting, consumer: Consumer): Verdict[] {
    if ((consumer.kind !== 'generator' && consumer.kind !== 'heater') || !burnsFuel(view, consumer)) return [];
    const below = view.runs.filter((lineUp) => drawing(view.running(lineUp), pickup.id).includes(consumer)).flatMap((lineUp) => belowIn(view, pickup, consumer, lineUp));
    if (below.length === 0) return [];
    const about = pickup.id;
    const rests = [pickup, ...below.map((other) => other.pickup)].map(({ id }) => ({ about: id, fact: 'mouth' }));
    const shared = below.find((other) => other.pickup.id === about);
    if (shared) return [shares(pickup, consumer, shared)];
    const gap = ({ pickup: other }: Below): number | undefined => pickup.mouth?.up && other.mouth?.up && pickup.mouth.up.si - other.mouth.up.si;
    const low = below.filter((other) => { const found = gap(other); return found !== undefined && found < other.least - SAME; });
    // The one that asks most of it: with that mended, the others are.
    const worst = low.sort((a, b) => b.pickup.mouth!.up!.si + b.least - a.pickup.mouth!.up!.si - a.least)[0];
    if (worst) return [tooLow(pickup, consumer, worst, gap(worst)!, rests)];
    if (below.every((other) => gap(other) !== undefined)) return [{ outcome: 'pass', about, rests }];
    return [{ outcome: 'cannot tell', about, missing: distinct([pickup, ...below.map((other) => other.pickup)].filter(({ mouth }) => !mouth?.up).map(({ id }) => mouthMissing(id))) }];
}

/** Engines are below generators and heaters, generators below heaters. */
function belowIn(view: View, { tank }: Fitting, { kind }: Consumer, lineUp: ResolvedLineUp): Below[] {
    const { boat } = view;
    const pickups = boat.tanks.flatMap(({ fittings }) => fittings).filter((fitting) => fitting.kind === 'pickup' && (fitting.tank === tank || sharing(view.network, lineUp.positions, fitting, {}).some(({ id }) => id === tank)));
    return pickups.flatMap((pickup) => drawing(view.running(lineUp), pickup.id).flatMap((consumer): Below[] => {
        if (!burnsFuel(view, consumer)) return [];
        if (consumer.kind === 'engine') return [{ pickup, consumer, lineUp, least: kind === 'generator' ? HIGHER : 2 * SAME }];
        return consumer.kind === 'generator' && kind === 'heater' ? [{ pickup, consumer, lineUp, least: 2 * SAME }] : [];
    }));
}

const reasonOf = (consumer: Id, other: Id, tank: Id): string => `${consumer} can run ${tank} down until ${other} draws air.`;

function shares(pickup: Fitting, { id }: Consumer, { consumer: other, lineUp, least }: Below): Verdict {
    return {
        outcome: 'fail', about: pickup.id, message: `${id} draws from the same pickup as ${other.id}, ${pickup.id} (in ${lineUp.id}).`, reason: reasonOf(id, other.id, pickup.tank),
        advice: `Give ${id} a pickup of its own in ${pickup.tank}, ${least === HIGHER ? '40 to 60 mm higher' : 'higher'} than ${pickup.id}.`,
    };
}

function tooLow(pickup: Fitting, { id }: Consumer, { pickup: other, consumer, lineUp, least }: Below, gap: number, rests: readonly { about: Id; fact: string }[]): Verdict {
    const stands = Math.abs(gap) < SAME ? `is as low as ${other.id}` : `is ${mm(Math.abs(gap))} ${gap < 0 ? 'lower' : 'higher'} than ${other.id}`;
    const asked = least === HIGHER ? `at least ${mm(HIGHER)} higher` : 'higher';
    return {
        outcome: 'fail', about: pickup.id, fact: 'mouth', rests,
        message: `The mouth of ${pickup.id}, from which ${id} draws, ${stands}, from which ${consumer.id} draws in ${lineUp.id}; it should be ${asked}.`,
        reason: reasonOf(id, consumer.id, other.tank),
        advice: least === HIGHER ? `Set the mouth of ${pickup.id} at ${mm(other.mouth!.up!.si + HIGHER)} or above; 40 to 60 mm over ${other.id} is usual.` : `Set the mouth of ${pickup.id} well above ${mm(other.mouth!.up!.si)}.`,
        see: [{ id: other.id, why: `from which ${consumer.id} draws` }],
    };
}
