/** What each thing of the language is in the words that all editors share: for outlines and for colours. */
import type { AstNode, AstNodeDescription } from 'langium';
import type { NodeKindProvider } from 'langium/lsp';
import { CompletionItemKind, SymbolKind } from 'vscode-languageserver-protocol';

interface Kind {
    readonly symbol: SymbolKind;
    /** A standard type of semantic token. */
    readonly token: string;
}

const KINDS: Readonly<Record<string, Kind>> = {
    Vessel: { symbol: SymbolKind.Module, token: 'namespace' }, Space: { symbol: SymbolKind.Namespace, token: 'namespace' },
    Tank: { symbol: SymbolKind.Struct, token: 'class' }, Consumer: { symbol: SymbolKind.Class, token: 'class' },
    Fitting: { symbol: SymbolKind.Property, token: 'property' }, SelectorPort: { symbol: SymbolKind.Property, token: 'property' }, BleedPoint: { symbol: SymbolKind.Event, token: 'variable' },
    Selector: { symbol: SymbolKind.Enum, token: 'variable' }, Changeover: { symbol: SymbolKind.Enum, token: 'variable' }, Position: { symbol: SymbolKind.EnumMember, token: 'enumMember' },
    Course: { symbol: SymbolKind.Function, token: 'function' }, Split: { symbol: SymbolKind.Operator, token: 'variable' }, Leg: { symbol: SymbolKind.Field, token: 'property' },
    Part: { symbol: SymbolKind.Variable, token: 'variable' }, LineUp: { symbol: SymbolKind.Constant, token: 'enum' },
};
const OTHER: Kind = { symbol: SymbolKind.Object, token: 'variable' };

export const kindOfNode = (type: string): Kind => KINDS[type] ?? OTHER;

export class BoatKinds implements NodeKindProvider {
    getSymbolKind(node: AstNode | AstNodeDescription): SymbolKind {
        return kindOfNode('$type' in node ? node.$type : (node as AstNodeDescription).type).symbol;
    }
    getCompletionItemKind(): CompletionItemKind {
        return CompletionItemKind.Variable;
    }
}
