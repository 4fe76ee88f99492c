/** What the tank loses to the air is not counted, so every figure is a bound from above; the message says so. */
import type { Tank } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { dayTanks, heatingOf, type DayTank } from '../../analysis/time/heating';
import { fromSI } from '../../model/units';
import { figure, listed } from '../../model/words';
import { nothing, type Check, type View } from '../check';
import { distinct } from '../../analysis/missing';
import { missingInTime } from '../missing-in-time';

export const daytankHeat: Check = {
    code: 'DAYTANK-HEAT', severity: 'minor', slow: true,
    statement: 'A day tank that takes the return of what it feeds tends at full speed, topped up with the warmest fuel of the envelope, to no more than the fuel temperature that the maker allows.',
    prevents: 'Loss of power, and fuel too thin to lubricate the injection pump.',
    facts: 'how warm returns are, what is drawn and burnt; the maker\'s greatest fuel temperature; fuel temperature of the envelope; line-ups for running',
    source: 'balance of heat without losses to the air; makers of engines state a greatest temperature (from secondary sources)',
    judge: (view) => {
        const tanks = dayTanks(view.boat);
        return tanks.length === 0 ? [nothing('no tank that a transfer course fills takes a return')] : tanks.map((tank) => judge(view, tank));
    },
};

function judge({ boat }: View, dayTank: DayTank): Verdict {
    const { tank, returning }: { tank: Tank; returning: DayTank['returning'] } = dayTank;
    const about = tank.id;
    const { steady, limit, toLimit, toLimitAlone, consumers, lacks } = heatingOf(boat, dayTank);
    // Its size only tells how long it takes.
    const missing = distinct(lacks.filter(({ of }) => of !== 'shape').map((lack) => missingInTime(boat, lack)));
    if (missing.length > 0 || !steady || limit === undefined) return { outcome: 'cannot tell', about, missing };
    const rests: Ground[] = [{ about: 'vessel', fact: 'envelope fuel' }, ...returning.flatMap(({ id }) => ['returns', 'draws', 'burns', 'limits fuel'].map((fact) => ({ about: id, fact })))];
    if (steady.most <= limit + SAME) return { outcome: 'pass', about, rests };
    const thin = steady.si <= limit + SAME;
    const names = listed(consumers);
    // Less is left, and it warms the faster, while nobody tops it up.
    const soonest = Math.min(...[toLimit, toLimitAlone].filter((time) => typeof time === 'number'));
    const after = soonest > 0 && Number.isFinite(soonest) ? ` It may be there after ${figure(fromSI(soonest, 'h'), 2)} h.` : '';
    return {
        outcome: 'fail', about, rests, ...(thin && { severity: 'advice' }),
        message: `With ${names} at full speed ${about} may grow as warm as ${celsius(thin ? steady.most : steady.si)}; ${names} allow${consumers.length > 1 ? '' : 's'} ${celsius(limit)}.${after}`,
        reason: `Warm fuel gives less power, and wears the injection pump. What ${about} loses to the air is not counted: it stays cooler.`,
        advice: `Lead the return of ${names} to the tank that fills ${about}, or through a cooler.`, see: consumers.map((id) => ({ id, why: `its return warms ${about}` })),
    };
}

/** K. */
const SAME = 0.01;

const celsius = (kelvin: number): string => `${figure(fromSI(kelvin, 'degC'))} °C`;
