/** How much a tank must hold for a mouth to be in the liquid, and how much of it can be used. */
import type { Consumer, Envelope, Fitting, Id, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import { reach, type LinedUp, type Network, type Positions } from '../topology/network';
import { joinedTanks } from '../topology/paths';
import { corners, heightOf, UPRIGHT, type Attitude } from './attitude';
import { grossOf, volumeBelow } from './liquid';

/** The volume at which the surface just reaches a mouth, m³: 0 when the mouth lies below the whole tank. Undefined when heights are not known. */
export function leastToWet(tank: Tank, mouth: Place | undefined, attitude: Attitude): number | undefined {
    const height = heightOf(mouth, attitude);
    return height === undefined ? undefined : volumeBelow(tank, height, attitude);
}

/** Steps of heel and of trim that are tried between the corners of the envelope: a high mouth can be worst within it. */
const STEPS = 8;

/**
 * The most that a mouth can need anywhere in the envelope, m³, and where: in all the tanks that stand at one level, when an open line joins
 * them. Undefined when heights are not known, or heel or trim are not stated: she may then lean any way.
 */
export function mostToWet(tanks: readonly Tank[], mouth: Place | undefined, envelope: Envelope): { readonly volume: number; readonly attitude: Attitude } | undefined {
    if (!envelope.heel || !envelope.trim) return undefined;
    let worst: { volume: number; attitude: Attitude } | undefined;
    for (const attitude of [...corners(envelope), ...between(envelope)]) {
        const volume = tanks.reduce<number | undefined>((sum, tank) => { const own = leastToWet(tank, mouth, attitude); return sum === undefined || own === undefined ? undefined : sum + own; }, 0);
        if (volume === undefined) return undefined;
        // Of two as bad, the corner of the envelope is named.
        if (!worst || volume > worst.volume + 1e-9) worst = { volume, attitude };
    }
    return worst;
}

/**
 * The tanks that can take the liquid at a pickup's mouth, its own first: those that an open line joins to its own, unless the line leaves that
 * tank higher than the mouth, at every heel and trim of the envelope, as an overflow does. It then runs dry before the pickup can. Without an
 * envelope this is asked upright. Where a line leaves the tank when she leans may not be known: it then counts as low, or, `at least`, as it is upright.
 */
export function sharing(network: Network, positions: Positions, pickup: Fitting, envelope: Envelope, which: 'all that may' | 'at least' = 'all that may'): readonly Tank[] {
    const { boat } = network;
    const own = boat.tanks.find(({ id }) => id === pickup.tank)!;
    const attitudes = [...corners(envelope), ...between(envelope)];
    const higher = own.fittings.filter(({ id, mouth }) => id !== pickup.id && attitudes.every((attitude) => {
        const at = which === 'at least' && !(mouth?.fwd && mouth.stbd && pickup.mouth?.fwd && pickup.mouth.stbd) ? UPRIGHT : attitude;
        const [line, least] = [heightOf(mouth, at), heightOf(pickup.mouth, at)];
        return line !== undefined && least !== undefined && line > least + SAME;
    }));
    const group = joinedTanks(network, positions, higher.map(({ id }) => id)).find((ids) => ids.includes(own.id)) ?? [];
    return [own, ...boat.tanks.filter((tank) => tank !== own && group.includes(tank.id))];
}

/** Mouths closer than this stand level, m. */
const SAME = 1e-4;

function between({ heel, trim }: Envelope): Attitude[] {
    const steps = (most: number): number[] => Array.from({ length: STEPS + 1 }, (_, i) => most * (2 * i / STEPS - 1));
    return steps(heel?.high ?? heel?.si ?? 0).flatMap((h) => steps(trim?.high ?? trim?.si ?? 0).map((t) => ({ heel: h, trim: t })));
}

/** The consumers that draw from a pickup, of a network in which the pumps run (`running`). */
export function drawing(linedUp: LinedUp, pickup: Id): readonly Consumer[] {
    const answers = drawingKnown.get(linedUp) ?? new Map<Id, readonly Consumer[]>();
    drawingKnown.set(linedUp, answers);
    const found = answers.get(pickup) ?? findDrawing(linedUp, pickup);
    answers.set(pickup, found);
    return found;
}

/** Every pickup is asked of for every consumer. */
const drawingKnown = new WeakMap<LinedUp, Map<Id, readonly Consumer[]>>();

function findDrawing(linedUp: LinedUp, pickup: Id): readonly Consumer[] {
    const { boat, index } = linedUp.network;
    const start = index.get(pickup);
    if (start === undefined) return [];
    const reached = reach(linedUp, linedUp.ways, [start]);
    return boat.consumers.filter(({ id }) => reached.has(index.get(`${id}:in`)!));
}

/** Below the lowest of the mouths nothing can be drawn, m³: upright. Undefined without a mouth, or when one of them is not known. */
export function unusable(tank: Tank, mouths: readonly (Place | undefined)[]): number | undefined {
    const volumes = mouths.map((mouth) => leastToWet(tank, mouth, UPRIGHT));
    return volumes.length === 0 || volumes.includes(undefined) ? undefined : Math.min(...volumes as number[]);
}

/** A tank is full at 95 % of its gross volume, so that fuel can grow warm. Trade practice. */
export const FULL = 0.95;

/** What can be used, m³: usable = 0.95 gross - unusable, upright (trade practice). */
export function usable(tank: Tank, mouths: readonly (Place | undefined)[]): number | undefined {
    const [gross, rest] = [grossOf(tank), unusable(tank, mouths)];
    return gross === undefined || rest === undefined ? undefined : Math.max(0, FULL * gross - rest);
}
