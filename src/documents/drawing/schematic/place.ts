/** The sizes of everything on a schematic, for the library that places it, and what is drawn in each block. */
import type { Boat, Consumer, Id, Tank, Vent } from '../../../model/boat';
import { isOutside } from '../../../analysis/topology/network';
import type { Block, Link, Plan, Port } from '../plan';
import { SIZE, widthOf } from '../svg';
import { wrapTo } from '../wrap';
import { ABOVE, BOUNDARY, ROW, SMALL, boundaries, cellWidth, type Boundary } from './cells';
import { topologyOf, type Cell, type Fixture, type Outlet, type Run, type Topology } from './runs';

export interface PlacedCell extends Cell {
    /** From the left edge of its block. */
    readonly x: number;
    readonly width: number;
    readonly before?: Boundary;
}

export interface RunBlock {
    readonly run: Run;
    readonly cells: readonly PlacedCell[];
    readonly width: number;
    /** After the last cell. */
    readonly after?: Boundary;
}

export interface Schematic extends Topology {
    readonly plan: Plan;
    /** By id of their block. */
    readonly blocks: ReadonlyMap<string, RunBlock | { readonly fixture: Fixture; readonly width: number }>;
    /** The run that a link belongs to. */
    readonly links: ReadonlyMap<string, Run>;
}

/** Lines of words in a tank or an engine, `most` of them: its id, its title, and what it holds or is. Of a long title there is as much as there is room for. */
function namesOf({ id, title }: { readonly id: Id; readonly title?: string }, also: string | undefined, most: number): readonly string[] {
    const lines = title === undefined ? [] : wrapTo(title, 150, SMALL);
    const room = most - (also === undefined ? 1 : 2);
    return [id, ...(lines.length <= room ? lines : [...lines.slice(0, room - 1), `${lines[room - 1]!}…`]), ...(also === undefined ? [] : [also])];
}

/** What is said of its highest fitting stands below them. */
export const tankNames = (tank: Tank): readonly string[] => namesOf(tank, tank.carries === 'diesel' ? undefined : tank.carries, 3);
export const consumerNames = (consumer: Consumer): readonly string[] => namesOf(consumer, consumer.title?.includes(consumer.kind) ? undefined : consumer.kind, 4);

/** What the port of a circuit through an engine is called on the sheet; where fuel comes in and goes out is told by arrows. */
export const portWord = (point: string): string => (/:(in|out)$/.test(point) ? '' : point.slice(point.lastIndexOf('.') + 1));
/** How much of an engine's width its ports and their words take. */
export const portsWidth = (outlets: readonly Outlet[]): number => Math.max(20, ...outlets.map(({ point }) => 13 + widthOf(portWord(point), 9)));

export function schematicOf(boat: Boat): Schematic {
    const topology = topologyOf(boat);
    const blocks = new Map<string, RunBlock | { fixture: Fixture; width: number }>();
    const links = new Map<string, Run>();
    const planned: Block[] = [];
    const linked: Link[] = [];
    for (const fixture of topology.fixtures) {
        const width = fixtureWidth(fixture);
        blocks.set(fixture.id, { fixture, width });
        const leadsOn = fixture.outlets.some(({ point }) => topology.runs.some((run) => run.from === point || (run.turns && run.to === point)));
        planned.push({ id: fixture.id, width, ...portsOf(fixture), ...(fixture.kind === 'consumer' && !leadsOn && { last: true as const }) });
    }
    for (const run of topology.runs) {
        if (run.cells.length > 0) {
            const block = runBlock(topology, run);
            blocks.set(run.id, block);
            planned.push({ id: run.id, width: block.width, height: ROW, ports: [{ id: `${run.id} west`, side: 'west', y: ABOVE }, { id: `${run.id} east`, side: 'east', y: ABOVE }] });
        }
        const link = (from: string | undefined, to: string | undefined, end: string): void => {
            if (from === undefined || to === undefined) return;
            const id = `${run.id} ${end}`;
            links.set(id, run);
            // A tee has one point; what leaves it to the right leaves it by its other side.
            linked.push({ id, from: topology.at.get(from)?.kind === 'tee' ? `${from} east` : from, to });
        };
        if (run.cells.length === 0) { if (run.turns) link(run.to, run.from, 'link'); else link(run.from, run.to, 'link'); }
        else {
            link(run.from, `${run.id} west`, 'first');
            if (run.turns) link(run.to, `${run.id} east`, 'last'); else link(`${run.id} east`, run.to, 'last');
        }
    }
    return { ...topology, plan: { blocks: planned, links: linked }, blocks, links };
}

