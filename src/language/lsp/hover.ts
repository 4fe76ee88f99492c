/** What the boat knows of the thing under the cursor: its place, its figures, its verdicts. */
import { CstUtils, type AstNode, type LangiumDocument, type MaybePromise } from 'langium';
import type { HoverProvider } from 'langium/lsp';
import type { Hover, HoverParams } from 'vscode-languageserver-protocol';
import type { Boat, Consumer, Id, Part, Tank } from '../../model/boat';
import { UNITS, fromSI, toSI, type Dimension } from '../../model/units';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { grossOf, span } from '../../analysis/tanks/liquid';
import { crankBudget } from '../../analysis/time/exhaust';
import { volumeOf } from '../../analysis/volumes';
import { figure, hours, mL, mm } from '../../documents/figures';
import { flowWords } from '../../documents/flow/brief';
import { briefsOf, cutOffWords, severedWords } from '../../documents/heights/brief';
import { stateAfter } from '../../documents/procedures/check';
import type { Boats, KnownBoat } from '../boats';
import { splitQuantity } from '../quantity';
import { kindOf } from '../lowering/courses';
import { FACTS, MARKS } from '../vocabulary';
import { listed } from '../../model/words';
import { isAfterEach, ofEach } from '../each';
import { isLine, isProcedure, isRef, isWord } from '../generated/ast';

export class BoatHover implements HoverProvider {
    constructor(private readonly boats: () => Boats) {}

    getHoverContent(document: LangiumDocument, { position }: HoverParams): MaybePromise<Hover | undefined> {
        const root = document.parseResult.value.$cstNode;
        const leaf = root && CstUtils.findDeclarationNodeAtOffset(root, document.textDocument.offsetAt(position));
        if (!leaf || leaf.text.trim() === '') return undefined;
        const known = this.boats().atOnce(document);
        const text = aboutEach(known, leaf.astNode) ?? aboutStep(known, leaf.astNode) ?? aboutName(known, leaf.text, leaf.astNode) ?? aboutQuantity(leaf.astNode) ?? aboutWord(leaf.text, leaf.astNode);
        return text === undefined ? undefined : { contents: { kind: 'markdown', value: text }, range: leaf.range };
    }
}

function aboutName(known: KnownBoat, name: string, node: AstNode): string | undefined {
    const { boat } = known;
    const own = (node as { name?: string }).name === name ? ownId(known, node) : undefined;
    const port = node.$type === 'Fitting' ? undefined : boat.tags.get(name)?.[0];
    const id = own ?? port;
    if (id === undefined) return undefined;
    const lines = describe(boat, id);
    if (lines.length === 0) return undefined;
    const heights = briefsOf(boat, id);
    if (heights.length > 0) lines.push(heights.map(({ fact, words }) => `${fact}: ${words}`).join('\n\n'));
    const part = boat.parts.find((other) => other.id === id);
    const more = part?.kind === 'hose' || part?.kind === 'tube' ? severedWords(boat, id) : part?.kind === 'filter' || part?.kind === 'strainer' || (part?.vents.length ?? 0) > 0 ? cutOffWords(boat, id) : undefined;
    const flow = flowWords(boat, id);
    return [...lines, ...(flow === undefined ? [] : [flow]), ...(more === undefined ? [] : [more])].join('\n\n');
}

/** Over `each`, and the kind or pattern behind it: which parts its line is for. */
function aboutEach({ boat, sources }: KnownBoat, node: AstNode): string | undefined {
    const line = node.$container;
    if (!line || !(isWord(node) ? ofEach(node) : isRef(node) && isAfterEach(node))) return undefined;
    const own = boat.intervals.filter(({ id }) => sources.find(id)?.node === line).flatMap(({ job }) => job.part ?? []);
    return own.length === 0 ? 'This line is for nothing on the boat.' : `This line is for ${listed(own)}: a job for each of them.`;
}

