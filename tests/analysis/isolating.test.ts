/**
 * The smallest sets of settings that isolate an opened part, against every setting tried one after another, and against a
 * maximum flow where all valves are plain shutoffs (Menger: the fewest valves that part two places are as many as the ways
 * between them that share no valve).
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isolate, type Checks, type IsolatingSet, type Isolation, type Setting } from '../../src/analysis/topology/isolating';
import { networkOf } from '../../src/analysis/topology/network';
import { arcsOf, boatOf, lineUpOf, partsOf, placesOf, plumbing, runsTo, type Arc, type Kind, type Plumbing } from './drawn-plumbing';

const SEED = 20261125;
const many = (count: number): Kind[] => Array.from({ length: count }, () => 'shutoff');
const ALL = plumbing({ kinds: [...many(16), 'hose', 'electric valve', 'locked valve', 'check', 'hand primer', 'passing pump', 'blocking pump', 'pump'], selectors: 3, valves: 12 });
const PLAIN = plumbing({ kinds: [...many(9), 'hose', 'check'], selectors: 0, valves: 12 });
const asked = (drawn: fc.Arbitrary<Plumbing>): fc.Arbitrary<{ drawn: Plumbing; part: string; checks: Checks; sources: string[] }> => fc.record({ drawn, part: fc.nat(1000), checks: fc.constantFrom<Checks>('tight', 'leaky'), sources: fc.nat(2) })
    .map(({ drawn: one, part, checks, sources }) => ({ drawn: one, part: partsOf(one)[part % partsOf(one).length]!, checks, sources: one.tanks.map(({ id }) => id).slice(0, 1 + sources) }));

// ---- every setting tried one after another

type Positions = ReadonlyMap<string, string>;
const comes = (drawn: Plumbing, positions: Positions, part: string, sources: readonly string[], checks: Checks): boolean => {
    const found = runsTo(drawn, arcsOf(drawn, positions, `at rest, checks ${checks}`), sources);
    return placesOf(drawn, part).some((place) => found.has(place));
};

interface Tried { readonly settings: readonly Setting[]; readonly positions: Positions }

/** Selectors in groups that turn together. */
function gangs({ selectors }: Plumbing): string[][] {
    const found: string[][] = [];
    for (const { id, gangedWith } of selectors) { const gang = found.find((other) => gangedWith !== undefined && other.includes(gangedWith)); if (gang) gang.push(id); else found.push([id]); }
    return found;
}

function everySetting(drawn: Plumbing, part: string): Tried[] {
    const start = lineUpOf(drawn);
    let tried: Tried[] = [{ settings: [], positions: start }];
    const also = (turns: readonly Tried[]): void => { tried = tried.flatMap((one) => [one, ...turns.map(({ settings, positions }) => ({ settings: [...one.settings, ...settings], positions: new Map([...one.positions, ...positions]) }))]); };
    for (const { id, kind } of drawn.links) if (kind === 'shutoff' && id !== part && start.get(id) === 'open') also([{ settings: [{ part: id, position: 'shut' }], positions: new Map([[id, 'shut']]) }]);
    for (const gang of gangs(drawn).filter((ids) => !ids.includes(part))) {
        const of = (id: string): string[] => Object.keys(drawn.selectors.find((one) => one.id === id)!.positions);
        const names = [...new Set(gang.flatMap(of))];
        also(names.map((position) => {
            const moved = gang.filter((id) => of(id).includes(position));
            return { settings: [{ part: moved.toSorted()[0]!, position }], positions: new Map(moved.map((id) => [id, position])) };
        }).filter(({ positions }) => [...positions].some(([id, position]) => start.get(id) !== position)));
    }
    return tried;
}

const told = (settings: readonly Setting[]): string => settings.map(({ part, position }) => `${part} ${position}`).toSorted().join(', ');
const isPartOf = (set: readonly Setting[], of: readonly Setting[]): boolean => set.every((one) => told(of).split(', ').includes(told([one])));

/** Consumers whose return comes to a tank, or round into their supply, before and not after. */
function blocked(drawn: Plumbing, after: Positions): string[] {
    const isFree = (id: string, positions: Positions): boolean => {
        const found = runsTo(drawn, arcsOf(drawn, positions, 'returned'), [`${id}:out`]);
        return found.has(`${id}:in`) || drawn.tanks.some((tank) => found.has(tank.id));
    };
    return drawn.engines.map(({ id }) => id).filter((id) => isFree(id, lineUpOf(drawn)) && !isFree(id, after)).toSorted();
}

