/**
 * What moves when something is opened: liquid of a tank comes out, hangs level, or falls back and air follows.
 *
 * A surface that stands higher than the opening, by more than the checks between hold back, drives liquid out of it: h = z(surface) -
 * z(opening) - Σ p(crack) / ρg. That the line rises over a crest in between does not stop it while the line is full; a crest
 * above the surface only means that it runs as a siphon, which air would break.
 */
import type { Id, Tank } from '../../model/boat';
import { fluidOf } from '../flow/fluid';
import { heightOf } from '../tanks/attitude';
import { surfaceAt, volumeBelow } from '../tanks/liquid';
import { fittingOf } from '../topology/joints';
import { passesAtRest, reach, type Network } from '../topology/network';
import { volumeOf } from '../volumes';
import { span } from '../air/heights';
import type { Condition } from './condition';
import { eachOnce, lackOf, type Lack } from './lack';
import type { Opening } from './openings';
import { emptiesWith, type Plumbing } from './plumbing';
import { pointsOf, waysTo, type Coming } from './ways';

/** Heights that differ by less than this are called level, m: trade practice, no source. */
export const LEVEL = 0.02;
/** Standard gravity, m/s². */
export const GRAVITY = 9.80665;

export interface FromTank extends Coming {
    /** `dry`: the mouth of the pipe in the tank is above the surface. */
    readonly outcome: 'floods' | 'level' | 'below' | 'dry' | 'cannot tell';
    /** What drives it, m: positive out of the opening. */
    readonly head?: number;
    /** Over a crest that stands above the surface: it runs only while the line is full. Undefined when heights on the way are not known. */
    readonly siphon?: boolean;
    /** What would come if nobody stopped it, m³: until the surface is level with the opening, or the mouth is dry. */
    readonly volume?: number;
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

export function open(plumbing: Plumbing, opening: Opening, condition: Condition): Opened {
    const { network } = plumbing.linedUp;
    const tanks = waysTo(plumbing, opening.part).map((coming) => fromTank(plumbing, opening, condition, coming));
    const height = heightOf(opening.place, condition.attitude);
    const hangs = heldBy(network, [...(opening.drainsPart ? [opening.part] : []), ...above(plumbing, opening.part, height, condition)]);
    const falls = tanks.some(({ outcome }) => outcome !== 'floods' && outcome !== 'level') || tanks.length === 0
        ? heldBy(network, downhill(plumbing, opening.part, height, condition)) : heldBy(network, []);
    const floods = tanks.filter(({ outcome }) => outcome === 'floods');
    const volumes = floods.map(({ volume }) => volume);
    return {
        opening, tanks, hangs, falls, outcome: outcomeOf(tanks, falls),
        ...(floods.length > 0 && !volumes.includes(undefined) && { volume: (volumes as number[]).reduce((sum, volume) => sum + volume, 0) }),
        lacks: eachOnce(tanks.flatMap(({ lacks }) => lacks)),
    };
}

function outcomeOf(tanks: readonly FromTank[], falls: Held): Opened['outcome'] {
    const among = (outcome: FromTank['outcome']): boolean => tanks.some((tank) => tank.outcome === outcome);
    if (among('floods')) return 'floods';
    if (among('cannot tell')) return 'cannot tell';
    if (among('level')) return 'level';
    if (falls.parts.length > 0) return 'falls back';
    return tanks.length > 0 ? 'stays' : 'shut off';
}

function fromTank(plumbing: Plumbing, opening: Opening, { attitude, volumes }: Condition, coming: Coming): FromTank {
    const { network } = plumbing.linedUp;
    const tank = network.boat.tanks.find(({ id }) => id === coming.tank)!;
    const [volume, height] = [volumes.get(tank.id), heightOf(opening.place, attitude)];
    const surface = volume === undefined ? undefined : surfaceAt(tank, volume, attitude);
    const consumer = coming.backThrough === undefined ? undefined : network.consumers.get(coming.backThrough);
    const lacks = eachOnce([
        lackOf(opening.part, opening.place, attitude, 'height', opening.name),
        ...(surface === undefined ? [shapeLack(tank, attitude, volume)] : []),
        ...(consumer && consumer.backflow === undefined ? [{ about: consumer.id, of: 'backflow' } as const] : []),
    ]);
    if (surface === undefined || height === undefined) return { ...coming, outcome: 'cannot tell', lacks };
    const fitting = fittingOf(network.boat, coming.fitting)!;
    // A vent or a fill leaves the tank at its top; how far a fill reaches down is rarely known.
    const mouth = fitting.kind === 'vent' || fitting.kind === 'fill' ? fitting.top : fitting.mouth;
    const mouthHeight = heightOf(mouth, attitude);
    if (mouthHeight !== undefined && mouthHeight > surface) return { ...coming, outcome: 'dry', lacks: [] };
    const held = coming.cracks / (fluidOf(tank.carries).density * GRAVITY);
    const head = surface - height - held;
    if (head < -LEVEL) return { ...coming, outcome: 'below', head, lacks: [] };
    // A pickup is there to reach the liquid; a return may end above it.
    const mouthLack = fitting.kind === 'pickup' ? undefined : lackOf(fitting.id, mouth, attitude, 'mouth');
    const open = eachOnce([...lacks, mouthLack]);
    if (open.length > 0) return { ...coming, outcome: 'cannot tell', head, lacks: open };
    if (head <= LEVEL) return { ...coming, outcome: 'level', head, lacks: [] };
    const stop = Math.max(height + held, mouthHeight ?? -Infinity);
    const share = emptiesWith(plumbing, tank.id).map((id) => comesDownTo(network, id, stop, { attitude, volumes }));
    const siphon = crestAbove(plumbing, coming, surface, attitude);
    return {
        ...coming, outcome: 'floods', head, lacks: [], ...(siphon !== undefined && { siphon }),
        ...(!share.includes(undefined) && { volume: (share as number[]).reduce((sum, part) => sum + part, 0) }),
    };
}

function shapeLack(tank: Tank, attitude: Condition['attitude'], volume: number | undefined): Lack {
    if (volume === undefined && surfaceAt(tank, 0, { heel: 0, trim: 0 }) !== undefined) return { about: tank.id, of: 'level' };
    return { about: tank.id, of: surfaceAt(tank, 0, { heel: 0, trim: 0 }) !== undefined && (attitude.heel !== 0 || attitude.trim !== 0) ? 'tank place' : 'shape' };
}

/** What a tank gives until its surface has sunk to a height, m³. */
function comesDownTo({ boat }: Network, id: Id, height: number, { attitude, volumes }: Condition): number | undefined {
    const [volume, left] = [volumes.get(id), volumeBelow(boat.tanks.find((tank) => tank.id === id)!, height, attitude)];
    return volume === undefined || left === undefined ? undefined : Math.max(0, volume - left);
}

/** Whether something on the way rises above the surface; undefined when nothing known does and something is not known. */
function crestAbove({ linedUp: { network } }: Plumbing, { fitting, through }: Coming, surface: number, attitude: Condition['attitude']): boolean | undefined {
    const spans = [fitting, ...through].map((id) => span(network, id, attitude));
    return spans.some((found) => found !== undefined && found.high > surface) ? true : spans.includes(undefined) ? undefined : false;
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

/** Segments from which liquid can run down to a tank when air comes in at the opening; none beyond one that rises above it. */
function downhill({ linedUp }: Plumbing, part: Id, height: number | undefined, { attitude }: Condition): Id[] {
    const { network, ways, back } = linedUp;
    const barred = new Set(network.through.get(part));
    network.passages.forEach((passage, i) => {
        const found = passage.segment ? span(network, passage.part!, attitude) : undefined;
        if (height !== undefined && found !== undefined && found.high > height + LEVEL) barred.add(i);
    });
    const away = reach(linedUp, ways, pointsOf(network, part), barred);
    const toTank = reach(linedUp, back, network.tanks.values(), barred);
    return segments(network, barred, (index) => {
        const { from, to } = network.passages[index]!;
        return [[from, to], [to, from]].some(([a, b]) => away.has(a!) && !network.tankPoints.has(a!) && toTank.has(b!) && ways[a!]!.some((way) => way.passage === index && way.to === b));
    });
}

function segments(network: Network, without: ReadonlySet<number>, test: (index: number) => boolean): Id[] {
    const found = new Set<Id>();
    network.passages.forEach((passage, i) => { if (passage.segment && passesAtRest(passage) && !without.has(i) && test(i)) found.add(passage.part!); });
    return [...found];
}

function heldBy({ boat }: Network, parts: readonly Id[]): Held {
    const volumes = parts.map((id) => volumeOf(boat, id));
    return { parts, volume: volumes.reduce<number>((sum, volume) => sum + (volume ?? 0), 0), unknown: parts.filter((_, i) => volumes[i] === undefined) };
}
