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
}

/** Every declared line-up; without any, one called RUN with everything in its normal position. */
export function lineUpsOf(boat: Boat): readonly ResolvedLineUp[] {
    if (boat.lineUps.length === 0) return [resolve(boat, { id: 'RUN', use: 'run', normal: true, settings: [] })];
    return boat.lineUps.map((lineUp) => resolve(boat, lineUp));
}

export function runLineUps(lineUps: readonly ResolvedLineUp[]): readonly ResolvedLineUp[] {
    return lineUps.filter((lineUp) => lineUp.use === 'run');
}

/** The line-up that the boat is left in: the one that `is normal`, else the first for running. */
export function normalLineUp(boat: Boat, lineUps: readonly ResolvedLineUp[]): ResolvedLineUp | undefined {
    const normal = boat.lineUps.find((lineUp) => lineUp.normal)?.id;
    return lineUps.find((lineUp) => lineUp.id === normal) ?? runLineUps(lineUps)[0] ?? lineUps[0];
}

function resolve(boat: Boat, lineUp: LineUp): ResolvedLineUp {
    const said = new Map<Id, string>();
    const seen = new Set<Id>();
    for (let at: LineUp | undefined = lineUp; at && !seen.has(at.id); at = boat.lineUps.find((other) => other.id === at!.base)) {
        seen.add(at.id);
        for (const setting of at.settings) if (!said.has(setting.part)) said.set(setting.part, setting.position);
    }
    const valves = boat.parts.filter(isValve);
    for (const valve of valves) {
        const leader = leaderOf(boat, valve);
        const position = leader && said.get(leader.id);
        if (position !== undefined && !said.has(valve.id)) said.set(valve.id, position);
    }
    const positions = new Map<Id, string>();
    const assumedOpen: Id[] = [];
    const unplaced: Id[] = [];
    for (const valve of valves) {
        const position = said.get(valve.id) ?? (valve.lockedOpen ? 'open' : valve.normally);
        if (position !== undefined) positions.set(valve.id, position);
        else if (valve.kind === 'shutoff') { positions.set(valve.id, 'open'); assumedOpen.push(valve.id); }
        else unplaced.push(valve.id);
    }
    return { id: lineUp.id, use: lineUp.use, positions, assumedOpen, unplaced };
}

/** The selector that this one turns with, when it has a position of the same name for each. */
export function leaderOf(boat: Boat, valve: Part): Part | undefined {
    return valve.gangedWith === undefined ? undefined : boat.parts.find((part) => part.id === valve.gangedWith);
}

/** All valves that move when this one is moved. */
export function ganged(boat: Boat, valve: Id): readonly Id[] {
    const leader = boat.parts.find((part) => part.id === valve)?.gangedWith ?? valve;
    return boat.parts.filter((part) => part.id === leader || part.gangedWith === leader).map((part) => part.id);
}

/** Positions that a hand can give a valve. A locked or electric one has none. */
export function handPositions(part: Part): readonly string[] {
    if (part.kind === 'shutoff') return part.lockedOpen || part.solenoid ? [] : ['open', 'shut'];
    return part.positions.map((position) => position.name);
}
