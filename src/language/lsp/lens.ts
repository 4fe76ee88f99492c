/** One line of figures over each course and each consumer: what is computed from the text, and nothing to press. */
import type { LangiumDocument } from 'langium';
import type { CodeLensProvider } from 'langium/lsp';
import type { CodeLens } from 'vscode-languageserver-protocol';
import { partsAfter, partsBefore, tanksAfter, tanksBefore } from '../../analysis/topology/paths';
import { volumeOf } from '../../analysis/volumes';
import { viewOf } from '../../checks/check';
import { figure, mL } from '../../documents/figures';
import type { Boat, Consumer, Course, Id, Part, PartKind } from '../../model/boat';
import type { Boats, KnownBoat } from '../boats';

export class BoatLens implements CodeLensProvider {
    constructor(private readonly boats: () => Boats) {}

    /** Places only; the words are worked out when the line comes into sight. */
    provideCodeLens(document: LangiumDocument): CodeLens[] {
        const { boat, sources } = this.boats().atOnce(document);
        const uri = document.uri.toString();
        return [...boat.courses, ...boat.consumers].flatMap(({ id }) => {
            const source = sources.find(id);
            return source?.uri === uri ? [{ range: source.mark, data: { uri, id } }] : [];
        });
    }

    resolve(document: LangiumDocument, lens: CodeLens): CodeLens {
        const known = this.boats().atOnce(document);
        const { id } = lens.data as { id: Id };
        const course = known.boat.courses.find((other) => other.id === id);
        const consumer = known.boat.consumers.find((other) => other.id === id);
        const title = course ? aboutCourse(known.boat, course) : consumer ? aboutConsumer(known, consumer) : '';
        return { ...lens, command: { title, command: '' } };
    }
}

const PIPES: ReadonlySet<PartKind> = new Set(['hose', 'tube']);
const HOLDING: ReadonlySet<PartKind> = new Set([...PIPES, 'filter', 'strainer', 'radiator', 'hand primer', 'electric primer', 'lift pump', 'electric pump']);

/** 5.2 m of pipe, holds 1.3 L, 9 joints. What is not stated for every part is a lower bound. */
function aboutCourse(boat: Boat, { id, parts }: Course): string {
    const own = parts.flatMap((part) => boat.parts.find((other) => other.id === part) ?? []);
    const length = total(own.filter(({ kind }) => PIPES.has(kind)), (part) => part.length?.si);
    const volume = total(own.filter(({ kind }) => HOLDING.has(kind)), (part) => volumeOf(boat, part.id));
    const open = [`${id}:air`, `${id}:deck`, `${id}:sea`];
    const joints = boat.joints.filter((joint) => joint.course === id && !open.includes(joint.from) && !open.includes(joint.to)).length;
    return [
        ...(length ? [`${length.atLeast ? 'at least ' : ''}${figure(length.sum)} m of pipe`] : []),
        ...(volume ? [`holds ${volume.atLeast ? 'at least ' : ''}${mL(volume.sum)}`] : []),
        count(joints, 'joint'),
    ].join(', ');
}

/** The sum of what is known; nothing when nothing is. */
function total(parts: readonly Part[], of: (part: Part) => number | undefined): { readonly sum: number; readonly atLeast: boolean } | undefined {
    const values = parts.map(of);
    const known = values.filter((value) => value !== undefined);
    return known.length === 0 ? undefined : { sum: known.reduce((sum, value) => sum + value, 0), atLeast: known.length < values.length };
}

/** 2 findings and 3 facts to measure on its lines. */
function aboutConsumer({ boat, report }: KnownBoat, { id, vents }: Consumer): string {
    const { allOpen } = viewOf(boat);
    const [into, out] = [`${id}:in`, `${id}:out`];
    const parts = new Set([...partsBefore(allOpen, into), ...partsAfter(allOpen, out)]);
    const tanks = new Set([...tanksBefore(allOpen, into), ...tanksAfter(allOpen, out)]);
    const concerned = new Set<Id>([
        id, ...vents.map((vent) => vent.id), ...parts, ...tanks, ...boat.tanks.filter((tank) => tanks.has(tank.id)).flatMap((tank) => tank.fittings.map((fitting) => fitting.id)),
        ...boat.parts.filter((part) => parts.has(part.id)).flatMap((part) => [...part.vents.map((vent) => vent.id), ...(part.course === undefined ? [] : [part.course])]),
        ...boat.bleeds.filter((block) => block.engine === id).flatMap((block) => [block.id, ...block.lines.map((line) => line.id)]),
    ]);
    const findings = report.findings.filter((finding) => concerned.has(finding.about)).length;
    const facts = report.facts.filter((fact) => concerned.has(fact.about)).length;
    return `${count(findings, 'finding')} and ${count(facts, 'fact')} to measure on its lines`;
}

const count = (number: number, thing: string): string => `${number === 0 ? 'no' : number} ${thing}${number === 1 ? '' : 's'}`;
