/** Live lines and dead legs: by hand on the examples, and by a walk of the test's own on all of them and on boats drawn by lot. */
import { describe, expect, test } from 'vitest';
import { liveIn } from '../../../../src/documents/drawing/markups/line-up';
import { lineUpsOf, type ResolvedLineUp } from '../../../../src/analysis/topology/line-ups';
import { networkOf } from '../../../../src/analysis/topology/network';
import { loadBoat } from '../../../../src/language/load';
import type { Boat, Part } from '../../../../src/model/boat';
import { randomCase, toText } from '../../../oracle/random-boats';
import { boatFrom, boatOf, EXAMPLES, idsOf, marked, shown } from './shown';

test('with every valve open on a boat of one line nothing is dead', async () => {
    const found = shown('line-up', { boat: await boatOf('ottilwake') });
    // From examples/ottilwake/lines.orlop: Feed from T1.P1 to E1 and Back from E1 to T1.R1, no branch anywhere.
    expect(idsOf(found, 'live').sort()).toEqual(['E1', 'F1', 'F2', 'G1', 'LP1', 'PR1', 'R', 'S1', 'S1b', 'S2', 'S3', 'S4', 'T1.P1', 'T1.R1', 'V1']);
    expect(idsOf(found, 'dead')).toEqual([]);
    expect(found.notes).toEqual(['E1 draws from T1 and returns to T1.']);
});

test('in a line-up for service nothing runs, and all is dead; what stands otherwise than in the normal one is told', async () => {
    const found = shown('line-up', { boat: await boatOf('ottilwake'), lineUp: 'SERVICE' });
    expect(idsOf(found, 'live')).toEqual([]);
    expect(marked(found, 'dead')).toContain('V1 shut');
    expect(found.notes).toEqual(['Nothing runs in SERVICE.', 'Otherwise than in RUN: V1 shut.']);
});

test('the line of the other tank is dead, by the selectors alone', async () => {
    // From examples/brackenwake/lines.orlop: in RUN-PORT SV1 joins S1, from T1, and SV2 joins R2, to T1. What hangs on T2 alone is V2, S2 and R3.
    const port = shown('line-up', { boat: await boatOf('brackenwake') });
    expect(marked(port, 'dead')).toEqual(['T2.P1', 'T2.R1', 'V2 open', 'S2', 'R3']);
    expect(marked(port, 'live')).toEqual(expect.arrayContaining(['SV1 PORT', 'SV2 PORT', 'S1', 'R2', 'W1', 'HX1']));
    const stbd = shown('line-up', { boat: await boatOf('brackenwake'), lineUp: 'RUN-STBD' });
    expect(marked(stbd, 'dead')).toEqual(['T1.P1', 'T1.R1', 'S1', 'R2']);
    expect(stbd.notes).toContain('Otherwise than in RUN-PORT: SV1 STBD and SV2 STBD.');
});

const TRANSFER = `vessel Shiftwake
tank T1 { pickup P1 pickup P2 drop R1 vent }
tank T2 { drop D1 vent }
engine E1
supply course Feed from T1.P1 to E1 { shutoff V1   hose S1   filter F1 }
return course Back from E1 to T1.R1 { shutoff V9   hose R1 }
transfer course Shift from T1.P2 to T2.D1 { hose X1   electric pump TP1   gives 300 L/h   hose X2 }
vent course Up from T1 to air { hose VH1 }
line-up RUN run is normal { V9 open }
line-up SHUT run from RUN { V9 shut }
line-up SHIFT transfer from RUN
`;

test('while fuel is transferred what the pump moves is live, and no engine runs; what vents is neither live nor dead', async () => {
    const boat = await boatFrom(TRANSFER);
    const shift = shown('line-up', { boat, lineUp: 'SHIFT' });
    expect(idsOf(shift, 'live')).toEqual(['T1.P2', 'T2.D1', 'X1', 'TP1', 'X2']);
    expect(idsOf(shift, 'dead')).toEqual(['T1.P1', 'T1.R1', 'V1', 'S1', 'F1', 'V9', 'R1']);
    expect(shift.notes[0]).toBe('TP1 draws from T1 and pushes to T2. No engine counts as running meanwhile.');
    const run = shown('line-up', { boat });
    expect(idsOf(run, 'dead')).toEqual(['T1.P2', 'T2.D1', 'X1', 'TP1', 'X2']);
    expect(run.notes).toContain('V1 is taken as open: nothing says how it stands in RUN.');
    expect(run.marks.some(({ about }) => about === 'VH1')).toBe(false);
    expect(shown('line-up', { boat, lineUp: 'SHUT' }).notes[0]).toBe('WARNING: the return of E1 is shut in SHUT. Open it before E1 runs.');
});

