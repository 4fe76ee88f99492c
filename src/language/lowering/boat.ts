/** The one step from texts to the boat. Reads the syntax trees, and every property of them as possibly absent. */
import { AstUtils, GrammarUtils, type AstNode, type CstNode, type LangiumDocument } from 'langium';
import type { Boat, Consumer, Id, Part, Tank, View } from '../../model/boat';
import { openingNames } from '../../analysis/opening/openings';
import type { Problem } from '../facts';
import type { Sources } from '../sources';
import { isPart, type Entry, type Pattern, type Ref, type Stray, type Text } from '../generated/ast';
import { itemsOf, linked, madeTags, tagOf } from '../likeness';
import { nearest, synonym, whereItStands } from '../vocabulary';
import { Context, type Declared } from './context';
import { Courses, kindOf } from './courses';
import { lowerBleed } from './bleeds';
import { fallingHours, lowerLineUp, lowerLogs, lowerTends } from './lines';
import { answersIn, effectsOf, inOrder, readOverlay } from './overlays';
import { PASSAGE_WORDS, lowerPassage } from './passages';
import { lowerProcedure } from './procedures';
import { NO_VESSEL, likeLine, lowerConsumer, lowerTank, lowerVessel } from './vessel';
import { lowerWaiver } from './waivers';

export interface Lowered {
    readonly boat: Boat;
    readonly sources: Sources;
    readonly problems: readonly Problem[];
    /** Kinds of blocks that are kept as they stand. */
    readonly later: readonly string[];
    /** Tags that likeness makes, in the order of the texts. */
    readonly made: readonly string[];
}

/**
 * Lowers the files of one folder, in the order of their names, so that the same texts always give the same boat; with the
 * surveys and refits that the view lays over it.
 */
export function lowerBoat(documents: readonly LangiumDocument[], view: View = 'as is'): Lowered {
    const lowered = lowerView(documents, view);
    // What this view leaves out is read too, for its slips: the refits, and what surveys left open.
    const { overlays } = lowered.boat;
    const others: View[] = overlays.filter(({ kind }) => kind === 'refit').map(({ id }) => ({ after: id }));
    if (overlays.some(({ changes }) => changes.some(({ disposition }) => disposition === 'open')) || view === 'drawn') others.push('found');
    for (const other of others) {
        for (const problem of lowerView(documents, other).problems) if (AstUtils.hasContainerOfType(problem.node.astNode, (node) => node.$type === 'Overlay')) lowered.problems.push(problem);
    }
    return { ...lowered, problems: once(lowered.problems) };
}

/** A slip in a pattern is one slip, however often the pattern is used. */
function once(problems: readonly Problem[]): Problem[] {
    const seen = new Map<CstNode, Set<string>>();
    return problems.filter(({ node, message }) => {
        const told = seen.get(node) ?? new Set();
        seen.set(node, told);
        return !told.has(message) && told.add(message);
    });
}

