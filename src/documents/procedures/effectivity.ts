/**
 * Which facts a page used, told with room to spare: all of what it names, and all that lies on the lines of what it names, with
 * the vessel, her spaces and her line-ups. What only ever stands beside the name of a thing, such as a spanner size or a label,
 * counts where the page names that thing.
 */
import type { Boat, Id } from '../../model/boat';
import { jobWords } from '../../procedures/service/plan';
import { KNOWN, blockName, digestOf, factsOf, jobName, namesOf, revisionOf, type FactLine } from './facts';
import { safeName } from './safe';
import { textsOf, type Said } from './says';

/** The things of a page, as the facts call them. */
export interface Grounds {
    /** Every fact of these was used. */
    readonly names: ReadonlySet<string>;
    /** Of these, all that can be reckoned from. */
    readonly rests: ReadonlySet<string>;
}

/** Nothing is reckoned from these: they are only printed, beside the name of their thing. */
const PRINTED = new Set(['title', 'label', 'dated', 'spanner']);
const isPrinted = (fact: string): boolean => PRINTED.has(fact) || fact.endsWith(KNOWN);

export const usedOf = (facts: readonly FactLine[], { names, rests }: Grounds): FactLine[] =>
    facts.filter(({ about, fact }) => names.has(about) || (rests.has(about) && !isPrinted(fact)));

/** What stands on the page: the revision of the model and the digest of the facts that the page used. */
export function effectivityOf(boat: Boat, page: Said): { readonly revision: string; readonly facts: string } {
    return { revision: revisionOf(boat), facts: digestOf(usedOf(factsOf(boat), groundsOf(boat, page))) };
}

/** What a page names, and all that lies on the lines of that. */
function reachOf(boat: Boat, page: Said): { readonly found: ReadonlySet<Id>; readonly on: readonly Id[] } {
    const { calls, pattern, strands, owned } = indexOf(boat);
    const found = new Set<Id>();
    for (const text of textsOf(page)) for (const [name] of text.matchAll(pattern)) for (const id of calls.get(name.toLowerCase()) ?? []) found.add(id);
    // A tank is named with its fittings, a filter with its bleed points, and these with it.
    for (const id of [...found]) for (const other of owned.get(id) ?? []) found.add(other);
    const roots = new Set([...found].flatMap((id) => strands.get(id) ?? []));
    // A page that names nothing of the boat may rest on anything.
    return { found, on: roots.size === 0 ? [...strands.keys()] : [...strands].flatMap(([id, root]) => (roots.has(root) ? [id] : [])) };
}

/** Tanks, consumers, parts and courses on the lines that a page is about; of vents and fills those alone of which it names something. */
export function thingsOn(boat: Boat, page: Said): Id[] {
    const { found, on } = reachOf(boat, page);
    const aside = boat.courses.filter(({ id, service, parts }) => (service === 'vent' || service === 'fill') && ![id, ...parts].some((one) => found.has(one)));
    const left = new Set(aside.flatMap(({ id, parts }) => [id, ...parts]));
    const kept = new Set(on.filter((id) => !left.has(id)));
    return [...boat.tanks, ...boat.consumers, ...boat.parts, ...boat.courses].flatMap(({ id }) => (kept.has(id) ? [id] : []));
}

export function groundsOf(boat: Boat, page: Said): Grounds {
    const { found, on } = reachOf(boat, page);
    const called = namesOf(boat);
    const name = (id: Id): string => called.get(id) ?? id;
    const jobs = boat.intervals.filter(({ job: { part } }) => part === undefined || found.has(part)).map(({ job }) => jobName(boat, job));
    // Of two pages that would have one name the second has a number behind it.
    const blocks = page.byHand ? boat.procedures.filter((block) => block.title === page.title || page.id.startsWith(safeName(block.jobs.map(jobWords).join(', ')))).map((block) => blockName(boat, block)) : [];
    return {
        names: new Set(['vessel', ...[...found].map(name), ...jobs, ...blocks]),
        rests: new Set([...boat.vessel.spaces.map(({ id }) => id), ...boat.lineUps.map(({ id }) => id), ...on.map(name)]),
    };
}

