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
    /** It counts with port and starboard swapped. */
    readonly turned?: true;
}

/** What is kept until somebody asks: finding a place costs more than keeping where to look. */
interface Kept {
    readonly node: CstNode;
    readonly mark?: CstNode | undefined;
    readonly end?: CstNode;
    readonly use?: CstNode | undefined;
    readonly turned?: boolean | undefined;
}

export class Sources {
    private readonly kept = new Map<string, Kept>();
    private readonly found = new Map<string, Source>();
    /** Ids in the order in which they were read; for looking up what stands at a position. */
    readonly ids: Id[] = [];

    /** `home` are the files of the boat. */
    constructor(private readonly home: ReadonlySet<string>) {}

    /** `mark` are the words to underline, by default the name; `use` is where the boat calls for what is written outside it. */
    add(id: Id, node: CstNode, mark?: CstNode, use?: CstNode): void {
        if (this.kept.has(id)) return;
        this.kept.set(id, { node, mark, use });
        this.ids.push(id);
    }
    /** `turned`: it counts with port and starboard swapped. */
    addFact(id: Id, fact: string, node: CstNode, end: CstNode, turned?: boolean): void {
        this.kept.set(`${id} ${fact}`, { node, end, turned });
    }

    /** The place of an id, or of one fact of it when that was written. */
    find(id: Id, fact?: string): Source | undefined {
        return (fact !== undefined ? this.place(`${id} ${fact}`) : undefined) ?? this.place(id);
    }

    /** The place of a fact, only when that very fact was written. */
    findFact(id: Id, fact: string): Source | undefined {
        return this.place(`${id} ${fact}`);
    }

    private place(key: string): Source | undefined {
        const known = this.found.get(key);
        if (known) return known;
        const kept = this.kept.get(key);
        const source = kept && this.sourceOf(kept);
        if (source) this.found.set(key, source);
        return source;
    }

    private sourceOf({ node, mark, end, use, turned }: Kept): Source | undefined {
        const isHome = this.home.size === 0 || this.home.has(uriOf(node));
        if (end) {
            if (!isHome) return undefined;
            const range = { start: node.range.start, end: rangeOf(end).end };
            return { uri: uriOf(node), range, mark: range, node: node.astNode, ...(turned && { turned }) };
        }
        const away = use !== undefined && !isHome;
        const at = away ? use : node;
        return { uri: uriOf(at), range: rangeOf(at), mark: away ? nameOf(use) : mark ? rangeOf(mark) : nameOf(node), node: at.astNode, ...(away && { elsewhere: true as const }) };
    }
}

const uriOf = (node: CstNode): string => AstUtils.getDocument(node.astNode).uri.toString();
/** The name in a declaration, or all of it. */
const nameOf = (node: CstNode): Range => rangeOf(GrammarUtils.findNodeForProperty(node, 'name') ?? node);