/** Over the verb of a step of a procedure: what stands open, is out and runs once it is done. */
function aboutStep({ boat, sources }: KnownBoat, node: AstNode): string | undefined {
    const line = node.$container;
    if (!isWord(node) || !isLine(line) || line.tokens[0] !== node || !isProcedure(line.$container)) return undefined;
    const block = boat.procedures.find(({ lines }) => lines.some(({ id }) => sources.find(id)?.node === line));
    const own = block?.lines.find(({ id }) => sources.find(id)?.node === line);
    return block && own && own.steps.length > 0 ? stateAfter(boat, block, own) : undefined;
}

const ownId = ({ sources }: KnownBoat, node: AstNode): Id | undefined => sources.ids.find((id) => sources.find(id)!.node === node);

function describe(boat: Boat, id: Id): string[] {
    const part = boat.parts.find((other) => other.id === id);
    if (part) return describePart(boat, part);
    const consumer = boat.consumers.find((other) => other.id === id);
    if (consumer) return describeConsumer(consumer);
    const tank = boat.tanks.find((other) => other.id === id);
    if (tank) return describeTank(tank);
    const vent = [...boat.parts, ...boat.consumers].flatMap((owner) => owner.vents).find((other) => other.id === id);
    if (vent) return [`**${vent.tag}** bleed point on ${vent.part}${vent.title === undefined ? '' : `, ${vent.title}`}`, ...figures([['height', vent.at?.up && mm(vent.at.up.si)], ['spanner', vent.spanner && mm(vent.spanner.si)]])];
    const course = boat.courses.find((other) => other.id === id);
    if (course) return [`**${id}** ${course.service} course, ${course.parts.length} parts`, ...figures([['from', course.from.part ?? course.from.outside], ['to', course.to.part ?? course.to.outside], ['holds', volumeOfAll(boat, course.parts)]])];
    const lineUp = boat.lineUps.find((other) => other.id === id);
    return lineUp ? [`**${id}** line-up${lineUp.use === undefined ? '' : ` for ${lineUp.use}`}${lineUp.normal ? ', the normal one' : ''}${lineUp.base === undefined ? '' : `, from ${lineUp.base}`}`] : [];
}

function volumeOfAll(boat: Boat, parts: readonly Id[]): string | undefined {
    const volumes = parts.filter((id) => ['hose', 'tube', 'filter', 'strainer', 'hand primer', 'electric primer', 'lift pump', 'electric pump', 'radiator'].includes(boat.parts.find((part) => part.id === id)?.kind ?? '')).map((id) => volumeOf(boat, id));
    return volumes.includes(undefined) || volumes.length === 0 ? undefined : mL(volumes.reduce<number>((sum, volume) => sum + volume!, 0));
}

function describePart(boat: Boat, part: Part): string[] {
    const course = boat.courses.find((other) => other.parts.includes(part.id));
    const at = course ? course.parts.indexOf(part.id) : -1;
    const beside = (offset: number): string | undefined => boat.parts.find((other) => other.id === course?.parts[at + offset])?.name;
    const volume = volumeOf(boat, part.id);
    return [
        `**${part.tag ?? part.name}** ${part.role === undefined ? '' : `${part.role} `}${part.kind}${part.title === undefined ? '' : `, ${part.title}`}${course ? ` in ${course.id}` : ''}`,
        ...figures([
            ['after', beside(-1)], ['before', beside(1)], ['holds', volume === undefined ? undefined : mL(volume)], ['height', part.at?.up && mm(part.at.up.si)],
            ['lid', part.lid?.up && mm(part.lid.up.si)], ['drain', part.drain?.up && mm(part.drain.up.si)], ['crest', part.crest?.up && mm(part.crest.up.si)],
            ['passes', part.passes && `${figure(fromSI(part.passes.si, 'um'))} um`], ['one stroke', part.stroke && mL(part.stroke.si)],
            ['normally', part.normally],
        ]),
    ];
}

