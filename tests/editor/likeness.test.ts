/** Patterns in the editor: definition, uses and renaming through the tags that they make; findings, outline, completion in the new blocks. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CompletionItem, CompletionList, Diagnostic, DocumentSymbol, Location, LocationLink, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { openEditor, judged, type Editor, type Texts } from './editor';

const PATTERNS = `pattern Bowl is filter primary {
  passes 10 um
  bleed BS at 45 mm over ports
}
pattern Wing is supply course {
  shutoff V1    normally open
  hose S1       bore 8 mm
  filter F1     like Bowl   ports at 660 mm
  hose S2       crest at 100 mm over F1 ports
  filter F2     final
}
`;
const BOAT = `vessel Merrowake
tank T1 { pickup P1   drop R1   vent   fill }
tank T2 like T1
engine E1 {
  injection in-line mechanical   exhaust dry
  bleed BE
}
engine E2 like E1
supply course Stbd like Wing from T2.P1 to E2   tags -S
supply course Port like Wing from T1.P1 to E1   tags -P {
  hose S2       length 1.9 m
}
return course Back1 from E1 to T1.R1 { hose }
return course Back2 from E2 to T2.R1 { hose }
line-up RUN     run       is normal    { V1-P open }
line-up SERVICE service   from RUN     { V1-P shut   V1-S shut }
tend { renew F1-P element every 250 h }
log 2026 { 2026-01-02   E1 10 h   renewed F1-P element }
`;
const TEXTS: Texts = { 'a.orlop': BOAT, 'b.orlop': PATTERNS };

let editor: Editor;
beforeAll(async () => {
    editor = await openEditor();
    await editor.open('twin', TEXTS);
});
afterAll(async () => expect(await editor.close()).toEqual({ code: 0, stderr: '' }));

const rename = (file: string, words: string, newName: string): Promise<WorkspaceEdit> => editor.ask('textDocument/rename', { ...editor.at('twin', file, words), newName });

describe('a tag that a pattern makes', () => {
    test('leads to where it is written', async () => {
        const target = async (words: string): Promise<string> => {
            const [found] = await editor.ask<LocationLink[]>('textDocument/definition', editor.at('twin', 'a.orlop', words));
            return `${found!.targetUri.split('/').at(-1)} ${editor.words(found!.targetUri, found!.targetSelectionRange)}`;
        };
        expect(await target('{ @V1-P open }')).toBe('b.orlop V1');
        expect(await target('renew @F1-P element')).toBe('b.orlop F1');
        // What differs in one course is the part of the pattern too.
        expect(await target('hose @S2       length')).toBe('b.orlop S2');
    });

    test('is found in every use', async () => {
        const found = await editor.ask<Location[]>('textDocument/references', { ...editor.at('twin', 'b.orlop', 'shutoff @V1'), context: { includeDeclaration: true } });
        expect(found.map(({ uri, range }) => `${uri.split('/').at(-1)}:${range.start.line + 1} ${editor.words(uri, range)}`).sort()).toEqual(['a.orlop:15 V1-P', 'a.orlop:16 V1-P', 'a.orlop:16 V1-S', 'b.orlop:6 V1'].sort());
    });

    test('is renamed with its suffix, from the pattern or from a use; what is made from it follows', async () => {
        const fromPattern = editor.after('twin', await rename('b.orlop', 'filter @F1     like', 'FX'));
        expect(fromPattern['b.orlop']).toContain('filter FX     like Bowl');
        expect(fromPattern['b.orlop']).toContain('crest at 100 mm over FX ports');
        expect(fromPattern['a.orlop']).toContain('renew FX-P element every');
        expect(fromPattern['a.orlop']).toContain('renewed FX-P element');
        expect(editor.after('twin', await rename('a.orlop', 'renew @F1-P element', 'FX-P'))).toEqual(fromPattern);
        expect(await judged(fromPattern)).toEqual((await judged(TEXTS)).map((line) => line.replaceAll(/F1(?=-|\b)/g, 'FX')).sort());
    });

    test('the part in the pattern, its override and its uses are one', async () => {
        const fromOverride = editor.after('twin', await rename('a.orlop', 'hose @S2       length', 'S9'));
        expect(fromOverride['a.orlop']).toContain('hose S9       length 1.9 m');
        expect(fromOverride['b.orlop']).toContain('hose S9       crest');
        expect((await judged(fromOverride)).filter((line) => line.includes('S2'))).toEqual([]);
    });

    test('an engine like another: its bleed points follow its name', async () => {
        const text = `${BOAT}bleed E2 after opening F1-S {\n  bleed BE-E2 by E2\n}\n`;
        await editor.open('twin', { 'a.orlop': text });
        const now = editor.after('twin', await rename('a.orlop', 'engine @E2 like', 'EX'));
        expect(now['a.orlop']).toContain('bleed BE-EX by EX');
        expect(now['a.orlop']).toContain('to EX   tags -S');
        await editor.open('twin', { 'a.orlop': BOAT });
    });

    test('a position of a selector is renamed in the line-ups of one that is like it', async () => {
        const selectors = 'selector SV1 {\n  ports port, stbd, out\n  position PORT joins port, out\n  position STBD joins stbd, out\n}\nselector SV2 like SV1\nline-up RUN run { SV1 PORT   SV2 PORT }\n';
        await editor.open('selectors', { 'a.orlop': selectors });
        const edit = await editor.ask<WorkspaceEdit>('textDocument/rename', { ...editor.at('selectors', 'a.orlop', 'position @PORT'), newName: 'LEFT' });
        expect(editor.after('selectors', edit)['a.orlop']).toBe(selectors.replaceAll('PORT', 'LEFT'));
        expect(await editor.ask<WorkspaceEdit>('textDocument/rename', { ...editor.at('selectors', 'a.orlop', 'SV2 @PORT }'), newName: 'LEFT' })).toEqual(edit);
    });

    test.each<[string, string, string, RegExp]>([
        ['a.orlop', '{ @V1-P open }', 'V9', /new name ends in -P too, like `V9-P`/],
        ['b.orlop', 'shutoff @V1', 'F1', /`F1` is already a name in Wing/],
        ['b.orlop', 'shutoff @V1', 'V 9', /is not a name/],
    ])('%s %s to %s is refused', async (file, words, name, reason) => { await expect(rename(file, words, name)).rejects.toThrow(reason); });

    test('a part of a shared pattern is not renamed from one boat', async () => {
        await editor.open('shared', { 'patterns.orlop': 'pattern Across is supply course { shutoff VX }\n' });
        await editor.open('one', { 'a.orlop': 'tank T1 { pickup P1 }\nengine E1\nsupply course A like Across from T1.P1 to E1 tags -1\nline-up RUN run { VX-1 open }\n' });
        await expect(editor.ask('textDocument/rename', { ...editor.at('one', 'a.orlop', '{ @VX-1 open'), newName: 'VY-1' })).rejects.toThrow(/other boats share/);
    });
});

test('a finding in a pattern stands in the pattern, and mending it there mends both courses', async () => {
    const bare = { 'a.orlop': BOAT.replace(/line-up[^]*$/, 'line-up RUN run is normal\n'), 'b.orlop': PATTERNS.replace('  shutoff V1    normally open\n', '') };
    await editor.open('twin', bare);
    const uri = editor.uri('twin', 'b.orlop');
    const { items } = await editor.ask<{ items: Diagnostic[] }>('textDocument/diagnostic', { textDocument: { uri } }).catch(() => ({ items: [] as Diagnostic[] }));
    const found = (await judged(bare)).filter((line) => line.startsWith('SHUT-AT-TANK'));
    expect(found).toHaveLength(2);
    const actions = await editor.ask<{ title: string; edit?: WorkspaceEdit }[]>('textDocument/codeAction', { textDocument: { uri }, range: { start: { line: 5, character: 7 }, end: { line: 5, character: 7 } }, context: { diagnostics: items } });
    const fix = actions.find(({ title }) => /shutoff/i.test(title) && !/all of this kind/.test(title));
    const mended = editor.after('twin', fix!.edit!);
    expect((await judged(mended)).filter((line) => line.startsWith('SHUT-AT-TANK'))).toEqual([]);
    await editor.open('twin', TEXTS);
});

test('outline: patterns, surveys and refits are in it', async () => {
    await editor.open('outline', { 'a.orlop': `${PATTERNS}survey Spring26 on 2026-03-02 by "s" {\n  limits "x"\n}\nrefit Haul26 "x" {\n  note "y"\n}\n` });
    const symbols = await editor.ask<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument: { uri: editor.uri('outline', 'a.orlop') } });
    expect(symbols.map(({ name }) => name)).toEqual(['Bowl', 'Wing', 'Spring26', 'Haul26']);
    expect(symbols[1]!.children!.map(({ name }) => name)).toEqual(['V1', 'S1', 'F1', 'S2', 'F2']);
});

test.each<[string, string, string, readonly string[]]>([
    ['a refit', 'refit Haul26 {\n  ', '', ['insert', 'set', 'move', 'remove']],
    ['a survey', 'survey Spring26 {\n  ', '', ['found', 'missing', 'answer']],
    ['an answer', 'survey Spring26 {\n  answer ', '', ['CHAFE', 'CLAMP']],
    ['a refit names parts', 'refit Haul26 {\n  move ', '', ['V1-P', 'F1-S', 'E1']],
    ['a waiver names rules', 'waive ', '', ['HOSE-AGE', 'SHUT-AT-TANK', 'CHAFE']],
    ['a waiver names parts', 'waive HOSE-AGE at ', '', ['S1-P', 'S1-S']],
    ['a procedure names parts', 'procedure renew ', '', ['F1-P']],
    ['a procedure\'s steps', 'procedure renew F1-P element {\n  ', '', ['open', 'shut', 'prefill', 'V1-P']],
    ['the present state', 'now 2026-03-02 {\n  ', '', ['V1-P', 'T1']],
    ['a locker', 'locker "box" {\n  2 of ', '', ['F1-P']],
    ['a course pattern', 'pattern More is supply course {\n  ', '', ['hose', 'shutoff']],
])('completion in %s', async (_what, head, _tail, labels) => {
    await editor.open('twin', { 'a.orlop': `${BOAT}${head}\n` });
    const lines = `${BOAT}${head}`.split('\n');
    const found = await editor.ask<CompletionList | CompletionItem[]>('textDocument/completion', { textDocument: { uri: editor.uri('twin', 'a.orlop') }, position: { line: lines.length - 1, character: lines.at(-1)!.length } });
    const items = Array.isArray(found) ? found : found?.items ?? [];
    expect(items.map(({ label }) => label)).toEqual(expect.arrayContaining([...labels]));
    await editor.open('twin', { 'a.orlop': BOAT });
});
