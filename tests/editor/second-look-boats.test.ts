/** The second look at several boats: one that is not ready, or goes wrong, keeps none of the others waiting. */
import { DocumentState, URI, type LangiumDocument } from 'langium';
import type { LangiumServices } from 'langium/lsp';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Connection } from 'vscode-languageserver';
import type { Boats } from '../../src/language/boats';
import { lookAgain } from '../../src/language/lsp/second-look';

beforeEach(() => { vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] }); vi.spyOn(console, 'error').mockImplementation(() => {}); });
afterEach(() => { vi.useRealTimers(); vi.restoreAllMocks(); });

/** Boats of one file each, by name with the state of the file; `settle` of some fails. What was told of which. */
async function look(states: Readonly<Record<string, DocumentState>>, failing: readonly string[] = []): Promise<string[]> {
    const told: string[] = [];
    const validated: ((document: LangiumDocument) => void)[] = [];
    const documents = Object.entries(states).map(([name, state]) => ({ uri: URI.file(`/${name}/boat.orlop`), state, diagnostics: [] }) as unknown as LangiumDocument);
    const name = ({ uri }: Pick<LangiumDocument, 'uri'>): string => uri.path.split('/')[1]!;
    const boats = {
        files: (document: LangiumDocument) => [document],
        async settle(document: LangiumDocument, giveWay: () => Promise<boolean>) { await giveWay(); if (failing.includes(name(document))) throw new Error('a rule went wrong'); return true; },
    };
    lookAgain({
        shared: { workspace: { DocumentBuilder: { onUpdate: () => {}, onDocumentPhase: (_: DocumentState, then: (document: LangiumDocument) => void) => validated.push(then) } } },
        validation: { DocumentValidator: { validateDocument: async () => [{ message: 'from a slow rule' }] } },
    } as unknown as LangiumServices, boats as unknown as Boats, { sendDiagnostics: async ({ uri }: { uri: string }) => { told.push(name({ uri: URI.parse(uri) })); } } as unknown as Connection);
    for (const document of documents) validated[0]!(document);
    await vi.advanceTimersByTimeAsync(1000);
    for (let i = 0; i < 50; i++) await new Promise((resolve) => { setImmediate(resolve); });
    return told;
}

test('each boat is told once', async () => expect(await look({ one: DocumentState.Validated, two: DocumentState.Validated })).toEqual(['one', 'two']));
test('a boat whose files are still being read keeps no other waiting', async () => expect(await look({ one: DocumentState.Linked, two: DocumentState.Validated })).toEqual(['two']));
test('a boat in which a rule goes wrong keeps no other waiting, and the server stays up', async () => {
    expect(await look({ one: DocumentState.Validated, two: DocumentState.Validated }, ['one'])).toEqual(['two']);
    expect(console.error).toHaveBeenCalledOnce();
});
