/** The one step from texts to the boat. Reads the syntax trees, and every property of them as possibly absent. */
import { AstUtils, GrammarUtils, type AstNode, type LangiumDocument } from 'langium';
import type { Boat, Interval, LogEntry, Part, Tank } from '../../model/boat';
import type { Problem } from '../facts';
import type { Sources } from '../sources';
import type { Entry, Later, Stray, Text } from '../generated/ast';
import { tagOf } from '../linking';
import { nearest, synonym, whereItStands } from '../vocabulary';
import { Context } from './context';
import { Courses } from './courses';
import { lowerBleed, lowerLineUp, lowerLog, lowerTend } from './lines';
import { NO_VESSEL, lowerConsumer, lowerTank, lowerVessel } from './vessel';

export interface Lowered {
    readonly boat: Boat;
    readonly sources: Sources;
    readonly problems: readonly Problem[];
}

/** Lowers the files of one folder, in the order of their names, so that the same texts always give the same boat. */
export function lowerBoat(documents: readonly LangiumDocument[]): Lowered {
    const sorted = [...documents].sort((a, b) => (a.uri.toString() < b.uri.toString() ? -1 : 1));
    const context = new Context(declarations(sorted));
    const entries = sorted
        .flatMap((document) => (document.parseResult.value as Text).entries ?? [])
        .filter(isWhole);
    const of = <T extends Entry['$type']>(type: T): Extract<Entry, { $type: T }>[] => entries.filter((entry): entry is Extract<Entry, { $type: T }> => entry.$type === type);

    const vessels = of('Vessel');
    for (const other of vessels.slice(1)) context.problem('two-vessels', other.$cstNode, `A folder is one boat, and this one already has the vessel ${vessels[0]!.name}. Move ${other.name} to a folder of its own.`);
    const vessel = vessels[0] ? lowerVessel(context, vessels[0]) : NO_VESSEL;
    const tanks = of('Tank').map((tank) => lowerTank(context, tank));
    const consumers = of('Consumer').map((consumer) => lowerConsumer(context, consumer));
    const courses = new Courses(context, tanks);
    for (const selector of of('Selector')) courses.selector(selector);
    for (const course of of('Course')) courses.course(course);
    const parts = new Map<string, Part>(courses.parts.map((part) => [part.id, part]));
    const lineUps = of('LineUp').map((lineUp) => lowerLineUp(context, lineUp, parts));
    for (const lineUp of lineUps) {
        const seen = new Set<string>();
        for (let at = lineUps.find((other) => other.id === lineUp.id); at; at = lineUps.find((other) => other.id === at!.base)) {
            if (seen.has(at.id)) { context.problem('circle', of('LineUp').find((node) => node.name === lineUp.id)?.$cstNode, `${lineUp.id} is made from itself: ${[...seen, at.id].join(' from ')}. Break the circle.`); break; }
            seen.add(at.id);
        }
    }
    const intervals: Interval[] = [];
    for (const tend of of('Tend')) intervals.push(...lowerTend(context, tend, intervals.length));
    const log: LogEntry[] = [];
    for (const entry of of('Log')) log.push(...lowerLog(context, entry, log.length));
    const bleeds = of('Bleed').map((bleed, i) => lowerBleed(context, bleed, i));
    for (const stray of of('Stray')) if (!followsItsLike(stray)) strayProblem(context, stray);
    for (const later of of('Later')) laterProblem(context, later);

    for (const ids of context.tags.values()) if (ids.length > 1) ids.sort();
    return {
        boat: {
            name: vessels[0]?.name ?? '', ...(vessels[0]?.title && { title: vessels[0].title.replace(/"/g, '') }),
            vessel, tanks: withImplied(tanks, courses), consumers, parts: courses.parts, courses: courses.courses, joints: courses.joints,
            lineUps, intervals, log, bleeds, tags: context.tags,
        },
        sources: context.sources,
        problems: context.problems,
    };
}

/** The declarations of each tag, with how many of it stand before. */
function declarations(documents: readonly LangiumDocument[]): ReadonlyMap<string, ReadonlyMap<AstNode, number>> {
    const found = new Map<string, Map<AstNode, number>>();
    for (const document of documents) for (const node of AstUtils.streamAllContents(document.parseResult.value)) {
        const name = tagOf(node);
        if (name === undefined) continue;
        const same = found.get(name) ?? new Map<AstNode, number>();
        found.set(name, same.set(node, same.size));
    }
    return found;
}

/** A declaration whose name is still to be typed is left out; the parser has already asked for it. */
const isWhole = (entry: Entry): boolean => !NAMED.has(entry.$type) || typeof (entry as { name?: string }).name === 'string';
const NAMED = new Set(['Vessel', 'Tank', 'Consumer', 'Selector', 'Course', 'LineUp']);

function withImplied(tanks: readonly Tank[], courses: Courses): Tank[] {
    return tanks.map((tank) => ({
        ...tank,
        fittings: [...tank.fittings, ...courses.implied.filter((fitting) => fitting.tank === tank.id).map((fitting) => ({ ...fitting, id: `${tank.id}.${fitting.port}` }))],
    }));
}

const BEGINNINGS = ['vessel', 'tank', 'engine', 'generator', 'heater', 'exchanger', 'selector', 'supply', 'return', 'vent', 'fill', 'transfer', 'line-up', 'tend', 'log', 'bleed'];

/** The rest of a course that was closed too early: the first of its parts has been told. */
function followsItsLike({ word, $container, $containerIndex = 0 }: Stray): boolean {
    const before = ($container as Text | undefined)?.entries[$containerIndex - 1];
    return before?.$type === 'Stray' && whereItStands(before.word) !== undefined && whereItStands(before.word) === whereItStands(word);
}

function strayProblem(context: Context, stray: Stray): void {
    if (stray.word === undefined) return; // a block of nothing, of which the lexer has told
    const head = stray.$cstNode && GrammarUtils.findNodeForProperty(stray.$cstNode, 'word');
    const other = synonym(stray.word);
    const where = whereItStands(stray.word) ?? (other === undefined ? undefined : whereItStands(other));
    if (where !== undefined) {
        const word = whereItStands(stray.word) === undefined ? `\`${other}\`, and that ` : '';
        return context.problem('stray-line', head, `\`${stray.word}\` begins no line here: ${word === '' ? 'it ' : `the word is ${word}`}stands ${where}, between its braces.`);
    }
    const meant = (stray.word === 'line' ? 'line-up' : synonym(stray.word)) ?? nearest(stray.word, BEGINNINGS);
    context.problem('stray-line', head, `\`${stray.word}\` begins no line here.` + (meant ? ` Did you mean \`${meant}\`?` : ` A line here begins with ${BEGINNINGS.slice(0, 4).join(', ')} and so on.`));
}

function laterProblem(context: Context, later: Later): void {
    if (later.kind === 'locker') return; // a list that people keep; nothing is concluded from it yet, and nothing claims to be
    context.problem('not-yet', later.$cstNode, `\`${later.kind}\` is kept as it stands; this version draws nothing from it.`, 'warning');
}
