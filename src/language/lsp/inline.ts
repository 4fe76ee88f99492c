/** Figures in the text, behind the line that they come from, for whoever switches them on. */
import type { LangiumDocument, LangiumSharedCoreServices } from 'langium';
import type { InlayHintProvider, LangiumSharedServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import type { InlayHint, InlayHintParams, Position } from 'vscode-languageserver-protocol';
import { flowBriefsOf } from '../../documents/flow/brief';
import { briefsOf } from '../../documents/heights/brief';
import type { Boats } from '../boats';

/** The setting, as the editor calls it: orlop.inlineFigures. */
const INLINE = 'inlineFigures';

export class BoatFigures implements InlayHintProvider {
    constructor(private readonly shared: LangiumSharedCoreServices, private readonly boats: () => Boats) {}

    async getInlayHints(document: LangiumDocument, { range }: InlayHintParams): Promise<InlayHint[]> {
        if (await this.shared.workspace.ConfigurationProvider.getConfiguration('orlop', INLINE) !== true) return [];
        const { boat, sources } = this.boats().atOnce(document);
        const uri = document.uri.toString();
        const before = (a: Position, b: Position): boolean => a.line < b.line || (a.line === b.line && a.character <= b.character);
        const ids = [...boat.tanks.flatMap(({ id, fittings }) => [id, ...fittings.map((fitting) => fitting.id)]), ...boat.parts.map(({ id }) => id), ...boat.consumers.map(({ id }) => id)];
        const told = new Map<number, string[]>();
        for (const id of ids) {
            const source = sources.find(id);
            if (source?.uri !== uri || !before(source.range.start, range.end) || !before(range.start, source.range.end)) continue;
            for (const { fact, words } of [...briefsOf(boat, id), ...flowBriefsOf(boat, id)]) {
                const place = sources.findFact(id, fact);
                if (place?.uri === uri) told.set(place.range.end.line, [...(told.get(place.range.end.line) ?? []), `${fact}: ${words}`]);
            }
        }
        // Behind all that stands on the line: within it they would push the columns apart.
        const lines = document.textDocument.getText().split(/\r\n|\r|\n/);
        return [...told].sort(([a], [b]) => a - b).map(([line, words]) => ({ position: { line, character: lines[line]!.trimEnd().length }, label: words.join('; '), paddingLeft: true }));
    }
}

/** The editor asks again when the setting is changed, where it can. */
export function refreshFigures({ lsp, workspace }: LangiumSharedServices, connection: Connection): void {
    let refreshes = false;
    lsp.LanguageServer.onInitialize(({ capabilities }) => { refreshes = capabilities.workspace?.inlayHint?.refreshSupport === true; });
    workspace.ConfigurationProvider.onConfigurationSectionUpdate(() => { if (refreshes) connection.languages.inlayHint.refresh(); });
}
