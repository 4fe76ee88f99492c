/**
 * Division: PICKUP-RANK lets generators and heaters run dry before the engine does, so beside an engine their pickups are
 * not judged here. The reserve of a passage is judged by RESERVE: here the lowest level of the envelope is what she
 * must still run on. Tanks that an open line joins stand at one level, given time: then what counts is what they hold together. A line that
 * leaves the tank above the pickup, as an overflow, cannot take what the pickup needs.
 */
import type { Fitting, Id, Tank } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { highLevel, lowLevel } from '../../analysis/opening/condition';
import { UPRIGHT, type Attitude } from '../../analysis/tanks/attitude';
import { grossOf } from '../../analysis/tanks/liquid';
import { drawing, leastToWet, mostToWet, sharing } from '../../analysis/tanks/pickups';
import { attitudeWords, figure, listed, litres } from '../../model/words';
import { burnsFuel, type Check, type View } from '../check';
import { distinct, levelMissing, missingForHead, mouthMissing, shapeFact, whereMissing } from '../../analysis/missing';

export const pickupHeel: Check = {
    code: 'PICKUP-HEEL', severity: 'major', slow: true,
    statement: 'At the lowest level of the envelope each pickup that an engine draws from, or a generator or heater from a tank without an engine, is still in the liquid at every heel and trim of the envelope.',
    prevents: 'The engine draws air and stops, at sea and on one tack.',
    facts: 'shape and place of the tank; mouths of pickups; heel, trim and lowest level of the envelope; tanks that an open line joins',
    source: 'common practice',
    judge: (view) => view.boat.tanks.flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup').map((pickup) => judge(view, tank, pickup))),
};

/** The tanks that stand at one level with a pickup's own, and the line-up in which they do when they are several. */
interface Level {
    readonly tanks: readonly Tank[];
    /** Fewer, where how high an overflow stands when she leans is not known. */
    readonly sure: readonly Tank[];
    readonly lineUp: Id;
}

/** The most that it takes, and what the envelope leaves there, m³. */
interface Need extends Level {
    readonly least: number;
    readonly attitude: Attitude;
    readonly left: number;
    readonly gross: number;
}

function judge(view: View, tank: Tank, pickup: Fitting): Verdict {
    const { boat } = view;
    const about = pickup.id;
    if ((tank.carries ?? 'diesel') !== 'diesel') return { outcome: 'not applicable', about, why: 'its tank carries no fuel' };
    const runs = view.runs.filter((lineUp) => drawing(view.running(lineUp), about).some((consumer) => burnsFuel(view, consumer)));
    if (runs.length === 0) return { outcome: 'not applicable', about, why: 'nothing that burns fuel draws from it in a line-up for running' };
    const consumers = boat.consumers.filter((consumer) => runs.some((lineUp) => drawing(view.running(lineUp), about).includes(consumer)));
    if (!consumers.some(({ kind }) => kind === 'engine') && feedsEngine(view, tank)) return { outcome: 'not applicable', about, why: 'no engine draws from it, and it may run dry before the pickup of the engine does (see PICKUP-RANK)' };

    const missing = [...missingForHead(boat, tank, pickup.mouth, mouthMissing(about)), ...(boat.vessel.envelope.level ? [] : [levelMissing])];
    if (!boat.vessel.envelope.level) return { outcome: 'cannot tell', about, missing };
    const { network, boat: { vessel: { envelope } } } = view;
    const levels = runs.map(({ id, positions }): Level => ({ lineUp: id, tanks: sharing(network, positions, pickup, envelope), sure: sharing(network, positions, pickup, envelope, 'at least') }))
        .filter(({ tanks }, i, all) => all.findIndex((other) => String(other.tanks.map(({ id }) => id)) === String(tanks.map(({ id }) => id))) === i);
    const needs = levels.map((level) => needOf(view, pickup, level));
    const rests: Ground[] = [{ about, fact: 'mouth' }, { about: tank.id, fact: shapeFact(tank) }, ...['envelope heel', 'envelope trim', 'envelope level'].map((fact) => ({ about: 'vessel', fact }))];
    const dry = needs.filter((need): need is Need => need !== undefined && need.least > need.left + DROP).sort((a, b) => b.least / b.gross - a.least / a.gross)[0];
    if (dry) return fails(view, pickup, dry, consumers.map(({ id }) => id), rests);
    if (!needs.includes(undefined)) return { outcome: 'pass', about, rests };
    const places = levels.flatMap((level) => (level.sure.length < level.tanks.length ? tank.fittings.filter(({ id, mouth }) => id !== about && mouth?.up && !(mouth.fwd && mouth.stbd)) : [])).map(({ id }) => whereMissing(id, id));
    const others = levels.flatMap(({ tanks }) => tanks.filter((other) => other !== tank).flatMap((other) => missingForHead(boat, other, pickup.mouth, mouthMissing(about))));
    return { outcome: 'cannot tell', about, missing: distinct([...missing, ...places, ...others]) };
}

