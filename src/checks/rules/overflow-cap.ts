/**
 * Speaks of day tanks: filled by a pump, and not from deck. A tank that is filled both ways is filled by somebody who stands by. What is asked is either the trade's
 * proportion or that the line really carries what the pump gives.
 */
import type { Id, Tank } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { placesOf } from '../../analysis/air/heights';
import { estimateOf, sum } from '../../analysis/estimate';
import { fluidOf } from '../../analysis/flow/fluid';
import { areaOf, flowByHead } from '../../analysis/flow/pipe';
import { rowOf } from '../../analysis/flow/row';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { isPump, isValve, lineUpNetwork } from '../../analysis/topology/network';
import { passagesOf } from '../../analysis/topology/paths';
import { routes } from '../../analysis/topology/routes';
import { capital, figure, listed, litresAnHour, mm } from '../../model/words';
import { fromSI } from '../../model/units';
import { nameOf, nothing, type Check, type View } from '../check';
import { filledBy, isDayTank } from '../day-tank';
import { boreMissing, distinct, lengthMissing, mouthMissing, rateMissing, sizeMissing } from '../../analysis/missing';

export const overflowCap: Check = {
    code: 'OVERFLOW-CAP', severity: 'major', slow: true,
    statement: 'A day tank has an overflow to another tank that leads by gravity, through no valve and over nothing as high as the tank\'s lid, and either has twice the area of the line that fills it or carries what the pump gives before the tank is full.',
    prevents: 'A float that sticks, or a forgotten switch, pumps fuel out of the vent.',
    facts: 'courses; bores and lengths; what the pump gives; mouth of the overflow, heights of its line, shape of the tank',
    source: 'common practice; flow by Darcy and Weisbach',
    judge: (view) => {
        const tanks = view.boat.tanks.filter((tank) => (tank.carries ?? 'diesel') === 'diesel' && isDayTank(view, tank));
        return tanks.length === 0 ? [nothing('a pump fills no tank that is not filled from deck')] : tanks.map((tank) => judge(view, tank));
    },
};

/** A line by which liquid leaves the tank for another without a pump. */
interface Overflow {
    readonly fitting: Id;
    /** On some way along it. */
    readonly parts: readonly Id[];
    readonly valves: readonly Id[];
}

function overflowsOf({ boat, network }: View, tank: Tank): Overflow[] {
    const open = lineUpNetwork(network, new Map(), 'all open');
    const barred = passagesOf(network, [...boat.consumers.map(({ id }) => id), ...boat.parts.filter(isPump).map(({ id }) => id)]);
    return tank.fittings.filter(({ kind }) => kind === 'pickup' || kind === 'drop').flatMap((fitting): Overflow[] => {
        const others = boat.tanks.filter((other) => other !== tank).map(({ id }) => network.tanks.get(id)!);
        const through = new Set([...barred, ...passagesOf(network, tank.fittings.filter((other) => other !== fitting).map(({ id }) => id))]);
        const parts = [...new Set([...routes(open, [network.tanks.get(tank.id)!], others, through)].flatMap((i) => network.passages[i]!.part ?? []))].filter((id) => network.parts.has(id) || id === fitting.id);
        return parts.length === 0 ? [] : [{ fitting: fitting.id, parts, valves: parts.filter((id) => { const part = network.parts.get(id); return part !== undefined && isValve(part) && !part.lockedOpen; }) }];
    });
}

function judge(view: View, tank: Tank): Verdict {
    const { boat } = view;
    const about = tank.id;
    const pumps = filledBy(view, tank);
    const found = overflowsOf(view, tank);
    const free = found.filter(({ valves }) => valves.length === 0);
    const names = listed(pumps.map(({ name }) => name));
    if (free.length === 0) {
        const shut = found[0]?.valves.map((id) => nameOf(boat, id));
        return {
            outcome: 'fail', about, message: shut ? `${capital(names)} ${pumps.length > 1 ? 'fill' : 'fills'} ${about}, and its way back to another tank can be shut by ${listed(shut)}.` : `${capital(names)} ${pumps.length > 1 ? 'fill' : 'fills'} ${about}, and no overflow leads from it to another tank.`,
            reason: `When the pump is not stopped in time, ${about} runs out of its vent.`,
            advice: `Lead an overflow from near the lid of ${about} to the tank that fills it, without a valve, of at least twice the area of the line that fills it.`, see: pumps.map(({ id }) => ({ id, why: `fills ${about}` })),
        };
    }
    const lid = span(tank, UPRIGHT)?.high;
    const answers = free.map((overflow) => carries(view, tank, overflow, lid));
    const rests: Ground[] = free.flatMap(({ fitting, parts }) => [{ about: fitting, fact: 'mouth' }, ...parts.filter((id) => id !== fitting).map((id) => ({ about: id, fact: 'bore' }))]);
    if (answers.some((answer) => answer === 'enough')) return { outcome: 'pass', about, rests };
    const missing = distinct(answers.flatMap((answer) => (typeof answer === 'object' && 'missing' in answer ? answer.missing : [])));
    if (missing.length > 0) return { outcome: 'cannot tell', about, missing };
    const first = answers.find((answer): answer is Short => typeof answer === 'object' && 'why' in answer)!;
    return {
        outcome: 'fail', about, rests, message: first.why, reason: `When the pump is not stopped in time, ${about} runs out of its vent.`, advice: first.advice,
        see: [...free[0]!.parts.filter((id) => id !== free[0]!.fitting).map((id) => ({ id, why: 'the overflow' })), ...pumps.map(({ id }) => ({ id, why: `fills ${about}` }))],
    };
}

