/** The requests of protocol.ts, answered from the boats of the workspace. */
import { DocumentState, isOperationCancelled } from 'langium';
import { createRequestHandler, type LangiumSharedServices } from 'langium/lsp';
import { LSPErrorCodes, ResponseError, type CancellationToken, type Connection } from 'vscode-languageserver';
import type { Boats } from '../language/boats';
import { Pictures, placeOfThing, thingAt } from '../language/lsp/picture';
import type { Thread } from '../layout/thread';
import { CHANGED, PICTURE, PLACE, WHERE, type ChangedParams, type PictureParams, type PictureResult, type PlaceParams, type PlaceResult, type WhereParams, type WhereResult } from './protocol';

export function answerViews(connection: Connection, shared: LangiumSharedServices, boats: Boats, { layouter }: Thread): void {
    const pictures = new Pictures(shared, boats, layouter);
    pictures.onChanged((folder) => { void connection.sendNotification(CHANGED, { folder } satisfies ChangedParams); });
    // Only the reading holds the texts still: while something is laid out, keys come through.
    const reading = createRequestHandler<PictureParams | PlaceParams, ReturnType<Pictures['reading']>>((_, document, params) => pictures.reading(document, 'show' in params ? params.show : undefined), shared, DocumentState.IndexedReferences);
    const answer = <Params extends PictureParams | PlaceParams, Result>(draw: (read: ReturnType<Pictures['reading']>, params: Params, cancel: CancellationToken) => Promise<Result>) =>
        async (params: Params, cancel: CancellationToken): Promise<Result | ResponseError | null> => {
            const read = await reading(params, cancel);
            if (read === null || read instanceof ResponseError) return read;
            try {
                return await draw(read, params, cancel);
            } catch (error) {
                if (isOperationCancelled(error)) return new ResponseError(LSPErrorCodes.RequestCancelled, 'A newer request has taken its place.');
                throw error;
            }
        };
    connection.onRequest(PICTURE, answer<PictureParams, PictureResult>((read, params, cancel) => pictures.draw(read, params, cancel)));
    connection.onRequest(PLACE, answer<PlaceParams, PlaceResult>((read, params) => pictures.place(read, params)));
    connection.onRequest(WHERE, createRequestHandler<WhereParams, WhereResult>((_, document, params) => 'id' in params ? placeOfThing(boats, document, params.id) : thingAt(boats, document, params.position), shared, DocumentState.IndexedReferences));
}
