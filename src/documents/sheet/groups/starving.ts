/** The level at which each consumer loses its fuel as the tanks go down together, the first to starve first. */
import type { Tank } from '../../../model/boat';
import type { Estimate } from '../../../analysis/estimate';
import { placeOf } from '../../../analysis/flow/plumbed';
import { GRAVITY } from '../../../analysis/flow/pipe';
import { starving, type Starves } from '../../../analysis/flow/starve';
import { attitudesOf } from '../../../analysis/opening/condition';
import { heightOf } from '../../../analysis/tanks/attitude';
import { fittingOf } from '../../../analysis/topology/joints';
import type { MissingFact } from '../../../model/finding';
import { burnsFuel, nameOf, type View } from '../../../checks/check';
import { distinct, flowMissing } from '../../../analysis/missing';
import { attitudeWords, listed, litres } from '../../../model/words';
import { inletFact, worseBy } from '../flows';
import { byName, carried, input, type Input, type Step, type Working } from '../working';
import { boxBelow, leanInputs, leanedBox, leanedHeight, placeInputs } from './box';
import { densityWorking } from './fuel';
import { lossesOn } from './losses';
import { leastWorking, mouthFrom } from './pickups';
import { grossWorking } from './tanks';

export function starvingWorkings(view: View): Working[] {
    const { boat, network } = view;
    const found = new Map<string, { readonly starves: Starves; readonly least?: Working; readonly share: Estimate; readonly lineUps: string[]; readonly missing: MissingFact[] }>();
    for (const lineUp of [...view.runs].sort((a, b) => byName(a.id, b.id))) {
        const { first, untold } = starving(network, lineUp, attitudesOf(boat));
        const others = (['least', 'most'] as const).flatMap((guess) => starving(network, lineUp, attitudesOf(boat), { speed: 'full', guess }).first);
        for (const starves of first) {
            const consumer = network.consumers.get(starves.consumer);
            if (!consumer || !burnsFuel(view, consumer)) continue;
            const key = [starves.consumer, starves.tank, starves.by, starves.share.toFixed(6), starves.suction.from].join(' ');
            const least = leastOf(view, starves);
            const shares = [starves, ...others.filter((one) => one.consumer === starves.consumer)].map(({ share }) => Math.max(share, least?.share ?? 0));
            const known = found.get(key) ?? { starves, ...(least?.decides && { least: least.working }), share: { si: shares[0]!, least: Math.min(...shares), most: Math.max(...shares) }, lineUps: [], missing: [] };
            found.set(key, known);
            known.lineUps.push(lineUp.id);
            known.missing.push(...untold.filter((one) => one.consumer === starves.consumer).flatMap((one) => flowMissing(boat, consumer, one.untold)));
        }
    }
    const all = [...found.values()].sort((a, b) => b.share.si - a.share.si || byName(a.starves.consumer, b.starves.consumer));
    const order = all.map(({ starves, least, lineUps }) => `${starves.consumer} with less than ${litres(least?.result?.value.si ?? starves.volume)} in ${starves.tank}${all.some((other) => other.starves !== starves && other.starves.consumer === starves.consumer) ? ` in ${lineUps.join(', ')}` : ''}`);
    return all.map(({ starves, share, least, lineUps, missing }, i) => starvesWorking(view, starves, share, least, lineUps, distinct(missing), i === 0 && order.length > 1 ? [`In this order: ${order.join('; ')}.`] : []));
}

/** What keeps its pickup wet in the worst place of the envelope: computed among the pickups, and known without the place of the pump. It decides where it is no less than what is told. */
function leastOf(view: View, { tank: tankId, volume, suction }: Starves): { readonly working: Working; readonly share: number; readonly decides: boolean } | undefined {
    const tank = view.boat.tanks.find(({ id }) => id === tankId)!;
    const pickup = fittingOf(view.boat, suction.from!)!;
    const working = pickup.kind === 'pickup' ? leastWorking(view, tank, pickup, false) : undefined;
    const gross = grossWorking(tank).result?.value.si;
    return working?.result && gross !== undefined ? { working, share: working.result.value.si / gross, decides: working.result.value.si >= volume * (1 - 1e-9) } : undefined;
}