interface Short {
    readonly why: string;
    readonly advice: string;
}

/** m, and a share of an area. */
const [SAME, NEAR] = [5e-4, 1e-6];
/** At the mouth and the free end: as of a vent line. */
const MOUTHS = 1.5;

function carries(view: View, tank: Tank, { fitting: id, parts }: Overflow, lid: number | undefined): 'enough' | Short | { readonly missing: readonly MissingFact[] } {
    const { boat, network } = view;
    const fitting = tank.fittings.find((other) => other.id === id)!;
    const mouth = fitting.mouth?.up?.si;
    if (lid === undefined || mouth === undefined) return { missing: [...(mouth === undefined ? [mouthMissing(id)] : []), ...(lid === undefined ? [sizeMissing(tank.id)] : [])] };
    const places = parts.flatMap((part) => (part === id ? [fitting.top ?? {}] : placesOf(network, part) ?? []).flatMap(({ up }) => (up ? [{ part, up: up.si }] : [])));
    const crest = places.reduce<{ part: Id; up: number } | undefined>((top, place) => (top && top.up >= place.up ? top : place), undefined);
    const top = Math.max(mouth, crest?.up ?? mouth);
    if (top >= lid - SAME) {
        const high = crest && crest.up > mouth ? nameOf(boat, crest.part) : id;
        return { why: `The overflow of ${tank.id} is as high as its lid at ${high} (${mm(top)}; the lid is at ${mm(lid)}): fuel rises in the vent before it runs over.`, advice: `Set the mouth of ${id} and all of its line below the lid of ${tank.id}.` };
    }
    const pipes = parts.flatMap((part) => { const found = network.parts.get(part); return found?.kind === 'hose' || found?.kind === 'tube' ? [found] : []; });
    const bores = [...pipes.map(({ bore }) => bore), fitting.bore].flatMap((bore) => (bore ? [estimateOf(bore).least] : []));
    const unsized = pipes.filter(({ bore }) => !bore).map(boreMissing);
    if (unsized.length > 0 || bores.length === 0) return { missing: unsized.length > 0 ? unsized : [boreMissing({ id, name: id })] };
    const area = areaOf(Math.min(...bores));
    // The trade's proportion, against the widest pipe between the pump and the tank.
    const filling = filledBy(view, tank).flatMap(({ course }) => boat.courses.find((other) => other.id === course)?.parts ?? []).flatMap((part) => network.parts.get(part) ?? []).filter(({ kind }) => kind === 'hose' || kind === 'tube');
    const fillBores = filling.flatMap(({ bore }) => (bore ? [estimateOf(bore).most] : []));
    if (filling.length > 0 && fillBores.length === filling.length && area >= 2 * areaOf(Math.max(...fillBores)) * (1 - NEAR)) return 'enough';
    // What it carries by the height from its highest place to the lid.
    const pumps = filledBy(view, tank);
    const row = rowOf(network, parts);
    const carried = row.lacks.length > 0 ? undefined : flowByHead(row.pipes, lid - top, fluidOf(boat.vessel, tank.carries), MOUTHS);
    const rates = pumps.flatMap(({ rate }) => (rate ? [estimateOf(rate)] : []));
    const given = rates.length < pumps.length ? undefined : sum(rates);
    if (carried !== undefined && given && carried >= given.most) return 'enough';
    const missing = [...filling.filter(({ bore }) => !bore).map(boreMissing), ...row.lacks.filter(({ of }) => of === 'length').map(({ about }) => lengthMissing({ id: about, name: nameOf(boat, about) }, 'its two ends')), ...pumps.filter(({ rate }) => !rate).map(rateMissing)];
    if (carried === undefined || !given || (filling.length > 0 && fillBores.length < filling.length)) return { missing };
    return {
        why: `The overflow of ${tank.id}, ${figure(fromSI(Math.min(...bores), 'mm'))} mm wide, carries ${litresAnHour(carried)} when ${tank.id} is full to the lid, and ${listed(pumps.map(({ name }) => name))} ${pumps.length > 1 ? 'give' : 'gives'} ${litresAnHour(given.si)}.`,
        advice: `Fit an overflow of at least ${figure(Math.ceil(Math.sqrt(2) * 1e4 * (fillBores.length > 0 ? Math.max(...fillBores) : Math.min(...bores))) / 10)} mm bore, twice the area of the line that fills ${tank.id}, or set the mouth of ${id} lower.`,
    };
}
