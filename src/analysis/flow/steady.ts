/**
 * The steady flow of a boat in a state: what flows through each part, and the pressure at each port. Each group of parts that hangs together by
 * liquid is reckoned by itself, so one that cannot be reckoned takes no figure from the others.
 */
import type { Carries, Id } from '../../model/boat';
import { heightOf } from '../tanks/attitude';
import type { Network } from '../topology/network';
import type { Circuit, FlowLink, FlowNode } from './circuit';
import { GRAVITY } from './pipe';
import { placeOf, plumbed, type FlowLack, type FlowState } from './plumbed';
import { solve, type LinkResult, type Loose, type NodeResult, type Solution } from './solve';

/** Parts that hang together by liquid. */
export interface Group {
    readonly status: Solution['status'];
    readonly solution: Solution;
    readonly fluid: Circuit['fluid'];
    readonly carries: Carries | undefined;
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

export function steady(network: Network, state: FlowState): Steady {
    const { nodeOf, linkOf, nodes, lacks, taken, carries } = plumbed(network, state);
    const groups: Group[] = [];
    const groupOf = new Map<string, Group>();
    for (const { nodes: own, links } of parted(nodes, [...linkOf.values()])) {
        const tank = own.find(({ id }) => carries.has(id));
        const carried = tank && carries.get(tank.id);
        const fluid = state.fluid(carried);
        const solution = solve({ nodes: own, links, fluid });
        const group: Group = { status: solution.status, solution, fluid, carries: carried };
        groups.push(group);
        for (const { id } of own) groupOf.set(id, group);
    }
    const at = (point: string): string | undefined => { const i = network.index.get(point); return i === undefined ? undefined : nodeOf[i]; };
    const resultAt = (point: string): NodeResult | undefined => { const node = at(point); return node === undefined ? undefined : groupOf.get(node)?.solution.nodes.get(node); };
    const passed = (passage: number, link: FlowLink | undefined): Passed | undefined => {
        const result = link && groupOf.get(link.from)?.solution.links.get(link.id);
        return link && result && { ...result, passage, link };
    };
    // What comes to a node, and what leaves it, the greatest first.
    const [into, outOf] = [new Map<string, Passed[]>(), new Map<string, Passed[]>()];
    for (const [passage, link] of linkOf) {
        const found = passed(passage, link);
        if (!found?.flow) continue;
        const [start, end] = found.flow > 0 ? [link.from, link.to] : [link.to, link.from];
        for (const [lists, node] of [[into, end], [outOf, start]] as const) lists.set(node, [...(lists.get(node) ?? []), found].sort((a, b) => Math.abs(b.flow!) - Math.abs(a.flow!)));
    }
    const follow = (point: string, lists: ReadonlyMap<string, readonly Passed[]>, up: boolean): Passed[] => {
        const way: Passed[] = [];
        const seen = new Set<string>();
        for (let node = at(point); node !== undefined && !seen.has(node);) {
            seen.add(node);
            const next: Passed | undefined = lists.get(node)?.[0];
            if (!next) break;
            way.push(next);
            node = next.flow! > 0 === up ? next.link.from : next.link.to;
        }
        return way;
    };
    return {
        network, state, lacks, taken, groups,
        groupAt: (point) => { const node = at(point); return node === undefined ? undefined : groupOf.get(node); },
        headAt: (point) => resultAt(point)?.head,
        gaugeAt: (point) => {
            const [head, height] = [resultAt(point)?.head, heightOf(placeOf(network, point), state.attitude)];
            return head === undefined || height === undefined ? undefined : (head - height) * groupOf.get(at(point)!)!.fluid.density * GRAVITY;
        },
        linkAt: (passage) => passed(passage, linkOf.get(passage)),
        flowIn: (part) => {
            const flows = (network.through.get(part) ?? []).flatMap((passage) => passed(passage, linkOf.get(passage))?.flow ?? []);
            return flows.length === 0 ? undefined : flows.reduce((most, flow) => (Math.abs(flow) > Math.abs(most) ? flow : most));
        },
        wayTo: (point) => follow(point, into, true).reverse(),
        wayFrom: (point) => follow(point, outOf, false),
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

export type { FlowLack, Loose };
