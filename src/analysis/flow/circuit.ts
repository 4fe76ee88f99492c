/**
 * What steady flow is reckoned in: nodes, and links between them. One liquid fills all of it. Nothing here knows of boats; whoever asks
 * says what stands for what. SI throughout: m, m³/s, Pa.
 */
import type { Fluid } from './fluid';
import type { Pipe } from './pipe';

export interface FlowNode {
    readonly id: string;
    /** Height of the point, m, from the same zero as the heads. */
    readonly up: number;
    /** Fixed: the level of a tank's surface or the height of an open end, m. Such a node gives and takes whatever flows. */
    readonly head?: number;
    /** Imposed, m³/s: what a consumer draws here; negative is what it returns. Counts for nothing at a fixed head. */
    readonly drawn?: number;
}

/** What flows from `from` to `to` is positive. Its losses add up: pipes in a row, `k`, the element, the spring of the check. */
export interface FlowLink {
    readonly id: string;
    readonly from: string;
    readonly to: string;
    /** Nothing passes, whatever else is said. */
    readonly closed?: boolean;
    readonly pipes?: readonly Pipe[];
    /** Sum of the minor losses, at the speed in the widest of the pipes. */
    readonly k?: number;
    readonly element?: Element;
    /** Passes from `from` to `to` only. */
    readonly check?: Check;
    readonly pump?: Pump;
}

/** A filter or the like: takes `drop` Pa at `at` m³/s; of it the share `turbulent` (0 to 1) grows with the square of the flow, the rest with the flow. */
export interface Element {
    readonly drop: number;
    readonly at: number;
    readonly turbulent: number;
}

export interface Check {
    /** What lifts it off its seat, Pa; taken for as long as it flows. */
    readonly opens: number;
}

/**
 * A pump moves what is imposed, m³/s, whatever stands against it; or by its curve, the head (m) that it adds at each flow: two points or
 * more from no flow on, flows rising, heads falling, straight between them and after the last. By its curve it lets nothing back.
 */
export type Pump = { readonly flow: number } | { readonly curve: readonly CurvePoint[] };

export interface CurvePoint {
    readonly flow: number;
    readonly head: number;
}

export interface Circuit {
    readonly nodes: readonly FlowNode[];
    readonly links: readonly FlowLink[];
    readonly fluid: Pick<Fluid, 'density' | 'viscosity'>;
}

/** Why nothing is reckoned: a node or link (by its id; the liquid is `fluid`) and what is wrong with it. Beyond 1e9, or 1e-9, counts as no number. */
export interface Fault {
    readonly about: string;
    readonly wrong: string;
}

/** In SI. Nothing that is meant lies beyond, and within nothing runs out of the range of numbers. */
const MOST = 1e9;

const isSome = (value: number): boolean => value >= 1 / MOST && value <= MOST;
const isNone = (value: number): boolean => value >= 0 && value <= MOST;
const isNumber = (value: number | undefined): boolean => value === undefined || Math.abs(value) <= MOST;

/** All that makes the question meaningless, in the order of the circuit. */
export function faultsOf({ nodes, links, fluid }: Circuit): readonly Fault[] {
    const faults: Fault[] = [];
    const fault = (about: string, wrong: string): void => { faults.push({ about, wrong }); };
    if (!isSome(fluid.density) || !isSome(fluid.viscosity)) fault('fluid', 'density or viscosity is not above zero');
    const known = new Set<string>();
    for (const { id, up, head, drawn } of nodes) {
        if (known.has(id)) fault(id, 'two nodes have this name');
        known.add(id);
        if (!isNumber(up) || !isNumber(head) || !isNumber(drawn)) fault(id, 'its height, head or flow is not a number');
    }
    const named = new Set<string>();
    for (const link of links) {
        const { id, from, to } = link;
        if (named.has(id)) fault(id, 'two links have this name');
        named.add(id);
        if (!known.has(from) || !known.has(to)) fault(id, 'it ends at a node that is not there');
        if (from === to) fault(id, 'both its ends are at one node');
        faultsIn(link, (wrong) => fault(id, wrong));
    }
    return faults;
}

function faultsIn({ closed, pipes = NO_PIPES, k = 0, element, check, pump }: FlowLink, found: (wrong: string) => void): void {
    if (closed) return;
    let hinders = pump !== undefined || element !== undefined || k !== 0;
    for (const { bore, length } of pipes) {
        if (!isSome(bore)) found('a bore is not above zero');
        if (!isNone(length)) found('a length is below zero');
        if (length !== 0) hinders = true;
    }
    if (!isNone(k)) found('the minor losses are below zero');
    if (k > 0 && pipes.length === 0) found('minor losses need a bore');
    if (element && !(isSome(element.drop) && isSome(element.at) && element.turbulent >= 0 && element.turbulent <= 1)) found('an element needs a drop and a flow above zero and a share from 0 to 1');
    if (check && !isNone(check.opens)) found('the opening pressure is below zero');
    if (pump && 'flow' in pump && !isNumber(pump.flow)) found('the flow of the pump is not a number');
    if (pump && 'curve' in pump && !isFalling(pump.curve)) found('a curve needs two points or more from no flow on, flows rising, heads falling');
    if (!hinders) found('nothing hinders the flow: no length, no losses');
}

const NO_PIPES: readonly Pipe[] = [];

function isFalling(curve: readonly CurvePoint[]): boolean {
    return curve.length >= 2 && curve[0]!.flow === 0 && curve.every(({ flow, head }, i) => isNumber(flow) && isNumber(head)
        && (i === 0 || (flow > curve[i - 1]!.flow && head < curve[i - 1]!.head)));
}
