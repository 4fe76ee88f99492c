/** Requests that Langium has no service for, and what the server says of itself. */
import { DocumentState } from 'langium';
import { createRequestHandler, DefaultLanguageServer, type LangiumSharedServices } from 'langium/lsp';
import type { CodeLens, InitializeParams, InitializeResult, SelectionRange, SelectionRangeParams, TextDocumentIdentifier } from 'vscode-languageserver-protocol';
import type { Connection } from 'vscode-languageserver';
import type { BoatLens } from './lens';
import { selectionRanges } from './selection';

export class BoatServer extends DefaultLanguageServer {
    constructor(services: LangiumSharedServices) {
        super(services);
        if (services.lsp.Connection) addRequests(services.lsp.Connection, services);
    }
    protected override buildInitializeResult(params: InitializeParams): InitializeResult {
        const result = super.buildInitializeResult(params);
        return { ...result, capabilities: { ...result.capabilities, selectionRangeProvider: true, codeLensProvider: { resolveProvider: true } } };
    }
}

function addRequests(connection: Connection, shared: LangiumSharedServices): void {
    connection.onSelectionRanges(createRequestHandler<SelectionRangeParams, SelectionRange[]>((_, document, { positions }) => selectionRanges(document, positions), shared, DocumentState.Parsed));
    const resolve = createRequestHandler<{ textDocument: TextDocumentIdentifier; lens: CodeLens }, CodeLens>((services, document, { lens }) => (services.lsp?.CodeLensProvider as BoatLens).resolve(document, lens), shared, DocumentState.IndexedReferences);
    connection.onCodeLensResolve(async (lens, cancel) => {
        const uri = (lens.data as { uri?: string } | undefined)?.uri;
        return uri === undefined ? lens : await resolve({ textDocument: { uri }, lens }, cancel) ?? lens;
    });
}
