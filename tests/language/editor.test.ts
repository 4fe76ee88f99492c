/** The server as it ships, spoken to as an editor does: one process, standard input and output. */
import { spawn, type ChildProcess } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { StreamMessageReader, StreamMessageWriter, createMessageConnection, type MessageConnection } from 'vscode-jsonrpc/node';
import type { CodeAction, CompletionItem, CompletionList, Diagnostic, Hover, InitializeResult, Position, PublishDiagnosticsParams } from 'vscode-languageserver-protocol';

const SERVER = fileURLToPath(new URL('../../out/server.cjs', import.meta.url));
const FOLDER = new URL('../../examples/brackenwake/', import.meta.url);
const LINES = new URL('lines.orlop', FOLDER);
const text = readFileSync(LINES, 'utf8');

let server: ChildProcess;
let editor: MessageConnection;
let stderr = '';
let initialized: InitializeResult;
const published = new Map<string, Diagnostic[]>();
const waiting: (() => void)[] = [];

beforeAll(async () => {
    server = spawn(process.execPath, [SERVER, '--stdio'], { stdio: ['pipe', 'pipe', 'pipe'] });
    server.stderr!.on('data', (data: Buffer) => { stderr += data.toString(); });
    editor = createMessageConnection(new StreamMessageReader(server.stdout!), new StreamMessageWriter(server.stdin!));
    editor.onNotification('textDocument/publishDiagnostics', ({ uri, diagnostics }: PublishDiagnosticsParams) => {
        published.set(uri, diagnostics);
        for (const wake of waiting.splice(0)) wake();
    });
    editor.onRequest('client/registerCapability', () => null);
    editor.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) => items.map(() => null));
    editor.listen();
    const uri = FOLDER.href.replace(/\/$/, '');
    initialized = await editor.sendRequest('initialize', { processId: process.pid, rootUri: uri, workspaceFolders: [{ uri, name: 'brackenwake' }], capabilities: {} });
    await editor.sendNotification('initialized', {});
    await editor.sendNotification('textDocument/didOpen', { textDocument: { uri: LINES.href, languageId: 'orlop', version: 1, text } });
});

afterAll(async () => {
    await editor.sendRequest('shutdown');
    const ended = new Promise((done) => server.once('exit', done));
    await editor.sendNotification('exit');
    expect(await ended).toBe(0);
    editor.dispose();
    expect(stderr).toBe('');
});

/** Diagnostics of a file, as soon as some of them answer. */
async function diagnostics(uri: string, answer: (found: readonly Diagnostic[]) => boolean): Promise<Diagnostic[]> {
    for (;;) {
        const found = published.get(uri);
        if (found && answer(found)) return found;
        await new Promise<void>((wake) => waiting.push(wake));
    }
}

/** Where words stand in the text that is open; `@` marks the place within them. */
function at(words: string, within = text): Position {
    const offset = within.indexOf(words.replace('@', ''));
    expect(offset, words).toBeGreaterThanOrEqual(0);
    const before = within.slice(0, offset + Math.max(0, words.indexOf('@'))).split('\n');
    return { line: before.length - 1, character: before.at(-1)!.length };
}
const here = (words: string, within = text) => ({ textDocument: { uri: LINES.href }, position: at(words, within) });
let version = 1;
const type = (words: string): Promise<void> => editor.sendNotification('textDocument/didChange', { textDocument: { uri: LINES.href, version: ++version }, contentChanges: [{ text: words }] });

test('says what it can do', () => {
    expect(initialized.capabilities).toMatchObject({ hoverProvider: true, codeActionProvider: expect.anything(), completionProvider: expect.anything(), renameProvider: expect.anything(), referencesProvider: true });
});

test('judges all files of the boat, opened or not', async () => {
    // Brackenwake was drawn with faults: her return selector has a position that joins nothing.
    const found = await diagnostics(LINES.href, (all) => all.length > 0);
    expect(found.filter(({ code }) => code === 'RETURN-NO-BLOCK').map(({ range }) => text.split('\n')[range.start.line]!.slice(range.start.character, range.end.character))).toEqual(['SV2']);
    expect(found.every(({ source }) => source === 'orlop')).toBe(true);
    for (const file of readdirSync(FOLDER)) await diagnostics(new URL(file, FOLDER).href, () => true);
});

test('a request about a document that is not there is refused, and the server goes on', async () => {
    await expect(editor.sendRequest('textDocument/hover', { textDocument: { uri: new URL('nowhere.orlop', FOLDER).href }, position: { line: 0, character: 0 } })).rejects.toThrow();
    await expect(editor.sendRequest('textDocument/nothing', {})).rejects.toThrow();
    expect(await editor.sendRequest('textDocument/hover', here('shutoff @V2'))).not.toBeNull();
});

test('hover: a tank by its sections', async () => {
    const sections = 'tank T7 {\n  section at 0 mm fwd   corners 100 mm up 0 mm stbd, 100 mm up 500 mm stbd, 400 mm up 500 mm stbd, 400 mm up 0 mm stbd\n  section at 1 m fwd   corners 100 mm up 0 mm stbd, 100 mm up 500 mm stbd, 400 mm up 500 mm stbd, 400 mm up 0 mm stbd\n}\n';
    const uri = new URL('seven/tank.orlop', FOLDER).href;
    await editor.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'orlop', version: 1, text: sections } });
    const { contents } = await editor.sendRequest<Hover>('textDocument/hover', { textDocument: { uri }, position: { line: 0, character: 6 } });
    // 1000 x 500 x 300 mm
    expect((contents as { value: string }).value).toMatch(/gross 150 L; bottom 100 mm; top 400 mm/);
});

