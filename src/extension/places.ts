/** The file of chosen places in the folder of a boat. What stands in it the server reads and writes; here it is only kept. */
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { PLACE, type PlaceParams, type PlaceResult } from '../server/protocol';

export const PLACES = 'schematic.places';

export const folderOf = (file: vscode.Uri): vscode.Uri => vscode.Uri.joinPath(file, '..');
const fileOf = (document: vscode.Uri): vscode.Uri => vscode.Uri.joinPath(folderOf(document), PLACES);

/** The text of the file; undefined where there is none. */
export async function placesIn(document: vscode.Uri): Promise<string | undefined> {
    try {
        return new TextDecoder().decode(await vscode.workspace.fs.readFile(fileOf(document)));
    } catch {
        return undefined;
    }
}

/** Moves a thing so far down the sheet; without `by`, back to where it stands by itself. What fails is told, and thrown no further. */
export async function place(client: LanguageClient, document: vscode.Uri, id: string, by: number | undefined): Promise<void> {
    const places = await placesIn(document);
    try {
        const result = await client.sendRequest<PlaceResult | null>(PLACE, { textDocument: { uri: document.toString() }, id, ...(places !== undefined && { places }), ...(by !== undefined && { by }) } satisfies PlaceParams);
        const text = result?.text ?? places ?? '';
        if (text === (places ?? '')) return;
        if (text === '') await vscode.workspace.fs.delete(fileOf(document));
        else await vscode.workspace.fs.writeFile(fileOf(document), new TextEncoder().encode(text));
    } catch (error) {
        void vscode.window.showErrorMessage(`${PLACES} could not be written: ${error instanceof Error ? error.message : String(error)}`);
    }
}
