/** Knows the next sensible thing: what may begin a line here, what a part still lacks, which names fit. */
import { AstUtils, CstUtils, type AstNode, type LangiumDocument, type MaybePromise } from 'langium';
import type { CompletionProvider } from 'langium/lsp';
import { CompletionItemKind, InsertTextFormat, type CompletionItem, type CompletionList, type CompletionParams } from 'vscode-languageserver-protocol';
import type { Boat, Part, PartKind } from '../../model/boat';
import { freeTag } from '../../checks/check';
import { INSPECTED } from '../../checks/inspected';
import { RULES } from '../../checks/rules';
import { EXAMPLE, UNITS, type Dimension } from '../../model/units';
import type { Boats } from '../boats';
import { isPart, isPattern, type Overlay } from '../generated/ast';
import { lineage } from '../likeness';
import { JOB_VERBS } from '../lowering/jobs';
import { STATES } from '../lowering/lines';
import { EACH_KINDS, FACTS, MARKS, type FactWord } from '../vocabulary';
import { tableOf } from './hover';
import { procedureHead, stepLine } from './complete-step';
import { beginnings, keyword, names } from './snippets';

export class BoatCompletion implements CompletionProvider {
    constructor(private readonly boats: () => Boats) {}

    getCompletion(document: LangiumDocument, { position }: CompletionParams): MaybePromise<CompletionList | undefined> {
        const offset = document.textDocument.offsetAt(position);
        const text = document.textDocument.getText();
        const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset);
        if (/^[^"]*--/.test(line) || (line.match(/"/g)?.length ?? 0) % 2 === 1) return undefined;
        const { boat } = this.boats().atOnce(document);
        const container = containerAt(document, offset, line);
        const items = complete(boat, container, text.slice(0, offset), line, () => patternsIn(this.boats().files(document)));
        return { isIncomplete: false, items: items.map((item, i) => ({ ...item, sortText: String(i).padStart(4, '0') })) };
    }
}

/** The innermost block that is open at the offset, by what its head line says; text may be half-typed, so braces decide. */
function containerAt(document: LangiumDocument, offset: number, line: string): AstNode | undefined {
    const root = document.parseResult.value.$cstNode;
    const start = offset - line.length;
    for (let at = start; root && at >= 0; at--) {
        const leaf = CstUtils.findLeafNodeAtOffset(root, at);
        if (!leaf) continue;
        for (let node: AstNode | undefined = leaf.astNode; node; node = node.$container) {
            const cst = node.$cstNode;
            if (BLOCKS.has(node.$type) && cst && cst.offset < start && (cst.end >= offset || !cst.text.endsWith('}')) && cst.text.includes('{')) return node;
        }
        return undefined;
    }
    return undefined;
}

const BLOCKS = new Set(['Vessel', 'Tank', 'Consumer', 'Selector', 'Course', 'Part', 'Split', 'Changeover', 'Leg', 'LineUp', 'Tend', 'Log', 'Bleed', 'Procedure', 'Pattern', 'Overlay', 'Later']);

