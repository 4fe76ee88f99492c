/** The parser, whose trees hold what was meant where a word of the language was misspelt. */
import { AstUtils, LangiumParser, createParser, type AstNode, type LangiumCoreServices, type ParseResult, type ParserOptions } from 'langium';
import type { Meant } from './lexer';

const KINDS = ['kind', 'service', 'driven'] as const;

export class OrlopParser extends LangiumParser {
    override parse<T extends AstNode = AstNode>(input: string, options?: ParserOptions): ParseResult<T> {
        const result = super.parse<T>(input, options);
        const meant = (result.lexerReport as Meant | undefined)?.meant;
        if (meant && meant.size > 0) for (const node of AstUtils.streamAst(result.value)) {
            const words = node as { [word in typeof KINDS[number]]?: string };
            for (const word of KINDS) words[word] &&= meant.get(words[word]) ?? words[word];
        }
        return result;
    }
}

export function createOrlopParser(services: LangiumCoreServices): LangiumParser {
    const parser = createParser(services.Grammar, new OrlopParser(services), services.parser.Lexer.definition);
    parser.finalize();
    return parser;
}
