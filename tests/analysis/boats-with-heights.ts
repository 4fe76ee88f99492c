/** Boats with heights drawn by lot, as text; and what comes to an opening of theirs, found by trying every way on the drawing itself. All in mm, litres, Pa. */
import { lots } from '../oracle/random-boats';

export interface Spot { up: number; fwd: number; stbd: number }

export type Piece =
    | { kind: 'hose'; name: string; crest?: Spot }
    | { kind: 'shutoff'; name: string; at?: Spot; open: boolean }
    | { kind: 'check'; name: string; at?: Spot; cracks?: number }
    | { kind: 'primer' | 'lift pump'; name: string; at?: Spot; cracks?: number }
    | { kind: 'electric pump'; name: string; at?: Spot; off?: 'passes' | 'blocks' }
    | { kind: 'filter'; name: string; at?: Spot; lid?: Spot; drain?: Spot }
    | { kind: 'tee'; name: string; at?: Spot };

export interface DrawnCourse { service: 'supply' | 'return' | 'transfer'; name: string; from: string; to: string; pieces: Piece[] }
export interface DrawnFitting { kind: 'pickup' | 'drop'; port: string; mouth?: number; top?: Spot }
export interface DrawnTank { name: string; size: [number, number, number]; corner?: Spot; fittings: DrawnFitting[] }
export interface Drawn { tanks: DrawnTank[]; backflow?: 'passes' | 'blocks'; inlet?: Spot; courses: DrawnCourse[] }

/** `gaps`: how often a height is left out. */
export function drawBoat(seed: number, gaps = 0): Drawn {
    const lot = lots(seed * 7919 + 13);
    const chance = (p: number): boolean => lot() < p;
    const between = (low: number, high: number): number => low + Math.floor(lot() * (high - low + 1));
    const pick = <T>(of: readonly T[]): T => of[between(0, of.length - 1)]!;
    const known = <T>(value: T): T | undefined => (chance(gaps) ? undefined : value);
    const spot = (low = 200, high = 1300): Spot => ({ up: between(low, high), fwd: between(500, 4500), stbd: between(1, 1200) * (chance(0.5) ? 1 : -1) });
    const counts = new Map<string, number>();
    const name = (stem: string): string => { counts.set(stem, (counts.get(stem) ?? 0) + 1); return `${stem}${counts.get(stem)!}`; };
    const cracks = (): { cracks?: number } => (chance(0.6) ? { cracks: between(1, 20) * 100 } : {});
    const at = (): { at?: Spot } => { const found = known(spot()); return found ? { at: found } : {}; };
    const piece = (): Piece => {
        switch (pick(['hose', 'hose', 'shutoff', 'check', 'primer', 'lift pump', 'electric pump', 'filter', 'filter'] as const)) {
            case 'hose': return { kind: 'hose', name: name('H'), ...(chance(0.3) && { crest: spot(600, 1600) }) };
            case 'shutoff': return { kind: 'shutoff', name: name('V'), ...at(), open: chance(0.8) };
            case 'check': return { kind: 'check', name: name('CV'), ...at(), ...cracks() };
            case 'primer': return { kind: 'primer', name: name('PR'), ...at(), ...cracks() };
            case 'lift pump': return { kind: 'lift pump', name: name('LP'), ...at() };
            case 'electric pump': { const off = pick([undefined, 'passes', 'blocks'] as const); return { kind: 'electric pump', name: name('EP'), ...at(), ...(off && { off }) }; }
            case 'filter': {
                const body = spot();
                const [lid, drain] = [known({ ...body, up: body.up + between(10, 80) }), known({ ...body, up: body.up - between(20, 200) })];
                return { kind: 'filter', name: name('F'), ...(known(body) && { at: body }), ...(lid && { lid }), ...(drain && { drain }) };
            }
        }
    };
    const row = (most: number): Piece[] => Array.from({ length: between(0, most) }, piece);
    const tee = (): Piece => ({ kind: 'tee', name: name('J'), ...at() });
    const two = chance(0.5);
    const tanks = ['T1', ...(two ? ['T2'] : [])].map((tank): DrawnTank => {
        const size: [number, number, number] = [between(300, 1200), between(200, 800), between(200, 700)];
        const corner = { up: between(100, 900), fwd: between(500, 4000), stbd: between(1, 700) * (chance(0.5) ? 1 : -1) };
        const inside = (): Spot => ({ up: corner.up + size[2] + 20, fwd: corner.fwd + between(0, size[0]), stbd: corner.stbd + Math.sign(corner.stbd) * between(0, size[1]) });
        const fitting = (kind: DrawnFitting['kind'], port: string): DrawnFitting => { const [mouth, top] = [known(between(0, size[2])), known(inside())]; return { kind, port, ...(mouth !== undefined && { mouth: kind === 'pickup' ? Math.min(mouth, 80) : mouth }), ...(top && { top }) }; };
        const placed = known(corner);
        return { name: tank, size, ...(placed && { corner: placed }), fittings: [fitting('pickup', 'P1'), ...(two ? [fitting('pickup', 'X')] : []), fitting('drop', 'R1')] };
    });
    const loop = chance(0.4);
    const filter = (): Piece => { for (;;) { const found = piece(); if (found.kind === 'filter') return found; } };
    const feed: Piece[] = [...row(3), ...(two || loop ? [tee()] : []), ...row(2), filter(), ...(loop ? [tee()] : []), ...row(2)];
    const tees = feed.filter(({ kind }) => kind === 'tee').map(({ name: tag }) => tag);
    const courses: DrawnCourse[] = [
        { service: 'supply', name: 'Feed', from: 'T1.P1', to: 'E1', pieces: feed },
        ...(two ? [{ service: 'supply' as const, name: 'Other', from: 'T2.P1', to: tees[0]!, pieces: row(3) }] : []),
        ...(loop ? [{ service: 'supply' as const, name: 'Round', from: tees[0]!, to: tees[1]!, pieces: [...row(2), { kind: 'hose' as const, name: name('H') }] }] : []),
        { service: 'return', name: 'Back', from: 'E1', to: two && chance(0.4) ? 'T2.R1' : 'T1.R1', pieces: row(3) },
        ...(two && chance(0.5) ? [{ service: 'transfer' as const, name: 'Cross', from: 'T1.X', to: 'T2.X', pieces: [{ kind: 'shutoff' as const, name: name('V'), at: spot(), open: chance(0.5) }] }] : []),
    ];
    const [backflow, inlet] = [pick([undefined, 'passes', 'blocks'] as const), known(spot())];
    return { tanks, ...(backflow && { backflow }), ...(inlet && { inlet }), courses };
}

