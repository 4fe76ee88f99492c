/** What the executor asks of a boat again and again, worked out once: by positions of the valves and by opening, whatever the procedure. */
import type { Boat, Consumer, Id, Part } from '../../model/boat';
import type { Driver } from '../../model/step';
import { afterOpening, type Gas } from '../../analysis/air/opened';
import { pumpingOf, type Pumping } from '../../analysis/air/pumping';
import { conditionAt } from '../../analysis/opening/condition';
import { open } from '../../analysis/opening/open';
import { openingsOf, type Opening } from '../../analysis/opening/openings';
import { plumbing } from '../../analysis/opening/plumbing';
import { lineUpsOf, normalLineUp, type ResolvedLineUp } from '../../analysis/topology/line-ups';
import { networkOf, reach, type LinedUp, type Network, type Positions } from '../../analysis/topology/network';
import { connectedTo, running } from '../../analysis/topology/paths';
import { routes } from '../../analysis/topology/routes';
import { kindOf } from './pieces';

export type Liquid = 'fuel' | 'coolant' | 'water';

export class Ground {
    readonly network: Network;
    readonly pumping: Pumping;
    readonly lineUps: readonly ResolvedLineUp[];
    private readonly kept = new Map<string, unknown>();

    constructor(readonly boat: Boat) {
        this.network = networkOf(boat);
        this.pumping = pumpingOf(this.network);
        this.lineUps = lineUpsOf(boat);
    }

    /** What was worked out under these words, or now is. */
    keep<T>(key: string, work: () => T): T {
        if (!this.kept.has(key)) this.kept.set(key, work());
        return this.kept.get(key) as T;
    }

    /** One object for equal positions, since much is remembered by it. */
    same(positions: Positions): Positions {
        return this.keep(`positions ${this.pumping.key(positions)}`, () => positions);
    }

    /** The line-up of this name, else the normal one. */
    lineUp(id: Id): ResolvedLineUp {
        return this.lineUps.find((lineUp) => lineUp.id === id) ?? normalLineUp(this.boat, this.lineUps)
            ?? { id, use: undefined, positions: new Map(), assumedOpen: [], unplaced: [], stopped: [] };
    }

    /** A part or consumer. */
    owner(id: Id): Part | Consumer | undefined {
        return this.network.parts.get(id) ?? this.network.consumers.get(id);
    }

    openings(id: Id): readonly Opening[] {
        return openingsOf(this.boat).get(id) ?? [];
    }

    opening(id: Id, name: string): Opening | undefined {
        const vent = this.owner(id)?.vents.find((other) => other.id === name)?.tag;
        return this.openings(id).find((other) => other.name === name || other.name === vent);
    }

    /** What is open where a part was taken off whole: its ports. */
    takenOff(id: Id): Opening {
        const [first] = this.openings(id);
        const place = this.network.parts.get(id)?.kind === 'filter' || this.network.parts.get(id)?.kind === 'strainer' ? this.network.parts.get(id)!.at : first?.place;
        return { part: id, name: 'joint', place, drainsPart: true };
    }

    /** The point of a vent as an opening. */
    ventOpening(vent: Id): Opening | undefined {
        const owner = this.keep('vents', () => new Map([...this.boat.parts, ...this.boat.consumers].flatMap((other) => other.vents.map((own) => [own.id, other.id] as const)))).get(vent);
        return owner === undefined ? undefined : this.opening(owner, vent);
    }

    /** Consumers on whose lines a part lies: on some way from a tank to it or from it to a tank, in its own circuits, or itself. */
    servedBy(part: Id): readonly Consumer[] {
        return this.keep(`served ${part}`, () => this.boat.consumers.filter(({ id }) => this.lines(id).has(part)));
    }

    lines(consumer: Id): ReadonlySet<Id> {
        return this.keep(`lines ${consumer}`, () => {
            const { index, points, passages, tankPoints } = this.network;
            const allOpen = this.keep('all open', () => running(this.network, new Map(), 'all open'));
            const own = (end: string): number[] => points.flatMap((name, i) => (name === `${consumer}:${end}` || (name.startsWith(`${consumer}.`) && name.endsWith(`-${end}`)) ? [i] : []));
            const [ins, outs] = [own('in'), own('out')];
            const barred = new Set(this.network.through.get(consumer) ?? []);
            const on = index.size === 0 ? [] : [routes(allOpen, tankPoints, ins, barred), routes(allOpen, outs, tankPoints, barred), routes(allOpen, outs, ins, barred)];
            return new Set([consumer, ...on.flatMap((found) => [...found].flatMap((i) => passages[i]!.part ?? [])), ...this.teesOn(on)]);
        });
    }

