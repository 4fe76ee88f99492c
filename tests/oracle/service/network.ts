/** The plumbing of a plain boat: points, and ways between two of them, in one setting of the valves. */
import type { At, PlainBoat, PlainConsumer, PlainPart } from './boat';

export type Setting = Readonly<Record<string, string>>;

export interface Way {
    readonly part: string;
    readonly from: string;
    readonly to: string;
    /** What it is for liquid at rest; a consumer is open forward, and backward as its facts say. */
    readonly kind: 'open' | 'check' | 'pump' | 'electric' | 'consumer';
    readonly whenOff?: 'passes' | 'blocks';
    readonly backflow?: 'passes' | 'blocks';
    /** Holds liquid that can become air. */
    readonly holds: boolean;
    /** The valve, and the positions in which this way is there. */
    readonly valve?: { readonly name: string; readonly in: readonly string[] };
}

/** A step along a way, in the direction in which liquid would move. */
export interface Move { readonly way: Way; readonly from: string; readonly to: string; readonly forward: boolean }

export interface Net {
    readonly boat: PlainBoat;
    readonly ways: readonly Way[];
    readonly parts: ReadonlyMap<string, PlainPart>;
    readonly consumers: ReadonlyMap<string, PlainConsumer>;
    /** Tank and fitting by point. */
    readonly mouths: ReadonlyMap<string, { readonly tank: string; readonly kind: 'pickup' | 'drop'; readonly fitting: PlainBoat['tanks'][number]['fittings'][number] }>;
    /** The points of each part's ports. */
    readonly ports: ReadonlyMap<string, readonly string[]>;
    readonly heights: ReadonlyMap<string, At>;
    moves(point: string, direction: 'out' | 'into'): readonly Move[];
}

export function netOf(boat: PlainBoat): Net {
    const same = new Map<string, string>();
    const point = (name: string): string => {
        let at = name;
        while (same.has(at)) at = same.get(at)!;
        return at;
    };
    for (const [one, other] of boat.joins) {
        const [a, b] = [point(one), point(other)];
        if (a !== b) same.set(a, b);
    }
    const ways: Way[] = [];
    const ports = new Map<string, string[]>();
    const heights = new Map<string, At>();
    const port = (part: string, name: string): string => point(`${part}:${name}`);
    for (const part of boat.parts) {
        if (part.kind === 'tee') { ports.set(part.name, [point(part.name)]); continue; }
        ports.set(part.name, part.ports.map((name) => port(part.name, name)));
        const holds = !['check', 'shutoff', 'selector', 'gauge'].includes(part.kind);
        if (part.positions) {
            const positions = Object.entries(part.positions);
            part.ports.forEach((one, i) => part.ports.slice(i + 1).forEach((other) => {
                const where = positions.filter(([, groups]) => groups.some((group) => group.includes(one) && group.includes(other))).map(([name]) => name);
                if (where.length > 0) ways.push({ part: part.name, from: port(part.name, one), to: port(part.name, other), kind: 'open', holds: false, valve: { name: part.name, in: where } });
            }));
            continue;
        }
        const [from, to] = part.reversed ? [port(part.name, 'out'), port(part.name, 'in')] : [port(part.name, 'in'), port(part.name, 'out')];
        const kind = part.kind === 'check' ? 'check' : part.kind === 'hand pump' || part.kind === 'lever pump' ? 'pump' : part.kind === 'electric pump' ? 'electric' : 'open';
        ways.push({ part: part.name, from, to, kind, holds, ...(part.whenOff && { whenOff: part.whenOff }) });
    }
    for (const consumer of boat.consumers) {
        ports.set(consumer.name, [port(consumer.name, 'in'), port(consumer.name, 'out')]);
        ways.push({ part: consumer.name, from: port(consumer.name, 'in'), to: port(consumer.name, 'out'), kind: 'consumer', holds: true, ...(consumer.backflow && { backflow: consumer.backflow }) });
    }
    const mouths = new Map<string, { tank: string; kind: 'pickup' | 'drop'; fitting: PlainBoat['tanks'][number]['fittings'][number] }>();
    for (const tank of boat.tanks) {
        for (const fitting of tank.fittings) {
            // The tube inside the tank is a way of its own: it can run empty.
            const inside = `inside ${tank.name} ${fitting.name}`;
            mouths.set(inside, { tank: tank.name, kind: fitting.kind, fitting });
            const name = `${tank.name}.${fitting.name}`;
            const [from, to] = fitting.kind === 'pickup' ? [inside, point(name)] : [point(name), inside];
            ways.push({ part: name, from, to, kind: 'open', holds: fitting.kind === 'pickup' });
            ports.set(name, [from, to]);
            if (fitting.top) heights.set(point(name), fitting.top);
            if (fitting.mouth) heights.set(inside, fitting.mouth);
        }
    }
    // A point stands where a part that was placed touches it; pipes have no place, they run between.
    for (const part of boat.parts) if (part.at) for (const at of ports.get(part.name)!) if (!heights.has(at) || part.kind === 'filter') heights.set(at, part.at);
    for (const consumer of boat.consumers) if (consumer.inlet) for (const at of ports.get(consumer.name)!) if (!heights.has(at)) heights.set(at, consumer.inlet);
    // A valve, a check or a pump that has no place of its own stands where what it is made fast to stands.
    for (const part of boat.parts) {
        const own = ports.get(part.name)!;
        const beside = own.map((at) => heights.get(at)).find((at) => at !== undefined);
        if (!part.at && beside && ['check', 'shutoff', 'gauge', 'hand pump', 'lever pump', 'electric pump'].includes(part.kind)) for (const at of own) if (!heights.has(at)) heights.set(at, beside);
    }

    const out = new Map<string, Move[]>();
    const into = new Map<string, Move[]>();
    const put = (map: Map<string, Move[]>, key: string, move: Move): void => { map.set(key, [...(map.get(key) ?? []), move]); };
    for (const way of ways) {
        for (const move of [{ way, from: way.from, to: way.to, forward: true }, { way, from: way.to, to: way.from, forward: false }]) {
            put(out, move.from, move);
            put(into, move.to, move);
        }
    }
    return {
        boat, ways, ports, heights, mouths,
        parts: new Map(boat.parts.map((part) => [part.name, part])),
        consumers: new Map(boat.consumers.map((consumer) => [consumer.name, consumer])),
        moves: (at, direction) => (direction === 'out' ? out : into).get(at) ?? [],
    };
}

