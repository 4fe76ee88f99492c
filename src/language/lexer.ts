/** `lift` begins a part only before `pump`; elsewhere, as in `limits lift 900 mm`, it is a word. */
import { DefaultLexer, type LexerResult, type TokenizeOptions } from 'langium';

export class OrlopLexer extends DefaultLexer {
    override tokenize(text: string, options?: TokenizeOptions): LexerResult {
        const result = super.tokenize(text, options);
        const word = this.definition['WORD']!;
        result.tokens.forEach((token, i) => {
            if (token.image === 'lift' && result.tokens[i + 1]?.image !== 'pump') { token.tokenType = word; token.tokenTypeIdx = word.tokenTypeIdx!; }
        });
        return result;
    }
}
