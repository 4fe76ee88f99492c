/** The lines of vents and fills, from the tank to where they are open to the air. */
import type { Id, Part } from '../../model/boat';
import { isOutside, lineUpNetwork, reach, type Network } from '../topology/network';
import { eitherWay } from '../topology/paths';

/**
 * For each open end that a fitting has, the parts on the shortest way to it, outwards, whichever way they pass and with every valve open.
 * Empty when no line leads out.
 */
export function linesOut(network: Network, fitting: Id): readonly (readonly Part[])[] {
    const start = network.index.get(fitting);
    if (start === undefined) return [];
    const open = lineUpNetwork(network, new Map(), 'all open');
    const both = eitherWay(open);
    const met = reach(open, both, [start], new Set(network.through.get(fitting)));
    // In the order in which they were met, each point is come to from the first one beside it: the shortest way.
    const order = new Map([...met].map((point, i) => [point, i]));
    const before = (point: number): { readonly to: number; readonly passage: number } | undefined =>
        both[point]!.filter(({ to }) => order.has(to) && !network.tankPoints.has(to)).reduce<{ to: number; passage: number } | undefined>((first, way) => (first === undefined || order.get(way.to)! < order.get(first.to)! ? way : first), undefined);
    return [...met].filter((point) => isOutside(network.points[point]!)).map((end) => {
        const parts: Part[] = [];
        for (let at = end; at !== start;) {
            const { to, passage } = before(at)!;
            const part = network.parts.get(network.passages[passage]!.part ?? '');
            if (part && parts[0] !== part) parts.unshift(part);
            at = to;
        }
        return parts;
    });
}
