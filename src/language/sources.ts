/** Where in the texts each id and each fact of the boat was written. The model itself knows nothing of texts. */
import type { AstNode, CstNode } from 'langium';
import { AstUtils, GrammarUtils } from 'langium';
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
    /** It is written outside the boat, in a shared pattern; this is where the boat uses it. */
    readonly elsewhere?: true;
}

export class Sources {
    private readonly byId = new Map<string, Source>();
    /** Ids by file, in the order of the text; for looking up what stands at a position. */
    readonly ids: Id[] = [];

    /** `home` are the files of the boat. */
    constructor(private readonly home: ReadonlySet<string>) {}

    /** `use` is where the boat calls for it, for what is written outside the boat. */
    add(id: Id, node: CstNode, mark: CstNode = node, use?: CstNode): void {
        if (this.byId.has(id)) return;
        const away = use !== undefined && !this.isHome(node);
        const at = away ? use : node;
        this.byId.set(id, {
            uri: AstUtils.getDocument(at.astNode).uri.toString(), range: rangeOf(at), mark: away ? nameOf(use) : rangeOf(mark), node: at.astNode,
            ...(away && { elsewhere: true as const }),
        });
        this.ids.push(id);
    }
    /** The place of an id, or of one fact of it when that was written. */
    find(id: Id, fact?: string): Source | undefined {
        return (fact !== undefined ? this.byId.get(`${id} ${fact}`) : undefined) ?? this.byId.get(id);
    }
    addFact(id: Id, fact: string, node: CstNode, end: CstNode): void {
        if (!this.isHome(node)) return;
        const range = { start: node.range.start, end: rangeOf(end).end };
        this.byId.set(`${id} ${fact}`, { uri: AstUtils.getDocument(node.astNode).uri.toString(), range, mark: range, node: node.astNode });
    }

    private isHome(node: CstNode): boolean {
        return this.home.size === 0 || this.home.has(AstUtils.getDocument(node.astNode).uri.toString());
    }
}

const nameOf = (node: CstNode): Range => rangeOf(GrammarUtils.findNodeForProperty(node, 'name') ?? node);