    private teesOn(on: readonly Iterable<number>[]): Id[] {
        const { passages, points, parts } = this.network;
        return on.flatMap((found) => [...found].flatMap((i) => [points[passages[i]!.from]!, points[passages[i]!.to]!].filter((name) => parts.get(name)?.kind === 'tee')));
    }

    /** Consumers with a way of pipes to a part, through no tank; the nearest to being its own first. */
    connected(part: Id): readonly Id[] {
        return this.keep(`connected ${part}`, () => {
            const all = this.boat.consumers.filter(({ id }) => id === part || connectedTo(this.network, id).has(part)).map(({ id }) => id);
            const served = this.servedBy(part).map(({ id }) => id);
            return [...new Set([...all.filter((id) => id === part), ...all.filter((id) => served.includes(id)), ...all])];
        });
    }

    /** What comes out of a part. Where tanks of several kinds could be meant it is fuel. */
    liquid(part: Id): Liquid {
        return this.keep(`liquid ${part}`, () => {
            const points = (this.network.through.get(part) ?? []).flatMap((i) => [this.network.passages[i]!.from, this.network.passages[i]!.to]);
            const tee = this.network.index.get(part);
            const from = this.network.consumers.has(part) ? [this.network.index.get(`${part}:in`)!] : tee === undefined ? points : [...points, tee];
            const allOpen = this.keep('all open', () => running(this.network, new Map(), 'all open'));
            const met = [reach(allOpen, allOpen.ways, from), reach(allOpen, allOpen.back, from)];
            const carried = this.boat.tanks.filter(({ id }) => met.some((found) => found.has(this.network.tanks.get(id)!))).map(({ carries }) => carries ?? 'diesel');
            if (carried.length === 0 || carried.includes('diesel')) return 'fuel';
            return carried.some((what) => what !== 'raw water') ? 'coolant' : 'water';
        });
    }

    at(positions: Positions): LinedUp {
        return this.pumping.lineUp(positions);
    }

    /** What no longer holds fuel once a part is opened. */
    drained(positions: Positions, part: Id): Gas {
        return this.keep(`drained ${part} ${this.pumping.key(positions)}`, () => afterOpening(this.at(positions), [part]));
    }

    /** The part and what hangs above its opening, with the tanks as full as they are used. */
    comesOut(positions: Positions, opening: Opening): readonly Id[] {
        return this.keep(`comes ${opening.part} ${opening.name} ${this.pumping.key(positions)}`, () => {
            const hangs = open(plumbing(this.network, this.same(positions), 'tight', 'passes'), opening, conditionAt(this.boat)).hangs.parts;
            return kindOf(opening) === 'vent' ? hangs : [...new Set([opening.part, ...hangs])];
        });
    }

    /** What a driver pushes liquid towards, and what it draws it from: points of the network. */
    moved(positions: Positions, { by, part }: Driver): { readonly has: (point: number) => boolean } {
        return this.keep(`moved ${by} ${part} ${this.pumping.key(positions)}`, () => {
            const at = this.at(positions);
            const own = new Set(this.network.through.get(part) ?? []);
            const pump = this.network.passages[[...own][0] ?? -1];
            const tank = this.network.tanks.get(part);
            const [to, from] = by === 'gravity' ? [tank === undefined ? [] : [tank], []] : pump ? [[pump.to], [pump.from]] : [[], []];
            const [pushed, drawn] = [reach(at, at.ways, to, own), reach(at, at.back, from, own)];
            return { has: (point: number): boolean => pushed.has(point) || drawn.has(point) };
        });
    }

    /** Whether what a driver moves comes to a part, or past it. */
    touches(positions: Positions, driver: Driver, part: Id): boolean {
        const moved = this.moved(positions, driver);
        const tee = this.network.index.get(part);
        return (this.network.through.get(part) ?? []).some((i) => moved.has(this.network.passages[i]!.from) || moved.has(this.network.passages[i]!.to)) || (tee !== undefined && moved.has(tee));
    }
}

const grounds = new WeakMap<Boat, Ground>();

export function groundOf(boat: Boat): Ground {
    const found = grounds.get(boat) ?? new Ground(boat);
    grounds.set(boat, found);
    return found;
}
