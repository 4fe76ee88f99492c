/**
 * What moves when something is opened: liquid of a tank comes out, hangs level, or falls back and air follows.
 *
 * A surface that stands higher than the opening, by more than the checks between hold back, drives liquid out of it: h = z(surface) -
 * z(opening) - Σ p(crack) / ρg. That the line rises over a crest in between does not stop it while the line is full; a crest
 * above the surface only means that it runs as a siphon, which air would break.
 */
import type { Boat, Id, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import { MOUTHS } from '../air/gravity';
import { fluidOf, type Warmth } from '../flow/fluid';
import { GRAVITY, flowByHead } from '../flow/pipe';
import { rowOf } from '../flow/row';
import { UPRIGHT, heightOf } from '../tanks/attitude';
import { surfaceAt, volumeBelow } from '../tanks/liquid';
import { fittingOf } from '../topology/joints';
import { reach, type Network, type Passage } from '../topology/network';
import { volumeOf } from '../volumes';
import { span } from '../air/heights';
import { surfaceIn, type Condition } from './condition';
import { eachOnce, lackOf, type Lack } from './lack';
import type { Opening } from './openings';
import { emptiesWith, type Plumbing } from './plumbing';
import { onlyThrough, pointsOf, waysTo, type Coming } from './ways';

/** Heights that differ by less than this are called level, m: trade practice, no source. */
export const LEVEL = 0.02;

export interface FromTank extends Coming {
    /** `dry`: the mouth of the pipe in the tank is above the surface. */
    readonly outcome: 'floods' | 'level' | 'below' | 'dry' | 'cannot tell';
    /** What drives it, m: positive out of the opening. */
    readonly head?: number;
    readonly lacks: readonly Lack[];
}

export interface Held {
    readonly parts: readonly Id[];
    /** Of the parts whose content is known, m³. */
    readonly volume: number;
    /** Parts whose content is not known. */
    readonly unknown: readonly Id[];
}

export interface Opened {
    readonly opening: Opening;
    /** `stays`: nothing moves; `shut off`: no tank reaches it. */
    readonly outcome: 'floods' | 'level' | 'falls back' | 'stays' | 'shut off' | 'cannot tell';
    readonly tanks: readonly FromTank[];
    /** From all tanks, m³; undefined when it is not known of one that floods. */
    readonly volume?: number;
    /** Liquid in the lines that can run out here: at most, since a sealed line may hold its own. */
    readonly hangs: Held;
    /** Liquid in the lines that can fall back to a tank, air following. */
    readonly falls: Held;
    readonly lacks: readonly Lack[];
}

/** What every tank that can reach an opening does there, by that of its ways which does most; of all ways, or of those by one fitting. */
export function headsOn(plumbing: Plumbing, opening: Opening, condition: Condition, by?: Id): readonly FromTank[] {
    const worst = new Map<Id, FromTank>();
    for (const coming of waysTo(plumbing, opening.part)) {
        if (by !== undefined && coming.fitting !== by) continue;
        const [found, other] = [fromWay(plumbing, opening, condition, coming), worst.get(coming.tank)];
        if (!other || outdoes(found, other)) worst.set(coming.tank, found);
    }
    return [...worst.values()];
}

const BY_WEIGHT: readonly FromTank['outcome'][] = ['dry', 'below', 'level', 'cannot tell', 'floods'];

function outdoes(one: FromTank, other: FromTank): boolean {
    const [a, b] = [BY_WEIGHT.indexOf(one.outcome), BY_WEIGHT.indexOf(other.outcome)];
    const [head, otherHead] = [one.head ?? -Infinity, other.head ?? -Infinity];
    return a !== b ? a > b : head !== otherHead ? head > otherHead : one.fitting < other.fitting;
}

export function open(plumbing: Plumbing, opening: Opening, condition: Condition): Opened {
    const { network } = plumbing.linedUp;
    const tanks = headsOn(plumbing, opening, condition);
    const height = heightOf(opening.place, condition.attitude);
    const hangs = heldBy(network, [...(opening.drainsPart ? [opening.part] : []), ...above(plumbing, opening.part, height, condition)]);
    const falls = heldBy(network, downhill(plumbing, opening.part, height, condition));
    const flooding = tanks.filter(({ outcome }) => outcome === 'floods');
    // Tanks that are joined come together, and once.
    const given = flooding.map(({ tank }) => givenBy(plumbing, opening, condition, tank));
    const volume = sum([...new Set(given.flatMap((found) => [...found.keys()]))].map((id) => given.reduce<number | undefined>((most, found) => atMost(most, found, id), 0)));
    const outcome = outcomeOf(tanks, falls);
    return { opening, tanks, hangs, falls, outcome, ...(outcome === 'floods' && volume !== undefined && { volume }), lacks: eachOnce(tanks.flatMap(({ lacks }) => lacks)) };
}

const sum = (volumes: readonly (number | undefined)[]): number | undefined => volumes.reduce<number | undefined>((total, volume) => (total === undefined || volume === undefined ? undefined : total + volume), 0);

function outcomeOf(tanks: readonly FromTank[], falls: Held): Opened['outcome'] {
    const among = (outcome: FromTank['outcome']): boolean => tanks.some((tank) => tank.outcome === outcome);
    if (among('floods')) return 'floods';
    if (among('cannot tell')) return 'cannot tell';
    if (among('level')) return 'level';
    if (falls.parts.length > 0) return 'falls back';
    return tanks.length > 0 ? 'stays' : 'shut off';
}

/**
 * How fast it comes by its fitting at first, m³/s: at most, since only pipes hinder it, of these only what no way leads round, and warm liquid
 * is thin. Undefined where a bore or a length of such a pipe is not stated, or nothing floods.
 */
export function rateOf(plumbing: Plumbing, part: Id, { outcome, head, tank, fitting, through }: FromTank, warmth: Warmth = 'warm'): number | undefined {
    const { network } = plumbing.linedUp;
    const always = onlyThrough(plumbing, part, fitting);
    const { pipes, lacks } = rowOf(network, [fitting, ...through.filter((id) => always.has(id))]);
    if (outcome !== 'floods' || head === undefined || lacks.length > 0 || pipes.length === 0) return undefined;
    return flowByHead(pipes, head, fluidOf(network.boat.vessel, network.boat.tanks.find(({ id }) => id === tank)!.carries, warmth), MOUTHS);
}

/** The same by every fitting of a tank at once: what comes back through a return comes besides. Where ways share a pipe that is more than can come. */
export function rateFrom(plumbing: Plumbing, opening: Opening, condition: Condition, tank: Id, warmth: Warmth = 'warm'): number | undefined {
    const rates = new Map<Id, number | undefined>();
    for (const coming of waysTo(plumbing, opening.part)) {
        const found = coming.tank === tank ? fromWay(plumbing, opening, condition, coming) : undefined;
        if (found?.outcome !== 'floods') continue;
        const rate = rateOf(plumbing, opening.part, found, warmth);
        rates.set(coming.fitting, rates.has(coming.fitting) ? atMost(rate, rates, coming.fitting) : rate);
    }
    return rates.size === 0 ? undefined : sum([...rates.values()]);
}

/** What a tank that floods an opening gives if nobody stops it, m³: until its surface is level with the opening, or the last mouth is dry; with what empties with it. */
export const comesFrom = (plumbing: Plumbing, opening: Opening, condition: Condition, { tank }: Pick<FromTank, 'tank'>): number | undefined => sum([...givenBy(plumbing, opening, condition, tank).values()]);

/** What a tank, and each that empties with it, gives at an opening that it floods, m³. */
function givenBy(plumbing: Plumbing, opening: Opening, condition: Condition, tank: Id): Map<Id, number | undefined> {
    const { network } = plumbing.linedUp;
    const height = heightOf(opening.place, condition.attitude)!;
    const flooding = waysTo(plumbing, opening.part).filter((coming) => coming.tank === tank && fromWay(plumbing, opening, condition, coming).outcome === 'floods');
    const stop = Math.min(...flooding.map(({ fitting, cracks }) => Math.max(height + heldHead(network.boat, tank, cracks), heightOf(mouthOf(network, fitting), condition.attitude) ?? -Infinity)));
    return new Map(emptiesWith(plumbing, tank).map((id) => [id, comesDownTo(network, id, stop, condition)]));
}

function atMost(most: number | undefined, found: ReadonlyMap<Id, number | undefined>, id: Id): number | undefined {
    const volume = found.has(id) ? found.get(id) : 0;
    return most === undefined || volume === undefined ? undefined : Math.max(most, volume);
}

/** Over a crest that stands above the surface: what floods so runs only while the line is full. Undefined when nothing known rises so high, and something is not known. */
export function isSiphon({ linedUp: { network } }: Plumbing, condition: Condition, { tank, fitting, through }: FromTank): boolean | undefined {
    const surface = surfaceIn(condition, network.boat.tanks.find(({ id }) => id === tank)!)!;
    const spans = [fitting, ...through].map((id) => span(network, id, condition.attitude));
    return spans.some((found) => found !== undefined && found.high > surface) ? true : spans.includes(undefined) ? undefined : false;
}

function fromWay(plumbing: Plumbing, opening: Opening, condition: Condition, coming: Coming): FromTank {
    const { network } = plumbing.linedUp;
    const { attitude } = condition;
    const tank = network.boat.tanks.find(({ id }) => id === coming.tank)!;
    const [surface, height] = [surfaceIn(condition, tank), heightOf(opening.place, attitude)];
    if (surface === undefined || height === undefined) {
        return { ...coming, outcome: 'cannot tell', lacks: eachOnce([lackOf(opening.part, opening.place, attitude, 'height', opening.name), ...(surface === undefined ? [shapeLack(tank, condition)] : []), ...coming.unsure]) };
    }
    const mouth = mouthOf(network, coming.fitting);
    const mouthHeight = heightOf(mouth, attitude);
    if (mouthHeight !== undefined && mouthHeight > surface) return { ...coming, outcome: 'dry', lacks: [] };
    const head = surface - height - heldHead(network.boat, tank.id, coming.cracks);
    if (head < -LEVEL) return { ...coming, outcome: 'below', head, lacks: [] };
    // A pickup is there to reach the liquid; a return may end above it.
    const isPickup = fittingOf(network.boat, coming.fitting)!.kind === 'pickup';
    const lacks = eachOnce([...coming.unsure, ...(isPickup ? [] : [lackOf(coming.fitting, mouth, attitude, 'mouth')])]);
    return { ...coming, outcome: lacks.length > 0 ? 'cannot tell' : head <= LEVEL ? 'level' : 'floods', head, lacks };
}

/** The open end in the tank. A vent or a fill leaves the tank at its top; how far a fill reaches down is rarely known. */
export function mouthOf({ boat }: Network, id: Id): Place | undefined {
    const fitting = fittingOf(boat, id);
    return fitting?.kind === 'vent' || fitting?.kind === 'fill' ? fitting.top : fitting?.mouth;
}

/** The height of liquid that checks hold back, m: the least, by the heaviest that it may be, cold. */
export const heldHead = (boat: Boat, tank: Id, cracks: number): number => (cracks === 0 ? 0 : cracks / (fluidOf(boat.vessel, boat.tanks.find(({ id }) => id === tank)!.carries).heaviest * GRAVITY));

function shapeLack(tank: Tank, { attitude: { heel, trim }, volumes }: Condition): Lack {
    const upright = surfaceAt(tank, 0, UPRIGHT) !== undefined;
    return { about: tank.id, of: upright && !volumes.has(tank.id) ? 'level' : upright && (heel !== 0 || trim !== 0) ? 'tank place' : 'shape' };
}

/** What a tank gives until its surface has sunk to a height, m³. */
function comesDownTo({ boat }: Network, id: Id, height: number, { attitude, volumes }: Condition): number | undefined {
    const [volume, left] = [volumes.get(id), volumeBelow(boat.tanks.find((tank) => tank.id === id)!, height, attitude)];
    return volume === undefined || left === undefined ? undefined : Math.max(0, volume - left);
}

/** Segments from which liquid can run to the opening and that hang above it, wholly or in part; heights that are not known count. */
function above({ linedUp }: Plumbing, part: Id, height: number | undefined, { attitude }: Condition): Id[] {
    const { network, back } = linedUp;
    const own = new Set(network.through.get(part));
    const sources = reach(linedUp, back, pointsOf(network, part), own);
    return segments(network, own, (index) => {
        const { from, to, part: id } = network.passages[index]!;
        const runs = [[from, to], [to, from]].some(([a, b]) => sources.has(b!) && !network.tankPoints.has(b!) && back[b!]!.some((way) => way.passage === index && way.to === a));
        const found = runs ? span(network, id!, attitude) : undefined;
        return runs && (height === undefined || found === undefined || found.high > height + LEVEL);
    });
}

/**
 * Segments that liquid can leave for a tank with a lower surface when air comes in at the opening. A full line pulls it over a crest, and air
 * is pulled along behind; what stands beyond a consumer is pulled only where nothing rises above the opening, since its pump hinders it.
 */
function downhill({ linedUp }: Plumbing, part: Id, height: number | undefined, condition: Condition): Id[] {
    const { network, ways, back } = linedUp;
    const own = network.through.get(part) ?? [];
    const lower = network.boat.tanks.filter((tank) => { const surface = surfaceIn(condition, tank); return height === undefined || surface === undefined || surface < height - LEVEL; });
    const between = (bars: (passage: Passage) => boolean): Id[] => {
        const barred = new Set([...own, ...network.passages.flatMap((passage, i) => (bars(passage) ? [i] : []))]);
        const away = reach(linedUp, ways, pointsOf(network, part), barred);
        const toTank = reach(linedUp, back, lower.map(({ id }) => network.tanks.get(id)!), barred);
        return segments(network, barred, (index) => {
            const { from, to } = network.passages[index]!;
            return [[from, to], [to, from]].some(([a, b]) => away.has(a!) && !network.tankPoints.has(a!) && toTank.has(b!) && ways[a!]!.some((way) => way.passage === index && way.to === b));
        });
    };
    const rises = ({ segment, part: id }: Passage): boolean => {
        const found = segment ? span(network, id!, condition.attitude) : undefined;
        return height !== undefined && found !== undefined && found.high > height + LEVEL;
    };
    return [...new Set([...between(({ kind }) => kind === 'consumer'), ...between(rises)])];
}

function segments(network: Network, without: ReadonlySet<number>, test: (index: number) => boolean): Id[] {
    const found = new Set<Id>();
    network.passages.forEach((passage, i) => { if (passage.segment && !without.has(i) && test(i)) found.add(passage.part!); });
    return [...found];
}

function heldBy({ boat }: Network, parts: readonly Id[]): Held {
    const volumes = parts.map((id) => volumeOf(boat, id));
    return { parts, volume: volumes.reduce<number>((sum, volume) => sum + (volume ?? 0), 0), unknown: parts.filter((_, i) => volumes[i] === undefined) };
}
