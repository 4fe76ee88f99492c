/** From which level, and from which heel, a tank floods an opening. */
import type { Id } from '../../model/boat';
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
const MOST = (60 * Math.PI) / 180;
const STEP = Math.PI / 180;
const ENOUGH = 1e-6;

export function thresholds(plumbing: Plumbing, opening: Opening, condition: Condition): Thresholds[] {
    return waysTo(plumbing, opening.part).map((coming) => ({ tank: coming.tank, ...levelOf(plumbing, opening, coming, condition.attitude), ...heelsOf(plumbing, opening, coming, condition) }));
}

const tankOf = ({ linedUp: { network } }: Plumbing, id: Id) => network.boat.tanks.find((tank) => tank.id === id)!;

function levelOf(plumbing: Plumbing, opening: Opening, coming: Coming, attitude: Attitude): Pick<Thresholds, 'volume'> {
    const { network, network: { boat } } = plumbing.linedUp;
    const tank = tankOf(plumbing, coming.tank);
    const [height, gross] = [heightOf(opening.place, attitude), grossOf(tank)];
    const mouth = heightOf(mouthOf(network, coming.fitting), attitude);
    const volume = height === undefined ? undefined : volumeBelow(tank, Math.max(height + heldHead(boat, coming.tank, coming.cracks), mouth ?? -Infinity), attitude);
    return volume === undefined || gross === undefined ? {} : { volume: volume >= gross ? 'never' : volume };
}

function heelsOf(plumbing: Plumbing, opening: Opening, coming: Coming, { attitude, volumes }: Condition): Pick<Thresholds, 'port' | 'stbd'> {
    const { network, network: { boat } } = plumbing.linedUp;
    const [tank, volume] = [tankOf(plumbing, coming.tank), volumes.get(coming.tank)];
    const mouth = mouthOf(network, coming.fitting);
    /** What drives liquid out at a heel, m; negative while it does not come. */
    const head = (heel: number): number | undefined => {
        const at = { heel, trim: attitude.trim };
        const [surface, height] = [volume === undefined ? undefined : surfaceAt(tank, volume, at), heightOf(opening.place, at)];
        if (surface === undefined || height === undefined) return undefined;
        const dry = heightOf(mouth, at) ?? -Infinity;
        return Math.min(surface - height - heldHead(boat, coming.tank, coming.cracks), surface - dry);
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
