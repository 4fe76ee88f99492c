/** Lays out a plan by the library elkjs: in layers from left to right, with level and upright lines. */
import ELK, { type ElkNode } from 'elkjs/lib/elk.bundled.js';
import type { Block, Chosen, Laid, Plan } from '../documents/drawing/plan';
import { ABOVE, ROW } from '../documents/drawing/schematic/cells';

const GAP = 24;

const LAYERS = {
    'elk.algorithm': 'layered',
    'elk.direction': 'RIGHT',
    'elk.edgeRouting': 'ORTHOGONAL',
    // The order of the text decides wherever crossings do not, so that an edit elsewhere turns nothing over.
    'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
    'elk.layered.considerModelOrder.components': 'FORCE_MODEL_ORDER',
    'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
    'elk.layered.nodePlacement.favorStraightEdges': 'true',
    'elk.layered.spacing.nodeNodeBetweenLayers': `${GAP}`,
    'elk.layered.spacing.edgeNodeBetweenLayers': '12',
    'elk.layered.spacing.edgeEdgeBetweenLayers': '12',
    'elk.spacing.nodeNode': '0',
    'elk.spacing.portPort': '0',
    'elk.spacing.edgeNode': '8',
    'elk.spacing.edgeEdge': '12',
    'elk.spacing.componentComponent': '0',
    'elk.padding': '[top=0,left=0,bottom=0,right=0]',
};

export function elkGraph({ blocks, links }: Plan): ElkNode {
    return {
        id: 'sheet', layoutOptions: LAYERS,
        children: blocks.map(elkNode),
        edges: links.map(({ id, from, to }) => ({ id, sources: [from], targets: [to] })),
    };
}

function elkNode({ id, width, height, ports }: Block): ElkNode {
    const fixed = ports.every(({ y }) => y !== undefined);
    return {
        id, width, height,
        layoutOptions: fixed ? { 'elk.portConstraints': 'FIXED_POS', 'elk.alignment': 'LEFT' } : {
            'elk.portConstraints': 'FIXED_SIDE', 'elk.alignment': 'LEFT', 'elk.spacing.portPort': '0', 'elk.spacing.portsSurrounding': '[top=0,left=0,bottom=0,right=0]', 'elk.portAlignment.default': 'CENTER',
        },
        ports: ports.map(({ id: port, side, y }) => y !== undefined
            ? { id: port, width: 0, height: 0, layoutOptions: { 'elk.port.side': side.toUpperCase() }, x: side === 'west' ? 0 : width, y }
            // As high as a row, so that rows line up with what is joined to them.
            : { id: port, width: 0, height: ROW, layoutOptions: { 'elk.port.side': side.toUpperCase(), 'elk.port.anchor': `(0,${ABOVE})` } }),
    };
}

let library: InstanceType<typeof ELK> | undefined;

/** Lays out in this process. */
export async function layOut(plan: Plan, _chosen: Chosen = new Map()): Promise<Laid> {
    library ??= new ELK();
    const laid = await library.layout(elkGraph(plan));
    const blocks = new Map((laid.children ?? []).map(({ id, x = 0, y = 0, width = 0, height = 0 }) => [id, { x, y, width, height }]));
    const ports = new Map((laid.children ?? []).flatMap(({ x = 0, y = 0, ports: own = [] }) => own.map((port) => [port.id, { x: x + (port.x ?? 0), y: y + (port.y ?? 0) + (port.height ? ABOVE : 0) }] as const)));
    const links = new Map((laid.edges ?? []).map(({ id, sections = [] }) => [id, sections.flatMap(({ startPoint, bendPoints = [], endPoint }) => [startPoint, ...bendPoints, endPoint].map(({ x, y }) => [x, y] as const))]));
    return { width: laid.width ?? 0, height: laid.height ?? 0, blocks, ports, links };
}