function describeConsumer(consumer: Consumer): string[] {
    const budget = crankBudget(consumer);
    return [
        `**${consumer.id}** ${consumer.kind}${consumer.title === undefined ? '' : `, ${consumer.title}`}`,
        ...figures([
            ['injection', consumer.injection && `${consumer.injection.pump} ${consumer.injection.control ?? ''}`.trim()],
            ['bleed points in order', consumer.vents.length > 0 ? consumer.vents.map((vent) => vent.tag).join(', ') : undefined],
            ['exhaust', consumer.exhaust?.kind], ['cranking in all, half the time to fill the muffler', budget === undefined ? undefined : `${Math.floor(budget)} s`],
        ]),
    ];
}

function describeTank(tank: Tank): string[] {
    const { box } = tank;
    const [gross, inside] = [grossOf(tank), span(tank, UPRIGHT)];
    return [
        `**${tank.id}** tank${tank.title === undefined ? '' : `, ${tank.title}`}, carries ${tank.carries ?? 'diesel (not stated)'}`,
        ...figures([
            ['gross', gross === undefined ? undefined : `${figure(gross * 1e3, 4)} L`], ['a millimetre of level', box && mL(box.length * box.breadth * 1e-3)],
            ['bottom', inside && mm(inside.low)], ['top', inside && mm(inside.high)],
        ]),
    ];
}

/** One line of figures, those that are known. */
function figures(pairs: readonly (readonly [string, string | undefined])[]): string[] {
    const known = pairs.filter((pair): pair is readonly [string, string] => pair[1] !== undefined);
    return known.length === 0 ? [] : [known.map(([name, value]) => `${name} ${value}`).join('; ')];
}

/** The other units in which a reader may hold the tool or the gauge. */
const ALSO: Partial<Record<Dimension, readonly string[]>> = {
    length: ['mm', 'in'], volume: ['L', 'USgal'], flow: ['L/h', 'USgal/h'], pressure: ['kPa', 'inHg', 'psi'], temperature: ['degC', 'degF'], power: ['kW', 'hp'],
};

function aboutQuantity(node: AstNode): string | undefined {
    if (node.$type !== 'Measure') return undefined;
    const { numbers, unit } = splitQuantity((node as AstNode & { text: string }).text);
    const found = unit === undefined ? undefined : UNITS[unit];
    if (!found || numbers.length !== 1) return undefined;
    const si = toSI(numbers[0]!, unit!);
    const others = (ALSO[found.dimension] ?? []).filter((other) => other !== unit);
    if (found.dimension === 'time' && unit === 'h') return hours(si);
    return others.length === 0 ? undefined : others.map((other) => `${figure(fromSI(si, other), 4)} ${other}`).join('; ');
}

function aboutWord(word: string, node: AstNode): string | undefined {
    if (node.$type === 'Later' || node.$container?.$type === 'Later') return `\`${word}\` is kept as it stands; this version draws nothing from it.`;
    if (word in MARKS) return MARKS[word];
    for (let at: AstNode | undefined = node; at; at = at.$container) {
        const facts = FACTS[tableOf(at)];
        const fact = facts?.find((entry) => entry.words === word) ?? facts?.find((entry) => entry.words.split(' ').includes(word));
        if (fact) return `\`${fact.words}\`: ${fact.doc}${fact.example === undefined ? '' : ` Example: \`${fact.words} ${fact.example}\``}`;
    }
    return undefined;
}

/** The table of facts that belongs to a node, by the name that vocabulary.ts gives it. */
export function tableOf(node: AstNode): string {
    switch (node.$type) {
        case 'Part': return kindOf(node as Parameters<typeof kindOf>[0]);
        case 'Consumer': return 'consumer';
        case 'Fitting': return 'fitting';
        case 'BleedPoint': return 'bleed';
        case 'Bleed': return ''; // a sequence, not a bleed screw
        default: return node.$type.toLowerCase();
    }
}