function complete(boat: Boat, container: AstNode | undefined, before: string, line: string, patterns: () => readonly string[]): CompletionItem[] {
    const words = line.trimStart().split(/\s+/);
    const atHead = words.length <= 1;
    const value = valueHere(line);
    switch (container?.$type) {
        case undefined: return atHead ? beginnings(boat) : topLevel(boat, line);
        case 'Course': case 'Leg': case 'Pattern': return atHead ? nextParts(boat, before) : value ?? (/\bin \w*$/.test(line) ? spaces(boat) : partLine(line));
        case 'LineUp': return atHead ? names(boat.parts.filter((part) => part.positions.length > 0 || part.kind === 'shutoff').map((part) => part.id)) : positions(boat, line);
        case 'Tend': return atHead ? verbs() : tendLine(boat, patterns, line);
        case 'Log': return names([...boat.consumers.map((consumer) => consumer.id), ...boat.parts.flatMap((part) => part.tag ?? [])]).concat(Object.values(JOB_VERBS).map((word) => keyword(word)));
        case 'Bleed': return names([...boat.parts.filter((part) => part.tag !== undefined).map((part) => part.id), ...vents(boat)]).concat([keyword('note', 'note "$1"')]);
        case 'Procedure': return stepLine(boat, line);
        case 'Overlay': return overlayLine(boat, (container as Overlay).kind, line, atHead);
        case 'Later': return names(everyName(boat)).concat(atHead ? [keyword('note', 'note "$1"')] : []);
        case 'Split': return [keyword('leg', 'leg ${1:main} { $0 }')];
        case 'Changeover': return [keyword('leg', 'leg ${1:A} { $0 }'), keyword('position', 'position ${1:A} through ${1:A}')];
        case 'Selector': return atHead ? [keyword('ports', 'ports ${1:port}, ${2:stbd}, out'), keyword('position', 'position ${1:PORT} joins ${2:port}, out'), keyword('turning', 'turning passes ${1:OFF}')] : value ?? facts('selector', line);
        default: return value ?? (/\bin \w*$/.test(line) ? spaces(boat) : blockLine(container!, line));
    }
}

const spaces = (boat: Boat): CompletionItem[] => names(boat.vessel.spaces.map((space) => space.id));
const vents = (boat: Boat): string[] => [...boat.parts, ...boat.consumers].flatMap((owner) => owner.vents.map((vent) => vent.id));
const verbs = (): CompletionItem[] => Object.keys(JOB_VERBS).map((verb) => keyword(verb));

const everyName = (boat: Boat): string[] => [...boat.tags.keys()];

/** The heads of blocks whose meaning is still to come: their names are there already. */
function heading(boat: Boat, line: string): CompletionItem[] {
    if (!/^\s*waive\s/.test(line)) return [...names(everyName(boat)), ...verbs()];
    if (/^\s*waive \S*$/.test(line)) return [...RULES, ...INSPECTED].map(({ code, statement }) => ({ label: code, kind: CompletionItemKind.Constant, detail: statement }));
    if (/\bat \S*$/.test(line)) return names(everyName(boat));
    return [keyword('at'), keyword('until', 'until ${1:2027-12-31}'), keyword('by', 'by "${1:owner}"'), keyword('because', 'because "$1"')];
}

/** What a survey finds, what a refit changes. */
function overlayLine(boat: Boat, kind: Overlay['kind'], line: string, atHead: boolean): CompletionItem[] {
    if (atHead) {
        return kind === 'refit'
            ? [keyword('insert', 'insert ${1:shutoff} ${2:V9} between ${3:S1} and ${4:F1}'), keyword('set', 'set ${1:S1} ${2:bore 10 mm}'), keyword('move', 'move ${1:F1} up ${2:100 mm}'), keyword('remove')]
            : [keyword('found', 'found ${1:S1} ${2:bore 6 mm}, drawn ${3:8 mm}   ${4|measured,touched,seen,inferred,told|}'), keyword('missing'), keyword('answer', 'answer ${1:CHAFE} at ${2:S1} ${3|pass,fail,cannot tell|} "$4"')];
    }
    if (/^\s*answer \S*$/.test(line)) return INSPECTED.map(({ code, statement }) => ({ label: code, kind: CompletionItemKind.Constant, detail: statement }));
    return [...names(everyName(boat)), ...Object.keys(MARKS).map((mark) => keyword(mark)), ...['accept found', 'drawing error', 'defect A', 'defect B', 'defect C', 'open'].map((words) => keyword(words))];
}

