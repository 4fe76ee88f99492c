/**
 * The boat as a schematic sees it: fixtures that lines end or part at (tanks, engines, tees, valves with several ways, open ends), and runs of
 * parts in a row between them. A run is read left to right on the sheet; a return and a vent are drawn against their flow, so that tanks
 * stand on the left and what burns the fuel on the right.
 */
import type { Boat, Consumer, Id, Joint, Part, Service, Tank } from '../../../model/boat';
import { isOutside } from '../../../analysis/topology/network';

export type Side = 'west' | 'east';

export interface Outlet {
    /** The point of the boat: `T1.P1`, `E1:in`, `SV1:port`. */
    readonly point: string;
    side: Side;
    /** Of the line that is made fast to it, and what stands next on that. */
    service?: Service;
    next?: Id;
}

export interface Fixture {
    readonly id: string;
    readonly kind: 'tank' | 'consumer' | 'tee' | 'valve' | 'end';
    readonly tank?: Tank;
    readonly consumer?: Consumer;
    /** Of a tee or a valve. */
    readonly part?: Part;
    /** Of a valve whose ports are never all joined, such as a changeover: this is not its first piece, which bears the tag. */
    readonly further?: true;
    readonly outlets: Outlet[];
}

export interface Cell {
    readonly part: Part;
    /** Whether what flows here goes to the right on the sheet. */
    readonly right: boolean;
}

export interface Run {
    readonly id: string;
    readonly course: Id;
    readonly service: Service;
    /** What flows goes to the right on the sheet. */
    readonly right: boolean;
    /** Left to right. */
    readonly cells: readonly Cell[];
    /** Points of fixtures; absent where the line ends in nothing. */
    readonly from?: string;
    readonly to?: string;
    /** It comes back to a tank: both its ends look east. */
    readonly turns: boolean;
}

export interface Topology {
    readonly boat: Boat;
    readonly fixtures: readonly Fixture[];
    readonly runs: readonly Run[];
    /** The fixture of a point. */
    readonly at: ReadonlyMap<string, Fixture>;
    readonly services: ReadonlyMap<Id, Service>;
}

const isInLine = (part: Part): boolean => part.kind !== 'tee' && part.kind !== 'selector' && part.kind !== 'changeover';

export function topologyOf(boat: Boat): Topology {
    const services = new Map(boat.courses.map(({ id, service }) => [id, service]));
    const inLine = new Map(boat.parts.filter(isInLine).map((part) => [part.id, part]));
    const touching = new Map<string, Joint[]>();
    for (const joint of boat.joints) for (const point of new Set([joint.from, joint.to])) {
        const known = touching.get(point);
        if (known) known.push(joint); else touching.set(point, [joint]);
    }
    const fixtures: Fixture[] = [];
    const at = new Map<string, Fixture>();
    const fix = (fixture: Omit<Fixture, 'outlets'>, points: readonly string[], sides: (point: string) => Side = () => 'east'): void => {
        const made: Fixture = { ...fixture, outlets: points.map((point) => ({ point, side: sides(point) })) };
        fixtures.push(made);
        for (const point of points) if (!at.has(point)) at.set(point, made);
    };
    for (const tank of boat.tanks) {
        const side = new Map(tank.fittings.map(({ id, kind }) => [id, kind === 'vent' || kind === 'fill' ? 'west' as const : 'east' as const]));
        fix({ id: tank.id, kind: 'tank', tank }, tank.fittings.map(({ id }) => id), (point) => side.get(point)!);
    }
    for (const consumer of boat.consumers) {
        const circuits = [...touching.keys()].filter((point) => point.startsWith(`${consumer.id}.`));
        fix({ id: consumer.id, kind: 'consumer', consumer }, [`${consumer.id}:in`, ...(touching.has(`${consumer.id}:out`) ? [`${consumer.id}:out`] : []), ...circuits], () => 'west');
    }
    for (const part of boat.parts) {
        if (part.kind === 'tee') fix({ id: part.id, kind: 'tee', part }, [part.id]);
        else if (!isInLine(part)) for (const [i, ports] of piecesOf(part).entries()) fix({ id: i === 0 ? part.id : `${part.id}/${i + 1}`, kind: 'valve', part, ...(i > 0 && { further: true as const }) }, ports.map((port) => `${part.id}:${port}`));
    }
    for (const [point, joints] of touching) {
        if (at.has(point)) continue;
        // Whatever is no port of a part, and a port that several lines are made fast to.
        if (isOutside(point)) fix({ id: point, kind: 'end' }, [point]);
        else if (!inLine.has(ownerOf(point)) || joints.length > 1) fix({ id: point, kind: 'tee' }, [point]);
    }
    const runs = runsOf(boat, { at, touching, inLine, services });
    for (const run of runs) {
        for (const [point, side] of [[run.from, 'east'], [run.to, 'west']] as const) {
            const fixture = point === undefined ? undefined : at.get(point);
            const outlet = fixture?.outlets.find((other) => other.point === point);
            if (!outlet) continue;
            outlet.service ??= run.service;
            outlet.next ??= (side === 'east' ? run.cells[0]?.part.id : run.cells.at(-1)?.part.id) ?? ownerAt(at, side === 'east' ? run.to : run.from);
            if (fixture!.kind !== 'consumer') outlet.side = run.turns ? 'east' : side;
        }
    }
    return { boat, fixtures, runs, at, services };
}

