import type { Consumer, Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { returnIsBlocked } from '../../analysis/topology/isolation';
import { handSettings } from '../../analysis/topology/settings';
import { lineUpNetwork, reach, type Positions } from '../../analysis/topology/network';
import { partsAfter, tanksAfter } from '../../analysis/topology/paths';
import { listed } from '../../model/words';
import { isFedFromSea, nameOf, type Check, type View } from '../check';

export const returnNoBlock: Check = {
    code: 'RETURN-NO-BLOCK', severity: 'critical',
    statement: 'No setting of valves that a hand can reach blocks the return of a consumer, nor does the loss of power at an electric valve, nor does a selector pass a blocked position while it is turned.',
    prevents: 'A burst diaphragm, blown leak-off hoses and pump seals, fuel sprayed on a hot engine.',
    facts: 'the return lines; the positions of every valve on them',
    source: 'common practice; makers of injection pumps',
    judge: (view) => view.boat.consumers.map((consumer) => judge(view, consumer)),
};

function judge(view: View, consumer: Consumer): Verdict {
    const { boat, network, allOpen } = view;
    const outlet = `${consumer.id}:out`;
    if (!boat.joints.some((joint) => joint.from === outlet)) return { outcome: 'not applicable', about: consumer.id, why: 'no return course begins at it' };
    if (isFedFromSea(view, consumer.id)) return { outcome: 'not applicable', about: consumer.id, why: 'the sea feeds it' };
    if (tanksAfter(allOpen, outlet).length === 0) {
        return {
            outcome: 'fail', about: consumer.id, message: `The return of ${consumer.id} reaches no tank in any position of the valves.`,
            reason: 'The engine pumps against a blocked line.', advice: `Lead the return of ${consumer.id} to a tank; look for a check valve that points the wrong way.`,
        };
    }
    const valves = [...partsAfter(allOpen, outlet)].filter((id) => network.parts.get(id) !== undefined && ['shutoff', 'selector', 'changeover'].includes(network.parts.get(id)!.kind));
    const blocking = [...settings(view, outlet)].filter((positions) => isBlocked(view, consumer.id, positions));
    if (blocking.length === 0) return turning(view, consumer, valves) ?? { outcome: 'pass', about: consumer.id };
    const culprits = valves.filter((id) => blocks(view, consumer.id, id));
    const named = culprits.length > 0 ? culprits : valves;
    const names = (ids: readonly Id[]): string => listed(ids.map((id) => nameOf(boat, id)));
    return {
        outcome: 'fail', about: named[0] ?? consumer.id,
        message: `The return of ${consumer.id} can be blocked: ${culprits.length > 0 ? `${names(culprits)} can shut it` : valves.length === 1 ? `${names(valves)} can shut it` : `${names(valves)} can all be shut`}.`,
        reason: 'Running against a shut return bursts seals and leak-off hoses and can spray fuel.',
        advice: named.every((id) => network.parts.get(id)!.kind === 'shutoff')
            ? `Lock ${names(named)} open, or take ${named.length > 1 ? 'them' : 'it'} out${tanksAfter(allOpen, outlet).length > 1 ? ' and let one selector without an off position choose the tank' : ''}.`
            : `Replace ${names(named)} by ${named.length > 1 ? 'valves' : 'a selector'} with no position that joins nothing.`,
        see: [{ id: consumer.id, why: 'its return' }],
    };
}

const isBlocked = ({ network }: View, consumer: Id, positions: Positions): boolean => returnIsBlocked(lineUpNetwork(network, positions), consumer);

/** Settings with every shutoff shut: a return that stays open in all of them cannot be blocked, since opening only adds ways. */
const settings = (view: View, outlet: string): Iterable<Positions> => handSettings(view.boat, 'shutoffs shut', reachedFrom(view, outlet));

/** Parts that liquid from the outlet can come to at all: no other valve matters to it. */
function reachedFrom({ network, allOpen }: View, outlet: string): ReadonlySet<Id> {
    const points = reach(allOpen, allOpen.ways, [network.index.get(outlet)!]);
    return new Set(network.passages.filter((passage) => points.has(passage.from) || points.has(passage.to)).flatMap(({ part }) => part ?? []));
}

/** Whether one valve alone can block the return, all others standing open. */
function blocks(view: View, consumer: Id, valve: Id): boolean {
    for (const positions of handSettings(view.boat, 'shutoffs open', reachedFrom(view, `${consumer}:out`))) {
        const part = view.network.parts.get(valve)!;
        const shut = part.kind === 'shutoff' ? new Map(positions).set(valve, 'shut') : positions;
        if (part.kind !== 'shutoff' && part.positions.find((position) => position.name === positions.get(valve))?.joins.length !== 0) continue;
        if (isBlocked(view, consumer, shut)) return true;
    }
    return false;
}

function turning(view: View, consumer: Consumer, valves: readonly Id[]): Verdict | undefined {
    for (const id of valves) {
        const part = view.network.parts.get(id)!;
        const passes = part.turning.find((turn) => part.positions.some((position) => position.name === turn.passes && position.joins.length === 0));
        if (passes) {
            return {
                outcome: 'fail', about: id, message: `${id} blocks the return of ${consumer.id} while it is turned: it passes ${passes.passes}.`,
                reason: 'A running engine then pumps against a blocked line for as long as the turn takes.',
                advice: `Turn ${id} only with ${consumer.id} stopped, and say so on its label; or fit a selector that makes before it breaks.`,
                see: [{ id: consumer.id, why: 'its return' }],
            };
        }
    }
    return undefined;
}
