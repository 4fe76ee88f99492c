/** The language with its editor services. */
import { DefaultWorkspaceManager, inject, type LangiumDocument, type Module, type WorkspaceFolder } from 'langium';
import { createDefaultModule, createDefaultSharedModule, type DefaultSharedModuleContext, type LangiumServices, type LangiumSharedServices, type PartialLangiumServices } from 'langium/lsp';
import { Boats } from '../boats';
import { OrlopGeneratedModule, OrlopGeneratedSharedModule } from '../generated/module';
import { LIBRARY, LIBRARY_TEXT } from '../library';
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

/** The library stands in every workspace. */
class OrlopWorkspace extends DefaultWorkspaceManager {
    private readonly factory: LangiumSharedServices['workspace']['LangiumDocumentFactory'];
    constructor(services: LangiumSharedServices) {
        super(services);
        this.factory = services.workspace.LangiumDocumentFactory;
    }
    protected override async loadAdditionalDocuments(_folders: WorkspaceFolder[], collect: (document: LangiumDocument) => void): Promise<void> {
        collect(this.factory.fromString(LIBRARY_TEXT, LIBRARY));
    }
}

export function createOrlopEditorServices(context: DefaultSharedModuleContext): OrlopEditorServices {
    const shared = inject(createDefaultSharedModule(context), OrlopGeneratedSharedModule, OrlopSharedModule, {
        workspace: { WorkspaceManager: (services: LangiumSharedServices) => new OrlopWorkspace(services) },
    });
    const boats = new Boats(shared);
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
