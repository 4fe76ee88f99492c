/**
 * Division: SHUT-AT-TANK asks for a manual shutoff at the tank of every supply, whatever the heights; where it is missing and nobody fitted a
 * check instead, that rule tells it and this one is silent. This rule judges an anti-siphon check that stands in for the valve, by the head
 * that it must hold, and transfer lines, which SHUT-AT-TANK does not judge. RETURN-SHUT-IF-LOW judges returns.
 */
import type { Verdict } from '../../model/finding';
import { fluidOf } from '../../analysis/flow/fluid';
import { GRAVITY } from '../../analysis/flow/pipe';
import { heldHead } from '../../analysis/opening/open';
import { isPump } from '../../analysis/topology/network';
import { fromSI } from '../../model/units';
import { capital, listed, mm } from '../../model/words';
import { freeTag, nameOf, type Check, type View } from '../check';
import { cornerWords } from '../corner';
import { isDayTank } from '../day-tank';
import { lineUpOf, outgoing, runningOut, type Outgoing } from '../lines';
import { crackMissing, shapeGrounds } from '../../analysis/missing';

export const siphonBreak: Check = {
    code: 'SIPHON-BREAK', severity: 'major', slow: true,
    statement: 'A line that draws from a fuel tank and runs below the highest level, at any heel and trim, has a shutoff at the tank, or a check valve there that opens only at more than the head that the liquid can stand above the line.',
    prevents: 'A line that fails siphons the tank into the bilge.',
    facts: 'heights and places of the line; shape and place of the tank; envelope; shutoffs and checks, and the pressure at which they open; line-ups',
    source: '33 CFR 183.568 by analogy: it is law for petrol, here it is diesel',
    judge: (view) => outgoing(view).map((line) => judge(view, line)),
};

function judge(view: View, line: Outgoing): Verdict {
    const { boat, network } = view;
    const { course, tank, fitting, valve } = line;
    const about = course.parts.find((id) => network.parts.get(id)?.course === course.id) ?? course.id;
    if (valve.outcome === 'pass') return { outcome: 'pass', about, rests: valve.rests ?? [] };
    // What stands above the mouth of an overflow is all that it can lose, and a valve in it would send the fuel out of the vent.
    const own = boat.tanks.find(({ id }) => id === tank);
    if (course.service === 'transfer' && own && isDayTank(view, own) && !course.parts.some((id) => { const part = network.parts.get(id); return part !== undefined && isPump(part); })) return { outcome: 'not applicable', about, why: `it is the overflow of ${tank}, which nothing may shut (see OVERFLOW-CAP)` };
    const checks = course.parts.filter((id) => network.parts.get(id)?.kind === 'check');
    if (course.service === 'supply' && valve.outcome === 'fail' && checks.length === 0) return { outcome: 'not applicable', about, why: 'no shutoff stands at the tank (see SHUT-AT-TANK)' };
    const { worst, missing } = runningOut(view, line);
    if (!worst) return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests: [{ about: fitting, fact: 'mouth' }, ...shapeGrounds(boat, tank)] };
    if (valve.outcome === 'cannot tell') return { outcome: 'cannot tell', about, missing: valve.missing };
    const { opening, condition, from } = worst;
    const unstated = from.uncounted.flatMap((id) => network.parts.get(id) ?? []).filter(({ kind }) => kind === 'check');
    if (unstated.length > 0) return { outcome: 'cannot tell', about, missing: unstated.map(crackMissing) };
    const depth = from.head + heldHead(boat, tank, from.cracks);
    const needed = kPa(depth * fluidOf(boat.vessel, boat.tanks.find(({ id }) => id === tank)!.carries).heaviest * GRAVITY);
    const holding = from.through.filter((id) => checks.includes(id));
    const where = `${nameOf(boat, opening.part)} lies up to ${mm(depth)} below what ${tank} can hold (${cornerWords(boat, condition, tank, lineUpOf(view, worst))})`;
    return {
        outcome: 'fail', about, rests: [...shapeGrounds(boat, tank), ...holding.map((id) => ({ about: id, fact: 'cracks' }))],
        message: holding.length > 0 ? `${capital(listed(holding))} ${holding.length > 1 ? 'hold' : 'holds'} back too little to stop a siphon: ${where}, which takes ${needed}, and what stands between opens at ${kPa(from.cracks)}.`
            : `Nothing at the fitting of ${tank} stops a siphon: ${where}.`,
        reason: `If the line fails there, ${tank} runs into the bilge with the engine stopped.`,
        advice: `Put a quarter-turn shutoff at the fitting of ${tank}, or an anti-siphon check there that opens at no less than ${needed}.`,
        fix: { title: `Put a shutoff at ${tank}`, line: `shutoff ${freeTag(boat, 'V')}   normally open`, where: about === course.id ? { intoStartOf: course.id } : { before: about } },
        see: [{ id: tank, why: 'what would run out' }, ...(opening.part === about ? [] : [{ id: opening.part, why: 'lies lowest' }])],
    };
}

/** Rounded up: what it asks for must hold. */
const kPa = (si: number): string => { const exact = fromSI(si, 'kPa'); return `${Math.ceil(exact * 100 - 1e-6) / 100} kPa`; };