const words = ({ up, fwd, stbd }: Spot): string => `${up} mm up, ${fwd} mm fwd, ${Math.abs(stbd)} mm ${stbd < 0 ? 'port' : 'stbd'}`;
const fact = (word: string, at: Spot | undefined): string => (at ? `   ${word} ${words(at)}` : '');

/** `order` turns the order of tanks, fittings and courses round. */
export function textOf({ tanks, backflow, inlet, courses }: Drawn, order: 'as drawn' | 'turned round' = 'as drawn'): string {
    const turn = <T>(all: readonly T[]): readonly T[] => (order === 'turned round' ? [...all].reverse() : all);
    const line = (piece: Piece): string => {
        const at = 'at' in piece ? fact('at', piece.at) : '';
        switch (piece.kind) {
            case 'hose': return `hose ${piece.name}   bore 8 mm   length 1 m${piece.crest ? `   crest at ${words(piece.crest)}` : ''}`;
            case 'shutoff': return `shutoff ${piece.name}${at}   normally ${piece.open ? 'open' : 'shut'}`;
            case 'check': case 'primer': return `${piece.kind} ${piece.name}${at}${piece.cracks === undefined ? '' : `   cracks ${piece.cracks / 1e3} kPa`}`;
            case 'electric pump': return `electric pump ${piece.name}${at}${piece.off ? `   when off ${piece.off}` : ''}`;
            case 'filter': return `filter ${piece.name}   holds 200 mL${piece.at ? `   ports at ${words(piece.at)}` : ''}${piece.lid ? `   lid at ${words(piece.lid)}` : ''}${piece.drain ? `   drain at ${words(piece.drain)}` : ''}`;
            case 'lift pump': case 'tee': return `${piece.kind} ${piece.name}${at}`;
        }
    };
    return [
        'vessel Lotwake {\n  heights from "keel"\n}',
        ...turn(tanks).map(({ name, size, corner, fittings }) => [
            `tank ${name} carries diesel {`, `  box ${size.join(' x ')} mm${corner ? `   low aft inner corner at ${words(corner)}` : ''}`,
            ...turn(fittings).map(({ kind, port, mouth, top }) => `  ${kind} ${port}${mouth === undefined ? '' : `   mouth at ${mouth} mm off bottom`}${top ? `   top at ${words(top)}` : ''}`), '}',
        ].join('\n')),
        `engine E1 {\n${inlet ? `  inlet at ${words(inlet)}\n` : ''}${backflow ? `  backflow ${backflow}\n` : ''}  bleed BE1\n}`,
        ...turn(courses).map(({ service, name, from, to, pieces }) => [`${service} course ${name} from ${from} to ${to} {`, ...pieces.map((piece) => `  ${line(piece)}`), '}'].join('\n')),
    ].join('\n\n') + '\n';
}

