/** What each gauge in a supply should read at cruise with tanks half full, with new elements and with such as are to be renewed. */
import type { Consumer, Id } from '../../../model/boat';
import { placeOf } from '../../../analysis/flow/plumbed';
import { knots } from '../../../analysis/flow/demand';
import type { Asked } from '../../../analysis/flow/states';
import { atLevel } from '../../../analysis/opening/condition';
import { heightOf, UPRIGHT } from '../../../analysis/tanks/attitude';
import { fittingOf } from '../../../analysis/topology/joints';
import { partsBefore } from '../../../analysis/topology/paths';
import { nameOf, type View } from '../../../checks/check';
import { boundsOf, flowsOf, partOf, type Drawing } from '../flows';
import { byName, carried, type Working } from '../working';
import { placeInputs } from './box';
import { demandsAt, drawsWorking, speedWords } from './demands';
import { densityWorking } from './fuel';
import { G, lossesOn } from './losses';
import { surfaceWorking } from './surfaces';
import { levelWorking } from './tanks';

export function gaugeWorkings(view: View): Working[] {
    const gauges = view.boat.parts.filter(({ kind, reads }) => kind === 'gauge' && reads !== 'pressure').sort((a, b) => byName(a.id, b.id));
    const { drawing } = flowsOf(view);
    return gauges.flatMap(({ id }) => {
        // In the first line-up in which it stands on the way to a pump.
        const found = drawing.find(({ lineUp, inlet }) => partsBefore(view.running(lineUp), inlet.point).has(id));
        const speed = found && cruiseOf(view, found.consumer);
        return found && speed !== undefined ? readings(view, id, found, speed) : [];
    });
}

/** Of an engine the fastest at which her speed is stated; of others, and where none is, the greatest at which is stated what is drawn. */
function cruiseOf({ boat: { vessel } }: View, { kind, draws }: Consumer): number | undefined {
    const stated = kind === 'engine' ? vessel.speeds.map(({ at }) => at.si) : [];
    const speeds = stated.length > 0 ? stated : knots(draws).map(({ speed }) => speed);
    return speeds.length > 0 ? Math.max(...speeds) : undefined;
}

function readings(view: View, gauge: Id, { consumer, lineUp, inlet }: Drawing, speed: number): Working[] {
    const { boat, network } = view;
    const level = atLevel(boat, 0.5);
    const draws = [drawsWorking(consumer, speed), drawsWorking(consumer, 'full')] as const;
    const place = placeOf(network, `${gauge}:in`);
    const height = heightOf(place, UPRIGHT);
    return (['clean', 'dirty'] as const).flatMap((elements): Working[] => {
        const asked: Asked = { lineUp, attitude: UPRIGHT, level, speed, elements };
        const all = boundsOf(view, asked).map((found) => found.gaugeAt(`${gauge}:in`));
        const steady = boundsOf(view, asked)[0]!;
        const way = steady.wayTo(`${gauge}:in`);
        const fitting = way[0] && fittingOf(boat, partOf(view, way[0]) ?? '');
        const tank = boat.tanks.find(({ id }) => id === fitting?.tank);
        const known = all.filter((value): value is number => value !== undefined);
        if (known.length < all.length || height === undefined || !place || !fitting || !tank || !draws[0].result || !draws[1].result || steady.lacks.some(({ about }) => way.some((passed) => partOf(view, passed) === about))) return [];
        const surface = surfaceWorking(view, tank, UPRIGHT, 'half');
        const mouth = heightOf(fitting.mouth, UPRIGHT);
        if (!surface.result || (mouth !== undefined && mouth > surface.result.value.si)) return [];
        const share = draws[0].result.value.si / draws[1].result.value.si;
        const losses = lossesOn(view, way, { steady, asked, point: inlet.point }, elements, share);
        const isShare = losses.terms.some((term) => term.startsWith('r '));
        return [...demandsAt(consumer, speed).filter(({ id }) => draws[0].id === id || draws[0].inputs.some(({ from }) => 'step' in from && from.step === id)), levelWorking(view, tank, 'half'), surface, ...losses.frictions, {
            id: `gauge ${gauge}, ${elements === 'clean' ? 'new elements' : 'elements to be renewed'}`, about: gauge, what: `The suction that ${nameOf(boat, gauge)} should show, with ${elements === 'clean' ? 'new elements' : 'elements that are to be renewed'}`,
            formula: `p = ${['ρ × g × (z − S)', ...losses.terms].join(' + ')}`, source: 'sum of what height, pipes, elements and checks take up to there', where: `upright, tanks half full, coldest fuel, ${speedWords(speed)}, line-up ${lineUp.id}`,
            inputs: [
                ...carried('ρ', 'density of the fuel', densityWorking(view)), G, ...placeInputs(nameOf(boat, gauge), place, UPRIGHT, () => ({ about: gauge, fact: 'at', ...(network.parts.get(gauge)?.at?.up ? {} : { words: 'as high as what it is joined to' }) })), ...carried('S', `surface of ${tank.id}`, surface),
                ...(isShare ? [...carried('Q', 'what is drawn', draws[0]), ...carried('Q₀', 'what is drawn at full speed', draws[1])] : []), ...losses.inputs,
            ],
            steps: [...(isShare ? [{ symbol: 'r', what: 'share of the flow at full speed: laminar friction grows with the flow', formula: 'r = Q / Q₀', value: share, unit: '1' }] : []), ...losses.steps],
            result: { symbol: 'p', value: { si: -all[0]!, least: -Math.max(...known), most: -Math.min(...known) }, unit: 'kPa', remains: true }, missing: [],
            notes: all[0]! > 0 ? ['Below nought: pressure stands there, and a gauge that reads suction stays at nought.'] : [],
        }];
    });
}