function lowerView(documents: readonly LangiumDocument[], view: View, earlier?: Context): Lowered & { problems: Problem[] } {
    const sorted = [...documents].sort((a, b) => (a.uri.toString() < b.uri.toString() ? -1 : 1));
    const entries = sorted
        .flatMap((document) => (document.parseResult.value as Text).entries ?? [])
        .filter(isWhole);
    const of = <T extends Entry['$type']>(type: T): Extract<Entry, { $type: T }>[] => entries.filter((entry): entry is Extract<Entry, { $type: T }> => entry.$type === type);

    // Overlays are read first, since they say how the rest is to be read.
    const early = new Context();
    const overlays = inOrder(of('Overlay').map((overlay) => readOverlay(early, overlay)));
    const effects = effectsOf(overlays, view);
    const { declared, made } = declarations(sorted, effects.inserted);
    const context = new Context(declared, new Set(sorted.map((document) => document.uri.toString())), effects, earlier);
    context.problems.push(...early.problems);
    for (const { node, lines, answers } of overlays) {
        context.claim(node.name, node.$cstNode);
        node.changes.forEach((change, i) => context.sources.add(`${node.name}/${i + 1}`, change.$cstNode!));
        for (const { id, evidence } of [...lines.map(({ change }) => change), ...answers]) if (evidence) context.evidence.set(id, evidence);
    }
    for (const pattern of of('Pattern')) lowerPattern(context, pattern);

    const vessels = of('Vessel');
    for (const other of vessels.slice(1)) context.problem('two-vessels', other.$cstNode, `A folder is one boat, and this one already has the vessel ${vessels[0]!.name}. Move ${other.name} to a folder of its own.`);
    const vessel = vessels[0] ? lowerVessel(context, vessels[0]) : NO_VESSEL;
    const tanks = of('Tank').map((tank) => lowerTank(context, tank));
    const consumers = of('Consumer').map((consumer) => lowerConsumer(context, consumer));
    const courses = new Courses(context, tanks);
    for (const selector of of('Selector')) courses.selector(selector);
    for (const course of of('Course')) courses.course(course);
    // Read once more when a height was measured from what came later: then all heights are there.
    if (context.forward && !earlier) return lowerView(documents, view, context);
    for (const line of effects.idle()) if (!line.inserted?.lost && !isUnknown(line.cst)) context.problem('overlay', line.cst, idleLine(line));
    for (const { change, unreached } of overlays.flatMap(({ lines }) => lines)) if (unreached && view !== 'drawn') context.evidence.set(change.about, change.evidence!);
    const parts = new Map<string, Part>(courses.parts.map((part) => [part.id, part]));
    const lineUps = of('LineUp').map((lineUp) => lowerLineUp(context, lineUp, parts));
    for (const lineUp of lineUps) {
        const seen = new Set<string>();
        for (let at = lineUps.find((other) => other.id === lineUp.id); at; at = lineUps.find((other) => other.id === at!.base)) {
            if (seen.has(at.id)) { context.problem('circle', of('LineUp').find((node) => node.name === lineUp.id)?.$cstNode, `${lineUp.id} is made from itself: ${[...seen, at.id].join(' from ')}. Break the circle.`); break; }
            seen.add(at.id);
        }
    }
    const intervals = lowerTends(context, of('Tend'));
    const log = lowerLogs(context, of('Log'));
    fallingHours(context, log);
    const bleeds = of('Bleed').map((bleed, i) => lowerBleed(context, bleed, i));
    const things = new Map<Id, Part | Consumer>([...parts, ...consumers.map((consumer) => [consumer.id, consumer] as const)]);
    const procedures = of('Procedure').map((procedure, i) => lowerProcedure(context, procedure, i, (id) => { const thing = things.get(id); return thing ? openingNames(thing) : []; }));
    const passages = of('Passage').map((passage) => lowerPassage(context, passage));
    const waivers = of('Waiver').flatMap((waiver, i) => lowerWaiver(context, waiver, i) ?? []);
    for (const stray of of('Stray')) if (!followsItsLike(stray)) strayProblem(context, stray);

    for (const ids of context.tags.values()) if (ids.length > 1) ids.sort();
    const named = new Map(courses.parts.map((part) => [part.id, part.name]));
    return {
        boat: {
            name: vessels[0]?.name ?? '', ...(vessels[0]?.title && { title: vessels[0].title.replace(/"/g, '') }),
            vessel, tanks: withImplied(tanks, courses), consumers, parts: courses.parts, courses: courses.courses, joints: courses.joints,
            lineUps, intervals, log, bleeds, procedures, overlays: overlays.map(({ model }) => model), view, answers: answersIn(overlays, view), waivers, passages,
            evidence: context.evidence, unknown: context.unknown.map(({ about, fact }) => unknownFact(context, about, named.get(about) ?? about, fact)), tags: context.tags,
        },
        sources: context.sources,
        problems: context.problems,
        later: [...new Set(of('Later').map(({ kind }) => kind as string))].sort(),
        made,
    };
}

/** A name that is not on the boat at all: the linker has told. */
const isUnknown = (cst: CstNode | undefined): boolean => (cst?.astNode as Partial<Ref> | undefined)?.to?.error !== undefined;

/** Why a line of a survey or refit changes nothing. */
function idleLine({ change, inserted }: ReturnType<ReturnType<typeof effectsOf>['idle']>[number]): string {
    if (inserted) return `${inserted.between[0]} and ${inserted.between[1]} are not joined to one another, in this order, in this state of the boat, so nothing can be put between them.`;
    switch (change.do) {
        case 'remove': return `${change.about} cannot be taken out by such a line: only what stands in a course can.`;
        case 'move': return `Nothing is moved: no place of ${change.about} is written here, or it belongs to something else. Move that.`;
        case 'end': return `${change.about} is not a course of this boat, so it has no end to change.`;
        case 'position': return `${change.about} is not a shutoff of this boat, so it is neither open nor shut.`;
        default: return `This line changes nothing: ${change.about} is not on the boat in this state.`;
    }
}

/** A fact that was written as unknown, named as the rules name it. */
function unknownFact(context: Context, about: Id, name: string, words: string): Boat['unknown'][number] {
    const doc = context.facts.get(about)?.get(words)?.word.doc ?? '';
    return { about, fact: `the ${words} of ${name}`, how: `it is written as not known or not reached. ${doc}`.trim() };
}

/** What stands in a pattern is read even where nothing is like it, so that its slips are told. */
function lowerPattern(context: Context, pattern: Pattern): void {
    context.claim(pattern.name, pattern.$cstNode);
    if (pattern.part) context.patterns.push(pattern.name);
    context.read('pattern', pattern);
    for (const item of pattern.part ? [pattern.part] : itemsOf(pattern.items)) {
        if (!isPart(item)) { context.read(item.$type.toLowerCase(), item); continue; }
        likeLine(context, item);
        context.read(kindOf(item), item);
        for (const vent of item.vents) context.read('bleed', vent);
    }
}

/** The nodes that declare each tag, with how many of it stand before, in the order of the files; then those that likeness makes. */
function declarations(documents: readonly LangiumDocument[], inserted: readonly AstNode[]): { declared: Declared; made: readonly string[] } {
    const declared = new Map<string, Map<AstNode, number>>();
    const add = (tag: string, node: AstNode): void => {
        const same = declared.get(tag) ?? new Map<AstNode, number>();
        if (!same.has(node)) declared.set(tag, same.set(node, same.size));
    };
    const nodes = documents.flatMap((document) => AstUtils.streamAllContents(document.parseResult.value).toArray());
    for (const node of nodes) {
        const tag = tagOf(node);
        // What a refit would put in is not on the boat in another view.
        if (tag !== undefined && (!isPart(node) || node.$container.$type !== 'Insertion' || inserted.includes(node))) add(tag, node);
    }
    const made: string[] = [];
    for (const node of nodes) for (const { tag } of madeTags(node, linked)) { add(tag, node); made.push(tag); }
    return { declared, made };
}

/** A declaration whose name is still to be typed is left out; the parser has already asked for it. */
const isWhole = (entry: Entry): boolean => !NAMED.has(entry.$type) || typeof (entry as { name?: string }).name === 'string';
const NAMED = new Set(['Vessel', 'Tank', 'Consumer', 'Selector', 'Course', 'LineUp', 'Pattern', 'Overlay', 'Passage']);

function withImplied(tanks: readonly Tank[], courses: Courses): Tank[] {
    return tanks.map((tank) => ({
        ...tank,
        fittings: [...tank.fittings, ...courses.implied.filter((fitting) => fitting.tank === tank.id).map((fitting) => ({ ...fitting, id: `${tank.id}.${fitting.port}` }))],
    }));
}

const BEGINNINGS = ['vessel', 'tank', 'engine', 'generator', 'heater', 'exchanger', 'selector', 'supply', 'return', 'vent', 'fill', 'transfer', 'pattern', 'line-up', 'tend', 'log', 'bleed', 'survey', 'refit', 'waive', 'procedure', 'locker', 'season', 'passage', 'now'];

/** The rest of a course that was closed too early: the first of its parts has been told. */
function followsItsLike({ word, $container, $containerIndex = 0 }: Stray): boolean {
    const before = ($container as Text | undefined)?.entries[$containerIndex - 1];
    return before?.$type === 'Stray' && whereItStands(before.word) !== undefined && whereItStands(before.word) === whereItStands(word);
}

function strayProblem(context: Context, stray: Stray): void {
    if (stray.word === undefined) return; // a block of nothing, of which the lexer has told
    const head = stray.$cstNode && GrammarUtils.findNodeForProperty(stray.$cstNode, 'word');
    if (PASSAGE_WORDS.has(stray.word)) return context.problem('stray-line', head, `\`${stray.word}\` stands on the line of its passage, like \`passage Islands leaves 2026-09-10 motors 90 h at 2400 rpm margin 25 %\`.`);
    const other = synonym(stray.word);
    const where = whereItStands(stray.word) ?? (other === undefined ? undefined : whereItStands(other));
    if (where !== undefined) {
        const word = whereItStands(stray.word) === undefined ? `\`${other}\`, and that ` : '';
        return context.problem('stray-line', head, `\`${stray.word}\` begins no line here: ${word === '' ? 'it ' : `the word is ${word}`}stands ${where}, between its braces.`);
    }
    const meant = (stray.word === 'line' ? 'line-up' : synonym(stray.word)) ?? nearest(stray.word, BEGINNINGS);
    context.problem('stray-line', head, `\`${stray.word}\` begins no line here.` + (meant ? ` Did you mean \`${meant}\`?` : ` A line here begins with ${BEGINNINGS.slice(0, 4).join(', ')} and so on.`));
}
