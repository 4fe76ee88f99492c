/**
 * How warm a day tank grows from what its engine sends back.
 *
 * An engine draws G at the temperature T of the tank, burns b of it, and sends back G - b warmer by ΔT. The tank is topped up by b at T_m, so that V m³
 * stay in it. With density and heat capacity alike everywhere they cancel out of the balance of heat:
 *
 *     V dT/dt = (G - b)(T + ΔT) + b T_m - G T = (G - b) ΔT - b (T - T_m)
 *
 * So it tends to T_m + ΔT (G - b)/b, and what is still wanting to that falls as e^(-b t/V). It begins, at T_m, with (G - b) ΔT/V. No heat is lost to the
 * air or the hull: every temperature told here is a bound from above, every time one from below.
 */
import type { Boat, Consumer, Id, Tank } from '../../model/boat';
import type { Measure } from '../../model/measure';
import { ABOUT, exactly, floored, minus, over, plus, sound, times, type Estimate } from '../estimate';
import { demandAt } from '../flow/demand';
import { UPRIGHT } from '../tanks/attitude';
import { grossOf, span } from '../tanks/liquid';
import { FULL } from '../tanks/pickups';
import { lineUpsOf, runLineUps } from '../topology/line-ups';
import { lineUpNetwork, networkOf, reach, type Network } from '../topology/network';
import { running, tanksAfter, tanksBefore } from '../topology/paths';
import { atFull, barredFor, burnersOf, runsIn, type SpeedOf } from './burners';
import { eachLackOnce, type TimeLack } from './lack';

/** T_m + ΔT (G - b)/b, K: where it tends to. m³/s and K. Undefined where nothing may be burnt: it then has no bound. */
export function steadyTemperature(makeUp: Estimate, rise: Estimate, returns: Estimate, burns: Estimate): Estimate | undefined {
    const share = over(floored(returns), burns);
    return share && sound(plus(makeUp, times(floored(rise), share)));
}

/** (G - b) ΔT/V, K/s: how fast it grows warm at first, and at most. */
export const firstRate = (rise: number, returns: number, volume: number): number | undefined => (volume > 0 && Number.isFinite(rise * returns / volume) ? Math.max(0, rise * returns / volume) : undefined);

export interface Heat {
    /** K: of what is in it at first, and of what it is topped up with. */
    readonly start: number;
    readonly makeUp: number;
    /** ΔT, K. */
    readonly rise: number;
    /** G - b and b, m³/s. */
    readonly returns: number;
    readonly burns: number;
    /** m³ in it. */
    readonly volume: number;
}

/** The temperature after so many seconds, K, topped up all the while. Undefined for figures that are none. */
export function temperatureAfter({ start, makeUp, rise, returns, burns, volume }: Heat, seconds: number): number | undefined {
    if (!(volume > 0) || !(burns > 0) || !(returns >= 0) || !(rise >= 0) || !(seconds >= 0)) return undefined;
    const steady = makeUp + rise * returns / burns;
    const found = steady + (start - steady) * Math.exp(-burns * seconds / volume);
    return Number.isFinite(found) ? found : undefined;
}

/** s until it reaches a limit, K, topped up all the while: (V/b) ln((T_s - T_0)/(T_s - T_limit)). `never` if it tends to no more than that. */
export function secondsTo(limit: number, heat: Heat): number | 'never' | undefined {
    const { start, makeUp, rise, returns, burns, volume } = heat;
    if (temperatureAfter(heat, 0) === undefined || !Number.isFinite(limit)) return undefined;
    if (start >= limit) return 0;
    const steady = makeUp + rise * returns / burns;
    if (steady <= limit) return 'never';
    const found = (volume / burns) * Math.log((steady - start) / (steady - limit));
    return Number.isFinite(found) ? found : undefined;
}

