/** Words that are the language's own only in their place, and plain words elsewhere; and texts put right before they are parsed. */
import { DefaultLexer, type LexerResult, type LexingReport, type TokenizeOptions } from 'langium';
import { repair } from './repairs';
import { readSigns, type TextSlip } from './signs';

/** These begin an entry at the head of a line. Elsewhere, as in `ends into the tank`, they are words. */
const HEADS: ReadonlySet<string> = new Set([
    'vessel', 'tank', 'engine', 'generator', 'heater', 'exchanger', 'selector', 'supply', 'transfer', 'line-up', 'tend', 'log', 'pattern', 'survey', 'refit',
    'procedure', 'locker', 'season', 'passage', 'waive', 'now',
]);

/** Words that were written for words of the language. */
export interface Meant extends LexingReport {
    readonly meant: ReadonlyMap<string, string>;
}

/** What the lexer tells is all of this kind. */
export type LexerSlip = LexerResult['errors'][number] & TextSlip;

export class OrlopLexer extends DefaultLexer {
    override tokenize(text: string, options?: TokenizeOptions): LexerResult {
        const signs = readSigns(text);
        const result = this.asWritten(signs.text, options);
        const strange = result.errors.map(({ offset, length }): TextSlip => ({ code: 'character', offset, length, message: strangeSign(text.slice(offset, offset + length)) }));
        const { tokens, slips, meant } = repair(result.tokens, this.definition);
        const errors: LexerSlip[] = [...signs.slips, ...strange, ...slips].map((slip) => ({ ...slip, line: undefined, column: undefined }));
        const report: Meant = { diagnostics: [], meant };
        return { ...result, tokens, errors, report };
    }

    /** The tokens of a text as it stands, with nothing put right: for whoever moves or counts what a person wrote. */
    asWritten(text: string, options?: TokenizeOptions): LexerResult {
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

const strangeSign = (text: string): string => /^[\p{C}\p{Z}]+$/u.test(text)
    ? 'A sign that cannot be seen stands here. Take it out: delete from the letter before it to the letter behind it, and type those again.'
    : `\`${[...text].slice(0, 20).join('')}\` is not part of the language here: take it out, or put it between quotes.`;
