/** Where in the texts each id and each fact of the boat was written. The model itself knows nothing of texts. */
import type { AstNode, CstNode } from 'langium';
import { AstUtils } from 'langium';
import type { Range } from 'vscode-languageserver-types';
import type { Id } from '../model/boat';

/** The range of a node without the line end that it may take in. */
export function rangeOf(node: CstNode): Range {
    const { textDocument } = AstUtils.getDocument(node.astNode);
    return { start: node.range.start, end: textDocument.positionAt(node.offset + node.text.trimEnd().length) };
}

export interface Source {
    readonly uri: string;
    readonly range: Range;
    /** The words to underline: the name or, without one, the kind. */
    readonly mark: Range;
    /** What was written there; for edits only. */
    readonly node: AstNode;
}

export class Sources {
    private readonly byId = new Map<string, Source>();
    /** Ids by file, in the order of the text; for looking up what stands at a position. */
    readonly ids: Id[] = [];

    add(id: Id, node: CstNode, mark: CstNode = node): void {
        if (this.byId.has(id)) return;
        this.byId.set(id, { uri: AstUtils.getDocument(node.astNode).uri.toString(), range: rangeOf(node), mark: rangeOf(mark), node: node.astNode });
        this.ids.push(id);
    }
    /** The place of an id, or of one fact of it when that was written. */
    find(id: Id, fact?: string): Source | undefined {
        return (fact !== undefined ? this.byId.get(`${id} ${fact}`) : undefined) ?? this.byId.get(id);
    }
    addFact(id: Id, fact: string, node: CstNode, end: CstNode): void {
        const range = { start: node.range.start, end: rangeOf(end).end };
        this.byId.set(`${id} ${fact}`, { uri: AstUtils.getDocument(node.astNode).uri.toString(), range, mark: range, node: node.astNode });
    }
}
