/**
 * What a consumer's return pushes against, Pa above the surroundings at its outlet, which is taken to stand as high as its inlet. A line that is full runs down
 * from its crest as a siphon and helps; one that is not has to be pushed over the crest. The worse of the two is told.
 */
import type { Consumer, Id } from '../../model/boat';
import type { Place } from '../../model/measure';
import type { Estimate } from '../estimate';
import { attitudesOf } from '../opening/condition';
import { heightOf } from '../tanks/attitude';
import type { ResolvedLineUp } from '../topology/line-ups';
import type { Network } from '../topology/network';
import { partsAfter, running } from '../topology/paths';
import { demandAt, fullSpeed } from './demand';
import type { Guess } from './guess';
import { GRAVITY } from './pipe';
import { placeOf } from './plumbed';
import { flowIn, type Asked } from './states';
import type { Passed, Steady } from './steady';
import { worstOf, type How, type Untold } from './suction';

export interface BackPressure {
    readonly asked: Asked;
    readonly steady: Steady;
    /** m³/s. */
    readonly flow: number;
    /** Pa. */
    readonly total: number;
    /** What of it lifts the liquid, up to the surface or to the crest, and what friction and checks take up to there. */
    readonly height: number;
    readonly friction: number;
    readonly checks: number;
    /** The part whose crest it has to be pushed over; absent where the tank's surface decides. */
    readonly over?: Id;
    readonly way: readonly Passed[];
}

export function backPressureAt(network: Network, consumer: Consumer, asked: Asked): BackPressure | Untold {
    const steady = flowIn(network, asked);
    const out = `${consumer.id}:out`;
    const demand = steady.state.demands.get(consumer.id);
    if (!demand || demand.returned <= 0) return { lacks: [{ about: consumer.id, of: 'draws' }] };
    const after = partsAfter(running(network, asked.lineUp.positions), out);
    const lacks = steady.lacks.filter(({ about }) => after.has(about) || [...after].some((part) => part.startsWith(`${about}.`)));
    if (lacks.length > 0) return { lacks };
    const group = steady.groupAt(out);
    if (!group || group.status === 'unbalanced' || group.status === 'unusable') return { lacks: [], status: group?.status === 'unusable' ? 'unusable' : 'unbalanced' };
    const start = heightOf(placeOf(network, out), asked.attitude);
    if (start === undefined) return { lacks: [{ about: consumer.id, of: 'place' }] };
    const gauge = steady.gaugeAt(out);
    if (gauge === undefined) return { lacks: [], status: 'singular' };
    const weight = group.fluid.density * GRAVITY;
    const way = steady.wayFrom(out);
    const last = way.at(-1);
    const surface = last && group.headOf(last.flow! > 0 ? last.link.to : last.link.from);
    const checksOf = (passed: readonly Passed[]): number => passed.reduce((sum, { link }) => sum + (link.check?.opens ?? 0), 0);
    const full = { total: gauge, height: ((surface ?? start) - start) * weight, checks: checksOf(way) };
    let worst: Pick<BackPressure, 'total' | 'height' | 'checks' | 'over'> = full;
    let lost = 0;
    way.forEach((passed, i) => {
        lost += (passed.lost ?? 0) * weight;
        const part = network.passages[passed.passage]!.part!;
        const model = network.parts.get(part);
        const top = Math.max(...[model?.crest, placeOf(network, network.points[network.passages[passed.passage]!.to]!)].map((place: Place | undefined) => heightOf(place, asked.attitude) ?? -Infinity));
        const height = (top - start) * weight;
        if (height + lost > worst.total + SAME) worst = { total: height + lost, height, checks: checksOf(way.slice(0, i + 1)), over: part };
    });
    return { asked, steady, flow: demand.returned, way, ...worst, friction: worst.total - worst.height - worst.checks };
}

/** Pa: of two as bad the first is told. */
const SAME = 1e-3;

export interface WorstBack {
    readonly found: BackPressure;
    /** The worst with every guess as it does most harm: in another of the line-ups, where more is guessed there. */
    readonly most: BackPressure;
    /** Pa. */
    readonly total: Estimate;
}

/** The worst of some line-ups; unless something else is said, over her envelope, tanks as full as they are ever used, at the speed at which most comes back. */
export function worstBackPressure(network: Network, consumer: Consumer, lineUps: readonly ResolvedLineUp[], { attitudes = attitudesOf(network.boat), level = 'full', speed = mostReturned(consumer), ...how }: Partial<How> = {}): { readonly worst?: WorstBack; readonly untold: readonly Untold[] } {
    const worsts: BackPressure[] = [];
    const untold: Untold[] = [];
    for (const lineUp of lineUps) {
        if (lineUp.stopped.includes(consumer.id) || partsAfter(running(network, lineUp.positions), `${consumer.id}:out`).size === 0) continue;
        const found = attitudes.map((attitude) => backPressureAt(network, consumer, { ...how, lineUp, attitude, level, speed }));
        untold.push(...found.flatMap((each) => ('lacks' in each ? [{ ...each, lineUp: lineUp.id }] : [])));
        const own = worstOf(found.flatMap((each) => ('lacks' in each ? [] : [each])));
        if (own) worsts.push(own);
    }
    const worst = worstOf(worsts);
    if (!worst) return { untold };
    const guessed = (each: BackPressure, guess: Guess): BackPressure => { const found = backPressureAt(network, consumer, { ...each.asked, guess }); return 'lacks' in found ? each : found; };
    const [least, most] = [guessed(worst, 'least'), worstOf(worsts.map((each) => guessed(each, 'most')))!];
    return { worst: { found: worst, most, total: { si: worst.total, least: Math.min(least.total, worst.total), most: Math.max(most.total, worst.total) } }, untold };
}

/** The speed at which most comes back, of those that are stated and the fastest; only an engine runs at any but its fastest. */
function mostReturned(consumer: Consumer): number | 'full' {
    if (consumer.kind !== 'engine') return 'full';
    const speeds = [...new Set([...consumer.draws, ...consumer.burns].map(({ at }) => at.si))].sort((a, b) => a - b);
    const back = (speed: number): number => { const demand = demandAt(consumer, speed); return demand?.returns?.si ?? demand?.draws?.si ?? 0; };
    const best = speeds.reduce<number | undefined>((most, speed) => (most === undefined || back(speed) > back(most) ? speed : most), undefined);
    return best === undefined || best === fullSpeed(consumer) ? 'full' : best;
}