function starvesWorking(view: View, { consumer, tank: tankId, by, attitude, volume, suction }: Starves, share: Estimate, least: Working | undefined, lineUps: readonly string[], missing: readonly MissingFact[], first: readonly string[]): Working {
    const order = [...(share.most > share.si ? [`More where guesses do most harm: what the pump draws against then decides${share.most > 1 - 1e-6 ? ', and not even a full tank is enough' : ''}.`] : []), ...first, ...worseBy(missing)];
    const { boat, network } = view;
    const tank: Tank = boat.tanks.find(({ id }) => id === tankId)!;
    const pickup = fittingOf(boat, suction.from!)!;
    const limit = network.consumers.get(consumer)!.limits.inlet;
    const gross = grossWorking(tank);
    const leaned = leanedBox(tank, attitude);
    const pump = suction.inlet.pump ?? consumer;
    const place = placeOf(network, suction.inlet.point)!;
    const weight = densityWorking(view).result!.value.si * GRAVITY;
    const inputs: Input[] = [];
    const steps: Step[] = [];
    let height = heightOf(pickup.mouth, attitude)!;
    const why = by === 'dry pickup' ? `${pickup.id} comes dry` : `${nameOf(boat, pump)} has to draw against more than ${consumer} allows`;
    if (by === 'dry pickup') {
        inputs.push(...placeInputs(`mouth of ${pickup.id}`, pickup.mouth!, attitude, mouthFrom(pickup)));
        steps.push({ symbol: 'l', what: 'height of the mouth as she lies', formula: `l = ${leanedHeight(attitude, 'x', 'y', 'z')}`, value: height, unit: 'mm' });
    } else {
        const losses = lossesOn(view, suction.way.map(({ passed }) => passed), { steady: suction.steady, asked: suction.asked, point: suction.inlet.point }, 'dirty');
        const [stands, source] = [heightOf(place, attitude)!, suction.total - suction.height];
        height = stands - (limit!.si - source) / weight;
        inputs.push(...placeInputs(nameOf(boat, pump), place, attitude, () => ({ about: pump, fact: suction.inlet.pump === undefined ? inletFact(network.consumers.get(consumer)!) : 'at' })), input('p', `suction that ${consumer} allows`, limit!.si, 'kPa', { about: consumer, fact: 'limits inlet' }), ...carried('ρ', 'density of the fuel', densityWorking(view)), ...losses.inputs);
        steps.push(
            ...losses.steps, { symbol: 'o', what: 'height of the pump as she lies', formula: `o = ${leanedHeight(attitude, 'x', 'y', 'z')}`, value: stands, unit: 'mm' },
            { symbol: 'l', what: 'the lowest surface at which that is kept', formula: `l = o − (p − ${losses.terms.length > 1 ? `(${losses.terms.join(' + ')})` : losses.terms[0] ?? '0'}) / (ρ × 9.80665)`, value: height, unit: 'mm' },
        );
    }
    const base = {
        id: `starves ${consumer}, ${lineUps.join(', ')}`, about: consumer, what: `The least in ${tankId} with which ${consumer} is fed: below it ${why}`, where: `${attitudeWords(attitude)}, at full speed, line-up ${listed(lineUps)}`, missing,
        result: { symbol: 's', value: share, unit: '%' },
    };
    if (least) return { ...base, what: `The least in ${tankId} with which ${consumer} is fed: below it ${pickup.id} comes dry`, where: `${least.where ?? 'upright'}, line-up ${listed(lineUps)}`, formula: 's = V / G', source: 'a pickup draws only while its mouth is wet', inputs: [...carried('V', `what keeps ${pickup.id} wet`, least), ...carried('G', `the whole inside of ${tankId}`, gross)], steps: [], notes: [...order] };
    if (!leaned) return { ...base, formula: 's = what lies below l, as a share of G', source: 'sum over the closed mesh of its shape', inputs: [...inputs, ...leanInputs(attitude), ...carried('G', `the whole inside of ${tankId}`, gross)], steps, byMesh: true, notes: [`${litres(volume)}.`, ...order] };
    const depth = height - leaned.low;
    const { formula, note } = boxBelow(leaned, depth);
    return {
        ...base, formula: 's = V / G', source: 'geometry of a box under a level plane', inputs: [...inputs, ...leaned.inputs, ...carried('G', `the whole inside of ${tankId}`, gross)],
        steps: [
            ...steps, ...leaned.steps, { symbol: 'd', what: 'depth over the lowest corner', formula: 'd = l − q', value: depth, unit: 'mm' },
            { symbol: 'V', what: 'what lies below it', formula: `V = ${formula}`, value: volume, unit: 'L' },
        ],
        notes: [note, ...order],
    };
}
