/** The boats of a workspace, each lowered once and judged once after every change. */
import { DocumentState, WorkspaceCache, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import type { Report } from '../documents/findings/report';
import { boatOf } from './linking';
import type { Loaded } from './load';
import { lowerBoat } from './lowering/boat';
import { textProblems } from './problems';
import { reportOf } from './report';

export interface KnownBoat extends Loaded {
    readonly report: Report;
}

export class Boats {
    private readonly cache: WorkspaceCache<string, KnownBoat>;
    /** `today` gives the day of judgement as an ISO date. */
    constructor(private readonly shared: LangiumSharedCoreServices, private readonly today?: () => string) {
        this.cache = new WorkspaceCache(shared, DocumentState.Linked);
    }

    /** All files of the boat that a file belongs to, in order of name. */
    files(document: LangiumDocument): LangiumDocument[] {
        const folder = boatOf(document.uri);
        return this.shared.workspace.LangiumDocuments.all.filter((other) => boatOf(other.uri) === folder).toArray().sort((a, b) => (a.uri.toString() < b.uri.toString() ? -1 : 1));
    }

    /** The boat that a file belongs to. */
    of(document: LangiumDocument): KnownBoat {
        return this.cache.get(boatOf(document.uri), () => {
            const folder = boatOf(document.uri);
            const documents = this.files(document);
            const lowered = lowerBoat(documents);
            const loaded: Loaded = { boat: lowered.boat, sources: lowered.sources, problems: textProblems(documents, lowered.problems), later: lowered.later };
            const texts = new Map(documents.map((other) => [other.uri.toString(), other.textDocument.getText()]));
            return { ...loaded, report: reportOf(loaded, (uri) => texts.get(uri) ?? '', (uri) => uri.slice(folder.length + 1), this.today?.()) };
        });
    }
}
