/**
 * What a consumer's feed pump has to draw against: the height from the surface up to it, friction, elements and checks on the way. Measured at the
 * inlet of the first pump that the liquid meets, or of the consumer where none is written; Pa below the surroundings.
 */
import type { Consumer, Fitting, Id, Tank } from '../../model/boat';
import { attitudesOf, emptiest, surfaceIn } from '../opening/condition';
import type { Attitude } from '../tanks/attitude';
import { heightOf } from '../tanks/attitude';
import { partsOnEveryWayTo } from '../topology/every-way';
import type { ResolvedLineUp } from '../topology/line-ups';
import type { Network } from '../topology/network';
import { follows, partsBefore, running, tanksBefore } from '../topology/paths';
import type { Estimate } from '../estimate';
import type { Guess } from './guess';
import { GRAVITY } from './pipe';
import { placeOf, type FlowLack } from './plumbed';
import { flowIn, type Asked } from './states';
import type { Passed, Steady } from './steady';

export interface Inlet {
    readonly point: string;
    /** Absent where the consumer itself draws. */
    readonly pump?: Id;
    /** A pump behind it, to which this one pushes. */
    readonly feeds?: Id;
}

/** Undefined where nothing comes to the consumer in the line-up. */
export function inletOf(network: Network, lineUp: ResolvedLineUp, consumer: Id): Inlet | undefined {
    const linedUp = running(network, lineUp.positions);
    const point = `${consumer}:in`;
    if (tanksBefore(linedUp, point).length === 0) return undefined;
    const pumps = [...partsOnEveryWayTo(linedUp, point)].filter((id) => ['lift pump', 'electric pump'].includes(network.parts.get(id)?.kind ?? ''));
    const first = pumps.find((pump) => pumps.every((other) => other === pump || follows(linedUp, pump, other)));
    const last = pumps.find((pump) => pumps.every((other) => other === pump || follows(linedUp, other, pump)));
    return first === undefined ? { point } : { point: `${first}:in`, pump: first, ...(last !== undefined && last !== first && { feeds: last }) };
}

/** How high an inlet stands over a surface from which it draws. */
export interface Lift {
    readonly inlet: Inlet;
    readonly lineUp: Id;
    readonly attitude: Attitude;
    readonly tank: Tank;
    readonly fitting: Fitting;
    /** m; below nought where the surface stands higher. */
    readonly height: number;
    /** The pickup's mouth is only just reached. */
    readonly justWet: boolean;
}

/** The tanks' fittings from which an inlet draws in a line-up. */
export function drawnFrom(network: Network, lineUp: ResolvedLineUp, inlet: Inlet): readonly Pick<Lift, 'tank' | 'fitting'>[] {
    const before = partsBefore(running(network, lineUp.positions), inlet.point);
    return network.boat.tanks.flatMap((tank) => tank.fittings.filter(({ id }) => before.has(id)).map((fitting) => ({ tank, fitting })));
}

/**
 * Over each surface from which it draws, at each attitude of the envelope, with the tanks as low as they are used, though not lower than the
 * mouth: below it nothing is drawn. What is not known is left out.
 */
export function liftsOf(network: Network, lineUp: ResolvedLineUp, inlet: Inlet): readonly Lift[] {
    return drawnFrom(network, lineUp, inlet).flatMap(({ tank, fitting }) => emptiest(network.boat).flatMap((condition): Lift[] => {
        const { attitude } = condition;
        const [surface, mouth, height] = [surfaceIn(condition, tank), heightOf(fitting.mouth, attitude), heightOf(placeOf(network, inlet.point), attitude)];
        if (surface === undefined || mouth === undefined || height === undefined) return [];
        return [{ inlet, lineUp: lineUp.id, attitude, tank, fitting, height: height - Math.max(surface, mouth), justWet: mouth >= surface }];
    }));
}

export interface Suction {
    readonly inlet: Inlet;
    readonly asked: Asked;
    readonly steady: Steady;
    /** m³/s through the inlet. */
    readonly flow: number;
    /** Pa below the surroundings; below nought where it is pushed in. The sum of the next four. */
    readonly total: number;
    readonly height: number;
    readonly friction: number;
    readonly elements: number;
    readonly checks: number;
    /** From the tank on; what each takes, Pa. */
    readonly way: readonly Taken[];
    /** The fitting of the tank from which most of it comes. */
    readonly from: Id | undefined;
}

export interface Taken {
    readonly part: Id;
    readonly by: 'friction' | 'element' | 'check';
    /** Pa. */
    readonly loss: number;
    readonly passed: Passed;
}

/** What is not known on the way to an inlet. */
export interface Untold {
    readonly lacks: readonly (FlowLack | { readonly about: Id; readonly of: 'draws' | 'place' })[];
    /** The flow that is asked for cannot come. */
    readonly status?: 'unbalanced' | 'unusable' | 'singular';
    /** In which line-up. */
    readonly lineUp?: Id;
}

