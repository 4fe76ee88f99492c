/** The lines of figures over courses and consumers, and what stands upstream and downstream. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall, CodeLens } from 'vscode-languageserver-protocol';
import { openEditor, type Editor } from './editor';

const TEXT = `tank T1 {
  pickup P1
  drop R1
}
engine E1
heater H1
supply course Feed from T1.P1 to E1 {
  shutoff V1
  hose S1   bore 8 mm   length 2 m
  split {
    leg main { filter F1 { holds 450 mL } }
    leg beside { shutoff VB }
  }
  tee J1
  tube S2   bore 6 mm   length 1 m
}
supply course Branch from J1 to H1 { hose S3   length 1 m
  hose }
return course Back from E1 to T1.R1
vent course Breather from T1 to air { hose VH1 }
`;
const SELECTOR = `tank T1 { pickup P1 }
tank T2 { pickup P1 }
engine E1
selector SV1 {
  ports one, two, out
  position ONE joins one, out
  position TWO joins two, out
}
supply course A from T1.P1 to SV1.one { hose A1 }
supply course B from T2.P1 to SV1.two { hose B1 }
supply course C from SV1.out to E1 { hose C1 }
`;

let editor: Editor;
beforeAll(async () => {
    editor = await openEditor();
    await editor.open('figures', { 'a.orlop': TEXT });
    await editor.open('selector', { 'a.orlop': SELECTOR });
    await editor.open('brackenwake-mended');
});
afterAll(async () => expect(await editor.close()).toEqual({ code: 0, stderr: '' }));

/** Titles by the name that they stand over. */
async function lenses(boat: string, file: string): Promise<Record<string, string>> {
    const uri = editor.uri(boat, file);
    const found = await editor.ask<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
    expect(found.every(({ command }) => command === undefined), 'worked out only when seen').toBe(true);
    return Object.fromEntries(await Promise.all(found.map(async (lens) => [editor.words(uri, lens.range), (await editor.ask<CodeLens>('codeLens/resolve', lens)).command!.title])));
}

test('a course tells its length, what it holds and its joints', async () => {
    expect(await lenses('figures', 'a.orlop')).toMatchObject({
        // 2 m + 1 m. π/4 x 8² = 50.265 mm² x 2 m = 100.5 mL; π/4 x 6² = 28.274 mm² x 1 m = 28.3 mL; with the filter 578.8 mL.
        // P1-V1, V1-S1, S1-split, split-F1, F1-rejoins, split-VB, VB-rejoins, rejoins-J1, J1-S2, S2-E1: ten.
        Feed: '3 m of pipe, holds 579 mL, 10 joints',
        // One hose of 1 m without a bore, one without anything: no volume is known. J1-S3, S3-hose, hose-H1.
        Branch: 'at least 1 m of pipe, 3 joints',
        Back: '1 joint',
        // The end in the open air is no joint.
        Breather: '1 joint',
    });
});

test('an engine tells what is found on its own lines, not on another\'s', async () => {
    await editor.open('clean', { 'a.orlop': 'engine E1\ntank T1 { pickup P1\n  drop R1\n  vent at 1 m }\ngenerator GN\ntank T2 { pickup P1\n  drop R1\n  vent at 1 m }\nsupply course A from T1.P1 to E1 { shutoff V1 normally open }\nreturn course AB from E1 to T1.R1\nsupply course B from T2.P1 to GN { shutoff V2 normally open }\nreturn course BB from GN to T2.R1 { shutoff V3 normally open }\nline-up RUN run is normal\n' });
    const titles = await lenses('clean', 'a.orlop');
    // Neither has a filter (NO-UNFILTERED), and V3 can block the return of GN (RETURN-NO-BLOCK). Not told of either: the bore of
    // the tank's vent, and where it ends; the mouths of its drop and its pickup, its size; how the engine injects, its exhaust, its bleed points, where its line rises and falls; what it draws, and its maker's limits. Eleven facts each.
    expect(titles).toMatchObject({ E1: '1 finding and 11 facts to measure on its lines', GN: '2 findings and 11 facts to measure on its lines' });
});

describe('upstream and downstream:', () => {
    const prepare = async (boat: string, words: string): Promise<CallHierarchyItem> => (await editor.ask<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', editor.at(boat, 'a.orlop', words)))[0]!;
    const names = async (boat: string, words: string): Promise<[string, string[], string[]]> => {
        const item = await prepare(boat, words);
        const up = await editor.ask<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
        const down = await editor.ask<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', { item });
        return [item.name, up.map(({ from }) => from.name), down.map(({ to }) => to.name)];
    };
    test.each([
        ['shutoff @V1', 'V1', ['T1.P1'], ['S1']], ['hose @S1', 'S1', ['V1'], ['F1', 'VB']], ['filter @F1', 'F1', ['S1'], ['J1']], ['tee @J1', 'J1', ['F1', 'VB'], ['S2', 'S3']],
        ['from @J1', 'J1', ['F1', 'VB'], ['S2', 'S3']], ['engine @E1', 'E1', ['S2'], ['T1.R1']], ['pickup @P1', 'T1.P1', ['T1'], ['V1']], ['drop @R1', 'T1.R1', ['E1'], ['T1']],
        ['tank @T1', 'T1', ['T1.R1'], ['T1.P1', 'T1.vent']], ['@hose }', 'the hose after S3', ['S3'], ['H1']], ['hose @VH1', 'VH1', ['T1.vent'], []],
    ])('%s', async (words, ...wanted) => expect(await names('figures', words)).toEqual(wanted));
    test('through a selector', async () => expect(await names('selector', 'selector @SV1')).toEqual(['SV1', ['A1', 'B1'], ['C1']]));
    test('a line-up is no part of the flow', async () => {
        expect(await editor.ask('textDocument/prepareCallHierarchy', editor.at('brackenwake-mended', 'lines.orlop', 'line-up @SERVICE'))).toBeNull();
    });
});
