/** What the return of each consumer pushes against, in the worst corner of the envelope with tanks as full as they are used. */
import type { Id } from '../../../model/boat';
import type { Place } from '../../../model/measure';
import { estimateOf } from '../../../analysis/estimate';
import { placeOf } from '../../../analysis/flow/plumbed';
import { heightOf, type Attitude } from '../../../analysis/tanks/attitude';
import { fittingOf } from '../../../analysis/topology/joints';
import { nameOf, type View } from '../../../checks/check';
import { distinct, flowMissing } from '../../../analysis/missing';
import { fromSI } from '../../../model/units';
import { attitudeWords, listed } from '../../../model/words';
import { flowsOf, inletFact, partOf, worseBy, type Returning } from '../flows';
import { signed } from '../numbers';
import { carried, type From, type Input, type Step, type Working } from '../working';
import { leanInputs, leanedHeight, placeInputs } from './box';
import { demandsAt, speedWords } from './demands';
import { speedOf } from './friction';
import { densityWorking } from './fuel';
import { G, lossesOn } from './losses';
import { mouthFrom } from './pickups';
import { surfaceWorking } from './surfaces';
import { levelWorking } from './tanks';

export const returnWorkings = (view: View): Working[] => flowsOf(view).returning.flatMap((returning) => returnWorking(view, returning));

function returnWorking(view: View, { consumer, worst, untold }: Returning): Working[] {
    const { boat, network } = view;
    const { id, limits } = consumer;
    const missing = distinct(untold.flatMap((one) => flowMissing(boat, consumer, one)));
    const shared = { id: `return ${id}`, about: id, what: `What the return of ${id} pushes against at its outlet, which is taken to stand as high as its inlet`, source: 'sum of what height, pipes and checks take', rule: 'RETURN-BACKPRESSURE' };
    if (!worst) return missing.length === 0 ? [] : [{ ...shared, formula: 'p = ρ × g × (t − o) + F + C', inputs: [], steps: [], notes: [], missing }];
    const { found, total } = worst;
    const { attitude, lineUp } = found.asked;
    const speed = speedOf(found.asked);
    const end = found.over === undefined ? -1 : found.way.findIndex((passed) => partOf(view, passed) === found.over);
    const state = { steady: found.steady, asked: found.asked, point: `${id}:out` };
    const losses = lossesOn(view, end < 0 ? found.way : found.way.slice(0, end + 1), state, 'dirty');
    const outlet = placeOf(network, `${id}:out`)!;
    const top = found.over === undefined ? surfaceTop(view, partOf(view, found.way.at(-1)!), attitude) : crestTop(view, found.over, network.points[network.passages[found.way[end]!.passage]!.to]!, attitude);
    const out: Step = { symbol: 'o', what: 'height of the outlet as she lies', formula: `o = ${leanedHeight(attitude, 'x', 'y', 'z')}`, value: heightOf(outlet, attitude)!, unit: 'mm' };
    const parts: readonly (readonly [string, number])[] = [['height', found.height], ['pipes', found.friction], ['checks', found.checks]];
    return [...(speed === 'full' ? [] : demandsAt(consumer, speed)), ...top.rests, ...losses.frictions, {
        ...shared, formula: `p = ${['ρ × g × (t − o)', ...losses.terms].join(' + ')}`, where: `${attitudeWords(attitude)}, highest level, coldest fuel, ${speedWords(speed)}, line-up ${lineUp.id}`,
        inputs: [...carried('ρ', 'density of the fuel', densityWorking(view)), G, ...placeInputs(`inlet of ${id}`, outlet, attitude, () => ({ about: id, fact: inletFact(consumer) })), ...top.inputs, ...leanInputs(attitude), ...losses.inputs],
        steps: [out, ...top.steps, ...losses.steps], result: { symbol: 'p', value: total, unit: 'kPa', remains: true }, missing,
        ...(limits.return && { limit: { value: estimateOf(limits.return), unit: 'kPa', sense: 'at most', from: { about: id, fact: 'limits return' } } as const }),
        notes: [
            `Of it ${listed(parts.map(([what, loss]) => `${what} ${signed(fromSI(loss, 'kPa').toFixed(2))}`))} kPa.`,
            ...(found.over === undefined ? [] : [`It has to be pushed over the top of ${nameOf(boat, found.over)}: a line that holds air does not help by what falls behind it.`]),
            ...worseBy(missing),
        ],
    }];
}

interface Top {
    readonly inputs: readonly Input[];
    readonly steps: readonly Step[];
    readonly rests: readonly Working[];
}

/** The surface of the tank at the end, or the mouth from which it falls where that stands in air. */
function surfaceTop(view: View, id: Id | undefined, attitude: Attitude): Top {
    const fitting = id === undefined ? undefined : fittingOf(view.boat, id);
    const tank = view.boat.tanks.find((other) => other.id === fitting?.tank);
    if (!fitting || !tank) return { inputs: [], steps: [], rests: [] };
    const surface = surfaceWorking(view, tank, attitude, 'fullest');
    const mouth = heightOf(fitting.mouth, attitude);
    const inputs = carried('S', `surface of ${tank.id}`, surface);
    const rests = [levelWorking(view, tank, 'fullest'), surface];
    const stands = surface.result?.value.si ?? 0;
    if (mouth === undefined || mouth <= stands) return { inputs, steps: [{ symbol: 't', what: 'up to the surface', formula: 't = S', value: stands, unit: 'mm' }], rests };
    const at = placeInputs(`mouth of ${fitting.id}`, fitting.mouth!, attitude, mouthFrom(fitting), { fwd: 'x₁', stbd: 'y₁', up: 'z₁' });
    return { inputs: at, steps: [{ symbol: 't', what: `up to the mouth of ${fitting.id}, above the surface`, formula: `t = ${leanedHeight(attitude, 'x₁', 'y₁', 'z₁')}`, value: mouth, unit: 'mm' }], rests: [] };
}

/** The crest of the part over which it is pushed, or its far end where that stands higher. */
function crestTop({ network }: View, over: Id, end: string, attitude: Attitude): Top {
    const [crest, far] = [network.parts.get(over)?.crest, placeOf(network, end)];
    const height = (place: Place | undefined): number => heightOf(place, attitude) ?? -Infinity;
    const isCrest = height(crest) >= height(far);
    const place = (isCrest ? crest : far)!;
    const from: From = isCrest ? { about: over, fact: 'crest' } : { about: over, fact: 'at', words: 'where its far end is joined' };
    const inputs = placeInputs(isCrest ? `crest of ${over}` : `far end of ${over}`, place, attitude, () => from, { fwd: 'x₁', stbd: 'y₁', up: 'z₁' });
    return { inputs, steps: [{ symbol: 't', what: 'the highest that it is pushed over', formula: `t = ${leanedHeight(attitude, 'x₁', 'y₁', 'z₁')}`, value: height(place), unit: 'mm' }], rests: [] };
}
