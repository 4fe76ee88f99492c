/** Gives a thing another name in all files of its boat, and says why not when it cannot be. */
import { AstUtils, CstUtils, UriUtils, type AstNode, type CstNode, type LangiumDocument, type References } from 'langium';
import type { LangiumServices, RenameProvider } from 'langium/lsp';
import { LSPErrorCodes, ResponseError, type Range, type RenameParams, type TextDocumentPositionParams, type TextEdit, type WorkspaceEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { blockLines, blockText, isOwn, spacedLine } from '../../documents/bleed/block';
import { notesOf, planOf } from '../../documents/bleed/kept';
import type { BleedBlock, Boat } from '../../model/boat';
import type { Boats } from '../boats';
import { isFitting, isLeg, isMeasure, isSelectorPort } from '../generated/ast';
import { portName, tagOf } from '../linking';
import { loadBoat, type Loaded } from '../load';
import { rangeOf } from '../sources';
import { isInner, isValve, usesIn } from './references';

type Changes = Map<string, TextEdit[]>;

export class BoatRename implements RenameProvider {
    private readonly references: References;
    constructor(private readonly services: LangiumServices, private readonly boats: () => Boats) {
        this.references = services.references.References;
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
        const small = isSelectorPort(target) || isLeg(target);
        if (type !== 'TAG' && !(small && /^[a-z][\w-]*$/.test(name) && type !== '')) {
            const like = /^[a-z][\w-]*$/.test(name) ? `${name[0]!.toUpperCase()}${name.slice(1)}` : 'V1';
            return refuse(`\`${name}\` is not a name. A name is one word that begins with a capital letter, like \`${like}\`.`);
        }
        if (small && JOINING.has(name)) return refuse(`\`${name}\` already has a meaning where positions say what they join. Choose another name.`);
        const files = this.boats().files(AstUtils.getDocument(target));
        if (isInner(target)) {
            const owner = target.$container;
            const taken = owner && siblings(owner, target).some((node) => (isFitting(node) ? portName(node) : (node as { name?: string }).name) === name);
            if (taken) return refuse(`\`${name}\` is already a name in ${(owner as { name?: string }).name ?? 'this block'}. Choose another.`);
            const other = isValve(owner) && AstUtils.streamAst(owner).toArray().flatMap(usesIn).find((use) => use.cst.text === name && use.target.$container !== owner);
            return other ? refuse(`\`${name}\` already means something else inside ${owner.name}. Choose another name.`) : undefined;
        }
        for (const document of files) for (const node of AstUtils.streamAst(document.parseResult.value)) {
            if (tagOf(node) === name) return refuse(`\`${name}\` is already a name in this boat: ${UriUtils.basename(document.uri)}, line ${(node.$cstNode?.range.start.line ?? 0) + 1}. Choose another.`);
            for (const { reference } of AstUtils.streamReferences(node)) {
                if (reference.$refText !== name || reference.$refNode === undefined || ('ref' in reference && reference.ref !== undefined) || usesIn(node).some(({ cst }) => cst === reference.$refNode)) continue;
                return refuse(`\`${name}\` is used in ${UriUtils.basename(document.uri)}, line ${reference.$refNode.range.start.line + 1}, though nothing goes by it; with this name ${old} would be meant there. Mend that line first, or choose another name.`);
            }
            if (!isValve(node) || node === target) continue;
            const inner = [...node.positions, ...('ports' in node ? node.ports : node.legs)].some((own) => own.name === name);
            if (inner && AstUtils.streamAllContents(node).toArray().flatMap(usesIn).some((use) => use.target === target)) {
                return refuse(`Inside ${node.name}, where ${old} is used, \`${name}\` already means something else. Choose another name.`);
            }
        }
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
            if (block.kept && now) this.rewrite(before, block, after.boat, now, changes);
        });
    }

    private rewrite({ boat, sources }: Loaded, block: BleedBlock, renamed: Boat, now: BleedBlock, changes: Changes): void {
        const [old, plan] = [planOf(boat, block), planOf(renamed, now)];
        if ('refused' in old || 'refused' in plan) return;
        const [was, is] = [blockLines(boat, old), blockLines(renamed, plan)];
        const whole = sources.find(block.id)!;
        const own = block.lines.filter((line) => isOwn(line.text));
        if (was.length !== is.length) {
            // Of two sequences as short the other was found. A block that was true is replaced as a whole.
            if (own.length !== was.length || own.some((line, i) => line.text !== was[i])) return;
            replace(changes, whole.uri, whole.range, blockText(renamed, plan, notesOf(now)).trimEnd());
            return;
        }
        let from = 0;
        for (const line of own) {
            const at = was.indexOf(line.text, from);
            if (at < 0) continue; // not true before either
            from = at + 1;
            const source = sources.find(line.id)!;
            const text = now.lines[block.lines.indexOf(line)]?.text;
            if (text !== is[at]) replace(changes, source.uri, source.range, spacedLine(is[at]!));
        }
    }
}

/** These join and part the ports of a position. */
const JOINING = new Set(['joins', 'through', 'nothing', 'and']);

/** What else is named in the same block; a position and a leg may share a name, two ports may not. */
const siblings = (owner: AstNode, target: AstNode): AstNode[] => AstUtils.streamContents(owner).filter((node) => node !== target && node.$type === target.$type).toArray();

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
