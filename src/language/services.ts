/** The language without an editor: parser, linker and scopes of boats. The terminal needs no more. */
import type { CstNode, DefaultSharedCoreModuleContext, GrammarAST, LangiumCoreServices, LangiumSharedCoreServices, Module, PartialLangiumCoreServices, ValueType } from 'langium';
import { DefaultValueConverter, createDefaultCoreModule, createDefaultSharedCoreModule, inject } from 'langium';
import { OrlopGeneratedModule, OrlopGeneratedSharedModule } from './generated/module';
import { BoatBuilder } from './builder';
import { BoatIndexManager, BoatLinker, BoatScopeComputation, BoatScopeProvider } from './linking';
import { OrlopLexer } from './lexer';
import { PlainParserMessages } from './parse-messages';
import { createOrlopParser } from './parser';

/** What stands between quotes is taken sign for sign: in `"C:\new"` is no new line. */
class Verbatim extends DefaultValueConverter {
    protected override runConverter(rule: GrammarAST.AbstractRule, input: string, node: CstNode): ValueType {
        return rule.name === 'STRING' ? input.slice(1).replace(/"$/, '') : super.runConverter(rule, input, node);
    }
}

export const OrlopModule: Module<LangiumCoreServices, PartialLangiumCoreServices> = {
    parser: {
        Lexer: (services) => new OrlopLexer(services), LangiumParser: (services) => createOrlopParser(services),
        ParserErrorMessageProvider: () => new PlainParserMessages(), ValueConverter: () => new Verbatim(),
    },
    references: {
        ScopeComputation: (services) => new BoatScopeComputation(services),
        ScopeProvider: (services) => new BoatScopeProvider(services),
        Linker: (services) => new BoatLinker(services),
    },
};

export const OrlopSharedModule = {
    workspace: {
        IndexManager: (services: LangiumSharedCoreServices) => new BoatIndexManager(services),
        DocumentBuilder: (services: LangiumSharedCoreServices) => new BoatBuilder(services),
    },
};

export interface OrlopServices {
    readonly shared: LangiumSharedCoreServices;
    readonly Orlop: LangiumCoreServices;
}

export function createOrlopServices(context: DefaultSharedCoreModuleContext): OrlopServices {
    const shared = inject(createDefaultSharedCoreModule(context), OrlopGeneratedSharedModule, OrlopSharedModule);
    const Orlop = inject(createDefaultCoreModule({ shared }), OrlopGeneratedModule, OrlopModule);
    shared.ServiceRegistry.register(Orlop);
    return { shared, Orlop };
}
