/** The states in which flow is asked for: what runs in a line-up and how fast, tanks low or full, liquid cold, every guess as it may be. */
import type { Boat, Carries, Id } from '../../model/boat';
import { atLevel, emptiest, fullest, highLevel, lowLevel } from '../opening/condition';
import type { Attitude } from '../tanks/attitude';
import type { ResolvedLineUp } from '../topology/line-ups';
import type { Network } from '../topology/network';
import { partsAfter, partsBefore, running } from '../topology/paths';
import { estimateOf } from '../estimate';
import type { Circuit } from './circuit';
import { demandAt } from './demand';
import { fluidOf } from './fluid';
import { guessOf, type Guess } from './guess';
import type { Demand, Running, Standing } from './plumbed';
import { steady, type Steady } from './steady';

export interface Asked {
    readonly lineUp: ResolvedLineUp;
    readonly attitude: Attitude;
    /** As low as anything can be drawn from within the envelope, as full as she is ever used, or so much in each tank, m³. */
    readonly level: 'low' | 'full' | ReadonlyMap<Id, number>;
    /** Of the engines, rev/s; `full`, each at its fastest; nothing runs. Generators and heaters run at their own full speed. */
    readonly speed: number | 'full' | 'stopped';
    readonly elements?: 'clean' | 'dirty';
    readonly guess?: Guess;
    /** In place of the coldest that she uses. */
    readonly fluid?: Circuit['fluid'];
}

/** The flow so asked for. What many rules ask for is worked out once for a boat. */
export function flowIn(network: Network, asked: Asked): Steady {
    const answers = known.get(network) ?? { running: new Map(), steady: new Map() };
    known.set(network, answers);
    const { lineUp, attitude, level, speed, elements = 'dirty', guess = 'likely', fluid } = asked;
    const key = [lineUp.id, speed, elements, guess].join(' ');
    const isOwn = fluid !== undefined;
    const running = isOwn ? runningIn(network, asked) : answers.running.get(key) ?? runningIn(network, asked);
    if (!isOwn) answers.running.set(key, running);
    if (isOwn || typeof level !== 'string') return steady(network, running, standingIn(network, asked));
    const whole = [key, attitude.heel, attitude.trim, level].join(' ');
    const found = answers.steady.get(whole) ?? steady(network, running, standingIn(network, asked));
    answers.steady.set(whole, found);
    return found;
}

const known = new WeakMap<Network, { readonly running: Map<string, Running>; readonly steady: Map<string, Steady> }>();

function runningIn(network: Network, { lineUp, speed, elements = 'dirty', guess = 'likely', fluid }: Asked): Running {
    return {
        positions: lineUp.positions, elements, guess,
        demands: speed === 'stopped' ? new Map() : demandsIn(network, lineUp, speed, guess), pumps: speed === 'stopped' ? new Map() : movingIn(network, lineUp),
        fluid: (carries) => fluid ?? coldest(network.boat, carries, guess),
    };
}

/** As cold as she uses it; with every guess for the most it is as thick and as heavy as it may be. */
export function coldest(boat: Boat, carries: Carries | undefined, guess: Guess): Circuit['fluid'] {
    const { density, viscosity, thinnest, thickest, lightest, heaviest } = fluidOf(boat.vessel, carries, 'cold');
    return guess === 'likely' ? { density, viscosity } : guess === 'most' ? { density: heaviest, viscosity: thickest } : { density: lightest, viscosity: thinnest };
}

function standingIn({ boat }: Network, { attitude, level }: Asked): Standing {
    const down = level === 'low';
    if (typeof level !== 'string') return { condition: { attitude, volumes: level }, down };
    // The corners of her envelope are lists that every rule shares, with the surfaces that were worked out for them.
    const shared = (down ? emptiest : fullest)(boat).find((other) => other.attitude.heel === attitude.heel && other.attitude.trim === attitude.trim);
    return { condition: shared ?? { attitude, volumes: atLevel(boat, down ? lowLevel(boat) : highLevel(boat)) }, down };
}

/**
 * What each consumer draws and gives back that runs in the line-up: in one for running or for an emergency, all that are not said to be stopped.
 * While fuel is transferred or polished, or something is worked on, none counts as running. What returns is all that is drawn where nobody knows what is burnt.
 */
export function demandsIn({ boat }: Network, { use, stopped }: ResolvedLineUp, speed: number | 'full', guess: Guess): ReadonlyMap<Id, Demand> {
    if (use === 'transfer' || use === 'polish' || use === 'service' || use === 'laid up') return new Map();
    return new Map(boat.consumers.filter(({ id, kind }) => kind !== 'exchanger' && !stopped.includes(id)).flatMap((consumer) => {
        const demand = demandAt(consumer, consumer.kind === 'engine' ? speed : 'full');
        const drawn = demand?.draws && guessOf(demand.draws, guess);
        return drawn === undefined ? [] : [[consumer.id, { drawn, returned: Math.max(0, demand?.returns ? guessOf(demand.returns, guess) : drawn) }] as const];
    }));
}

/** What electric pumps move by themselves in a line-up for transfer or polishing: those between tanks. */
export function movingIn(network: Network, { use, positions }: ResolvedLineUp): ReadonlyMap<Id, number> {
    if (use !== 'transfer' && use !== 'polish') return new Map();
    const linedUp = running(network, positions);
    return new Map(network.boat.parts.flatMap(({ id, kind, rate }) => {
        const moves = kind === 'electric pump' && rate !== undefined && partsBefore(linedUp, `${id}:in`).size > 0 && partsAfter(linedUp, `${id}:out`).size > 0;
        return moves ? [[id, estimateOf(rate).si] as const] : [];
    }));
}
