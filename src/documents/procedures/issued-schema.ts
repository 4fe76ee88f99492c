/** The forms of the register of issued pages and of what `orlop pages --json` prints, as JSON Schema (draft 2020-12). A field may be added; none changes its meaning. */
import { DRAFT, always, id, list, number, object, one, record, text, type Schema } from '../json-schema';

export const VERSION = 1;

const digest: Schema = { ...text, description: 'Twelve hexadecimal digits of a SHA-256.' };
const day: Schema = { ...text, description: 'ISO date.' };
const asked = object({
    jobs: list(object({ verb: text, 'part?': id, piece: text })), 'starts?': id, 'ends?': id, 'today?': object({ volumes: record(number('m³')), heel: number('rad, starboard down positive'), trim: number('rad, bow up positive') }),
}, 'What it was made for.');
const said = object({ kind: text, text });

export const REGISTER_SCHEMA: Schema = {
    $schema: DRAFT, title: 'The register of issued pages of Orlop', description: '`issued.json`, beside the pages that `orlop procedure --write` writes.',
    ...object({
        register: always('issued pages'), version: { const: VERSION }, boat: text,
        revisions: record(record(record(text)), 'By revision: thing, fact, value. All facts of the model from which a page of the register was made.'),
        pages: list(object({
            id, title: text, files: list(text), asked, 'issued?': day, revision: digest, facts: digest,
            names: { ...list(text), description: 'Things of which the page used every fact.' }, rests: { ...list(text), description: 'Things of which it used all that can be reckoned from.' },
            says: { ...list(said), description: 'Every line of the page, in order: step, warning, sign, valve and so on.' },
        })),
    }),
};

const difference = object({ kind: text, 'was?': text, 'now?': text, 'figures?': list(object({ was: text, now: text })) }, 'Only `was`: it is gone. Only `now`: it has come. Both: it reads otherwise.');
const changed = object({ about: text, fact: text, 'was?': text, 'now?': text });
const mention = object({ page: id, title: text, printed: list(said), restsOn: list(object({ about: text, fact: text, value: text })) });

export const PAGES_SCHEMA: Schema = {
    $schema: DRAFT, title: 'What issued pages are worth, by Orlop', description: 'What `orlop pages --json` prints.',
    ...object({
        boat: text, revision: digest,
        'pages?': list(object({ id, title: text, 'issued?': day, revision: digest, status: one('false', 'gone', 'still true', 'untouched'), differences: list(difference), because: list(changed), 'gone?': text })),
        'count?': object({ false: number('Pages that say something else now.'), gone: number('Pages whose job can no longer be made.'), stillTrue: number('Pages that say the same, though facts changed.'), untouched: number('Pages none of whose facts changed.') }),
        'mention?': text, 'mentions?': list(mention),
        'generations?': list(object({ id, title: text, change: one('new', 'withdrawn', 'same', 'changed'), differences: list(difference) })),
    }),
};
