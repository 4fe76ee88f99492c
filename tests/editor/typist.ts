/** Types into files as an editor sends it, key by key, hears the diagnostics, and can ask the server what it weighs. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { StreamMessageReader, StreamMessageWriter, createMessageConnection } from 'vscode-jsonrpc/node';
import type { Diagnostic } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';

/** Some signs of a file replaced by others. */
export interface Keys {
    readonly offset: number;
    readonly length: number;
    readonly text: string;
}

export interface Memory {
    /** Bytes that the process holds. */
    readonly rss: number;
    /** Bytes of it that are in use, after rubbish was cleared. */
    readonly heap: number;
}

export interface Typist {
    /** ms from the request to initialize to the first diagnostics of `files` files. */
    readonly started: number;
    /** The last diagnostics of each file. */
    readonly diagnostics: ReadonlyMap<string, readonly Diagnostic[]>;
    readonly ask: <T>(method: string, params: unknown) => Promise<T>;
    readonly open: (uri: string, text: string) => Promise<void>;
    readonly text: (uri: string) => string;
    /** Types, and does not wait. */
    readonly send: (uri: string, keys: Keys) => void;
    /** Types, and waits for the next diagnostics of `heard`, by default of the file; ms. */
    readonly type: (uri: string, keys: Keys, heard?: string) => Promise<number>;
    /** Waits until nothing was heard for `rest` ms. */
    readonly quiet: (rest: number) => Promise<void>;
    /** Only of a server that was started with `MEMORY`. */
    readonly memory: () => Promise<Memory>;
    readonly close: () => Promise<void>;
}

/** Starts a server on a folder, and waits until so many files were judged; `node` are words for Node.js before its name. */
export async function openTypist(server: string, folder: string, files = 1, node: readonly string[] = []): Promise<Typist> {
    const child = spawn(process.execPath, [...node, server, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit', 'ipc'] });
    const connection = createMessageConnection(new StreamMessageReader(child.stdout!), new StreamMessageWriter(child.stdin!));
    const rootUri = pathToFileURL(folder).href;
    const diagnostics = new Map<string, readonly Diagnostic[]>();
    const documents = new Map<string, TextDocument>();
    const waiting = new Set<(uri: string) => void>();
    let last = performance.now();
    const hear = (isIt: (uri: string) => boolean): Promise<void> => new Promise((resolve) => {
        const heard = (uri: string): void => { if (isIt(uri)) { waiting.delete(heard); resolve(); } };
        waiting.add(heard);
    });
    connection.onNotification('textDocument/publishDiagnostics', (params: { uri: string; diagnostics: Diagnostic[] }) => {
        last = performance.now();
        diagnostics.set(params.uri, params.diagnostics);
        for (const heard of [...waiting]) heard(params.uri);
    });
    connection.listen();
    const begun = performance.now();
    // A library that the server brings along is none of the folder's files.
    const first = hear(() => [...diagnostics.keys()].filter((uri) => uri.startsWith(rootUri)).length >= files);
    await connection.sendRequest('initialize', { processId: process.pid, rootUri, capabilities: {}, workspaceFolders: [{ uri: rootUri, name: 'boat' }] });
    await connection.sendNotification('initialized', {});
    await first;
    const started = performance.now() - begun;

    const send = (uri: string, { offset, length, text }: Keys): void => {
        const document = documents.get(uri)!;
        const change = { range: { start: document.positionAt(offset), end: document.positionAt(offset + length) }, text };
        TextDocument.update(document, [change], document.version + 1);
        void connection.sendNotification('textDocument/didChange', { textDocument: { uri, version: document.version }, contentChanges: [change] });
    };
    return {
        started, diagnostics, send,
        ask: (method, params) => connection.sendRequest(method, params),
        async open(uri, text) {
            documents.set(uri, TextDocument.create(uri, 'orlop', 0, text));
            await connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'orlop', version: 0, text } });
        },
        text: (uri) => documents.get(uri)!.getText(),
        async type(uri, keys, heard = uri) {
            const answer = hear((other) => other === heard);
            const before = performance.now();
            send(uri, keys);
            await answer;
            return performance.now() - before;
        },
        async quiet(rest) {
            last = Math.max(last, performance.now());
            while (performance.now() - last < rest) await pause(rest / 4);
        },
        async memory() {
            const answer = once(child, 'message');
            child.send('memory');
            return (await answer)[0] as Memory;
        },
        async close() {
            const ended = once(child, 'exit');
            await connection.sendRequest('shutdown');
            await connection.sendNotification('exit');
            await ended;
            connection.dispose();
        },
    };
}
