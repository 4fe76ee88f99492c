/** Whatever is asked, wherever, of whatever text: an answer or a refusal in words, never an error; and never a wait. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ResponseError } from 'vscode-jsonrpc';
import { LSPErrorCodes, type CallHierarchyItem, type CodeLens, type Position, type Range } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { lots } from '../oracle/random-boats';
import { spoil, type Lot } from '../bad-input/slips';
import { BOATS, openEditor, textsOf, type Editor, type Texts } from './editor';

const HULK = readFileSync(new URL('../bad-input/hulk/hulk.orlop', import.meta.url), 'utf8');
const ALL: readonly (readonly [string, Texts])[] = [...BOATS.map((boat) => [boat, textsOf(boat)] as const), ['hulk', { 'hulk.orlop': HULK }]];
/** ms; nothing that a person waits for takes longer, even on a busy machine. */
const SLOW = 3000;

let editor: Editor;
const refusals = new Map<string, number>();
let answers = 0;
beforeAll(async () => { editor = await openEditor(); });
afterAll(async () => expect(await editor.close()).toEqual({ code: 0, stderr: '' }));

async function ask<T>(wrong: string[], method: string, params: unknown, mayRefuse = false): Promise<T | undefined> {
    const begun = performance.now();
    try {
        const answer = await editor.ask<T>(method, params);
        answers++;
        if (performance.now() - begun > SLOW) wrong.push(`${method}: took ${Math.round(performance.now() - begun)} ms`);
        return answer ?? undefined;
    } catch (error) {
        const sentence = error instanceof ResponseError && error.code === LSPErrorCodes.RequestFailed && /^[^a-z].*\.$/s.test(error.message);
        if (mayRefuse && sentence) refusals.set(method, (refusals.get(method) ?? 0) + 1);
        else wrong.push(`${method} ${JSON.stringify(params)}: ${String(error)}`);
        return undefined;
    }
}

/** Asks everything once, at places drawn by lot. */
async function askAll(boat: string, file: string, text: string, lot: Lot): Promise<string[]> {
    const wrong: string[] = [];
    const textDocument = { uri: editor.uri(boat, file) };
    const document = TextDocument.create(textDocument.uri, 'orlop', 0, text);
    const place = (): Position => document.positionAt(Math.floor(lot() * (text.length + 1)));
    const position = place();
    const ends = [document.offsetAt(place()), document.offsetAt(place())].sort((a, b) => a - b).map((offset) => document.positionAt(offset));
    const range: Range = { start: ends[0]!, end: ends[1]! };
    const at = { textDocument, position };
    const options = { tabSize: 2, insertSpaces: true };
    for (const method of ['hover', 'definition', 'documentHighlight', 'completion']) await ask(wrong, `textDocument/${method}`, at);
    await ask(wrong, 'textDocument/references', { ...at, context: { includeDeclaration: true } });
    await ask(wrong, 'textDocument/prepareRename', at, true);
    await ask(wrong, 'textDocument/rename', { ...at, newName: lot() < 0.5 ? 'Zz-9' : 'V1' }, true);
    for (const method of ['documentSymbol', 'foldingRange', 'semanticTokens/full']) await ask(wrong, `textDocument/${method}`, { textDocument });
    await ask(wrong, 'textDocument/semanticTokens/range', { textDocument, range });
    await ask(wrong, 'textDocument/selectionRange', { textDocument, positions: [position, range.start] });
    await ask(wrong, 'textDocument/formatting', { textDocument, options });
    await ask(wrong, 'textDocument/rangeFormatting', { textDocument, range, options });
    await ask(wrong, 'textDocument/onTypeFormatting', { ...at, ch: '}', options });
    await ask(wrong, 'textDocument/codeAction', { textDocument, range: { start: position, end: position }, context: { diagnostics: [] } });
    await ask(wrong, 'workspace/symbol', { query: 'F1' });
    for (const lens of (await ask<CodeLens[]>(wrong, 'textDocument/codeLens', { textDocument }))?.slice(0, 3) ?? []) {
        const title = (await ask<CodeLens>(wrong, 'codeLens/resolve', lens))?.command?.title;
        if (title === undefined || title === '' || /NaN|undefined/.test(title)) wrong.push(`a code lens says ${title}`);
    }
    for (const item of (await ask<CallHierarchyItem[]>(wrong, 'textDocument/prepareCallHierarchy', at)) ?? []) {
        await ask(wrong, 'callHierarchy/incomingCalls', { item });
        await ask(wrong, 'callHierarchy/outgoingCalls', { item });
    }
    return wrong;
}

describe.each(ALL)('%s', (boat, texts) => {
    test('as it stands', async () => {
        await editor.open(boat, texts);
        const lot = lots(11);
        const wrong: string[] = [];
        for (let i = 0; i < 12; i++) for (const [file, text] of Object.entries(texts)) wrong.push(...await askAll(boat, file, text, lot));
        expect(wrong).toEqual([]);
    }, 120_000);
    test('mutilated', async () => {
        const lot = lots(12);
        const wrong: string[] = [];
        for (let i = 0; i < 25; i++) {
            const spoilt = spoil(texts, lot);
            await editor.open(boat, spoilt.texts);
            wrong.push(...(await askAll(boat, spoilt.file, spoilt.texts[spoilt.file]!, lot)).map((fault) => `${spoilt.how}: ${fault}`));
        }
        expect(wrong).toEqual([]);
        await editor.open(boat, texts);
    }, 240_000);
});

test('what is refused is what cannot be renamed, and some of it can', () => {
    expect([...refusals.keys()].sort()).toEqual(['textDocument/prepareRename', 'textDocument/rename']);
    for (const [, count] of refusals) { expect(count).toBeGreaterThan(0); expect(count).toBeLessThan(answers / 10); }
});