function topLevel(boat: Boat, line: string): CompletionItem[] {
    if (/\bfrom \S*$/.test(line) && /course/.test(line)) return names([...ports(boat, 'from'), 'deck', 'sea']);
    if (/\bto \S*$/.test(line) && /course/.test(line)) return names([...ports(boat, 'to'), 'air']);
    if (/^\s*line-up\s/.test(line)) return /\bfrom \S*$/.test(line) ? names(boat.lineUps.map((lineUp) => lineUp.id)) : ['run', 'service', 'laid up', 'transfer', 'polish', 'emergency', 'is normal', 'from'].map((word) => keyword(word));
    if (/^\s*procedure\s/.test(line)) return procedureHead(boat, line);
    if (/^\s*(?:waive|passage|season|locker)\s/.test(line)) return heading(boat, line);
    if (/\blike \S*$/.test(line)) return names([...boat.consumers, ...boat.tanks].map(({ id }) => id));
    if (/^\s*bleed\s/.test(line)) return /^\s*bleed \S*$/.test(line) ? names(boat.consumers.map((consumer) => consumer.id)) : [...['after opening', 'after running dry', 'starts', 'ends', 'kept'].map((word) => keyword(word)), ...names([...boat.parts.flatMap((part) => part.tag ?? []), ...boat.lineUps.map((lineUp) => lineUp.id)])];
    if (/\bin \w*$/.test(line)) return spaces(boat);
    if (/\bcarries \w*$/.test(line)) return ['diesel', 'coolant', 'heating water', 'raw water'].map((word) => keyword(word));
    return /^\s*tank\s/.test(line) ? facts('tank', line) : [];
}

/** Points at which a course can begin or end, free ones first. */
function ports(boat: Boat, side: 'from' | 'to'): string[] {
    const used = new Set(boat.joints.flatMap((joint) => [joint.from, joint.to]));
    const fittings = boat.tanks.flatMap((tank) => tank.fittings.filter((fitting) => (side === 'from' ? ['pickup', 'vent'] : ['drop', 'fill']).includes(fitting.kind)).map((fitting) => fitting.id));
    const selectors = boat.parts.filter((part) => part.kind === 'selector').flatMap((part) => part.ports.map((port) => ({ name: `${part.id}.${port}`, point: `${part.id}:${port}` })));
    const all = [
        ...fittings.map((name) => ({ name, point: name })), ...boat.consumers.map(({ id }) => ({ name: id, point: `${id}:${side === 'to' ? 'in' : 'out'}` })),
        ...selectors, ...boat.parts.filter((part) => part.kind === 'tee' && part.tag !== undefined).map(({ id }) => ({ name: id, point: id })),
    ];
    return [...all.filter(({ point }) => !used.has(point)), ...all.filter(({ point }) => used.has(point))].map(({ name }) => name);
}

// ---- inside a course

interface NextPart {
    readonly label: string;
    readonly letter: string;
    readonly kind: PartKind;
    readonly rest?: string;
}

const PARTS: readonly NextPart[] = [
    { label: 'shutoff', letter: 'V', kind: 'shutoff', rest: '   normally open' }, { label: 'hose', letter: 'S', kind: 'hose', rest: '   bore ${2:8 mm}   length ${3:1 m}' },
    { label: 'tube', letter: 'S', kind: 'tube', rest: '   bore ${2:8 mm}   length ${3:1 m}' }, { label: 'filter', letter: 'F', kind: 'filter', rest: ' ${2|primary,final|} {\n  passes ${3:10 um}   holds ${4:450 mL}\n  $0\n}' },
    { label: 'primer', letter: 'PR', kind: 'hand primer', rest: '   stroke ${2:15 mL}' }, { label: 'lift pump', letter: 'LP', kind: 'lift pump', rest: '   lever ${2:3 mL}' },
    { label: 'gauge', letter: 'G', kind: 'gauge', rest: ' vacuum' }, { label: 'check', letter: 'CV', kind: 'check', rest: '   cracks ${2:0.5 kPa}' }, { label: 'tee', letter: 'J', kind: 'tee' },
    { label: 'electric pump', letter: 'EP', kind: 'electric pump', rest: ' ${2:60 L/h}' }, { label: 'electric primer', letter: 'EP', kind: 'electric primer', rest: ' ${2:30 L/h}   momentary' },
    { label: 'strainer', letter: 'ST', kind: 'strainer' }, { label: 'radiator', letter: 'RA', kind: 'radiator' },
];

