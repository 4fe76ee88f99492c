/** Gives a thing another name in all files of its boat, and says why not when it cannot be. */
import { AstUtils, CstUtils, UriUtils, type AstNode, type CstNode, type LangiumDocument } from 'langium';
import type { LangiumServices, RenameProvider } from 'langium/lsp';
import { LSPErrorCodes, ResponseError, type Range, type RenameParams, type TextDocumentPositionParams, type TextEdit, type WorkspaceEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { blockLines, blockText, isOwn, spacedLine } from '../../documents/bleed/block';
import { planOf } from '../../documents/bleed/kept';
import type { BleedBlock } from '../../model/boat';
import type { Boats } from '../boats';
import { isFitting, isLeg, isMeasure, isSelectorPort } from '../generated/ast';
import { portName, tagOf } from '../likeness';
import { loadBoat, type Loaded } from '../load';
import { rangeOf } from '../sources';
import { allNotes } from './actions';
import { isInner, isValve, usesIn, type BoatReferences } from './references';

type Changes = Map<string, TextEdit[]>;

export class BoatRename implements RenameProvider {
    private readonly references: BoatReferences;
    constructor(private readonly services: LangiumServices, private readonly boats: () => Boats) {
        this.references = services.references.References as BoatReferences;
    }

    prepareRename(document: LangiumDocument, { position }: TextDocumentPositionParams): Range {
        return rangeOf(this.nameAt(document, document.textDocument.offsetAt(position)).cst);
    }

    async rename(document: LangiumDocument, { position, newName }: RenameParams): Promise<WorkspaceEdit> {
        const { target, cst } = this.nameAt(document, document.textDocument.offsetAt(position));
        if (cst.text === newName) return { changes: {} };
        this.accept(target, cst.text, newName);
        this.understood(document, cst.text);
        const changes: Changes = new Map();
        for (const { sourceUri, segment } of this.references.findReferences(target, { includeDeclaration: true })) {
            put(changes, sourceUri.toString(), { range: segment.range, newText: newName });
        }
        await this.follow(document, changes);
        return { changes: Object.fromEntries(changes) };
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
            if (file.parseResult.parserErrors.length === 0) continue;
            const root = file.parseResult.value.$cstNode;
            const known = new Set(root && CstUtils.flattenCst(root).map((leaf) => leaf.offset));
            const lost = this.services.parser.Lexer.tokenize(file.textDocument.getText()).tokens.find(({ image, startOffset }) => image === name && !known.has(startOffset));
            if (lost) return refuse(`\`${name}\` also stands in ${UriUtils.basename(file.uri)}, line ${file.textDocument.positionAt(lost.startOffset).line + 1}, which is not understood. Mend that line first.`);
        }
    }

    /** Refuses a new name that is none, is taken, or means something else where the old one is used. */
    private accept(target: AstNode, old: string, name: string): void {
        const { tokens, hidden, errors } = this.services.parser.Lexer.tokenize(name);
        const type = tokens.length === 1 && hidden.length === 0 && errors.length === 0 ? tokens[0]!.tokenType.name : '';
        const small = /^[a-z][\w-]*$/.test(name);
        const maySmall = isSelectorPort(target) || isLeg(target);
        if (type !== 'TAG' && !(maySmall && small && type !== '')) {
            return refuse(`\`${name}\` is not a name. A name is one word that begins with a capital letter, like \`${small ? `${name[0]!.toUpperCase()}${name.slice(1)}` : 'V1'}\`.`);
        }
        if (maySmall && JOINING.has(name)) return refuse(`\`${name}\` already has a meaning where positions say what they join. Choose another name.`);
        if (isInner(target)) for (const node of this.references.oneHandle(target)) acceptInner(node, name);
        else for (const file of this.boats().files(AstUtils.getDocument(target))) acceptIn(file, target, old, name);
    }

    /**
     * Orlop's own lines in kept bleed blocks quote names. They are written anew as the renamed boat gives them, so that a sequence
     * that was true stays true; notes and everything else that a person wrote are left alone.
     */
    private async follow(document: LangiumDocument, changes: Changes): Promise<void> {
        const before = this.boats().of(document);
        if (!before.boat.bleeds.some((block) => block.kept)) return;
        const texts = Object.fromEntries(this.boats().files(document).map((file) => [UriUtils.basename(file.uri), TextDocument.applyEdits(file.textDocument, changes.get(file.uri.toString()) ?? [])]));
        const after = await loadBoat(texts);
        before.boat.bleeds.forEach((block, i) => {
            const now = after.boat.bleeds[i];
            if (block.kept && now) rewrite(before, block, after, now, changes);
        });
    }
}

/** Brings the lines of one kept block that were true before to what the renamed boat says. */
function rewrite({ boat, sources }: Loaded, block: BleedBlock, renamed: Loaded, now: BleedBlock, changes: Changes): void {
    const [old, plan] = [planOf(boat, block), planOf(renamed.boat, now)];
    if ('refused' in old || 'refused' in plan) return;
    const [was, is] = [blockLines(boat, old), blockLines(renamed.boat, plan)];
    const own = block.lines.filter((line) => isOwn(line.text));
    if (was.length !== is.length) {
        // Of two sequences as short the other was found. A block that was true is replaced as a whole.
        if (own.length !== was.length || own.some((line, i) => line.text !== was[i])) return;
        const { uri, range, node } = sources.find(block.id)!;
        const eol = node.$cstNode!.root.fullText.includes('\r\n') ? '\r\n' : '\n';
        const notes = allNotes(now, renamed.sources.find(now.id)!.node.$cstNode!.text);
        replace(changes, uri, range, blockText(renamed.boat, plan, notes).trimEnd().replace(/\n/g, eol));
        return;
    }
    let from = 0;
    for (const line of own) {
        const at = was.indexOf(line.text, from);
        if (at < 0) continue; // not true before either
        from = at + 1;
        const { uri, range } = sources.find(line.id)!;
        if (now.lines[block.lines.indexOf(line)]?.text !== is[at]) replace(changes, uri, range, spacedLine(is[at]!));
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
