/**
 * Division: ISOLATE-FILTER-IN asks what comes back through a return to a filter that hands open; this rule what comes out of the return itself when its hose
 * fails. A check at the fitting mends both. That a valve in a return can block it is RETURN-NO-BLOCK's.
 */
import type { Verdict } from '../../model/finding';
import { mm } from '../../model/words';
import { freeTag, nameOf, type Check, type View } from '../check';
import { cornerWords } from '../corner';
import { incoming, lineUpOf, runningOut, type Incoming } from '../lines';
import { lengthMissing, shapeGrounds } from '../../analysis/missing';

export const returnShutIfLow: Check = {
    code: 'RETURN-SHUT-IF-LOW', severity: 'major', slow: true,
    statement: 'A return whose mouth and whose line lie below the highest level of a fuel tank, at any heel and trim, has a check valve with its arrow to the tank, or a valve locked open, at the fitting of the tank.',
    prevents: 'The hose of the return fails and the tank siphons out through it.',
    facts: 'height of the mouth; heights and places of the return line; shape and place of the tank; envelope; checks and valves',
    source: 'inland boat-safety scheme 2.12, from a secondary source, which names a valve or cock at the tank; that a check alone will do is common practice',
    judge: (view) => incoming(view).map((line) => judge(view, line)),
};

function judge(view: View, line: Incoming): Verdict {
    const { boat } = view;
    const { course, tank, fitting, held: { part, unmeasured } } = line;
    const about = fitting;
    if (part) return { outcome: 'pass', about, rests: [{ about: part.id }] };
    const { worst, missing } = runningOut(view, line);
    if (!worst) return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests: [{ about: fitting, fact: 'mouth' }, ...shapeGrounds(boat, tank)] };
    if (unmeasured.length > 0) return { outcome: 'cannot tell', about, missing: unmeasured.map((pipe) => lengthMissing(pipe, `the valve or check and ${fitting}`)) };
    const { opening, condition, from } = worst;
    const last = course.parts.at(-1);
    const others = boat.courses.filter(({ service }) => service === 'return').length > 1;
    return {
        outcome: 'fail', about, rests: [{ about: fitting, fact: 'mouth' }, ...shapeGrounds(boat, tank), { about: opening.part }],
        message: `Nothing at ${fitting} holds ${tank} back if the return fails: its mouth is in the liquid, which can stand ${mm(from.head)} above the lowest point of ${nameOf(boat, opening.part)} (${cornerWords(boat, condition, tank, lineUpOf(view, worst))}).`,
        reason: `${tank} siphons out through the return, though every supply is shut.`,
        advice: `Put a check valve with its arrow to the tank at ${fitting}${others ? `, in ${course.id}` : ''}.`,
        fix: { title: `Put a check valve at ${fitting}`, line: `check ${freeTag(boat, 'CV')}`, where: last === undefined ? { intoStartOf: course.id } : { after: last } },
        see: [{ id: opening.part, why: `lies below the highest level of ${tank}` }],
    };
}
