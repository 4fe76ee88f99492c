/** Of questions of one kind only the newest is answered: each one ends the one before. */
import { CancellationTokenSource } from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';

export class Newest {
    private last: CancellationTokenSource | undefined;

    constructor(private readonly client: LanguageClient) {}

    /** Undefined when a newer question came, or when there is no server to ask. */
    async ask<Params, Result>(method: string, params: Params): Promise<Result | undefined> {
        this.last?.cancel();
        const own = this.last = new CancellationTokenSource();
        try {
            const result = await this.client.sendRequest<Result>(method, params, own.token);
            return this.last === own ? result : undefined;
        } catch (error) {
            if (!own.token.isCancellationRequested) this.client.warn(`${method} was not answered: ${error instanceof Error ? error.message : String(error)}`);
            return undefined;
        } finally {
            own.dispose();
        }
    }
}
