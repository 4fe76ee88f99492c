/** The form of what `orlop sheet --json` prints, as JSON Schema (draft 2020-12). A field may be added; none changes its meaning. */
import { GRADES } from '../../model/measure';
import { DRAFT, flag, id, list, number, object, one, text, type Schema } from '../json-schema';
import { VERDICTS } from './working';

const figure: Readonly<Record<string, Schema>> = {
    value: number('As printed, in `unit`.'), unit: { type: 'string', description: 'A unit of the language; `nmi` for the nautical mile of 1852 m, `K` for a difference of temperatures, `1` for a plain number.' },
    'least?': number('With `most`, when it rests on a guess: what it is at least.'), 'most?': number('What it is at most.'),
};
const from = object({ kind: one('fact', 'taken', 'cited', 'computation'), words: text, 'grade?': one(...GRADES), 'id?': text }, 'A fact in the words in which it was written; what was taken and why; a rule or handbook by its name; or the result of another computation.');
const missing: Readonly<Record<string, Schema>> = { about: id, fact: text, how: text };

const computation = object({
    number: text, id: text, group: text, about: id, what: text, formula: text, source: text,
    inputs: list(object({ symbol: text, what: text, ...figure, from })), steps: list(object({ symbol: text, what: text, formula: text, ...figure })),
    'result?': object({ symbol: text, ...figure }), 'limit?': object({ sense: one('at most', 'at least'), ...figure, from }),
    'margin?': object({ ...figure, 'percent?': number('Of the limit.') }, 'Negative beyond the limit.'),
    verdict: one(...VERDICTS), 'where?': text, 'rule?': text, notes: list(text), byMesh: flag, bySteps: flag, missing: list(object(missing)),
});

export const CALCULATIONS_SCHEMA: Schema = {
    $schema: DRAFT, title: 'A calculation sheet of Orlop', description: 'What `orlop sheet --json` prints.',
    ...object({ boat: text, standing: text, redo: text, basis: list(object({ term: text, words: text })), computations: list(computation), taken: list(text), missing: list(object({ ...missing, settles: list(text) })) }),
};
