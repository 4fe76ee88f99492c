/** The language with its editor services. */
import { createGrammarConfig, inject, type Module } from 'langium';
import { createDefaultModule, createDefaultSharedModule, type DefaultSharedModuleContext, type LangiumServices, type LangiumSharedServices, type PartialLangiumServices } from 'langium/lsp';
import { Boats } from '../boats';
import { OrlopGeneratedModule, OrlopGeneratedSharedModule } from '../generated/module';
import { OrlopModule, OrlopSharedModule } from '../services';
import { BoatActions } from './actions';
import { BoatCompletion } from './completion';
import { BoatDiagnostics } from './diagnostics';
import { BoatFormatter } from './format';
import { BoatHover } from './hover';
import { BoatReferences } from './references';
import { BoatRename } from './rename';

export interface OrlopEditorServices {
    readonly shared: LangiumSharedServices;
    readonly Orlop: LangiumServices;
    readonly boats: Boats;
}

export function createOrlopEditorServices(context: DefaultSharedModuleContext): OrlopEditorServices {
    const shared = inject(createDefaultSharedModule(context), OrlopGeneratedSharedModule, OrlopSharedModule);
    const boats = new Boats(shared);
    const known = (): Boats => boats;
    const editor: Module<LangiumServices, PartialLangiumServices> = {
        // A name may have letters of any script.
        parser: { GrammarConfig: (services) => ({ ...createGrammarConfig(services), nameRegexp: /[\p{L}\p{N}_]/u }) },
        references: { References: (services) => new BoatReferences(services, known) },
        validation: { DocumentValidator: () => new BoatDiagnostics(known) },
        lsp: {
            CompletionProvider: () => new BoatCompletion(known), HoverProvider: () => new BoatHover(known), CodeActionProvider: () => new BoatActions(known),
            Formatter: (services) => new BoatFormatter(services),
            RenameProvider: (services) => new BoatRename(services, known),
        },
    };
    const Orlop = inject(createDefaultModule({ shared }), OrlopGeneratedModule, OrlopModule, editor);
    shared.ServiceRegistry.register(Orlop);
    return { shared, Orlop, boats };
}
