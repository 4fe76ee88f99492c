/** Line-ups worked out: inheritance, normal positions, ganged selectors, and what was left unsaid. */
import type { Boat, Id, LineUp, Part } from '../../model/boat';
import { isValve, type Positions } from './network';

export interface ResolvedLineUp {
    readonly id: Id;
    readonly use: LineUp['use'];
    readonly positions: Positions;
    /** Shutoffs that nothing places: taken as open. */
    readonly assumedOpen: readonly Id[];
    /** Selectors and changeovers that nothing places. */
    readonly unplaced: readonly Id[];
    /** Consumers of which it is said that they do not run. */
    readonly stopped: readonly Id[];
}

/** Every declared line-up; without any, one called RUN with everything in its normal position. */
export function lineUpsOf(boat: Boat): readonly ResolvedLineUp[] {
    if (boat.lineUps.length === 0) return [resolve(boat, { id: 'RUN', use: 'run', normal: true, settings: [] })];
    return boat.lineUps.map((lineUp) => resolve(boat, lineUp));
}

/** The line-ups for running; where none is marked so, those of which no other use is said. */
export function runLineUps(lineUps: readonly ResolvedLineUp[]): readonly ResolvedLineUp[] {
    const runs = lineUps.filter((lineUp) => lineUp.use === 'run');
    return runs.length > 0 ? runs : lineUps.filter((lineUp) => lineUp.use === undefined);
}

/** The line-up that the boat is left in: the one that `is normal`, else the first for running. */
export function normalLineUp(boat: Boat, lineUps: readonly ResolvedLineUp[]): ResolvedLineUp | undefined {
    const normal = boat.lineUps.find((lineUp) => lineUp.normal)?.id;
    return lineUps.find((lineUp) => lineUp.id === normal) ?? runLineUps(lineUps)[0] ?? lineUps[0];
}

/** Where work on some lines starts: the line-up for service if it has to do with these lines, else where it is to end. */
export function serviceLineUp(lineUps: readonly ResolvedLineUp[], connected: ReadonlySet<Id>, ends: ResolvedLineUp): ResolvedLineUp {
    return lineUps.find((lineUp) => lineUp.use === 'service' && [...connected].some((id) => lineUp.positions.get(id) !== ends.positions.get(id))) ?? ends;
}

function resolve(boat: Boat, lineUp: LineUp): ResolvedLineUp {
    const said = new Map<Id, string>();
    const seen = new Set<Id>();
    for (let at: LineUp | undefined = lineUp; at && !seen.has(at.id); at = boat.lineUps.find((other) => other.id === at!.base)) {
        seen.add(at.id);
        // What is said nearer outweighs what is inherited, for the valve and for all that turn with it.
        const here = new Map(at.settings.map(({ part, position }) => [part, position]));
        for (const { part, position } of at.settings) for (const id of ganged(boat, part)) if (!here.has(id) && hasPosition(boat, id, position)) here.set(id, position);
        for (const [part, position] of here) if (!said.has(part)) said.set(part, position);
    }
    const valves = boat.parts.filter(isValve);
    const positions = new Map<Id, string>();
    const assumedOpen: Id[] = [];
    const unplaced: Id[] = [];
    for (const valve of valves) {
        const position = said.get(valve.id) ?? (valve.lockedOpen ? 'open' : valve.normally);
        if (position !== undefined) positions.set(valve.id, position);
        else if (valve.kind === 'shutoff') { positions.set(valve.id, 'open'); assumedOpen.push(valve.id); }
        else unplaced.push(valve.id);
    }
    const stopped = boat.consumers.map((consumer) => consumer.id).filter((id) => said.get(id) === 'stopped');
    return { id: lineUp.id, use: lineUp.use, positions, assumedOpen, unplaced, stopped };
}

export const hasPosition = (boat: Boat, valve: Id, position: string): boolean => {
    const part = valvesOf(boat).parts.get(valve);
    return part !== undefined && (part.kind === 'shutoff' ? position === 'open' || position === 'shut' : part.positions.some((other) => other.name === position));
};

/** All valves that move when this one is moved. */
export function ganged(boat: Boat, valve: Id): readonly Id[] {
    const { parts, turning } = valvesOf(boat);
    const gang = new Set<Id>([valve]);
    for (let size = 0; size !== gang.size;) {
        size = gang.size;
        for (const { id, gangedWith } of turning) if (gang.has(id) || gang.has(gangedWith!)) gang.add(id).add(gangedWith!);
    }
    return gang.size > 1 ? boat.parts.filter((part) => gang.has(part.id)).map((part) => part.id) : parts.has(valve) ? [valve] : [];
}

interface Valves {
    readonly parts: ReadonlyMap<Id, Part>;
    /** Those that say what they are ganged with. */
    readonly turning: readonly Part[];
}

/** Looked up for every valve of every line-up, and at every turn of one. */
function valvesOf(boat: Boat): Valves {
    const known = valvesKnown.get(boat) ?? { parts: new Map(boat.parts.map((part) => [part.id, part])), turning: boat.parts.filter(({ gangedWith }) => gangedWith !== undefined) };
    valvesKnown.set(boat, known);
    return known;
}

const valvesKnown = new WeakMap<Boat, Valves>();

/** The positions after one valve, and all that turn with it, were set. */
export function turned(boat: Boat, positions: Positions, valve: Id, position: string): Positions {
    const after = new Map(positions);
    for (const other of ganged(boat, valve)) if (hasPosition(boat, other, position)) after.set(other, position);
    return after;
}

/** Where a valve, and all that turn with it, stand on the way from one position to another: with what is passed between, where that is said. */
export function passedTurning(boat: Boat, before: Positions, after: Positions, valve: Id): readonly Positions[] {
    const passed = ganged(boat, valve).flatMap((id) => {
        const [from, to] = [before.get(id), after.get(id)];
        const turns = from === to ? [] : valvesOf(boat).parts.get(id)!.turning;
        const between = ({ from: a, to: b }: { from?: string; to?: string }, one: string | undefined, other: string | undefined): boolean => (a === undefined || a === one) && (b === undefined || b === other);
        return turns.filter((turn) => between(turn, from, to) || between(turn, to, from)).map(({ passes }) => [id, passes] as const);
    });
    return passed.map(([id, position]) => new Map([...after, [id, position]]));
}

/** Positions that a hand can give a valve. A locked or electric one has none. */
export function handPositions(part: Part): readonly string[] {
    if (part.kind === 'shutoff') return part.lockedOpen || part.solenoid ? [] : ['open', 'shut'];
    return part.positions.map((position) => position.name);
}
