/** Words that are the language's own only in their place, and plain words elsewhere. */
import { DefaultLexer, type LexerResult, type TokenizeOptions } from 'langium';

/** These begin an entry at the head of a line. Elsewhere, as in `ends into the tank`, they are words. */
const HEADS: ReadonlySet<string> = new Set([
    'vessel', 'tank', 'engine', 'generator', 'heater', 'exchanger', 'selector', 'supply', 'transfer', 'line-up', 'tend', 'log', 'pattern', 'survey', 'refit',
    'procedure', 'locker', 'season', 'passage', 'waive', 'now',
]);

export class OrlopLexer extends DefaultLexer {
    override tokenize(text: string, options?: TokenizeOptions): LexerResult {
        const result = super.tokenize(text, options);
        const word = this.definition['WORD']!;
        result.tokens.forEach((token, i) => {
            // A line end lies on its own line; a range that ends with it ends there.
            if (token.tokenType.name === 'NL') { token.endLine = token.startLine!; token.endColumn = token.startColumn! - 1; }
            const before = result.tokens[i - 1];
            const atHead = before === undefined || before.tokenType.name === 'NL' || before.image === '}' || before.image === '{' || before.image === 'is';
            // `lift` begins a part only before `pump`: not in `limits inlet 20 kPa lift 900 mm`.
            const plain = token.image === 'lift' ? result.tokens[i + 1]?.image !== 'pump' : HEADS.has(token.image) && !atHead;
            if (plain) { token.tokenType = word; token.tokenTypeIdx = word.tokenTypeIdx!; }
        });
        return result;
    }
}
