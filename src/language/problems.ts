/** Everything that is wrong with the texts as texts, from the lexer to the lowering, in one shape. */
import { AstUtils, type AstNode, type LangiumDocument, type Reference } from 'langium';
import type { Range } from 'vscode-languageserver-types';
import type { Problem } from './facts';
import { rangeOf } from './sources';

export interface TextProblem {
    readonly uri: string;
    readonly range: Range;
    readonly code: string;
    readonly message: string;
    readonly severity: 'error' | 'warning';
}

export function textProblems(documents: readonly LangiumDocument[], lowered: readonly Problem[]): TextProblem[] {
    const found = documents.flatMap((document) => [...lexing(document), ...parsing(document), ...linking(document), ...quotes(document)]);
    for (const { code, message, node, severity } of lowered) {
        found.push({ uri: AstUtils.getDocument(node.astNode).uri.toString(), range: rangeOf(node), code, message, severity });
    }
    return found.sort((a, b) => (a.uri < b.uri ? -1 : a.uri > b.uri ? 1 : a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character));
}

function lexing(document: LangiumDocument): TextProblem[] {
    return document.parseResult.lexerErrors.map((error) => {
        const text = document.textDocument.getText().slice(error.offset, error.offset + error.length);
        return {
            uri: document.uri.toString(), code: 'character', severity: 'error',
            range: { start: document.textDocument.positionAt(error.offset), end: document.textDocument.positionAt(error.offset + error.length) },
            message: `\`${text.slice(0, 20)}\` is not part of the language here.` + (/^(\/\/|#)/.test(text) ? ' A comment begins with `--`.' : ''),
        };
    });
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

function linking(document: LangiumDocument): TextProblem[] {
    return document.references.flatMap((reference) => {
        const { error } = reference as Reference;
        if (!error || !reference.$refNode || isFree(error.info.container, error.info.property)) return [];
        return [{ uri: document.uri.toString(), range: reference.$refNode.range, code: 'name', message: error.message, severity: 'error' as const }];
    });
}

/** Names that need not be found: a consumer's own ports, and all that stands in a block no analysis reads yet. */
function isFree(container: AstNode, property: string): boolean {
    if (AstUtils.hasContainerOfType(container, (node) => node.$type === 'Stray')) return true;
    if (isPositionInStep(container) || isCode(container)) return true;
    if (property !== 'port') return false;
    const part = (container as { part?: Reference; to?: Reference }).part ?? (container as { to?: Reference }).to;
    return part?.ref === undefined || part.ref.$type === 'Consumer';
}

/** The position in `turn SV1 to PORT`: the executor says when there is none of that name. */
export function isPositionInStep(node: AstNode): boolean {
    const tokens = (node.$container as { tokens?: readonly AstNode[] } | undefined)?.tokens ?? [];
    const word = (at: number): string | undefined => (tokens[at] as { text?: string } | undefined)?.text;
    return (node.$container?.$type === 'Line' || node.$container?.$type === 'BlockLine') && word(0) === 'turn' && tokens[3] === node && word(2) === 'to';
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

/** A quote that is not closed on its line. */
function quotes(document: LangiumDocument): TextProblem[] {
    const found: TextProblem[] = [];
    const lines = document.textDocument.getText().split(/\r?\n/);
    lines.forEach((line, number) => {
        const code = line.replace(/"[^"]*"/g, (quoted) => ' '.repeat(quoted.length));
        const comment = code.indexOf('--');
        const open = code.indexOf('"');
        if (open < 0 || (comment >= 0 && comment < open)) return;
        found.push({
            uri: document.uri.toString(), code: 'quote', severity: 'error', message: 'This quote is not closed: end it with `"` on the same line.',
            range: { start: { line: number, character: open }, end: { line: number, character: line.length } },
        });
    });
    return found;
}
