/**
 * A place on the line is in a pocket when the line rises higher both before it and behind it: what gathers there, fuel or spray, runs
 * neither back to the tank nor out. Only stated places speak; between them the line is taken to rise and fall evenly.
 */
import type { Fitting, Id, Part, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import type { Ground, Verdict } from '../../model/finding';
import { attitudesOf } from '../../analysis/opening/condition';
import { LEVEL } from '../../analysis/opening/open';
import { heightOf, type Attitude } from '../../analysis/tanks/attitude';
import { linesOut } from '../../analysis/tanks/to-outside';
import { attitudeWords, mm } from '../../model/words';
import { type Check, type View } from '../check';
import { heightMissing, ventEndMissing } from '../../analysis/missing';

export const ventSelfDrain: Check = {
    code: 'VENT-SELF-DRAIN', severity: 'minor', slow: true,
    statement: 'No vent line has a low pocket, upright or, as far as the places are known, at a corner of the envelope: each stated place on it drains to the tank or to the outlet.',
    prevents: 'Liquid in the pocket shuts the vent: the engine starves, and filling blows back.',
    facts: 'low and crest of the vent line, its ends',
    source: 'named for it, text not read: 46 CFR 182.450(h); common practice; what differs by less than 20 mm counts as level',
    judge: (view) => view.boat.tanks.flatMap((tank) => ofTank(view, tank)),
};

/** A stated place on the line. What one pipe states may come in either order. */
interface Stop {
    readonly about: Id;
    readonly fact: 'at' | 'low' | 'crest' | 'outlet';
    readonly name: string;
    readonly place: Place;
    /** The number of its part along the line. */
    readonly part: number;
}

function ofTank(view: View, tank: Tank): Verdict[] {
    if ((tank.carries ?? 'diesel') !== 'diesel') return [{ outcome: 'not applicable', about: tank.id, why: 'it carries no fuel' }];
    const lines = tank.fittings.filter(({ kind }) => kind === 'vent').flatMap((vent) => linesOut(view.network, vent.id).map((line) => ({ vent, line })));
    return lines.length === 0 ? [{ outcome: 'not applicable', about: tank.id, why: 'no vent line of it is written' }] : lines.map(({ vent, line }) => judge(view, tank, vent, line));
}

function judge({ boat }: View, tank: Tank, vent: Fitting, line: readonly Part[]): Verdict {
    const about = vent.id;
    const stops = stopsOf(vent, line);
    const between = stops.filter(({ fact, part }) => fact !== 'outlet' && part >= 0);
    if (between.length === 0) return { outcome: 'not applicable', about, why: 'no place on its line is written but its ends' };
    const rests: Ground[] = stops.map((stop) => ({ about: stop.about, fact: stop.fact }));
    let found: Pocket | undefined;
    for (const attitude of attitudesOf(boat)) {
        const deepest = between.flatMap((stop) => pocketAt(stop, stops, attitude)).sort((a, b) => b.depth - a.depth)[0];
        if (deepest && (!found || deepest.depth > found.depth)) found = deepest;
        // Upright comes first: a pocket that is there in harbour is told so.
        if (found && attitude.heel === 0 && attitude.trim === 0) break;
    }
    if (found) return fails(tank, found, rests);
    const missing = [...(vent.top?.up ? [] : [heightMissing(vent.id)]), ...(line.at(-1)?.outlet?.up ? [] : [ventEndMissing(vent.id)])];
    return missing.length > 0 && between.some(({ fact }) => fact === 'low') ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

function stopsOf(vent: Fitting, line: readonly Part[]): Stop[] {
    const stop = (about: Id, name: string, fact: Stop['fact'], place: Place | undefined, part: number): Stop[] => (place?.up ? [{ about, name, fact, place, part }] : []);
    return [...stop(vent.id, vent.id, 'at', vent.top, -1), ...line.flatMap((part, i) => (['at', 'low', 'crest', 'outlet'] as const).flatMap((fact) => stop(part.id, part.name, fact, part[fact], fact === 'outlet' ? i + 0.5 : i)))];
}

interface Pocket {
    readonly stop: Stop;
    readonly depth: number;
    readonly attitude: Attitude;
}

function pocketAt(stop: Stop, stops: readonly Stop[], attitude: Attitude): Pocket[] {
    const height = heightOf(stop.place, attitude);
    const highest = (others: readonly Stop[]): number => Math.max(...others.map(({ place }) => heightOf(place, attitude) ?? -Infinity), -Infinity);
    if (height === undefined) return [];
    const depth = Math.min(highest(stops.filter(({ part }) => part < stop.part)), highest(stops.filter(({ part }) => part > stop.part))) - height;
    return depth > LEVEL ? [{ stop, depth, attitude }] : [];
}

function fails(tank: Tank, { stop, depth, attitude }: Pocket, rests: readonly Ground[]): Verdict {
    const what = { low: 'the low point of ', crest: 'the crest of ', at: '', outlet: '' }[stop.fact];
    return {
        outcome: 'fail', about: stop.about, fact: stop.fact, rests,
        message: `The vent of ${tank.id} has a pocket: ${what}${stop.name} lies ${mm(depth)} lower than the line on both sides of it, ${attitudeWords(attitude)}.`,
        reason: `Fuel or water that gathers there shuts the vent, and ${tank.id} can neither draw air nor be filled.`,
        advice: `Lead ${stop.name} so that it falls all the way to ${tank.id} or to its outlet.`,
    };
}
