/**
 * Plumbing drawn by lot, as plain data: tees, and links of one part each between two of them. The same plumbing as a boat
 * of the model, and a second opinion on what liquid reaches, which shares no code with src.
 */
import fc from 'fast-check';
import type { Boat, Consumer, Part, PartKind } from '../../src/model/boat';

export type Kind = 'hose' | 'shutoff' | 'electric valve' | 'locked valve' | 'check' | 'hand primer' | 'passing pump' | 'blocking pump' | 'pump';

export interface Link { readonly id: string; readonly kind: Kind; readonly from: string; readonly to: string; readonly shut: boolean }
export interface Selector { readonly id: string; readonly ends: Readonly<Record<string, string>>; readonly positions: Readonly<Record<string, readonly (readonly string[])[]>>; readonly at?: string; readonly gangedWith?: string }
export interface Plumbing {
    readonly tanks: readonly { readonly id: string; readonly at: readonly string[] }[];
    readonly tees: readonly string[];
    readonly links: readonly Link[];
    readonly selectors: readonly Selector[];
    readonly engines: readonly { readonly id: string; readonly from: string; readonly to?: string; readonly backflow?: 'passes' | 'blocks' }[];
}

const PORTS = ['a', 'b', 'c'];
const POSITIONS: Selector['positions'][] = [
    { PORT: [['a', 'c']], STBD: [['b', 'c']] }, { PORT: [['a', 'c']], STBD: [['b', 'c']], OFF: [] }, { PORT: [['a', 'c']], STBD: [['b', 'c']], BOTH: [['a', 'b', 'c']] }, { OFF: [], ON: [['a', 'b', 'c']] },
];

export function plumbing({ kinds, selectors, valves, links = [6, 16] }: { kinds: readonly Kind[]; selectors: number; valves: number; links?: readonly [number, number] }): fc.Arbitrary<Plumbing> {
    const number = fc.nat(1000);
    return fc.record({
        tees: fc.integer({ min: 3, max: 7 }),
        tanks: fc.array(fc.array(number, { minLength: 1, maxLength: 2 }), { minLength: 1, maxLength: 3 }),
        links: fc.array(fc.record({ kind: fc.constantFrom(...kinds), from: number, to: number, shut: fc.integer({ min: 0, max: 4 }) }), { minLength: links[0], maxLength: links[1] }),
        selectors: fc.array(fc.record({ ends: fc.tuple(number, number, number), positions: fc.constantFrom(...POSITIONS), at: number, ganged: fc.boolean() }), { maxLength: selectors }),
        engines: fc.array(fc.record({ from: number, to: fc.option(number, { freq: 9 }), own: fc.boolean(), backflow: fc.constantFrom('passes', 'blocks', undefined) }), { minLength: 1, maxLength: 2 }),
    }).map((drawn) => {
        const tees = Array.from({ length: drawn.tees }, (_, i) => `J${i}`);
        const tee = (n: number): string => tees[n % tees.length]!;
        // Most pickups have a valve of their own, and some returns lead straight to the first tank, with a valve that can block them.
        const pickups = drawn.tanks.flatMap((at, i) => at.map((n, k) => ({ tank: i, name: `${i}${k}`, to: tee(n), valve: n % 4 > 0 })));
        const straight = drawn.engines.flatMap(({ to, own }, i) => (to !== null && own ? [i] : []));
        const own: Link[] = [
            ...pickups.filter(({ valve }) => valve).map(({ name, to }) => ({ id: `LQ${name}`, kind: 'shutoff' as const, from: `Q${name}`, to, shut: false })),
            ...straight.map((i) => ({ id: `LR${i}`, kind: 'shutoff' as const, from: `B${i}`, to: `R${i}`, shut: false })),
        ];
        let left = valves - drawn.selectors.length - own.length;
        return {
            tees: [...tees, ...own.map(({ from }) => from), ...straight.map((i) => `R${i}`)],
            tanks: drawn.tanks.map((_, i) => ({ id: `T${i}`, at: [...pickups.filter(({ tank }) => tank === i).map(({ name, to, valve }) => (valve ? `Q${name}` : to)), ...(i === 0 ? straight.map((one) => `R${one}`) : [])] })),
            // A valve too many is a hose, so that all settings can be tried.
            links: [...own, ...drawn.links.map(({ kind, from, to, shut }, i) => ({ id: `L${i}`, kind: kind === 'shutoff' && left-- <= 0 ? 'hose' : kind, from: tee(from), to: tee(from + 1 + (to % (tees.length - 1))), shut: shut === 0 }))],
            selectors: drawn.selectors.map(({ ends, positions, at, ganged }, i) => {
                const names = [...Object.keys(positions), undefined];
                const name = names[at % names.length];
                return { id: `S${i}`, ends: Object.fromEntries(PORTS.map((port, n) => [port, tee(ends[n]!)])), positions, ...(name !== undefined && { at: name }), ...(ganged && i > 0 && { gangedWith: `S${i - 1}` }) };
            }),
            engines: drawn.engines.map(({ from, to, backflow }, i) => ({ id: `E${i}`, from: tee(from), ...(to !== null && { to: straight.includes(i) ? `B${i}` : tee(to) }), ...(backflow !== undefined && { backflow }) })),
        };
    });
}

