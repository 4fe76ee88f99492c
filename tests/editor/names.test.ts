/** Uses of a name and its renaming, asked over the protocol. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { DocumentHighlight, Location, LocationLink, Range, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { spoil } from '../bad-input/slips';
import { lots } from '../oracle/random-boats';
import { judged, openEditor, textsOf, type Editor, type Texts } from './editor';

let editor: Editor;
beforeAll(async () => {
    editor = await openEditor();
    for (const boat of ['ottilwake-mended', 'brackenwake-mended', 'brackenwake']) await editor.open(boat);
});
afterAll(async () => expect(await editor.close()).toEqual({ code: 0, stderr: '' }));

const rename = (boat: string, file: string, words: string, newName: string): Promise<WorkspaceEdit> => editor.ask('textDocument/rename', { ...editor.at(boat, file, words), newName });
const references = (boat: string, file: string, words: string, includeDeclaration = true): Promise<Location[]> =>
    editor.ask('textDocument/references', { ...editor.at(boat, file, words), context: { includeDeclaration } });
/** Each use as `file:line words`, sorted as text. */
const shown = (boat: string, found: readonly Location[]): string[] => found.map(({ uri, range }) => `${uri.slice(editor.uri(boat, '').length)}:${range.start.line + 1} ${editor.text(uri).split('\n')[range.start.line]!.trim()}`).sort();

/** How often a name stands in the text outside of quotes and comments, as a word of its own. */
function count(texts: Texts, name: string): number {
    const bare = Object.values(texts).join('\n').replace(/"[^"\n]*"|--[^\n]*/g, '');
    return bare.match(new RegExp(`(?<![\\w-])${name}(?![\\w-])`, 'g'))?.length ?? 0;
}

const MENDED = ['ottilwake-mended', 'brackenwake-mended'] as const;
const LAST_OR_FIRST = ['Zz-9', 'A0'];

describe.each(MENDED)('%s:', (boat) => {
    const sound = textsOf(boat);
    const before = judged(sound);

    // A filter, a vent, a valve, a primer; then a pump, an engine, a line-up, a space and a course.
    test.each(['F1', 'F2', 'BS1', 'BS3', 'V1', 'PR1', 'LP1', 'E1', 'SERVICE', boat === 'ottilwake-mended' ? 'EngineBay' : 'EngineRoom', boat === 'ottilwake-mended' ? 'Feed' : 'Common'])('%s renamed from any of its places: no slip, no finding, no kept sequence that is no longer true', async (name) => {
        // One that comes last among the names of the boat, or one that comes first, turn about: which sequence is found must not hang on it.
        for (const fresh of [LAST_OR_FIRST[(name.length + name.charCodeAt(name.length - 1) + MENDED.indexOf(boat)) % 2]!]) {
            const results: Texts[] = [];
            for (const [file, text] of Object.entries(sound)) {
                const bare = text.replace(/"[^"\n]*"|--[^\n]*/g, (hidden) => ' '.repeat(hidden.length));
                for (const { index } of bare.matchAll(new RegExp(`(?<![\\w-])${name}(?![\\w-])`, 'g'))) {
                    const position = { line: text.slice(0, index).split('\n').length - 1, character: index - text.lastIndexOf('\n', index - 1) - 1 };
                    const edit = await editor.ask<WorkspaceEdit>('textDocument/rename', { textDocument: { uri: editor.uri(boat, file) }, position, newName: fresh });
                    results.push(editor.after(boat, edit));
                }
            }
            expect(results.length).toBeGreaterThan(0);
            for (const texts of results) expect(texts).toEqual(results[0]);
            expect(count(results[0]!, name)).toBe(0);
            expect(count(results[0]!, fresh)).toBe(count(sound, name));
            const rest = (found: string[], named: string): string[] => found.map((line) => line.replaceAll(named, '*')).sort();
            expect(rest(await judged(results[0]!), fresh)).toEqual(rest(await before, name));
        }
    });
});

test('two boats both have a V1: only the own one changes', async () => {
    const edit = await rename('brackenwake-mended', 'lines.orlop', 'shutoff @V1', 'V77');
    expect(Object.keys(edit.changes!)).toEqual(expect.arrayContaining([editor.uri('brackenwake-mended', 'lines.orlop'), editor.uri('brackenwake-mended', 'upkeep.orlop')]));
    expect(Object.keys(edit.changes!).every((uri) => uri.includes('/brackenwake-mended/'))).toBe(true);
    const found = await references('brackenwake-mended', 'lines.orlop', 'shutoff @V1');
    expect(found.every(({ uri }) => uri.includes('/brackenwake-mended/'))).toBe(true);
});

