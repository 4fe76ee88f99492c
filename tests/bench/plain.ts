/**
 * Langium as it comes, for our grammar: its own parser settings, linker and validator. Of ours it takes only what the texts
 * cannot be read and linked without: `lift` as a word, and names that reach across the files of a boat.
 */
import type { Module } from 'langium';
import { inject } from 'langium';
import { createDefaultModule, createDefaultSharedModule, type DefaultSharedModuleContext, type LangiumServices, type LangiumSharedServices, type PartialLangiumServices } from 'langium/lsp';
import { OrlopGeneratedModule, OrlopGeneratedSharedModule } from '../../src/language/generated/module';
import { OrlopLexer } from '../../src/language/lexer';
import { BoatScopeComputation, BoatScopeProvider } from '../../src/language/linking';

const reading: Module<LangiumServices, PartialLangiumServices> = {
    parser: { Lexer: (services) => new OrlopLexer(services) },
    references: { ScopeComputation: (services) => new BoatScopeComputation(services), ScopeProvider: (services) => new BoatScopeProvider(services) },
};

export function createPlainServices(context: DefaultSharedModuleContext): LangiumSharedServices {
    const shared = inject(createDefaultSharedModule(context), OrlopGeneratedSharedModule);
    shared.ServiceRegistry.register(inject(createDefaultModule({ shared }), OrlopGeneratedModule, reading));
    return shared;
}
