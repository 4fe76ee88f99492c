/** The VS Code side: starts the server, and shows its drawings beside the text. */
import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { LiveView } from './live-view';

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
    const module = vscode.Uri.joinPath(context.extensionUri, 'out', 'server.cjs').fsPath;
    client = new LanguageClient('orlop', 'Orlop', {
        run: { module, transport: TransportKind.ipc },
        debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--inspect'] } },
    }, {
        documentSelector: [{ language: 'orlop' }],
        synchronize: { fileEvents: vscode.workspace.createFileSystemWatcher('**/*.orlop') },
    });
    context.subscriptions.push(
        vscode.commands.registerCommand('orlop.restart', () => client?.restart()),
        vscode.commands.registerCommand('orlop.inlineFigures', () => {
            const settings = vscode.workspace.getConfiguration('orlop');
            return settings.update('inlineFigures', settings.get('inlineFigures') !== true, vscode.ConfigurationTarget.Global);
        }),
        new LiveView(client, context.extensionUri),
    );
    await client.start();
}

export async function deactivate(): Promise<void> {
    await client?.stop();
}
