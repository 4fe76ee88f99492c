/** The drawing beside the text: one panel, which follows the editor that is written in. The server draws; this asks it and hands on. */
import * as vscode from 'vscode';
import { State, type LanguageClient } from 'vscode-languageclient/node';
import { CHANGED, PICTURE, WHERE, type ChangedParams, type PictureParams, type PictureResult, type WhereParams, type WhereResult } from '../server/protocol';
import type { FromView, Kept, Question, ToView } from './messages';
import { Newest } from './newest';
import { pageOf } from './page';
import { folderOf, place, placesIn, PLACES } from './places';
import { save } from './save';

const VIEW = 'orlop.drawing';

export class LiveView implements vscode.Disposable {
    private panel: vscode.WebviewPanel | undefined;
    /** A file of the boat that is shown. */
    private document: vscode.Uri | undefined;
    /** Where texts stand. */
    private column = vscode.ViewColumn.One;
    private question: Question = { kind: 'schematic' };
    /** Counts the questions: of two, the answer to the newer is shown. */
    private turn = 0;
    private known: string | undefined;
    private svg: string | undefined;
    /** Ends when the last move is written: each begins from the file as the one before left it. */
    private moves: Promise<void> = Promise.resolve();
    private readonly pictures: Newest;
    private readonly wheres: Newest;
    /** A jump that was asked for is not given up because the cursor moves. */
    private readonly jumps: Newest;
    private readonly own: vscode.Disposable[];