/**
 * The same when it is not topped up: what is left grows less by b and warm the faster, dT/dt = (G - b) ΔT/(V - b t), so T = T_0 + ΔT (G - b)/b ln(V/(V - b t)).
 * It always gets there before the tank is empty, unless nothing is warmed: then `never`.
 */
export function secondsToAlone(limit: number, { start, rise, returns, burns, volume }: Omit<Heat, 'makeUp'>): number | 'never' | undefined {
    if (!(volume > 0) || !(burns > 0) || !(returns >= 0) || !(rise >= 0) || !Number.isFinite(limit - start)) return undefined;
    if (start >= limit) return 0;
    const share = rise * returns / burns;
    if (share === 0) return 'never';
    const found = (volume / burns) * (1 - Math.exp(-(limit - start) / share));
    return Number.isFinite(found) ? found : undefined;
}

export interface DayTank {
    readonly tank: Tank;
    /** Whose return it takes, in some line-up for running, and who draw from it then. */
    readonly returning: readonly Consumer[];
}

/**
 * A tank counts as a day tank when a transfer course leads fuel of another tank into it, and it takes a return of what it feeds. A line that lets two tanks
 * level out is none such.
 */
export function dayTanks(boat: Boat): readonly DayTank[] {
    const network = networkOf(boat);
    const allOpen = running(network, new Map(), 'all open');
    const barred = barredFor(network).any;
    const runs = runLineUps(lineUpsOf(boat));
    return boat.tanks.flatMap((tank) => {
        const into = new Set(boat.courses.filter(({ service, to }) => service === 'transfer' && to.part === tank.id).map(({ id }) => id));
        const points = boat.joints.filter(({ course }) => into.has(course)).flatMap(({ from, to }) => [from, to]);
        const fed = points.some((point) => tanksBefore(allOpen, point, barred).some((other) => other !== tank.id && !levels(network, tank, other)));
        const returning = burnersOf(network).filter(({ id }) => runs.some((lineUp) => {
            const linedUp = running(network, lineUp.positions);
            return runsIn(lineUp, id) && tanksAfter(linedUp, `${id}:out`, barred).includes(tank.id) && tanksBefore(linedUp, `${id}:in`, barred).includes(tank.id);
        }));
        return fed && returning.length > 0 ? [{ tank, returning }] : [];
    });
}

/** Whether fuel runs either way between them by itself, and they stand beside one another, or nobody said how high. */
function levels(network: Network, tank: Tank, otherId: Id): boolean {
    const other = network.boat.tanks.find(({ id }) => id === otherId)!;
    const atRest = lineUpNetwork(network, new Map(), 'all open');
    const { betweenTanks } = barredFor(network);
    const [at, there] = [network.tanks.get(tank.id)!, network.tanks.get(otherId)!];
    if (!reach(atRest, atRest.ways, [at], betweenTanks).has(there) || !reach(atRest, atRest.back, [at], betweenTanks).has(there)) return false;
    const [own, its] = [span(tank, UPRIGHT), span(other, UPRIGHT)];
    return !own || !its || (own.low < its.high && its.low < own.high);
}

export interface Heating {
    readonly tank: Id;
    readonly consumers: readonly Id[];
    /** K, where it tends to while it is kept topped up; no warmer. */
    readonly steady?: Estimate;
    /** K/s at first, from 95 % full. */
    readonly rate?: number;
    /** The maker's limit, K, the lowest of theirs, and s until it is reached from the warmest that the fuel comes: topped up, and when it is not. */
    readonly limit?: number;
    readonly toLimit?: number | 'never';
    readonly toLimitAlone?: number | 'never';
    readonly lacks: readonly TimeLack[];
    readonly taken: readonly string[];
}

/**
 * Of a day tank with all that return to it at their speed (full when none is given). What it is topped up with is as warm as the envelope says of the fuel,
 * unless that is given, K. The times are by the best guesses, from its warmest end.
 */
