/** The language without an editor: parser, linker and scopes of boats. The terminal needs no more. */
import type { DefaultSharedCoreModuleContext, LangiumCoreServices, LangiumSharedCoreServices, Module, PartialLangiumCoreServices } from 'langium';
import { createDefaultCoreModule, createDefaultSharedCoreModule, inject } from 'langium';
import { OrlopGeneratedModule, OrlopGeneratedSharedModule } from './generated/module';
import { BoatBuilder } from './builder';
import { BoatIndexManager, BoatLinker, BoatScopeComputation, BoatScopeProvider } from './linking';
import { OrlopLexer } from './lexer';
import { PlainParserMessages } from './parse-messages';
import { createOrlopParser } from './parser';

export const OrlopModule: Module<LangiumCoreServices, PartialLangiumCoreServices> = {
    parser: {
        Lexer: (services) => new OrlopLexer(services), LangiumParser: (services) => createOrlopParser(services),
        ParserErrorMessageProvider: () => new PlainParserMessages(),
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
