/**
 * Division: SUPPLY-RETURN-MATCH finds the line-ups in which a consumer returns to another tank than it draws from. Where it can be told how long that goes well,
 * it is this rule's finding of weight, and that one only points here.
 */
import type { Boat, Id, Tank } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { highLevel, lowLevel } from '../../analysis/opening/condition';
import { grossOf } from '../../analysis/tanks/liquid';
import type { When } from '../../analysis/time/lack';
import { fills, ledgersOf, uncovers, type Ledger } from '../../analysis/time/overflow';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { fromSI } from '../../model/units';
import { figure, listed } from '../../model/words';
import { nothing, type Check, type View } from '../check';
import { distinct } from '../../analysis/missing';
import { missingInTime } from '../missing-in-time';
import { mismatched, type Mismatch } from '../mismatch';

/** s: with less there is no night's run. Common practice, ours. */
const NIGHT = 10 * 3600;

export const returnOverflow: Check = {
    code: 'RETURN-OVERFLOW', severity: 'major', slow: true,
    statement: 'In a line-up for running in which a consumer returns to another tank than it draws from, it takes 10 hours at full speed or more until that tank, half full of what she is used with, is full. How long it takes is told in any case.',
    prevents: 'Fuel runs overboard through the vent, at night and unseen.',
    facts: 'what is drawn and burnt; shape of tanks, mouths of pickups; level of the envelope; line-ups for running',
    source: 'logic of the network; 10 hours are common practice',
    judge: (view) => {
        const verdicts = view.runs.flatMap((lineUp) => {
            const found = view.boat.consumers.flatMap((consumer) => mismatched(view, consumer, lineUp) ?? []);
            return [...new Set(found.map(({ to }) => to))].map((to) => judge(view, lineUp, to, found.filter((other) => other.to === to)));
        });
        return verdicts.length > 0 ? verdicts : [nothing('nothing returns to another tank than it draws from in a line-up for running')];
    },
};

function judge(view: View, lineUp: ResolvedLineUp, to: Id, found: readonly Mismatch[]): Verdict {
    const { boat } = view;
    const ledgers = ledgersOf(boat, lineUp);
    const [tank, ledger] = [boat.tanks.find(({ id }) => id === to)!, ledgers.find((other) => other.tank === to)];
    if (!ledger) return { outcome: 'not applicable', about: to, why: `nothing runs in ${lineUp.id}` };
    const volume = middle(boat, tank);
    const filled = fills(tank, volume ?? NaN, ledger);
    const missing = distinct(filled.lacks.map((lack) => missingInTime(boat, lack)));
    if (missing.length > 0) return { outcome: 'cannot tell', about: to, missing };
    const who = found.map(({ consumer }) => consumer.id);
    const rests: Ground[] = [...who.flatMap((id) => [{ about: id, fact: 'draws' }, { about: id, fact: 'burns' }]), { about: to, fact: tank.sections ? 'section' : 'box' }, { about: 'vessel', fact: 'envelope level' }];
    const full = filled.toGross;
    if (!full) return { outcome: 'pass', about: to, rests };
    const soon = (full.si ?? full.soonest) < NIGHT;
    const from = found[0]!.from;
    const dry = driesAfter(view, lineUp, boat.tanks.find(({ id }) => id === from)!, ledgers);
    const level = figure((lowLevel(boat) + highLevel(boat)) * 50);
    const many = who.length > 1;
    // From as full as she is ever used it comes much sooner: the watch is kept by that.
    const brim = fills(tank, grossOf(tank)! * highLevel(boat), ledger).toGross ?? full;
    return {
        outcome: 'fail', about: to, rests, ...(!soon && { severity: 'advice' }),
        message: `In ${lineUp.id} ${listed(who)} draw${many ? '' : 's'} from ${listed([...new Set(found.map((other) => other.from))])} and return${many ? '' : 's'} to ${to}: at full speed ${to} is full from ${level} % after ${hours(full)}.${dry ? ` ${dry.tank} comes dry at ${dry.pickup} after ${hours(dry.after)}, from ${level} %.` : ''}`,
        reason: `${to} then runs out of its vent.`,
        advice: `Set the valves so that ${listed(who)} return${many ? '' : 's'} to the tank that is drawn from in ${lineUp.id}; until then draw from ${to} first, and look at ${to} before you run in ${lineUp.id}: from ${figure(highLevel(boat) * 100)} % it is full after ${hours({ ...brim, si: brim.soonest })}.`,
        see: [...who.map((id) => ({ id, why: `returns to ${to}` })), ...(boat.lineUps.some(({ id }) => id === lineUp.id) ? [{ id: lineUp.id, why: 'this line-up' }] : [])],
    };
}

interface Dries {
    readonly tank: Id;
    readonly pickup: Id;
    readonly after: When;
}

/** The first pickup of the tank to come dry, from the middle of what she is used with. */
function driesAfter({ boat }: View, lineUp: ResolvedLineUp, supply: Tank, ledgers: readonly Ledger[]): Dries | undefined {
    const [own, held] = [ledgers.find((other) => other.tank === supply.id), middle(boat, supply)];
    if (!own || held === undefined) return undefined;
    return uncovers(boat, lineUp, supply, held, own).flatMap(({ pickup, after }) => (after ? [{ tank: supply.id, pickup, after }] : [])).sort((a, b) => a.after.soonest - b.after.soonest)[0];
}

function middle(boat: Boat, tank: Tank): number | undefined {
    const gross = grossOf(tank);
    return gross === undefined ? undefined : gross * (lowLevel(boat) + highLevel(boat)) / 2;
}

const hours = ({ si, soonest }: Pick<When, 'si' | 'soonest'>): string => `${figure(fromSI(si ?? soonest, 'h'), 2)} h`;
