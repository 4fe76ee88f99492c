/** Gives a thing another name in all files of its boat, and says why not when it cannot be. */
import { AstUtils, CstUtils, UriUtils, type AstNode, type CstNode, type LangiumDocument } from 'langium';
import type { LangiumServices, RenameProvider } from 'langium/lsp';
import { LSPErrorCodes, ResponseError, type Range, type RenameParams, type TextDocumentPositionParams, type TextEdit, type WorkspaceEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { keptBleed } from '../../documents/bleed/kept';
import { allNotes, ownLines, type KeptBlock } from '../../documents/kept';
import { keptProcedure } from '../../documents/procedures/check';
import type { Boat } from '../../model/boat';
import type { Boats } from '../boats';
import { isFitting, isLeg, isMeasure, isPattern, isSelectorPort, isStray, type Text } from '../generated/ast';
import { innerTags, linked, portName, tagOf } from '../likeness';
import type { OrlopLexer } from '../lexer';
import { loadBoat, type Loaded } from '../load';
import { rangeOf } from '../sources';
import { isInner, isValve, usesIn, type BoatReferences } from './references';

type Changes = Map<string, TextEdit[]>;

export class BoatRename implements RenameProvider {
    private readonly references: BoatReferences;
    private readonly lexer: OrlopLexer;
    constructor(private readonly services: LangiumServices, private readonly boats: () => Boats) {
        this.references = services.references.References as BoatReferences;
        this.lexer = services.parser.Lexer as OrlopLexer;
    }

    prepareRename(document: LangiumDocument, { position }: TextDocumentPositionParams): Range {
        return rangeOf(this.nameAt(document, document.textDocument.offsetAt(position)).cst);
    }

    async rename(document: LangiumDocument, { position, newName }: RenameParams): Promise<WorkspaceEdit> {
        const { target, cst } = this.nameAt(document, document.textDocument.offsetAt(position));
        if (cst.text === newName) return { changes: {} };
        const old = (target as { name?: string }).name ?? cst.text;
        const name = this.written(document, target, cst.text, newName);
        this.accept(target, old, name);
        this.understood(document, cst.text);
        const changes: Changes = new Map();
        for (const { sourceUri, segment } of this.references.findReferences(target, { includeDeclaration: true })) {
            const file = this.services.shared.workspace.LangiumDocuments.getDocument(sourceUri);
            // A tag that likeness made is brought up to date below: it says more than this name.
            if (file?.textDocument.getText(segment.range) === old) put(changes, sourceUri.toString(), { range: segment.range, newText: name });
        }
        await this.followTags(document, changes);
        await this.follow(document, changes);
        return { changes: Object.fromEntries(changes) };
    }

    /** The name to write where the thing is declared: V9 for V9-S, where the course adds -S. */
    private written(document: LangiumDocument, target: AstNode, used: string, newName: string): string {
        const old = (target as { name?: string }).name;
        if (!this.boats().files(document).includes(AstUtils.getDocument(target))) {
            return refuse(`\`${used}\` is written in a pattern that other boats share, and a change there would reach them too. Change it in that file.`);
        }
        if (old === undefined || used === old || !used.startsWith(old)) return newName;
        const added = used.slice(old.length);
        if (newName.endsWith(added) && newName.length > added.length) return newName.slice(0, -added.length);
        return refuse(`\`${used}\` is ${old} of a pattern with ${added} behind it, so its new name ends in ${added} too, like \`V9${added}\`. To change ${added}, change the course or part that adds it.`);
    }

    /** Tags that likeness makes from what was renamed: V1-S from V1, BS-F1 from F1. Every use of them follows. */
    private async followTags(document: LangiumDocument, changes: Changes): Promise<void> {
        const before = this.boats().of(document);
        if (before.made.length === 0) return;
        const { own, shared } = this.boats().texts(document, changed(changes));
        const after = await loadBoat(own, { shared });
        if (after.made.length !== before.made.length) return refuse('What is like this thing could not be followed. Give the new name by hand.');
        const renamed = new Map(before.made.flatMap((tag, i) => (after.made[i] === tag ? [] : [[tag, after.made[i]!] as const])));
        for (const tag of renamed.values()) if (before.boat.tags.has(tag) && !renamed.has(tag)) return refuse(`\`${tag}\` would come to be a name in this boat, and it is one already. Choose another.`);
        for (const file of this.boats().files(document)) for (const node of AstUtils.streamAst(file.parseResult.value)) {
            for (const { reference } of AstUtils.streamReferences(node)) {
                const now = renamed.get(reference.$refText);
                if (now !== undefined && reference.$refNode) put(changes, file.uri.toString(), { range: reference.$refNode.range, newText: now });
            }
        }
    }

    /** The name under the cursor and what it names; anything else is refused in words. */
    private nameAt(document: LangiumDocument, offset: number): { target: AstNode; cst: CstNode } {
        const root = document.parseResult.value.$cstNode;
        const leaf = root && CstUtils.findDeclarationNodeAtOffset(root, offset, this.services.parser.GrammarConfig.nameRegexp);
        if (!leaf || leaf.text.trim() === '') return refuse('No name stands here. Put the cursor on the name that is to be changed.');
        if (leaf.hidden) return refuse('This is a comment; names in it are left as they are.');
        const [target] = this.references.findDeclarations(leaf);
        const kind = leaf.tokenType.name;
        if (target) {
            const cst = usesIn(leaf.astNode).find((use) => use.target === target && use.cst.offset <= leaf.offset && leaf.end <= use.cst.end)?.cst ?? leaf;
            if (isFitting(target) && target.name === undefined) return refuse(`\`${portName(target)}\` goes by its kind and has no name of its own. Give it one where it is declared: \`${target.kind} ${portName(target)[0]!.toUpperCase()}1\`.`);
            return { target, cst };
        }
        if (kind === 'TAG') return refuse(`\`${leaf.text}\` is not declared in this boat, so there is nothing to change elsewhere. Type over it.`);
        if (kind === 'STRING') return refuse('This is quoted text; what stands between quotes is left as it is.');
        if (kind === 'MEASURE' || isMeasure(leaf.astNode)) return refuse(`\`${leaf.text}\` is a quantity, not a name. Type over it.`);
        return refuse(`\`${leaf.text}\` is a word of the language. Only names can be changed; they begin with a capital letter.`);
    }

    /** In a line that the parser gave up nobody can tell what a name means, and a renaming that leaves uses behind is worse than none. */
    private understood(document: LangiumDocument, name: string): void {
        for (const file of this.boats().files(document)) {
            const strays = (file.parseResult.value as Text).entries.some(isStray);
            if (file.parseResult.parserErrors.length === 0 && !strays) continue;
            const root = file.parseResult.value.$cstNode;
            const known = new Set(root && CstUtils.flattenCst(root).filter((leaf) => AstUtils.getContainerOfType(leaf.astNode, isStray) === undefined).map((leaf) => leaf.offset));
            const lost = this.lexer.asWritten(file.textDocument.getText()).tokens.find(({ image, startOffset }) => image === name && !known.has(startOffset));
            if (lost) return refuse(`\`${name}\` also stands in ${UriUtils.basename(file.uri)}, line ${file.textDocument.positionAt(lost.startOffset).line + 1}, which is not understood. Mend that line first.`);
        }
    }

    /** Refuses a new name that is none, is taken, or means something else where the old one is used. */
    private accept(target: AstNode, old: string, name: string): void {
        const { tokens, hidden, errors } = this.lexer.asWritten(name);
        const type = tokens.length === 1 && hidden.length === 0 && errors.length === 0 ? tokens[0]!.tokenType.name : '';
        const small = /^[a-z][\w-]*$/.test(name);
        const maySmall = isSelectorPort(target) || isLeg(target);
        if (type !== 'TAG' && !(maySmall && small && type !== '')) {
            return refuse(`\`${name}\` is not a name. A name is one word that begins with a capital letter, like \`${small ? `${name[0]!.toUpperCase()}${name.slice(1)}` : 'V1'}\`.`);
        }
        if (maySmall && JOINING.has(name)) return refuse(`\`${name}\` already has a meaning where positions say what they join. Choose another name.`);
        const pattern = AstUtils.getContainerOfType(target.$container, isPattern);
        if (pattern && !isInner(target)) {
            const taken = [...innerTags(pattern, linked)].some(({ tag, node }) => tag === name && node !== target);
            if (taken) return refuse(`\`${name}\` is already a name in ${pattern.name}. Choose another.`);
            return;
        }
        if (isInner(target)) for (const node of this.references.oneHandle(target)) acceptInner(node, name);
        else for (const file of this.boats().files(AstUtils.getDocument(target))) acceptIn(file, target, old, name);
    }

    /**
     * Orlop's own lines in kept blocks quote names. They are written anew as the renamed boat gives them, so that a block
     * that was true stays true; notes and everything else that a person wrote are left alone.
     */
    private async follow(document: LangiumDocument, changes: Changes): Promise<void> {
        const before = this.boats().of(document);
        if (!before.boat.bleeds.some((block) => block.kept) && !before.boat.procedures.some((block) => block.kept)) return;
        const { own, shared } = this.boats().texts(document, changed(changes));
        const after = await loadBoat(own, { shared });
        const now = keptIn(after.boat);
        keptIn(before.boat).forEach((block, i) => { if (now[i]) rewrite(before, block, after, now[i], changes); });
    }
}

const changed = (changes: Changes) => (file: LangiumDocument): string => TextDocument.applyEdits(file.textDocument, changes.get(file.uri.toString()) ?? []);

const keptIn = (boat: Boat): KeptBlock[] => [
    ...boat.bleeds.filter(({ kept }) => kept).map((block) => keptBleed(boat, block)), ...boat.procedures.filter(({ kept }) => kept).map((block) => keptProcedure(boat, block)),
];

/** Brings the lines of one kept block that were true before to what the renamed boat says. */
function rewrite({ sources }: Loaded, block: KeptBlock, renamed: Loaded, now: KeptBlock, changes: Changes): void {
    if ('why' in block.wanted || 'why' in now.wanted) return;
    const [was, is] = [block.wanted.lines, now.wanted.lines];
    const own = ownLines(block);
    if (was.length !== is.length) {
        // Of two sequences as short the other was found. A block that was true is replaced as a whole.
        if (own.length !== was.length || own.some((line, i) => line.text !== was[i])) return;
        const { uri, range, node } = sources.find(block.id)!;
        const eol = node.$cstNode!.root.fullText.includes('\r\n') ? '\r\n' : '\n';
        const notes = allNotes(now, renamed.sources.find(now.id)!.node.$cstNode!.text);
        replace(changes, uri, range, now.wanted.text(notes).trimEnd().replace(/\n/g, eol));
        return;
    }
    let from = 0;
    for (const line of own) {
        const at = was.indexOf(line.text, from);
        if (at < 0) continue; // not true before either
        from = at + 1;
        const { uri, range } = sources.find(line.id)!;
        if (now.lines[block.lines.indexOf(line)]?.text !== is[at]) replace(changes, uri, range, block.spelling.spaced(is[at]!));
    }
}

/** A name within one valve, split or tank. */
function acceptInner(target: AstNode, name: string): void {
    const owner = target.$container;
    if (!owner) return;
    const own = (owner as { name?: string }).name ?? 'this block';
    // A position and a leg may share a name, two ports may not.
    const taken = AstUtils.streamContents(owner).some((node) => node !== target && node.$type === target.$type && (isFitting(node) ? portName(node) : (node as { name?: string }).name) === name);
    if (taken) return refuse(`\`${name}\` is already a name in ${own}. Choose another.`);
    const other = isValve(owner) && AstUtils.streamAst(owner).toArray().flatMap(usesIn).some((use) => use.cst.text === name && use.target.$container !== owner);
    if (other) return refuse(`\`${name}\` already means something else inside ${own}. Choose another name.`);
}

/** A name for the whole boat, looked for in one of its files. */
function acceptIn(file: LangiumDocument, target: AstNode, old: string, name: string): void {
    const place = (cst: CstNode | undefined): string => `${UriUtils.basename(file.uri)}, line ${(cst?.range.start.line ?? 0) + 1}`;
    for (const node of AstUtils.streamAst(file.parseResult.value)) {
        if (tagOf(node) === name) return refuse(`\`${name}\` is already a name in this boat: ${place(node.$cstNode)}. Choose another.`);
        const uses = usesIn(node);
        const stranger = AstUtils.streamReferences(node).map(({ reference, property }) => ({ reference, property, cst: reference.$refNode }))
            .find(({ reference, property, cst }) => cst !== undefined && reference.$refText === name && property !== 'port' && !uses.some((use) => use.cst === cst))?.cst;
        if (stranger) return refuse(`\`${name}\` is used in ${place(stranger)}, though nothing goes by it; with this name ${old} would be meant there. Mend that line first, or choose another name.`);
        if (!isValve(node) || node === target) continue;
        const inner = [...node.positions, ...('ports' in node ? node.ports : node.legs)].some((own) => own.name === name);
        if (inner && AstUtils.streamAllContents(node).toArray().flatMap(usesIn).some((use) => use.target === target)) {
            return refuse(`Inside ${node.name}, where ${old} is used, \`${name}\` already means something else. Choose another name.`);
        }
    }
}

/** These join and part the ports of a position. */
const JOINING = new Set(['joins', 'through', 'nothing', 'and']);

function refuse(sentence: string): never {
    throw new ResponseError(LSPErrorCodes.RequestFailed, sentence);
}

const put = (changes: Changes, uri: string, edit: TextEdit): void => { changes.set(uri, [...(changes.get(uri) ?? []), edit]); };

/** Puts an edit in place of those within its range. */
function replace(changes: Changes, uri: string, range: Range, newText: string): void {
    const within = (edit: TextEdit): boolean => !before(edit.range.start, range.start) && !before(range.end, edit.range.end);
    changes.set(uri, [...(changes.get(uri) ?? []).filter((edit) => !within(edit)), { range, newText }]);
}
const before = (a: Range['start'], b: Range['start']): boolean => a.line < b.line || (a.line === b.line && a.character < b.character);
