/** What could come to an opening, and what runs out of the lines when something is opened. */
import type { At } from './boat';
import { isOpen, walk, type Move, type Net, type Setting } from './network';
import { UPRIGHT, heightOf, leansOf, surfaceOf, type Lean } from './surface';

/** Within so much either way a level is called even (trade practice: heights are known no better), m. */
const NEUTRAL = 0.02;

export interface Opening { readonly name: string; readonly at?: At; readonly kind: 'lid' | 'ports' | 'drain' | 'vent' | 'joint' }

/** Filters open at their lid (or their body) and drain, everything else at its joints, and all at their bleed points. */
export function openingsOf(net: Net, name: string): Opening[] {
    const thing = net.parts.get(name) ?? net.consumers.get(name);
    if (!thing) return [];
    const vents = thing.vents.map((vent): Opening => ({ name: vent.name, kind: 'vent', ...(vent.at && { at: vent.at }) }));
    const part = net.parts.get(name);
    if (part?.kind === 'filter') {
        const body: Opening = part.lid ? { name: 'lid', kind: 'lid', at: part.lid } : { name: 'ports', kind: 'ports', ...(part.at && { at: part.at }) };
        return [body, ...(part.drain ? [{ name: 'drain', kind: 'drain' as const, at: part.drain }] : []), ...vents];
    }
    const own = part?.at ?? net.consumers.get(name)?.inlet;
    const ends = (net.ports.get(name) ?? []).map((port) => own ?? net.heights.get(port));
    const at = ends.every((end) => end !== undefined) && ends.length > 0 ? ends.reduce((low, end) => (end!.up < low!.up ? end : low)) : undefined;
    return [{ name: 'joint', kind: 'joint', ...(at && { at }) }, ...vents];
}

/** Everything that is asked again and again for one boat. */
export class Levels {
    readonly leans: readonly Lean[];
    private readonly known = new Map<string, number | undefined>();
    constructor(private readonly net: Net) { this.leans = leansOf(net.boat.envelope); }

    surface(tank: string, level: 'low' | 'high', lean: Lean): number | undefined {
        const key = `${tank} ${level} ${lean.heel} ${lean.trim}`;
        if (!this.known.has(key)) this.known.set(key, surfaceOf(this.net.boat.tanks.find((one) => one.name === tank)!, this.net.boat.envelope[level], lean));
        return this.known.get(key);
    }
    /** Whether the full tank stands above the place and the mouth is in the liquid; what is not known counts as yes. */
    couldReach(mouthAt: string, at: At | undefined, lean: Lean): boolean {
        const mouth = this.net.mouths.get(mouthAt)!;
        const surface = this.surface(mouth.tank, 'high', lean);
        const height = heightOf(at, lean);
        const wet = heightOf(mouth.fitting.mouth, lean);
        return surface === undefined || ((height === undefined || surface > height + NEUTRAL) && (wet === undefined || surface > wet));
    }
}

export interface Comes { readonly supply: boolean; /** By a return, with her upright. */ readonly return: boolean; /** By a return when she leans. */ readonly leaning: boolean }

const open = (setting: Setting) => ({ way }: Move): boolean => isOpen(way, setting) && !(way.kind === 'electric' && way.whenOff === 'blocks');

/** Mouths from which liquid could come: along a supply no check is relied on, back by a return checks and pump valves are. */
function mouthsTo(net: Net, setting: Setting, part: string, side: 'supply' | 'return'): string[] {
    const ports = net.ports.get(part) ?? [];
    const passesOpen = open(setting);
    const notThrough = (move: Move): boolean => move.way.part !== part && passesOpen(move);
    const found: string[] = [];
    if (side === 'supply') {
        const { points } = walk(net, 'into', ports, (move) => notThrough(move) && (move.way.kind !== 'consumer' || move.forward));
        found.push(...[...points].filter((at) => net.mouths.get(at)?.kind === 'pickup'));
        if (part.includes('.') && net.mouths.get(ports[0]!)) found.push(ports[0]!);
        return found;
    }
    const mayBack = (move: Move): boolean => {
        if (!notThrough(move)) return false;
        if (move.way.kind === 'open') return true;
        if (move.way.kind === 'consumer') return move.forward || move.way.backflow !== 'blocks';
        if (move.way.kind === 'electric') return move.forward || move.way.whenOff === undefined;
        return move.forward;
    };
    const { points, moves } = walk(net, 'into', ports, mayBack);
    found.push(...[...points].filter((at) => net.mouths.get(at)?.kind === 'drop'));
    // A pickup counts here only when its liquid comes back through a consumer that stands still.
    for (const move of moves) {
        if (move.way.kind !== 'consumer' || move.forward) continue;
        const beyond = walk(net, 'into', [move.from], mayBack).points;
        found.push(...[...beyond].filter((at) => net.mouths.get(at)?.kind === 'pickup'));
    }
    return [...new Set(found)];
}

export function comesTo(net: Net, levels: Levels, setting: Setting, part: string, at: At | undefined): Comes {
    const supply = mouthsTo(net, setting, part, 'supply');
    const back = mouthsTo(net, setting, part, 'return');
    const whenLeaning = (mouths: readonly string[]): boolean => mouths.some((mouth) => levels.leans.some((lean) => levels.couldReach(mouth, at, lean)));
    return {
        supply: whenLeaning(supply),
        return: back.some((mouth) => levels.couldReach(mouth, at, UPRIGHT)),
        leaning: whenLeaning(back),
    };
}

