/**
 * Division: RETURN-SHUT-IF-LOW judges what a return that dips can let out when its hose fails; this rule where it ends. What the maker says
 * otherwise is said with `waive`.
 */
import type { Consumer, Fitting, Tank } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { atLevel, attitudesOf, highLevel } from '../../analysis/opening/condition';
import { heightOf, UPRIGHT } from '../../analysis/tanks/attitude';
import { span, surfaceAt } from '../../analysis/tanks/liquid';
import { drawing } from '../../analysis/tanks/pickups';
import { bottomUnder } from '../../analysis/tanks/sounding';
import { reach } from '../../analysis/topology/network';
import { attitudeWords, figure, listed, mm } from '../../model/words';
import { burnsFuel, nothing, type Check, type View } from '../check';
import { isDayTank } from '../day-tank';
import { missingForHead, missingOf, mouthMissing, sizeMissing, whereMissing, shapeFact } from '../../analysis/missing';

/** Off the bottom, m, as makers of engines ask; and what is within a measurement. */
const [LEAST, MOST, SAME] = [0.02, 0.03, 0.0005];

export const returnSubmerged: Check = {
    code: 'RETURN-SUBMERGED', severity: 'minor', slow: true,
    statement: 'A return ends 20 to 30 mm off the bottom of its tank, unless the engine maker says otherwise; in a day tank that feeds by gravity it ends above the highest level at every heel and trim, so that it cannot siphon.',
    prevents: 'Fuel falls out of the engine when it stands, and foams in the tank; a day tank siphons out by its return.',
    facts: 'mouths of returns; shape and height of the tank; for a day tank its level, heel and trim, and the inlet of what it feeds',
    source: 'engine makers, as told in trade articles',
    judge: (view) => {
        const verdicts = view.boat.tanks.flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'drop').flatMap((drop) => {
            const returning = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer) && reaches(view, consumer, drop));
            return returning.length === 0 ? [] : [judge(view, tank, drop, returning)];
        }));
        return verdicts.length > 0 ? verdicts : [nothing('nothing that burns fuel returns to a fitting of a tank')];
    },
};

const reaches = ({ network, allOpen }: View, { id }: Consumer, drop: Fitting): boolean => reach(allOpen, allOpen.ways, [network.index.get(`${id}:out`)!]).has(network.index.get(drop.id)!);

function judge(view: View, tank: Tank, drop: Fitting, returning: readonly Consumer[]): Verdict {
    const about = drop.id;
    const fed = isDayTank(view, tank) ? returning.filter((consumer) => draws(view, tank, consumer)) : [];
    const bottom = span(tank, UPRIGHT)?.low;
    const missing: MissingFact[] = [
        ...(drop.mouth?.up ? [] : [mouthMissing(about)]), ...(bottom === undefined ? [sizeMissing(tank.id)] : []),
        ...fed.filter(({ inlet }) => !inlet?.up).map(({ id }) => missingOf(view.boat, { about: id, of: 'height' })),
    ];
    if (!drop.mouth?.up || bottom === undefined || missing.length > 0) return { outcome: 'cannot tell', about, missing };
    const below = fed.filter(({ inlet }) => inlet!.up!.si <= bottom);
    return below.length > 0 ? aboveLevel(view, tank, drop, below) : offBottom(tank, drop, returning);
}

const draws = ({ allOpen }: View, tank: Tank, consumer: Consumer): boolean => tank.fittings.some(({ id, kind }) => kind === 'pickup' && drawing(allOpen, id).includes(consumer));

function aboveLevel({ boat }: View, tank: Tank, drop: Fitting, fed: readonly Consumer[]): Verdict {
    const about = drop.id;
    const rests: Ground[] = [{ about, fact: 'mouth' }, { about: tank.id, fact: shapeFact(tank) }, ...['envelope heel', 'envelope trim', 'envelope level'].map((fact) => ({ about: 'vessel', fact }))];
    const volume = atLevel(boat, highLevel(boat)).get(tank.id)!;
    // Upright comes first: what dips in harbour is told so.
    for (const attitude of attitudesOf(boat)) {
        const [surface, height] = [surfaceAt(tank, volume, attitude), heightOf(drop.mouth, attitude)];
        if (surface === undefined || height === undefined || height > surface) continue;
        return {
            outcome: 'fail', about, fact: 'mouth', rests, message: `${drop.id} ends ${mm(surface - height)} below the level of ${tank.id} at ${figure(highLevel(boat) * 100)} %, ${attitudeWords(attitude)}, and ${tank.id} stands above ${listed(fed.map(({ id }) => id))}.`,
            reason: `If the return hose fails or is taken off, ${tank.id} siphons out through it.`, advice: `Set the mouth of ${drop.id} above the highest level, upright and heeled.`,
        };
    }
    const missing = missingForHead(boat, tank, drop.mouth, mouthMissing(about));
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

function offBottom(tank: Tank, drop: Fitting, returning: readonly Consumer[]): Verdict {
    const about = drop.id;
    const bottom = bottomUnder(tank, drop.mouth!);
    if (bottom === undefined) return { outcome: 'cannot tell', about, missing: [whereMissing(about, about)] };
    const off = drop.mouth!.up!.si - bottom;
    const rests: Ground[] = [{ about, fact: 'mouth' }, { about: tank.id, fact: shapeFact(tank) }, { about: tank.id, fact: 'low aft inner corner' }];
    if (off >= LEAST - SAME && off <= MOST + SAME) return { outcome: 'pass', about, rests };
    const names = listed(returning.map(({ id }) => id));
    const high = off > MOST;
    return {
        outcome: 'fail', about, fact: 'mouth', rests,
        message: off < -SAME ? `${drop.id}, the return of ${names}, is written to end ${mm(-off)} below the bottom of ${tank.id}.` : `${drop.id}, the return of ${names}, ends ${mm(off)} off the bottom of ${tank.id}; 20 to 30 mm is what makers ask.`,
        reason: high ? `When ${tank.id} is lower than that, air comes into the return: fuel falls out of ${names} while ${returning.length > 1 ? 'they stand' : 'it stands'}, and foams when ${returning.length > 1 ? 'they run' : 'it runs'}.` : `What returns stirs up the water and dirt on the bottom of ${tank.id}.`,
        advice: `Set the mouth of ${drop.id} at 25 mm off the bottom. If the maker's book asks otherwise, write so with \`waive RETURN-SUBMERGED at ${drop.id}\`.`,
    };
}
