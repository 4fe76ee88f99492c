import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { isManual } from '../../analysis/topology/isolation';
import { isPump, lineUpNetwork, reach, type LinedUp, type Positions } from '../../analysis/topology/network';
import { eitherWay, passagesOf, running, tanksBefore } from '../../analysis/topology/paths';
import { handSettings } from '../../analysis/topology/settings';
import { freeTag, nameOf, nothing, type Check, type View } from '../check';
import { positionsMissing } from '../../analysis/missing';

export const bypassCheck: Check = {
    code: 'BYPASS-CHECK', severity: 'major',
    statement: 'Where a line runs beside a pump, a check valve in that line, its arrow to the engine, keeps what is pumped from running back to the pump.',
    prevents: 'The pump pumps round itself, and nothing is primed.',
    facts: 'the network; check valves and which way they point; selectors',
    source: 'common practice',
    judge: (view) => {
        const pumps = view.boat.parts.filter(isPump);
        return pumps.length === 0 ? [nothing('no pump or primer is written')] : pumps.map((pump) => judge(view, pump));
    },
};

function judge(view: View, pump: Part): Verdict {
    const { boat, network, allOpen } = view;
    const about = pump.id;
    const [way] = network.through.get(about)!;
    const { from, to } = network.passages[way!]!;
    const barred = passagesOf(network, [about, ...boat.consumers.map(({ id }) => id)]);
    const both = eitherWay(allOpen);
    const [ahead, behind] = [reach(allOpen, both, [to], barred), reach(allOpen, both, [from], barred)];
    const near = new Set([...ahead, ...behind].map((point) => ownerOf(view, point)));
    const touches = (points: Iterable<number>, id: string): boolean => [...points].some((point) => ownerOf(view, point) === id);
    const blank = boat.parts.filter((part) => (part.kind === 'selector' || part.kind === 'changeover') && part.positions.length === 0 && touches(ahead, part.id) && touches(behind, part.id));
    if (blank.length > 0) return { outcome: 'cannot tell', about, missing: blank.map(({ id }) => positionsMissing(id)) };
    if (!ahead.has(from)) return { outcome: 'not applicable', about, why: 'no line runs beside it' };

    const round = (linedUp: LinedUp, without: ReadonlySet<number> = barred): boolean => reach(linedUp, linedUp.ways, [to], without).has(from);
    const settings = [...handSettings(boat, 'shutoffs open', near)].filter((positions) => works(view, from, to, barred, positions));
    // Where a selector keeps the one way shut while the other is used, a hand has parted them.
    const loops = settings.map((positions) => lineUpNetwork(network, positions)).filter((linedUp) => round(linedUp));
    if (loops.length === 0 || loops.length < settings.length) return { outcome: 'pass', about };
    const reversed = passagesOf(network, boat.parts.filter((part) => part.kind === 'check' && part.reversed).map(({ id }) => id));
    if (!round(loops[0]!, new Set([...barred, ...reversed]))) return { outcome: 'not applicable', about, why: 'the check valve beside it points the wrong way (see CHECK-DIR)' };

    const byHand = boat.parts.find((part) => isManual(part) && settings.some((positions) => { const shut = new Map(positions).set(part.id, 'shut'); return works(view, from, to, barred, shut) && !round(lineUpNetwork(network, shut)); }));
    const place = placeFor(view, loops[0]!, from, to, barred);
    return {
        outcome: 'fail', about, severity: byHand ? 'minor' : 'major',
        message: `What ${pump.name} pumps can run back to it through the line beside it${byHand ? ` while ${byHand.name} is open` : ''}: no check valve stands there.`,
        reason: byHand ? `With ${byHand.name} left open it pumps round itself, and nothing is primed.` : 'It pumps round itself, and nothing is primed.',
        advice: place ? `Put a check valve with a light spring before ${nameOf(boat, place)}, its arrow to the engine.` : `Put a check valve with a light spring into the line beside ${pump.name}, its arrow to the engine.`,
        ...(place && { fix: { title: `Put a check valve beside ${pump.name}`, line: `check ${freeTag(boat, 'CV')}`, where: { before: place } } }),
        ...(place && { see: [{ id: place, why: 'stands in the line beside it' }] }),
    };
}

const ownerOf = ({ network }: View, point: number): string => network.points[point]!.split(':')[0]!;

/** Whether the pump is fed and moves liquid on to a consumer or a tank. */
function works({ network, boat }: View, from: number, to: number, barred: ReadonlySet<number>, positions: Positions): boolean {
    const linedUp = running(network, positions);
    const onward = reach(linedUp, linedUp.ways, [to], barred);
    return tanksBefore(linedUp, network.points[from]!, barred).length > 0 && (boat.consumers.some(({ id }) => onward.has(network.index.get(`${id}:in`)!)) || [...network.tankPoints].some((tank) => onward.has(tank)));
}

/** A part in the line beside the pump, such that a check valve before it would end the round: what is passed backward on every round. */
function placeFor({ network }: View, linedUp: LinedUp, from: number, to: number, barred: ReadonlySet<number>): string | undefined {
    for (const [i, passage] of network.passages.entries()) {
        const part = passage.part === undefined ? undefined : network.parts.get(passage.part);
        if (!part || part.kind === 'selector' || part.kind === 'changeover' || barred.has(i) || (passage.kind !== 'plain' && passage.kind !== 'valve')) continue;
        const oneWay = linedUp.ways.map((ways, at) => (at === passage.to ? ways.filter((way) => way.passage !== i) : ways));
        if (!reach(linedUp, oneWay, [to], barred).has(from)) return part.id;
    }
    return undefined;
}
