/**
 * High points of a supply line: where it rises and falls again, so that air stays. Upright, by the heights that are written: a hose runs
 * between its ends, but for its low and its crest. The line begins at the tank's fitting; the tube inside the tank is no part of it.
 *
 * A point is as high a rise as its lesser side: from each it is walked on over nothing higher, and the lowest that is met counts. What
 * stands within LEVEL of the top, with nothing lower between, is one place with it.
 */
import type { Id, Part } from '../../model/boat';
import { isPipe, type LinedUp, type Network, type Passage } from '../topology/network';
import { routes } from '../topology/routes';
import { endPlace, pointPlace } from './heights';
import { LEVEL } from './opened';

export interface HighPoint {
    /** The part that stands there, or the pipe whose crest it is. */
    readonly part: Id;
    /** m above the datum. */
    readonly height: number;
    /** How far the line comes up to it, and how far it falls from it, m. */
    readonly rise: number;
    readonly fall: number;
    /** All parts that stand as high, itself among them. */
    readonly level: readonly Id[];
    /** Pipes in which the line falls from it: a bubble must be taken down these. */
    readonly falling: readonly Id[];
}

export interface Profile {
    /** The highest first. */
    readonly points: readonly HighPoint[];
    /** Pipes with a crest of which it is not known whether the line falls on both sides. */
    readonly unsure: readonly Id[];
    /** Whether the height of some part on the way is not known. */
    readonly gaps: boolean;
}

/** Of all ways from the tanks to the consumer, in a network in which the pumps run (`running`). Undefined where no tank feeds it. */
export function profileOf(linedUp: LinedUp, consumer: Id): Profile | undefined {
    const { network } = linedUp;
    const route = routes(linedUp, network.tankPoints, [network.index.get(`${consumer}:in`)!]);
    if (route.size === 0) return undefined;
    const line = new Line(linedUp, route);
    const points: HighPoint[] = [];
    const unsure: Id[] = [];
    for (const top of line.tops()) {
        if (points.some(({ level }) => level.includes(top.part))) continue;
        const [up, down] = [line.side(top, 'up'), line.side(top, 'down')];
        const [rise, fall] = [top.height - up.low, top.height - down.low];
        const isOver = (by: number): boolean => by > LEVEL + SAME;
        const falling = line.falling(top);
        // Where no pipe falls, parts are joined that do not stand where they are said to.
        if (isOver(rise) && isOver(fall) && falling.length > 0) points.push({ part: top.part, height: top.height, rise, fall, level: line.level(top), falling });
        else if (top.isCrest && (isOver(rise) || up.unknown) && (isOver(fall) || down.unknown)) unsure.push(top.part);
    }
    return { points, unsure, gaps: line.gaps() };
}

interface Top {
    readonly part: Id;
    readonly height: number;
    readonly isCrest: boolean;
    /** Where it is left against the flow, and with it. */
    readonly up: number;
    readonly down: number;
    readonly passage?: number;
}

interface Step {
    readonly to: number;
    readonly passage: Passage;
    readonly part: Part | undefined;
}

/** The last digit of a height is none. */
const SAME = 1e-9;

class Line {
    private readonly network: Network;
    constructor(private readonly linedUp: LinedUp, private readonly route: ReadonlySet<number>) { this.network = linedUp.network; }

    tops(): Top[] {
        const { passages, parts, index } = this.network;
        const found: Top[] = [];
        const seen = new Set<Id>();
        for (const i of this.route) {
            const { from, to, part: id } = passages[i]!;
            const part = parts.get(id ?? '');
            const height = isPipe(part) ? part?.crest?.up?.si : part?.at?.up?.si;
            if (!part || height === undefined || seen.has(part.id)) continue;
            seen.add(part.id);
            found.push({ part: part.id, height, isCrest: isPipe(part), up: from, down: to, passage: i });
        }
        const met = new Set([...this.route].flatMap((i) => [passages[i]!.from, passages[i]!.to]));
        for (const tee of parts.values()) {
            const at = index.get(tee.id);
            if (tee.kind === 'tee' && at !== undefined && met.has(at) && tee.at?.up) found.push({ part: tee.id, height: tee.at.up.si, isCrest: false, up: at, down: at });
        }
        return found.sort((a, b) => b.height - a.height || Number(b.isCrest) - Number(a.isCrest) || a.up - b.up);
    }

