/**
 * The smallest sets of settings that isolate an opened part, against every setting tried one after another, and against a
 * maximum flow where all valves are plain shutoffs (Menger: the fewest valves that part two places are as many as the ways
 * between them that share no valve).
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isolate, type Checks, type IsolatingSet, type Isolation, type Setting } from '../../src/analysis/topology/isolating';
import { lineUpsOf } from '../../src/analysis/topology/line-ups';
import { networkOf } from '../../src/analysis/topology/network';
import { SLOOP, TWIN, after, edit, load, without } from '../checks/boats';
import { arcsOf, boatOf, lineUpOf, partsOf, placesOf, plumbing, runsTo, type Arc, type Kind, type Plumbing } from './drawn-plumbing';

const SEED = 20261125;
const many = (count: number): Kind[] => Array.from({ length: count }, () => 'shutoff');
const ALL = plumbing({ kinds: [...many(16), 'hose', 'electric valve', 'locked valve', 'check', 'hand primer', 'passing pump', 'blocking pump', 'pump'], selectors: 3, valves: 12 });
const PLAIN = plumbing({ kinds: [...many(9), 'hose', 'check'], selectors: 0, valves: 12 });
const asked = (drawn: fc.Arbitrary<Plumbing>): fc.Arbitrary<{ drawn: Plumbing; part: string; checks: Checks; sources: string[] }> => fc.record({ drawn, part: fc.nat(1000), checks: fc.constantFrom<Checks>('tight', 'leaky'), sources: fc.nat(2) })
    .map(({ drawn: one, part, checks, sources }) => ({ drawn: one, part: partsOf(one)[part % partsOf(one).length]!, checks, sources: one.tanks.map(({ id }) => id).slice(0, 1 + sources) }));

// ---- every setting tried one after another

type Positions = ReadonlyMap<string, string>;
/** Whether liquid comes in some positions; the shutoffs alone are shut in arrows that are made once. */
function coming(drawn: Plumbing, part: string, sources: readonly string[], checks: Checks): (positions: Positions) => boolean {
    const known = new Map<string, Arc[]>();
    const places = placesOf(drawn, part);
    return (positions) => {
        const key = drawn.selectors.map(({ id }) => positions.get(id) ?? '').join();
        const arcs = known.get(key) ?? arcsOf(drawn, new Map([...positions].filter(([, position]) => position !== 'shut')), `at rest, checks ${checks}`);
        known.set(key, arcs);
        const found = runsTo(drawn, arcs, sources, new Set([...positions].flatMap(([id, position]) => (position === 'shut' ? [id] : []))));
        return places.some((place) => found.has(place));
    };
}

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
        const comes = coming(drawn, part, sources, checks);
        const cut = tried.filter(({ positions }) => !comes(positions));
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
        if ([...found.sets, ...found.alternatives].some(({ blocks }) => blocks.length > 0)) seen.blocks++;
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
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThanOrEqual(5);
}, 120_000);

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
    for (const size of [0, 1, 2, 3, Infinity]) expect(sizes.get(size) ?? 0, `size ${size}`).toBeGreaterThanOrEqual(5);
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

// ---- boats that can be followed by eye

/** In the first line-up, from all tanks. */
async function isolated(text: string, part: string, checks: Checks = 'tight', sources?: readonly string[]): Promise<Isolation> {
    const { boat } = await load(text);
    return isolate(networkOf(boat), lineUpsOf(boat)[0]!.positions, part, sources ?? boat.tanks.map(({ id }) => id), { checks });
}
const sets = async (...about: Parameters<typeof isolated>): Promise<string[]> => (await isolated(...about)).sets.map(({ settings, blocks }) => told(settings) + (blocks.length > 0 ? `; blocks ${blocks.join()}` : ''));
const BACK = `${'return course Back from E1 to T1.R1 {'}\n  hose B1      bore 6 mm`;

describe('by the return', () => {
    const blocks = edit(SLOOP, 'bleed BS3', 'bleed BS3\n  backflow blocks');
    // From the final filter liquid comes along the supply through V1, and from T1.R1 back through B1, E1 and S3.
    test('an engine of which nobody says what it lets back lets it back', async () => {
        const found = await isolated(SLOOP, 'F2');
        expect(found.sets).toEqual([]);
        expect(found.cannot).toEqual([{ from: 'T1', by: ['T1.R1', 'B1', 'E1', 'S3'] }]);
        expect(await sets(blocks, 'F2')).toEqual(['V1 shut']);
    });
    test('the lift pump holds what comes back, unless checks leak', async () => {
        expect(await sets(SLOOP, 'F1')).toEqual(['V1 shut']);
        expect((await isolated(SLOOP, 'F1', 'leaky')).cannot.map(({ by }) => by)).toEqual([['T1.R1', 'B1', 'E1', 'S3', 'F2', 'LP1', 'S2']]);
    });
    test('a valve in the return cuts it, and blocks the return', async () => expect(await sets(edit(SLOOP, BACK, `${BACK}\n  shutoff VR normally open`), 'F2')).toEqual(['V1 shut, VR shut; blocks E1']));
    test('a check in the return holds it, if it is tight', async () => {
        const checked = edit(SLOOP, BACK, `${BACK}\n  check CV1`);
        expect(await sets(checked, 'F2')).toEqual(['V1 shut']);
        expect((await isolated(checked, 'F2', 'leaky')).cannot.map(({ by }) => by)).toEqual([['T1.R1', 'CV1', 'B1', 'E1', 'S3']]);
    });
});

