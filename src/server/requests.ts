/** The requests of protocol.ts, answered from the boats of the workspace. */
import { DocumentState, isOperationCancelled } from 'langium';
import { createRequestHandler, type LangiumSharedServices } from 'langium/lsp';
import { LSPErrorCodes, ResponseError, type Connection } from 'vscode-languageserver';
import type { Boats } from '../language/boats';
import { Pictures, placeOfThing, thingAt, type Schematic } from '../language/lsp/picture';
import { CHANGED, PICTURE, WHERE, type ChangedParams, type PictureParams, type PictureResult, type WhereParams, type WhereResult } from './protocol';

export function answerViews(connection: Connection, shared: LangiumSharedServices, boats: Boats, schematic: Schematic): void {
    const pictures = new Pictures(shared, boats, schematic);
    pictures.onChanged((folder) => { void connection.sendNotification(CHANGED, { folder } satisfies ChangedParams); });
    // Only the reading holds the texts still: while something is laid out, keys come through.
    const reading = createRequestHandler<PictureParams, ReturnType<Pictures['reading']>>((_, document, params) => pictures.reading(document, params), shared, DocumentState.IndexedReferences);
    connection.onRequest(PICTURE, async (params: PictureParams, cancel): Promise<PictureResult | ResponseError | null> => {
        const read = await reading(params, cancel);
        if (read === null || read instanceof ResponseError) return read;
        try {
            return await pictures.draw(read, params, cancel);
        } catch (error) {
            if (isOperationCancelled(error)) return new ResponseError(LSPErrorCodes.RequestCancelled, 'A newer request has taken its place.');
            throw error;
        }
    });
    connection.onRequest(WHERE, createRequestHandler<WhereParams, WhereResult>((_, document, params) => 'id' in params ? placeOfThing(boats, document, params.id) : thingAt(boats, document, params.position), shared, DocumentState.IndexedReferences));
}