const ownerAt = (at: ReadonlyMap<string, Fixture>, point: string | undefined): Id | undefined => { const fixture = point === undefined ? undefined : at.get(point); return fixture && (fixture.part?.id ?? (fixture.kind === 'tank' ? point : fixture.id)); };

/** The ports of a valve in groups of those that some position joins: a changeover is two valves that are turned as one. */
function piecesOf(part: Part): readonly (readonly string[])[] {
    const group = new Map(part.ports.map((port, i) => [port, i]));
    for (const { joins } of part.positions) for (const joined of joins) {
        const least = Math.min(...joined.map((port) => group.get(port) ?? 0));
        const met = new Set(joined.map((port) => group.get(port)));
        for (const [port, own] of group) if (met.has(own)) group.set(port, least);
    }
    const pieces = new Map<number, string[]>();
    for (const port of part.ports) { const own = group.get(port)!; const known = pieces.get(own); if (known) known.push(port); else pieces.set(own, [port]); }
    // Ports that nothing is ever joined to belong to the first.
    const all = [...pieces.values()];
    const [large, lone] = [all.filter((ports) => ports.length > 1), all.filter((ports) => ports.length === 1).flat()];
    return large.length === 0 ? [part.ports] : [[...large[0]!, ...lone], ...large.slice(1)];
}

const ownerOf = (point: string): Id => { const colon = point.lastIndexOf(':'); return colon < 0 ? point : point.slice(0, colon); };
const isIn = (point: string): boolean => point.endsWith(':in');
const across = (point: string): string => `${ownerOf(point)}:${isIn(point) ? 'out' : 'in'}`;

interface Lines {
    readonly at: ReadonlyMap<string, Fixture>;
    readonly touching: ReadonlyMap<string, readonly Joint[]>;
    readonly inLine: ReadonlyMap<Id, Part>;
    readonly services: ReadonlyMap<Id, Service>;
}

function runsOf(boat: Boat, lines: Lines): Run[] {
    const used = new Set<Joint>();
    const placed = new Set<Id>();
    const runs: Run[] = [];
    for (const joint of boat.joints) {
        if (used.has(joint)) continue;
        used.add(joint);
        const back = walk(joint.from, lines, used, placed);
        const on = walk(joint.to, lines, used, placed);
        add([...back.parts.toReversed(), ...on.parts], joint, back.end, on.end);
    }
    for (const part of lines.inLine.values()) if (!placed.has(part.id)) add([{ part, along: true }], undefined, undefined, undefined);
    return runs;

    function add(chain: readonly Passed[], joint: Joint | undefined, from: string | undefined, to: string | undefined): void {
        const course = joint?.course ?? chain[0]!.part.course ?? '';
        const service = lines.services.get(course) ?? 'supply';
        const right = service !== 'return' && service !== 'vent';
        const ends = right ? { from, to } : { from: to, to: from };
        const cells = (right ? chain : chain.toReversed()).map(({ part, along }) => ({ part, right: right === along }));
        const id = cells.length > 0 ? `run ${(right ? cells[0]! : cells.at(-1)!).part.id}` : `link ${from} ${to}`;
        runs.push({ id, course, service, right, cells, ...(ends.from !== undefined && { from: ends.from }), ...(ends.to !== undefined && { to: ends.to }), turns: turnsBack(lines, right, ends.to) });
    }
}

/** A part that was walked through, and whether the joints pass it from its inlet to its outlet. */
interface Passed { readonly part: Part; readonly along: boolean }

/** From a point away from the joint that led there, through parts in a row, to a fixture or to where nothing follows. */
function walk(start: string, { at, touching, inLine }: Lines, used: Set<Joint>, placed: Set<Id>): { parts: Passed[]; end?: string } {
    const parts: Passed[] = [];
    let point = start;
    for (;;) {
        if (at.has(point)) return { parts, end: point };
        const part = inLine.get(ownerOf(point));
        if (!part || placed.has(part.id)) return { parts };
        placed.add(part.id);
        const far = across(point);
        const next = touching.get(far)?.find((joint) => !used.has(joint));
        // Walked downstream a part is met at the end where the joint comes in.
        const flowsOut = next ? next.from === far : undefined;
        const flowsIn = touching.get(point)!.some((joint) => joint.to === point);
        parts.push({ part, along: flowsOut === undefined ? flowsIn === isIn(point) : flowsOut === !isIn(far) });
        if (at.has(far)) return { parts, end: far };
        if (!next) return { parts };
        used.add(next);
        point = next.from === far ? next.to : next.from;
    }
}

/** What comes into a tank other than as a return: drawn back to it from the right, since tanks stand on the left. */
function turnsBack({ at }: Lines, right: boolean, to: string | undefined): boolean {
    const fixture = to === undefined ? undefined : at.get(to);
    return right && fixture?.tank?.fittings.find(({ id }) => id === to)?.kind !== 'fill' && fixture?.kind === 'tank';
}
