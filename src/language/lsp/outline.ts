/** The outline of a text: its things one inside the other, each with the facts by which a person knows it. */
import { AstUtils, GrammarUtils, UriUtils, type AstNode, type AstNodeDescription, type LangiumDocument } from 'langium';
import { DefaultWorkspaceSymbolProvider, type DocumentSymbolProvider } from 'langium/lsp';
import type { DocumentSymbol, WorkspaceSymbol } from 'vscode-languageserver-protocol';
import { figure } from '../../documents/figures';
import { fromSI } from '../../model/units';
import { spelling } from '../cursor';
import type { AnyFactToken } from '../facts';
import { isBleed, isConsumer, isCourse, isFitting, isLater, isLineUp, isLog, isPart, isPosition, isProcedure, isSelector, isSpace, isTank, isTend, type End, type FactLine, type Procedure } from '../generated/ast';
import { readFacts } from '../line-reader';
import { kindOf } from '../lowering/courses';
import { unquote } from '../quantity';
import { rangeOf } from '../sources';
import { tableOf } from './hover';
import { kindOfNode } from './kinds';

export class BoatOutline implements DocumentSymbolProvider {
    getSymbols(document: LangiumDocument): DocumentSymbol[] {
        return within(document.parseResult.value);
    }
}

/** Symbols of what stands in a node; what has no title of its own gives way to what stands in it. */
function within(node: AstNode): DocumentSymbol[] {
    return AstUtils.streamContents(node).toArray().flatMap((child): DocumentSymbol[] => {
        const name = titleOf(child);
        const cst = child.$cstNode;
        if (name === undefined || !cst) return within(child);
        const range = rangeOf(cst);
        const own = GrammarUtils.findNodeForProperty(cst, 'name') ?? GrammarUtils.findNodeForProperty(cst, 'engine');
        const detail = detailOf(child);
        const children = within(child);
        return [{ name, kind: kindOfNode(child.$type).symbol, range, selectionRange: own ? rangeOf(own) : { start: range.start, end: range.start }, ...(detail !== '' && { detail }), ...(children.length > 0 && { children }) }];
    });
}

/** Its name; without one, the word that it begins with. */
function titleOf(node: AstNode): string | undefined {
    if (isTend(node)) return 'tend';
    if (isLog(node)) return `log ${spelling(node.tokens)}`.trim();
    if (isBleed(node)) return `bleed ${node.engine?.$refText ?? ''}`.trim();
    if (isProcedure(node)) return `procedure ${spelling(jobTokens(node))}`.trim();
    if (isLater(node)) return `${node.kind} ${spelling(node.tokens)}`.trim();
    const { name } = node as { name?: unknown };
    if (typeof name === 'string') return name;
    if (isPart(node)) return kindOf(node);
    if (isFitting(node)) return node.kind;
    return node.$type === 'Split' ? 'split' : undefined;
}

function detailOf(node: AstNode): string {
    const { title } = node as { title?: string };
    return [...facts(node), ...(title === undefined ? [] : [unquote(title)])].filter((word) => word !== '').join(', ');
}

function facts(node: AstNode): string[] {
    if (isPart(node)) {
        const own = read(node);
        const [bore, length] = [own.measure('bore')?.si, own.measure('length')?.si];
        const size = [length === undefined ? '' : `${figure(length)} m`, bore === undefined ? '' : `${figure(fromSI(bore, 'mm'))} mm`].filter((word) => word !== '').join(' x ');
        const role = ['primary', 'final', 'vacuum', 'pressure'].find((word) => own.has(word)) ?? '';
        return [node.name === undefined ? '' : kindOf(node), role, size, own.get('normally')?.choice === undefined ? '' : `normally ${own.get('normally')!.choice}`];
    }
    if (isTank(node)) return ['tank', read(node).get('carries')?.choice ?? ''];
    if (isConsumer(node)) return [node.kind];
    if (isFitting(node)) return [node.name === undefined ? '' : node.kind];
    if (isSpace(node)) return [read(node).has('machinery') ? 'machinery space' : 'space'];
    if (isSelector(node)) return ['selector', ...node.positions.flatMap((position) => position.name ?? [])];
    if (isPosition(node)) return [spelling(node.tokens)];
    if (isCourse(node)) return [node.service, node.from && node.to ? `${endWords(node.from)} to ${endWords(node.to)}` : ''];
    if (isLineUp(node)) return [`line-up ${spelling(node.tokens)}`.trim()];
    if (isBleed(node)) return [spelling(node.tokens)];
    if (isProcedure(node)) return [spelling(node.tokens.slice(jobTokens(node).length)).replace(/"/g, '')];
    const plain: Readonly<Record<string, string>> = { Vessel: 'vessel', BleedPoint: 'bleed point', Changeover: 'changeover', Leg: 'leg' };
    return [plain[node.$type] ?? ''];
}

/** What is done: the head up to its title, its line-ups or its time. */
function jobTokens({ tokens }: Procedure): readonly AnyFactToken[] {
    const end = tokens.findIndex((token) => token.$type === 'Quoted' || token.$type === 'Measure' || (token.$type === 'Word' && ['starts', 'ends', 'kept'].includes(token.text)));
    return end < 0 ? tokens : tokens.slice(0, end);
}

const read = (node: AstNode & { readonly tokens: readonly AnyFactToken[]; readonly facts?: readonly FactLine[] }) => readFacts(tableOf(node), [node.tokens, ...(node.facts ?? []).map((line) => line.tokens)], []);
const endWords = (end: End): string => end.outside ?? `${end.part?.$refText ?? ''}${end.port ? `.${end.port.$refText}` : ''}`;

/** Names of all boats, each with the folder of its boat. */
export class BoatSymbols extends DefaultWorkspaceSymbolProvider {
    protected override getWorkspaceSymbol(description: AstNodeDescription): WorkspaceSymbol | undefined {
        const symbol = super.getWorkspaceSymbol(description);
        return symbol && { ...symbol, containerName: UriUtils.basename(UriUtils.dirname(description.documentUri)) };
    }
}
