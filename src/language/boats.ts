/** The boats of a workspace, each lowered once after every change, and judged once a day until the next. */
import { DocumentState, UriUtils, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import type { Report } from '../documents/findings/report';
import { BoatCache, boatOf, filesIn, sharedOf } from './folders';
import type { Loaded, Texts } from './load';
import { lowerBoat } from './lowering/boat';
import { textProblems } from './problems';
import { reportOf } from './report';

export interface KnownBoat extends Loaded {
    readonly report: Report;
}

/** A boat as it is written, and as it was judged last. */
interface Kept {
    readonly loaded: Loaded;
    /** By address. */
    readonly texts: ReadonlyMap<string, string>;
    day?: string | undefined;
    known?: KnownBoat;
}

export class Boats {
    private readonly cache: BoatCache<Kept>;
    /** The day on which the diagnostics that the editor has were made. */
    private day: string | undefined;

    /** `today` gives the day of judgement as an ISO date. */
    constructor(private readonly shared: LangiumSharedCoreServices, private readonly today?: () => string) {
        this.cache = new BoatCache(shared, DocumentState.Linked);
        this.day = today?.();
        shared.workspace.DocumentBuilder.onUpdate(() => this.turnPage());
    }

    /** All files of the boat that a file belongs to, in order of name. */
    files(document: LangiumDocument): LangiumDocument[] {
        return filesIn(this.shared, boatOf(document.uri));
    }

    /** The texts of a boat's files, and of the shared folder beside it, by the names of the files; as if changed, where they are. */
    texts(document: LangiumDocument, changed: (file: LangiumDocument) => string = (file) => file.textDocument.getText()): { own: Texts; shared: Texts } {
        const of = (files: readonly LangiumDocument[]): Texts => Object.fromEntries(files.map((file) => [UriUtils.basename(file.uri), changed(file)]));
        return { own: of(this.files(document)), shared: of(filesIn(this.shared, sharedOf(boatOf(document.uri)))) };
    }

    /** The boat that a file belongs to. What is true of the same text today may not be so tomorrow: waivers end, hoses age. */
    of(document: LangiumDocument): KnownBoat {
        const folder = boatOf(document.uri);
        const kept = this.cache.get(folder, () => this.load(document));
        const day = this.today?.();
        if (!kept.known || kept.day !== day) {
            kept.known = { ...kept.loaded, report: reportOf(kept.loaded, (uri) => kept.texts.get(uri) ?? '', (uri) => uri.slice(folder.length + 1), day) };
            kept.day = day;
        }
        return kept.known;
    }

    private load(document: LangiumDocument): Kept {
        const documents = this.files(document);
        const lowered = lowerBoat(documents);
        const loaded: Loaded = { boat: lowered.boat, sources: lowered.sources, problems: textProblems(documents, lowered.problems), later: lowered.later, made: lowered.made };
        return { loaded, texts: new Map(documents.map((other) => [other.uri.toString(), other.textDocument.getText()])) };
    }

    /** With the first key of a day every boat is told anew, not only the one that is typed in. */
    private turnPage(): void {
        const day = this.today?.();
        if (day === this.day) return;
        this.day = day;
        const { DocumentBuilder, LangiumDocuments } = this.shared.workspace;
        for (const document of LangiumDocuments.all) if (document.state === DocumentState.Validated) DocumentBuilder.resetToState(document, DocumentState.IndexedReferences);
    }
}
