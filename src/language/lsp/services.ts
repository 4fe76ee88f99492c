/** The language with its editor services. */
import { DefaultWorkspaceManager, createGrammarConfig, inject, type LangiumDocument, type Module, type WorkspaceFolder } from 'langium';
import { createDefaultModule, createDefaultSharedModule, type DefaultSharedModuleContext, type LangiumServices, type LangiumSharedServices, type PartialLangiumServices, type PartialLangiumSharedServices } from 'langium/lsp';
import { Boats } from '../boats';
import { OrlopGeneratedModule, OrlopGeneratedSharedModule } from '../generated/module';
import { LIBRARY, LIBRARY_TEXT } from '../library';
import { OrlopModule, OrlopSharedModule } from '../services';
import { BoatActions } from './actions';
import { BoatColours } from './colours';
import { BoatCompletion } from './completion';
import { BoatDiagnostics } from './diagnostics';
import { BoatFlow } from './flow';
import { BoatFolding } from './folding';
import { BoatFormatter } from './format';
import { BoatHover } from './hover';
import { BoatFigures, refreshFigures } from './inline';
import { BoatKinds } from './kinds';
import { BoatLens } from './lens';
import { BoatOutline, BoatSymbols } from './outline';
import { BoatReferences } from './references';
import { BoatRename } from './rename';
import { lookAgain } from './second-look';
import { BoatServer } from './server';

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

/** `today` gives the day of judgement as an ISO date; without it nothing is judged by its age. */
export function createOrlopEditorServices(context: DefaultSharedModuleContext, today?: () => string): OrlopEditorServices {
    const all: Module<LangiumSharedServices, PartialLangiumSharedServices> = {
        workspace: { WorkspaceManager: (services) => new OrlopWorkspace(services) },
        lsp: { LanguageServer: (services) => new BoatServer(services), NodeKindProvider: () => new BoatKinds(), WorkspaceSymbolProvider: (services) => new BoatSymbols(services) },
    };
    const shared = inject(createDefaultSharedModule(context), OrlopGeneratedSharedModule, OrlopSharedModule, all);
    const boats = new Boats(shared, today);
    const known = (): Boats => boats;
    const editor: Module<LangiumServices, PartialLangiumServices> = {
        // A name may have letters of any script.
        parser: { GrammarConfig: (services) => ({ ...createGrammarConfig(services), nameRegexp: /[\p{L}\p{N}_]/u }) },
        references: { References: (services) => new BoatReferences(services, known) },
        validation: { DocumentValidator: () => new BoatDiagnostics(known, context.connection !== undefined) },
        lsp: {
            CompletionProvider: () => new BoatCompletion(known), HoverProvider: () => new BoatHover(known), CodeActionProvider: (services) => new BoatActions(services, known),
            DocumentSymbolProvider: () => new BoatOutline(), FoldingRangeProvider: (services) => new BoatFolding(services), SemanticTokenProvider: (services) => new BoatColours(services),
            CodeLensProvider: () => new BoatLens(known), CallHierarchyProvider: (services) => new BoatFlow(services, known),
            Formatter: (services) => new BoatFormatter(services), InlayHintProvider: () => new BoatFigures(shared, known),
            RenameProvider: (services) => new BoatRename(services, known),
        },
    };
    const Orlop = inject(createDefaultModule({ shared }), OrlopGeneratedModule, OrlopModule, editor);
    shared.ServiceRegistry.register(Orlop);
    if (context.connection) { lookAgain(Orlop, boats, context.connection); refreshFigures(shared, context.connection); }
    return { shared, Orlop, boats };
}
