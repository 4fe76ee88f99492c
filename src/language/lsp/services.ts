/** The language with its editor services. */
import { inject, type Module } from 'langium';
import { createDefaultModule, createDefaultSharedModule, type DefaultSharedModuleContext, type LangiumServices, type LangiumSharedServices, type PartialLangiumServices } from 'langium/lsp';
import { Boats } from '../boats';
import { OrlopGeneratedModule, OrlopGeneratedSharedModule } from '../generated/module';
import { OrlopModule, OrlopSharedModule } from '../services';
import { BoatActions } from './actions';
import { BoatCompletion } from './completion';
import { BoatDiagnostics } from './diagnostics';
import { BoatHover } from './hover';

export interface OrlopEditorServices {
    readonly shared: LangiumSharedServices;
    readonly Orlop: LangiumServices;
    readonly boats: Boats;
}

/** `today` gives the day of judgement as an ISO date; without it nothing is judged by its age. */
export function createOrlopEditorServices(context: DefaultSharedModuleContext, today?: () => string): OrlopEditorServices {
    const shared = inject(createDefaultSharedModule(context), OrlopGeneratedSharedModule, OrlopSharedModule);
    const boats = new Boats(shared, today);
    const known = (): Boats => boats;
    const editor: Module<LangiumServices, PartialLangiumServices> = {
        validation: { DocumentValidator: () => new BoatDiagnostics(known) },
        lsp: {
            CompletionProvider: () => new BoatCompletion(known), HoverProvider: () => new BoatHover(known), CodeActionProvider: () => new BoatActions(known),
        },
    };
    const Orlop = inject(createDefaultModule({ shared }), OrlopGeneratedModule, OrlopModule, editor);
    shared.ServiceRegistry.register(Orlop);
    return { shared, Orlop, boats };
}
