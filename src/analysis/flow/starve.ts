/**
 * At which level each consumer loses its fuel as the tanks go down together: its pickup comes dry, or before that its pump has to draw against more than
 * its maker allows. The one at the highest level starves first.
 */
import type { Consumer, Id, Tank } from '../../model/boat';
import { heightOf, type Attitude } from '../tanks/attitude';
import { grossOf, volumeBelow } from '../tanks/liquid';
import { fittingOf } from '../topology/joints';
import type { ResolvedLineUp } from '../topology/line-ups';
import type { Network } from '../topology/network';
import { GRAVITY } from './pipe';
import type { Asked } from './states';
import { inletOf, isTold, suctionAt, type Suction, type Untold } from './suction';

export interface Starves {
    readonly consumer: Id;
    readonly tank: Id;
    readonly attitude: Attitude;
    readonly by: 'dry pickup' | 'suction';
    /** With less than so much in its tank, m³, and as a share of its gross volume. */
    readonly volume: number;
    readonly share: number;
    readonly suction: Suction;
}

export interface StarveUntold {
    readonly consumer: Id;
    readonly untold: Untold;
}

/** The worst of some attitudes for each consumer that runs, the first to starve first; and of those that cannot be told, why. */
export function starving(network: Network, lineUp: ResolvedLineUp, attitudes: readonly Attitude[], how: Pick<Asked, 'speed' | 'elements' | 'guess' | 'fluid'> = { speed: 'full' }): { readonly first: readonly Starves[]; readonly untold: readonly StarveUntold[] } {
    const found: Starves[] = [];
    const untold: StarveUntold[] = [];
    for (const consumer of network.boat.consumers) {
        const inlet = inletOf(network, lineUp, consumer.id);
        if (!inlet || lineUp.stopped.includes(consumer.id) || consumer.kind === 'exchanger') continue;
        const cases = attitudes.map((attitude) => ({ attitude, suction: suctionAt(network, consumer, inlet, { ...how, lineUp, attitude, level: 'low' }) }));
        const lacking = cases.find(({ suction }) => !isTold(suction));
        if (lacking) untold.push({ consumer: consumer.id, untold: lacking.suction as Untold });
        const worst = cases.flatMap(({ attitude, suction }) => (isTold(suction) ? [levelOf(network, consumer, attitude, suction)].flatMap((level) => level ?? []) : []))
            .reduce<Starves | undefined>((most, other) => (most && most.share >= other.share ? most : other), undefined);
        if (worst) found.push(worst);
    }
    return { first: found.sort((a, b) => b.share - a.share || (a.consumer < b.consumer ? -1 : 1)), untold };
}

/** The suction is that with the surface at the lowest at which the pickup draws; every metre above it takes its weight off. */
function levelOf({ boat }: Network, consumer: Consumer, attitude: Attitude, suction: Suction): Starves | undefined {
    const fitting = suction.from === undefined ? undefined : fittingOf(boat, suction.from);
    const tank: Tank | undefined = boat.tanks.find(({ id }) => id === fitting?.tank);
    const [gross, mouth] = [tank && grossOf(tank), heightOf(fitting?.mouth, attitude)];
    if (!tank || gross === undefined || mouth === undefined) return undefined;
    const dry = volumeBelow(tank, mouth, attitude);
    if (dry === undefined) return undefined;
    const limit = consumer.limits.inlet?.si;
    const weight = suction.steady.groupAt(suction.inlet.point)!.fluid.density * GRAVITY;
    const source = suction.total - suction.height;
    const inlet = suction.height / weight;
    // The height of the surface at which all of it is just the limit, above the mouth's level as the suction was reckoned from it.
    const reckoned = surfaceOf(suction);
    const least = limit === undefined || suction.inlet.feeds !== undefined || reckoned === undefined ? undefined : reckoned + inlet - (limit - source) / weight;
    const needed = least === undefined ? undefined : volumeBelow(tank, least, attitude);
    const bySuction = needed !== undefined && needed > dry;
    const volume = bySuction ? needed : dry;
    return { consumer: consumer.id, tank: tank.id, attitude, by: bySuction ? 'suction' : 'dry pickup', volume, share: volume / gross, suction };
}

/** The head at the tank's end of the way, m. */
function surfaceOf({ steady, way, inlet }: Suction): number | undefined {
    const first = way[0]?.passed;
    return first && steady.groupAt(inlet.point)?.headOf(first.flow! > 0 ? first.link.from : first.link.to);
}
