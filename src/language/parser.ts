/** The parser, whose trees hold what was meant where a word of the language was misspelt. */
import { AstUtils, LangiumParser, createParser, type AstNode, type LangiumCoreServices, type ParseResult, type ParserOptions } from 'langium';
import type { LexerSlip, Meant } from './lexer';

const KINDS = ['kind', 'service', 'driven'] as const;

export class OrlopParser extends LangiumParser {
    override parse<T extends AstNode = AstNode>(input: string, options?: ParserOptions): ParseResult<T> {
        const result = this.parsed<T>(input, options);
        const meant = (result.lexerReport as Meant | undefined)?.meant;
        if (meant && meant.size > 0) for (const node of AstUtils.streamAst(result.value)) {
            const words = node as { [word in typeof KINDS[number]]?: string };
            for (const word of KINDS) words[word] &&= meant.get(words[word]) ?? words[word];
        }
        return result;
    }

    /** Recovery goes down by recursion, one step for each line that cannot be read; past some hundreds the stack is at its end. */
    private parsed<T extends AstNode>(input: string, options?: ParserOptions): ParseResult<T> {
        try {
            return super.parse<T>(input, options);
        } catch (error) {
            if (!(error instanceof RangeError)) throw error;
            (this as unknown as { stack: unknown[] }).stack.length = 0;
            const empty = super.parse<T>('', options);
            const told: LexerSlip = {
                code: 'syntax', offset: 0, length: input.search(/[\r\n]|$/), line: undefined, column: undefined,
                message: 'Too many lines of this text cannot be read, so none of it is. Is it a text of Orlop? If it is, mend it from the top, or put back the last one that was read.',
            };
            return { ...empty, lexerErrors: [told] };
        }
    }
}

export function createOrlopParser(services: LangiumCoreServices): LangiumParser {
    const parser = createParser(services.Grammar, new OrlopParser(services), services.parser.Lexer.definition);
    parser.finalize();
    return parser;
}