/** The positions of the line-up. */
export function lineUpOf({ links, selectors }: Plumbing): Map<string, string> {
    return new Map([...links.flatMap(({ id, kind, shut }): [string, string][] => (kind === 'shutoff' || kind === 'electric valve' ? [[id, shut ? 'shut' : 'open']] : kind === 'locked valve' ? [[id, 'open']] : [])),
        ...selectors.flatMap(({ id, at }): [string, string][] => (at === undefined ? [] : [[id, at]]))]);
}

// ---- as a boat of the model

const MODEL: Record<Kind, { kind: PartKind } & Partial<Part>> = {
    hose: { kind: 'hose' }, shutoff: { kind: 'shutoff' }, 'electric valve': { kind: 'shutoff', solenoid: true }, 'locked valve': { kind: 'shutoff', lockedOpen: true }, check: { kind: 'check' },
    'hand primer': { kind: 'hand primer' }, 'passing pump': { kind: 'electric pump', whenOff: 'passes' }, 'blocking pump': { kind: 'electric pump', whenOff: 'blocks' }, pump: { kind: 'electric pump' },
};

/** Declared in the order that `shuffle` makes of each list. */
export function boatOf(drawn: Plumbing, shuffle: <T>(items: readonly T[]) => T[] = (items) => [...items]): Boat {
    const part = (id: string, rest: { kind: PartKind } & Partial<Part>): Part => ({ id, name: id, seals: [], vents: [], ports: [], positions: [], turning: [], ...rest });
    const joint = (from: string, to: string): Boat['joints'][number] => ({ from, to, course: 'C' });
    const fitting = (tank: string, i: number): string => `${tank}.P${i}`;
    return {
        name: 'Drawn', vessel: { declared: true, envelope: {}, speeds: [], fuel: { viscosity: [] }, rules: [], spaces: [] },
        tanks: shuffle(drawn.tanks).map(({ id, at }) => ({ id, fittings: shuffle(at.map((_, i) => ({ id: fitting(id, i), tank: id, kind: 'pickup' as const, port: `P${i}` }))) })),
        consumers: shuffle(drawn.engines).map(({ id, backflow }): Consumer => ({ id, kind: 'engine', burns: [], draws: [], returns: [], limits: {}, vents: [], selfBleeding: false, ...(backflow !== undefined && { backflow }) })),
        parts: shuffle([
            ...drawn.tees.map((id) => part(id, { kind: 'tee' })), ...drawn.links.map(({ id, kind }) => part(id, MODEL[kind])),
            ...drawn.selectors.map(({ id, positions, gangedWith }) => part(id, { kind: 'selector', ports: shuffle(PORTS), positions: shuffle(Object.entries(positions)).map(([name, joins]) => ({ name, joins })), ...(gangedWith !== undefined && { gangedWith }) })),
        ]),
        joints: shuffle([
            ...drawn.tanks.flatMap(({ id, at }) => at.map((tee, i) => joint(fitting(id, i), tee))), ...drawn.links.flatMap(({ id, from, to }) => [joint(from, `${id}:in`), joint(`${id}:out`, to)]),
            ...drawn.selectors.flatMap(({ id, ends }) => Object.entries(ends).map(([port, tee]) => joint(`${id}:${port}`, tee))),
            ...drawn.engines.flatMap(({ id, from, to }) => [joint(from, `${id}:in`), ...(to === undefined ? [] : [joint(`${id}:out`, to)])]),
        ]),
        courses: [], lineUps: [], intervals: [], log: [], bleeds: [], procedures: [], overlays: [], view: 'drawn', answers: [], waivers: [], passages: [], evidence: new Map(), unknown: [], tags: new Map(),
    };
}

