/** Engines and other consumers, as far as their fuel goes: run and looked at. */
import type { Consumer, Job } from '../../../model/boat';
import { missingFacts } from '../../bleed';
import { running, tanksBefore } from '../../../analysis/topology/paths';
import { planned } from '../step-of';
import { isMotor } from '../stage';
import { verify } from '../verify';
import type { Visit } from '../visit';
import { looked } from './looking';
import { blank } from './pieces';
import type { Recipe } from './recipe';

const consumerOf = ({ boat }: Visit, { part }: Job): Consumer | undefined => boat.consumers.find(({ id }) => id === part);
const isConsumer = (...verbs: readonly string[]) => (visit: Visit, job: Job): boolean => verbs.includes(job.verb) && consumerOf(visit, job) !== undefined;

export const CONSUMER: readonly Recipe[] = [
    {
        verb: 'test', fits: isConsumer('test'),
        make: (visit, job) => {
            const consumer = consumerOf(visit, job)!;
            const { boat, network, ends } = visit;
            if (consumer.kind === 'exchanger') return blank(`${consumer.id} does not run. It is looked at while the engine that it hangs on is warm.`);
            const tanks = tanksBefore(running(network, ends.positions), `${consumer.id}:in`);
            if (tanks.length === 0) return blank(`In line-up ${ends.id} no tank feeds ${consumer.id}.`);
            const missing = isMotor(consumer) ? missingFacts(boat, consumer, [ends], tanks) : [];
            if (missing.length > 0) return { blank: `A fact that safety needs is missing, so ${consumer.id} is not started here.`, missing };
            const { steps, acceptance, log, seconds } = verify(visit, consumer, { renewed: new Set(), opened: [] });
            return { whole: [...steps, planned('finish', { do: 'log', jobs: [job] })], consumers: [consumer.id], takes: { seconds, people: 1 }, acceptance, log };
        },
    },
    { verb: 'look', fits: isConsumer('look'), make: (_visit, job) => looked(job, ['weeps', 'chafed pipes', 'loose unions']) },
    ...['renew', 'refit', 'drain', 'clean', 'work'].map((verb): Recipe => ({ verb, fits: isConsumer(verb), make: (visit, job) => blank(`What is inside ${consumerOf(visit, job)!.id} is its maker's book's: nothing of it is written here to ${verb}.`) })),
];
