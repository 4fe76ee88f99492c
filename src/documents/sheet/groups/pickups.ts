/** The least that a tank must hold for each pickup to stay in the liquid, at the worst heel and trim of the envelope. */
import type { Fitting, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { Measure, Place } from '../../../model/measure';
import { estimateOf } from '../../../analysis/estimate';
import { attitudesOf } from '../../../analysis/opening/condition';
import { heightOf, type Attitude } from '../../../analysis/tanks/attitude';
import { leastToWet, mostToWet, sharing } from '../../../analysis/tanks/pickups';
import type { View } from '../../../checks/check';
import { heelMissing, missingForHead, mouthMissing } from '../../../analysis/missing';
import { pickupHeel } from '../../../checks/rules/pickup-heel';
import { attitudeWords, litres } from '../../../model/words';
import { within, type From, type Limit, type Working } from '../working';
import { boxBelow, leanInputs, leanedBox, leanedHeight, placeInputs } from './box';
import { lowestWorking } from './tanks';

export function pickupWorkings(view: View): Working[] {
    const judged = new Set(pickupHeel.judge(view).filter(({ outcome }) => outcome === 'pass' || outcome === 'fail').map(({ about }) => about));
    return view.boat.tanks.filter(({ carries = 'diesel' }) => carries === 'diesel').flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup').map((pickup) => leastWorking(view, tank, pickup, judged.has(pickup.id))));
}

export function leastWorking(view: View, tank: Tank, pickup: Fitting, judged: boolean): Working {
    const { boat, boat: { vessel: { envelope } } } = view;
    const { mouth } = pickup;
    const shared = { id: `least ${pickup.id}`, about: pickup.id, what: `The least in ${tank.id} that keeps the mouth of ${pickup.id} in the liquid, in the worst place of the envelope` };
    const worst = mostToWet([tank], mouth, envelope);
    if (!worst || !mouth) return { ...shared, formula: 'V = what lies below the mouth, as she lies', source: 'geometry', inputs: [], steps: [], notes: [], missing: missing(view, tank, pickup) };
    const { attitude } = worst;
    const inputs = [...placeInputs(`mouth of ${pickup.id}`, mouth, attitude, mouthFrom(pickup))];
    const value = volumeRange(tank, mouth, attitude);
    const { limit, note } = limitOf(view, tank, pickup, judged);
    const cases = attitudesOf(boat).filter((other) => attitudeWords(other) !== attitudeWords(attitude)).flatMap((other) => { const least = leastToWet(tank, mouth, other); return least === undefined ? [] : [`${litres(least)} ${attitudeWords(other)}`]; });
    const notes = [...note, ...(cases.length > 0 ? [`Elsewhere in the envelope: ${cases.join('; ')}.`] : []), 'Still liquid: in a seaway it uncovers sooner.'];
    const base = { ...shared, where: attitudeWords(attitude), rule: 'PICKUP-HEEL', ...(limit && { limit }), ...(value && { result: { symbol: 'V', value, unit: 'L' } }), missing: [] };
    const leaned = leanedBox(tank, attitude);
    const p = { symbol: 'p', what: 'height of the mouth as she lies', formula: `p = ${leanedHeight(attitude, 'x', 'y', 'z')}`, value: heightOf(mouth, attitude)!, unit: 'mm' };
    if (!leaned) return { ...base, formula: `V = what of ${tank.id} lies below p`, source: 'sum over the closed mesh of its shape', inputs: [...inputs, ...leanInputs(attitude)], steps: [p], byMesh: true, notes };
    const depth = p.value - leaned.low;
    const { formula, note: validity } = boxBelow(leaned, depth);
    return {
        ...base, formula: `V = ${formula}`, source: 'geometry of a box under a level plane', inputs: [...inputs, ...leaned.inputs],
        steps: [p, ...leaned.steps, { symbol: 'd', what: 'depth of the mouth over the lowest corner', formula: 'd = p − q', value: depth, unit: 'mm' }], notes: [validity, ...notes],
    };
}

/** The place along and across is that of the pipe's top, unless the mouth has its own. */
export const mouthFrom = ({ id, mouth, top }: Fitting) => (axis: keyof Place): From => ({ about: id, fact: axis !== 'up' && top?.[axis] && top[axis].si === mouth?.[axis]?.si ? 'top' : 'mouth' });

function volumeRange(tank: Tank, mouth: Place, attitude: Attitude): ReturnType<typeof within> {
    const nought: Measure = { si: 0 };
    return within([mouth.up, mouth.fwd ?? nought, mouth.stbd ?? nought].map((measure) => estimateOf(measure ?? nought)), (up, fwd, stbd) => leastToWet(tank, { up: { si: up! }, fwd: { si: fwd! }, stbd: { si: stbd! } }, attitude));
}

/** What the envelope leaves in the tank, where the rule judges this pickup by its own tank alone. */
function limitOf(view: View, tank: Tank, pickup: Fitting, judged: boolean): { readonly limit?: Limit; readonly note: readonly string[] } {
    if (!judged) return { note: ['No limit: PICKUP-HEEL does not judge this pickup.'] };
    const joined = view.runs.some(({ positions }) => sharing(view.network, positions, pickup, view.boat.vessel.envelope).length > 1);
    if (joined) return { note: ['No limit: an open line joins the tank to another, and PICKUP-HEEL judges what they hold together.'] };
    const lowest = lowestWorking(view, tank);
    return lowest.result ? { limit: { value: lowest.result.value, unit: 'L', sense: 'at most', from: { step: lowest.id } }, note: ['The lowest level of the envelope is taken as what must be left.'] } : { note: [] };
}

function missing({ boat }: View, tank: Tank, pickup: Fitting): MissingFact[] {
    const found = missingForHead(boat, tank, pickup.mouth, mouthMissing(pickup.id));
    return found.length > 0 ? found : [heelMissing];
}
