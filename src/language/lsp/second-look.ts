/**
 * A moment after the last key the slow rules are asked, boat by boat, and what they say is sent after the rest. A key in between
 * puts it off: what was begun is dropped at the next rule.
 */
import { DocumentState, type LangiumDocument } from 'langium';
import type { LangiumServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import type { Boats } from '../boats';
import { boatOf } from '../folders';

/** After this without a key, ms. With the rules themselves it stays below what a person notices as waiting. */
const MOMENT = 60;

export function lookAgain({ shared, validation }: LangiumServices, boats: Boats, connection: Connection): void {
    const { DocumentBuilder } = shared.workspace;
    /** One file of each boat that is to be looked at again. */
    const waiting = new Map<string, LangiumDocument>();
    let timer: NodeJS.Timeout | undefined;
    let turn = 0;

    const start = (): void => {
        turn++;
        clearTimeout(timer);
        timer = setTimeout(() => void look(turn), MOMENT);
    };
    DocumentBuilder.onUpdate(() => { if (waiting.size > 0) start(); });
    DocumentBuilder.onDocumentPhase(DocumentState.Validated, (document) => { waiting.set(boatOf(document.uri), document); start(); });

    const look = async (own: number): Promise<void> => {
        const goesOn = async (): Promise<boolean> => { await new Promise((resolve) => { setImmediate(resolve); }); return own === turn; };
        for (const [boat, document] of [...waiting]) {
            const files = boats.files(document);
            if (files.some(({ state }) => state < DocumentState.Validated)) continue; // it will be told when they are
            try {
                const settled = files.length > 0 && await boats.settle(document, goesOn);
                if (own !== turn) return;
                waiting.delete(boat);
                if (settled) for (const file of files) await tell(file);
            } catch (error) {
                // Nobody waits for this look: what goes wrong in one boat, or with an editor that has gone, must not end the server.
                waiting.delete(boat);
                console.error('A second look at', boat, 'failed:', error);
            }
        }
    };

    const tell = async (file: LangiumDocument): Promise<void> => {
        const before = JSON.stringify(file.diagnostics);
        const diagnostics = await validation.DocumentValidator.validateDocument(file);
        if (file.state < DocumentState.Validated || JSON.stringify(diagnostics) === before) return;
        file.diagnostics = diagnostics;
        await connection.sendDiagnostics({ uri: file.uri.toString(), diagnostics });
    };
}