interface Index {
    /** Ids by what they may be called on a page, in small letters. */
    readonly calls: ReadonlyMap<string, readonly Id[]>;
    readonly pattern: RegExp;
    /** What is joined to what, through tanks and consumers too: things of one strand have one number. */
    readonly strands: ReadonlyMap<Id, number>;
    readonly owned: ReadonlyMap<Id, readonly Id[]>;
}

const indexes = new WeakMap<Boat, Index>();
function indexOf(boat: Boat): Index {
    let index = indexes.get(boat);
    if (!index) { index = build(boat); indexes.set(boat, index); }
    return index;
}

function build(boat: Boat): Index {
    const calls = new Map<string, Id[]>();
    const call = (id: Id, ...names: readonly (string | undefined)[]): void => {
        for (const name of new Set(names.map((each) => (each ?? '').toLowerCase()))) if (name !== '') calls.set(name, [...(calls.get(name) ?? []), id]);
    };
    const owned = new Map<Id, Id[]>();
    const own = (one: Id, other: Id): void => { for (const [a, b] of [[one, other], [other, one]] as const) owned.set(a, [...(owned.get(a) ?? []), b]); };
    for (const { id, title, fittings } of boat.tanks) { call(id, id, title); for (const fitting of fittings) { call(fitting.id, fitting.id); own(id, fitting.id); } }
    for (const thing of [...boat.parts, ...boat.consumers]) {
        call(thing.id, thing.id, thing.title, ...('name' in thing ? [thing.tag, thing.name] : []));
        for (const vent of thing.vents) { call(vent.id, vent.id, vent.tag, vent.title); own(thing.id, vent.id); }
    }
    for (const { id, title } of [...boat.courses, ...boat.lineUps.map(({ id }) => ({ id, title: undefined }))]) call(id, id, title);
    for (const { date } of boat.log) call(`log ${date}`, date);
    for (const { id } of boat.passages) call(id, id);
    const names = [...calls.keys()].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
    const pattern = names.length === 0 ? /(?!)/g : new RegExp(`(?<![\\p{L}\\p{N}_])(?:${names.join('|')})(?![\\p{L}\\p{N}_])`, 'giu');
    return { calls, pattern, strands: strandsOf(boat), owned };
}

function strandsOf(boat: Boat): Map<Id, number> {
    const ids = [...boat.tanks.flatMap(({ id, fittings }) => [id, ...fittings.map((fitting) => fitting.id)]), ...[...boat.parts, ...boat.consumers].flatMap(({ id, vents }) => [id, ...vents.map((vent) => vent.id)]), ...boat.courses.map(({ id }) => id)];
    const number = new Map(ids.map((id, i) => [id, i]));
    const up = ids.map((_, i) => i);
    const root = (i: number): number => { while (up[i] !== i) i = up[i] = up[up[i]!]!; return i; };
    const join = (a: Id | undefined, b: Id | undefined): void => {
        const [from, to] = [number.get(a ?? ''), number.get(b ?? '')];
        if (from !== undefined && to !== undefined) up[root(from)] = root(to);
    };
    const at = (point: string): Id => { const id = point.split(':')[0]!; return number.has(id) ? id : id.split('.')[0]!; };
    for (const { id, fittings } of boat.tanks) for (const fitting of fittings) join(id, fitting.id);
    for (const { id, vents } of [...boat.parts, ...boat.consumers]) for (const vent of vents) join(id, vent.id);
    for (const { id, gangedWith, course } of boat.parts) { join(id, gangedWith); join(id, course); }
    for (const { id, from, to, parts } of boat.courses) for (const other of [from.part, to.part, ...parts]) join(id, other);
    for (const { from, to } of boat.joints) join(at(from), at(to));
    return new Map(ids.map((id, i) => [id, root(i)]));
}
