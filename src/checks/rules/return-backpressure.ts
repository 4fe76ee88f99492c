/** Division: RETURN-NO-BLOCK asks whether anything can shut a return; here it is open, and asked what the liquid in it weighs and takes. */
import type { Boat, Consumer } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { worstBackPressure, type WorstBack } from '../../analysis/flow/back-pressure';
import { fluidOf } from '../../analysis/flow/fluid';
import { highLevel } from '../../analysis/opening/condition';
import { partsAfter } from '../../analysis/topology/paths';
import { fromSI } from '../../model/units';
import { attitudeWords, figure, kPa } from '../../model/words';
import { burnsFuel, nameOf, nothing, type Check, type View } from '../check';
import { FITTINGS, bare, marginOf, sumWords } from '../margin';
import { distinct, drawsMissing, flowMissing, heelMissing, limitMissing, positionMissing } from '../../analysis/missing';

export const returnBackpressure: Check = {
    code: 'RETURN-BACKPRESSURE', severity: 'minor', slow: true,
    statement: 'What the return of a consumer pushes against stays within the maker\'s limit, with the coldest fuel and tanks as full as they are used, at every heel and trim of the envelope: pipes and checks, and the height of the surface or of the crest that it has to be pushed over.',
    prevents: 'Seals of the injection pump give way; fuel is metered wrong.',
    facts: 'limits of the consumer; what it draws and burns; place of its outlet, taken as that of its inlet; heights, bores and lengths of the return; checks; tanks; envelope; line-ups for running',
    source: 'makers of engines state a greatest back-pressure (from secondary sources); losses by Darcy and Weisbach',
    judge: (view) => {
        const consumers = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer));
        return consumers.length === 0 ? [nothing('nothing on board burns fuel')] : consumers.flatMap((consumer) => judge(view, consumer));
    },
};

function judge(view: View, consumer: Consumer): Verdict[] {
    const { boat, network } = view;
    const about = consumer.id;
    if (!boat.joints.some(({ from }) => from === `${about}:out`)) return [{ outcome: 'not applicable', about, why: 'no return course begins at it' }];
    const lines = partsAfter(view.allOpen, `${about}:out`);
    const unplaced = view.runs.filter(({ stopped }) => !stopped.includes(about)).flatMap((lineUp) => lineUp.unplaced.filter((valve) => lines.has(valve)).map((valve) => positionMissing(valve, lineUp.id)));
    const open = view.runs.filter((lineUp) => partsAfter(view.running(lineUp), `${about}:out`).size > 0);
    if (open.length === 0) return [unplaced.length > 0 ? { outcome: 'cannot tell', about, missing: distinct(unplaced) } : { outcome: 'not applicable', about, why: 'its return leads to no tank in a line-up for running (see PATH-ONE)' }];
    const limit = consumer.limits.return;
    if (!limit) return [{ outcome: 'cannot tell', about, missing: [limitMissing(consumer, 'return')] }];
    if (consumer.draws.length === 0) return [{ outcome: 'cannot tell', about, missing: [drawsMissing(consumer)] }];
    const { worst, untold } = worstBackPressure(network, consumer, open);
    const rests: Ground[] = [{ about, fact: 'limits return' }, { about, fact: 'draws' }, { about, fact: 'inlet' }, ...[...fluidOf(boat.vessel).facts, 'envelope heel', 'envelope trim', 'envelope level'].map((fact) => ({ about: 'vessel', fact }))];
    const margin = worst ? marginOf(worst.total, limit) : 'within';
    const failed = worst && margin !== 'within' ? [fails(boat, consumer, worst, rests)] : [];
    if (margin === 'over') return failed;
    const { heel, trim } = boat.vessel.envelope;
    const missing: MissingFact[] = distinct([...unplaced, ...(heel && trim ? [] : [heelMissing]), ...untold.flatMap((one) => flowMissing(boat, consumer, one))]);
    return missing.length > 0 ? [...failed, { outcome: 'cannot tell', about, missing }] : failed.length > 0 ? failed : [{ outcome: 'pass', about, rests }];
}

function fails(boat: Boat, { id, limits }: Consumer, { found, most, total }: WorstBack, rests: readonly Ground[]): Verdict {
    const limit = limits.return!;
    const thin = marginOf(total, limit) === 'thin';
    const { asked: { speed, attitude, lineUp }, over, height, friction, checks } = found;
    const crest = over === undefined ? undefined : nameOf(boat, over);
    const sum = sumWords([['height', height], ['pipes', friction], ['checks', checks]]);
    const at = typeof speed === 'number' ? `at ${figure(fromSI(speed, 'rpm'), 4)} rpm` : 'at full speed';
    const pushes = `The return of ${id} pushes against ${kPa(total.si)} ${at}${crest === undefined ? '' : `, over the top of ${crest}`} (${attitudeWords(attitude)}, tanks at ${figure(highLevel(boat) * 100)} %, in ${lineUp.id})`;
    const spread = [
        ...(most.checks - checks > 50 ? most.way.flatMap(({ passage }) => { const part = most.steady.network.passages[passage]!.part!; const taken = most.steady.taken.get(part); return taken === undefined ? [] : [`${nameOf(boat, part)} ${taken}`]; }) : []),
        ...(most.friction - friction > 50 ? [FITTINGS] : []),
        ...(most.flow > found.flow * 1.001 ? [`what ${id} returns`] : []),
        ...fluidOf(boat.vessel).taken,
    ];
    return {
        outcome: 'fail', about: id, fact: 'limits return', rests, ...(thin && { severity: 'advice' }),
        message: thin ? `${pushes}. That is within the ${kPa(limit.si)} that ${id} allows, but it may be up to ${bare(total.most)} kPa${most.asked.lineUp === lineUp ? '' : ` in ${most.asked.lineUp.id}`}: it is ${sum}.` : `${pushes}; ${id} allows ${kPa(limit.si)}. It is ${sum}, and may be ${bare(total.least)} to ${bare(total.most)} kPa.`,
        reason: `The pressure stands in the housing of the injection pump, and its seals give way.${spread.length > 0 ? ` What makes the sum uncertain: ${spread.join('; ')}.` : ''}`,
        advice: height > friction && crest !== undefined ? `Lead ${crest} lower.` : height > friction ? 'Lead the return to the top of a tank that stands lower.' : checks > friction ? 'Fit a check that opens at less.' : 'Fit a wider return.',
        see: over === undefined ? [] : [{ id: over, why: 'it has to be pushed over its top' }],
    };
}
