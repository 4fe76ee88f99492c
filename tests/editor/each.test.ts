/** Lines for several parts in the editor: what is behind `each` and in a list is found, renamed, completed, told of and coloured as any name is. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { CodeAction, CompletionItem, CompletionList, Hover, Location, LocationLink, SemanticTokens, TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { openEditor, judged, type Editor, type Texts } from './editor';

const PATTERNS = `pattern Bowl is filter primary { passes 10 um }
pattern Spare is filter primary { passes 30 um }
pattern Wing is supply course {
  shutoff V1    normally open
  filter F1     like Bowl
  electric primer EP1   like GenericElectric
}
pattern GenericElectric is electric primer { when off passes }
`;
const BOAT = `vessel Merrowake
tank T1 { pickup P1   drop R1   vent   fill }
engine E1
engine E2
supply course Port like Wing from T1.P1 to E1   tags -P
supply course Stbd like Wing from T1.P1 to E2   tags -S
return course Back1 from E1 to T1.R1 { hose }
return course Back2 from E2 to T1.R1 { hose }
tend {
  renew each Bowl element          every 250 h
  work each electric primer, F1-P, each shutoff   every 6 months
  look V1-P, V1-S                  every 1 month
}
log 2026 {
  2026-01-02   renewed F1-P, F1-S element
}
`;
const TEXTS: Texts = { 'a.orlop': BOAT, 'b.orlop': PATTERNS };

let editor: Editor;
beforeAll(async () => {
    editor = await openEditor();
    await editor.open('each', TEXTS);
});
afterAll(async () => expect(await editor.close()).toEqual({ code: 0, stderr: '' }));

const rename = async (file: string, words: string, newName: string): Promise<Texts> => editor.after('each', await editor.ask<WorkspaceEdit>('textDocument/rename', { ...editor.at('each', file, words), newName }));
const place = (uri: string, range: Location['range']): string => `${uri.split('/').at(-1)}:${range.start.line + 1} ${editor.words(uri, range)}`;

test('the pattern behind `each` leads to the pattern, and is one of its uses', async () => {
    const [found] = await editor.ask<LocationLink[]>('textDocument/definition', editor.at('each', 'a.orlop', 'each @Bowl'));
    expect(place(found!.targetUri, found!.targetSelectionRange)).toBe('b.orlop:1 Bowl');
    const uses = await editor.ask<Location[]>('textDocument/references', { ...editor.at('each', 'b.orlop', 'pattern @Bowl'), context: { includeDeclaration: true } });
    expect(uses.map(({ uri, range }) => place(uri, range)).sort()).toEqual(['a.orlop:10 Bowl', 'b.orlop:1 Bowl', 'b.orlop:5 Bowl']);
});

test('it is renamed with the pattern, from either place', async () => {
    const after = await rename('a.orlop', 'each @Bowl', 'Primary');
    expect(after).toEqual({ 'a.orlop': BOAT.replace('each Bowl', 'each Primary'), 'b.orlop': PATTERNS.replace(/\bBowl\b/g, 'Primary') });
    expect(await rename('b.orlop', 'pattern @Bowl', 'Primary')).toEqual(after);
    expect(await judged(after)).toEqual(await judged(TEXTS));
});

test('a name in a list is found and renamed like any other', async () => {
    const uses = await editor.ask<Location[]>('textDocument/references', { ...editor.at('each', 'b.orlop', 'filter @F1'), context: { includeDeclaration: false } });
    expect(uses.map(({ uri, range }) => place(uri, range)).sort()).toEqual(['a.orlop:11 F1-P', 'a.orlop:15 F1-P', 'a.orlop:15 F1-S']);
    const after = await rename('a.orlop', 'renewed F1-P, @F1-S', 'FX-S');
    expect(after['a.orlop']).toContain('primer, FX-P, each');
    expect(after['a.orlop']).toContain('renewed FX-P, FX-S element');
});

test('a word of a kind is no name', async () => { await expect(rename('a.orlop', 'each @shutoff', 'V9')).rejects.toThrow(/word of the language/); });

test.each<[string, string]>([
    ['@each Bowl', 'F1-P and F1-S'], ['each @Bowl', 'F1-P and F1-S'], ['each electric @primer', 'EP1-P, EP1-S, F1-P, V1-P and V1-S'],
])('over %s it says which parts are meant', async (words, parts) => {
    const hover = await editor.ask<Hover>('textDocument/hover', editor.at('each', 'a.orlop', words));
    expect((hover.contents as { value: string }).value).toContain(parts);
});

async function offered(line: string): Promise<string[]> {
    await editor.open('each', { 'a.orlop': BOAT.replace('tend {', `tend {\n  ${line}`) });
    const found = await editor.ask<CompletionList | CompletionItem[]>('textDocument/completion', editor.at('each', 'a.orlop', `  ${line}@`));
    await editor.open('each', { 'a.orlop': BOAT });
    return (Array.isArray(found) ? found : found?.items ?? []).map(({ label }) => label);
}
test.each<[string, readonly string[], readonly string[]]>([
    // Kinds and patterns that nothing on the boat is of are not offered.
    ['work each ', ['shutoff', 'filter', 'tank', 'engine', 'electric primer', 'Bowl', 'GenericElectric'], ['selector', 'gauge', 'Spare', 'Wing', 'V1-P', 'hose']],
    ['work each sh', ['shutoff'], ['V1-P']],
    ['work each electric ', ['primer'], ['pump', 'electric primer']],
    ['work ', ['V1-P', 'T1', 'each'], ['shutoff', 'Bowl']],
    ['work V1-P, ', ['V1-S', 'each'], ['element']],
    ['renew each Bowl element every 250 h with lid ring, ', ['common practice'], ['V1-P', 'each']],
    ['renew each Bowl ', ['element'], ['shutoff', 'Bowl']],
])('behind "%s"', async (line, wanted, not) => {
    const labels = await offered(line);
    expect(labels).toEqual(expect.arrayContaining([...wanted]));
    for (const label of not) expect(labels).not.toContain(label);
});

test('the formatter keeps lists together and the table in its columns', async () => {
    const edits = await editor.ask<TextEdit[]>('textDocument/formatting', { textDocument: { uri: editor.uri('each', 'a.orlop') }, options: { tabSize: 2, insertSpaces: true } });
    const text = editor.after('each', { changes: { [editor.uri('each', 'a.orlop')]: edits } })['a.orlop']!;
    expect(text).toContain(`tend {
  renew each Bowl element                         every 250 h
  work each electric primer, F1-P, each shutoff   every 6 months
  look V1-P, V1-S                                 every 1 month
}
log 2026 {
  2026-01-02   renewed F1-P, F1-S element
}
`);
});

test('each word has its colour', async () => {
    const { tokenTypes } = (editor.capabilities.semanticTokensProvider as { legend: { tokenTypes: string[] } }).legend;
    const { data } = await editor.ask<SemanticTokens>('textDocument/semanticTokens/full', { textDocument: { uri: editor.uri('each', 'a.orlop') } });
    const lines = BOAT.split('\n');
    const found: string[] = [];
    for (let i = 0, line = 0, character = 0; i < data.length; i += 5) {
        const [down, right, length, type] = data.slice(i, i + 4) as [number, number, number, number];
        character = down === 0 ? character + right : right;
        line += down;
        if (line === 9 || line === 10) found.push(`${lines[line]!.slice(character, character + length)}: ${tokenTypes[type]}`);
    }
    expect(found).toEqual([
        'renew: keyword', 'each: keyword', 'Bowl: type', '250 h: number',
        'work: keyword', 'each: keyword', 'electric: type', 'primer: type', 'F1-P: variable', 'each: keyword', 'shutoff: type', '6 months: number',
    ]);
});

test('where `each` has left a part without an interval, the usual ones of that part alone are offered', async () => {
    const text = BOAT.replace('  work each electric primer, F1-P, each shutoff   every 6 months\n', '');
    await editor.open('each', { 'a.orlop': text });
    const at = editor.at('each', 'a.orlop', '@renew each Bowl').position;
    const uri = editor.uri('each', 'a.orlop');
    const actions = await editor.ask<CodeAction[]>('textDocument/codeAction', { textDocument: { uri }, range: { start: at, end: at }, context: { diagnostics: [] } });
    const written = editor.after('each', actions.find(({ title }) => title.startsWith('Write the usual intervals'))!.edit!)['a.orlop']!;
    const added = written.split('\n').filter((line) => !text.split('\n').includes(line)).map((line) => line.trim().split('   ')[0]!.trim());
    expect(added.sort()).toEqual(['drain T1 water', 'look T1 fill cap', 'look T1 vent', 'look hoses', 'renew hoses', 'test EP1-P', 'test EP1-S']);
    await editor.open('each', { 'a.orlop': BOAT });
});
