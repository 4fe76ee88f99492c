/**
 * The laws of service procedures. Each is a rule with a code; what breaks it is one of several `laws` here, so that a sentence
 * can say which. The rules of the trade behind them: common practice, and where it is said the law or standard.
 */
import type { Id } from '../../model/boat';
import type { MissingFact, Rule } from '../../model/finding';
import type { Law } from '../../analysis/air/pumping';

export type ServiceLaw =
    | Law
    /** liquid of a tank could come to what stands open: parts = part, opening, then tanks */
    | 'could-flood'
    /** whether it could cannot be told: `missing` says what to measure */
    | 'cannot-tell'
    /** something stands open while liquid is pumped or poured, an engine is started or runs: parts = what moves it, then openings like `F1 lid` (a part alone is off) */
    | 'open-while-pumped'
    /** at the end: something is open, or a piece is out */
    | 'left-open' | 'left-out'
    /** closed or run with a piece out: parts = part, pieces */
    | 'piece-out'
    /** closed with a seal that was disturbed: parts = part, seals by position */
    | 'old-seal'
    /** cranked longer than the exhaust takes: parts = engine */
    | 'over-budget'
    /** it runs, or fires and goes on, with its seacock shut: parts = engine */
    | 'seacock-shut'
    /** a high-pressure union of a rail system is opened: parts = engine */
    | 'rail-union'
    /** nothing under it to catch what comes: parts = part */
    | 'no-can' | 'no-pads'
    /** what is under it takes less than twice what comes: parts = part */
    | 'small-can'
    /** the bilge pump may start while fuel can be in the bilge: parts = what is opened, or what nobody has looked at since */
    | 'bilge-pump-on'
    /** cautions that this step needs do not stand before it: parts = topics, of flooding with the part: `flood F1` */
    | 'not-warned'
    /** there is no such opening or piece, or it is out already; it is not open, or open already: parts = part, what */
    | 'no-such-opening' | 'no-such-piece' | 'not-open' | 'already-open'
    /** put in again though it was not taken out; or fitted while the old one is in: parts = part, piece (none: the whole part) */
    | 'not-out' | 'still-in'
    /** a gauge is read at a speed while nothing runs on its lines: parts = gauge */
    | 'not-running'
    /** an engine runs, or could be started, while hands are in it; or is started though it runs: parts = engine */
    | 'engine-runs' | 'key-in'
    /** at the end: the bilge pump, the battery switch, a seacock or an engine is not as it was: parts = what */
    | 'left-set'
    /** a job in the head that no step does: parts = words of the job */
    | 'not-done'
    /** a log line writes down what neither a step does nor the head says: parts = words of the jobs */
    | 'logged-undone'
    /** abandoned after this step, no way leads back to the line-up, though before it one did */
    | 'no-way-back'
    /** a transfer that would overfill its tank, or draw its source below the pickup: parts = pump, tank */
    | 'overfills' | 'draws-air';

export interface BrokenLaw {
    readonly law: ServiceLaw;
    readonly parts: readonly Id[];
    readonly missing?: readonly MissingFact[];
}

const rule = (code: string, severity: Rule['severity'], statement: string, prevents: string, source = 'logic of the network; common practice'): Rule =>
    ({ code, severity, statement, prevents, facts: 'the steps; everything that they touch', source });

