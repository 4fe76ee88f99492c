/** The boats of a workspace, each lowered once and judged once after every change. */
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

export class Boats {
    private readonly cache: BoatCache<KnownBoat>;
    /** `today` gives the day of judgement as an ISO date. */
    constructor(private readonly shared: LangiumSharedCoreServices, private readonly today?: () => string) {
        this.cache = new BoatCache(shared, DocumentState.Linked);
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

    /** The boat that a file belongs to. */
    of(document: LangiumDocument): KnownBoat {
        return this.cache.get(boatOf(document.uri), () => {
            const folder = boatOf(document.uri);
            const documents = this.files(document);
            const lowered = lowerBoat(documents);
            const loaded: Loaded = { boat: lowered.boat, sources: lowered.sources, problems: textProblems(documents, lowered.problems), later: lowered.later, made: lowered.made };
            const texts = new Map(documents.map((other) => [other.uri.toString(), other.textDocument.getText()]));
            return { ...loaded, report: reportOf(loaded, (uri) => texts.get(uri) ?? '', (uri) => uri.slice(folder.length + 1), this.today?.()) };
        });
    }
}
