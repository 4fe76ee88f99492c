import type { Consumer, Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { returnIsBlocked } from '../../analysis/topology/isolation';
import { partsAfter, partsBefore, tanksAfter, tanksBefore } from '../../analysis/topology/paths';
import { listed } from '../../model/words';
import { isFedFromSea, type Check, type View } from '../check';
import { positionMissing } from '../../analysis/missing';

export const pathOne: Check = {
    code: 'PATH-ONE', severity: 'critical',
    statement: 'In each line-up for running, every consumer that runs in it draws from exactly one tank and, if it has a return, returns to exactly one, or to its own supply. Tanks joined by an open line count as one; legs that rejoin count as one path.',
    prevents: 'Starvation, air drawn from an empty tank, one tank filled from another.',
    facts: 'the network; the position of every valve in every line-up for running',
    source: 'logic of the network',
    judge: (view) => view.boat.consumers.flatMap((consumer) => view.runs.map((lineUp) => judge(view, consumer, lineUp))),
};

function judge(view: View, consumer: Consumer, lineUp: ResolvedLineUp): Verdict {
    const { id } = consumer;
    if (lineUp.stopped.includes(id)) return { outcome: 'not applicable', about: id, why: `it is stopped in line-up ${lineUp.id}` };
    const linedUp = view.running(lineUp);
    const groups = view.joined(lineUp);
    const supply = oneOf(groups, tanksBefore(linedUp, `${id}:in`));
    const couldFeed = tanksBefore(view.allOpen, `${id}:in`);
    const lines = new Set([...partsBefore(view.allOpen, `${id}:in`), ...partsAfter(view.allOpen, `${id}:out`)]);
    const unplaced = lineUp.unplaced.filter((valve) => lines.has(valve));
    if (unplaced.length > 0) {
        return { outcome: 'cannot tell', about: id, missing: unplaced.map((valve) => positionMissing(valve, lineUp.id)) };
    }
    if (couldFeed.length === 0 && isFedFromSea(view, id)) return { outcome: 'not applicable', about: id, why: 'the sea feeds it' };
    if (couldFeed.length === 0) return notFed(view, consumer);
    if (supply.length === 0) {
        const shut = [...partsBefore(view.allOpen, `${id}:in`)].filter((part) => lineUp.positions.get(part) === 'shut' || view.network.parts.get(part)?.kind === 'selector');
        return {
            outcome: 'fail', about: id, message: `In line-up ${lineUp.id} ${id} draws from no tank${shut.length > 0 ? `: look at ${listed(shut)}` : ''}.`,
            reason: 'The engine stops when its filters are empty.', advice: `Open the way from ${listed(couldFeed)} in line-up ${lineUp.id}. If ${id} does not run in it, write \`${id} stopped\` there.`, see: [{ id: lineUp.id, why: 'this line-up' }],
        };
    }
    if (supply.length > 1) {
        return {
            outcome: 'fail', about: id, message: `In line-up ${lineUp.id} ${id} draws from ${listed(supply)} at once.`,
            reason: 'When the lower or emptier tank runs dry, the other line takes air from it.', advice: `Shut all but one of ${listed(supply)} in line-up ${lineUp.id}, or fit a selector.`,
            see: [...supply.map((tank) => ({ id: tank, why: 'feeds it' })), { id: lineUp.id, why: 'this line-up' }],
        };
    }
    const hasReturn = view.boat.joints.some((joint) => joint.from === `${id}:out`);
    const back = oneOf(groups, tanksAfter(linedUp, `${id}:out`));
    // Back into its own supply is a way too: the liquid is drawn again, and no seal bursts.
    if (hasReturn && back.length !== 1 && (back.length > 1 || returnIsBlocked(linedUp, id))) {
        return {
            outcome: 'fail', about: id, message: `In line-up ${lineUp.id} ${id} returns to ${back.length === 0 ? 'no tank' : `${listed(back)} at once`}.`,
            reason: back.length === 0 ? 'A blocked return bursts seals.' : 'Nobody can say which tank fills.', advice: `Set the return valves so that ${id} returns to ${supply[0]} in line-up ${lineUp.id}.`,
            see: [{ id: lineUp.id, why: 'this line-up' }],
        };
    }
    return { outcome: 'pass', about: id };
}

/** One name for each group of joined tanks that was reached. */
function oneOf(groups: readonly (readonly Id[])[], tanks: readonly Id[]): Id[] {
    return groups.flatMap((group) => group.find((tank) => tanks.includes(tank)) ?? []);
}

function notFed(view: View, consumer: Consumer): Verdict {
    const { id } = consumer;
    const inlet = view.boat.joints.some((joint) => joint.to === `${id}:in` || joint.from === `${id}:in`);
    return {
        outcome: 'fail', about: id,
        message: inlet ? `${id} is fed by no tank: its supply is a loop, or begins at nothing, or something in it points the wrong way.` : `No supply course leads to ${id}.`,
        reason: 'It cannot run.', advice: inlet ? `Follow the supply of ${id} back to a tank, and name the tank where the course begins.` : `Write its supply course: \`supply course Feed from T1.P1 to ${id} { ... }\`.`,
    };
}