/** What usually follows what, from the tank downstream: common practice. */
const AFTER: Readonly<Record<string, readonly string[]>> = {
    '': ['shutoff', 'hose'], shutoff: ['hose', 'tube', 'filter'], hose: ['filter', 'primer', 'lift pump', 'gauge', 'shutoff', 'tee'], tube: ['filter', 'lift pump', 'shutoff', 'tee'],
    primer: ['hose', 'filter'], filter: ['gauge', 'hose', 'tube'], gauge: ['hose', 'tube'], pump: ['tube', 'hose', 'filter'], check: ['hose', 'tube'], tee: ['hose', 'shutoff'],
};

function nextParts(boat: Boat, before: string): CompletionItem[] {
    const last = /(?:^|[\s{])(shutoff|hose|tube|primer|filter|gauge|pump|check|tee)\b[^\n]*\n?[^\n]*$/.exec(lastPart(before));
    const likely = AFTER[last?.[1] ?? ''] ?? [];
    const rank = (part: NextPart): number => { const at = likely.indexOf(part.label); return at < 0 ? likely.length : at; };
    const sorted = [...PARTS].sort((a, b) => rank(a) - rank(b));
    return [
        ...sorted.map(({ label, letter, rest = '' }) => keyword(label, `${label} \${1:${freeTag(boat, letter)}}${rest}`)),
        keyword('split', 'split {\n  leg main { $1 }\n  leg bypass { $2 }\n}'), keyword('changeover', 'changeover ${1:CH1} {\n  leg A { $2 }\n  leg B { $3 }\n  position A through A\n  position B through B\n}'),
    ];
}

/** The text from the head of the open course on, closed blocks cut out. */
function lastPart(before: string): string {
    const course = before.slice(Math.max(before.lastIndexOf(' course '), before.lastIndexOf('leg ')));
    return course.replace(/\{[^{}]*\}/g, '').replace(/[^\n]*$/, '').replace(/^[^{]*\{/, ' ').trimEnd().split('\n').at(-1) ?? '';
}

function partLine(line: string): CompletionItem[] {
    const kind = ['lift pump', 'electric pump', 'electric primer', 'hose', 'tube', 'shutoff', 'check', 'tee', 'filter', 'strainer', 'gauge', 'radiator', 'primer'].find((word) => new RegExp(`^\\s*${word}\\b`).test(line));
    return facts(kind === 'primer' ? 'hand primer' : kind ?? '', line);
}

function blockLine(container: AstNode, line: string): CompletionItem[] {
    const table = tableOf(container);
    const head: CompletionItem[] = table === 'tank' ? [...['pickup', 'drop', 'vent', 'fill'].map((word) => keyword(word)), keyword('section', 'section at ${1:2200 mm} fwd   corners ${2:200 mm up 550 mm stbd, 200 mm up 1100 mm stbd, 620 mm up 1150 mm stbd, 620 mm up 550 mm stbd}')] : table === 'vessel' ? [keyword('space', 'space ${1:EngineBay} machinery')] : FACTS[table] ? [keyword('bleed', 'bleed ${1:BS1}')] : [];
    return [...(line.trim().includes(' ') ? [] : head), ...facts(table, line)];
}

/** Facts of a kind that this line does not say yet, then marks of evidence. */
function facts(table: string, line: string): CompletionItem[] {
    const own = (FACTS[table] ?? []).filter((fact) => fact.form.is === 'heading' || !line.includes(` ${fact.words} `));
    return [...own.map(factItem), ...Object.entries(MARKS).map(([word, doc]): CompletionItem => ({ label: word, kind: CompletionItemKind.EnumMember, detail: doc }))];
}

function factItem({ words, form, doc, example }: FactWord): CompletionItem {
    const value = example ?? (form.is === 'quantity' ? EXAMPLE[form.of] : undefined);
    return { label: words, kind: CompletionItemKind.Property, detail: doc, ...(value !== undefined && { insertText: `${words} \${1:${value}}`, insertTextFormat: InsertTextFormat.Snippet }) };
}

/** Units after a number, words after a fact that takes one of a few. */
function valueHere(line: string): CompletionItem[] | undefined {
    const number = /([a-z][a-z-]*) (?:at )?-?\d+(?:\.\d+)? ?[A-Za-z%/]*$/.exec(line);
    if (number) {
        const dimensions = new Set(Object.values(FACTS).flat().filter((fact) => fact.words.split(' ').at(-1) === number[1] && fact.form.is === 'quantity').map((fact) => (fact.form as { of: Dimension }).of));
        if (/\bat -?\d/.test(line.slice(number.index))) dimensions.add('length');
        return Object.entries(UNITS).filter(([, unit]) => dimensions.size === 0 || dimensions.has(unit.dimension)).map(([label]) => ({ label, kind: CompletionItemKind.Unit }));
    }
    for (const fact of Object.values(FACTS).flat()) {
        if (fact.form.is === 'choice' && new RegExp(`\\b${fact.words} [a-z-]*$`).test(line)) return fact.form.of.map((word) => keyword(word));
    }
    return undefined;
}

// ---- line-ups and intervals

function positions(boat: Boat, line: string): CompletionItem[] {
    const name = line.trim().split(/\s+/).filter((word) => boat.tags.has(word)).at(-1);
    const part: Part | undefined = boat.parts.find((other) => other.id === name);
    if (boat.consumers.some((consumer) => consumer.id === name)) return STATES.map((word) => keyword(word));
    return (part?.kind === 'shutoff' ? ['open', 'shut'] : part?.positions.map((position) => position.name) ?? []).map((word) => keyword(word));
}

/** Behind its verb the parts, then their piece, how often and the rest. */
function tendLine(boat: Boat, patterns: () => readonly string[], line: string): CompletionItem[] {
    const second = /\beach (lift|electric) [a-z]*$/.exec(line)?.[1];
    if (second !== undefined) return kindsOn(boat).filter((kind) => kind.startsWith(`${second} `)).map((kind) => keyword(kind.slice(second.length + 1)));
    if (/\beach [^\s,]*$/.test(line)) return [...kindsOn(boat).map((kind) => keyword(kind)), ...patterns().map((label) => ({ label, kind: CompletionItemKind.Class }))];
    const isPart = /^\s*\S+ \S*$/.test(line) || (/(?:,| and) *[^\s,]*$/.test(line) && !/ (?:every|with) /.test(line));
    if (isPart) return [...names([...boat.parts.flatMap((part) => part.tag ?? []), ...boat.tanks.map((tank) => tank.id), ...boat.consumers.map((consumer) => consumer.id)]), keyword('each')];
    return ['every 250 h or 12 months', 'every 12 months', 'every start', 'element', 'bowl', 'with', 'common practice', 'source ""'].map((word) => keyword(word));
}

/** What may stand behind `each` and is on the boat. */
function kindsOn(boat: Boat): string[] {
    const kinds = new Set<string>([...boat.tanks.map(() => 'tank'), ...boat.consumers.map(({ kind }) => kind), ...boat.parts.flatMap(({ kind, tag }) => (tag === undefined ? [] : [kind]))]);
    return Object.entries(EACH_KINDS).flatMap(([words, kind]) => (kinds.has(kind) ? [words] : []));
}

/** The patterns that a part of the boat is like, wherever they are written. */
function patternsIn(files: readonly LangiumDocument[]): string[] {
    const parts = files.flatMap(({ parseResult }) => AstUtils.streamAst(parseResult.value).filter(isPart).toArray());
    return [...new Set(parts.flatMap((part) => lineage(part).slice(1)).flatMap(({ $container: at }) => (isPattern(at) ? [at.name] : [])))];
}
