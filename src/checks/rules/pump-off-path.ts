/** That a way remains is judged; how much suction it costs to draw through it is not: pressures are not computed. */
import type { Consumer, Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsBefore, passagesOf, running, tanksBefore } from '../../analysis/topology/paths';
import { handSettings } from '../../analysis/topology/settings';
import { listed } from '../../model/words';
import { isEngine, type Check, type View } from '../check';
import { positionMissing, whenOffMissing } from '../../analysis/missing';

export const pumpOffPath: Check = {
    code: 'PUMP-OFF-PATH', severity: 'major',
    statement: 'In each line-up for running, with every electric pump and primer at rest, a way stays open from a tank to the engine: through the pump, or past it.',
    prevents: 'A flat battery or a burnt pump stops the engine.',
    facts: 'electric pumps and primers; what they pass when off; lines beside them; positions of valves',
    source: 'common practice',
    judge: (view) => view.boat.consumers.filter((consumer) => isEngine(view, consumer)).flatMap((consumer) => view.runs.map((lineUp) => judge(view, consumer, lineUp))),
};

function judge(view: View, consumer: Consumer, lineUp: ResolvedLineUp): Verdict {
    const about = consumer.id;
    const inlet = `${about}:in`;
    const electric = (ids: Iterable<string>): Part[] => [...ids].map((id) => view.network.parts.get(id)).filter((part): part is Part => part?.kind.startsWith('electric') === true);
    const before = partsBefore(view.allOpen, inlet);
    if (electric(before).length === 0) return { outcome: 'not applicable', about, why: 'no electric pump stands on its supply' };
    const unplaced = lineUp.unplaced.filter((valve) => before.has(valve));
    if (unplaced.length > 0) return { outcome: 'cannot tell', about, missing: unplaced.map((valve) => positionMissing(valve, lineUp.id)) };
    const linedUp = view.running(lineUp);
    if (tanksBefore(linedUp, inlet).length === 0) return { outcome: 'not applicable', about, why: `no tank feeds it in line-up ${lineUp.id} (see PATH-ONE)` };
    const all = electric(view.boat.parts.map(({ id }) => id));
    const blocking = all.filter((pump) => pump.whenOff === 'blocks');
    const past = (pumps: readonly Part[]): boolean => tanksBefore(linedUp, inlet, passagesOf(view.network, pumps.map(({ id }) => id))).length > 0;
    if (past(all.filter((pump) => pump.whenOff !== 'passes'))) return { outcome: 'pass', about, rests: all.filter(({ whenOff }) => whenOff).map(({ id }) => ({ about: id, fact: 'when off' })) };
    if (past(blocking)) {
        const unsaid = electric(partsBefore(linedUp, inlet)).filter((pump) => pump.whenOff === undefined);
        return { outcome: 'cannot tell', about, missing: unsaid.map(whenOffMissing) };
    }
    const culprits = electric(partsBefore(linedUp, inlet)).filter((pump) => pump.whenOff === 'blocks');
    const named = listed(culprits.map(({ name }) => name));
    const stopped = passagesOf(view.network, blocking.map(({ id }) => id));
    const byHand = [...handSettings(view.boat, 'shutoffs open', before)].some((positions) => tanksBefore(running(view.network, positions), inlet, stopped).length > 0);
    return {
        outcome: 'fail', about, severity: byHand ? 'minor' : 'major', rests: culprits.map(({ id }) => ({ about: id, fact: 'when off' })),
        message: `In line-up ${lineUp.id} no fuel reaches ${about} when ${named} ${culprits.length > 1 ? 'are' : 'is'} off: ${culprits.length > 1 ? 'they block' : 'it blocks'} the only open way.`,
        reason: byHand ? 'With a flat battery the engine stops, until someone has opened the way past it.' : 'With a flat battery or a burnt pump the engine stops, and nothing starts it again.',
        advice: byHand ? `Put the valves of the way past ${named} on the label and into an emergency line-up.` : `Put a line with a check valve beside ${named}, or a pump that passes when it is off.`,
        see: [...culprits.map(({ id }) => ({ id, why: 'blocks when it is off' })), ...(view.boat.lineUps.length > 0 ? [{ id: lineUp.id, why: 'this line-up' }] : [])],
    };
}
