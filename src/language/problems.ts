/** Everything that is wrong with the texts as texts, from the lexer to the lowering, in one shape. */
import { AstUtils, type AstNode, type LangiumDocument, type Reference } from 'langium';
import type { Range } from 'vscode-languageserver-types';
import type { Problem } from './facts';
import { isBleed, isPattern, isProcedure, type AnyToken, type Block, type FactLine, type Text } from './generated/ast';
import type { LexerSlip } from './lexer';
import { boatOf } from './folders';
import { rangeOf } from './sources';

export interface TextProblem {
    readonly uri: string;
    readonly range: Range;
    readonly code: string;
    readonly message: string;
    readonly severity: 'error' | 'warning';
}

/** Nobody reads more of what is quoted. */
const LONGEST = 120;
const shortened = (message: string): string => message.replace(/`([^`]*)`/g, (quoted, inner: string) => inner.length > LONGEST ? `\`${inner.slice(0, LONGEST)}...\`` : quoted);

export function textProblems(documents: readonly LangiumDocument[], lowered: readonly Problem[]): TextProblem[] {
    const found: TextProblem[] = [];
    // Where a line could not be read, nothing else that is found on it can be trusted: one message is enough.
    const clouded = new Map<string, number>();
    const isClear = ({ uri, range: { start } }: TextProblem): boolean => start.character < (clouded.get(`${uri}#${start.line}`) ?? Infinity);
    const cloud = (problem: TextProblem, from: number): void => {
        if (!isClear(problem)) return;
        found.push(problem);
        clouded.set(`${problem.uri}#${problem.range.start.line}`, from);
    };
    for (const document of documents) {
        const built = building(document);
        for (const { clouds, ...problem } of built) if (clouds) cloud(problem, 0);
        for (const { clouds, ...problem } of built) if (!clouds && isClear(problem)) found.push(problem);
        for (const problem of parsing(document)) cloud(problem, problem.range.start.character);
    }
    const read = lowered.map(({ code, message, node, end, severity }): TextProblem => {
        const range = rangeOf(node);
        return { uri: AstUtils.getDocument(node.astNode).uri.toString(), range: end ? { start: range.start, end: rangeOf(end).end } : range, code, message, severity };
    });
    const told = new Map(read.map(({ uri, range }) => [`${uri}#${range.end.line}:${range.end.character}`, range]));
    const lost = lostNames(documents, lowered);
    const names = documents.flatMap((document) => linking(document, lost)).filter(({ uri, range }) => {
        const over = told.get(`${uri}#${range.end.line}:${range.end.character}`);
        return !over || over.start.line !== range.start.line || over.start.character > range.start.character;
    });
    found.push(...[...read, ...names].filter(isClear));
    return found.map((problem) => ({ ...problem, message: shortened(problem.message) })).sort((a, b) => (a.uri < b.uri ? -1 : a.uri > b.uri ? 1 : a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character));
}

/** What the lexer found before anything was parsed. */
function building(document: LangiumDocument): (TextProblem & Pick<LexerSlip, 'clouds'>)[] {
    return (document.parseResult.lexerErrors as LexerSlip[]).map(({ code, message, offset, length, clouds }) => ({
        uri: document.uri.toString(), code, message, severity: 'error', ...(clouds && { clouds }),
        range: { start: document.textDocument.positionAt(offset), end: document.textDocument.positionAt(offset + length) },
    }));
}

function parsing(document: LangiumDocument): TextProblem[] {
    const end = document.textDocument.positionAt(document.textDocument.getText().length);
    return document.parseResult.parserErrors.map((error) => {
        const { token } = error;
        const here = Number.isFinite(token.startOffset) && token.startOffset >= 0 && token.image !== '';
        const range = here
            ? { start: document.textDocument.positionAt(token.startOffset), end: document.textDocument.positionAt(token.startOffset + token.image.replace(/[\r\n]+$/, ' ').length) }
            : { start: end, end };
        return { uri: document.uri.toString(), range, code: 'syntax', message: error.message, severity: 'error' };
    });
}

