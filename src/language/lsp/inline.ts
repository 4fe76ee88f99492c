/** Figures in the text, behind the fact that they come from, for whoever switches them on. */
import type { LangiumDocument, LangiumSharedCoreServices } from 'langium';
import type { InlayHintProvider } from 'langium/lsp';
import type { InlayHint, InlayHintParams, Position } from 'vscode-languageserver-protocol';
import { briefsOf } from '../../documents/heights/brief';
import type { LangiumSharedServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import type { Boats } from '../boats';

/** The setting, as the editor calls it: orlop.inlineFigures. */
export const INLINE = 'inlineFigures';

export class BoatFigures implements InlayHintProvider {
    constructor(private readonly shared: LangiumSharedCoreServices, private readonly boats: () => Boats) {}

    async getInlayHints(document: LangiumDocument, { range }: InlayHintParams): Promise<InlayHint[]> {
        if (await this.shared.workspace.ConfigurationProvider.getConfiguration('orlop', INLINE) !== true) return [];
        const { boat, sources } = this.boats().atOnce(document);
        const uri = document.uri.toString();
        const before = (a: Position, b: Position): boolean => a.line < b.line || (a.line === b.line && a.character <= b.character);
        const ids = [...boat.tanks.flatMap(({ id, fittings }) => [id, ...fittings.map((fitting) => fitting.id)]), ...boat.parts.map(({ id }) => id)];
        return ids.flatMap((id) => {
            const source = sources.find(id);
            if (source?.uri !== uri || !before(source.range.start, range.end) || !before(range.start, source.range.end)) return [];
            return briefsOf(boat, id).flatMap(({ fact, words }): InlayHint[] => {
                const place = sources.findFact(id, fact);
                return place?.uri === uri ? [{ position: place.range.end, label: words, paddingLeft: true }] : [];
            });
        }).sort((a, b) => a.position.line - b.position.line || a.position.character - b.position.character);
    }
}

/** The editor asks again when the setting is changed, where it can. */
export function refreshFigures({ lsp, workspace }: LangiumSharedServices, connection: Connection): void {
    let refreshes = false;
    lsp.LanguageServer.onInitialize(({ capabilities }) => { refreshes = capabilities.workspace?.inlayHint?.refreshSupport === true; });
    workspace.ConfigurationProvider.onConfigurationSectionUpdate(() => { if (refreshes) connection.languages.inlayHint.refresh(); });
}
