/**
 * A circuit as EPANET 2.3.5 (a public-domain network solver, in WASM) has it. Its g is 32.2 ft/s²; all heads are given to it, and read
 * back, in the proportion of the two g, so that flows are the same and heads can be compared to the last digits. Pipes in a row become
 * links with nodes between them. Roughness is DRAWN, as the sources' own. Elements and springs of checks are left out: it has none.
 * Its ACCURACY is never below 1e-5, whatever is asked; HEADERROR and FLOWCHANGE are what makes it exact.
 */
import { Project, Workspace } from 'epanet-js';
import type { Circuit, FlowLink } from '../../../src/analysis/flow/circuit';
import { DRAWN, GRAVITY } from '../../../src/analysis/flow/pipe';

export const SCALE = GRAVITY / (32.2 * 0.3048);
const LITRES = 1000;

/** Of the toolkit's header: EN_HEAD, EN_FLOW, EN_ITERATIONS. */
const HEAD = 10;
const FLOW = 8;
const ITERATIONS = 0;

const TRIALS = 1000;

export interface Answer {
    readonly heads: ReadonlyMap<string, number>;
    readonly flows: ReadonlyMap<string, number>;
}

const workspace = new Workspace();
const ready = workspace.loadModule();

/** Undefined where it did not balance in 1000 trials. */
export async function byEpanet(circuit: Circuit): Promise<Answer | undefined> {
    await ready;
    workspace.writeFile('net.inp', textOf(circuit));
    const project = new Project(workspace);
    const warn = console.warn;
    // It warns of pressures below the surroundings', which every suction line has.
    console.warn = () => undefined;
    project.open('net.inp', 'net.rpt', 'net.bin');
    try {
        project.openH();
        project.initH(0);
        project.runH();
        if (project.getStatistic(ITERATIONS as never) >= TRIALS) return undefined;
        const heads = new Map(circuit.nodes.map(({ id }, i) => [id, project.getNodeValue(project.getNodeIndex(`N${i}`), HEAD as never) / SCALE]));
        const flows = new Map(circuit.links.map(({ id }, i) => [id, project.getLinkValue(project.getLinkIndex(`L${i}`), FLOW as never) / LITRES]));
        return { heads, flows };
    } finally {
        project.close();
        console.warn = warn;
    }
}

function textOf({ nodes, links, fluid }: Circuit): string {
    const numbers = new Map(nodes.map(({ id }, i) => [id, `N${i}`]));
    const [junctions, reservoirs, pipes, pumps, curves]: [string[], string[], string[], string[], string[]] = [[], [], [], [], []];
    nodes.forEach(({ up, head, drawn = 0 }, i) => {
        if (head === undefined) junctions.push(`N${i} ${up * SCALE} ${drawn * LITRES}`); else reservoirs.push(`N${i} ${head * SCALE}`);
    });
    links.forEach((link, i) => {
        const [from, to] = [numbers.get(link.from)!, numbers.get(link.to)!];
        if (link.pump && 'curve' in link.pump) {
            pumps.push(`L${i} ${from} ${to} HEAD C${i}`);
            for (const { flow, head } of link.pump.curve) curves.push(`C${i} ${flow * LITRES} ${head * SCALE}`);
            return;
        }
        rowText(link, i, from, to).forEach(({ pipe, joint }) => { pipes.push(pipe); if (joint) junctions.push(joint); });
    });
    return [
        '[TITLE]', '', '[JUNCTIONS]', ...junctions, '[RESERVOIRS]', ...reservoirs, '[PIPES]', ...pipes, '[PUMPS]', ...pumps, '[CURVES]', ...curves,
        '[OPTIONS]', 'UNITS LPS', 'HEADLOSS D-W', `VISCOSITY ${fluid.viscosity}`, 'ACCURACY 1e-9', 'HEADERROR 1e-8', 'FLOWCHANGE 1e-8', `TRIALS ${TRIALS}`, 'UNBALANCED STOP', '[TIMES]', 'DURATION 0', '[END]', '',
    ].join('\n');
}

function rowText({ pipes = [], k = 0, check, closed }: FlowLink, i: number, from: string, to: string): { pipe: string; joint?: string }[] {
    const widest = pipes.reduce((most, { bore }, at) => bore > pipes[most]!.bore ? at : most, 0);
    return pipes.map(({ bore, length }, at) => {
        const [a, b] = [at === 0 ? from : `J${i}_${at}`, at === pipes.length - 1 ? to : `J${i}_${at + 1}`];
        const state = closed ? 'CLOSED' : check ? 'CV' : 'OPEN';
        return {
            pipe: `${at === 0 ? `L${i}` : `L${i}_${at}`} ${a} ${b} ${length} ${bore * 1000} ${DRAWN * 1000} ${at === widest ? k : 0} ${at === 0 ? state : 'OPEN'}`,
            ...(at === 0 ? {} : { joint: `${a} 0 0` }),
        };
    });
}
