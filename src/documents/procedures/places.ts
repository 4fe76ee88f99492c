/** Where things are, told once on a page: all that is written of the place of each thing that hands go to. */
import type { Boat, Id } from '../../model/boat';
import type { Measure, Place } from '../../model/measure';
import type { ServiceStep } from '../../model/step';
import { mm } from '../../model/words';
import { consumerOf, nameOf, partOf, placeOf, ventOf } from './naming';
import type { Row } from './tree';

/** In the order in which the steps come to them; what nothing is written of is not among them. */
export function placeRows(boat: Boat, steps: readonly ServiceStep[], valves: readonly Id[]): Row[] {
    const rows = [...new Set([...steps.flatMap(thingsOf), ...valves])].flatMap((id) => {
        const place = [placeOf(boat, id), spotOf(boat, id)].filter((words) => words !== '').join('; ');
        return place === '' ? [] : [{ label: nameOf(boat, id), value: place }];
    });
    const measured = rows.some(({ value }) => /\d mm (up|forward)/.test(value));
    return measured ? [...rows, { label: 'Measured', value: `up from the ${boat.vessel.datum ?? 'datum, which nobody named'}, forward from the transom, sideways from the middle` }] : rows;
}

function thingsOf(step: ServiceStep): Id[] {
    switch (step.do) {
        case 'bleed': return [step.vent, step.driver.part];
        case 'prove': return [step.vent, step.part];
        case 'read': return [step.gauge];
        case 'start': case 'sequence': return [step.engine];
        case 'switch': return step.of === undefined ? [] : [step.of];
        case 'look': return step.part === undefined ? [] : [step.part];
        case 'open': case 'close': return [step.part, step.opening];
        case 'wait': case 'log': case 'caution': return [];
        default: return [step.part];
    }
}

/** 700 mm up, 3300 mm forward, 300 mm to port */
function spotOf(boat: Boat, id: Id): string {
    const at: Place | undefined = ventOf(boat, id)?.at ?? partOf(boat, id)?.at ?? consumerOf(boat, id)?.inlet;
    if (!at) return '';
    const words = (measure: Measure | undefined, way: string): string[] => (measure === undefined ? [] : [`${mm(Math.abs(measure.si))} ${way}`]);
    return [...words(at.up, (at.up?.si ?? 0) < 0 ? 'down' : 'up'), ...words(at.fwd, (at.fwd?.si ?? 0) < 0 ? 'aft' : 'forward'), ...(at.stbd?.si === 0 ? ['in the middle'] : words(at.stbd, (at.stbd?.si ?? 0) < 0 ? 'to port' : 'to starboard'))].join(', ');
}