export const isOpen = (way: Way, setting: Setting): boolean => !way.valve || way.valve.in.includes(setting[way.valve.name] ?? '');

/** All that can be reached by moves that `may` allows; a walk ends at a tank. */
export function walk(net: Net, direction: 'out' | 'into', starts: Iterable<string>, may: (move: Move) => boolean): { points: Set<string>; parts: Set<string>; moves: Move[] } {
    const points = new Set(starts);
    const parts = new Set<string>();
    const moves: Move[] = [];
    const queue = [...points];
    for (let here = queue.pop(); here !== undefined; here = queue.pop()) {
        for (const move of net.moves(here, direction)) {
            if (!may(move)) continue;
            parts.add(move.way.part);
            moves.push(move);
            const next = direction === 'out' ? move.to : move.from;
            if (points.has(next)) continue;
            points.add(next);
            if (!net.mouths.has(next)) queue.push(next);
        }
    }
    return { points, parts, moves };
}

/** What passes while a pump is worked elsewhere: checks and pumps forward, consumers forward. */
export const passes = (setting: Setting, running: ReadonlySet<string> = new Set()) => ({ way, forward }: Move): boolean => {
    if (!isOpen(way, setting)) return false;
    if (way.kind === 'open') return true;
    if (!forward) return false;
    return way.kind !== 'electric' || way.whenOff === 'passes' || running.has(way.part) || running.has('every pump');
};

/** Consumers that some setting of the valves lays the part on the lines of. */
export function consumersOf(net: Net, part: string): string[] {
    if (net.consumers.has(part)) return [part];
    // Lines are read downstream, but through a selector either way.
    const eitherWay = (way: Way): boolean => net.parts.get(way.part)?.kind === 'selector';
    const along = ({ way, forward }: Move): boolean => way.kind !== 'consumer' && (forward || eitherWay(way));
    const own = net.ways.filter((way) => way.part === part);
    const ends = (which: 'from' | 'to'): string[] => (own.length === 0 || own.some(eitherWay) ? [...(net.ports.get(part) ?? [])] : own.map((way) => way[which]));
    const reached = walk(net, 'out', ends('to'), along).points;
    const from = walk(net, 'into', ends('from'), along).points;
    return net.boat.consumers.filter((consumer) => reached.has(net.ports.get(consumer.name)![0]!) || from.has(net.ports.get(consumer.name)![1]!)).map((consumer) => consumer.name);
}

/** What its tanks carry, whatever the valves: fuel where any does, or where nobody knows. */
export function fluidOf(net: Net, part: string): 'fuel' | 'water' {
    const met = walk(net, 'out', net.ports.get(part) ?? [], () => true).points;
    const tanks = net.boat.tanks.filter((tank) => [...net.mouths].some(([at, mouth]) => mouth.tank === tank.name && met.has(at)));
    return tanks.length > 0 && tanks.every((tank) => tank.fluid === 'water') ? 'water' : 'fuel';
}