/** The space of a fixture; of a tee without one, the last that is known on the line that comes to it from the left. */
function spaceAt(topology: Topology, point: string | undefined, seen: ReadonlySet<string> = new Set()): string | undefined {
    const fixture = point === undefined ? undefined : topology.at.get(point);
    const own = fixture?.tank?.space ?? fixture?.consumer?.space ?? fixture?.part?.space;
    if (own !== undefined || fixture?.kind !== 'tee' || seen.has(fixture.id)) return own;
    const before = topology.runs.find((run) => run.to === point && !run.turns);
    return before && (before.cells.findLast(({ part }) => part.space !== undefined)?.part.space ?? spaceAt(topology, before.from, new Set([...seen, fixture.id])));
}

function runBlock(topology: Topology, run: Run): RunBlock {
    const { boat } = topology;
    const crossed = boundaries(boat, spaceAt(topology, run.from), run.cells.map(({ part }) => part), topology.at.get(run.to ?? '')?.kind === 'tee' ? undefined : spaceAt(topology, run.to));
    let x = 0;
    const cells = run.cells.map((cell, i): PlacedCell => {
        const before = crossed[i];
        if (before) x += BOUNDARY;
        const width = cellWidth(cell.part);
        const placed = { ...cell, x, width, ...(before && { before }) };
        x += width;
        return placed;
    });
    const after = crossed[run.cells.length];
    return { run, cells, width: x + (after ? BOUNDARY : 0), ...(after && { after }) };
}

/** Ports with the height that they need: the library puts those of one side in the order with the fewest crossings. */
function portsOf({ kind, outlets }: Fixture): { height: number; ports: readonly Port[] } {
    if (kind === 'tee') return { height: 6, ports: outlets.flatMap(({ point }) => [{ id: point, side: 'west' as const, y: 3 }, { id: `${point} east`, side: 'east' as const, y: 3 }]) };
    if (kind === 'end') return { height: ROW, ports: outlets.map(({ point, side }) => ({ id: point, side, y: ABOVE })) };
    const most = Math.max(1, outlets.filter(({ side }) => side === 'west').length, outlets.filter(({ side }) => side === 'east').length);
    return { height: most * ROW, ports: outlets.map(({ point, side }) => ({ id: point, side })) };
}

export const ventsWidth = (vents: readonly Vent[]): number => vents.reduce((sum, { tag }) => sum + widthOf(tag, SMALL) + 18, 0);

function fixtureWidth({ kind, tank, consumer, part, outlets, id }: Fixture): number {
    // Lines may part close before the next tee: its tag has room between both dots.
    if (kind === 'tee') return part?.tag === undefined ? 6 : Math.ceil(widthOf(part.tag, SIZE, true)) + 12;
    if (kind === 'end') return isOutside(id) ? 60 : 20;
    const names = tank ? tankNames(tank) : consumer ? consumerNames(consumer) : [part!.tag ?? '', ...(part!.label === undefined ? [] : [`"${part!.label}"`])];
    const widest = Math.max(...names.map((name, i) => widthOf(name, i === 0 ? SIZE : SMALL, i === 0))) + 24;
    if (kind === 'consumer') return Math.ceil(Math.max(120, widest + portsWidth(outlets) - 16, ventsWidth(consumer!.vents) + 16));
    const labels = (side: 'west' | 'east'): number => Math.max(0, ...outlets.filter((outlet) => outlet.side === side).map(({ point }) => widthOf(point.slice(point.lastIndexOf(':') + 1), SMALL)));
    if (kind === 'valve') return Math.ceil(Math.max(labels('west'), 24) + Math.max(labels('east'), widest, 60) + 30);
    return Math.ceil(Math.max(180, widest));
}