/** Names that lines which were not understood would have declared: that those are not there has been told. */
function lostNames(documents: readonly LangiumDocument[], lowered: readonly Problem[]): ReadonlySet<string> {
    const lost = new Set<string>();
    const look = ({ tokens, block }: { readonly tokens: readonly AnyToken[]; readonly block?: Block }): void => {
        const name = tokens.find((token) => token.$type === 'Ref');
        if (name?.to) lost.add(name.to.$refText);
        for (const line of block?.lines ?? []) look(line);
    };
    for (const document of documents) for (const entry of (document.parseResult.value as Text).entries ?? []) if (entry.$type === 'Stray') look(entry);
    for (const { code, node } of lowered) if (code === 'misplaced' && node.astNode.$container?.$type === 'FactLine') look(node.astNode.$container as FactLine);
    return lost;
}

function linking(document: LangiumDocument, lost: ReadonlySet<string>): TextProblem[] {
    return document.references.flatMap((reference) => {
        const { error } = reference as Reference;
        if (!error || !reference.$refNode || isFree(error.info.container, error.info.property)) return [];
        if (error.info.property !== 'port' && lost.has(reference.$refText)) return [];
        return [{ uri: document.uri.toString(), range: { start: partOf(error.info.container, error.info.property)?.$refNode?.range.start ?? reference.$refNode.range.start, end: reference.$refNode.range.end }, code: 'name', message: error.message, severity: 'error' as const }];
    });
}

/** Names that need not be found: a consumer's own ports, and all that stands in a block no analysis reads yet. */
function isFree(container: AstNode, property: string): boolean {
    // A block behind a fact is a slip in itself; what stands in it is not asked for.
    if (AstUtils.hasContainerOfType(container, (node) => node.$type === 'Stray' || (node.$type === 'Block' && node.$container?.$type === 'FactLine'))) return true;
    // A shared pattern may name what only the boats have: a space, say.
    if (/\/shared$/.test(boatOf(AstUtils.getDocument(container).uri)) && AstUtils.hasContainerOfType(container, isPattern)) return true;
    if (isPositionInStep(container) || isCode(container) || isKeptStep(container)) return true;
    if (property !== 'port') return false;
    const part = partOf(container, property);
    return part?.ref === undefined || part.ref.$type === 'Consumer';
}

/** What the port of an end or of a name is a port of. */
function partOf(container: AstNode, property: string): Reference | undefined {
    return property === 'port' ? (container as { part?: Reference }).part ?? (container as { to?: Reference }).to : undefined;
}

/** The position in `turn SV1 to PORT`: the executor says when there is none of that name. */
export function isPositionInStep(node: AstNode): boolean {
    const tokens = (node.$container as { tokens?: readonly AstNode[] } | undefined)?.tokens ?? [];
    const word = (at: number): string | undefined => (tokens[at] as { text?: string } | undefined)?.text;
    return (node.$container?.$type === 'Line' || node.$container?.$type === 'BlockLine') && word(0) === 'turn' && tokens[3] === node && word(2) === 'to';
}

/** A step of a sequence or a procedure that Orlop keeps: when a name in it has gone, it is no longer true, and that is a finding. */
function isKeptStep(node: AstNode): boolean {
    const block = AstUtils.getContainerOfType(node, (at) => isBleed(at) || isProcedure(at));
    return block !== undefined && node.$container !== block && block.tokens.some((token) => token.$type === 'Word' && token.text === 'kept');
}

/** Words in capitals that name no part: the code of a rule, the class of a defect, the position of a valve in `now`. */
function isCode(node: AstNode): boolean {
    const tokens = (node.$container as { tokens?: readonly AstNode[] } | undefined)?.tokens ?? [];
    const before = tokens[tokens.indexOf(node) - 1] as { $type?: string; text?: string } | undefined;
    switch (node.$container?.$type) {
        case 'Waiver': return before === undefined;
        case 'Alteration': case 'Part': return before?.text === 'answer' || before?.text === 'defect';
        case 'BlockLine': return before?.$type === 'Ref';
        default: return false;
    }
}
