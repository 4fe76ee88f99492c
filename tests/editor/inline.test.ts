/** Figures in the text: where they stand and what they say, on the worked vessel, by hand. */
import { afterEach, expect, test } from 'vitest';
import type { InlayHint } from 'vscode-languageserver-protocol';
import { openEditor, type Editor } from './editor';

let editor: Editor;
afterEach(async () => { await editor.close(); });

/** Each figure behind the last words of its line. */
async function figures(file: string, settings: Record<string, unknown>): Promise<string[]> {
    editor = await openEditor({ workspace: { configuration: true } }, settings);
    await editor.open('ottilwake');
    const uri = editor.uri('ottilwake', file);
    const hints = await editor.ask<InlayHint[] | null>('textDocument/inlayHint', { textDocument: { uri }, range: { start: { line: 0, character: 0 }, end: { line: 1000, character: 0 } } });
    return (hints ?? []).map(({ position, label }) => `${/\S+ ?\S+ \S+$/.exec(editor.words(uri, { start: { line: position.line, character: 0 }, end: position }))?.[0]} | ${String(label)}`);
}

test('off, there are none', async () => {
    expect(await figures('boat.orlop', {})).toEqual([]);
});

test('on, what the tank holds and when its pickup runs dry', async () => {
    // 0.8 x 0.6 x 0.42 m = 201.6 L; 0.95 of it less 0.8 x 0.6 x 0.025 m = 12.0 L: 179.5 L. At 25 deg to starboard and 3 deg bow down 53.46 L (tanks-liquid.test.ts).
    expect(await figures('boat.orlop', { orlop: { inlineFigures: true } })).toEqual([
        '550 mm stbd | box: 202 L, 180 L usable upright', '700 mm stbd | mouth: dry below 12 L upright, 53.5 L heeled 25° to starboard, bow 3° down',
        // 15 L/h at 2400 rpm carried on to 3600: 22.5 L/h, less the 6.25 L/h that are burnt. The sum of the suction is in documents/answers-flow.test.ts.
        'at 2400 rpm | draws: 22.5 L/h at full (15 to 22.5), 16.3 L/h of it back', expect.stringMatching(/^return 10 kPa \| limits inlet: suction at worst [\d.]+ kPa of 20 kPa \([\d.]+ to [\d.]+\)$/),
    ]);
});

test('and from which level and heel an opened filter floods, and when the vent goes under', async () => {
    // Lid at 700 mm over a surface of 200 + 0.95 x 420 = 599 mm upright; beyond 5.0 deg to port it floods. The drain at 480 mm: 0.48 L a mm, (480 - 200) x 0.48 = 134.4 L.
    // The outlet 980 mm over the waterline and 1500 mm off the centreline: atan(980 / 1500) = 33.2 deg.
    const found = await figures('lines.orlop', { orlop: { inlineFigures: true } });
    expect(found.filter((words) => words.includes('floods'))).toEqual([
        'mm over ports | lid: opened, T1 when full floods it beyond 5° to port', 'at 480 mm | drain: opened, T1 floods it upright with more than 134 L', expect.stringMatching(/^150 mm port \| ports: opened, T1 when full floods it beyond [\d.]+° to port$/),
    ]);
    expect(found.filter((words) => words.includes('goes under'))).toEqual(['1500 mm stbd | outlet: goes under at 33.2° to starboard']);
});

test('and how fast it flows in each pipe, and what that takes', async () => {
    // 22.5 L/h = 6.25e-6 m³/s; by 50.27 mm² (8 mm) 0.124 m/s, by 28.27 mm² (6 mm) 0.221 m/s; the return 16.25 L/h by 28.27 mm² 0.160 m/s.
    const found = (await figures('lines.orlop', { orlop: { inlineFigures: true } })).filter((words) => words.includes('bore:'));
    expect(found.map((words) => /bore: ([\d.]+ m\/s) at full, takes [\d.]+ kPa/.exec(words)?.[1])).toEqual(['0.12 m/s', '0.12 m/s', '0.12 m/s', '0.22 m/s', '0.22 m/s', '0.16 m/s']);
});
