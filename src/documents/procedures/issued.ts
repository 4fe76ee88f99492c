/**
 * The register of the pages that were issued: which facts each used and what it said, so that the present model can tell which of
 * them it has made false, and why. Pages are made anew and compared; the digest alone is for paper.
 */
import type { Boat, Id, Job } from '../../model/boat';
import { mismatch } from '../json-schema';
import type { Document } from '../place';
import { effectivityOf, groundsOf, usedOf, type Grounds } from './effectivity';
import { digestOf, factsOf, revisionOf, type FactLine } from './facts';
import { REGISTER_SCHEMA, VERSION } from './issued-schema';
import { differences, saysOf, type Difference, type Said, type SaidLine } from './says';

export const REGISTER = 'issued.json';

/** What was issued of one page. Fields that a later version added are kept as they are. */
export interface IssuedPage {
    readonly id: string;
    readonly title: string;
    readonly files: readonly string[];
    /** What was asked for, so that it can be made anew. */
    readonly asked: Asked;
    /** ISO date. */
    readonly issued?: string;
    readonly revision: string;
    readonly facts: string;
    readonly names: readonly string[];
    readonly rests: readonly string[];
    readonly says: readonly SaidLine[];
}

export interface Asked {
    readonly jobs: readonly Job[];
    readonly starts?: Id;
    readonly ends?: Id;
    /** How she was that day, where it was said: m³ by tank, rad. */
    readonly today?: { readonly volumes: Readonly<Record<Id, number>>; readonly heel: number; readonly trim: number };
}

type Kept = Readonly<Record<string, Readonly<Record<string, Readonly<Record<string, string>>>>>>;

export interface Register {
    readonly register: 'issued pages';
    readonly version: number;
    readonly boat: string;
    readonly revisions: Kept;
    readonly pages: readonly IssuedPage[];
}

/** A register that cannot be relied on. Nothing is written over it. */
export interface Unreadable { readonly unreadable: string }
export const isUnreadable = (read: object): read is Unreadable => 'unreadable' in read;

/** What a register says, or in a sentence why it cannot be used. */
export function readRegister(text: string): Register | Unreadable {
    let read: unknown;
    try { read = JSON.parse(text.replace(/^\ufeff/, '')); } catch { return broken('is cut short or is no register'); }
    const { register, version } = (typeof read === 'object' && read !== null ? read : {}) as Partial<Register>;
    if (register !== 'issued pages') return { unreadable: `${REGISTER} is a file of something else. Move it away, or use another folder for the pages.` };
    if (typeof version === 'number' && version > VERSION) return { unreadable: `${REGISTER} was written by a later Orlop (form ${version}; this one reads up to ${VERSION}). Use that one here; nothing was changed.` };
    const wrong = mismatch(REGISTER_SCHEMA, read, 'the register');
    if (wrong !== undefined) return broken(`is damaged: ${wrong}`);
    const found = read as Register;
    for (const [revision, facts] of Object.entries(found.revisions)) if (digestOf(linesOf(facts)) !== revision) return broken(`was changed: the facts of revision ${revision} do not give that digest`);
    for (const page of found.pages) {
        if (!Object.hasOwn(found.revisions, page.revision)) return broken(`is damaged: the facts of revision ${page.revision}, from which ${page.id} was made, are not in it`);
        if (digestOf(usedThen(found, page)) !== page.facts) return broken(`was changed: what ${page.id} used does not give the digest ${page.facts}`);
    }
    return found;
}

const broken = (what: string): Unreadable => ({ unreadable: `${REGISTER} ${what}. Put back a copy of it, or move it away and issue the pages anew; nothing was written over it.` });

const linesOf = (facts: Kept[string]): FactLine[] => Object.entries(facts).flatMap(([about, own]) => Object.entries(own).map(([fact, value]) => ({ about, fact, value })));
const groundsThen = ({ names, rests }: IssuedPage): Grounds => ({ names: new Set(names), rests: new Set(rests) });
export const usedThen = ({ revisions }: Register, page: IssuedPage): FactLine[] => usedOf(linesOf(revisions[page.revision] ?? {}), groundsThen(page));

export interface ToIssue {
    readonly page: Said;
    readonly asked: Asked;
    /** The files that it is written into, beside the register. */
    readonly files: readonly string[];
}

/** The register with these pages issued on a day; pages that stood in it and are not issued now stay in it as they were. */
export function issue(boat: Boat, pages: readonly ToIssue[], old: string | undefined, day: string | undefined): Document[] | Unreadable {
    const before = old === undefined ? undefined : readRegister(old);
    if (before && isUnreadable(before)) return before;
    const stranger = before && ofOther(boat, before);
    if (stranger) return stranger;
    const revision = revisionOf(boat);
    const now = pages.map(({ page, asked, files }): IssuedPage => {
        const { names, rests } = groundsOf(boat, page);
        return {
            id: page.id, title: page.title, files, asked, ...(day !== undefined && { issued: day }), revision, facts: effectivityOf(boat, page).facts,
            names: [...names].sort(byName), rests: [...rests].sort(byName), says: saysOf(page),
        };
    });
    const kept = (before?.pages ?? []).filter(({ id }) => !now.some((page) => page.id === id));
    const all = [...kept, ...now].sort((a, b) => byName(a.id, b.id));
    const needed = new Set(all.map((page) => page.revision));
    const facts: Record<string, Record<string, string>> = {};
    for (const { about, fact, value } of factsOf(boat)) (facts[about] ??= {})[fact] = value;
    const revisions = Object.fromEntries(Object.entries({ ...before?.revisions, [revision]: facts }).filter(([key]) => needed.has(key)).sort(([a], [b]) => byName(a, b)));
    const register: Register = { ...before, register: 'issued pages', version: VERSION, boat: boat.name, revisions, pages: all };
    return [{ path: REGISTER, text: `${inLines(register)}\n` }];
}