test('hover: the part with its figures', async () => {
    const { contents } = await editor.sendRequest<Hover>('textDocument/hover', here('hose @S2 '));
    // 10 mm bore: π/4 x 10² = 78.540 mm², x 1.80 m = 141.4 mL
    expect(contents).toMatchObject({ value: expect.stringMatching(/\*\*S2\*\* hose in FromStbd[^]*after V2[^]*holds 141 mL/) });
});

test('hover: what flows there, as it runs at full', async () => {
    const said = async (where: string): Promise<string> => ((await editor.sendRequest<Hover>('textDocument/hover', here(where))).contents as { value: string }).value;
    // 60 L/h at 3000 rpm = 1.6667e-5 m³/s; in 10 mm, 78.54 mm²: 0.212 m/s. S3 is behind the selector, S2 in the leg that RUN-PORT does not draw from.
    expect(await said('hose @S3 ')).toMatch(/Running at full in RUN-PORT, upright, tanks at their lowest: 60 L\/h at 0\.21 m\/s, which takes [\d.]+ kPa \([\d.]+ inHg\); at its end a suction of [\d.]+ kPa/);
    expect(await said('hose @S2 ')).not.toContain('Running at full');
    expect(await said('gauge @G1')).toMatch(/a suction of [\d.]+ kPa \([\d.]+ inHg\) with new elements, a suction of [\d.]+ kPa \([\d.]+ inHg\) with those that are to be renewed\. Guessed: what F1 takes\./);
    expect(await said('filter @F1')).toMatch(/60 L\/h; a suction of [\d.]+ kPa .* before it and a suction of [\d.]+ kPa .* behind, its element to be renewed/);
    expect(await said('lift pump @LP1')).toMatch(/60 L\/h; at its inlet a suction of/);
    expect(await said('to @E1')).toMatch(/it draws 60 L\/h and gives back 44\.5 L\/h; LP1 draws against a suction of [\d.]+ kPa .*, limit 20 kPa/);
});

test('code actions: the sequence of the filter at the cursor, and the usual intervals', async () => {
    const position = at('filter @F1');
    const actions = await editor.sendRequest<CodeAction[]>('textDocument/codeAction', { textDocument: { uri: LINES.href }, range: { start: position, end: position }, context: { diagnostics: [] } });
    expect(actions.map(({ title }) => title)).toEqual(expect.arrayContaining(['Write the bleed sequence of E1 after opening F1', 'Write the usual intervals for parts that have none']));
    const written = actions.find(({ title }) => title.endsWith('opening F1'))!.edit!.changes![LINES.href]!;
    expect(written.map(({ newText }) => newText).join('')).toMatch(/^\nbleed E1 {3}after opening F1 .* kept \{\n[^]*\n\}\n$/);
});

test('code actions: the usual intervals mend what has none', async () => {
    const found = (await diagnostics(LINES.href, (all) => all.some(({ code }) => code === 'TASK-SET'))).find(({ code }) => code === 'TASK-SET')!;
    const actions = await editor.sendRequest<CodeAction[]>('textDocument/codeAction', { textDocument: { uri: LINES.href }, range: found.range, context: { diagnostics: [found] } });
    expect(actions.find(({ title }) => title === 'Write the usual intervals for parts that have none')).toMatchObject({ kind: 'quickfix', diagnostics: [{ code: 'TASK-SET' }] });
});

test('completion: after the shutoff of a course a hose comes first; a typed change is judged', async () => {
    const cut = text.slice(0, text.indexOf('  hose S2 '));
    await type(`${cut}  \n`);
    const answer = await editor.sendRequest<CompletionList | CompletionItem[]>('textDocument/completion', { textDocument: { uri: LINES.href }, position: { line: cut.split('\n').length - 1, character: 2 } });
    const items = (Array.isArray(answer) ? answer : answer.items).toSorted((a, b) => (a.sortText! < b.sortText! ? -1 : 1));
    expect(items[0]).toMatchObject({ label: 'hose' });
    expect(items.map(({ label }) => label)).toEqual(expect.arrayContaining(['tube', 'filter', 'primer', 'lift pump', 'split']));
    expect(await diagnostics(LINES.href, (all) => all.some(({ code }) => code === 'syntax'))).toContainEqual(expect.objectContaining({ message: '`supply course FromStbd` is still open where the text ends: a `}` is missing.' }));
    await type(text);
    expect((await diagnostics(LINES.href, (all) => all.every(({ code }) => code !== 'syntax'))).map(({ code }) => code)).toContain('RETURN-NO-BLOCK');
});

test.each(['vscode-jsonrpc', 'vscode-languageserver-protocol', 'vscode-languageserver-types'])('%s is installed once: two copies do not know each other\'s errors', (name) => {
    const modules = fileURLToPath(new URL('../../node_modules', import.meta.url));
    const found = (folder: string): string[] => readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory()).flatMap(({ name: own }): string[] => {
        const path = `${folder}/${own}`;
        if (own.startsWith('@')) return found(path);
        const nested = readdirSync(path).includes('node_modules') ? found(`${path}/node_modules`) : [];
        return own === name ? [path, ...nested] : nested;
    });
    expect(found(modules)).toEqual([`${modules}/${name}`]);
});
