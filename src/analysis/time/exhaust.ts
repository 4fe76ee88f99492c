/** How long an engine may be cranked before its raw-water pump has filled the muffler of a wet exhaust. */
import type { Consumer } from '../../model/boat';
import { estimateOf, over, sound, times, type Estimate } from '../estimate';

/**
 * s in which cranking fills the muffler: V / (Q n_crank / n). The raw-water pump moves in proportion to its speed. Undefined when it is not wet, or one of
 * the three is not stated.
 */
export function floodTime({ exhaust }: Pick<Consumer, 'exhaust'>): Estimate | undefined {
    if (exhaust?.kind !== 'wet' || !exhaust.mufflerFree || !exhaust.rawWater || !exhaust.cranks) return undefined;
    const { value, at } = exhaust.rawWater;
    const [free, share] = [sound(estimateOf(exhaust.mufflerFree)), over(estimateOf(exhaust.cranks), estimateOf(at))];
    return free && share && free.least >= 0 ? over(free, times(estimateOf(value), share)) : undefined;
}

/** Of that time half is used, s (trade practice), of the least that it may be. */
export function crankBudget(consumer: Pick<Consumer, 'exhaust'>): number | undefined {
    const flooded = floodTime(consumer);
    return flooded && flooded.least / 2;
}