/** Less than this is nothing, m³. */
const DROP = 1e-6;

const feedsEngine = (view: View, tank: Tank): boolean => tank.fittings.some(({ id, kind }) => kind === 'pickup' && view.runs.some((lineUp) => drawing(view.running(lineUp), id).some((consumer) => consumer.kind === 'engine')));

/** Undefined when it is not known. What is too little upright is too little in any case. */
function needOf({ boat, boat: { vessel: { envelope } } }: View, { mouth }: Fitting, level: Level): Need | undefined {
    const { sure: tanks } = level;
    const unsure = tanks.length < level.tanks.length;
    const worst = mostToWet(tanks, mouth, envelope);
    const sum = (of: (tank: Tank) => number | undefined): number => tanks.reduce((total, tank) => total + (of(tank) ?? NaN), 0);
    const gross = sum(grossOf);
    if (Number.isNaN(gross)) return undefined;
    const left = lowLevel(boat) * gross;
    if (worst && !(unsure && worst.volume <= left + DROP)) return { ...level, tanks, gross, left, least: worst.volume, attitude: worst.attitude };
    const upright = sum((tank) => leastToWet(tank, mouth, UPRIGHT));
    return upright > left + DROP ? { ...level, tanks, gross, left, least: upright, attitude: UPRIGHT } : undefined;
}

function fails({ boat }: View, pickup: Fitting, { tanks, lineUp, least, left, gross, attitude }: Need, consumers: readonly Id[], rests: readonly Ground[]): Verdict {
    const ids = listed(tanks.map(({ id }) => id));
    const many = tanks.length > 1;
    const low = lowLevel(boat);
    // The level that is written is in whole percent of the gross volume, and must not fall short.
    const percent = Math.ceil((least / gross) * 100 - 1e-9);
    const high = Math.floor(highLevel(boat) * 100);
    const move = `Move ${pickup.id} lower, or nearer the middle of ${pickup.tank}`;
    return {
        outcome: 'fail', about: pickup.id, fact: 'mouth', rests,
        message: `${pickup.id} draws air when ${ids}${many ? `, joined in ${lineUp}, hold` : ' holds'} less than ${litres(least)} (${figure((least / gross) * 100)} %)${many ? ' together' : ''}, ${attitudeWords(attitude)}. `
            + `The envelope lets ${many ? 'them' : 'it'} ${low > 0 ? `sink to ${figure(low * 100)} %, ${litres(left)}` : 'run empty'}.`,
        reason: `${listed(consumers)} then ${consumers.length > 1 ? 'draw' : 'draws'} air and ${consumers.length > 1 ? 'stop' : 'stops'}.`,
        advice: percent < high ? `${move}; or keep ${percent} % in ${ids} at sea, and write \`level ${percent} to ${high} %\` in the envelope.` : `${move}.`,
    };
}