// ---- a second opinion

/** A way from one place to another through a part. */
export interface Arc { readonly from: string; readonly to: string; readonly part: string }

export type Liquid = 'at rest, checks tight' | 'at rest, checks leaky' | 'running' | 'returned';

/** All ways that are open in these positions: arrows, two for what passes either way. `returned` is what a consumer sends back: only as things are meant. */
export function arcsOf(drawn: Plumbing, positions: ReadonlyMap<string, string>, liquid: Liquid): Arc[] {
    const arcs: Arc[] = [];
    const one = (from: string, to: string, part: string): void => { arcs.push({ from, to, part }); };
    const both = (a: string, b: string, part = ''): void => { one(a, b, part); one(b, a, part); };
    for (const { id, at } of drawn.tanks) at.forEach((tee, i) => { both(id, `${id}.P${i}`, `${id}.P${i}`); both(`${id}.P${i}`, tee); });
    for (const { id, kind, from, to } of drawn.links) {
        both(from, `${id}:in`);
        both(`${id}:out`, to);
        const [into, out] = [`${id}:in`, `${id}:out`];
        if (kind === 'hose') both(into, out, id);
        else if (kind === 'shutoff' || kind === 'electric valve' || kind === 'locked valve') { if (positions.get(id) !== 'shut') both(into, out, id); } else if (kind === 'blocking pump') { if (liquid === 'running') one(into, out, id); } else {
            if (kind !== 'pump' || liquid !== 'returned') one(into, out, id);
            if (liquid === 'at rest, checks leaky') one(out, into, id);
        }
    }
    for (const { id, ends, positions: all } of drawn.selectors) {
        for (const [port, tee] of Object.entries(ends)) both(`${id}:${port}`, tee);
        const at = positions.get(id);
        // While running, a selector of which nobody says how it stands lets nothing by; at rest it may let anything.
        for (const [name, groups] of Object.entries(all)) if (name === at || (at === undefined && liquid.startsWith('at rest'))) for (const group of groups) for (const a of group) for (const b of group) if (a !== b) one(`${id}:${a}`, `${id}:${b}`, id);
        if (at === undefined && liquid === 'returned') for (const groups of Object.values(all)) for (const group of groups) for (const a of group) for (const b of group) if (a !== b) one(`${id}:${a}`, `${id}:${b}`, id);
    }
    for (const { id, from, to, backflow } of drawn.engines) {
        both(from, `${id}:in`);
        if (to !== undefined) both(`${id}:out`, to);
        one(`${id}:in`, `${id}:out`, id);
        if (backflow !== 'blocks' && liquid.startsWith('at rest')) one(`${id}:out`, `${id}:in`, id);
    }
    return arcs;
}

/** Places that liquid from some of them runs to; into a tank, not on from it. Nothing passes a part of `without`. */
export function runsTo({ tanks }: Plumbing, arcs: readonly Arc[], starts: readonly string[], without: ReadonlySet<string> = new Set()): Set<string> {
    const leaving = leavingOf(arcs);
    const found = new Set(starts);
    for (const at of found) if (starts.includes(at) || !tanks.some(({ id }) => id === at)) for (const { to, part } of leaving.get(at) ?? []) if (!without.has(part)) found.add(to);
    return found;
}

const leavingKnown = new WeakMap<readonly Arc[], Map<string, Arc[]>>();

/** The same arrows are asked for every setting of the shutoffs. */
function leavingOf(arcs: readonly Arc[]): Map<string, Arc[]> {
    const leaving = leavingKnown.get(arcs) ?? new Map<string, Arc[]>();
    if (leaving.size === 0) for (const arc of arcs) { const row = leaving.get(arc.from); if (row) row.push(arc); else leaving.set(arc.from, [arc]); }
    leavingKnown.set(arcs, leaving);
    return leaving;
}

/** The places of a part that is opened. */
export function placesOf({ selectors, tees, tanks }: Plumbing, id: string): string[] {
    if (tees.includes(id)) return [id];
    if (tanks.some((tank) => id.startsWith(`${tank.id}.`))) return [id, id.split('.')[0]!];
    return selectors.some((one) => one.id === id) ? PORTS.map((port) => `${id}:${port}`) : [`${id}:in`, `${id}:out`];
}

export const partsOf = ({ links, selectors, tees, engines }: Plumbing): string[] => [...links, ...selectors, ...engines].map(({ id }) => id).concat(tees);