test('what is not written of a valve is told, and nothing is live through it', async () => {
    const boat = await boatFrom(`vessel Halfwake
tank T1 { pickup P1 drop R1 vent }
engine E1
selector SV1 {
  ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
}
supply course Feed from T1.P1 to SV1.port { hose S1 }
supply course On from SV1.out to E1 { hose S2 }
return course Back from E1 to T1.R1 { hose R1 }
line-up RUN run is normal
`);
    const found = shown('line-up', { boat });
    expect(idsOf(found, 'live')).toEqual([]);
    expect(marked(found, 'dead')).toEqual(expect.arrayContaining(['SV1 ?', 'S1', 'S2', 'R1']));
    expect(found.notes).toContain('No tank feeds E1 in RUN.');
    expect(found.notes.join(' ')).toContain('How SV1 stands in RUN is not written');
});

/** Ways through a part as the test has them, from the facts of the part alone. */
function waysThrough(part: Part, position: string | undefined): (readonly [string, string, 'both' | 'on'])[] {
    const port = (name: string): string => `${part.id}:${name}`;
    if (part.kind === 'tee') return [];
    if (part.kind === 'selector' || part.kind === 'changeover') {
        const joins = part.positions.find(({ name }) => name === position)?.joins ?? [];
        return joins.flatMap((group) => group.flatMap((a, i) => group.slice(i + 1).map((b) => [port(a), port(b), 'both'] as const)));
    }
    const [from, to] = part.reversed ? [port('out'), port('in')] : [port('in'), port('out')];
    if (part.kind === 'shutoff') return position === 'open' ? [[from, to, 'both']] : [];
    return [[from, to, part.kind === 'check' || part.kind.endsWith('pump') || part.kind.endsWith('primer') ? 'on' : 'both']];
}

interface Edge { readonly to: string; readonly by?: string }

function edgesOf(boat: Boat, { positions }: ResolvedLineUp, passing: readonly string[]): Map<string, Edge[]> {
    const edges = new Map<string, Edge[]>();
    const add = (from: string, to: string, by?: string): void => { edges.set(from, [...(edges.get(from) ?? []), { to, ...(by !== undefined && { by }) }]); };
    const both = (a: string, b: string, by?: string): void => { add(a, b, by); add(b, a, by); };
    for (const { from, to } of boat.joints) both(from, to);
    for (const tank of boat.tanks) for (const { id } of tank.fittings) both(tank.id, id, id);
    for (const part of boat.parts) for (const [a, b, how] of waysThrough(part, positions.get(part.id))) if (how === 'both') both(a, b, part.id); else add(a, b, part.id);
    for (const id of passing) add(`${id}:in`, `${id}:out`, id);
    return edges;
}

/** All that lies on a way that meets no point twice and passes no tank: every such way is walked to its end. Undefined when there are too many. */
function onWays(edges: Map<string, Edge[]>, tanks: ReadonlySet<string>, starts: readonly string[], ends: ReadonlySet<string>, without: string): ReadonlySet<string> | undefined {
    const on = new Set<string>();
    let steps = 0;
    const walk = (at: string, met: readonly string[], by: readonly string[]): void => {
        if (++steps > 40_000) return;
        if (ends.has(at) && met.length > 1) { for (const id of [...met, ...by]) on.add(id); return; }
        if (met.length > 1 && tanks.has(at)) return;
        for (const edge of edges.get(at) ?? []) if (edge.by !== without && !met.includes(edge.to)) walk(edge.to, [...met, edge.to], edge.by === undefined ? by : [...by, edge.by]);
    };
    for (const start of starts) walk(start, [start], []);
    return steps > 40_000 ? undefined : on;
}