describe('what hands can set', () => {
    test.each([['solenoid', 'normally open   solenoid'], ['locked open', 'locked open']])('not a valve that is %s', async (_, how) => {
        expect((await isolated(edit(SLOOP, 'normally open', how), 'F1')).cannot.map(({ by }) => by)).toEqual([['T1.P1', 'V1', 'S1', 'PR1']]);
    });
    test('not the opened valve itself', async () => expect((await isolated(SLOOP, 'V1')).cannot.map(({ by }) => by)).toEqual([['T1.P1']]));
    test('shut already', async () => expect(await isolated(edit(SLOOP, 'normally open', 'normally shut'), 'F1')).toMatchObject({ already: true, sets: [], cannot: [] }));
    test('a part that is not there is not called isolated', async () => expect(await isolated(SLOOP, 'F9')).toMatchObject({ already: false, sets: [], cannot: [] }));
});

describe('two tanks', () => {
    const twin = edit(TWIN, 'engine E1', 'engine E1 { backflow blocks }');
    // SV1 stands at PORT: T1 comes through V1. Turned to STBD it would let T2 come, through V2.
    test('the valve of the tank in use; or the selector turned away, and the other valve', async () => {
        const found = await isolated(twin, 'F1');
        expect(found.sets.map(({ settings }) => told(settings))).toEqual(['V1 shut']);
        expect(found.alternatives.map(({ settings }) => told(settings))).toEqual(['SV1 STBD, V2 shut']);
    });
    test('with an off position the selector alone; from one tank, by turning to the other', async () => {
        const off = after(twin, 'position STBD joins stbd, out', '  position OFF joins nothing');
        expect(await sets(off, 'F1')).toEqual(['SV1 OFF', 'V1 shut']);
        expect(await sets(off, 'F1', 'tight', ['T1'])).toEqual(['SV1 OFF', 'SV1 STBD', 'V1 shut']);
    });
    test('each tank can be cut off, never both: the selector is in each way', async () => {
        const bare = edit(edit(twin, 'shutoff V1   normally open', 'hose A'), 'shutoff V2   normally open', 'hose B');
        const found = await isolated(bare, 'F1');
        expect([found.sets, found.cannot]).toEqual([[], [{ from: 'T2', by: ['T2.P1', 'B', 'SV1'] }]]);
        expect(await sets(bare, 'F1', 'tight', ['T1'])).toEqual(['SV1 STBD']);
    });
    test('a selector that nobody placed may stand anywhere', async () => expect(await sets(edit(twin, 'SV1 PORT   SV2 PORT', 'SV2 PORT'), 'F1')).toEqual(['SV1 PORT, V1 shut', 'SV1 STBD, V2 shut', 'V1 shut, V2 shut']));
    test('ganged selectors turn together, as one setting', async () => {
        const ganged = edit(after(after(twin, 'position STBD joins stbd, out', '  position OFF joins nothing\n  ganged with SV2'), 'position STBD joins in, stbd', '  position OFF joins nothing'), 'backflow blocks', 'backflow passes');
        // Its OFF stops the supply and what comes back by the return.
        expect(await sets(ganged, 'F1')).toEqual(['SV1 OFF; blocks E1']);
    });
    test('a crossover that stands open is one way more', async () => {
        const crossed = edit(edit(twin, 'filter F1 final', 'tee J1   filter F1 final'), 'tank T2 {', 'tank T2 {\n  pickup P2') + 'supply course Cross from T2.P2 to J1 { shutoff VX normally open }\n';
        expect(await sets(crossed, 'F1')).toEqual(['V1 shut, VX shut']);
        expect(await sets(edit(crossed, 'shutoff VX normally open', 'shutoff VX normally shut'), 'F1')).toEqual(['V1 shut']);
    });
});

test('an electric pump stops liquid only when that is said of it', async () => {
    const pump = (facts: string): string => without(edit(SLOOP, 'primer PR1', `electric pump PR1 ${facts}`), 'shutoff V1 normally open');
    expect(await isolated(pump('when off blocks'), 'F1')).toMatchObject({ already: true });
    for (const facts of ['when off passes', '']) expect((await isolated(pump(facts), 'F1')).cannot.map(({ by }) => by)).toEqual([['T1.P1', 'S1', 'PR1']]);
});

// Eight lines with eight valves each: 8 to the power of 8 sets of eight, of which no list is made.
test('what would take too long is given up, and that is told', async () => {
    const eight = Array.from({ length: 8 }, (_, i) => i);
    const net = `tank T1 {\n${eight.map((i) => `  pickup P${i}\n`).join('')}  vent\n}\nengine E1 { backflow blocks }
supply course Feed from T1.P0 to E1 { ${eight.map((k) => `shutoff V0${k} normally open`).join('   ')}   tee J1   filter F1 final }
${eight.slice(1).map((i) => `supply course More${i} from T1.P${i} to J1 { ${eight.map((k) => `shutoff V${i}${k} normally open`).join('   ')} }`).join('\n')}\n`;
    expect(await isolated(net, 'F1')).toMatchObject({ already: false, cannot: [], unfinished: 'sets' });
});