export function heatingOf(boat: Boat, { tank, returning }: DayTank, speedOf: SpeedOf = atFull, makeUp: Measure | undefined = boat.vessel.envelope.fuel): Heating {
    const lacks: TimeLack[] = [];
    const sums = { returns: exactly(0), burns: exactly(0), heat: exactly(0) };
    for (const consumer of returning) {
        const demand = demandAt(consumer, speedOf(consumer));
        const rise = riseOf(consumer);
        if (!demand?.burns) lacks.push({ about: consumer.id, of: 'burns' });
        if (!demand?.draws) lacks.push({ about: consumer.id, of: 'draws' });
        if (!rise) lacks.push({ about: consumer.id, of: 'returns' });
        if (!demand?.burns || !demand.returns || !rise) continue;
        sums.returns = plus(sums.returns, demand.returns);
        sums.burns = plus(sums.burns, demand.burns);
        sums.heat = plus(sums.heat, times(demand.returns, rise));
    }
    const gross = grossOf(tank);
    if (gross === undefined) lacks.push({ about: tank.id, of: 'shape' });
    const fuel = makeUp && sound(warmth(makeUp));
    if (!fuel) lacks.push({ about: 'vessel', of: 'fuel' });
    const limits = returning.flatMap(({ limits: { fuel: most } }) => (most ? [most.low ?? most.si] : []));
    const limit = limits.length > 0 ? Math.min(...limits) : undefined;
    if (limit === undefined) lacks.push(...returning.map(({ id }): TimeLack => ({ about: id, of: 'limit' })));
    const base = { tank: tank.id, consumers: returning.map(({ id }) => id), ...(limit !== undefined && { limit }), lacks: eachLackOnce(lacks) };
    if (lacks.some(({ of }) => of === 'burns' || of === 'draws' || of === 'returns')) return { ...base, taken: [] };
    // The heats add up: of several, ΔT is the mean by what each returns.
    const share = over(sums.heat, sums.burns);
    const steady = fuel && share && sound(plus(fuel, share));
    const volume = gross === undefined ? undefined : FULL * gross;
    const rate = volume === undefined ? undefined : firstRate(1, sums.heat.si, volume);
    const heat = volume !== undefined && fuel ? { start: fuel.most, makeUp: fuel.most, rise: 1, returns: sums.heat.si, burns: sums.burns.si, volume } : undefined;
    const [toLimit, toLimitAlone] = heat && limit !== undefined ? [secondsTo(limit, heat), secondsToAlone(limit, heat)] : [];
    return {
        ...base, ...(steady && { steady }), ...(rate !== undefined && { rate }), ...(toLimit !== undefined && { toLimit }), ...(toLimitAlone !== undefined && { toLimitAlone }),
        taken: ['no heat is lost to the air: the tank stays cooler than is told', ...(volume === undefined ? [] : [`${tank.id} is taken as filled to 95 % (no level is stated)`]), ...(makeUp === boat.vessel.envelope.fuel && fuel ? ['what it is topped up with is as warm as the envelope says of the fuel'] : [])],
    };
}

/** By how much the engine warms what it sends back, K: of several points, from the least to the most. */
export function riseOf({ returns }: Pick<Consumer, 'returns'>): Estimate | undefined {
    const rises = returns.flatMap(({ value, at }) => sound(floored(minus(warmth(value), warmth(at)))) ?? []);
    if (rises.length === 0) return undefined;
    return { si: rises.reduce((all, { si }) => all + si, 0) / rises.length, least: Math.min(...rises.map(({ least }) => least)), most: Math.max(...rises.map(({ most }) => most)) };
}

/** K. `about` of a temperature is a tenth of its degrees Celsius either way. */
const warmth = ({ si, low, high, about }: Measure): Estimate => {
    const off = about ? ABOUT * Math.abs(si - ZERO_CELSIUS) : 0;
    return { si, least: (low ?? si) - off, most: (high ?? si) + off };
};
const ZERO_CELSIUS = 273.15;