export function suctionAt(network: Network, consumer: Consumer, inlet: Inlet, asked: Asked): Suction | Untold {
    const found = flowIn(network, asked);
    const demand = found.state.demands.get(consumer.id);
    if (!demand || demand.drawn <= 0) return { lacks: [{ about: consumer.id, of: 'draws' }] };
    const way = found.wayTo(inlet.point);
    const before = partsBefore(running(network, asked.lineUp.positions), inlet.point);
    const lacks = found.lacks.filter(({ about, of }) => (of === 'surface' ? way.some(({ passage }) => partOf(network, passage)?.startsWith(`${about}.`)) || way.length === 0 : before.has(about)));
    const group = found.groupAt(inlet.point);
    if (lacks.length > 0) return { lacks };
    if (!group || group.status === 'unbalanced' || group.status === 'unusable') return { lacks: [], status: group?.status === 'unusable' ? 'unusable' : 'unbalanced' };
    const gauge = found.gaugeAt(inlet.point);
    if (gauge === undefined) return heightOf(placeOf(network, inlet.point), asked.attitude) === undefined ? { lacks: [{ about: inlet.pump ?? consumer.id, of: 'place' }] } : { lacks: [], status: 'singular' };
    const weight = group.fluid.density * GRAVITY;
    const taken = way.flatMap((passed): Taken[] => {
        const part = partOf(network, passed.passage);
        if (part === undefined || passed.lost === undefined) return [];
        const loss = passed.lost * weight;
        const opens = passed.link.check?.opens ?? 0;
        if (passed.link.check) return opens > 0 ? [{ part, by: 'check', loss, passed }] : [];
        const isElement = network.parts.get(part)?.kind === 'filter';
        return passed.link.pipes || isElement ? [{ part, by: isElement ? 'element' : 'friction', loss, passed }] : [];
    });
    const sum = (by: Taken['by']): number => taken.filter((each) => each.by === by).reduce((total, { loss }) => total + loss, 0);
    const [elements, checks] = [sum('element'), sum('check')];
    const source = way[0];
    const surface = source && group.headOf(source.flow! > 0 ? source.link.from : source.link.to);
    const height = surface === undefined ? 0 : (heightOf(placeOf(network, inlet.point), asked.attitude)! - surface) * weight;
    return {
        inlet, asked, steady: found, flow: demand.drawn, total: -gauge, height, elements, checks, friction: -gauge - height - elements - checks, way: taken,
        from: source && partOf(network, source.passage),
    };
}

const partOf = (network: Network, passage: number): Id | undefined => network.passages[passage]!.part;

export const isTold = (found: Suction | Untold): found is Suction => !('lacks' in found);

export interface Worst {
    readonly suction: Suction;
    /** The worst with every guess as it does most harm: in another of the line-ups, where more is guessed there. */
    readonly most: Suction;
    /** Pa: likely, and how far off the guesses leave it. */
    readonly total: Estimate;
}

/** How the worst is asked for; what is not said of level and attitudes is the careful end, over her envelope. */
export type How = Pick<Asked, 'speed'> & Partial<Pick<Asked, 'level' | 'elements' | 'fluid'>> & { readonly attitudes?: readonly Attitude[] };

/**
 * The worst of some line-ups, over her envelope, with the liquid as low as it can be drawn and as cold as she uses it. Where in one of them it cannot
 * be told, that is what is told, unless another is known.
 */
export function worstSuction(network: Network, consumer: Consumer, lineUps: readonly ResolvedLineUp[], { attitudes = attitudesOf(network.boat), level = 'low', ...how }: How = { speed: 'full' }): { readonly worst?: Worst; readonly untold: readonly Untold[] } {
    const worsts: Suction[] = [];
    const untold: Untold[] = [];
    for (const lineUp of lineUps) {
        const inlet = inletOf(network, lineUp, consumer.id);
        if (!inlet || lineUp.stopped.includes(consumer.id)) continue;
        const found = attitudes.map((attitude) => suctionAt(network, consumer, inlet, { ...how, lineUp, attitude, level }));
        untold.push(...found.flatMap((each) => (isTold(each) ? [] : [{ ...each, lineUp: lineUp.id }])));
        const own = worstOf(found.filter(isTold));
        if (own) worsts.push(own);
    }
    const worst = worstOf(worsts);
    if (!worst) return { untold };
    const guessed = (suction: Suction, guess: Guess): Suction => { const found = suctionAt(network, consumer, suction.inlet, { ...suction.asked, guess }); return isTold(found) ? found : suction; };
    const [least, most] = [guessed(worst, 'least'), worstOf(worsts.map((each) => guessed(each, 'most')))!];
    return { worst: { suction: worst, most, total: { si: worst.total, least: Math.min(least.total, worst.total), most: Math.max(most.total, worst.total) } }, untold };
}

/** Of those that are as bad the first. */
export function worstOf<T extends { readonly total: number }>(all: readonly T[]): T | undefined {
    const most = Math.max(...all.map(({ total }) => total));
    return all.find(({ total }) => total >= most - SAME);
}

/** Pa: a difference that is none. */
const SAME = 1e-3;