    /** The lowest that is met on one side over nothing higher, and whether something there is not known. */
    side({ height, up, down, passage }: Top, way: 'up' | 'down'): { low: number; unknown: boolean } {
        const found = { low: height, unknown: false };
        this.walk(way === 'up' ? up : down, [way], passage, (at) => {
            const here = this.height(at);
            if (here === undefined) found.unknown = true;
            if (here !== undefined && here > height + SAME) return false;
            found.low = Math.min(found.low, here ?? height);
            return true;
        }, ({ part }) => {
            if (part?.crest?.up && part.crest.up.si > height + SAME) return false;
            found.low = Math.min(found.low, part?.low?.up?.si ?? height);
            return true;
        });
        return found;
    }

    /** Parts that stand as high as the top, with nothing lower between. */
    level({ part, height, up, down, passage }: Top): Id[] {
        const found = new Set<Id>([part]);
        const isLevel = (at: number): boolean => Math.abs((this.height(at) ?? Infinity) - height) <= LEVEL + SAME;
        for (const start of [up, down]) if (isLevel(start)) this.walk(start, ['up', 'down'], passage, () => true, (step) => {
            if (!isLevel(step.to) || (step.part?.low?.up && step.part.low.up.si < height - LEVEL)) return false;
            if (step.part) found.add(step.part.id);
            const tee = this.network.parts.get(this.network.points[step.to]!);
            if (tee) found.add(tee.id);
            return true;
        });
        return [...found];
    }

    /** As far as it only falls, and to the next bleed point. */
    falling({ part, down, passage }: Top): Id[] {
        const found = new Set<Id>(isPipe(this.network.parts.get(part)) ? [part] : []);
        let at = down;
        this.walk(down, ['down'], passage, (point) => { at = point; return true; }, (step) => {
            const [here, there] = [this.height(at), this.height(step.to)];
            if ((here !== undefined && there !== undefined && there > here + SAME) || (step.part?.vents.length ?? 0) > 0) return false;
            if (step.part && isPipe(step.part)) found.add(step.part.id);
            return true;
        });
        return [...found];
    }

    /** Two hoses that are joined end to end are as one. */
    gaps(): boolean {
        const { passages, parts, points, tankPoints } = this.network;
        const isOpen = (at: number): boolean => !tankPoints.has(at) && !isPipe(parts.get(points[at]!.split(':')[0]!)) && this.height(at) === undefined;
        return [...this.route].some((i) => isOpen(passages[i]!.from) || isOpen(passages[i]!.to));
    }

    private height(at: number): number | undefined {
        const name = this.network.points[at]!;
        return (pointPlace(this.network, name) ?? endPlace(this.network, name))?.up?.si;
    }

    /** Valves are passed either way, since their ports have no order; everything else as it is written. Never into a tank. */
    private walk(start: number, ways: readonly ('up' | 'down')[], own: number | undefined, enter: (at: number) => boolean, pass: (step: Step) => boolean): void {
        const { passages, parts, tankPoints } = this.network;
        const seen = new Set([start]);
        const queue = [start];
        for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
            if (!enter(at)) continue;
            for (const way of ways) for (const { to, passage: i } of (way === 'up' ? this.linedUp.back : this.linedUp.ways)[at]!) {
                const passage = passages[i]!;
                const along = passage.kind === 'valve' || (way === 'up' ? passage.to : passage.from) === at;
                if (!along || i === own || seen.has(to) || !this.route.has(i) || tankPoints.has(to) || !pass({ to, passage, part: parts.get(passage.part ?? '') })) continue;
                seen.add(to);
                queue.push(to);
            }
        }
    }
}
