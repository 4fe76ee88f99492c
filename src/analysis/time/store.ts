/** What her tanks hold for her consumers: how much of it can be used, by whom, and what is to be kept back. */
import type { Boat, Fitting, Id, Tank } from '../../model/boat';
import { estimateOf, type Estimate } from '../estimate';
import { heightOf, UPRIGHT } from '../tanks/attitude';
import { grossOf, volumeBelow } from '../tanks/liquid';
import { FULL } from '../tanks/pickups';
import { reach, type Network } from '../topology/network';
import { running } from '../topology/paths';
import { routes } from '../topology/routes';
import { barredFor } from './burners';
import { eachLackOnce, type TimeLack } from './lack';

/** Volumes that are in the tanks now, m³. What is not named is taken as filled to 95 %. */
export type Volumes = ReadonlyMap<Id, number>;

export interface Stored {
    readonly tank: Id;
    /** m³ of the inside, in it now, below the mouths, and what is left to use. */
    readonly gross: number;
    readonly holds: number;
    readonly unusable: number;
    readonly usable: number;
    /** The fitting down to whose mouth it is used: its own, or one of the tank that it runs into. */
    readonly mouth: Id;
}

export interface Store {
    readonly tanks: readonly Stored[];
    /** m³. Of the tanks that are known. */
    readonly usable: number;
    readonly lacks: readonly TimeLack[];
    /** Defaults, each one sentence without its full stop. */
    readonly taken: readonly string[];
}

/**
 * The tanks from which a consumer can be fed in some setting of the valves, pumps running: those that it draws from, and those that can be
 * moved into them. Of each all is usable that lies above the lowest mouth through which it can be drawn on, upright; of one that runs into the next without a
 * pump, only what stands higher than what the next can give.
 */
export function storeFor(network: Network, consumer: Id, volumes: Volumes = new Map()): Store {
    const feeds = feedsOf(network, consumer);
    return total(network.boat.tanks.filter(({ id }) => feeds.has(id)).map((tank) => stored(tank, feeds, volumes)), volumes);
}

/**
 * For several at a time. A tank is counted down to the highest mouth that any of them needs there, so that none of them draws air
 * while the others go on.
 */
export function storeForAll(network: Network, consumers: readonly Id[], volumes: Volumes = new Map()): Store {
    const stores = consumers.map((id) => storeFor(network, id, volumes));
    const tanks = network.boat.tanks.flatMap(({ id }) => {
        const found = stores.flatMap((store) => store.tanks.filter(({ tank }) => tank === id));
        return found.length === 0 ? [] : [found.reduce((least, other) => (other.usable < least.usable ? other : least))];
    });
    return { tanks, usable: sumOf(tanks), lacks: eachLackOnce(stores.flatMap(({ lacks }) => lacks)), taken: [...new Set(stores.flatMap(({ taken }) => taken))] };
}

/** What a passage keeps back of what can be used, as a share. Where none is stated: 20 %, of the trade's 20 to 33 %. */
export function reserveOf({ vessel }: Boat): { readonly share: Estimate; readonly taken: readonly string[] } {
    const stated = vessel.reserve && estimateOf(vessel.reserve);
    if (stated) return { share: { si: within(stated.si), least: within(stated.least), most: within(stated.most) }, taken: [] };
    return { share: { si: 0.2, least: 0.2, most: 0.33 }, taken: ['the reserve is taken as 20 % of what can be used (common practice, 20 to 33 %)'] };
}

const within = (share: number): number => Math.min(1, Math.max(0, share));
const isStated = (volume: number | undefined): volume is number => volume !== undefined && Number.isFinite(volume);
const sumOf = (tanks: readonly Stored[]): number => tanks.reduce((sum, { usable }) => sum + usable, 0);

function total(found: readonly (Stored | TimeLack[])[], volumes: Volumes): Store {
    const tanks = found.filter((one): one is Stored => !Array.isArray(one));
    return {
        tanks, usable: sumOf(tanks), lacks: eachLackOnce(found.flatMap((one) => (Array.isArray(one) ? one : []))),
        taken: tanks.filter(({ tank }) => !isStated(volumes.get(tank))).map(({ tank }) => `${tank} is taken as filled to 95 % (no level is stated)`),
    };
}