/** JSON in which what holds nothing but texts and numbers stands on a line of its own: short, and what changes is seen line by line. */
function inLines(value: unknown, indent = ''): string {
    if (typeof value !== 'object' || value === null) return JSON.stringify(value);
    const inner = Object.values(value as object).filter((each) => each !== undefined);
    if (inner.every((each) => typeof each !== 'object')) return JSON.stringify(value);
    const [open, close] = Array.isArray(value) ? '[]' : '{}';
    const lines = Object.entries(value).filter(([, each]) => each !== undefined).map(([key, each]) => `${indent} ${Array.isArray(value) ? '' : `${JSON.stringify(key)}: `}${inLines(each, `${indent} `)}`);
    return `${open}\n${lines.join(',\n')}\n${indent}${close}`;
}

const byName = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Pages of another boat are neither judged nor written over. */
export function ofOther(boat: Boat, { boat: name }: Register): Unreadable | undefined {
    return name === boat.name ? undefined : { unreadable: `The pages there were issued for ${name === '' ? 'a boat without a name' : name}, and this is ${boat.name === '' ? 'a boat without a name' : boat.name}. Use another folder, or that boat.` };
}

/** A fact that is not what it was. */
export interface ChangedFact {
    readonly about: string;
    readonly fact: string;
    readonly was?: string;
    readonly now?: string;
}

export interface Standing {
    readonly page: IssuedPage;
    readonly status: 'false' | 'gone' | 'still true' | 'untouched';
    /** What it says otherwise. */
    readonly differences: readonly Difference[];
    /** The facts that it rests on and that have changed, those of what reads otherwise first. */
    readonly because: readonly ChangedFact[];
    /** Why its job can no longer be made. */
    readonly gone?: string;
}

/** What the present model makes of a page: made anew, or the reason why not. */
export type Remade = Said | { readonly blank: string };

/** How each issued page stands against the present model, in the order of their ids. */
export function standingOf(register: Register, boat: Boat, remake: (page: IssuedPage) => Remade): Standing[] {
    const facts = factsOf(boat);
    return register.pages.map((page): Standing => {
        const then = linesOf(register.revisions[page.revision] ?? {});
        const made = remake(page);
        if ('blank' in made) return { page, status: 'gone', differences: [], because: changedFacts(then, facts, [groundsThen(page)]), gone: made.blank };
        const grounds = groundsOf(boat, made);
        const differ = differences(page.says, saysOf(made));
        const because = changedFacts(then, facts, [groundsThen(page), grounds]);
        if (differ.length > 0) return { page, status: 'false', differences: differ, because: nearestFirst(because, differ) };
        return { page, status: digestOf(usedOf(facts, grounds)) === page.facts ? 'untouched' : 'still true', differences: [], because };
    });
}

/** Facts that one of the grounds reaches and that are not as they were. */
function changedFacts(then: readonly FactLine[], now: readonly FactLine[], grounds: readonly Grounds[]): ChangedFact[] {
    const key = ({ about, fact }: FactLine): string => `${about}\t${fact}`;
    const used = new Set(grounds.flatMap((each) => [...usedOf(then, each), ...usedOf(now, each)]).map(key));
    const [before, after] = [then, now].map((lines) => new Map(lines.map((line) => [key(line), line])));
    return [...used].sort(byName).flatMap((each): ChangedFact[] => {
        const [was, is] = [before!.get(each), after!.get(each)];
        const { about, fact } = (was ?? is)!;
        return was?.value === is?.value ? [] : [{ about, fact, ...(was && { was: was.value }), ...(is && { now: is.value }) }];
    });
}

/** Facts of what the changed lines name stand first: they are the likeliest reason. */
function nearestFirst(facts: readonly ChangedFact[], differ: readonly Difference[]): ChangedFact[] {
    const text = differ.map(({ was, now }) => `${was ?? ''} ${now ?? ''}`).join(' ');
    const named = ({ about }: ChangedFact): boolean => text.includes(about);
    return [...facts.filter(named), ...facts.filter((fact) => !named(fact))];
}

export interface Generation {
    readonly id: string;
    readonly title: string;
    readonly change: 'new' | 'withdrawn' | 'same' | 'changed';
    readonly differences: readonly Difference[];
}

/** Two issues of the pages of a boat, compared by what they say. */
export function generationsOf(was: Register, now: Register): Generation[] {
    const [before, after] = [was, now].map(({ pages }) => new Map(pages.map((page) => [page.id, page])));
    return [...new Set([...before!.keys(), ...after!.keys()])].sort(byName).map((id): Generation => {
        const [old, present] = [before!.get(id), after!.get(id)];
        const { title } = (present ?? old)!;
        if (!old || !present) return { id, title, change: old ? 'withdrawn' : 'new', differences: [] };
        const differ = differences(old.says, present.says);
        return { id, title, change: differ.length === 0 ? 'same' : 'changed', differences: differ };
    });
}