    constructor(private readonly client: LanguageClient, private readonly extension: vscode.Uri) {
        this.pictures = new Newest(client);
        this.wheres = new Newest(client);
        this.jumps = new Newest(client);
        const watcher = vscode.workspace.createFileSystemWatcher(`**/${PLACES}`);
        const refresh = (file: vscode.Uri): void => { if (this.document && folderOf(file).toString() === folderOf(this.document).toString()) void this.pull(); };
        this.own = [
            vscode.commands.registerCommand('orlop.showDrawing', () => this.show()),
            vscode.window.registerWebviewPanelSerializer(VIEW, { deserializeWebviewPanel: async (panel, state) => this.take(panel, state as Kept | undefined) }),
            vscode.window.onDidChangeActiveTextEditor((editor) => this.follow(editor)),
            vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.point(textEditor)),
            client.onNotification(CHANGED, ({ folder }: ChangedParams) => { if (this.document && sameFolder(folder, this.document)) void this.pull(); }),
            // A server that was started anew knows nothing of what was drawn.
            client.onDidChangeState(({ newState }) => { if (newState === State.Running) void this.pull(); }),
            watcher, watcher.onDidCreate(refresh), watcher.onDidChange(refresh), watcher.onDidDelete(refresh),
        ];
    }

    dispose(): void {
        this.panel?.dispose();
        for (const own of this.own) own.dispose();
    }

    private show(): void {
        this.follow(vscode.window.activeTextEditor);
        if (this.panel) return this.panel.reveal(undefined, true);
        this.take(vscode.window.createWebviewPanel(VIEW, 'Drawing', { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true }), undefined);
    }

    private take(panel: vscode.WebviewPanel, kept: Kept | undefined): void {
        this.panel?.dispose();
        this.panel = panel;
        if (kept) {
            this.document ??= vscode.Uri.parse(kept.document);
            this.question = kept.question;
        }
        const { webview } = panel;
        webview.options = { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(this.extension, 'out')] };
        webview.onDidReceiveMessage((message: FromView) => this.hear(message));
        panel.onDidDispose(() => { if (this.panel === panel) { this.panel = undefined; this.known = undefined; } });
        webview.html = pageOf(webview, this.extension);
    }

    private tell(message: ToView): void {
        void this.panel?.webview.postMessage(message);
    }

    private hear(message: FromView): void | Promise<void> {
        switch (message.do) {
            case 'ask':
                this.question = message.question;
                if (message.anew) this.known = undefined;
                return this.pull();
            case 'open': return this.open(message.id);
            case 'place': return this.place(message.id, message.by);
            case 'save svg': return this.svg === undefined ? undefined : this.save('svg', new TextEncoder().encode(this.svg));
            case 'save png': return this.save('png', message.bytes);
        }
    }

    private follow(editor: vscode.TextEditor | undefined): void {
        if (!editor || !isBoat(editor.document)) return;
        this.column = editor.viewColumn ?? this.column;
        const before = this.document;
        this.document = editor.document.uri;
        if (before && !sameFolder(folderOf(before).toString(), this.document)) {
            // Of another boat neither line-ups nor parts are those that were chosen.
            const { kind, level, heel } = this.question;
            this.question = { kind, ...(level !== undefined && { level }), ...(heel !== undefined && { heel }) };
            // Nor is the drawing hers, to be kept or saved, until she is drawn.
            this.svg = this.known = undefined;
            void this.pull();
        } else if (!before) void this.pull();
        this.point(editor);
    }

    /** The view is given what it has not got yet; a newer question ends an older one. */
    private async pull(): Promise<void> {
        const { document, panel, question } = this;
        if (!panel?.visible) return;
        if (!document) return this.tell({ tell: 'nothing', words: 'Open a file of a boat, and it is drawn here.' });
        const turn = ++this.turn;
        const places = await placesIn(document);
        if (turn !== this.turn) return;
        const picture = await this.pictures.ask<PictureParams, PictureResult>(PICTURE, {
            textDocument: { uri: document.toString() }, ...question, ...(places !== undefined && { places }), ...(this.known !== undefined && { known: this.known }),
        });
        if (this.panel !== panel || turn !== this.turn) return;
        if (!picture) return this.tell({ tell: 'nothing', words: 'The language server gave no drawing. What it says of that stands in its output.' });
        if (picture.svg !== undefined) [this.svg, this.known] = [picture.svg, picture.version];
        panel.title = `${question.kind === 'schematic' ? 'Schematic' : 'Elevation'} of ${picture.choices.boat}`;
        this.tell({ tell: 'picture', document: document.toString(), picture });
    }

    private async point(editor: vscode.TextEditor): Promise<void> {
        const { document, panel } = this;
        if (!document || !panel?.visible || !isBoat(editor.document) || !sameFolder(folderOf(document).toString(), editor.document.uri)) return;
        const { line, character } = editor.selection.active;
        const where = await this.wheres.ask<WhereParams, WhereResult | null>(WHERE, { textDocument: { uri: editor.document.uri.toString() }, position: { line, character } });
        if (where !== undefined) this.tell({ tell: 'here', id: where?.id });
    }

    private async open(id: string): Promise<void> {
        if (!this.document) return;
        const where = await this.jumps.ask<WhereParams, WhereResult | null>(WHERE, { textDocument: { uri: this.document.toString() }, id });
        if (!where) return;
        const { start, end } = where.range;
        const uri = vscode.Uri.parse(where.uri);
        const shown = vscode.window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
        await vscode.window.showTextDocument(uri, { viewColumn: shown?.viewColumn ?? this.column, selection: new vscode.Range(start.line, start.character, end.line, end.character) });
    }

    private async place(id: string, by: number | undefined): Promise<void> {
        const { document } = this;
        if (!document) return;
        await (this.moves = this.moves.then(() => place(this.client, document, id, by)));
        await this.pull();
    }

    private async save(ending: 'svg' | 'png', bytes: Uint8Array): Promise<void> {
        if (this.document) await save(folderOf(this.document), this.question.kind, ending, bytes);
    }
}

/** Patterns that boats share are no boat: the view stays with the one that it shows. */
const isBoat = ({ languageId, uri }: vscode.TextDocument): boolean => languageId === 'orlop' && !folderOf(uri).path.endsWith('/shared');
const sameFolder = (folder: string, document: vscode.Uri): boolean => vscode.Uri.parse(folder).toString() === folderOf(document).toString();