test('labels, titles, notes and comments stay as they are', async () => {
    const texts = {
        'a.orlop': '-- V1 and F1\ntank T1 { pickup P1 }\nengine E1 "V1 engine"\nsupply course Feed from T1.P1 to E1 {\n  shutoff V1   label "V1"   note "V1 is stiff"   normally open -- V1\n  filter F1 final\n}\n',
        'b.orlop': 'tend { work V1 every 6 months note "V1 too" }\nbleed E1 after opening F1 {\n  open V1\n    note "V1 is stiff"\n}\n',
    };
    await editor.open('quotes', texts);
    const after = editor.after('quotes', await rename('quotes', 'b.orlop', 'work @V1', 'Main'));
    expect(after).toEqual({
        'a.orlop': texts['a.orlop'].replace('shutoff V1', 'shutoff Main'),
        'b.orlop': texts['b.orlop'].replace('work V1', 'work Main').replace('open V1', 'open Main'),
    });
});

test('a note in a kept sequence stays, the warnings around it follow', async () => {
    const boat = 'ottilwake-mended';
    const texts = textsOf(boat);
    const noted = { ...texts, 'lines.orlop': texts['lines.orlop']!.replace('  open V1\n', '  open V1\n    note "V1 is stiff"\n') };
    await editor.open(boat, noted);
    const after = editor.after(boat, await rename(boat, 'lines.orlop', 'shutoff @V1', 'V77'));
    expect(after['lines.orlop']).toContain('  open V77\n    note "V1 is stiff"\n');
    expect(after['lines.orlop']).toContain('Close BS1 to stop it; V77 shut stops only what comes along the supply.');
    expect(after['lines.orlop']).toContain('label "FUEL"');
    expect(await judged(after)).toEqual(await judged(noted));
    await editor.open(boat, texts);
});

test('a position reaches line-ups, bleed steps, and the selectors that turn with its own', async () => {
    const texts = {
        'boat.orlop': 'tank T1 { pickup P1\n  pickup P2\n  drop R1 }\nengine E1\nselector SV1 {\n  ports port, stbd, out\n  position PORT joins port, out\n  position STBD joins stbd, out\n  position OFF joins nothing\n  turning PORT to STBD passes OFF\n}\nselector SV2 {\n  ports in, port, stbd\n  position PORT joins in, port\n  position STBD joins in, stbd\n  ganged with SV1\n}\nselector SV3 {\n  ports port, stbd, out\n  position PORT joins port, out\n}\n',
        'line-ups.orlop': 'line-up RUN run { SV1 PORT   SV3 PORT }\nbleed E1 after running dry {\n  turn SV1 to PORT\n  turn SV3 to PORT\n}\n',
    };
    await editor.open('valves', texts);
    const wanted = {
        'boat.orlop': texts['boat.orlop'].replace('position PORT joins port', 'position LEFT joins port').replace('turning PORT', 'turning LEFT').replace('position PORT joins in', 'position LEFT joins in'),
        'line-ups.orlop': texts['line-ups.orlop'].replace('SV1 PORT', 'SV1 LEFT').replace('SV1 to PORT', 'SV1 to LEFT'),
    };
    for (const [file, words] of [['boat.orlop', 'position @PORT joins port'], ['boat.orlop', 'turning @PORT'], ['line-ups.orlop', 'SV1 @PORT'], ['line-ups.orlop', 'SV1 to @PORT']] as const) {
        expect(editor.after('valves', await rename('valves', file, words, 'LEFT')), words).toEqual(wanted);
    }
    const definition = await editor.ask<LocationLink[]>('textDocument/definition', editor.at('valves', 'line-ups.orlop', 'SV3 @PORT'));
    expect(definition.map(({ targetSelectionRange }) => targetSelectionRange.start.line)).toEqual([19]);
    // SV1 has an OFF that SV2 has not: the one handle could not tell them apart.
    await expect(rename('valves', 'boat.orlop', 'position @PORT joins in', 'OFF')).rejects.toThrow(/`OFF` is already a name in SV1/);
    // A port is named in the positions that join it and in the courses that end at it.
    const port = editor.after('valves', await rename('valves', 'boat.orlop', 'ports port, @stbd', 'right'));
    expect(port['boat.orlop']).toBe(texts['boat.orlop'].replace('stbd', 'right').replace('joins stbd', 'joins right'));
});

