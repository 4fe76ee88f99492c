/**
 * A shutoff that is worked from outside is pulled, with the engine stopped, seen to be shut, and reset. No fact of the language says that one is: the
 * tend job `test V1 remote shutoff` names it, and a solenoid is one. That an engine dies at idle proves that it is the right valve; that is
 * done on a survey (common practice) and may let air in, so it is told and not a step here.
 */
import type { Boat, Id } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { knots } from '../../../analysis/flow/demand';
import { burnersOf } from '../../../analysis/time/burners';
import { runOn } from '../../../analysis/time/run-on';
import { handPositions } from '../../../analysis/topology/line-ups';
import { connectedTo, partsBefore, running } from '../../../analysis/topology/paths';
import { listed } from '../../../model/words';
import type { Remark } from '../plan';
import type { Visit } from '../visit';
import type { Recipe } from './recipe';
import { planned, told } from '../step-of';
import { blank, unplaced } from './operation';

const WORDS = 'remote shutoff';
/** s for a valve: no source. */
const EACH = 10 * 60;

export const remoteShutoff: Recipe = {
    verb: 'test',
    rows: () => [{ verb: 'test', piece: WORDS }],
    fits: (_visit, { verb, piece }) => verb === 'test' && piece === WORDS,
    make: (visit, { part }) => {
        const { boat, network, request, starts, ends } = visit;
        const valves = remoteOf(boat).filter((id) => part === undefined || id === part);
        if (valves.length === 0) return blank('Nothing says which shutoff is worked from outside the space that it stands in.', [whichMissing]);
        const missing = unplaced(boat, starts, ends);
        if (missing.length > 0) return blank('A valve is placed by nothing that is written.', missing);
        const locked = valves.filter((id) => boat.parts.find((other) => other.id === id)!.lockedOpen);
        if (locked.length > 0) return blank(`${listed(locked)} ${locked.length > 1 ? 'are' : 'is'} locked open: pulled from outside it cannot shut. Take the lock off, or the word.`);
        const engines = boat.consumers.filter(({ id }) => valves.some((valve) => connectedTo(network, id).has(valve)));
        const at = (valve: Id): string => starts.positions.get(valve) ?? 'open';
        return {
            consumers: engines.map(({ id }) => id), takes: { seconds: EACH * valves.length, people: 2 },
            whole: [
                ...engines.map(({ id }) => planned('prepare', { do: 'stop', part: id })),
                ...valves.flatMap((valve) => {
                    const byHand = handPositions(boat.parts.find(({ id }) => id === valve)!).length > 0;
                    const shutting = { do: 'set', part: valve, position: 'shut' } as const;
                    const reset: readonly Remark[] = byHand ? [{ say: 'reset at the valve', with: { valve } }] : [];
                    return [
                        ...(at(valve) === 'open' ? [] : [planned('work', { do: 'set', part: valve, position: 'open' })]),
                        byHand ? told('work', shutting, { tell: 'pull', with: { valve } }, ...dying(visit, valve)) : planned('work', shutting, { say: 'shut by its switch', with: { valve } }, ...dying(visit, valve)),
                        planned('work', { do: 'look', part: valve, piece: 'lever' }, { say: 'lever tells', with: { valve, position: 'shut' } }),
                        planned('work', { do: 'set', part: valve, position: 'open' }, ...reset),
                        planned('work', { do: 'look', part: valve, piece: 'lever' }, { say: 'lever tells', with: { valve, position: 'open' } }),
                        ...(ends.positions.get(valve) === 'shut' ? [planned('restore', { do: 'set', part: valve, position: 'shut' })] : []),
                    ];
                }),
                planned('finish', { do: 'log', jobs: request.jobs }),
            ],
            acceptance: valves.map((valve): Remark => ({ say: 'lever tells', with: { valve, position: 'shut' } })),
        };
    },
};

/** Shutoffs that a tend job names so, and those worked by electricity, in the order of the boat. */
function remoteOf({ parts, intervals }: Boat): Id[] {
    const said = new Set(intervals.flatMap(({ job }) => (job.verb === 'test' && job.piece === WORDS && job.part !== undefined ? [job.part] : [])));
    return parts.filter(({ id, kind, solenoid }) => kind === 'shutoff' && (solenoid || said.has(id))).map(({ id }) => id);
}

const whichMissing: MissingFact = { about: 'vessel', fact: 'which shutoffs are worked from outside', how: 'look for a cable, a rod or a switch outside the engine space, pull it and see which lever moves; write `test V1 remote shutoff   every 12 months` into tend' };

/** How long each engine that it feeds would run on at idle, its lowest stated speed, s. */
function dying({ boat, network, ends }: Visit, valve: Id): Remark[] {
    return burnersOf(network).filter(({ id }) => partsBefore(running(network, ends.positions), `${id}:in`).has(valve)).flatMap((consumer): Remark[] => {
        const [idle] = knots(consumer.draws);
        const { fedBy, seconds } = runOn(boat, consumer, ends.positions, [valve], idle?.speed);
        return fedBy.length > 0 ? [] : [{ say: 'engine would die', with: { valve, engine: consumer.id, seconds: seconds?.most } }];
    });
}
