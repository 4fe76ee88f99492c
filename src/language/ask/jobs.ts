/** Jobs in the words of the language: `renew F1 element, look F2 element`. */
import type { Boat, Id, Job } from '../../model/boat';
import { JOB_VERBS, OTHER_VERBS } from '../lowering/jobs';
import { nearest } from '../vocabulary';
import { NotUnderstood } from './question';

/** Verbs of one word that a job of a single part begins with; what a recipe alone knows, such as `lay up`, is kept as it stands. */
const verbOf = (word: string): string => OTHER_VERBS[word] ?? word;

/** Reads jobs; `known` are jobs that the boat has, whatever words they are made of. Throws NotUnderstood, never anything else. */
export function readJobs(words: string, boat: Boat, known: readonly { readonly words: string; readonly job: Job }[]): Job[] {
    const said = words.split(/,|\s+and\s+/).map((one) => one.trim().replace(/\s+/g, ' ')).filter((one) => one !== '');
    if (said.length === 0) throw new NotUnderstood('Which job? Write it like `renew F1 element`.');
    let verb = '';
    return said.map((one) => {
        const exact = known.find((other) => other.words === one);
        if (exact) { verb = exact.job.verb; return exact.job; }
        const [first = '', ...others] = one.split(' ');
        // `renew F1 element, F2 element`: the verb goes on.
        const goesOn = verb !== '' && partOf(boat, first) !== undefined;
        if (!goesOn) verb = verbOf(first);
        const [name = '', ...piece] = goesOn ? [first, ...others] : others;
        const again = known.find((other) => other.words === [verb, name, ...piece].join(' '));
        if (again) return again.job;
        if (!Object.hasOwn(JOB_VERBS, verb)) {
            const near = nearest(first, [...Object.keys(JOB_VERBS), ...Object.keys(OTHER_VERBS)]);
            throw new NotUnderstood(`\`${one}\` is no job that is known here. ${near === undefined ? '' : `Did you mean \`${[near, ...others].join(' ')}\`? `}Without a job, \`orlop procedure\` prints the table of all that there are.`);
        }
        const part = partOf(boat, name);
        if (part === undefined) {
            const near = nearest(name, [...boat.tags.keys()]);
            throw new NotUnderstood(name === '' ? `What is to be done \`${verb}\` to? Write it like \`${verb} F1 element\`.` : `There is no ${name} on this boat.${near === undefined ? '' : ` Did you mean ${near}?`}`);
        }
        return { verb, part, piece: piece.join(' ') };
    });
}

function partOf(boat: Boat, name: string): Id | undefined {
    const ids = boat.tags.get(name) ?? [];
    if (ids.length > 1) throw new NotUnderstood(`${name} is the tag of two things. Give one of them another.`);
    return ids[0] ?? [...boat.parts, ...boat.tanks, ...boat.consumers].find(({ id }) => id === name)?.id;
}