test('300 boats of up to 12 valves: what is found is what trying everything finds', () => {
    const seen = { already: 0, cannot: 0, sets: 0, several: 0, alternatives: 0, blocks: 0, turned: 0 };
    fc.assert(fc.property(asked(ALL), ({ drawn, part, checks, sources }) => {
        const tried = everySetting(drawn, part);
        const cut = tried.filter(({ positions }) => !comes(drawn, positions, part, sources, checks));
        const size = Math.min(...cut.map(({ settings }) => settings.length));
        const smallest = cut.filter(({ settings }) => settings.length === size);
        const longer = cut.filter(({ settings }) => settings.length === size + 1 && !smallest.some((one) => isPartOf(one.settings, settings)));
        const found = isolate(networkOf(boatOf(drawn)), lineUpOf(drawn), part, sources, { checks });
        const spelt = (sets: readonly IsolatingSet[]): string[] => sets.map(({ settings, blocks }) => `${told(settings)} blocks ${blocks.join()}`);
        const spell = (sets: readonly Tried[]): string[] => sets.map(({ settings, positions }) => `${told(settings)} blocks ${blocked(drawn, positions).join()}`).toSorted();

        expect(found.unfinished).toBeUndefined();
        expect(found.already).toBe(size === 0);
        if (size === 0) { seen.already++; expect([found.sets, found.alternatives, found.cannot]).toEqual([[], [], []]); return; }
        if (cut.length === 0) {
            seen.cannot++;
            expect([found.sets, found.alternatives]).toEqual([[], []]);
            expect(found.cannot.length).toBeGreaterThan(0);
            // In some setting liquid does come from there through these parts alone.
            for (const { from, by } of found.cannot) {
                expect(sources).toContain(from);
                expect(tried.some(({ positions }) => { const places = runsTo(drawn, arcsOf(drawn, positions, `at rest, checks ${checks}`).filter((arc) => arc.part === '' || by.includes(arc.part)), [from]); return placesOf(drawn, part).some((place) => places.has(place)); })).toBe(true);
            }
            return;
        }
        seen.sets++;
        if (size > 1) seen.several++;
        if (longer.length > 0) seen.alternatives++;
        if (found.sets.some(({ blocks }) => blocks.length > 0)) seen.blocks++;
        if (found.sets.some(({ settings }) => settings.some(({ part: id }) => id.startsWith('S')))) seen.turned++;
        expect(found.cannot).toEqual([]);
        expect(found.sets.length + found.more).toBe(smallest.length);
        expect(found.sets.length).toBe(Math.min(12, smallest.length));
        if (smallest.length <= 12) expect(spelt(found.sets).toSorted()).toEqual(spell(smallest));
        else for (const set of spelt(found.sets)) expect(spell(smallest)).toContain(set);
        expect(found.alternatives.length).toBe(Math.min(6, longer.length));
        for (const set of spelt(found.alternatives)) expect(spell(longer)).toContain(set);
        expect(new Set(spelt([...found.sets, ...found.alternatives])).size).toBe(found.sets.length + found.alternatives.length);
    }), { seed: SEED, numRuns: 300 });
    // The lots are worth something.
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(5);
});

// ---- a maximum flow

/** Edmonds and Karp 1972: the shortest way that still holds some flow, until there is none. */
function maximumFlow(edges: readonly { readonly from: string; readonly to: string; readonly holds: number }[], from: string, to: string): number {
    const left = new Map<string, Map<string, number>>();
    const add = (a: string, b: string, amount: number): void => { const row = left.get(a) ?? new Map<string, number>(); left.set(a, row); row.set(b, (row.get(b) ?? 0) + amount); };
    for (const edge of edges) { add(edge.from, edge.to, edge.holds); add(edge.to, edge.from, 0); }
    for (let flow = 0; ;) {
        const before = new Map([[from, from]]);
        for (const at of before.keys()) for (const [next, amount] of left.get(at) ?? []) if (amount > 0 && !before.has(next)) before.set(next, at);
        if (!before.has(to)) return flow;
        const way: [string, string][] = [];
        for (let at = to; at !== from; at = before.get(at)!) way.push([before.get(at)!, at]);
        const most = Math.min(...way.map(([a, b]) => left.get(a)!.get(b)!));
        if (most === Infinity) return Infinity;
        for (const [a, b] of way) { add(a, b, -most); add(b, a, most); }
        flow += most;
    }
}