export const PROCEDURE_RULES = {
    isolated: rule('PROC-ISOLATED', 'critical', 'Nothing is opened that liquid of a tank could come to.', 'Fuel in the bilge, fire.'),
    suction: rule('PROC-SUCTION', 'major', 'No vent is opened upstream of the pump that is worked, and nothing is worked or runs that is not fed.', 'Air drawn in.'),
    return: rule('PROC-RETURN', 'critical', 'No return is shut while an engine runs or fuel is pumped towards it.', 'A burst return, a wrecked injection pump.'),
    closed: rule('PROC-OPEN-CLOSE', 'critical', 'Each lid, drain and bleed point that is opened is closed, with all its pieces in, before anything is pumped or run.', 'A leak, fire.'),
    seals: rule('PROC-SEALS', 'major', 'Each seal that is disturbed is renewed, by its position.', 'Air drawn in, a leak.'),
    prefill: rule('PROC-PREFILL', 'major', 'A part is filled by hand only where that is allowed, while it is open, empty and isolated.', 'Dirt past the element.', 'both opinions of the trade; the maker\'s book'),
    crank: rule('RAW-SEACOCK-CRANK', 'critical', 'A wet exhaust is cranked no longer than it takes, or with the seacock shut, and the seacock is open the moment that the engine fires.', 'Sea water in the cylinders; a dry impeller.', 'common practice'),
    rail: rule('PROC-RAIL', 'critical', 'No high-pressure union of a rail system is opened.', 'A jet through the skin.'),
    catch: rule('PROC-CATCH', 'major', 'A can that takes twice what comes, and pads, stand under what is opened, and the bilge pump is off.', 'Fuel in the bilge and overboard.'),
    warn: rule('PROC-WARN', 'critical', 'Each caution that a step needs stands before it.', 'Injury.', 'ANSI Z535.6 and IEC/IEEE 82079-1, as commonly told; their texts were not read'),
    parts: rule('PROC-PARTS', 'major', 'Each step names what is there, in a state in which it can be done.', 'Stale paper.'),
    hands: rule('PROC-HANDS', 'critical', 'No hand is in an engine that runs or could be started.', 'Crushed fingers.'),
    restores: rule('PROC-RESTORES', 'critical', 'It ends in the declared line-up, with all that was set put back.', 'A valve left shut.'),
    air: rule('PROC-AIR', 'major', 'No air is left where an engine would find it.', 'An engine that stops.'),
    done: rule('PROC-DONE', 'major', 'Each job in its head is done by a step.', 'A service that was not done.'),
    back: rule('PROC-WAY-BACK', 'major', 'Wherever it is abandoned, steps lead back to the line-up.', 'A boat that cannot be put together again.'),
    current: rule('PROC-CURRENT', 'major', 'What was issued is what the boat as written would give.', 'Stale paper.'),
    covers: rule('PROC-COVERS', 'document', 'Each part that is served has a procedure.', 'No instructions.'),
    tank: rule('PROC-TANK', 'critical', 'A transfer neither overfills its tank nor draws its source dry.', 'Fuel on deck; air in the supply.'),
} as const satisfies Readonly<Record<string, Rule>>;

/** Which rule a broken law breaks. */
export function ruleOf(law: ServiceLaw): Rule {
    const R = PROCEDURE_RULES;
    switch (law) {
        case 'could-flood': case 'cannot-tell': case 'not-isolated': return R.isolated;
        case 'on-suction': case 'not-reached': case 'not-fed': case 'no-head': case 'air-drawn': case 'out-of-order': case 'not-a-driver': return R.suction;
        case 'return-shut': return R.return;
        case 'open-while-pumped': case 'left-open': case 'left-out': case 'piece-out': return R.closed;
        case 'old-seal': return R.seals;
        case 'may-not-prefill': case 'not-empty': return R.prefill;
        case 'over-budget': case 'seacock-shut': return R.crank;
        case 'rail-union': return R.rail;
        case 'no-can': case 'no-pads': case 'small-can': case 'bilge-pump-on': return R.catch;
        case 'not-warned': return R.warn;
        case 'no-such-part': case 'no-such-position': case 'no-such-opening': case 'no-such-piece': case 'not-open': case 'already-open': case 'not-out': case 'still-in': case 'not-running': return R.parts;
        case 'engine-runs': case 'key-in': return R.hands;
        case 'left-set': case 'wrong-line-up': return R.restores;
        case 'air-left': case 'air-upstream': return R.air;
        case 'not-done': case 'logged-undone': return R.done;
        case 'no-way-back': return R.back;
        case 'overfills': case 'draws-air': return R.tank;
    }
}
