/** Requests that Langium has no service for, and what the server says of itself. */
import { DocumentState } from 'langium';
import { createRequestHandler, DefaultLanguageServer, type LangiumSharedServices } from 'langium/lsp';
import { MessageType, ShowMessageNotification, type CodeAction, type CodeLens, type InitializeParams, type InitializeResult, type SelectionRange, type SelectionRangeParams, type TextDocumentIdentifier } from 'vscode-languageserver-protocol';
import type { Connection } from 'vscode-languageserver';
import type { BoatActions } from './actions';
import type { BoatLens } from './lens';
import { selectionRanges } from './selection';

export class BoatServer extends DefaultLanguageServer {
    constructor(services: LangiumSharedServices) {
        super(services);
        if (services.lsp.Connection) addRequests(services.lsp.Connection, services);
    }
    protected override buildInitializeResult(params: InitializeParams): InitializeResult {
        const result = super.buildInitializeResult(params);
        const own = { selectionRangeProvider: true, codeLensProvider: { resolveProvider: true }, codeActionProvider: { resolveProvider: true, codeActionKinds: ['quickfix', 'refactor'] } };
        return { ...result, capabilities: { ...result.capabilities, ...own } };
    }
}

function addRequests(connection: Connection, shared: LangiumSharedServices): void {
    connection.onSelectionRanges(createRequestHandler<SelectionRangeParams, SelectionRange[]>((_, document, { positions }) => selectionRanges(document, positions), shared, DocumentState.Parsed));
    const lensOf = createRequestHandler<Resolving<CodeLens>, CodeLens>((services, document, { item }) => (services.lsp?.CodeLensProvider as BoatLens).resolve(document, item), shared, DocumentState.IndexedReferences);
    connection.onCodeLensResolve(async (lens, cancel) => {
        const asked = resolving(lens);
        return asked ? await lensOf(asked, cancel) ?? lens : lens;
    });
    const actionOf = createRequestHandler<Resolving<CodeAction>, CodeAction>((services, document, { item }) => (services.lsp?.CodeActionProvider as BoatActions).resolve(document, item), shared, DocumentState.IndexedReferences);
    connection.onCodeActionResolve(async (action, cancel) => {
        const asked = resolving(action);
        const resolved = asked ? await actionOf(asked, cancel) ?? action : action;
        // Of what it resolves, an editor takes the edit alone; why there is none would not be seen.
        if ('disabled' in resolved && resolved.disabled) await connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Warning, message: resolved.disabled.reason });
        return resolved;
    });
}

interface Resolving<T> {
    readonly textDocument: TextDocumentIdentifier;
    readonly item: T;
}

/** What was offered for a file, as a request about that file; nothing for what was not offered by this server. */
function resolving<T extends CodeLens | CodeAction>(item: T): Resolving<T> | undefined {
    const uri = (item.data as { uri?: string } | undefined)?.uri;
    return uri === undefined ? undefined : { textDocument: { uri }, item };
}
