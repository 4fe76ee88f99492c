/** What can be folded away: blocks and runs of comments. Read from the braces, so that a half-typed text folds too. */
import type { LangiumDocument, Lexer } from 'langium';
import type { FoldingRangeProvider, LangiumServices } from 'langium/lsp';
import { FoldingRangeKind, type FoldingRange } from 'vscode-languageserver-protocol';

export class BoatFolding implements FoldingRangeProvider {
    private readonly lexer: Lexer;
    constructor(services: LangiumServices) {
        this.lexer = services.parser.Lexer;
    }

    getFoldingRanges({ textDocument }: LangiumDocument): FoldingRange[] {
        const { tokens, hidden } = this.lexer.tokenize(textDocument.getText());
        const lineOf = (offset: number): number => textDocument.positionAt(offset).line;
        const open: number[] = [];
        const blocks: FoldingRange[] = [];
        for (const { image, startOffset } of tokens) {
            if (image === '{') open.push(lineOf(startOffset));
            const startLine = image === '}' ? open.pop() : undefined;
            // The closing brace stays in sight.
            const endLine = lineOf(startOffset) - 1;
            if (startLine !== undefined && endLine > startLine) blocks.push({ startLine, endLine });
        }
        const bare = new Set(tokens.filter(({ tokenType }) => tokenType.name !== 'NL').map(({ startOffset }) => lineOf(startOffset)));
        const comments = hidden.filter(({ tokenType }) => tokenType.name === 'COMMENT').map(({ startOffset }) => lineOf(startOffset)).filter((line) => !bare.has(line));
        return [...blocks, ...runs(comments).filter(([from, to]) => to > from).map(([startLine, endLine]) => ({ startLine, endLine, kind: FoldingRangeKind.Comment }))];
    }
}

/** First and last of each run of numbers that follow one another. */
function runs(numbers: readonly number[]): (readonly [number, number])[] {
    const found: [number, number][] = [];
    for (const number of numbers) {
        const last = found.at(-1);
        if (last && number === last[1] + 1) last[1] = number; else found.push([number, number]);
    }
    return found;
}
