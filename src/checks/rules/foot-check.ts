/** Division: where no check and no pump holds the column at all, DRAINBACK tells it. This rule speaks where one does, and somebody found that it does not do. */
import type { Consumer } from '../../model/boat';
import type { MissingFact, Verdict } from '../../model/finding';
import { emptiest, surfaceIn, type Condition } from '../../analysis/opening/condition';
import { lackOf } from '../../analysis/opening/lack';
import { heightOf } from '../../analysis/tanks/attitude';
import { partsBefore } from '../../analysis/topology/paths';
import { mm } from '../../model/words';
import { atFitting } from '../at-fitting';
import { freeTag, type Check, type View } from '../check';
import { cornerWords } from '../corner';
import { outgoing, type Outgoing } from '../lines';
import { distinct, heelMissing, lengthMissing, missingOf, shapeGrounds, sizeMissing } from '../../analysis/missing';
import { drainback } from './drainback';

/** A lift above this is high, m: common practice. */
const HIGH = 0.6;

export const footCheck: Check = {
    code: 'FOOT-CHECK', severity: 'advice', slow: true,
    statement: 'Where an engine loses its prime overnight and its pump stands more than 600 mm above the lowest level, a check valve stands at the fitting of the tank.',
    prevents: 'Hard starts: each joint on the way is a place for air to come in, and only what holds below them all keeps the line full.',
    facts: 'whether it loses prime; height and place of its pump, or of its inlet; shape and place of tanks; envelope; checks',
    source: 'common practice',
    judge: (view) => view.boat.consumers.flatMap((consumer) => judge(view, consumer)),
};

function judge(view: View, consumer: Consumer): Verdict[] {
    const about = consumer.id;
    if (!consumer.losesPrime) return [{ outcome: 'not applicable', about, why: 'nobody wrote that it loses its prime' }];
    const before = partsBefore(view.allOpen, `${about}:in`);
    const lines = outgoing(view).filter(({ fitting, course }) => course.service === 'supply' && before.has(fitting));
    if (lines.length === 0) return [{ outcome: 'not applicable', about, why: 'no fuel tank feeds it' }];
    if (drainback.judge(view).some((verdict) => verdict.outcome === 'fail' && verdict.members?.some((id) => before.has(id)))) return [{ outcome: 'not applicable', about, why: 'nothing holds its column at all (see DRAINBACK)' }];
    return lines.map((line) => ofLine(view, consumer, line));
}

function ofLine(view: View, consumer: Consumer, { course, tank: id, fitting }: Outgoing): Verdict {
    const { boat, network } = view;
    const about = consumer.id;
    const { part: check, unmeasured } = atFitting(view, course, 'start', ({ kind, reversed }) => kind === 'check' && !reversed);
    if (check) return { outcome: 'pass', about, rests: [{ about: check.id }] };
    const pump = [...partsBefore(view.allOpen, `${about}:in`)].flatMap((part) => network.parts.get(part) ?? []).find(({ kind }) => kind === 'lift pump' || kind === 'electric pump');
    const [owner, place] = pump ? [pump.id, pump.at] : [about, consumer.inlet];
    const tank = boat.tanks.find((other) => other.id === id)!;
    const missing: MissingFact[] = [];
    let worst: { readonly condition: Condition; readonly lift: number } | undefined;
    for (const condition of emptiest(boat)) {
        const [surface, height] = [surfaceIn(condition, tank), heightOf(place, condition.attitude)];
        const lack = lackOf(owner, place, condition.attitude);
        if (lack) missing.push(missingOf(boat, lack));
        if (surface === undefined) missing.push(sizeMissing(id));
        if (surface !== undefined && height !== undefined && (!worst || height - surface > worst.lift + 1e-3)) worst = { condition, lift: height - surface };
    }
    if (!worst || worst.lift <= HIGH) {
        const { heel, trim } = boat.vessel.envelope;
        if (heel === undefined || trim === undefined) missing.push(heelMissing);
        return missing.length > 0 ? { outcome: 'cannot tell', about, missing: distinct(missing) } : { outcome: 'pass', about, rests: [{ about: owner }, ...shapeGrounds(boat, id)] };
    }
    if (unmeasured.length > 0) return { outcome: 'cannot tell', about, missing: unmeasured.map((pipe) => lengthMissing(pipe, `${fitting} and the check valve`)) };
    const first = network.parts.get(course.parts[0] ?? '');
    const lineUp = view.runs[0];
    return {
        outcome: 'fail', about, fact: 'loses prime', rests: [{ about, fact: 'loses prime' }, { about: owner }, ...shapeGrounds(boat, id)],
        message: `${about} loses its prime overnight, and no check stands at ${fitting}, ${mm(worst.lift)} below ${pump ? pump.name : 'its inlet'}${lineUp ? ` (${cornerWords(boat, worst.condition, id, lineUp.id)})` : ''}.`,
        reason: 'What holds the column further up cannot keep air out of the joints below it.',
        advice: `Put a check valve with a light spring at the fitting of ${id}, its arrow to the engine, once the joints have been looked at; it adds to the suction.`,
        fix: { title: `Put a check valve at ${fitting}`, line: `check ${freeTag(boat, 'CV')}`, where: first?.kind === 'shutoff' ? { after: first.id } : first ? { before: first.id } : { intoStartOf: course.id } },
        see: [{ id: fitting, why: 'where the check belongs' }],
    };
}
