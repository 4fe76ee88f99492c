/** Gauges read against what they should show; tees and gauges renewed. */
import type { Part } from '../../../model/boat';
import { isMotor } from '../stage';
import { gaugesOf, verify } from '../verify';
import { planned } from '../step-of';
import { looked } from './looking';
import { blank, isFor, partOf } from './pieces';
import type { Recipe } from './recipe';
import { renewWhole } from './whole-part';

const KINDS: readonly Part['kind'][] = ['gauge', 'tee', 'radiator'];

export const GAUGE: readonly Recipe[] = [
    {
        verb: 'test', fits: isFor(['test'], ['gauge']),
        make: (visit, job) => {
            const consumer = visit.boat.consumers.find((other) => isMotor(other) && gaugesOf(visit, other).includes(job.part!));
            if (!consumer) return blank(`${job.part!} stands on the supply of no engine in line-up ${visit.ends.id}, so nothing can be read at it there.`);
            const { steps, acceptance, log, seconds } = verify(visit, consumer, { renewed: new Set(), opened: [] });
            return {
                whole: [planned('work', { do: 'look', part: job.part!, piece: '', words: 'the pointer at nought while the engine stands' }, { say: 'reads nought', with: { gauge: job.part! } }), ...steps, planned('finish', { do: 'log', jobs: [job] })],
                consumers: [consumer.id], takes: { seconds, people: 1 }, acceptance, log,
            };
        },
    },
    { verb: 'renew', fits: isFor(['renew'], KINDS), make: (visit, job) => renewWhole(visit, partOf(visit, job)!) },
    { verb: 'look', fits: isFor(['look'], KINDS), make: (_visit, job) => looked(job, ['weeps', 'rust']) },
    { verb: 'drain', fits: isFor(['drain'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} has nothing to drain it by.`) },
    ...['refit', 'clean', 'test', 'work'].map((verb): Recipe => ({ verb, fits: isFor([verb], KINDS), make: (visit, job) => blank(`On ${partOf(visit, job)!.name} there is nothing to ${verb}.`) })),
];
