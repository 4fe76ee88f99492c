/**
 * A primer lifts over whatever stands before it, so the highest of that counts where it is known, and never less than the primer itself. With
 * the surface at its lowest level. What of a place is missing is asked for only when the dry lift is known: before, no height would settle it.
 */
import type { Boat, Id, Part, Tank } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { placesOf } from '../../analysis/air/heights';
import { attitudesOf, lowLevel } from '../../analysis/opening/condition';
import { heightOf, type Attitude } from '../../analysis/tanks/attitude';
import { grossOf, surfaceAt } from '../../analysis/tanks/liquid';
import { onEveryWay } from '../../analysis/topology/every-way';
import { running, tanksBefore } from '../../analysis/topology/paths';
import { attitudeWords, figure, mm } from '../../model/words';
import { bleedSettings } from '../bleeding';
import { nothing, type Check, type View } from '../check';
import { distinct, levelMissing, liftMissing, missingForHead, placeMissing, shapeGrounds } from '../../analysis/missing';

export const primerReach: Check = {
    code: 'PRIMER-REACH', severity: 'minor', slow: true,
    statement: 'Each primer lifts fuel, dry, from the lowest level of the envelope up to itself and over what stands before it, at every heel and trim of the envelope.',
    prevents: 'A primer that pumps air only, when the line is empty and the tank is low.',
    facts: 'dry lift and place of the primer; shape and place of the tank; lowest level, heel and trim of the envelope',
    source: 'makers of primers state a dry lift (from secondary sources)',
    judge: (view) => {
        const primers = view.boat.parts.filter(({ kind }) => kind === 'hand primer' || kind === 'electric primer');
        return primers.length === 0 ? [nothing('no primer is written')] : primers.map((primer) => judge(view, primer));
    },
};

interface Lift {
    readonly tank: Tank;
    readonly lineUp: Id;
    readonly attitude: Attitude;
    /** m. */
    readonly height: number;
    /** What stands higher than the primer before it. */
    readonly over?: Id;
}

function judge(view: View, primer: Part): Verdict {
    const { boat } = view;
    const about = primer.id;
    const draws = drawn(view, primer);
    if (draws.length === 0) return { outcome: 'not applicable', about, why: 'it draws from no tank that carries fuel' };
    const most = primer.lifts && (primer.lifts.low ?? primer.lifts.si);
    if (most === undefined) return { outcome: 'cannot tell', about, missing: [liftMissing(primer)] };
    if (!boat.vessel.envelope.level) return { outcome: 'cannot tell', about, missing: [levelMissing] };
    const rests: Ground[] = [{ about, fact: 'lifts' }, { about, fact: 'at' }, ...draws.flatMap(({ tank }) => shapeGrounds(boat, tank.id)), ...['envelope heel', 'envelope trim', 'envelope level'].map((fact) => ({ about: 'vessel', fact }))];
    const worst = draws.flatMap((draw) => lifts(view, primer, draw)).sort((a, b) => b.height - a.height)[0];
    // To the tenth of a millimetre: a lift that is just reached is reached, whatever the last digit.
    if (worst && worst.height > most + 1e-4) return {
        outcome: 'fail', about, fact: 'lifts', rests,
        message: `${primer.name} lifts ${mm(most)} when dry, and must lift ${mm(worst.height)}${worst.over ? ` to get over ${worst.over}` : ''} with ${worst.tank.id} at ${figure(lowLevel(boat) * 100)} %, ${attitudeWords(worst.attitude)}, in ${worst.lineUp}.`,
        reason: 'It then moves air only, and the line is not filled.',
        advice: `Put ${primer.name} lower or nearer to ${worst.tank.id}, or keep more in it; until then prime while she lies upright, or fill the filters by hand where that is allowed.`,
    };
    const missing: MissingFact[] = distinct(draws.flatMap(({ tank }) => missingForHead(boat, tank, primer.at, placeMissing(primer, 'ports'))));
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

interface Draw {
    readonly tank: Tank;
    /** The line-up for running that the setting is made from. */
    readonly lineUp: Id;
    /** On every way from the tank to the primer. */
    readonly before: readonly Id[];
}

/** Each tank that it draws from in a setting for bleeding, by each of the ways. */
function drawn(view: View, primer: Part): Draw[] {
    const { boat, network } = view;
    const found = new Map<string, Draw>();
    for (const { lineUp, positions } of view.runs.flatMap((run) => bleedSettings(view, run).map((positions) => ({ lineUp: run.id, positions })))) {
        const linedUp = running(network, positions);
        for (const id of tanksBefore(linedUp, `${primer.id}:in`)) {
            const tank = boat.tanks.find((other) => other.id === id)!;
            if ((tank.carries ?? 'diesel') !== 'diesel') continue;
            const before = onEveryWay(linedUp, [network.tanks.get(id)!], [network.index.get(`${primer.id}:in`)!]).flatMap((i) => network.passages[i]!.part ?? []);
            const key = [id, ...before].join(' ');
            if (!found.has(key)) found.set(key, { tank, lineUp, before });
        }
    }
    return [...found.values()];
}

/** What it must lift at each attitude, as far as that is known. */
function lifts({ boat, network }: View, primer: Part, { tank, lineUp, before }: Draw): Lift[] {
    const gross = grossOf(tank);
    if (gross === undefined) return [];
    return [...attitudesOf(boat), ...oneWay(boat)].flatMap((attitude): Lift[] => {
        const [surface, own] = [surfaceAt(tank, lowLevel(boat) * gross, attitude), heightOf(primer.at, attitude)];
        if (surface === undefined) return [];
        const others = before.flatMap((id) => (placesOf(network, id) ?? []).map((place) => ({ id, up: heightOf(place, attitude) })));
        const top = others.reduce<{ id?: Id; up?: number }>((high, { id, up }) => (up !== undefined && up > (high.up ?? -Infinity) + 1e-9 ? { id, up } : high), own === undefined ? {} : { up: own });
        return top.up === undefined ? [] : [{ tank, lineUp, attitude, height: top.up - surface, ...(top.id !== undefined && { over: top.id }) }];
    });
}

/** Heel without trim and trim without heel: within the envelope too, and all that is known where a place is given one way only. */
const oneWay = (boat: Boat): Attitude[] => attitudesOf(boat).flatMap(({ heel, trim }) => [{ heel, trim: 0 }, { heel: 0, trim }]);
