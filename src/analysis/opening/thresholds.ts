/** From which level, and from which heel, a tank floods an opening. */
import type { Id, Tank } from '../../model/boat';
import { heightOf, type Attitude } from '../tanks/attitude';
import { grossOf, surfaceAt, volumeBelow } from '../tanks/liquid';
import type { Condition } from './condition';
import { heldHead, mouthOf } from './open';
import type { Opening } from './openings';
import type { Plumbing } from './plumbing';
import { waysTo, type Coming } from './ways';

export interface Thresholds {
    readonly tank: Id;
    /** It floods with more than this in the tank, m³, at the attitude asked for; `never` if not even when full. Undefined when not known. */
    readonly volume?: number | 'never';
    /** It floods when heeled further than this with the volume asked for, rad; 0 if it does upright, `never` up to MOST. */
    readonly port?: number | 'never';
    readonly stbd?: number | 'never';
}

/** Heels are looked at up to here: beyond it nobody services a filter. */
export const MOST = (60 * Math.PI) / 180;
const STEP = Math.PI / 180;
const ENOUGH = 1e-6;

export function thresholds(plumbing: Plumbing, opening: Opening, condition: Condition): Thresholds[] {
    const ways = waysTo(plumbing, opening.part);
    return [...new Set(ways.map(({ tank }) => tank))].map((id) => {
        const own = ways.filter(({ tank }) => tank === id);
        const tank = plumbing.linedUp.network.boat.tanks.find((other) => other.id === id)!;
        return { tank: id, ...levelOf(plumbing, opening, tank, own, condition.attitude), ...heelsOf(plumbing, opening, tank, own, condition) };
    });
}

/** How high the surface must stand before liquid comes by one of the ways, m: over the opening with what the checks hold back, and over the mouth. */
function leastSurface({ linedUp: { network } }: Plumbing, { place }: Opening, ways: readonly Coming[], attitude: Attitude): number | undefined {
    const height = heightOf(place, attitude);
    return height === undefined ? undefined : Math.min(...ways.map(({ tank, fitting, cracks }) => Math.max(height + heldHead(network.boat, tank, cracks), heightOf(mouthOf(network, fitting), attitude) ?? -Infinity)));
}

function levelOf(plumbing: Plumbing, opening: Opening, tank: Tank, ways: readonly Coming[], attitude: Attitude): Pick<Thresholds, 'volume'> {
    const [surface, gross] = [leastSurface(plumbing, opening, ways, attitude), grossOf(tank)];
    const volume = surface === undefined ? undefined : volumeBelow(tank, surface, attitude);
    return volume === undefined || gross === undefined ? {} : { volume: volume >= gross ? 'never' : volume };
}

function heelsOf(plumbing: Plumbing, opening: Opening, tank: Tank, ways: readonly Coming[], { attitude, volumes }: Condition): Pick<Thresholds, 'port' | 'stbd'> {
    const volume = volumes.get(tank.id);
    /** What drives liquid out at a heel, m; negative while it does not come. */
    const head = (heel: number): number | undefined => {
        const at = { heel, trim: attitude.trim };
        const [surface, least] = [volume === undefined ? undefined : surfaceAt(tank, volume, at), leastSurface(plumbing, opening, ways, at)];
        return surface === undefined || least === undefined ? undefined : surface - least;
    };
    const side = (sign: 1 | -1): number | 'never' | undefined => {
        const upright = head(0);
        if (upright === undefined || head(sign * STEP) === undefined) return undefined;
        if (upright > 0) return 0;
        for (let heel = STEP; heel <= MOST + ENOUGH; heel += STEP) {
            if (head(sign * heel)! > 0) return between((angle) => head(sign * angle)!, heel - STEP, heel);
        }
        return 'never';
    };
    const [port, stbd] = [side(-1), side(1)];
    return { ...(port !== undefined && { port }), ...(stbd !== undefined && { stbd }) };
}

/** Where a function turns from negative to positive. */
function between(of: (x: number) => number, low: number, high: number): number {
    let [from, to] = [low, high];
    while (to - from > ENOUGH) { const middle = (from + to) / 2; if (of(middle) > 0) to = middle; else from = middle; }
    return (from + to) / 2;
}