function stored(tank: Tank, feeds: Feeds, volumes: Volumes): Stored | TimeLack[] {
    const gross = grossOf(tank);
    if (gross === undefined) return [{ about: tank.id, of: 'shape' }];
    const floor = floorOf(tank.id, feeds);
    if ('lacks' in floor) return floor.lacks;
    const below = volumeBelow(tank, floor.height, UPRIGHT);
    if (below === undefined) return [{ about: tank.id, of: 'shape' }];
    const said = volumes.get(tank.id);
    const holds = isStated(said) ? Math.min(gross, Math.max(0, said)) : FULL * gross;
    return { tank: tank.id, gross, holds, unusable: below, usable: Math.max(0, holds - below), mouth: floor.mouth };
}

interface Floor {
    /** m, upright. */
    readonly height: number;
    readonly mouth: Id;
}

/** How far down a tank can be used; or the mouths of which it is not known. */
function floorOf(tank: Id, feeds: Feeds): Floor | { readonly lacks: TimeLack[] } {
    const { through, into, pumped } = feeds.get(tank)!;
    const mouths = through.flatMap(({ id, mouth }): Floor[] => { const height = heightOf(mouth, UPRIGHT); return height === undefined ? [] : [{ height, mouth: id }]; });
    if (through.length === 0) return { lacks: [{ about: tank, of: 'pickup' }] };
    if (mouths.length < through.length) return { lacks: through.filter(({ mouth }) => heightOf(mouth, UPRIGHT) === undefined).map(({ id }) => ({ about: id, of: 'mouth' })) };
    const own = mouths.reduce((low, other) => (other.height < low.height ? other : low));
    if (into === undefined || pumped) return own;
    const next = floorOf(into, feeds);
    return 'lacks' in next || next.height > own.height ? next : own;
}

/** How a tank feeds a consumer. */
interface Feed {
    /** The fittings through which it leaves. */
    readonly through: readonly Fitting[];
    /** The tank that it runs into; absent where the consumer draws from it. */
    readonly into?: Id;
    /** A pump moves it on. */
    readonly pumped: boolean;
}

type Feeds = ReadonlyMap<Id, Feed>;

/** Each tank that can feed a consumer, outwards from it, tank by tank. */
export function feedsOf(network: Network, consumer: Id): Feeds {
    const answers = feedsKnown.get(network) ?? new Map<Id, Feeds>();
    feedsKnown.set(network, answers);
    const found = answers.get(consumer) ?? findFeeds(network, consumer);
    answers.set(consumer, found);
    return found;
}

const feedsKnown = new WeakMap<Network, Map<Id, Feeds>>();

function findFeeds(network: Network, consumer: Id): Feeds {
    const allOpen = running(network, new Map(), 'all open');
    const barred = barredFor(network);
    const start = network.index.get(`${consumer}:in`);
    const ends: { readonly at: number; readonly tank?: Id }[] = start === undefined ? [] : [{ at: start }];
    const found = new Map<Id, Feed>();
    for (let i = 0; i < ends.length; i++) {
        const { at: end, tank: into } = ends[i]!;
        const without = into === undefined ? barred.any : barred.betweenTanks;
        const met = reach(allOpen, allOpen.back, [end], without);
        for (const tank of network.boat.tanks) {
            const at = network.tanks.get(tank.id)!;
            if (at === end || !met.has(at) || found.has(tank.id)) continue;
            const on = [...routes(allOpen, [at], [end], without)].map((passage) => network.passages[passage]!);
            const parts = new Set(on.flatMap(({ part }) => part ?? []));
            found.set(tank.id, { through: outlets(tank.fittings.filter(({ id }) => parts.has(id))), ...(into !== undefined && { into }), pumped: on.some(({ kind }) => kind === 'pump') });
            ends.push({ at, tank: tank.id });
        }
    }
    return found;
}

/** A drop is made to bring fuel in: that some setting of the valves could also draw by it is no plan to count on, unless the tank has nothing else. */
const outlets = (fittings: readonly Fitting[]): readonly Fitting[] => (fittings.some(({ kind }) => kind !== 'drop') ? fittings.filter(({ kind }) => kind !== 'drop') : fittings);