function liveByHand(boat: Boat, lineUp: ResolvedLineUp): ReadonlySet<string> | undefined {
    const tanks = new Set(boat.tanks.map(({ id }) => id));
    const live = new Set<string>();
    const runs = lineUp.use === 'service' || lineUp.use === 'laid up' ? [] : boat.consumers.filter(({ id }) => !lineUp.stopped.includes(id));
    const all = edgesOf(boat, lineUp, boat.consumers.map(({ id }) => id));
    // What no tank feeds stands still, and passes nothing on.
    const fed = runs.filter(({ id, kind }) => kind === 'exchanger' || onWays(all, tanks, [...tanks], new Set([`${id}:in`]), id)?.size !== 0);
    const edges = edgesOf(boat, lineUp, fed.map(({ id }) => id));
    for (const { id } of fed) {
        const [to, round, from] = [onWays(edges, tanks, [...tanks], new Set([`${id}:in`]), id), onWays(edges, tanks, [`${id}:out`], new Set([`${id}:in`]), id), onWays(edges, tanks, [`${id}:out`], tanks, id)];
        if (!to || !round || !from) return undefined;
        if (to.size + round.size === 0) continue;
        for (const name of [...to, ...round, ...from, id]) live.add(name);
    }
    return live;
}

/** Groups of points that hang together with the valves so, by union and find. */
function groupsOf(boat: Boat, { positions }: ResolvedLineUp): (point: string) => string {
    const parent = new Map<string, string>();
    const find = (point: string): string => { let at = point; while (parent.has(at)) at = parent.get(at)!; return at; };
    const unite = (a: string, b: string): void => { const [one, other] = [find(a), find(b)]; if (one !== other) parent.set(one, other); };
    for (const { from, to } of boat.joints) unite(from, to);
    for (const tank of boat.tanks) for (const { id } of tank.fittings) unite(tank.id, id);
    for (const part of boat.parts) for (const [a, b] of waysThrough(part, positions.get(part.id))) unite(a, b);
    for (const { id } of boat.consumers) unite(`${id}:in`, `${id}:out`);
    return find;
}

/** With no line-up for moving fuel: there the pumps between tanks are asked, which the test above has. */
const isForRunning = ({ use }: ResolvedLineUp): boolean => use !== 'transfer' && use !== 'polish';

function same(boat: Boat): number {
    let compared = 0;
    for (const lineUp of lineUpsOf(boat).filter(isForRunning)) {
        const { live } = liveIn(networkOf(boat), lineUp);
        const find = groupsOf(boat, lineUp);
        const wet = new Set(boat.tanks.map(({ id }) => find(id)));
        const fed = new Set(boat.consumers.flatMap(({ id }) => [find(`${id}:in`), find(`${id}:out`)]));
        for (const id of live) {
            const points = [id, `${id}:in`, `${id}:out`, ...(boat.parts.find((part) => part.id === id)?.ports.map((port) => `${id}:${port}`) ?? [])];
            expect(points.some((point) => wet.has(find(point)) && fed.has(find(point))), `${boat.name} ${lineUp.id}: ${id} hangs together with no tank and consumer`).toBe(true);
        }
        const byHand = liveByHand(boat, lineUp);
        if (!byHand) continue;
        compared++;
        const things = [...boat.parts.map(({ id }) => id), ...boat.tanks.flatMap(({ fittings }) => fittings.map(({ id }) => id)), ...boat.consumers.map(({ id }) => id)];
        expect(things.filter((id) => live.has(id)).sort(), `${boat.name} ${lineUp.id}`).toEqual(things.filter((id) => byHand.has(id)).sort());
    }
    return compared;
}

describe('against every way walked to its end', () => {
    test.each(EXAMPLES)('%s', async (name) => { expect(same(await boatOf(name))).toBeGreaterThan(1); });
    test('boats drawn by lot', async () => {
        let compared = 0;
        for (let seed = 1; seed <= 60; seed++) compared += same((await loadBoat({ 'boat.orlop': toText(randomCase(seed).boat) })).boat);
        expect(compared).toBeGreaterThan(100);
    });
});

test('an engine that no tank feeds is not running, whatever goes round in its own circuits', async () => {
    const boat = await boatFrom(`vessel Dryloop
tank T1 { pickup P1 drop R1 vent }
engine E1
exchanger HX1
supply course Feed from T1.P1 to E1 { shutoff V1   hose S1 }
return course Back from E1 to T1.R1 { hose R1 }
supply course Hot from E1.coolant-out to HX1 { hose W1 }
return course Cold from HX1 to E1.coolant-in { hose W2 }
line-up RUN run is normal { V1 open }
line-up SHUT run from RUN { V1 shut }
`);
    expect(idsOf(shown('line-up', { boat }), 'live').sort()).toEqual(['E1', 'HX1', 'R1', 'S1', 'T1.P1', 'T1.R1', 'V1', 'W1', 'W2']);
    const shut = shown('line-up', { boat, lineUp: 'SHUT' });
    expect(idsOf(shut, 'live')).toEqual([]);
    expect(shut.notes).toContain('No tank feeds E1 in SHUT.');
});
