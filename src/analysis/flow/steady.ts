/**
 * The steady flow of a boat in a state: what flows through each part, and the pressure at each port. Each group of parts that hangs together by
 * liquid is reckoned by itself, so one that cannot be reckoned takes no figure from the others.
 */
import type { Carries, Id } from '../../model/boat';
import { heightOf } from '../tanks/attitude';
import type { Network } from '../topology/network';
import type { Circuit, FlowLink, FlowNode } from './circuit';
import { GRAVITY } from './pipe';
import { headAt, placeOf, plumbed, rebored, type FlowLack, type FlowState, type Head, type Plumbed, type Running, type Standing } from './plumbed';
import { solve, type LinkResult, type Solution } from './solve';

/** Parts that hang together by liquid. Its flows are reckoned when they are first asked for. */
export interface Group {
    readonly status: Solution['status'];
    readonly solution: Solution;
    readonly fluid: Circuit['fluid'];
    readonly carries: Carries | undefined;
    /** m, of one of its nodes. */
    headOf(node: string): number | undefined;
}

export interface Steady {
    readonly network: Network;
    readonly state: FlowState;
    readonly lacks: readonly FlowLack[];
    /** What was taken for parts because nothing is stated. */
    readonly taken: ReadonlyMap<Id, string>;
    readonly groups: readonly Group[];
    groupAt(point: string): Group | undefined;
    /** m. */
    headAt(point: string): number | undefined;
    /** The same, if one part had another bore, m. */
    headIf(point: string, part: Id, bore: number): number | undefined;
    /** Pa above the surroundings, at the height of the point; undefined where its place is not known as she lies, or no tank settles it. */
    gaugeAt(point: string): number | undefined;
    /** By the passage of the network. */
    linkAt(passage: number): Passed | undefined;
    /** m³/s through a part, downstream positive; of one with several ways, the most that any passes. */
    flowIn(part: Id): number | undefined;
    /** The way by which most of it comes to a point, from the tank on; empty where nothing flows there. */
    wayTo(point: string): readonly Passed[];
    /** The way by which most of it leaves a point, down to the tank. */
    wayFrom(point: string): readonly Passed[];
}

export interface Passed extends LinkResult {
    readonly passage: number;
    readonly link: FlowLink;
}

export function steady(network: Network, running: Running, standing: Standing): Steady {
    const known = plumbedKnown.get(running) ?? { ...plumbed(network, running), shapes: new Map<string, Shape>() };
    plumbedKnown.set(running, known);
    const { nodeOf, taken } = known;
    const { condition } = standing;
    const heads = known.mouths.map((mouth) => headAt(mouth, standing));
    const form = heads.map(({ does }) => FORMS[does]).join('');
    const shape = known.shapes.get(form) ?? shapeOf(known, heads, running);
    known.shapes.set(form, shape);
    const headOfHub = new Map(known.mouths.map(({ hub }, i) => [hub, heads[i]!.head]));
    const groups = new Map<Circle, Settled>();
    const groupOf = (node: string | undefined): Settled | undefined => {
        const circle = node === undefined ? undefined : shape.circleOf.get(node);
        if (!circle) return undefined;
        const found = groups.get(circle) ?? settled(circle, headOfHub);
        groups.set(circle, found);
        return found;
    };
    const at = (point: string): string | undefined => { const i = network.index.get(point); return i === undefined ? undefined : nodeOf[i]; };
    const headAtNode = (node: string | undefined): number | undefined => (node === undefined ? undefined : groupOf(node)?.headOf(node));
    const passed = (passage: number): Passed | undefined => {
        const link = shape.linkOf.get(passage);
        return link && groupOf(link.from)?.reckoned.passed.get(passage);
    };
    const follow = (point: string, up: boolean): readonly Passed[] => { const node = at(point); return node === undefined ? [] : groupOf(node)?.reckoned.follow(node, up) ?? []; };
    return {
        network, state: { ...running, ...condition, down: standing.down }, lacks: [...known.lacks, ...heads.flatMap(({ lacks }) => lacks)], taken,
        get groups() { return shape.circles.map((circle) => groupOf(circle.nodes[0]!.id)!); },
        groupAt: (point) => groupOf(at(point)),
        headAt: (point) => headAtNode(at(point)),
        headIf: (point, part, bore) => {
            const node = at(point);
            const circle = node === undefined ? undefined : shape.circleOf.get(node);
            const own = new Set((network.through.get(part) ?? []).map(String));
            const links = circle?.links.map((link) => (own.has(link.id) ? rebored(network, link, bore, running.guess) : link));
            return links && settled({ ...circle!, links, answers: new Map() }, headOfHub).headOf(node!);
        },
        gaugeAt: (point) => {
            const [head, height] = [headAtNode(at(point)), heightOf(placeOf(network, point), condition.attitude)];
            return head === undefined || height === undefined ? undefined : (head - height) * groupOf(at(point))!.fluid.density * GRAVITY;
        },
        linkAt: passed,
        flowIn: (part) => {
            const flows = (network.through.get(part) ?? []).flatMap((passage) => passed(passage)?.flow ?? []);
            return flows.length === 0 ? undefined : flows.reduce((most, flow) => (Math.abs(flow) > Math.abs(most) ? flow : most));
        },
        wayTo: (point) => follow(point, true),
        wayFrom: (point) => follow(point, false),
    };
}

/** What is alike however she lies, worked out once for what runs. */
const plumbedKnown = new WeakMap<Running, Plumbed & { readonly shapes: Map<string, Shape> }>();

/** The mouths of tanks open or not: the circuit is another with another of these. */
interface Shape {
    readonly linkOf: ReadonlyMap<number, FlowLink>;
    readonly circles: readonly Circle[];
    readonly circleOf: ReadonlyMap<string, Circle>;
}

