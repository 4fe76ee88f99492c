/**
 * Drawings for a view beside the text. A view asks again whenever it is told that its boat may have changed, and says which version it has.
 * While the texts cannot be read, what is drawn is the boat as it was read last.
 */
import { DocumentState, OperationCancelled, delayNextTick, type Cancellation, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import type { Position, Range } from 'vscode-languageserver-types';
import { lineUpsOf, normalLineUp } from '../../analysis/topology/line-ups';
import { drawElevation } from '../../documents/drawing/elevation/elevation';
import type { Markup } from '../../documents/drawing/markup';
import { markupFor, stepsOf, type Shown } from '../../documents/drawing/markups/markup';
import { blockOf, PLACES_FILE, elsewhereTold, movedIn, readPlaces, rowsOf, type Places } from '../../documents/drawing/places';
import type { Layouter } from '../../documents/drawing/plan';
import type { Schematic } from '../../documents/drawing/schematic/place';
import type { Picture, Sheet } from '../../documents/drawing/sheet';
import { sha256 } from '../../documents/procedures/sha256';
import { laidOut, pictureOf } from '../../layout/schematic';
import type { Boat, Id } from '../../model/boat';
import { listed } from '../../model/words';
import { NotUnderstood } from '../ask/question';
import { readShow, showsFor } from '../ask/show';
import type { Boats } from '../boats';
import { boatOf, filesIn } from '../folders';
import { lowerBoat } from '../lowering/boat';
import type { TextProblem } from '../problems';
import { idsAt } from './position';

/** After this without a newer question, ms: keys in the middle of a word come faster. */
const REST = 120;

export interface PictureQuestion {
    readonly kind: 'schematic' | 'elevation';
    readonly lineUp?: string;
    /** Percent. */
    readonly level?: number;
    /** Degrees, positive with the starboard side down. */
    readonly heel?: number;
    readonly show?: string;
    readonly step?: number;
    readonly places?: string;
    readonly known?: string;
}

export interface Place {
    readonly id: Id;
    readonly uri: string;
    readonly range: Range;
}

/** A boat as it is written and as it was read last, and the first slip that keeps it from being read. */
interface Reading {
    readonly folder: string;
    readonly written: Boat;
    readonly good: Good | undefined;
    readonly slip?: TextProblem;
}

/** A boat that could be read, and what was worked out of it to be shown. */
type Good = Pick<Shown, 'boat' | 'findings' | 'before'>;

interface Placed {
    /** Things that stand in a line that somebody put where it is. */
    readonly placed: readonly Id[];
    /** What of the file of places was of no use, in sentences. */
    readonly problems: readonly string[];
}

/** The last drawing of a boat, so that one like it is known without a digest. */
interface Drawn {
    readonly text: string;
    readonly version: string;
}

export class Pictures {
    /** Boats as they were read last, by folder. */
    private readonly good = new Map<string, Good>();
    private readonly choices = new WeakMap<Boat, ReturnType<typeof choicesOf>>();
    private readonly drawn = new Map<string, Drawn>();
    /** The boat that was drawn last; drawn again, most is known. */
    private last: Boat | undefined;
    /** Folders of boats of which a picture was asked for. */
    private readonly watched = new Set<string>();

    constructor(private readonly shared: LangiumSharedCoreServices, private readonly boats: Boats, private readonly layouter: Layouter) {
        // What was good before a view was opened is kept too: it may be opened on a text that cannot be read.
        shared.workspace.DocumentBuilder.onDocumentPhase(DocumentState.Validated, (document) => { this.remember(document); });
    }

    /** Tells the folders of boats that may look different now; none of which nobody asked for a picture. */
    onChanged(tell: (folder: string) => void): void {
        const { DocumentBuilder } = this.shared.workspace;
        const told = (folders: Iterable<string>): void => { for (const folder of new Set(folders)) if (this.watched.has(folder)) tell(folder); };
        DocumentBuilder.onBuildPhase(DocumentState.Validated, (documents) => told(documents.map(({ uri }) => boatOf(uri))));
        DocumentBuilder.onUpdate((_, deleted) => { told(deleted.map(boatOf)); for (const folder of new Set(deleted.map(boatOf))) this.forget(folder); });
        this.boats.onSettled((folder) => told([folder]));
    }

    /** Of a boat without files nothing is kept. */
    private forget(folder: string): void {
        if (filesIn(this.shared, folder).length > 0) return;
        for (const kept of [this.good, this.drawn, this.watched]) kept.delete(folder);
    }

    /** What there is to draw of a document's boat; nothing is drawn yet, so that no key waits for it. */
    reading(document: LangiumDocument, show?: string): Reading {
        const folder = boatOf(document.uri);
        this.watched.add(folder);
        const written = this.boats.written(document);
        const slip = written.problems.find(({ severity }) => severity === 'error');
        if (!slip) {
            const before = this.good.get(folder);
            this.good.set(folder, {
                ...(before?.boat === written.boat && before), boat: written.boat,
                ...(show === 'findings' && { findings: this.boats.atOnce(document).report.findings }),
                ...(show === 'changes' && { before: lowerBoat(this.boats.files(document), 'drawn').boat }),
            });
        }
        return { folder, good: this.good.get(folder), written: written.boat, ...(slip && { slip }) };
    }

    async draw({ folder, good, written, slip }: Reading, question: PictureQuestion, cancel: Cancellation.CancellationToken) {
        const goesOn = async (): Promise<void> => { await delayNextTick(); if (cancel.isCancellationRequested) throw OperationCancelled; };
        const { boat } = good ?? { boat: written };
        // A key that came meanwhile is heard before anything is drawn. What takes longer waits for a rest in typing.
        if (boat !== this.last && (question.kind === 'elevation' || question.show)) await new Promise((resolve) => { setTimeout(resolve, REST); });
        await goesOn();
        this.last = boat;
        const { sheet, refused } = sheetOf(boat, question);
        const shown = good && shownOn(good, sheet, question);
        if (shown?.refused !== undefined) refused.push(shown.refused);
        const choices = { ...this.choicesOf(boat), ...(shown?.steps !== undefined && { steps: shown.steps }) };
        const told = () => ({ choices, ...(refused.length > 0 && { refused: refused.join(' ') }) });
        if (!good) return { version: '', placed: [], ...told(), stale: `There is no drawing yet, because the text cannot be read: ${placeOf(slip!)}.` };
        await goesOn();
        const marked = { ...sheet, ...(shown?.markup && { markup: shown.markup }) };
        let drawn: Picture & Placed;
        try {
            drawn = question.kind === 'elevation' ? { ...drawElevation(boat, marked), placed: [], problems: [] } : await this.schematic(boat, marked, question.places ?? '');
        } catch (error) {
            console.error('The drawing of', folder, 'failed:', error);
            return { version: '', placed: [], ...told(), stale: 'This could not be drawn; what is shown is the drawing before it.' };
        }
        await goesOn();
        refused.push(...drawn.problems);
        const version = this.version(folder, drawn);
        return {
            version, placed: drawn.placed, ...told(), ...(version !== question.known && { svg: drawn.svg, words: drawn.words }),
            ...(shown?.steps !== undefined && shown.markup && { said: shown.markup.notes }),
            ...(slip && { stale: `The drawing is as the text stood before it could not be read: ${placeOf(slip)}.` }),
        };
    }

    private async schematic(boat: Boat, sheet: Sheet, text: string): Promise<Picture & Placed> {
        const { places, problems } = readPlaces(text);
        const laid = await laidOut(boat, this.layouter, places);
        const { strangers, schematic } = laid;
        const gone = strangers.length === 0 ? [] : [`${PLACES_FILE} says where ${listed(strangers)} ${strangers.length === 1 ? 'stands, which is' : 'stand, which are'} not on the schematic.`];
        return { ...pictureOf(laid, sheet), placed: placedOn(schematic, places), problems: [...problems, ...gone, ...elsewhereTold(laid.elsewhere)] };
    }

    /** The text of the file of places after a thing was moved so far down the sheet; without `by`, after it was given back. */
    async place({ good }: Reading, { id, by, places: text = '' }: { readonly id: string; readonly by?: number; readonly places?: string }) {
        const { places } = readPlaces(text);
        if (!good) return { text };
        const { schematic, laid } = await laidOut(good.boat, this.layouter, places);
        return { text: movedIn(text, schematic, laid, id, by) };
    }

    private choicesOf(boat: Boat) {
        const known = this.choices.get(boat) ?? choicesOf(boat);
        this.choices.set(boat, known);
        return known;
    }

    private remember(document: LangiumDocument): void {
        if (this.boats.files(document).some(({ state }) => state < DocumentState.Linked)) return;
        const { boat, problems } = this.boats.written(document);
        const isKnown = this.good.get(boatOf(document.uri))?.boat === boat;
        if (!isKnown && !problems.some(({ severity }) => severity === 'error')) this.good.set(boatOf(document.uri), { boat });
    }

    private version(folder: string, { svg, words }: Picture): string {
        const text = `${svg}${JSON.stringify(words)}`;
        const last = this.drawn.get(folder);
        if (last?.text === text) return last.version;
        const version = sha256(text);
        this.drawn.set(folder, { text, version });
        return version;
    }
}

/** The sheet that is asked for, and sentences on what of it is not drawn so. */
function sheetOf(boat: Boat, { kind, lineUp, level, heel }: PictureQuestion): { readonly sheet: Sheet; readonly refused: string[] } {
    const refused: string[] = [];
    const isLineUp = lineUp === undefined || lineUpsOf(boat).some(({ id }) => id === lineUp);
    if (!isLineUp) refused.push(`She has no line-up \`${lineUp}\`; the normal one is drawn.`);
    const within = (value: number | undefined, most: number, least: number): value is number => value !== undefined && value >= least && value <= most;
    const isElevation = kind === 'elevation';
    if (isElevation && level !== undefined && !within(level, 100, 0)) refused.push(`A level is from 0 to 100 %, not ${level} %; tanks are drawn half full.`);
    if (isElevation && heel !== undefined && !within(heel, 90, -90)) refused.push(`A heel is up to 90 deg either way, not ${heel} deg; she is drawn upright and on both tacks.`);
    return {
        refused,
        sheet: {
            ...(lineUp !== undefined && isLineUp && { lineUp }),
            ...(isElevation && within(level, 100, 0) && { level: level / 100 }),
            ...(isElevation && within(heel, 90, -90) && { heel: heel * Math.PI / 180 }),
        },
    };
}

function placedOn(schematic: Schematic, places: Places): Id[] {
    const { rows } = rowsOf(schematic, places);
    if (rows.size === 0) return [];
    return findable(schematic.boat).map(({ id }) => id).filter((id) => { const block = blockOf(schematic, id); return block !== undefined && rows.has(block); });
}

/** What is to be shown over the boat, or why it cannot be. */
function shownOn(good: Good, { lineUp, level, heel }: Sheet, { show: words, step }: PictureQuestion): { readonly markup?: Markup; readonly steps?: number; readonly refused?: string } {
    if (words === undefined || words.trim() === '') return {};
    try {
        const read = readShow(words, good.boat);
        const show = read.show === 'step' && step !== undefined ? { ...read, step } : read;
        const of: Shown = { ...good, ...(lineUp !== undefined && { lineUp }), ...(level !== undefined && { level }), ...(heel !== undefined && { heel }) };
        const steps = stepsOf(show, of);
        const markup = markupFor(show, of);
        return { ...(steps !== undefined && { steps }), ...('refused' in markup ? { refused: markup.refused } : { markup }) };
    } catch (error) {
        if (error instanceof NotUnderstood) return { refused: error.message };
        throw error;
    }
}

/** What can be chosen for a boat; the normal line-up comes first, as it is drawn when none is said. */
function choicesOf(boat: Boat) {
    const lineUps = lineUpsOf(boat);
    const normal = normalLineUp(boat, lineUps)?.id;
    return { boat: boat.title ?? boat.name, lineUps: lineUps.map(({ id }) => id).sort((a, b) => Number(b === normal) - Number(a === normal)), shows: showsFor(boat), things: findable(boat) };
}

const placeOf = ({ uri, range }: TextProblem): string => `${uri.slice(uri.lastIndexOf('/') + 1)} line ${range.start.line + 1}`;

/** What can be looked for: whatever has a symbol or a mouth of its own. */
function findable(boat: Boat): { readonly id: Id; readonly name: string }[] {
    const named = (id: Id, what: string, title?: string): { id: Id; name: string } => ({ id, name: `${id} ${what}${title === undefined ? '' : `, ${title}`}` });
    return [
        ...boat.tanks.flatMap((tank) => [named(tank.id, 'tank', tank.title), ...tank.fittings.map(({ id, kind }) => named(id, kind))]),
        ...boat.parts.flatMap((part) => [{ id: part.id, name: `${part.name}${part.tag === undefined ? '' : ` ${part.role === undefined ? '' : `${part.role} `}${part.kind}`}${part.title === undefined ? '' : `, ${part.title}`}` }, ...part.vents.map(({ id, title }) => named(id, 'bleed point', title))]),
        ...boat.consumers.flatMap((consumer) => [named(consumer.id, consumer.kind, consumer.title), ...consumer.vents.map(({ id, title }) => named(id, 'bleed point', title))]),
    ];
}

/** Where a thing is written: its name, or its line when it has none. */
export function placeOfThing(boats: Boats, document: LangiumDocument, id: Id): Place | null {
    const source = boats.written(document).sources.find(id);
    return source ? { id, uri: source.uri, range: source.mark } : null;
}

/** The thing that a line of a text is about: what stands at the place, or else what the line declares. */
export function thingAt(boats: Boats, document: LangiumDocument, at: Position): Place | null {
    const { sources } = boats.written(document);
    const uri = document.uri.toString();
    const onLine = sources.ids.filter((id) => { const { uri: other, mark } = sources.find(id)!; return other === uri && mark.start.line === at.line; });
    const inner = idsAt(sources, uri, { start: at, end: at })[0];
    // Around a blank or a remark stands the whole block; the line itself is meant.
    const id = inner !== undefined && (onLine.includes(inner) || onLine.length === 0) ? inner
        : onLine.findLast((other) => sources.find(other)!.mark.start.character <= at.character) ?? onLine[0];
    return id === undefined ? null : placeOfThing(boats, document, id);
}
