/**
 * Division: SHUT-AT-TANK judges supply lines, this rule lines that join two tanks and let liquid run either way. The overflow of a tank
 * that a pump fills is none: a valve in it would send what is pumped out of the vent.
 */
import type { Fitting, Id, Part } from '../../model/boat';
import type { Fix, Verdict } from '../../model/finding';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { isManual } from '../../analysis/topology/isolation';
import { lineUpNetwork, reach, type LinedUp } from '../../analysis/topology/network';
import { partsAfter, partsBefore, passagesOf } from '../../analysis/topology/paths';
import { listed } from '../../model/words';
import { freeTag, nothing, type Check, type View } from '../check';
import { lengthMissing, mouthMissing } from '../../analysis/missing';
import { AT_TANK } from './shut-at-tank';

export const xoverTwoValves: Check = {
    code: 'XOVER-TWO-VALVES', severity: 'major',
    statement: 'A line that joins two fuel tanks and lets fuel run either way has a manual shutoff at the fitting of each.',
    prevents: 'One burst drains both tanks.',
    facts: 'lines between tanks; shutoffs on them; the length of pipe before them',
    source: 'common practice, from memory; 150 mm as in SHUT-AT-TANK',
    judge: (view) => {
        const found = equalising(view).flatMap((ends): Verdict[] => {
            const overflows = ends.map((end) => isOverflow(view, end));
            if (overflows.includes('yes')) return [{ outcome: 'not applicable', about: ends[overflows.indexOf('yes')]!.id, why: 'it is the overflow of a tank that a pump fills, which nothing may shut' }];
            if (overflows.includes('unknown')) return [{ outcome: 'cannot tell', about: ends[overflows.indexOf('unknown')]!.id, missing: [mouthMissing(ends[overflows.indexOf('unknown')]!.id)] }];
            return ends.map((end) => judge(view, end, ends));
        });
        return found.length > 0 ? found : [nothing('no line lets fuel run either way between two tanks')];
    },
};

/** Fittings of different tanks that are joined by pipes and valves alone, on no supply and no return of a consumer. */
function equalising({ boat, network }: View): Fitting[][] {
    const open = lineUpNetwork(network, new Map(), 'all open');
    const served = boat.consumers.flatMap(({ id }) => [id, ...partsBefore(open, `${id}:in`), ...partsAfter(open, `${id}:out`)]);
    const barred = passagesOf(network, served);
    const fittings = boat.tanks.filter((tank) => (tank.carries ?? 'diesel') === 'diesel').flatMap((tank) => tank.fittings.filter((fitting) => fitting.kind === 'pickup' || fitting.kind === 'drop'));
    const groups: Fitting[][] = [];
    const placed = new Set<Id>();
    for (const fitting of fittings) {
        if (placed.has(fitting.id)) continue;
        const points = eitherWay(open, fitting.id, barred);
        const group = fittings.filter((other) => points.has(network.index.get(other.id)!));
        for (const other of group) placed.add(other.id);
        if (new Set(group.map(({ tank }) => tank)).size > 1) groups.push(group);
    }
    return groups;
}

/** Whether a pump fills the tank and the line leaves it in its upper half, over every pickup that a consumer draws by. */
function isOverflow({ boat, network, allOpen }: View, { id, tank: owner, mouth }: Fitting): 'yes' | 'no' | 'unknown' {
    const tank = boat.tanks.find((other) => other.id === owner)!;
    const consumers = passagesOf(network, boat.consumers.map((consumer) => consumer.id));
    const filled = boat.parts.filter(({ kind }) => kind === 'electric pump').some((pump) => reach(allOpen, allOpen.ways, [network.index.get(`${pump.id}:${pump.reversed ? 'in' : 'out'}`)!], new Set([...consumers, ...network.through.get(pump.id)!])).has(network.tanks.get(owner)!));
    if (!filled) return 'no';
    const inside = span(tank, UPRIGHT);
    if (!mouth?.up || !inside) return 'unknown';
    const drawn = tank.fittings.filter((other) => other.kind === 'pickup' && other.id !== id).flatMap((other) => other.mouth?.up?.si ?? []);
    return mouth.up.si > (inside.low + inside.high) / 2 && drawn.every((height) => height < mouth.up!.si) ? 'yes' : 'no';
}

/** Points that liquid reaches from a fitting through what passes either way, into no tank. */
function eitherWay(open: LinedUp, fitting: Id, barred: ReadonlySet<number>): Set<number> {
    const { network } = open;
    const points = new Set([network.index.get(fitting)!]);
    const queue = [...points];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
        for (const { to: next, passage } of open.ways[at]!) {
            const { kind } = network.passages[passage]!;
            if (barred.has(passage) || (kind !== 'joint' && kind !== 'plain' && kind !== 'valve')) continue;
            if (points.has(next) || network.tankPoints.has(next)) continue;
            points.add(next);
            queue.push(next);
        }
    }
    return points;
}

function judge(view: View, end: Fitting, ends: readonly Fitting[]): Verdict {
    const { boat, network } = view;
    const about = end.id;
    const course = boat.courses.find((other) => [other.from, other.to].some(({ part, port }) => part === end.tank && port === end.port));
    const atStart = course?.from.part === end.tank && course.from.port === end.port;
    const parts = (course?.parts ?? []).map((id) => network.parts.get(id)!);
    const outward = atStart ? parts : [...parts].reverse();
    const at = outward.findIndex(isManual);
    const before = outward.slice(0, at < 0 ? outward.length : at);
    const pipes = before.filter((part) => part.kind === 'hose' || part.kind === 'tube');
    if (at >= 0 && pipes.length === before.length) {
        const known = pipes.reduce((sum, pipe) => sum + (pipe.length?.si ?? 0), 0);
        const unknown = pipes.filter((pipe) => !pipe.length);
        if (known <= AT_TANK && unknown.length === 0) return { outcome: 'pass', about, rests: pipes.map(({ id }) => ({ about: id, fact: 'length' })) };
        // One at the fitting of the other tank is that tank's, however the pipe between may measure.
        const atOther = !outward.slice(at + 1).some((part) => part.kind === 'hose' || part.kind === 'tube');
        if (known <= AT_TANK && !atOther) return { outcome: 'cannot tell', about, missing: unknown.map((pipe) => lengthMissing(pipe, `${end.tank} and ${outward[at]!.name}`)) };
    }
    const tanks = [...new Set(ends.map(({ tank }) => tank))];
    return {
        outcome: 'fail', about, message: `The line that joins ${listed(tanks)} has no shutoff at ${end.id}${at < 0 ? '' : `: ${outward[at]!.name} stands further on`}.`,
        reason: `If the line bursts, ${end.tank} empties through it, and what the other end lets through with it.`,
        advice: `Put a quarter-turn full-bore shutoff at ${end.id}.`,
        ...(course && { fix: { title: `Put a shutoff at ${end.id}`, line: `shutoff ${freeTag(boat, 'V')}   normally shut`, where: where(course.id, outward[0], atStart) } }),
        see: ends.filter((other) => other !== end).map((other) => ({ id: other.id, why: 'the other end' })),
    };
}

const where = (course: Id, first: Part | undefined, atStart: boolean): Fix['where'] =>
    first === undefined ? { intoStartOf: course } : atStart ? { before: first.id } : { after: first.id };