/** Starboard for port and port for starboard. */
export const mirrored = (boat: Drawn): Drawn => JSON.parse(JSON.stringify(boat), (key, value: unknown) => (key === 'stbd' ? -(value as number) : value)) as Drawn;

export const filtersOf = (boat: Drawn): Extract<Piece, { kind: 'filter' }>[] => boat.courses.flatMap(({ pieces }) => pieces.filter((piece) => piece.kind === 'filter'));

export interface Comes { tank: string; fitting: string; cracks: number; sure: boolean }

/** Every way on which liquid can come to a part, tried one by one: each stretch of pipe between two pieces is met at most once on a way. */
export function comingTo({ courses, backflow, tanks }: Drawn, part: string, worn: boolean): Comes[] {
    interface Step { to: string; cracks: number; sure: boolean; piece: string }
    const against = new Map<string, Step[]>();
    const add = (at: string, step: Step): void => { against.set(at, [...(against.get(at) ?? []), step]); };
    /** Liquid that comes along from `from` to `to`, and back, with what each way asks; undefined where it cannot. */
    const join = (piece: string, from: string, to: string, along: Omit<Step, 'to' | 'piece'> | undefined, back: Omit<Step, 'to' | 'piece'> | undefined): void => {
        if (along) add(to, { to: from, piece, ...along });
        if (back) add(from, { to, piece, ...back });
    };
    const free = { cracks: 0, sure: true };
    for (const { name, from, to, pieces } of courses) {
        let at = from === 'E1' ? 'E1 out' : from;
        pieces.forEach((piece, i) => {
            if (piece.kind === 'tee') { join('', at, piece.name, free, free); at = piece.name; return; }
            const next = `${name} ${i}`;
            const held = 'cracks' in piece && !worn ? piece.cracks ?? 0 : 0;
            switch (piece.kind) {
                case 'hose': case 'filter': join(piece.name, at, next, free, free); break;
                case 'shutoff': if (piece.open) join(piece.name, at, next, free, free); break;
                case 'check': join(piece.name, at, next, { cracks: held, sure: true }, worn ? free : undefined); break;
                case 'primer': join(piece.name, at, next, { cracks: 2 * held, sure: true }, worn ? free : undefined); break;
                case 'lift pump': join(piece.name, at, next, free, worn ? free : undefined); break;
                case 'electric pump': if (piece.off !== 'blocks') { const maybe = { cracks: 0, sure: piece.off === 'passes' }; join(piece.name, at, next, maybe, worn ? maybe : undefined); } break;
            }
            at = next;
        });
        join('', at, to === 'E1' ? 'E1 in' : to, free, free);
    }
    join('E1', 'E1 in', 'E1 out', free, backflow === 'blocks' ? undefined : { cracks: 0, sure: backflow === 'passes' });
    const ends = [...against.values()].flat().filter(({ piece }) => piece === part).map(({ to }) => to);
    const starts = [...ends, ...[...against].filter(([, steps]) => steps.some(({ piece }) => piece === part)).map(([at]) => at)];
    const found: Comes[] = [];
    const mouths = new Set(tanks.flatMap(({ name, fittings }) => fittings.map(({ port }) => `${name}.${port}`)));
    const walk = (at: string, been: ReadonlySet<string>, cracks: number, sure: boolean): void => {
        if (mouths.has(at)) { found.push({ tank: at.split('.')[0]!, fitting: at, cracks, sure }); return; }
        for (const step of against.get(at) ?? []) {
            if (step.piece === part || been.has(step.to)) continue;
            walk(step.to, new Set([...been, step.to]), cracks + step.cracks, sure && step.sure);
        }
    };
    for (const start of new Set(starts)) walk(start, new Set([start]), 0, true);
    return found;
}
