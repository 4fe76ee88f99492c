/** What a growing selection takes in: word, fact, line, block, text. */
import { CstUtils, type AstNode, type LangiumDocument } from 'langium';
import type { Position, Range, SelectionRange } from 'vscode-languageserver-protocol';
import { rangeOf } from '../sources';
import { readingsOf } from './readings';

export function selectionRanges(document: LangiumDocument, positions: readonly Position[]): SelectionRange[] {
    return positions.map((position) => {
        const ranges = rangesAt(document, position);
        return ranges.reduceRight<SelectionRange | undefined>((parent, range) => ({ range, ...(parent && { parent }) }), undefined) ?? { range: { start: position, end: position } };
    });
}

/** Every range around a position, each within the next. */
function rangesAt({ textDocument, parseResult }: LangiumDocument, position: Position): Range[] {
    const text = textDocument.getText();
    const offset = textDocument.offsetAt(position);
    const { line } = textDocument.positionAt(offset);
    const found: Range[] = [];
    const add = (range: Range): void => {
        const inner = found.at(-1);
        const fits = contains(range, { start: textDocument.positionAt(offset), end: textDocument.positionAt(offset) }) && (!inner || contains(range, inner));
        if (fits && !(inner && contains(inner, range))) found.push(range);
    };
    const root = parseResult.value.$cstNode;
    const leaf = root && CstUtils.findDeclarationNodeAtOffset(root, offset, /[\p{L}\p{N}_]/u);
    const own = leaf && leaf.text.trim() !== '' ? leaf : undefined;
    if (own) add(own.range);
    const nodes: AstNode[] = [];
    for (let node: AstNode | undefined = own?.astNode; node; node = node.$container) nodes.push(node);
    for (const node of nodes) for (const range of facts(node)) add(range);
    // What stands on this line of each thing, then the line, then the things as a whole.
    for (const node of nodes) if (node.$cstNode && node.$cstNode.range.start.line === line && rangeOf(node.$cstNode).end.line === line) add(rangeOf(node.$cstNode));
    const [start, end] = [textDocument.offsetAt({ line, character: 0 }), textDocument.offsetAt({ line: line + 1, character: 0 })];
    const words = text.slice(start, end);
    const [first, last] = [start + words.length - words.trimStart().length, start + words.trimEnd().length];
    if (last > first) add({ start: textDocument.positionAt(first), end: textDocument.positionAt(last) });
    for (const node of nodes) if (node.$container && node.$cstNode) add(rangeOf(node.$cstNode));
    add({ start: { line: 0, character: 0 }, end: textDocument.positionAt(text.length) });
    return found;
}

/** Each fact of a node, from its first word to the last that belongs to it. */
function facts(node: AstNode): Range[] {
    const heard = readingsOf(node);
    return heard.flatMap(({ token, begins }, i) => {
        if (!begins || !token.$cstNode) return [];
        const next = heard.slice(i + 1).find((other) => other.begins && other.token.$container === token.$container)?.token;
        const line = (token.$container as { tokens?: readonly AstNode[] } | undefined)?.tokens ?? [];
        const last = line[(next ? line.indexOf(next) : line.length) - 1];
        return last?.$cstNode ? [{ start: token.$cstNode.range.start, end: rangeOf(last.$cstNode).end }] : [];
    });
}

const before = (a: Position, b: Position): boolean => a.line < b.line || (a.line === b.line && a.character < b.character);
const contains = (outer: Range, inner: Range): boolean => !before(inner.start, outer.start) && !before(outer.end, inner.end);
