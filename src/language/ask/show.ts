/** What a drawing is to show, in words: `isolate F1`, `pressure at 2400 rpm`, `step 7 of renew F1 element`; and what there is to choose on a boat. */
import type { Boat, Id, Interval, Job } from '../../model/boat';
import type { Show } from '../../documents/drawing/markups/markup';
import { titleOf } from '../../documents/procedures/page';
import { wordsOf } from '../../documents/procedures/pages';
import { groundOf } from '../../procedures/service/ground';
import { jobWords } from '../../procedures/service/plan';
import { RECIPES } from '../../procedures/service/recipes';
import { fromSI, toSI } from '../../model/units';
import { capital } from '../../model/words';
import { nearest } from '../vocabulary';
import { readJobs } from './jobs';
import { NotUnderstood, readerOf, type Reader } from './question';

/** What can be shown, with an example of each. */
export const SHOWS: Readonly<Record<Show['show'], { readonly example: string; readonly doc: string }>> = {
    'line-up': { example: 'line-up', doc: 'how the valves stand, in which lines fuel moves, and which legs stay dead' },
    pressure: { example: 'pressure at 2400 rpm', doc: 'suction or pressure at each part, running; `pressure stopped` at rest' },
    bleed: { example: 'bleed E1 opened F1', doc: 'the bleed points in their order, and what is worked; `bleed E1 ran dry`' },
    isolate: { example: 'isolate F1', doc: 'the valves that cut a part off, what is cut off with it, and what runs out' },
    findings: { example: 'findings', doc: 'each finding, numbered at its thing' },
    changes: { example: 'changes', doc: 'what surveys found otherwise than drawn, and what a refit changes' },
    step: { example: 'step 7 of renew F1 element', doc: 'one step of a procedure: how the valves stand, what is open, what is cut off' },
};

/** Reads what is to be shown; throws NotUnderstood, never anything else. */
export function readShow(words: string, boat: Boat): Show {
    const said = words.trim().replace(/\s+/g, ' ');
    const step = /^step\b ?(\S*) ?(?:of\b ?(.*))?$/.exec(said);
    if (step) return readStep(boat, step[1]!, step[2] ?? '');
    const reader = readerOf(said, boat);
    const show = readWhat(reader, boat);
    const more = reader.peek();
    if (more) throw new NotUnderstood(`\`${more.text}\` is not understood in \`${said}\`. It is said like \`${SHOWS[show.show].example}\`.`);
    return show;
}

function readWhat(reader: Reader, boat: Boat): Show {
    const first = reader.take();
    switch (first?.text) {
        case 'line-up': case 'findings': case 'changes': return { show: first.text };
        case 'pressure': return { show: 'pressure', speed: readSpeed(reader) };
        case 'bleed': return readBleed(reader, boat);
        case 'isolate': return { show: 'isolate', part: reader.name('part', [...boat.parts, ...boat.consumers].map(({ id }) => id)) };
        default: {
            const near = first && nearest(first.text, Object.keys(SHOWS));
            throw new NotUnderstood(`${first === undefined ? 'What is to be shown?' : `\`${first.text}\` is nothing that can be shown.${near === undefined ? '' : ` Did you mean \`${near}\`?`}`} You can say:\n${Object.values(SHOWS).map(({ example, doc }) => `  ${example.padEnd(30)}${doc}`).join('\n')}`);
        }
    }
}

/** rev/s: no engine of a boat turns faster. */
const FASTEST = toSI(10_000, 'rpm');

function readSpeed(reader: Reader): number | 'full' | 'stopped' {
    if (reader.word('stopped')) return 'stopped';
    reader.word('running');
    if (!reader.word('at')) return 'full';
    const { si } = reader.quantity(['rotation'], ['pressure at 2400 rpm', 'pressure stopped']);
    if (!(si > 0 && si <= FASTEST)) throw new NotUnderstood('A running engine turns faster than 0 and no faster than 10000 rpm. What is so while it stands still, `pressure stopped` shows.');
    return si;
}

function readBleed(reader: Reader, boat: Boat): Show {
    const engine = reader.name('engine or other consumer', boat.consumers.map(({ id }) => id));
    const after = reader.word('after');
    if (reader.word('ran', 'dry') || (after && reader.word('running', 'dry'))) return { show: 'bleed', engine, opened: [], ranDry: true };
    if (!reader.word('opened') && !reader.word('opening')) throw new NotUnderstood(`Bleed ${engine} after what? Write \`bleed ${engine} opened F1, F2\` or \`bleed ${engine} ran dry\`.`);
    const parts = [...boat.parts, ...boat.consumers].map(({ id }) => id);
    const opened = [reader.name('part', parts)];
    while (reader.word(',') || reader.word('and')) opened.push(reader.name('part', parts));
    return { show: 'bleed', engine, opened };
}

