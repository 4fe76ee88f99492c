/** An editor that is not ours: it knows the protocol, starts the server as it ships, and keeps the texts that it has open. */
import { spawn } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { CancellationTokenSource, StreamMessageReader, StreamMessageWriter, createMessageConnection } from 'vscode-jsonrpc/node';
import type { ClientCapabilities, InitializeResult, Position, Range, ShowMessageParams, TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { checkBleedBlocks } from '../../src/documents/bleed/kept';
import { loadBoat } from '../../src/language/load';
import { judge } from '../../src/checks/judge';

const SERVER = fileURLToPath(new URL('../../out/server.cjs', import.meta.url));
export const EXAMPLES = new URL('../../examples/', import.meta.url);
export const BOATS = readdirSync(EXAMPLES, { withFileTypes: true }).filter((entry) => entry.isDirectory()).map(({ name }) => name).sort();
export type Texts = Record<string, string>;
export const textsOf = (boat: string): Texts => Object.fromEntries(readdirSync(new URL(`${boat}/`, EXAMPLES)).filter((file) => file.endsWith('.orlop')).sort()
    .map((file) => [file, readFileSync(new URL(`${boat}/${file}`, EXAMPLES), 'utf8')]));

export interface Editor {
    readonly capabilities: InitializeResult['capabilities'];
    /** What the server had shown as messages. */
    readonly shown: readonly string[];
    readonly ask: <T>(method: string, params: unknown) => Promise<T>;
    /** Asks, and no longer wants the answer. */
    readonly cancelled: <T>(method: string, params: unknown) => Promise<T>;
    /** Hears what the server tells by itself. */
    readonly hear: <T>(method: string, heard: (params: T) => void) => void;
    /** Opens the files of a boat, those on disk or these; or types them over. */
    readonly open: (boat: string, texts?: Texts) => Promise<void>;
    readonly uri: (boat: string, file: string) => string;
    /** The texts of a boat after an edit, which is not typed in. */
    readonly after: (boat: string, edit: WorkspaceEdit) => Texts;
    readonly text: (uri: string) => string;
    /** The place in a file that words stand at; `@` marks the place within them. */
    readonly at: (boat: string, file: string, words: string) => { textDocument: { uri: string }; position: Position };
    /** What a range of a file says. */
    readonly words: (uri: string, range: Range) => string;
    readonly close: () => Promise<{ code: number | null; stderr: string }>;
}

/** `settings` are what it is set to, by section. */
export async function openEditor(able: ClientCapabilities = {}, settings: Readonly<Record<string, unknown>> = {}): Promise<Editor> {
    const server = spawn(process.execPath, [SERVER, '--stdio'], { stdio: ['pipe', 'pipe', 'pipe'] });
    let stderr = '';
    server.stderr.on('data', (data: Buffer) => { stderr += data.toString(); });
    const connection = createMessageConnection(new StreamMessageReader(server.stdout), new StreamMessageWriter(server.stdin));
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('workspace/configuration', ({ items }: { items: { section?: string }[] }) => items.map(({ section }) => settings[section ?? ''] ?? null));
    const shown: string[] = [];
    connection.onNotification('window/showMessage', ({ message }: ShowMessageParams) => { shown.push(message); });
    connection.listen();
    const rootUri = EXAMPLES.href.replace(/\/$/, '');
    const { capabilities } = await connection.sendRequest<InitializeResult>('initialize', { processId: process.pid, rootUri, workspaceFolders: [{ uri: rootUri, name: 'boats' }], capabilities: able });
    await connection.sendNotification('initialized', {});
    // Until the files of the workspace are read, a file that is on no disk would be unknown.
    await connection.sendRequest('workspace/symbol', { query: 'V1' });
    const documents = new Map<string, TextDocument>();
    const uri = (boat: string, file: string): string => new URL(`${boat}/${file}`, EXAMPLES).href;
    let version = 0;

    return {
        capabilities, uri, shown,
        ask: (method, params) => connection.sendRequest(method, params),
        cancelled(method, params) {
            const source = new CancellationTokenSource();
            const answer = connection.sendRequest<never>(method, params, source.token);
            source.cancel();
            return answer;
        },
        hear(method, heard) { connection.onNotification(method, heard); },
        async open(boat, texts = textsOf(boat)) {
            for (const [file, text] of Object.entries(texts)) {
                const address = uri(boat, file);
                const isNew = !documents.has(address);
                documents.set(address, TextDocument.create(address, 'orlop', ++version, text));
                if (isNew) await connection.sendNotification('textDocument/didOpen', { textDocument: { uri: address, languageId: 'orlop', version, text } });
                else await connection.sendNotification('textDocument/didChange', { textDocument: { uri: address, version }, contentChanges: [{ text }] });
            }
        },
        after(boat, edit) {
            const folder = uri(boat, '');
            for (const changed of Object.keys(edit.changes ?? {})) if (!changed.startsWith(folder) || !documents.has(changed)) throw new Error(`an edit in ${changed}`);
            return Object.fromEntries([...documents].filter(([address]) => address.startsWith(folder)).map(([address, document]) => [address.slice(folder.length), applied(document, edit.changes?.[address] ?? [])]));
        },
        text: (address) => documents.get(address)!.getText(),
        at(boat, file, words) {
            const document = documents.get(uri(boat, file))!;
            const offset = document.getText().indexOf(words.replace('@', ''));
            if (offset < 0) throw new Error(`${words} is not in ${file}`);
            return { textDocument: { uri: document.uri }, position: document.positionAt(offset + Math.max(0, words.indexOf('@'))) };
        },
        words: (address, range) => documents.get(address)!.getText(range),
        async close() {
            await connection.sendRequest('shutdown');
            const ended = new Promise<number | null>((done) => server.once('exit', done));
            await connection.sendNotification('exit');
            const code = await ended;
            connection.dispose();
            return { code, stderr };
        },
    };
}

/** Edits applied as the protocol says: none may overlap another. */
export const applied = (document: TextDocument, edits: readonly TextEdit[]): string => TextDocument.applyEdits(document, [...edits]);
export const edited = (text: string, edits: readonly TextEdit[]): string => applied(TextDocument.create('file:///a', 'orlop', 0, text), edits);

/** Every slip and finding of a boat, as one line each. */
export async function judged(texts: Texts): Promise<string[]> {
    const { boat, problems } = await loadBoat(texts);
    return [...problems.map(({ code, message }) => `${code} ${message}`), ...judge(boat).findings.map(({ rule, about }) => `${rule.code} ${about}`), ...checkBleedBlocks(boat).map(({ rule, about }) => `${rule.code} ${about}`)].sort();
}