// By hand: s gives 3 + 2 = 5 at most; s-a-t 2, s-b-t 2 and s-a-b-t 1 use it all.
test('the flow of the test itself: 5 through a known net', () => {
    const edges = [['s', 'a', 3], ['s', 'b', 2], ['a', 'b', 1], ['a', 't', 2], ['b', 't', 3]] as const;
    expect(maximumFlow(edges.map(([from, to, holds]) => ({ from, to, holds })), 's', 't')).toBe(5);
});

/** Each valve holds 1, all else any amount. A tank gives only if it is a source. */
function fewestValves(drawn: Plumbing, part: string, sources: readonly string[], checks: Checks): number {
    const isValve = (id: string): boolean => id !== part && drawn.links.some((link) => link.id === id && link.kind === 'shutoff');
    const tanks = drawn.tanks.map(({ id }) => id);
    const arcs = arcsOf(drawn, lineUpOf(drawn), `at rest, checks ${checks}`).filter(({ from }) => !tanks.includes(from) || sources.includes(from));
    return maximumFlow([
        ...arcs.map(({ from, to, part: id }: Arc) => ({ from, to, holds: isValve(id) ? 1 : Infinity })),
        ...sources.map((id) => ({ from: '(sources)', to: id, holds: Infinity })), ...placesOf(drawn, part).map((place) => ({ from: place, to: '(opening)', holds: Infinity })),
    ], '(sources)', '(opening)');
}

const sizeOf = (found: Isolation): number => (found.already ? 0 : found.sets[0]?.settings.length ?? Infinity);

test('300 boats with plain shutoffs alone: as many valves as a maximum flow', () => {
    const sizes = new Map<number, number>();
    fc.assert(fc.property(asked(PLAIN), ({ drawn, part, checks, sources }) => {
        const size = sizeOf(isolate(networkOf(boatOf(drawn)), lineUpOf(drawn), part, sources, { checks }));
        expect(size).toBe(fewestValves(drawn, part, sources, checks));
        sizes.set(size, (sizes.get(size) ?? 0) + 1);
    }), { seed: SEED, numRuns: 300 });
    for (const size of [0, 1, 2, 3, Infinity]) expect(sizes.get(size) ?? 0, `size ${size}`).toBeGreaterThan(5);
});

// ---- what must hold of any boat

test('a valve that is shut adds no way: what is left to do is the same or one setting less', () => {
    fc.assert(fc.property(asked(ALL), fc.nat(1000), ({ drawn, part, checks, sources }, n) => {
        const shutoffs = drawn.links.filter(({ id, kind }) => kind === 'shutoff' && id !== part);
        if (shutoffs.length === 0) return;
        const { id } = shutoffs[n % shutoffs.length]!;
        const size = (state: 'open' | 'shut'): number => sizeOf(isolate(networkOf(boatOf(drawn)), new Map(lineUpOf(drawn)).set(id, state), part, sources, { checks }));
        expect([size('open'), size('open') - 1]).toContain(size('shut'));
    }), { seed: SEED, numRuns: 300 });
});

test('the order of declaration changes nothing', () => {
    fc.assert(fc.property(asked(ALL), fc.infiniteStream(fc.nat(1000)), ({ drawn, part, checks, sources }, lots) => {
        const shuffle = <T>(items: readonly T[]): T[] => items.map((item) => ({ item, lot: lots.next().value! })).toSorted((a, b) => a.lot - b.lot).map(({ item }) => item);
        const answer = (boat: ReturnType<typeof boatOf>, positions: Positions, from: readonly string[]): Isolation => isolate(networkOf(boat), positions, part, from, { checks });
        expect(answer(boatOf(drawn, shuffle), new Map(shuffle([...lineUpOf(drawn)])), shuffle(sources))).toEqual(answer(boatOf(drawn), lineUpOf(drawn), sources));
    }), { seed: SEED, numRuns: 300 });
});
