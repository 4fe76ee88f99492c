/** What a tank has room for, or runs out of its vent, when the fuel in it grows warm. */
import type { Tank } from '../../model/boat';
import { grossOf } from '../tanks/liquid';

/**
 * The factor by which a volume at a temperature (K) is brought to that at 15 °C, as tables of volume correction give it. Undefined outside of them.
 */
export type Correction = (kelvin: number) => number | undefined;

/** What a volume grows by from one temperature to another: the corrections the other way round, V2/V1 = VCF(T1)/VCF(T2). */
export function growth(correction: Correction, from: number, to: number): number | undefined {
    const [before, after] = [correction(from), correction(to)];
    return before === undefined || after === undefined ? undefined : ratio(before, after);
}

function ratio(before: number, after: number): number | undefined {
    const found = before / after;
    return before > 0 && after > 0 && Number.isFinite(found) ? found : undefined;
}

export interface Warmed {
    /** m³ that the fuel then takes, were there no lid. */
    readonly volume: number;
    /** m³ that run out, and room up to the lid that is left. One of them is nothing. */
    readonly over: number;
    readonly room: number;
    /** The share of the gross volume to which it may be filled so that nothing runs out; no more than all of it. */
    readonly fillTo: number;
}

/** Of a volume (m³) in a tank of so much gross volume, when it grows by a ratio (V2/V1). The tank itself is taken not to grow: a steel one of 1000 L does by some 0.9 L over 25 K, which helps. */
export function warmed(gross: number, volume: number, by: number): Warmed | undefined {
    if (!(gross > 0) || !(volume >= 0) || !(volume <= gross) || !(by > 0) || !Number.isFinite(gross * by)) return undefined;
    const after = volume * by;
    return { volume: after, over: Math.max(0, after - gross), room: Math.max(0, gross - after), fillTo: Math.min(1, 1 / by) };
}

/** The same for a tank at a level, as a share of its gross volume, warmed from one temperature (K) to another. */
export function expansionOf(tank: Tank, level: number, from: number, to: number, correction: Correction): Warmed | undefined {
    const [gross, by] = [grossOf(tank), growth(correction, from, to)];
    return gross === undefined || by === undefined ? undefined : warmed(gross, level * gross, by);
}
