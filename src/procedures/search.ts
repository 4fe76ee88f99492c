/**
 * Finds the shortest safe sequence by search over the executor: A* over valve positions and contents, one cost a step.
 * It knows no arrangement; what a step does and may do is the executor's business alone.
 */
import type { Id, Part } from '../model/boat';
import type { Driver, Step } from '../model/step';
import { handPositions, ganged } from '../analysis/topology/line-ups';
import { isValve, type Positions } from '../analysis/topology/network';
import { connectedTo } from '../analysis/topology/paths';
import { airBefore, mayPrefill, run, type Bench } from './executor';
import { ventsOf } from '../analysis/air/vents';
import type { BenchState } from './state';

export interface Found {
    readonly steps: readonly Step[];
    readonly state: BenchState;
}

/** A step costs 1000, so that preferences among drivers never buy a longer sequence. */
const STEP = 1000;
const TAINT = 1_000_000;
/** States looked at before giving up; a boat of 30 parts needs a few hundred. */
const LIMIT = 4_000;

export interface Preference {
    /** Below 1000: how little this driver suits this vent in this state. */
    (state: BenchState, vent: Id, driver: Driver): number;
}

interface Node {
    readonly state: BenchState;
    readonly cost: number;
    readonly estimate: number;
    readonly depth: number;
    readonly step?: Step;
    readonly from?: Node;
}

export function search(bench: Bench, start: BenchState, end: Positions, prefer: Preference): Found | 'none' | 'too many ways' {
    if (hopeless(bench, start, end)) return 'none';
    const strict = searchOnce(bench, start, end, prefer, false);
    return strict === 'none' ? searchOnce(bench, start, end, prefer, true) : strict;
}

/** A part with bleed points that no driver ever serves, and that neither is filled by hand nor can be, needs no search. */
function hopeless(bench: Bench, start: BenchState, end: Positions): boolean {
    const { network } = bench.pumping;
    const connected = connectedTo(network, bench.consumer);
    const valves = valvesOf(bench, connected);
    const drivers = driversOf(bench, connected).filter(({ by }) => by !== 'gravity');
    const gravity = bench.level !== undefined;
    return !gravity && airBefore(bench, start, bench.consumer, end).some((id) => ventsOf(network, id).length > 0
        && !start.topped.has(id) && !(bench.opened.has(id) && mayPrefill(bench, id)) && !canEverBeBled(bench, id, valves, drivers));
}

const valvesOf = ({ pumping: { network } }: Bench, connected: ReadonlySet<Id>): Part[] =>
    network.boat.parts.filter((part) => isValve(part) && connected.has(part.id) && ganged(network.boat, part.id)[0] === part.id);

function searchOnce(bench: Bench, start: BenchState, end: Positions, prefer: Preference, mayTaint: boolean): Found | 'none' | 'too many ways' {
    const { network } = bench.pumping;
    const connected = connectedTo(network, bench.consumer);
    const valves = valvesOf(bench, connected);
    const drivers = driversOf(bench, connected);
    const owners = [...network.parts.values(), ...network.consumers.values()].filter((owner) => owner.vents.length > 0 && connected.has(owner.id));
    const estimate = (state: BenchState): number => {
        const airy = airBefore(bench, state, bench.consumer, end);
        const vents = airy.reduce((sum, id) => sum + (state.topped.has(id) ? 0 : Math.max(ventsOf(network, id).length - (state.bled.get(id) ?? 0), 0)), 0);
        const turns = valves.filter((valve) => state.positions.get(valve.id) !== end.get(valve.id)).length;
        // A filter that is still empty may be filled by hand or bled, never both: one step at least.
        const unfilled = airy.filter((id) => ventsOf(network, id).length > 1 && state.gas.get(id) === 'air' && mayPrefill(bench, id))
            .reduce((sum, id) => sum + ventsOf(network, id).length - 1, 0);
        return STEP * (Math.max(vents - unfilled, airy.length > 0 ? 1 : 0) + turns);
    };
    // Other valves are never turned here.
    const moved = valves.flatMap(({ id }) => ganged(network.boat, id));
    const key = (state: BenchState): string => [
        moved.map((id) => state.positions.get(id)).join(), [...state.gas].sort().join(), [...state.bled].sort().join(), [...state.topped].sort().join(),
    ].join('|');

    const open = new Heap();
    open.push({ state: start, cost: 0, estimate: estimate(start), depth: 0 });
    const best = new Map<string, number>();
    for (let node = open.pop(), count = 0; node; node = open.pop()) {
        if (node.estimate === node.cost && isDone(bench, node.state, end, connected)) return { steps: stepsTo(node), state: node.state };
        const known = best.get(key(node.state));
        if (known !== undefined && known < node.cost) continue;
        if (++count > LIMIT) return 'too many ways';
        for (const { step, penalty } of actions(bench, node, valves, drivers, owners, prefer)) {
            const { state, broken } = run(bench, node.state, step);
            if (broken.length > 0) continue;
            const taints = state.tainted.size > node.state.tainted.size;
            if (taints && !mayTaint) continue;
            const cost = node.cost + STEP + penalty + (taints ? TAINT : 0);
            const at = key(state);
            if ((best.get(at) ?? Infinity) <= cost) continue;
            best.set(at, cost);
            open.push({ state, cost, estimate: cost + estimate(state), depth: node.depth + 1, step, from: node });
        }
    }
    return 'none';
}

/** The line-up is reached, as far as this consumer's lines go, and nothing before it holds air. */
function isDone(bench: Bench, state: BenchState, end: Positions, connected: ReadonlySet<Id>): boolean {
    for (const [valve, position] of end) if (connected.has(valve) && state.positions.get(valve) !== position) return false;
    return airBefore(bench, state, bench.consumer, end).length === 0;
}

