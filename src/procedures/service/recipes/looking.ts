/** Something looked at where it is: nothing is opened and nothing stopped. */
import type { Job } from '../../../model/boat';
import { planned } from '../step-of';
import type { Whole } from './recipe';

/** s. */
const TAKES = 300;

export function looked(job: Job, signs: readonly string[]): Whole {
    const { part, piece } = job;
    return {
        whole: [
            planned('work', { do: 'look', ...(part !== undefined && { part }), piece, words: signs.join(', ') }, part === undefined ? undefined : { say: 'look for', with: { part, signs } }),
            planned('finish', { do: 'log', jobs: [job] }),
        ],
        consumers: [], takes: { seconds: TAKES, people: 1 }, needs: { tools: ['lamp', 'mirror', 'card'] },
    };
}