const FORMS: Readonly<Record<Head['does'], string>> = { open: '+', out: '>', none: '-' };

/** A group as a circuit; its tanks have no heads yet. */
interface Circle {
    readonly nodes: readonly FlowNode[];
    readonly links: readonly FlowLink[];
    readonly hubs: readonly string[];
    readonly fluid: Circuit['fluid'];
    readonly carries: Carries | undefined;
    /** By how high the other tanks stand over the first: only that moves the liquid. */
    readonly answers: Map<string, Reckoned>;
}

/** Heads are over that of the group's first tank. */
interface Reckoned {
    readonly solution: Solution;
    readonly passed: ReadonlyMap<number, Passed>;
    follow(node: string, up: boolean): readonly Passed[];
}

interface Settled extends Group {
    readonly reckoned: Reckoned;
}

function shapeOf({ linkOf, nodes, mouths, carries }: Plumbed, heads: readonly Head[], { fluid }: Running): Shape {
    const links = new Map(linkOf);
    const own = new Map(nodes);
    mouths.forEach(({ passage, hub, link }, i) => {
        const { does } = heads[i]!;
        if (does === 'out') links.set(passage, { ...link, check: { opens: 0 } });
        if (does === 'none') { links.delete(passage); own.delete(hub); }
    });
    const circles = parted(own, [...links.values()]).map((part): Circle => {
        const hubs = part.nodes.flatMap(({ id }) => (carries.has(id) ? [id] : []));
        const carried = carries.get(hubs[0] ?? '');
        return { ...part, hubs, carries: carried, fluid: fluid(carried), answers: new Map() };
    });
    return { linkOf: links, circles, circleOf: new Map(circles.flatMap((circle) => circle.nodes.map(({ id }) => [id, circle] as const))) };
}

/** Leaning lifts all that hangs on one tank alike, and moves nothing in it: it is reckoned from the first tank on, and once for all leans that leave the tanks as they stand to one another. */
function settled(circle: Circle, heads: ReadonlyMap<string, number | undefined>): Settled {
    const base = heads.get(circle.hubs[0] ?? '') ?? 0;
    const over = new Map(circle.hubs.map((hub) => [hub, heads.get(hub)! - base]));
    const key = [...over.values()].join(' ');
    const reckoned = circle.answers.get(key) ?? reckon(circle, over);
    circle.answers.set(key, reckoned);
    const { solution } = reckoned;
    const headOf = (node: string): number | undefined => { const head = solution.nodes.get(node)?.head; return head === undefined ? undefined : head + base; };
    const weight = circle.fluid.density * GRAVITY;
    return {
        reckoned, status: solution.status, fluid: circle.fluid, carries: circle.carries, headOf,
        get solution() { return { ...solution, nodes: new Map([...solution.nodes].map(([id, node]) => [id, node.head === undefined ? node : { ...node, head: node.head + base, gauge: (node.head + base) * weight }])) }; },
    };
}

function reckon({ nodes, links, fluid }: Circle, heads: ReadonlyMap<string, number>): Reckoned {
    const solution = solve({ nodes: nodes.map((node) => (heads.has(node.id) ? { ...node, head: heads.get(node.id)! } : node)), links, fluid });
    const passed = new Map(links.flatMap((link) => { const result = solution.links.get(link.id); return result ? [[Number(link.id), { ...result, passage: Number(link.id), link }] as const] : []; }));
    // What comes to a node, and what leaves it, the greatest first.
    const [into, outOf] = [new Map<string, Passed[]>(), new Map<string, Passed[]>()];
    for (const found of passed.values()) {
        if (!found.flow) continue;
        const [start, end] = found.flow > 0 ? [found.link.from, found.link.to] : [found.link.to, found.link.from];
        for (const [lists, node] of [[into, end], [outOf, start]] as const) { const list = lists.get(node); if (list) list.push(found); else lists.set(node, [found]); }
    }
    for (const lists of [into, outOf]) for (const list of lists.values()) list.sort((a, b) => Math.abs(b.flow!) - Math.abs(a.flow!));
    return {
        solution, passed,
        follow: (start, up) => {
            const way: Passed[] = [];
            const seen = new Set<string>();
            for (let node = start; !seen.has(node);) {
                seen.add(node);
                const next = (up ? into : outOf).get(node)?.[0];
                if (!next) break;
                way.push(next);
                node = next.flow! > 0 === up ? next.link.from : next.link.to;
            }
            return up ? way.reverse() : way;
        },
    };
}

/** Nodes that links join, each group with its links, in the order of the nodes. */
function parted(nodes: ReadonlyMap<string, FlowNode>, links: readonly FlowLink[]): { readonly nodes: FlowNode[]; readonly links: FlowLink[] }[] {
    const beside = new Map<string, FlowLink[]>();
    for (const link of links) for (const end of [link.from, link.to]) { const list = beside.get(end); if (list) list.push(link); else beside.set(end, [link]); }
    const seen = new Set<string>();
    const found: { nodes: FlowNode[]; links: FlowLink[] }[] = [];
    for (const [id, node] of nodes) {
        if (seen.has(id)) continue;
        seen.add(id);
        const group = { nodes: [node], links: new Set<FlowLink>() };
        for (const { id: at } of group.nodes) for (const link of beside.get(at) ?? []) {
            group.links.add(link);
            for (const end of [link.from, link.to]) if (!seen.has(end)) { seen.add(end); group.nodes.push(nodes.get(end)!); }
        }
        // A point at which nothing can come or go is no group.
        if (group.links.size > 0 || (node.drawn ?? 0) !== 0) found.push({ nodes: group.nodes, links: [...group.links] });
    }
    return found;
}
