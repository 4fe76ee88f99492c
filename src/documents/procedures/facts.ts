/**
 * The facts of a boat as lines that a reader can compare: thing, fact in the words of the language, value as it is written.
 * They are flattened from the model without a list of its fields, so that a new fact is told without anybody thinking of it.
 */
import type { Boat, Id, Job, ProcedureBlock } from '../../model/boat';
import type { CurvePoint, Measure, Place } from '../../model/measure';
import { factWords, measureWords, numberWords, placeWords, pointWords } from './fact-words';
import { sha256 } from './sha256';

export interface FactLine {
    /** The thing: its tag, `the hose after V1` where it has none; `vessel`, `log 2025-03-12` and the like. */
    readonly about: string;
    readonly fact: string;
    readonly value: string;
}

/** All facts of a boat, sorted, each once. */
export function factsOf(boat: Boat): readonly FactLine[] {
    let found = known.get(boat);
    if (!found) { found = flatten(boat); known.set(boat, found); }
    return found;
}
const known = new WeakMap<Boat, readonly FactLine[]>();

/** How the facts call each id: part by tag, or by where it stands when that is said of it alone. */
export function namesOf(boat: Boat): ReadonlyMap<Id, string> {
    const count = new Map<string, number>();
    for (const { name } of boat.parts) count.set(name, (count.get(name) ?? 0) + 1);
    return new Map(boat.parts.map(({ id, tag, name }) => [id, tag === undefined && count.get(name) === 1 ? name : id]));
}

const jobOf = ({ verb, part, piece }: Job, name: (id: Id) => string): string => [verb, ...(part === undefined ? [] : [name(part)]), piece].filter((word) => word !== '').join(' ');

/** The words of a job: renew F1 element. */
export function jobName(boat: Boat, job: Job): string {
    const names = namesOf(boat);
    return jobOf(job, (id) => names.get(id) ?? id);
}

/** A procedure as it stands in the text, by its jobs; by its title where it has none. */
export const blockName = (boat: Boat, { id, jobs, title }: ProcedureBlock): string => `procedure ${jobs.length > 0 ? jobs.map((job) => jobName(boat, job)).join(', ') : title ?? id}`;

function flatten(boat: Boat): FactLine[] {
    const names = namesOf(boat);
    const name = (id: Id): string => names.get(id) ?? id;
    const lines = new Map<string, FactLine>();
    const add = (about: string, fact: string, value: string): void => {
        const key = `${about}\t${fact}`;
        const same = lines.get(key)?.value;
        lines.set(key, { about, fact, value: same === undefined ? value : [...same.split('; '), value].sort(order).join('; ') });
    };
    const tell = (about: string, path: readonly string[], value: unknown): void => {
        if (value === undefined || value === null || value === '') return;
        if (typeof value === 'number') add(about, factWords(path), numberWords(path, value));
        else if (typeof value === 'boolean') add(about, factWords(path), value ? 'yes' : 'no');
        else if (typeof value === 'string') add(about, factWords(path), name(value));
        else if (Array.isArray(value)) list(about, path, value);
        else if (value instanceof Map) for (const [key, each] of value) tell(about, [...path, String(key)], each);
        else if (isMeasure(value)) add(about, factWords(path), measureWords(path, value));
        else if (isPlace(value)) add(about, factWords(path), placeWords(value));
        else if (isPoint(value)) add(about, factWords(path), pointWords(path, value));
        else if (isJob(value)) add(about, factWords(path), jobOf(value, name));
        else if (Object.keys(value).length === 0) add(about, factWords(path), 'not known');
        else for (const [key, each] of Object.entries(value)) tell(about, [...path, key], each);
    };
    const list = (about: string, path: readonly string[], items: readonly unknown[]): void => {
        if (items.length === 0) return;
        if (items.every((item) => typeof item === 'string')) return add(about, factWords(path), items.map(name).join(', '));
        if (items.every(isPoint)) return add(about, factWords(path), items.map((point) => pointWords(path, point)).join(', '));
        // What has a name of its own is a thing; that it belongs here, and in which order, is a fact too.
        if (items.every(isNamed)) {
            add(about, factWords(path), items.map(({ id }) => name(id)).join(', '));
            for (const item of items) thing(item.id, item);
            return;
        }
        items.forEach((item, i) => tell(about, [...path, (item as { name?: string } | null)?.name ?? String(i + 1)], item));
    };
    const thing = (id: Id, { id: _, ...facts }: Readonly<Record<string, unknown>>): void => { for (const [key, value] of Object.entries(facts)) tell(name(id), [key], value); };

    // Tags are told by the things that have them. What one is called by is no fact of it.
    const { tags: _, tanks, consumers, parts, courses, joints, lineUps, intervals, log, bleeds, procedures, overlays, answers, waivers, evidence, unknown, passages, vessel, ...others } = boat;
    for (const [key, value] of Object.entries({ ...others, ...vessel })) tell('vessel', [key], value);
    // Which there are is a fact of the vessel: a page may go through all of them.
    for (const [fact, things] of [['tanks', tanks], ['consumers', consumers]] as const) if (things.length > 0) add('vessel', fact, things.map(({ id }) => id).sort(order).join(', '));
    if (overlays.length > 0) add('vessel', 'surveys and refits', overlays.map(({ id }) => id).join(', '));
    for (const { name: _, ...part } of parts) thing(part.id, part);
    for (const each of [...tanks, ...consumers, ...courses, ...passages]) thing(each.id, { ...each });
    for (const each of overlays) thing(each.id, { ...each, changes: each.changes.map(({ id: _, ...change }) => change) });
    for (const { settings, ...lineUp } of lineUps) {
        thing(lineUp.id, { ...lineUp });
        for (const { part, position } of settings) add(lineUp.id, name(part), position);
    }
    // A joint is told at both of its ends, so that what comes between two things is a change of both.
    for (const { from, to, course } of joints) for (const [one, other] of [[from, to], [to, from]] as const) {
        const [at, port] = [...one.split(':'), ''] as [string, string];
        add(name(at), `${port === '' ? '' : `${port} `}joins`, `${other.split(':').map(name).join(' ')}, ${course}`);
    }
    // What has no name of its own is called by what it says, never by its place in the text.
    for (const { id: _, job, ...interval } of intervals) for (const [key, value] of Object.entries(interval)) tell(jobName(boat, job), [key], value);
    for (const { id: _, date, readings, hours, ...entry } of log) {
        for (const [key, value] of Object.entries(entry)) tell(`log ${date}`, [key], value);
        for (const { engine, reading } of hours) tell(`log ${date}`, [name(engine), 'hours'], reading);
        for (const { about, of, value, speed } of readings) add(`log ${date}`, `${name(about)} ${of}`, `${numberWords([of], value)}${speed === undefined ? '' : ` at ${numberWords(['speed'], speed)}`}`);
    }
    for (const { id: _, engine, lines: written, ...head } of bleeds) block(`bleed ${name(engine)} after ${head.ranDry ? 'running dry' : head.opened.join(', ')}`, head, written);
    for (const procedure of procedures) { const { id: _, jobs: __, lines: written, ...head } = procedure; block(blockName(boat, procedure), head, written); }
    for (const { id: _, rule, about, ...answer } of answers) for (const [key, value] of Object.entries(answer)) tell(`answer ${rule} ${name(about)}`, [key], value);
    for (const { id: _, rule, ...waiver } of waivers) for (const [key, value] of Object.entries(waiver)) tell(`waiver ${rule}`, [key], value);
    for (const { about, fact, how } of unknown) add(name(about), `${fact}, not known`, how);
    const ids = new Set([...names.keys(), ...tanks, ...consumers, ...courses].map((each) => (typeof each === 'string' ? each : each.id)));
    for (const [key, value] of evidence) {
        const id = ids.has(key) ? key : key.slice(0, Math.max(0, key.indexOf(' '))) || key;
        tell(name(id), [`${key.slice(id.length).trim()} ${KNOWN}`.trim()], Object.values(value as Readonly<Record<string, string>>).join(' '));
    }
    return [...lines.values()].sort((a, b) => order(a.about, b.about) || order(a.fact, b.fact));

    function block(about: string, head: object, written: readonly { readonly text: string }[]): void {
        for (const [key, value] of Object.entries(head)) tell(about, [key], value);
        written.forEach(({ text }, i) => add(about, `line ${i + 1}`, text));
    }
}