test('the same letters for another thing are left alone', async () => {
    // Each tank of Brackenwake has a fitting R1, and one of her hoses is called so too.
    const changed = async (words: string): Promise<string[]> => Object.entries((await rename('brackenwake-mended', words.includes('hose') ? 'lines.orlop' : 'boat.orlop', words, 'R9')).changes!)
        .flatMap(([uri, list]) => list.map(({ range }) => editor.text(uri).split('\n')[range.start.line]!.trim().split(/ {2,}|\{/)[0]!.trim())).sort();
    expect(await changed('hose @R1')).toEqual(['hose R1']);
    expect(await changed('drop @R1')).toEqual(['drop R1', 'return course ToPort from SV2.port to T1.R1']);
    await editor.open('changeover', { 'a.orlop': 'engine E1\ntank T1 { pickup P1 }\nsupply course B from T1.P1 to E1 {\n  changeover CH1 {\n    leg A { hose }\n    leg B { hose }\n    position A through A\n    position B through B\n    turning A to B passes A\n  }\n}\nbleed E1 after running dry { turn CH1 to B\n}\n' });
    const lines = async (words: string): Promise<number[]> => (await references('changeover', 'a.orlop', words)).map(({ range }) => range.start.line).sort((a, b) => a - b);
    expect(await lines('leg @A')).toEqual([4, 6]);
    expect(await lines('position @A')).toEqual([6, 8, 8]);
    expect(await lines('position @B')).toEqual([7, 8, 11]);
    expect(await lines('course @B')).toEqual([2]);
});

test('every kind of use is found', async () => {
    const texts = {
        'boat.orlop': `vessel Hulk { space Bay machinery }
tank T1 in Bay { pickup P1
  drop R1 }
engine E1 in Bay
supply course Feed from T1.P1 to E1 {
  filter F1 final in Bay { ports at 600 mm
    lid at 40 mm over ports }
  hose S1   crest at 20 mm under F1 outlet
  tee J1
}
transfer course Cross from J1 to T1.R1
locker "settee" { 2 of F1 element }
`,
        'kept.orlop': `tend { renew F1 element every 250 h }
log 2025 { 2025-03-12 E1 1410 h renewed F1 element }
bleed E1 after opening F1 prefilled F1 {
  prefill F1
}
`,
    };
    await editor.open('uses', texts);
    expect(shown('uses', await references('uses', 'kept.orlop', 'prefill @F1'))).toEqual([
        'boat.orlop:12 locker "settee" { 2 of F1 element }', 'boat.orlop:6 filter F1 final in Bay { ports at 600 mm', 'boat.orlop:8 hose S1   crest at 20 mm under F1 outlet',
        'kept.orlop:1 tend { renew F1 element every 250 h }', 'kept.orlop:2 log 2025 { 2025-03-12 E1 1410 h renewed F1 element }',
        'kept.orlop:3 bleed E1 after opening F1 prefilled F1 {', 'kept.orlop:3 bleed E1 after opening F1 prefilled F1 {', 'kept.orlop:4 prefill F1',
    ]);
    expect(await references('uses', 'kept.orlop', 'prefill @F1', false)).toHaveLength(7);
    expect(shown('uses', await references('uses', 'boat.orlop', 'in @Bay'))).toHaveLength(4);
    expect(shown('uses', await references('uses', 'boat.orlop', 'pickup @P1'))).toEqual(['boat.orlop:2 tank T1 in Bay { pickup P1', 'boat.orlop:5 supply course Feed from T1.P1 to E1 {']);
    const highlights = await editor.ask<DocumentHighlight[]>('textDocument/documentHighlight', editor.at('uses', 'boat.orlop', 'filter @F1'));
    expect(highlights.map(({ range }) => range.start.line)).toEqual([5, 7, 11]);
});

test('in spoilt texts too a renaming changes no finding, or is refused', async () => {
    const lot = lots(3);
    let renamed = 0;
    for (let i = 0; i < 200; i++) {
        const boat = MENDED[i % 2]!;
        const { texts, file, how } = spoil(textsOf(boat), lot);
        await editor.open(boat, texts);
        const places = [...texts[file]!.matchAll(/(?<![\w-])[A-Z]\w*(?:-\w+)*/g)];
        if (places.length === 0) continue;
        const { 0: name, index } = places[Math.floor(lot() * places.length)]!;
        const position = TextDocument.create('file:///a', 'orlop', 0, texts[file]!).positionAt(index);
        const edit = await editor.ask<WorkspaceEdit>('textDocument/rename', { textDocument: { uri: editor.uri(boat, file) }, position, newName: 'Zz-9' }).catch((error: Error) => { expect(error.message).toMatch(/^[^a-z].*\.$/s); return undefined; });
        if (!edit) continue;
        // The words of a slip may propose another name; what is wrong, and where, may not change.
        const wrong = (found: readonly string[], called: string): string[] => found.map((line) => (/^[a-z]/.test(line) ? line.split(' ')[0]! : line.replace(new RegExp(`(?<= |/|\\.)${called}(?![\\w-])`), '*'))).sort();
        const before = await judged(texts);
        // Of a tag used twice one is renamed, which mends that; a test below has it.
        if (before.some((line) => line.startsWith(`TAG-UNIQUE ${name}`))) continue;
        renamed++;
        expect(wrong(await judged(editor.after(boat, edit)), 'Zz-9'), `${name} after ${how}`).toEqual(wrong(before, name));
    }
    expect(renamed).toBeGreaterThan(40);
    for (const boat of MENDED) await editor.open(boat);
}, 240_000);

describe('what cannot be renamed is refused with a reason:', () => {
    const boat = 'brackenwake-mended';
    const prepare = (file: string, words: string): Promise<Range> => editor.ask('textDocument/prepareRename', editor.at(boat, file, words));
    test.each([
        ['lines.orlop', '@shutoff V1', /`shutoff` is a word of the language/], ['lines.orlop', 'bore @10 mm', /`10 mm` is a quantity/], ['lines.orlop', 'bore 10 @mm', /`10 mm` is a quantity/],
        ['lines.orlop', 'label "@FUEL PORT"', /between quotes/], ['lines.orlop', '-- The @fuel', /comment/], ['boat.orlop', 'from "@top of', /between quotes/],
    ])('%s %s', async (file, words, reason) => { await expect(prepare(file, words)).rejects.toThrow(reason); });

    test('and a name is answered with its range', async () => {
        const { range } = { range: await prepare('lines.orlop', 'shutoff @V1') };
        expect(editor.words(editor.uri(boat, 'lines.orlop'), range)).toBe('V1');
        expect(editor.words(editor.uri(boat, 'lines.orlop'), await prepare('lines.orlop', 'from T1.@P1'))).toBe('P1');
        expect(editor.words(editor.uri(boat, 'lines.orlop'), await prepare('lines.orlop', 'SV1.@port'))).toBe('port');
    });

    test.each([
        ['shutoff @V1', 'v9', /`v9` is not a name.*capital letter, like `V9`/], ['shutoff @V1', 'V 9', /not a name/], ['shutoff @V1', '', /not a name/], ['shutoff @V1', '8 mm', /not a name/], ['shutoff @V1', 'T-ring', /not a name/], ['shutoff @V1', 'V9 -- x', /not a name/],
        ['shutoff @V1', 'V2', /`V2` is already a name in this boat: lines\.orlop, line \d+/], ['shutoff @V1', 'BS3', /boat\.orlop/], ['shutoff @V1', 'RUN-PORT', /already a name/],
        ['position @PORT joins port', 'STBD', /`STBD` is already a name in SV1/], ['ports port, @stbd', 'out', /`out` is already a name in SV1/], ['ports port, @stbd', 'nothing', /already has a meaning/],
        ['selector @SV1', 'PORT', /Inside SV2, where SV1 is used, `PORT` already means something else/],
    ])('%s to %s', async (words, name, reason) => { await expect(rename(boat, 'lines.orlop', words, name)).rejects.toThrow(reason); });

    test('a name that also stands in a line that is not understood', async () => {
        await editor.open('half', { 'a.orlop': 'tank T1 { pickup P1 }\nengine E1\nsupply course A from T1.P1 to E1 { shutoff V1 }\n', 'b.orlop': 'line-up RUN run { V1 open }\nV1 sticks\n' });
        await expect(rename('half', 'a.orlop', 'shutoff @V1', 'V7')).rejects.toThrow(/`V1` also stands in b\.orlop, line 2, which is not understood/);
    });
    test('a name that is used though nothing goes by it', async () => {
        await editor.open('stranger', { 'a.orlop': 'tank T1 { pickup P1 }\nengine E1\nsupply course A from T1.P1 to E1 { shutoff V1 }\n', 'b.orlop': 'line-up RUN run { V7 open }\n' });
        await expect(rename('stranger', 'a.orlop', 'shutoff @V1', 'V7')).rejects.toThrow(/`V7` is used in b\.orlop, line 1, though nothing goes by it/);
    });
    test('a tag used twice: each declaration is renamed alone, the uses belong to the first', async () => {
        await editor.open('twice', { 'a.orlop': 'tank T1 { pickup P1 }\nengine E1\nsupply course A from T1.P1 to E1 {\n  shutoff V1\n  shutoff V1 "second"\n}\nline-up RUN run { V1 open }\n' });
        const second = editor.after('twice', await rename('twice', 'a.orlop', 'shutoff @V1 "second"', 'V2'));
        expect(second['a.orlop']).toBe('tank T1 { pickup P1 }\nengine E1\nsupply course A from T1.P1 to E1 {\n  shutoff V1\n  shutoff V2 "second"\n}\nline-up RUN run { V1 open }\n');
    });
});
