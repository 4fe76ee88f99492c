/** Shutoffs, selectors and changeovers worked so that they do not seize, and renewed; checks renewed. */
import type { Id, Job, Part } from '../../../model/boat';
import { handPositions } from '../../../analysis/topology/line-ups';
import { positionMissing } from '../../../analysis/missing';
import { consumersOf } from '../frame';
import type { Blank } from '../plan';
import { planned } from '../step-of';
import type { Visit } from '../visit';
import { looked } from './looking';
import { blank, isFor, partOf } from './pieces';
import type { Recipe, Whole } from './recipe';
import { renewWhole } from './whole-part';

const VALVES: readonly Part['kind'][] = ['shutoff', 'selector', 'changeover'];
const KINDS: readonly Part['kind'][] = [...VALVES, 'check'];

/** s. */
const WORK_TAKES = 300;

function worked(visit: Visit, job: Job, id: Id): Whole | Blank {
    const { network, starts, ends } = visit;
    const part = network.parts.get(id)!;
    if (part.lockedOpen) return blank(`${part.name} is locked open. Whoever locked it works it.`);
    if (part.solenoid) return blank(`${part.name} is worked by electricity, and no hand turns it. It is tested with what switches it.`);
    const [from, to] = [starts.positions.get(id), ends.positions.get(id)];
    const unplaced = from === undefined ? starts.id : to === undefined ? ends.id : undefined;
    if (unplaced !== undefined) return { blank: `How ${part.name} is left cannot be said: line-up ${unplaced} does not place it.`, missing: [positionMissing(id, unplaced)] };
    const others = handPositions(part).filter((position) => position !== from);
    if (others.length === 0) return blank(`${part.name} has no other position that is written.`);
    const consumers = consumersOf(visit, [id]);
    return {
        whole: [
            ...consumers.filter(({ kind }) => kind !== 'exchanger').map((consumer) => planned('prepare', { do: 'stop', part: consumer.id })),
            ...others.map((position) => planned('work', { do: 'set', part: id, position })),
            planned('work', { do: 'set', part: id, position: to! }, { say: 'turns freely', with: { valve: id } }),
            planned('verify', { do: 'look', part: id, piece: '', words: 'dry at the spindle' }),
            planned('finish', { do: 'log', jobs: [job] }),
        ],
        consumers: consumers.map((consumer) => consumer.id), takes: { seconds: WORK_TAKES, people: 1 }, needs: { tools: ['card', 'rags'] },
        acceptance: [{ say: 'turns freely', with: { valve: id } }, { say: 'line-up', with: { lineUp: ends.id } }],
    };
}

export const VALVE: readonly Recipe[] = [
    { verb: 'renew', fits: isFor(['renew'], KINDS), make: (visit, job) => renewWhole(visit, partOf(visit, job)!, { remarks: [{ say: 'arrow downstream', with: { part: job.part! } }] }) },
    { verb: 'refit', fits: isFor(['refit'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} has nothing that is looked at and put back. Renew it whole.`) },
    { verb: 'look', fits: isFor(['look'], KINDS), make: (_visit, job) => looked(job, ['weeps', 'rust', 'a handle that is loose']) },
    { verb: 'drain', fits: isFor(['drain'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} has nothing to drain it by.`) },
    { verb: 'clean', fits: isFor(['clean'], ['check']), make: () => blank('A check valve has nothing to clean.') },
    { verb: 'clean', fits: isFor(['clean'], VALVES), make: (visit, job) => blank(`${partOf(visit, job)!.name} has nothing to clean. Work it, so that it does not seize.`) },
    { verb: 'test', fits: isFor(['test'], ['check']), make: (visit, job) => blank(`Whether ${partOf(visit, job)!.name} holds shows only by waiting: note whether the engine starts as well after a night as after an hour.`) },
    { verb: 'test', fits: isFor(['test'], VALVES), make: (visit, job) => blank(`Whether ${partOf(visit, job)!.name} holds is proved each time that something behind it is opened. Work it here.`) },
    { verb: 'work', fits: isFor(['work'], VALVES), make: (visit, job) => worked(visit, job, job.part!) },
    { verb: 'work', fits: isFor(['work'], ['check']), make: () => blank('A check valve has no handle to work.') },
];
