/** From a typed character to the diagnostics of its file, through the bundled server, as an editor talks to it. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { StreamMessageReader, StreamMessageWriter, createMessageConnection } from 'vscode-jsonrpc/node';
import type { Row } from './table';

const WARM_UP = 20;
/** Between two keys, ms: the server's answers for the other files of the boat are through by then. */
const REST = 30;

/** The two servers are typed to turn about, so that a busy moment of the machine falls on both. */
export async function keystrokes(name: string, folder: string, file: string, samples: number): Promise<Row[]> {
    const editors = [await openEditor('out/bench/plain-server.cjs', folder, file), await openEditor('out/server.cjs', folder, file)];
    const times = editors.map((): number[] => []);
    for (let run = -WARM_UP; run < samples; run++) {
        for (const [i, editor] of editors.entries()) {
            const time = await editor.type();
            if (run >= 0) times[i]!.push(time);
            await pause(REST);
        }
    }
    for (const editor of editors) await editor.close();
    return [
        { what: 'keystroke to diagnostics, plain', boat: name, samples: times[0]! },
        { what: 'keystroke to diagnostics', boat: name, samples: times[1]!, against: times[0]! },
    ];
}

interface Editor {
    /** Types one character over another in the middle of a course line, and waits for the diagnostics of the file; ms. */
    readonly type: () => Promise<number>;
    readonly close: () => Promise<void>;
}

async function openEditor(server: string, folder: string, file: string): Promise<Editor> {
    const child = spawn(process.execPath, [server, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
    const uri = pathToFileURL(join(folder, file)).href;
    const text = readFileSync(join(folder, file), 'utf8');
    let heard = (): void => {};
    const diagnostics = (): Promise<void> => new Promise((resolve) => { heard = resolve; });
    connection.onNotification('textDocument/publishDiagnostics', (params: { uri: string }) => { if (params.uri === uri) heard(); });
    connection.listen();
    await connection.sendRequest('initialize', { processId: process.pid, rootUri: pathToFileURL(folder).href, capabilities: {}, workspaceFolders: [{ uri: pathToFileURL(folder).href, name: 'boat' }] });
    const first = diagnostics();
    await connection.sendNotification('initialized', {});
    await first;
    const opened = diagnostics();
    await connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'orlop', version: 0, text } });
    await Promise.race([opened, pause(500)]); // an unchanged text need not be judged again
    await pause(REST);

    const place = lengthDigit(text);
    let version = 0;
    return {
        async type() {
            version++;
            const { line, character } = place;
            const range = { start: { line, character }, end: { line, character: character + 1 } };
            const answer = diagnostics();
            const before = performance.now();
            void connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ range, text: String(version % 10) }] });
            await answer;
            return performance.now() - before;
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

/** The last digit of the first length in a course: `hose S1 bore 8 mm length 2.60 m`. */
function lengthDigit(text: string): { line: number; character: number } {
    for (const [line, words] of text.split('\n').entries()) {
        const upToDigit = /^\s+(?:hose|tube)\b.* length \d+\.\d*(?=\d m)/.exec(words);
        if (upToDigit) return { line, character: upToDigit[0].length };
    }
    throw new Error('There is no length in this file to type at.');
}
