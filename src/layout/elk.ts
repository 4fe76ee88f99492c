/**
 * Lays out a plan by the library elkjs: in layers from left to right, with level and upright lines. What is not joined to one another is
 * laid out alone and stands below one another in the order of the text, so that an edit in the one leaves the other as it was.
 */
import ELK, { type ElkNode, type ElkPort } from 'elkjs/lib/elk.bundled.js';
import type { Block, Laid, Link, Plan, Port, Rows } from '../documents/drawing/plan';
import { ABOVE, ROW } from '../documents/drawing/schematic/cells';

const GAP = 24;
const BLOCK = 'block ';

const LAYERS = {
    'elk.algorithm': 'layered',
    'elk.direction': 'RIGHT',
    'elk.edgeRouting': 'ORTHOGONAL',
    // The order of the text decides wherever crossings do not, so that an edit elsewhere turns nothing over.
    'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
    // Each part as far left as what lies before it allows, so that what is put in elsewhere does not move it.
    'elk.layered.layering.strategy': 'LONGEST_PATH_SOURCE',
    'elk.layered.nodePlacement.strategy': 'BRANDES_KOEPF',
    // With the library's own 7 it left a crossing on a boat with one engine.
    'elk.layered.thoroughness': '30',
    'elk.layered.spacing.nodeNodeBetweenLayers': `${GAP}`,
    'elk.layered.spacing.edgeNodeBetweenLayers': '20',
    'elk.layered.spacing.edgeEdgeBetweenLayers': '20',
    'elk.spacing.nodeNode': '0',
    'elk.spacing.portPort': '0',
    'elk.spacing.edgeNode': '8',
    'elk.spacing.edgeEdge': '12',
    'elk.separateConnectedComponents': 'false',
    'elk.padding': '[top=0,left=0,bottom=0,right=0]',
};

export function elkGraph({ blocks, links }: Plan): ElkNode {
    return { id: 'sheet', layoutOptions: LAYERS, children: blocks.map(elkNode), edges: links.map(({ id, from, to }) => ({ id, sources: [from], targets: [to] })) };
}

function elkNode({ id, width, height, ports, last }: Block): ElkNode {
    const constraints = ports.every(({ y }) => y !== undefined) ? 'FIXED_POS' : 'FIXED_SIDE';
    return {
        // A block and its only port may bear one name.
        id: `${BLOCK}${id}`, width, height, ports: ports.map((port) => elkPort(port, width)),
        layoutOptions: { 'elk.alignment': 'LEFT', 'elk.portConstraints': constraints, 'elk.portAlignment.default': 'CENTER', 'elk.spacing.portsSurrounding': '[top=0,left=0,bottom=0,right=0]', ...(last && { 'elk.layered.layering.layerConstraint': 'LAST' }) },
    };
}

/** A port that may be moved is as high as a row, so that rows line up with what is joined to them. */
function elkPort({ id, side, y }: Port, width: number): ElkPort {
    const layoutOptions = { 'elk.port.side': side.toUpperCase() };
    return y !== undefined ? { id, width: 0, height: 0, x: side === 'west' ? 0 : width, y, layoutOptions } : { id, width: 0, height: ROW, layoutOptions: { ...layoutOptions, 'elk.port.anchor': `(0,${ABOVE})` } };
}

/** Plans of what is joined to one another, in the order of their first blocks; blocks that nothing is joined to come last, in one plan. */
export function piecesOf({ blocks, links }: Plan): Plan[] {
    const piece = new Map(blocks.map(({ id }) => [id, id]));
    const root = (id: string): string => { let at = id; while (piece.get(at) !== at) at = piece.get(at)!; return at; };
    const owner = new Map(blocks.flatMap(({ id, ports }) => ports.map((port) => [port.id, id] as const)));
    const order = new Map(blocks.map(({ id }, i) => [id, i]));
    for (const { from, to } of links) {
        const [a, b] = [root(owner.get(from)!), root(owner.get(to)!)];
        if (a !== b) { if (order.get(a)! < order.get(b)!) piece.set(b, a); else piece.set(a, b); }
    }
    const pieces = new Map<string, { blocks: Block[]; links: Link[] }>();
    for (const block of blocks) {
        const known = pieces.get(root(block.id));
        if (known) known.blocks.push(block); else pieces.set(root(block.id), { blocks: [block], links: [] });
    }
    for (const link of links) pieces.get(root(owner.get(link.from)!))!.links.push(link);
    const all = [...pieces.values()];
    const lone = all.filter(({ blocks: own }) => own.length === 1);
    return [...all.filter(({ blocks: own }) => own.length > 1), ...(lone.length === 0 ? [] : [{ blocks: lone.flatMap((own) => own.blocks), links: lone.flatMap((own) => own.links) }])];
}

let library: InstanceType<typeof ELK> | undefined;

/** What keeps blocks in the rows that they were given, and their lines in that order. */
const AS_GIVEN = {
    'elk.layered.considerModelOrder.strategy': 'NONE',
    'elk.layered.crossingMinimization.strategy': 'INTERACTIVE',
    'elk.layered.nodePlacement.strategy': 'INTERACTIVE',
};

/** Lays out in this process. */
export async function layOut(plan: Plan, rows: Rows): Promise<Laid> {
    library ??= new ELK();
    const laid = { width: 0, height: 0, blocks: new Map<string, Spot>(), ports: new Map<string, { x: number; y: number }>(), links: new Map<string, (readonly [number, number])[]>() };
    for (const piece of piecesOf(plan)) {
        let sheet = await library.layout(elkGraph(piece));
        if (piece.blocks.some(({ id }) => rows.has(id))) sheet = await library.layout(asGiven(piece, sheet, rows));
        add(laid, sheet);
    }
    return laid;
}

type Spot = { x: number; y: number; width: number; height: number; top: number };

/** Laid out once more, with what a person put elsewhere in its row and all else where it was. */
function asGiven(piece: Plan, sheet: ElkNode, rows: Rows): ElkNode {
    const graph = elkGraph(piece);
    const known = new Map(sheet.children!.map((child) => [child.id, child]));
    const children = graph.children!.map((child) => ({ ...child, x: known.get(child.id)!.x!, y: rows.get(child.id.slice(BLOCK.length)) ?? known.get(child.id)!.y! }));
    return { ...graph, children, layoutOptions: { ...graph.layoutOptions, ...AS_GIVEN } };
}

function add(laid: { width: number; height: number; blocks: Map<string, Spot>; ports: Map<string, { x: number; y: number }>; links: Map<string, (readonly [number, number])[]> }, { children = [], edges = [], width = 0, height = 0 }: ElkNode): void {
    const top = laid.height;
    for (const { id, x = 0, y = 0, ports = [], ...size } of children) {
        laid.blocks.set(id.slice(BLOCK.length), { x, y: y + top, width: size.width ?? 0, height: size.height ?? 0, top });
        for (const port of ports) laid.ports.set(port.id, { x: x + (port.x ?? 0), y: y + top + (port.y ?? 0) + (port.height ? ABOVE : 0) });
    }
    for (const { id, sections = [] } of edges) laid.links.set(id, sections.flatMap(({ startPoint, bendPoints = [], endPoint }) => [startPoint, ...bendPoints, endPoint].map((point) => [point.x, point.y + top] as const)));
    laid.width = Math.max(laid.width, width);
    laid.height += height;
}