function* actions(
    bench: Bench, { state, from }: Node, valves: readonly { id: Id }[], drivers: readonly Driver[],
    owners: readonly { id: Id; vents: readonly { id: Id }[] }[], prefer: Preference,
): Generator<{ step: Step; penalty: number }> {
    const { network } = bench.pumping;
    for (const owner of owners) {
        const vent = owner.vents[(state.bled.get(owner.id) ?? 0) % owner.vents.length]!;
        for (const driver of drivers) yield { step: { do: 'bleed', vent: vent.id, driver }, penalty: prefer(state, vent.id, driver) };
    }
    for (const { id } of valves) {
        for (const position of handPositions(network.parts.get(id)!)) {
            if (state.positions.get(id) !== position) yield { step: { do: 'set', part: id, position }, penalty: 0 };
        }
    }
    const anyBled = stepsTo({ state, from } as Node).some((step) => step.do === 'bleed');
    if (anyBled) return;
    for (const id of bench.opened) {
        if (state.gas.get(id) === 'air' && ventsOf(network, id).length > 0 && mayPrefill(bench, id) && !canEverBeBled(bench, id, valves, drivers)) yield { step: { do: 'prefill', part: id }, penalty: 0 };
    }
}

/** Whether a vent of the part has a driver in some setting of the valves; then it is bled, not trusted to have been filled. */
function canEverBeBled(bench: Bench, id: Id, valves: readonly { id: Id }[], drivers: readonly Driver[]): boolean {
    const known = everBled.get(bench)?.get(id);
    if (known !== undefined) return known;
    const answer = tryToBleed(bench, id, valves, drivers);
    everBled.set(bench, new Map(everBled.get(bench)).set(id, answer));
    return answer;
}

const everBled = new WeakMap<Bench, Map<Id, boolean>>();

function tryToBleed(bench: Bench, id: Id, valves: readonly { id: Id }[], drivers: readonly Driver[]): boolean {
    const vents = ventsOf(bench.pumping.network, id);
    for (const positions of settings(bench, valves)) {
        for (const vent of vents) for (const driver of drivers) {
            if (driver.by !== 'gravity' && !('law' in bench.pumping.flow(vent, driver, bench.consumer, positions))) return true;
        }
    }
    return false;
}

/** All settings of the valves that a hand can give, as long as they are few; else the two extremes. */
function* settings(bench: Bench, valves: readonly { id: Id }[]): Generator<Positions> {
    const choices = valves.map(({ id }) => ({ id, positions: handPositions(bench.pumping.network.parts.get(id)!) })).filter(({ positions }) => positions.length > 0);
    const all = choices.reduce((product, { positions }) => product * positions.length, 1);
    const count = Math.min(all, 512);
    for (let n = 0; n < count; n++) {
        const found = new Map<Id, string>();
        let rest = n;
        for (const { id, positions } of choices) {
            for (const other of ganged(bench.pumping.network.boat, id)) found.set(other, positions[rest % positions.length]!);
            rest = Math.floor(rest / positions.length);
        }
        yield found;
    }
}

/** Every driver that the boat has on this side, its tanks by gravity included. */
function driversOf(bench: Bench, connected: ReadonlySet<Id>): Driver[] {
    const tanks = bench.pumping.network.boat.tanks.filter(({ fittings }) => fittings.some(({ id }) => connected.has(id)));
    const found: Driver[] = tanks.map((tank) => ({ by: 'gravity', part: tank.id }));
    for (const part of bench.pumping.network.boat.parts) {
        if (!connected.has(part.id)) continue;
        if (part.kind === 'hand primer') found.push({ by: 'hand', part: part.id });
        if (part.kind === 'electric primer' || part.kind === 'electric pump') found.push({ by: 'electric', part: part.id });
        if (part.kind === 'lift pump') found.push({ by: 'lever', part: part.id });
    }
    return found;
}

function stepsTo(node: Node): Step[] {
    const steps: Step[] = [];
    for (let at: Node | undefined = node; at; at = at.from) if (at.step) steps.unshift(at.step);
    return steps;
}

/** A binary heap: least estimate first, and among equals the deepest, then the first pushed. */
class Heap {
    private readonly nodes: { node: Node; order: number }[] = [];
    private count = 0;

    push(node: Node): void {
        this.nodes.push({ node, order: this.count++ });
        for (let i = this.nodes.length - 1; i > 0;) {
            const parent = (i - 1) >> 1;
            if (!this.less(i, parent)) break;
            this.swap(i, parent);
            i = parent;
        }
    }

    pop(): Node | undefined {
        const top = this.nodes[0];
        const last = this.nodes.pop();
        if (top && last && this.nodes.length > 0) {
            this.nodes[0] = last;
            for (let i = 0; ;) {
                const [left, right] = [2 * i + 1, 2 * i + 2];
                let least = i;
                if (left < this.nodes.length && this.less(left, least)) least = left;
                if (right < this.nodes.length && this.less(right, least)) least = right;
                if (least === i) break;
                this.swap(i, least);
                i = least;
            }
        }
        return top?.node;
    }

    private less(a: number, b: number): boolean {
        const [x, y] = [this.nodes[a]!, this.nodes[b]!];
        return x.node.estimate - y.node.estimate < 0 || (x.node.estimate === y.node.estimate
            && (x.node.depth > y.node.depth || (x.node.depth === y.node.depth && x.order < y.order)));
    }

    private swap(a: number, b: number): void {
        [this.nodes[a], this.nodes[b]] = [this.nodes[b]!, this.nodes[a]!];
    }
}
