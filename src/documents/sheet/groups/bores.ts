/** What the next larger bore of each pipe on the way to a consumer's first pump would take off its suction, the best first. */
import { exactly } from '../../../analysis/estimate';
import { boreSteps } from '../../../analysis/flow/bore-steps';
import { areaOf, DRAWN, frictionFactor } from '../../../analysis/flow/pipe';
import { nameOf, type View } from '../../../checks/check';
import { fittingOf } from '../../../analysis/topology/joints';
import { flowsOf } from '../flows';
import { carried, input, type Input, type Step, type Working } from '../working';
import { frictionOf, frictionWorking, isSameFlow, laminarOf, millimetres } from './friction';
import { densityWorking, viscosityWorking } from './fuel';
import { worstOf } from './suction';
import { sub } from './tanks';

export function boreWorkings(view: View): Working[] {
    const { drawing } = flowsOf(view);
    return [...new Set(drawing.map(({ consumer }) => consumer))].flatMap((consumer) => {
        const worst = worstOf(drawing.filter((one) => one.consumer === consumer))?.worst;
        if (!worst) return [];
        const { suction } = worst;
        const rows = boreSteps(view.network, suction).flatMap((step) => {
            const passed = suction.way.find(({ part, by }) => part === step.part && by === 'friction')!.passed;
            const now = frictionOf(view, passed, { steady: suction.steady, asked: suction.asked, point: suction.inlet.point });
            return now?.result ? [{ ...step, passed, now, before: now.result.value.si, flow: Math.abs(passed.flow!) }] : [];
        });
        const [rho, nu] = [densityWorking(view).result!.value.si, viscosityWorking(view).result!.value.si];
        // At the flow that it has now; where flow divides and more then comes this way, as the network solution has it.
        const gained = rows.map((row) => {
            const length = row.passed.link.pipes![0]!.length;
            const v = row.flow / areaOf(row.to);
            const after = frictionFactor((v * row.to) / nu, DRAWN / row.to) * (length / row.to) * rho * v ** 2 / 2;
            const own = row.before - after;
            const isSolved = Math.abs(row.gain - own) > Math.max(1, 0.01 * own);
            return { ...row, length, after, isSolved, by: isSolved ? row.gain : own };
        }).sort((a, b) => b.by - a.by);
        if (gained.length === 0) return [];
        const inputs: Input[] = [];
        const steps: Step[] = [];
        const wider: Working[] = [];
        gained.forEach(({ part, from, to, now, flow, length, after, isSolved, by }, i) => {
            const n = sub(i + 1);
            const name = nameOf(view.boat, part);
            const what = `what ${name} gains with ${millimetres(to)} instead of ${millimetres(from)} mm`;
            if (isSolved) { inputs.push(input(`G${n}`, what, by, 'kPa', { cited: 'the network solution with that bore, in which flow divides otherwise' })); return; }
            const next = input(`N${n}`, `its next bore`, to, 'mm', { cited: 'nominal bores of hoses, ISO 1307, from memory' });
            inputs.push(...carried(`F${n}`, `friction in ${name} now`, now).map((one) => ({ ...one, value: exactly(one.value.si) })));
            if (laminarOf(view, part).some((one) => isSameFlow(one.flow, flow))) {
                inputs.push(input(`D${n}`, `bore of ${name}`, exactly(from).si, 'mm', { about: part, fact: 'bore' }), next);
                steps.push({ symbol: `G${n}`, what, formula: `G${n} = F${n} × (1 − (D${n} / N${n})^4)`, value: by, unit: 'kPa' });
                return;
            }
            const flowNow = now.inputs.find(({ symbol }) => symbol === 'Q')!;
            const working = frictionWorking(view, part, { flow, bore: to, length }, { id: `friction ${part} with ${millimetres(to)} mm`, where: now.where ?? '', flow: flowNow, value: exactly(after) }, { ...next, symbol: 'D' });
            wider.push(working);
            inputs.push(...carried(`W${n}`, `friction in ${name} with ${millimetres(to)} mm`, working));
            steps.push({ symbol: `G${n}`, what, formula: `G${n} = F${n} − W${n}`, value: by, unit: 'kPa' });
        });
        const best = gained[0]!;
        return [...wider, {
            id: `bores ${consumer.id}`, about: consumer.id, what: `What one step of bore buys on the way to ${consumer.id}, the best first; each by itself`, where: `${nameOf(view.boat, best.part)} with ${millimetres(best.to)} mm buys most; line-up ${suction.asked.lineUp.id}`,
            formula: gained.length === 1 ? 'G = G₁' : `G = max(${gained.map((_, i) => `G${sub(i + 1)}`).join(', ')})`, source: 'friction falls with the fourth power of the bore while it is laminar (Hagen and Poiseuille)', inputs, steps,
            result: { symbol: 'G', value: exactly(best.by), unit: 'kPa' }, missing: [],
            notes: [...(gained.some(({ part }) => view.network.parts.get(part)?.kind === 'tube' || fittingOf(view.boat, part)) ? ['Of tubes the nearest bore that is made is meant.'] : [])],
        }];
    });
}
