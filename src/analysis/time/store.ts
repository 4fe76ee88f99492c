/** What her tanks hold for her consumers: how much of it can be used, by whom, and what is to be kept back. */
import type { Boat, Fitting, Id, Tank } from '../../model/boat';
import { estimateOf, type Estimate } from '../estimate';
import { FULL, unusable } from '../tanks/pickups';
import { grossOf } from '../tanks/liquid';
import { reach, type Network } from '../topology/network';
import { running } from '../topology/paths';
import { routes } from '../topology/routes';
import { notForFuel } from './burners';
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
 * moved into them. Of each all is usable that lies above the lowest mouth through which it can be drawn on, upright.
 */
export function storeFor(network: Network, consumer: Id, volumes: Volumes = new Map()): Store {
    const mouths = mouthsFor(network, consumer);
    return total(network.boat.tanks.filter(({ id }) => mouths.has(id)).map((tank) => stored(tank, mouths.get(tank.id)!, volumes)));
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
const sumOf = (tanks: readonly Stored[]): number => tanks.reduce((sum, { usable }) => sum + usable, 0);

function total(found: readonly (Stored | TimeLack[])[]): Store {
    const tanks = found.filter((one): one is Stored => !Array.isArray(one));
    const full = tanks.filter(({ holds, gross }) => holds === FULL * gross);
    return {
        tanks, usable: sumOf(tanks), lacks: eachLackOnce(found.flatMap((one) => (Array.isArray(one) ? one : []))),
        taken: full.map(({ tank }) => `${tank} is taken as filled to 95 % (no level is stated)`),
    };
}

function stored(tank: Tank, mouths: readonly Fitting[], volumes: Volumes): Stored | TimeLack[] {
    const gross = grossOf(tank);
    if (gross === undefined) return [{ about: tank.id, of: 'shape' }];
    const below = unusable(tank, mouths.map(({ mouth }) => mouth));
    if (below === undefined) {
        const unknown = mouths.filter(({ mouth }) => !mouth?.up).map(({ id }): TimeLack => ({ about: id, of: 'mouth' }));
        return unknown.length > 0 ? unknown : [{ about: tank.id, of: 'shape' }];
    }
    const said = volumes.get(tank.id);
    const holds = said === undefined || !Number.isFinite(said) ? FULL * gross : Math.min(gross, Math.max(0, said));
    return { tank: tank.id, gross, holds, unusable: below, usable: Math.max(0, holds - below) };
}

/** For each tank that can feed a consumer, the fittings through which it leaves: outwards from the consumer, tank by tank. */
export function mouthsFor(network: Network, consumer: Id): ReadonlyMap<Id, readonly Fitting[]> {
    const answers = mouthsKnown.get(network) ?? new Map<Id, ReadonlyMap<Id, readonly Fitting[]>>();
    mouthsKnown.set(network, answers);
    const found = answers.get(consumer) ?? findMouths(network, consumer);
    answers.set(consumer, found);
    return found;
}

const mouthsKnown = new WeakMap<Network, Map<Id, ReadonlyMap<Id, readonly Fitting[]>>>();

function findMouths(network: Network, consumer: Id): ReadonlyMap<Id, readonly Fitting[]> {
    const allOpen = running(network, new Map(), 'all open');
    const barred = notForFuel(network);
    const found = new Map<Id, readonly Fitting[]>();
    const ends = [network.index.get(`${consumer}:in`)].filter((point): point is number => point !== undefined);
    for (let i = 0; i < ends.length; i++) {
        const met = reach(allOpen, allOpen.back, [ends[i]!], barred);
        const sources = network.boat.tanks.filter(({ id }) => { const at = network.tanks.get(id)!; return at !== ends[i] && met.has(at) && !found.has(id); });
        const on = routes(allOpen, sources.map(({ id }) => network.tanks.get(id)!), [ends[i]!], barred);
        const parts = new Set([...on].flatMap((passage) => network.passages[passage]!.part ?? []));
        for (const tank of sources) {
            found.set(tank.id, tank.fittings.filter(({ id }) => parts.has(id)));
            ends.push(network.tanks.get(tank.id)!);
        }
    }
    return found;
}