function readStep(boat: Boat, number: string, name: string, known = knownJobs(boat)): Show {
    const step = /^[1-9]\d{0,3}$/.test(number) ? Number(number) : undefined;
    if (step === undefined || name === '') throw new NotUnderstood(`Which step of what? Write it like \`${SHOWS.step.example}\`; steps are numbered from 1.`);
    const title = name.replace(/^"(.*)"$/, '$1');
    const blocks = boat.procedures.filter((block) => !block.kept && block.title?.trim().replace(/\s+/g, ' ') === title);
    if (blocks.length > 1) throw new NotUnderstood(`Two procedures are called "${title}". Give one of them another name, or say its job.`);
    const [block] = blocks;
    if (block) return { show: 'step', step, of: { block: block.id } };
    return { show: 'step', step, of: { jobs: readJobs(name, boat, known) } };
}

const knownJobs = (boat: Boat): { readonly words: string; readonly job: Job }[] =>
    [...RECIPES.flatMap(({ rows }) => rows?.(boat) ?? []), ...boat.procedures.flatMap(({ jobs }) => jobs), ...boat.intervals.map(({ job }: Interval) => job)].map((job) => ({ words: jobWords(job), job }));

export interface Choice {
    /** The words for it, which stay the same as long as its thing has its tag. */
    readonly show: string;
    readonly title: string;
}

/** What there is to choose on a boat. A procedure stands with its first step. */
export function showsFor(boat: Boat): Choice[] {
    const isTagged = (id: Id): boolean => !/[/~]/.test(id) && (boat.tags.get(id)?.length ?? 1) === 1;
    const filters = boat.parts.filter(({ id, kind }) => (kind === 'filter' || kind === 'strainer') && isTagged(id)).map(({ id }) => id);
    const bled = boat.consumers.filter(({ id, kind }) => kind !== 'exchanger' && isTagged(id)).map(({ id }) => id);
    return [
        { show: 'line-up', title: 'Live lines and dead legs' },
        ...speedsOf(boat).map((rpm) => ({ show: `pressure at ${rpm} rpm`, title: `Suction and pressure at ${rpm} rpm` })),
        { show: 'pressure', title: 'Suction and pressure at full speed' }, { show: 'pressure stopped', title: 'Suction and pressure, stopped' },
        { show: 'findings', title: 'Findings' },
        ...(boat.overlays.length > 0 ? [{ show: 'changes', title: 'What surveys and refits change' }] : []),
        ...filters.map((id) => ({ show: `isolate ${id}`, title: `Cut off ${id}` })),
        ...bled.flatMap((engine) => [
            ...filters.filter((id) => groundOf(boat).servedBy(id).some((consumer) => consumer.id === engine)).map((id) => ({ show: `bleed ${engine} opened ${id}`, title: `Bleed ${engine} after opening ${id}` })),
            { show: `bleed ${engine} ran dry`, title: `Bleed ${engine} after running dry` },
        ]),
        ...proceduresOf(boat),
    ];
}

/** The speeds at which she is said to run, rpm; those of the speed table, which are few. */
const speedsOf = (boat: Boat): number[] => [...new Set(boat.vessel.speeds.map(({ at }) => Math.round(fromSI(at.si, 'rpm'))))].filter((rpm) => rpm > 0 && rpm <= 10_000);

/** Procedures that stand in the text, then the jobs of its intervals. What somebody only named is no part, and has none. */
function proceduresOf(boat: Boat): Choice[] {
    const titled = (title: string | undefined): title is string => title !== undefined && boat.procedures.filter((other) => !other.kept && other.title === title).length === 1;
    const written = boat.procedures.flatMap(({ jobs, title }): { words: string; title: string }[] => (jobs.length > 0 ? [{ words: wordsOf(jobs), title: title ?? titleOf(jobs) }] : titled(title) ? [{ words: `"${title}"`, title }] : []));
    const planned = boat.intervals.filter(({ job }) => job.part !== undefined).map(({ job }) => ({ words: jobWords(job), title: titleOf([job]) }));
    const known = knownJobs(boat);
    // A job whose part has no tag, or shares it, cannot be said.
    const isRead = (words: string): boolean => { try { readStep(boat, '1', words, known); return true; } catch (error) { if (error instanceof NotUnderstood) return false; throw error; } };
    return [...new Map([...planned, ...written].map((one) => [one.words, one])).values()].filter(({ words }) => isRead(words)).map(({ words, title }) => ({ show: `step 1 of ${words}`, title: capital(title) }));
}
