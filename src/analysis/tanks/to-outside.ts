/** The lines of vents and fills, from the tank to where they are open to the air. */
import type { Id, Part } from '../../model/boat';
import { isOutside, lineUpNetwork, reach, type LinedUp, type Network, type Way } from '../topology/network';
import { eitherWay } from '../topology/paths';

/**
 * For each open end that a fitting has, the parts on the shortest way to it, outwards, whichever way they pass and with every valve open.
 * Empty when no line leads out.
 */
export function linesOut(network: Network, fitting: Id): readonly (readonly Part[])[] {
    const known = answers.get(network) ?? { open: lineUpNetwork(network, new Map(), 'all open'), lines: new Map<Id, readonly (readonly Part[])[]>() };
    answers.set(network, known);
    const lines = known.lines.get(fitting) ?? findLines(known.open, fitting);
    known.lines.set(fitting, lines);
    return lines;
}

/** Asked by every rule of vents. */
const answers = new WeakMap<Network, { readonly open: LinedUp; readonly lines: Map<Id, readonly (readonly Part[])[]> }>();

function findLines(open: LinedUp, fitting: Id): Part[][] {
    const { network } = open;
    const start = network.index.get(fitting);
    if (start === undefined) return [];
    const ways = eitherWay(open);
    const met = reach(open, ways, [start], new Set(network.through.get(fitting)));
    // Of what stands beside a point, that which was met first is nearest to the start. A tank is never passed.
    const order = new Map([...met].filter((point) => !network.tankPoints.has(point)).map((point, i) => [point, i]));
    const towardsStart = (point: number): Way => ways[point]!.filter(({ to }) => order.has(to)).reduce((first, way) => (order.get(way.to)! < order.get(first.to)! ? way : first));
    return [...met].filter((point) => isOutside(network.points[point]!)).map((end) => {
        const parts: Part[] = [];
        for (let at = end; at !== start;) {
            const { to, passage } = towardsStart(at);
            const part = network.parts.get(network.passages[passage]!.part ?? '');
            if (part) parts.unshift(part);
            at = to;
        }
        return parts;
    });
}
