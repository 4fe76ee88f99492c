/**
 * How much fuel goes through an element, and how long that takes, until it holds the dirt that its maker says it holds:
 * V = capacity / (dirt × density × retention), t = V / flow. By the flow through it, what comes back included, not by what is burnt.
 */
import type { Measure } from '../../model/measure';
import { estimateOf, over, times, type Estimate } from '../estimate';
import { efficiencyOf } from './efficiency';

export interface Element {
    /** The dirt that it holds, kg. */
    readonly capacity: Measure;
    /** Of particles as large as it `passes`, how many come for one that goes through. */
    readonly beta?: number;
    /** Filters stand before it, and hold some of the dirt. */
    readonly follows?: boolean;
}

export interface FuelThrough {
    /** Through the element, m³/s. */
    readonly drawn: Measure;
    /** Of that the engine burns, m³/s. */
    readonly burnt?: Measure;
    /** Solid particles in the fuel of the tank, kg in a kg. */
    readonly dirt?: Measure;
    /** kg/m³. */
    readonly density: Measure;
}

export interface Life {
    /** m³ of fuel as dirty as that of the tank. */
    readonly volume: Estimate;
    /** s, when all that comes back is as dirty again as the tank: the dirtiest that it can be. */
    readonly shortest: Estimate;
    /** s, when only what is burnt brings new dirt, since what came back was filtered. Absent when it is not known what is burnt. */
    readonly longest?: Estimate;
    /** What was taken because nothing is said: sentences without their full stop. */
    readonly taken: readonly string[];
}

/**
 * 24 mg/kg is the most that EN 590 allows; 10 mg/kg is what the engine makers' worldwide charter allows its first category. Both by
 * secondary sources. It is what is delivered: dirt that is in the tank already comes on top.
 */
export const DIRT: Measure = { si: 24e-6, low: 10e-6, high: 24e-6 };
/** By mass, without a β. No source; no element holds more than all. */
export const RETENTION: Estimate = { si: 0.95, least: 0.8, most: 1 };

/** Undefined for figures that are none: no dirt, no flow, a beta under 1. */
export function lifeOf(element: Element, fuel: FuelThrough): Life | undefined {
    const retention = retentionOf(element.beta);
    if (!retention) return undefined;
    const [capacity, dirt, density, drawn] = [estimateOf(element.capacity), estimateOf(fuel.dirt ?? DIRT), estimateOf(fuel.density), estimateOf(fuel.drawn)];
    const volume = some(over(capacity, times(times(dirt, density), retention)));
    const shortest = volume && some(over(volume, drawn));
    if (!volume || !shortest) return undefined;
    // More than is drawn cannot be burnt.
    const longest = fuel.burnt && fuel.burnt.si <= fuel.drawn.si ? some(over(volume, estimateOf(fuel.burnt))) : undefined;
    return {
        volume, shortest, ...(longest && { longest }),
        taken: [
            ...(fuel.dirt ? [] : ['the fuel is taken to carry 24 mg/kg of dirt, the most that EN 590 allows; clean fuel carries 10 or less, and dirt that lies in the tank comes on top']),
            element.beta === undefined
                ? 'the element is taken to hold 95 % of the dirt by mass (80 to 100 %; no source)'
                : 'the share of particles that its beta states is taken as that of the dirt by mass; what is finer than it passes is not held, and makes it last longer',
            'the shortest time takes fuel that comes back as dirty as that of the tank, the longest takes it as clean, so that only what is burnt brings dirt',
            ...(element.follows ? ['what the filters before it hold is not taken off, so it lasts longer than this'] : []),
        ],
    };
}

function retentionOf(beta: number | undefined): Estimate | undefined {
    if (beta === undefined) return RETENTION;
    const held = efficiencyOf(beta);
    return held === undefined || held === 0 ? undefined : { si: held, least: held, most: 1 };
}

/** More than nothing. */
const some = (estimate: Estimate | undefined): Estimate | undefined => (estimate && estimate.least > 0 ? estimate : undefined);
