/** Saves a drawing where its reader wants it. */
import * as vscode from 'vscode';

export async function save(folder: vscode.Uri, kind: string, ending: 'svg' | 'png', bytes: Uint8Array): Promise<void> {
    const name = `${folder.path.split('/').at(-1)}-${kind}.${ending}`;
    const file = await vscode.window.showSaveDialog({ defaultUri: vscode.Uri.joinPath(folder, name), filters: { [ending.toUpperCase()]: [ending] } });
    if (!file) return;
    try {
        await vscode.workspace.fs.writeFile(file, bytes);
    } catch (error) {
        void vscode.window.showErrorMessage(`The drawing could not be saved: ${error instanceof Error ? error.message : String(error)}`);
    }
}