/** The end of the words of a fact that says how well another one is known. */
export const KNOWN = 'as known';

/** By code point, the same on every machine. */
const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null && !Array.isArray(value);
const isNamed = (value: unknown): value is { readonly id: Id } & Readonly<Record<string, unknown>> => isObject(value) && typeof value.id === 'string';
const isMeasure = (value: unknown): value is Measure => isObject(value) && typeof value.si === 'number';
const isPoint = (value: unknown): value is CurvePoint => isObject(value) && isMeasure(value.value) && isMeasure(value.at);
const isPlace = (value: unknown): value is Place => isObject(value) && Object.keys(value).length > 0 && Object.entries(value).every(([key, each]) => ['up', 'fwd', 'stbd'].includes(key) && isMeasure(each));
const isJob = (value: unknown): value is Job => isObject(value) && typeof value.verb === 'string' && typeof value.piece === 'string';

/** Digits of a digest as it is printed: enough that no two states of one boat are alike by chance (1 in 3 × 10¹⁴). */
const DIGITS = 12;

/**
 * The short digest of some facts, whatever their order: that of the sum of the digests of the facts, word by word. So each fact of a boat
 * is digested once, and a page costs a few hundred additions.
 */
export function digestOf(lines: readonly FactLine[]): string {
    const sum = new Uint32Array(8);
    for (const line of lines) { const words = wordsOf(line); for (let i = 0; i < 8; i++) sum[i]! += words[i]!; }
    return sha256(`${lines.length} ${sum.join(' ')}`).slice(0, DIGITS);
}

function wordsOf(line: FactLine): Uint32Array {
    let words = digested.get(line);
    if (!words) {
        const digest = sha256(JSON.stringify([line.about, line.fact, line.value]));
        words = Uint32Array.from({ length: 8 }, (_, i) => Number.parseInt(digest.slice(8 * i, 8 * i + 8), 16));
        digested.set(line, words);
    }
    return words;
}
const digested = new WeakMap<FactLine, Uint32Array>();

/** The revision of the model: the digest of all its facts. */
export function revisionOf(boat: Boat): string {
    const revision = revisions.get(boat) ?? digestOf(factsOf(boat));
    revisions.set(boat, revision);
    return revision;
}
const revisions = new WeakMap<Boat, string>();
