/** Boats do not wait for one another: an edit touches the boats that it can change, and of these the open ones come first. */
import { Cancellation, DefaultDocumentBuilder, DocumentState, type BuildOptions, type LangiumDocument, type URI } from 'langium';
import { boatOf } from './folders';

export class BoatBuilder extends DefaultDocumentBuilder {
    /** Files of boats of which none is open, while the others are built. */
    private readonly later = new Set<LangiumDocument>();

    /** A name that was not found may be found now, but only when something changed in its own boat or patterns. */
    protected override shouldRelink(document: LangiumDocument, changedUris: Set<string>): boolean {
        return this.indexManager.isAffected(document, changedUris);
    }

    protected override async buildDocuments(documents: LangiumDocument[], options: BuildOptions, cancelToken: Cancellation.CancellationToken): Promise<void> {
        const open = new Set(documents.filter(({ uri }) => this.textDocuments?.get(uri) !== undefined).map(({ uri }) => boatOf(uri)));
        const isLater = (document: LangiumDocument): boolean => !open.has(boatOf(document.uri)) && document.state >= DocumentState.ComputedScopes;
        const later = open.size === 0 ? [] : documents.filter(isLater);
        if (later.length > 0) {
            later.forEach((document) => this.later.add(document));
            try {
                await super.buildDocuments(documents.filter((document) => !later.includes(document)), options, cancelToken);
            } finally {
                this.later.clear();
            }
            this.currentState = DocumentState.ComputedScopes;
        }
        await super.buildDocuments(later.length > 0 ? later : documents, options, cancelToken);
    }

    /** Whoever asks for a file whose turn has not come waits for it, however far the others are. */
    protected override awaitDocumentState(state: DocumentState, uri: URI, cancelToken: Cancellation.CancellationToken): Promise<URI> {
        const document = this.langiumDocuments.getDocument(uri);
        const reached = this.currentState;
        if (document && this.later.has(document)) this.currentState = DocumentState.Changed;
        try {
            return super.awaitDocumentState(state, uri, cancelToken);
        } finally {
            this.currentState = reached;
        }
    }

    /** What a file has reached is told, though the next key has come: caches forget by it, and diagnostics are sent. */
    protected override notifyDocumentPhase(document: LangiumDocument, state: DocumentState): Promise<void> {
        return super.notifyDocumentPhase(document, state, Cancellation.CancellationToken.None);
    }
}