/** Where it is said to stand itself: what it is made fast to may stand higher or lower, with a pipe between that nobody wrote. */
const standsAt = (net: Net, name: string): number | undefined => (net.parts.get(name)?.at ?? net.consumers.get(name)?.inlet)?.up;

/** The highest place at which air could come into a part: its ports, and a crest of a pipe. Undefined when it is not known. */
function topOf(net: Net, name: string): number | undefined {
    const part = net.parts.get(name);
    const own = standsAt(net, name);
    if (own !== undefined) return Math.max(own, part?.crest ?? own);
    const ends = (net.ports.get(name) ?? []).map((port) => net.heights.get(port)?.up);
    if (ends.some((end) => end === undefined)) return undefined;
    return Math.max(...ends.filter((end) => end !== undefined), ...(part?.crest !== undefined ? [part.crest] : []));
}

/** The lowest place of it; undefined when it is not known. */
function bottomOf(net: Net, name: string): number | undefined {
    const part = net.parts.get(name);
    const own = standsAt(net, name);
    if (own !== undefined) return Math.min(own, part?.low ?? own, part?.drain?.up ?? own);
    const ends = (net.ports.get(name) ?? []).map((port) => net.heights.get(port)?.up);
    if (ends.some((end) => end === undefined)) return undefined;
    return Math.min(...ends.filter((end) => end !== undefined), ...(part?.low !== undefined ? [part.low] : []));
}

export interface Drained { /** What may hold air afterwards. */ readonly air: ReadonlySet<string>; /** Litres that come out, where all is known. */ readonly litres: number | undefined }

/**
 * What is no longer known to be full when a part stands open: the part itself, what hangs above the opening and can run to it, and
 * columns that fall back into a tank (through a consumer only where nothing on the way rises above the opening). Checks are tight.
 */
export function drainedBy(net: Net, levels: Levels, setting: Setting, name: string, opening: Opening): Drained {
    const ports = net.ports.get(name) ?? [];
    // A line ends at the part's own ports: with a drain below them open, its end is in air, and only what stands higher runs in.
    const own = net.parts.get(name);
    const z = opening.at === undefined ? undefined : own?.kind === 'filter' && own.at ? Math.max(opening.at.up, own.at.up) : opening.at.up;
    const air = new Set([name]);
    const runs = (move: Move): boolean => {
        if (move.way.part === name || !isOpen(move.way, setting)) return false;
        if (move.way.kind === 'open') return true;
        if (move.way.kind === 'electric') return move.way.whenOff !== 'blocks' && (move.forward || move.way.whenOff === undefined);
        if (move.way.kind === 'consumer') return move.forward || move.way.backflow !== 'blocks';
        return move.forward;
    };
    // What a valve or a gauge itself holds nobody says: then any can will do.
    let litres = bare(net, name) ? undefined : volumeOf(net, name);
    // What runs to the opening from above. Behind a part that hangs above, one that lies lower holds the rest: no air comes past it.
    const seen = new Set<string>();
    const hang = (here: string, above: boolean, behind: boolean): void => {
        for (const move of net.moves(here, 'into')) {
            // Back through a consumer its own return can run in, but not what lies behind another one.
            const consumer = move.way.kind === 'consumer';
            if (!runs(move) || (behind && consumer)) continue;
            const top = topOf(net, move.way.part);
            const higher = z === undefined || top === undefined || top > z + NEUTRAL;
            if (above && !higher && move.way.holds) continue;
            if (higher && move.way.holds && !air.has(move.way.part)) {
                air.add(move.way.part);
                const bottom = bottomOf(net, move.way.part);
                const more = volumeOf(net, move.way.part);
                if (z !== undefined && bottom !== undefined && bottom >= z) litres = litres === undefined || more === undefined ? undefined : litres + more;
            }
            const key = `${move.from} ${above || higher}`;
            if (seen.has(key)) continue;
            seen.add(key);
            if (!net.mouths.has(move.from)) hang(move.from, above || (higher && move.way.holds), behind || (consumer && !move.forward));
        }
    };
    for (const port of ports) hang(port, false, false);
    // What falls back into a tank below: every part on a way from the opening to a mouth that stands lower.
    const fall = (here: string, on: readonly Move[], seen: ReadonlySet<string>): void => {
        const mouth = net.mouths.get(here);
        if (mouth) {
            const lowest = levels.leans.map((lean) => [levels.surface(mouth.tank, 'low', lean), heightOf(opening.at, lean)] as const);
            const below = lowest.some(([surface, height]) => surface === undefined || height === undefined || surface < height);
            const through = on.some((move) => move.way.kind === 'consumer');
            const rises = on.some((move) => { const top = topOf(net, move.way.part); return top !== undefined && z !== undefined && top > z; });
            if (below && !(through && rises)) for (const move of on) if (move.way.holds) air.add(move.way.part);
            return;
        }
        for (const move of net.moves(here, 'out')) if (runs(move) && !seen.has(move.to)) fall(move.to, [...on, move], new Set([...seen, move.to]));
    };
    for (const port of ports) fall(port, [], new Set(ports));
    return { air, litres };
}

const bare = (net: Net, name: string): boolean => ['check', 'shutoff', 'selector', 'gauge', 'tee'].includes(net.parts.get(name)?.kind ?? '');

function volumeOf(net: Net, name: string): number | undefined {
    const part = net.parts.get(name);
    if (part) return bare(net, name) ? 0 : part.litres;
    const mouth = [...net.mouths.values()].find((one) => `${one.tank}.${one.fitting.name}` === name);
    return mouth ? mouth.fitting.litres : net.consumers.get(name)?.litres;
}
