/** Outline, symbols, folding, growing selections and colours, asked over the protocol. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SemanticTokenModifiers, SemanticTokenTypes, SymbolKind, type DocumentSymbol, type FoldingRange, type SelectionRange, type SemanticTokens, type WorkspaceSymbol } from 'vscode-languageserver-protocol';
import { openEditor, type Editor } from './editor';

const TEXT = `-- A skiff,
-- as drawn.
vessel Skiff "the skiff" {
  envelope heel 20 deg   level 5 to 95 %
  space Bay machinery
}

tank T1 in Bay carries diesel {
  pickup P1   bore 8 mm
  vent
}
engine E1 "main engine" { bleed BS3 "gallery" }

supply course Feed from T1.P1 to E1 {
  shutoff V1    normally open   label "FUEL" -- by the ladder
  hose          length 2.60 m about   bore 8 mm measured 2026-03-02
  filter F1 primary in Bay {
    lid at 40 mm over ports
    prefill not on the clean side
    seals lid ring, T-ring
  }
}
selector SV1 {
  ports one, two, out
  position ONE joins one, out
}
line-up RUN run is normal { V1 open   SV1 ONE }
tend { renew F1 element every 250 h }
log 2025 { 2025-03-12 E1 1410 h renewed F1 element }
bleed E1 after opening F1 {
  open V1
}
locker "port" { 2 of F1 element }
`;

let editor: Editor;
let uri: string;
beforeAll(async () => {
    editor = await openEditor();
    await editor.open('skiff', { 'skiff.orlop': TEXT });
    uri = editor.uri('skiff', 'skiff.orlop');
});
afterAll(async () => expect(await editor.close()).toEqual({ code: 0, stderr: '' }));

const document = (): { textDocument: { uri: string } } => ({ textDocument: { uri } });

test('the outline is nested and tells each thing by its facts', async () => {
    const shown = (symbols: readonly DocumentSymbol[], depth = 0): string[] => symbols.flatMap(({ name, detail, children = [] }) => [`${'  '.repeat(depth)}${name}${detail === undefined ? '' : `: ${detail}`}`, ...shown(children, depth + 1)]);
    const symbols = await editor.ask<DocumentSymbol[]>('textDocument/documentSymbol', document());
    expect(shown(symbols)).toEqual([
        'Skiff: vessel, the skiff', '  Bay: machinery space', 'T1: tank, diesel', '  P1: pickup', '  vent', 'E1: engine, main engine', '  BS3: bleed point, gallery',
        'Feed: supply, T1.P1 to E1', '  V1: shutoff, normally open', '  hose: 2.6 m x 8 mm', '  F1: filter, primary', 'SV1: selector, ONE', '  one', '  two', '  out', '  ONE: joins one, out',
        'RUN: line-up run is normal', 'tend', 'log 2025', 'bleed E1: after opening F1', 'locker "port"',
    ]);
    const kinds = Object.fromEntries(symbols.map(({ name, kind }) => [name, kind]));
    expect(kinds).toMatchObject({ Skiff: SymbolKind.Module, T1: SymbolKind.Struct, Feed: SymbolKind.Function });
    expect(editor.words(uri, symbols[3]!.selectionRange)).toBe('Feed');
    expect(symbols[3]!.range).toEqual({ start: { line: 13, character: 0 }, end: { line: 21, character: 1 } });
});

test('a name is found in every boat, each with its folder', async () => {
    const found = await editor.ask<WorkspaceSymbol[]>('workspace/symbol', { query: 'V1' });
    const exact = found.filter(({ name }) => name === 'V1');
    expect(exact.map(({ containerName }) => containerName).sort()).toEqual(['brackenwake-mended', 'ottilwake', 'ottilwake-mended', 'skiff']);
});

test('blocks and runs of comments fold, and the closing brace stays in sight', async () => {
    const folds = await editor.ask<FoldingRange[]>('textDocument/foldingRange', document());
    const shown = folds.map(({ startLine, endLine, kind }) => [startLine, endLine, kind]).sort((a, b) => Number(a[0]) - Number(b[0]));
    expect(shown).toEqual([[0, 1, 'comment'], [2, 4, undefined], [7, 9, undefined], [13, 20, undefined], [16, 19, undefined], [22, 24, undefined], [29, 30, undefined]].filter(([from, to]) => Number(to) > Number(from)));
});

describe('a selection grows', () => {
    const grown = async (words: string): Promise<string[]> => {
        const { textDocument, position } = editor.at('skiff', 'skiff.orlop', words);
        const [first] = await editor.ask<SelectionRange[]>('textDocument/selectionRange', { textDocument, positions: [position] });
        const found: string[] = [];
        for (let at: SelectionRange | undefined = first; at; at = at.parent) found.push(editor.words(uri, at.range));
        return found;
    };
    test('from a quantity: fact, part, line, course, text', async () => {
        const line = 'hose          length 2.60 m about   bore 8 mm measured 2026-03-02';
        const course = TEXT.slice(TEXT.indexOf('supply course'), TEXT.indexOf('\nselector'));
        expect(await grown('length @2.60')).toEqual(['2.60 m', 'length 2.60 m about', line, course, TEXT]);
    });
    test('from a word in a block within a block', async () => {
        const filter = TEXT.slice(TEXT.indexOf('filter F1'), TEXT.indexOf('\n}\nselector'));
        expect((await grown('over @ports')).slice(0, 3)).toEqual(['ports', 'lid at 40 mm over ports', filter]);
    });
    test('from a name on a line with a comment', async () => {
        expect((await grown('shutoff @V1')).slice(0, 3)).toEqual(['V1', 'shutoff V1    normally open   label "FUEL"', 'shutoff V1    normally open   label "FUEL" -- by the ladder']);
    });
    test('from nothing: the text', async () => expect(await grown('}\n@\ntank')).toEqual([TEXT]));
});

test('each word has its colour', async () => {
    const { tokenTypes, tokenModifiers } = (editor.capabilities.semanticTokensProvider as { legend: { tokenTypes: string[]; tokenModifiers: string[] } }).legend;
    // Standard ones alone, so that every theme has a colour for them.
    expect(Object.values(SemanticTokenTypes)).toEqual(expect.arrayContaining(tokenTypes));
    expect(Object.values(SemanticTokenModifiers)).toEqual(expect.arrayContaining(tokenModifiers));
    const { data } = await editor.ask<SemanticTokens>('textDocument/semanticTokens/full', document());
    const lines = TEXT.split('\n');
    const found: string[] = [];
    for (let i = 0, line = 0, character = 0; i < data.length; i += 5) {
        const [down, right, length, type, modifiers] = data.slice(i, i + 5) as [number, number, number, number, number];
        character = down === 0 ? character + right : right;
        line += down;
        const names = tokenModifiers.filter((_, bit) => (modifiers >> bit) & 1);
        found.push(`${line + 1} ${lines[line]!.slice(character, character + length)}: ${[tokenTypes[type], ...names].join(' ')}`);
    }
    const of = (line: number): string[] => found.filter((token) => token.startsWith(`${line} `)).map((token) => token.slice(String(line).length + 1));
    expect(of(4)).toEqual(['envelope: parameter', 'heel: parameter', '20 deg: number', 'level: parameter', '5: number', 'to: operator', '95 %: number']);
    expect(of(5)).toEqual(['Bay: namespace declaration', 'machinery: parameter']);
    expect(of(8)).toEqual(['T1: class declaration', 'in: parameter', 'Bay: namespace', 'carries: parameter', 'diesel: enumMember']);
    expect(of(14)).toEqual(['Feed: function declaration', 'T1: class', 'P1: property', 'E1: class']);
    expect(of(15)).toEqual(['V1: variable declaration', 'normally: parameter', 'open: enumMember', 'label: parameter']);
    expect(of(16)).toEqual(['length: parameter', '2.60 m: number', 'about: modifier', 'bore: parameter', '8 mm: number', 'measured: modifier']);
    expect(of(18)).toEqual(['lid: parameter', 'at: operator', '40 mm: number', 'over: operator', 'ports: operator']);
    expect(of(19)).toEqual(['prefill: parameter', 'not: enumMember', 'on: enumMember', 'the: enumMember', 'clean: enumMember', 'side: enumMember']);
    // The lid of `seals lid ring` is a piece, not a fact.
    expect(of(20)).toEqual(['seals: parameter']);
    expect(of(25)).toEqual(['ONE: enumMember declaration', 'one: property', 'out: property']);
    expect(of(27)).toEqual(['RUN: enum declaration', 'V1: variable', 'open: enumMember', 'SV1: variable', 'ONE: enumMember']);
    expect(of(28)).toEqual(['renew: keyword', 'F1: variable', '250 h: number']);
    expect(of(29)).toEqual(['2025: number', 'E1: class', '1410 h: number', 'renewed: keyword', 'F1: variable']);
    expect(of(31)).toEqual(['open: keyword', 'V1: variable']);
    // Comments and quotations are left to the grammar of the editor.
    expect(found.filter((token) => /ladder|FUEL|skiff|gallery/.test(token))).toEqual([]);
});
